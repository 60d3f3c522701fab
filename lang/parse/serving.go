package parse

import (
	"regexp"
	"strconv"
	"strings"

	"tamis/lang/ast"
	"tamis/lang/quantity"
)

func (p *parser) servings(l *line) (out []*ast.Serving) {
	dashes := repeated{code: codeListDash, message: "a dish on the menu takes no dash", title: "take it out"}
	for _, k := range l.kids {
		if n, _ := bullet(p.content(k)); n > 0 {
			dashes.add(p, k, k.start, k.start+n, "")
			k.start += n
			if k.start == k.end {
				continue
			}
		}
		if v := p.serving(k); v != nil {
			out = append(out, v)
		}
	}
	dashes.report(p)
	return out
}

// serving reads a line of a course.
func (p *parser) serving(k *line) *ast.Serving {
	t := p.content(k)
	if p.hash(k, t) {
		return nil
	}
	if bar := strings.IndexByte(t, '|'); bar >= 0 {
		p.err(codeMarginOnly, k.start+bar, k.end, "a dish on the menu has no margin").
			WithHelp("what is said about a serving follows a comma: `Plum crumble, for 10`")
		return nil
	}
	s := p.piece(k.end)
	defer s.done()
	p.lexServing(s, k.start)
	n, stuck, ok := run(&grammars.serving, s)
	m := p.meta(k)
	pins := p.pins(k)
	if _, n, _ := quantity.ReadAmount(t, p.opt); n > 0 && startsNumber(t) {
		p.err(codeServing, k.start, k.start+n, "a dish on the menu takes no amount").
			WithHelp("for a number of people write it after the name: `Plum crumble, for 10`").
			WithHelp("if the figure belongs to the name, put quotes round the name")
		return nil
	}
	if !ok || s.failed {
		if !s.failed {
			p.explainServing(s, stuck)
		}
		return nil
	}
	v := &ast.Serving{Meta: m, Ref: s.nameOf(n.Ref), Pins: pins}
	for i := range n.Opts {
		o := &n.Opts[i]
		switch {
		case o.For.Type != 0:
			v.For = p.positive(s, o.For)
		case o.Cook.Type != 0:
			v.CookFor = p.positive(s, o.Cook)
		case o.Keep.Type != 0:
			v.KeepFor = s.textOf(o.Keep)
		case o.From.Type != 0:
			v.From = s.seller(o.The, o.From)
		case o.Mark.Type != 0:
			switch o.Mark.Value {
			case "ahead":
				v.Ahead = true
			case "straight through":
				v.Straight = true
			default:
				v.ToWrite = true
			}
		default:
			label := s.nameOf(o.Label)
			if right := synonyms[OnServing][fold(label.Text)]; right != "" {
				p.err(codeServing, label.Span.Start, label.Span.End, "`%s` is no word of a serving", label.Text).
					WithHelp("did you mean `%s`?", right).Replace("write "+right, false, label.Span, right)
				continue
			}
			v.Options = append(v.Options, label)
		}
	}
	p.servingComma(v)
	if v.Ahead && v.Straight {
		p.err(codeServing, k.start, k.end, "made ahead and made straight through exclude each other").WithHelp("keep one of the two")
	}
	return v
}

// lexServing reads the name and what follows its commas.
func (p *parser) lexServing(s *piece, i int) {
	afterComma := false
	for i += blanks(p.text[i:s.end]); i < s.end; i += blanks(p.text[i:s.end]) {
		text := p.text[i:s.end]
		if text[0] == ',' {
			i = s.add(tComma, i, i+1, nil)
			afterComma = true
			continue
		}
		if afterComma {
			afterComma = false
			if w, n := LookUp(OnServing, text); w != nil {
				rest := text[n:]
				whole := strings.TrimSpace(rest) == "" || rest[blanks(rest)] == ','
				switch {
				case w.Text == "for" || w.Text == "cook for":
					s.addWord(tWord, i, w.Text)
					i += n
					i += blanks(p.text[i:s.end])
					if c := s.count(i, p.text[i:s.end]); c > 0 {
						i += c
					} else {
						i += s.digits(i, p.text[i:s.end])
					}
					continue
				case w.Text == "from":
					said := lower(text[:n])
					s.addWord(tWord, i, w.Text)
					if i += n; said == "store-bought" {
						s.addWord(tWord, i, "the")
						s.toks = append(s.toks, tok{text: "shop", kind: tName, at: i})
						continue
					}
					if k := matchGroup(rest[blanks(rest):], "the"); k > 0 {
						s.addWord(tWord, i+blanks(rest), "the")
						i += blanks(rest) + k
					}
					continue
				case w.Text == "keep the remains for":
					s.addWord(tWord, i, w.Text)
					if i += n + blanks(rest); i < s.end { // for what, nobody said: told by the grammar
						i, _ = s.token(i, wPhrase, rule{wPhrase, wName, nil})
					}
					continue
				case whole:
					s.addWord(tWord, i, w.Text)
					i += n
					continue
				}
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

func (p *parser) explainServing(s *piece, stuck tok) {
	at := stuck.at
	prev := tok{}
	for _, t := range s.toks {
		if t.at < at {
			prev = t
		}
	}
	switch {
	case prev.kind == tWord && (prev.text == "for" || prev.text == "cook for"):
		p.err(codeServing, prev.at, s.end, "`%s` wants a whole number", prev.text).
			Because("an option cannot begin with `for`, so this is the number of people").
			WithHelp("write such as `, %s 10`", prev.text)
	case stuck.kind == -1:
		p.err(codeServing, s.toks[0].at, s.end, "something is missing after the comma").
			WithHelp("take the comma out, or say `for 10`, `ahead`, `straight through`, `from the shop` or the name of an option")
	default:
		p.err(codeServing, at, s.end, "%s does not belong to the name of a dish", p.quote(at, s.end)).
			WithHelp("put a comma before `for 10`, `ahead` or an option; put quotes round a name with such signs")
	}
}

var (
	tailOfServing = regexp.MustCompile(`(?i)\s+(for\s+\d+|cook\s+for\s+\d+|ahead|straight\s+through|from\s+the\s+(?:shop|store)|store-bought|to\s+be\s+written)$`)
	tailOfCourse  = regexp.MustCompile(`(?i)\s+(at\s+\d{1,2}[:.]\d\d|\d[\w. ]*\s+after\s+\S.*)$`)
)

// servingComma reports a word that belongs behind a comma and stands at the end
// of a name, and reads it as if the comma were there.
func (p *parser) servingComma(v *ast.Serving) {
	if v.Ref.Quoted {
		return
	}
	raw := v.Ref.Span.Text()
	m := tailOfServing.FindStringSubmatchIndex(raw)
	if m == nil || m[0] == 0 {
		return
	}
	p.missingComma(v.Ref.Span.Start, m, raw)
	v.Ref.Text, v.Ref.Span.End = tidy(raw[:m[0]]), v.Ref.Span.Start+m[0]
	parts := strings.Fields(lower(raw[m[2]:m[3]]))
	count, _ := strconv.Atoi(parts[len(parts)-1])
	switch parts[0] {
	case "for":
		v.For = count
	case "cook":
		v.CookFor = count
	case "ahead":
		v.Ahead = true
	case "straight":
		v.Straight = true
	case "from", "store-bought":
		v.From = ast.Seller{The: true, Name: ast.Name{Text: "shop", Span: v.Ref.Span}}
	case "to":
		v.ToWrite = true
	}
}

// courseComma reports the same for the time of a course, and gives the name
// before it; "" when the line has not that slip.
func (p *parser) courseComma(l *line, n int) string {
	t := p.content(l)
	if strings.ContainsAny(t, ",\"“”") {
		return ""
	}
	m := tailOfCourse.FindStringSubmatchIndex(t[n:])
	if m == nil || m[0] == 0 {
		return ""
	}
	p.missingComma(l.start+n, m, t[n:])
	return tidy(t[n : n+m[0]])
}

func (p *parser) missingComma(at int, m []int, text string) {
	p.err(codeNoComma, at+m[2], at+m[3], "a comma is missing before `%s`", text[m[2]:m[3]]).
		Because("only a comma ends a name").
		WithHelp("write `%s, %s`", tidy(text[:m[0]]), text[m[2]:m[3]]).
		Replace("put a comma", false, p.span(at+m[0], at+m[2]), ", ")
}
