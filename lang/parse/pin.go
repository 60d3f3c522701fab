package parse

import "tamis/lang/ast"

// pins reads the lines below a serving: `step 3: at day before, 17:30, by Nell, in small`.
func (p *parser) pins(l *line) (out []*ast.Pin) {
	for _, k := range l.kids {
		if v := p.pin(k); v != nil {
			out = append(out, v)
		}
	}
	return out
}

func (p *parser) pin(k *line) *ast.Pin {
	t := p.content(k)
	w, n := LookUp(OnPin, t)
	if w == nil {
		p.err(codeDeeper, k.start, k.end, "nothing stands below a dish on the menu but lines for its steps").
			WithHelp("line it up with the line above").
			WithHelp("or say when one of its steps begins: `%s`", WordsIn(OnPin)[0].Form)
		return nil
	}
	s := p.piece(k.end)
	defer s.done()
	s.addWord(tKey, k.start, w.Text)
	p.lexPin(s, k.start+n)
	node, stuck, ok := run(&grammars.pin, s)
	m := p.meta(k)
	p.noKids(k, &m, OnPin.String())
	if s.failed {
		return nil
	}
	if !ok {
		p.err(codeForm, min(stuck.at, s.end-1), s.end, "this line for a step does not read").
			WithHelp("write it like this: `%s`", w.Form)
		return nil
	}
	v := &ast.Pin{Meta: m, Step: p.positive(s, node.Step)}
	for i := range node.Opts {
		switch o := &node.Opts[i]; {
		case o.At.Type != 0:
			at := s.clockOf(o.Clock)
			v.At, v.Date = &at, s.dateOf(o.Date)
			switch {
			case o.Count.Type != 0:
				v.DaysBefore = s.intOf(o.Count)
			case o.Day.Value == "day before":
				v.DaysBefore = 1
			}
		case o.By.Type != 0:
			v.By = append(v.By, s.nameOf(o.By))
		case o.In.Type != 0:
			v.Oven = s.nameOf(o.In)
		case len(v.By) > 0:
			v.By = append(v.By, s.nameOf(o.Also))
		default:
			t := s.of(o.Also)
			p.err(codeForm, t.at, t.to(), "`%s` says nothing about a step", t.text).
				WithHelp("after the colon stands `at 17:30`, `by Nell` or `in small`")
		}
	}
	return v
}

// lexPin cuts what follows `step`.
func (p *parser) lexPin(s *piece, i int) {
	for i += blanks(p.text[i:s.end]); i < s.end; i += blanks(p.text[i:s.end]) {
		text := p.text[i:s.end]
		if text[0] == ',' {
			i = s.add(tComma, i, i+1, nil)
			continue
		}
		if text[0] == ':' {
			s.addWord(tWord, i, ":")
			i++
			continue
		}
		if word, n := joinedBy([]string{"at", "by", "in", "on the day", "day before", "days before"}, text); n > 0 {
			s.addWord(tWord, i, word)
			i += n
			continue
		}
		if startsNumber(text) {
			n := s.date(i, text)
			if n == 0 {
				n = s.clock(i, text)
			}
			if n == 0 {
				n = s.figures(i, text)
			}
			if n == 0 {
				n = s.digits(i, text)
			}
			if n > 0 {
				i += n
				continue
			}
		}
		if n := s.aName(i, text); n > 0 {
			i += n
			continue
		}
		s.add(tJunk, i, i+1, nil)
		i++
	}
}

// figures reads a whole number, which a colon may follow.
func (s *piece) figures(i int, text string) int {
	n, v := 0, 0
	for n < len(text) && n < 6 && text[n] >= '0' && text[n] <= '9' {
		v = v*10 + int(text[n]-'0')
		n++
	}
	if n == 0 || n < len(text) && text[n] != ':' && text[n] != ' ' {
		return 0
	}
	s.add(tInt, i, i+n, v)
	return n
}
