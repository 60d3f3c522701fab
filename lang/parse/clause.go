package parse

import (
	"cmp"
	"slices"
	"strings"

	"tamis/lang/ast"
	"tamis/lang/diag"
)

// query is err for a question.
func (p *parser) query(code string, from, to int, format string, args ...any) *diag.Diagnostic {
	if p.quiet(from) {
		return &diag.Diagnostic{}
	}
	return p.diags.Queryf(code, p.src.Span(from, to), format, args...)
}

// bars calls do for each part between the bars of a margin. text[from] is the
// first bar; the parts come without the blanks round them.
func (p *parser) bars(from, to int, do func(a, b int)) {
	for i := from + 1; i <= to; {
		end := strings.IndexByte(p.text[i:to], '|')
		next := to + 1
		if end < 0 {
			end = to
		} else {
			end += i
			next = end + 1
		}
		a := i + blanks(p.text[i:end])
		do(a, a+trimEnd(p.text[a:end]))
		i = next
	}
}

// margin reads the clauses of a margin, each alone, so that one bad clause
// costs one message.
func (p *parser) margin(out []*ast.Clause, place Place, from, to int) []*ast.Clause {
	p.bars(from, to, func(a, b int) {
		out = append(out, p.clause(place, a, b))
	})
	return out
}

// emptyClause reports a bar with nothing behind it, which ends at to.
func (p *parser) emptyClause(to int) {
	bar := strings.LastIndexByte(p.text[:to], '|')
	p.err(codeEmptyClause, bar, bar+1, "there is nothing behind this bar").
		WithHelp("take the bar out, or write something behind it").
		Replace("take the bar out", true, p.span(bar, to), "")
}

// clause reads text[a:b] as one clause.
func (p *parser) clause(place Place, a, b int) *ast.Clause {
	c := &ast.Clause{Span: p.span(a, b), Key: "bad"}
	t := p.text[a:b]
	if t == "" {
		p.emptyClause(a)
		return c
	}
	end := b
	if n := len(t) - 1; n > 1 && t[n] == '?' && isBlank(rune(t[n-1])) {
		c.Offered = true
		end = a + trimEnd(t[:n])
		t = p.text[a:end]
	}
	bad := func() *ast.Clause {
		c.Key = "bad"
		c.Text = ast.Text{Text: tidy(p.text[a:b]), Span: p.span(a, b)}
		c.Offered = false
		return c
	}
	s := p.piece(end)
	defer s.done()
	at := a
	if t[0] >= '0' && t[0] <= '9' && place == OnStep {
		if n := s.count(at, t); n > 0 {
			at += n + blanks(t[n:])
			if w, _ := LookUp(place, p.text[at:end]); w == nil || w.Text != "ring" && w.Text != "rings" {
				s.toks, at = s.toks[:0], a
			}
		}
	}
	w, n := LookUp(place, p.text[at:end])
	if w == nil {
		if !p.newer {
			p.unknownClause(place, a, end, t)
		}
		return bad()
	}
	s.addWord(tKey, at, w.Text)
	s.lex(at+n, w.reads)
	node, stuck, ok := run(&grammars.clause, s)
	if s.failed {
		return bad()
	}
	if !ok {
		p.explainClause(place, w, s, a, stuck)
		return bad()
	}
	p.fill(c, w, s, node)
	if s.failed {
		return bad()
	}
	return c
}

// fill turns what the grammar found into the clause.
func (p *parser) fill(c *ast.Clause, w *Word, s *piece, n *clauseNode) {
	c.Key = w.Text
	switch {
	case n.Spell != nil:
		c.Spell = p.spell(s, n.Spell)
	case n.Heat != nil:
		p.heat(c, s, n.Heat)
	case n.Ring != nil:
		c.Key, c.Level, c.Count = "ring", n.Ring.Level.Value, 1
		if n.Ring.Count.Type != 0 {
			c.Count = p.positive(s, n.Ring.Count)
		}
		if n.Ring.Grill.Type != 0 {
			c.Key, c.Level, c.Count = "grill", n.Ring.Heat.Value, 0
		}
	case n.Named != nil:
		c.Name = s.nameOf(n.Named.Name)
	case n.Takes != nil:
		c.Nothing = n.Takes.Nothing.Type != 0
		t := cmp.Or(n.Takes.Used, n.Takes.Given, &taken{})
		c.Amount, c.Name = s.amountOf(t.Qty), s.nameOf(cmp.Or(t.Of, t.Name))
		if v := s.of(t.Share); t.Share.Type != 0 {
			if c.Share = s.shareOf(t.Share); w.Text != "uses" {
				s.fail(codeClauseForm, v.at, v.to(), "`%s` takes an amount, not a share", w.Text).
					WithHelp("write it like this: `%s`", w.Form)
			}
		}
	case n.Degrees != nil:
		c.Temp = s.tempOf(cmp.Or(n.Degrees.Core, n.Degrees.Limit))
		if n.Degrees.For.Type != 0 {
			c.Spell = &ast.Spell{Fixed: s.timeOf(n.Degrees.For)}
		}
	case n.Where != nil:
		c.Place, c.Temp = w.Text, s.tempOf(n.Where.Temp)
	case n.Vessel != nil:
		v := n.Vessel
		if v.In.Type != 0 {
			c.Name, c.Measure = s.nameOf(v.Name), s.measureOf(v.Holds)
			if v.Many.Type != 0 {
				c.Count = p.positive(s, v.Many)
			}
		} else {
			c.Count, c.Name, c.Measure = p.positive(s, v.Count), s.nameOf(v.Of), s.measureOf(v.Each)
		}
	case n.Keep != nil:
		k := s.keepOf(&n.Keep.At)
		c.Spell, c.Place = &ast.Spell{Fixed: &k.Time}, k.Place
	case n.Hold != nil:
		c.Level, c.Spell = n.Hold.State.Value, &ast.Spell{Fixed: s.timeOf(n.Hold.Time)}
		c.Bound, c.Temp = n.Hold.Bound.Value, s.tempOf(n.Hold.Temp)
	case n.When != nil:
		c.Spell = &ast.Spell{Fixed: s.timeOf(n.When.Within)}
		if n.When.Edge.Type != 0 {
			c.Spell.Fixed = s.timeOf(n.When.Time)
		}
	case n.Who != nil:
		if n.Who.With.Type != 0 {
			c.Count = p.positive(s, n.Who.Count)
		} else {
			c.Names = s.names(&n.Who.Cooks)
		}
	case n.Says != nil:
		c.Text = s.textOf(n.Says.Text)
		if n.Says.More.Type != 0 {
			c.Text = s.textOf(n.Says.For)
		}
	case n.Size != nil:
		if n.Size.Part.Type != 0 {
			c.Count = p.positive(s, n.Size.No)
		} else {
			c.Measure = s.measureOf(n.Size.Qty)
		}
	}
}

func (p *parser) spell(s *piece, n *spellNode) *ast.Spell {
	if n.Until.Type != 0 {
		v := &ast.Spell{Fixed: s.timeOf(n.Say), Until: s.textOf(n.Until)}
		if v.Fixed != nil {
			v.Fixed.About = true
		}
		return v
	}
	v := &ast.Spell{Fixed: s.timeOf(n.Time)}
	if n.Every.Type != 0 {
		v.Every = s.timeOf(n.Every)
	}
	if n.Each == nil {
		return v
	}
	v.Per = v.Fixed
	v.Fixed = nil
	if n.Plus.Type != 0 {
		v.Fixed, v.Per = v.Per, s.timeOf(n.Plus)
	}
	e := n.Each
	switch {
	case e.Load.Type != 0:
		v.Each.Load = true
	case e.Qty.Type != 0:
		v.Each.Measure, v.Each.Name = s.measureOf(e.Qty), s.nameOf(e.Of)
	case e.Unit.Type != 0:
		v.Each.Measure, v.Each.Name = s.unitMeasure(e.Unit), s.nameOf(e.Of)
	default:
		v.Each.Name = s.nameOf(e.Name)
	}
	if name := v.Each.Name; !name.Quoted {
		if i := indexFold(name.Text, " plus "); i > 0 && startsNumber(name.Text[i+len(" plus "):]) {
			at := s.toks[0].at
			s.fail(codeGrowsLast, at, s.end, "the part of the time that grows comes last").
				WithHelp("write it like this: `%s 15 min plus 13 min per lb lamb`", s.toks[0].text)
		}
	}
	return v
}

func (p *parser) heat(c *ast.Clause, s *piece, n *heatNode) {
	for i := range n.Heats {
		h := &n.Heats[i]
		out := ast.HeatPhase{Temp: s.tempOf(cmp.Or(h.Temp, h.Set)), Fan: h.Fan.Type != 0, Word: h.Word.Value, For: s.timeOf(h.For)}
		if h.Gas.Type != 0 {
			r := s.rangeOf(h.Gas)
			out.Gas = r.Low.Text(false)
			if r.IsRange() {
				t := s.of(h.Gas)
				s.fail(codeClauseForm, t.at, t.to(), "a gas mark is one number").WithHelp("write such as `oven gas 6`")
			}
		}
		c.Heats = append(c.Heats, out)
		if last := i == len(n.Heats)-1; !last && out.For == nil {
			s.fail(codeClauseForm, c.Span.Start, c.Span.End, "each heat but the last says how long").
				WithHelp("write it like this: `oven 220 C for 20 min then 160 C`")
		}
	}
	for _, o := range n.Opts {
		switch {
		case o.In.Type != 0:
			c.Name = s.nameOf(o.In)
		case o.Shelf.Type != 0:
			c.Shelf, _, _ = strings.Cut(o.Shelf.Value, " ")
		default:
			c.Shelves = p.positive(s, o.Shelves)
		}
	}
}

// clauseOrder reports clauses that are there twice, and work, watch and leave
// in another order.
func (p *parser) clauseOrder(clauses []*ast.Clause) {
	if len(clauses) < 2 {
		return
	}
	var latest, gone *ast.Clause // the clause of the highest rank, and the first that leaves the step
	highest := 0
	firsts := p.firsts[:0] // of each word; there are only so many
	defer func() { p.firsts = firsts }()
	for _, c := range clauses {
		w := marginWord(c.Key)
		r := w.rank()
		if r == 0 && !w.has(once) {
			continue
		}
		from, to := c.Span.Start, c.Span.End
		at := slices.IndexFunc(firsts, func(f *ast.Clause) bool { return f.Key == c.Key })
		var before *ast.Clause
		if at >= 0 {
			before = firsts[at]
		} else {
			firsts = append(firsts, c)
		}
		switch {
		case before != nil:
			p.err(codeClauseTwice, from, to, "`%s` is there twice", c.Key).
				See(before.Span, "first here").
				WithHelp("%s", twiceHelp(r))
		case w.has(left) && gone != nil:
			p.err(codeClauseOrder, from, to, "a step is left once").
				See(gone.Span, "it is left here already").
				WithHelp("make the second part a step of its own")
		case r > 0 && latest != nil && highest > r:
			p.err(codeClauseOrder, from, to, "a step is worked, then watched, then left").
				See(latest.Span, "this comes after it").
				Because("the planner reckons the times of a step in this order").
				WithHelp("make the last part a step of its own, or change the order if it is only written so")
		}
		if w.has(left) && gone == nil {
			gone = c
		}
		if r > 0 && (latest == nil || r > highest) {
			latest, highest = c, r
		}
	}
}

func twiceHelp(rank int) string {
	if rank > 0 {
		return "add the times up, or make the second part a step of its own"
	}
	return "keep one of the two"
}
