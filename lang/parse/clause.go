package parse

import (
	"cmp"
	"slices"
	"strings"

	"tamis/lang/ast"
	"tamis/lang/diag"
	"tamis/lang/quantity"
)

// question is err for a question.
func (p *parser) question(code string, from, to int, format string, args ...any) *diag.Diagnostic {
	if p.quiet(from) {
		return &diag.Diagnostic{}
	}
	return p.diags.Askf(code, p.src.Span(from, to), format, args...)
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
func (p *parser) margin(out []ast.Clause, place Place, from, to int) []ast.Clause {
	out = slices.Grow(out, strings.Count(p.text[from:to], "|"))
	var empty []int // where the parts end that say nothing
	p.bars(from, to, func(a, b int) {
		if a == b {
			empty = append(empty, a)
		}
		out = append(out, p.clause(place, a, b))
	})
	p.emptyClauses(empty)
	return out
}

// emptyClauses reports the bars of a margin with nothing behind them, each by where
// the nothing ends.
func (p *parser) emptyClauses(ends []int) {
	if len(ends) == 0 {
		return
	}
	fix := diag.Fix{Title: "take the bar out", Safe: true}
	for _, to := range ends {
		bar := strings.LastIndexByte(p.text[:to], '|')
		from := bar
		if rest := p.text[to:]; rest == "" || rest[0] == '\n' { // the last of its line
			from = trimEnd(p.text[:bar])
		}
		fix.Edits = append(fix.Edits, diag.Edit{Span: p.span(from, to)})
	}
	bar := strings.LastIndexByte(p.text[:ends[0]], '|')
	d := p.err(codeEmptyClause, bar, bar+1, "there is nothing after this bar").
		WithHelp("take the bar out, or write something after it")
	if n := len(ends) - 1; n > 0 {
		d.Labelled("nor after %s more", plural(n, "bar", "bars"))
		fix.Title = "take the bars out"
	}
	d.Fixes = append(d.Fixes, fix)
}

// clause reads text[a:b] as one clause.
func (p *parser) clause(place Place, a, b int) ast.Clause {
	t := p.text[a:b]
	if t == "" { // told of by margin
		return &ast.Unread{Lead: ast.Lead{Span: p.span(a, b)}}
	}
	end, offered := b, false
	if n := len(t) - 1; n > 1 && t[n] == '?' && isBlank(rune(t[n-1])) {
		offered = true
		end = a + trimEnd(t[:n])
		t = p.text[a:end]
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
		return p.unread(a, b)
	}
	said := lower(p.text[at : at+n])
	if rest := p.text[at+n+blanks(p.text[at+n:end]) : end]; said == "gas" && rest != "" && startsNumber(rest) { // the mark of an oven
		w, _ = LookUp(OnStep, "oven")
		said, n = w.Text, 0
	}
	if said != w.Text && !onlyIf(said, p.text[at+n+blanks(p.text[at+n:end]):end]) {
		if !p.newer {
			p.unknownClause(place, a, end, t)
		}
		return p.unread(a, b)
	}
	s.addWord(tKey, at, w.Text)
	s.lex(at+n, w.reads)
	s.saidFor(said)
	node, stuck, ok := run(&grammars.clause, s)
	if !ok && !s.failed {
		p.explainClause(place, w, s, a, stuck)
	}
	if !ok || s.failed {
		return p.unread(a, b)
	}
	c := p.toClause(ast.Lead{Span: p.span(a, b), Word: w.Text, Offered: offered}, w, s, node)
	if s.failed {
		return p.unread(a, b)
	}
	return c
}

// unread is a clause or a fact that could not be read, as it was written.
func (p *parser) unread(a, b int) *ast.Unread {
	at := p.span(a, b)
	return &ast.Unread{Lead: ast.Lead{Span: at}, Text: ast.Text{Text: tidy(p.text[a:b]), Span: at}}
}

// toClause turns what the grammar found into the clause.
func (p *parser) toClause(l ast.Lead, w *Word, s *piece, n *clauseNode) ast.Clause {
	switch {
	case n.Spell != nil:
		return &ast.Timed{Lead: l, Spell: p.spell(s, n.Spell)}
	case n.Heat != nil:
		return p.heat(l, s, n.Heat)
	case n.Ring != nil && n.Ring.Grill.Type != 0:
		return &ast.Ring{Lead: l, Level: n.Ring.Heat.Value}
	case n.Ring != nil:
		l.Word = "ring"
		c := &ast.Ring{Lead: l, Count: 1, Level: n.Ring.Level.Value}
		if n.Ring.Count.Type != 0 {
			c.Count = p.positive(s, n.Ring.Count)
		}
		return c
	case n.Named != nil:
		return &ast.Named{Lead: l, Name: s.nameOf(n.Named.Name)}
	case n.Takes != nil:
		t := cmp.Or(n.Takes.Used, n.Takes.Given, &taken{})
		if t.Share.Type != 0 && w.Text != "uses" {
			v := s.of(t.Share)
			s.fail(codeClauseForm, v.at, v.to(), "`%s` takes an amount, not a share", w.Text).
				WithHelp("write it like this: `%s`", w.Form)
		}
		return &ast.Taking{
			Lead: l, Nothing: n.Takes.Nothing.Type != 0, Share: s.shareOf(t.Share), Amount: s.amountOf(t.Qty), Name: s.nameOf(cmp.Or(t.Of, t.Name)),
		}
	case n.Degrees != nil:
		return &ast.Degrees{Lead: l, Temp: s.tempOf(cmp.Or(n.Degrees.Core, n.Degrees.Limit)), For: s.timeOf(n.Degrees.For)}
	case n.Where != nil:
		return &ast.InPlace{Lead: l, Temp: s.tempOf(n.Where.Temp)}
	case n.Vessel != nil && n.Vessel.In.Type != 0:
		v := n.Vessel
		c := &ast.InVessel{Lead: l, Name: s.nameOf(v.Name), Size: s.measureOf(v.Holds), Piece: s.nameOf(v.Piece)}
		if v.Many.Type != 0 {
			c.Count = p.positive(s, v.Many)
		}
		return c
	case n.Vessel != nil:
		v := n.Vessel
		return &ast.InVessel{Lead: l, Count: p.positive(s, v.Count), Name: s.nameOf(v.Of), Size: s.measureOf(v.Each)}
	case n.Keep != nil:
		return &ast.Stay{Lead: l, Keep: s.keepOf(&n.Keep.At)}
	case n.Hold != nil:
		h := n.Hold
		return &ast.Hold{Lead: l, State: h.State.Value, UpTo: s.timeOf(h.Time), Bound: h.Bound.Value, Temp: s.tempOf(h.Temp)}
	case n.When != nil:
		return &ast.Timing{Lead: l, Time: s.timeOf(cmp.Or(n.When.Within, n.When.Time))}
	case n.Who != nil && n.Who.With.Type != 0:
		return &ast.Hands{Lead: l, Count: p.positive(s, n.Who.Count)}
	case n.Who != nil:
		return &ast.Hands{Lead: l, Cooks: s.names(&n.Who.Cooks)}
	case n.Says != nil:
		return &ast.Note{Lead: l, Text: s.textOf(cmp.Or(n.Says.Text, n.Says.For))}
	case n.Size != nil && n.Size.From.Type != 0:
		return &ast.From{Lead: l, Seller: s.seller(n.Size.The, n.Size.From)}
	case n.Size != nil && n.Size.Buy.Type != 0:
		c := &ast.Buy{Lead: l, Name: s.nameOf(n.Size.Name)}
		if a := s.amountOf(n.Size.Buy); a != nil && a.Kind == quantity.Plain {
			c.Measure = a.Measure
		} else {
			t := s.of(n.Size.Buy)
			s.fail(codeClauseForm, t.at, t.to(), "%s is no plain amount", p.quote(t.at, t.to())).WithHelp("write it like this: `%s`", w.Form)
		}
		return c
	case n.Size != nil && n.Size.Part.Type != 0:
		return &ast.InPart{Lead: l, Part: p.positive(s, n.Size.No)}
	case n.Size != nil:
		return &ast.Weighed{Lead: l, Measure: s.measureOf(n.Size.Qty)}
	}
	return &ast.Mark{Lead: l}
}

func (p *parser) spell(s *piece, n *spellNode) ast.Spell {
	if n.Until.Type != 0 {
		v := ast.Spell{Fixed: s.timeOf(n.Say), Until: s.textOf(n.Until)}
		if v.Fixed != nil {
			v.Fixed.About = true
		}
		return v
	}
	if n.At.Type != 0 {
		return p.byWeight(s, n)
	}
	v := ast.Spell{Fixed: s.timeOf(n.Time)}
	if n.Every.Type != 0 {
		v.Every = p.someTime(s, n.Every)
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
	v.Each.Largest = e.Big.Type != 0
	if name := v.Each.Name; !name.Quoted {
		if i := quantity.IndexFold(name.Text, " plus "); i > 0 && startsNumber(name.Text[i+len(" plus "):]) {
			at := s.toks[0].at
			s.fail(codeGrowsLast, at, s.end, "the part of the time that grows comes last").
				WithHelp("write it like this: `%s 15 min plus 13 min per lb lamb`", s.toks[0].text)
		}
	}
	return v
}

// byWeight reads a time that goes by weight: `2 h 30 min at 10 lb, 4 h 30 min at 16 lb`.
func (p *parser) byWeight(s *piece, n *spellNode) ast.Spell {
	v := ast.Spell{Points: []ast.Point{{Time: s.timeOf(n.Time), Weight: s.measureOf(n.At)}}, Each: ast.Each{Name: s.nameOf(n.Of)}}
	slots := []slot{n.At}
	for i := range n.More {
		switch m := &n.More[i]; {
		case m.Most.Type == 0:
			v.Points = append(v.Points, ast.Point{Time: s.timeOf(m.Time), Weight: s.measureOf(m.At)})
			slots = append(slots, m.At)
		case i < len(n.More)-1:
			t := s.of(m.Most)
			s.fail(codeClauseForm, t.at, s.end, "`at most` comes last").
				WithHelp("write it like this: `leave 2 h at 4 kg, 3 h at 6 kg, at most 5 h`")
		default:
			v.AtMost = s.timeOf(m.Most)
		}
	}
	var before quantity.Quantity
	for i, pt := range v.Points {
		t := s.of(slots[i])
		q, problem := pt.Weight.Quantity(s.p.opt.System)
		switch {
		case problem != nil || q.Dim != quantity.Mass || q.Value.High.Sign() <= 0 || slices.ContainsFunc(pt.Weight.Terms, func(t quantity.Term) bool { return t.Value.IsRange() }):
			s.fail(codeClauseForm, t.at, t.to(), "%s is no weight", p.quote(t.at, t.to())).
				Because("after `at` stands what the thing weighs").
				WithHelp("write it like this: `leave 2 h at 4 kg, 3 h at 6 kg`")
		case i > 0 && !before.Value.High.Less(q.Value.High):
			s.fail(codeClauseForm, t.at, t.to(), "the weights rise").
				WithHelp("put the lightest first: `leave 2 h at 4 kg, 3 h at 6 kg`")
		}
		before = q
	}
	return v
}

func (p *parser) heat(l ast.Lead, s *piece, n *heatNode) *ast.Heat {
	c := &ast.Heat{Lead: l, Phases: make([]ast.HeatPhase, 0, len(n.Heats))}
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
		c.Phases = append(c.Phases, out)
		if last := i == len(n.Heats)-1; !last && out.For == nil {
			s.fail(codeClauseForm, c.Span.Start, c.Span.End, "each heat but the last says how long").
				WithHelp("write it like this: `oven 220 C for 20 min then 160 C`")
		}
	}
	for _, o := range n.Opts {
		switch {
		case o.In.Type != 0:
			c.Oven = s.nameOf(o.In)
		case o.Fan.Type != 0:
			c.Fan = strings.TrimPrefix(o.Fan.Value, "fan ")
		case o.Shut.Type != 0:
			c.Shut = s.timeOf(o.Shut)
		case o.Shelf.Type != 0:
			c.Shelf, _, _ = strings.Cut(o.Shelf.Value, " ")
		default:
			c.Shelves = p.positive(s, o.Shelves)
		}
	}
	return c
}

// clauseOrder reports clauses that are there twice, and work, watch and leave
// in another order. Work that is written after a time with free hands is done
// then; what is done again and again meanwhile is no time of its own.
func (p *parser) clauseOrder(clauses []ast.Clause) {
	if len(clauses) < 2 {
		return
	}
	var latest, gone *ast.Lead // the clause of the highest rank, and the first that leaves the step
	highest := 0
	firsts := p.firsts[:0] // of each word; there are only so many
	defer func() { p.firsts = firsts }()
	for _, clause := range clauses {
		c := clause.Base()
		w := marginWord(c.Word)
		r := w.rank()
		if r == 0 && !w.has(once) || again(clause) {
			continue
		}
		if r == 1 && highest > 1 {
			c.Word = thenWork
			w = marginWord(thenWork)
			r = w.rank()
		}
		from, to := c.Span.Start, c.Span.End
		at := slices.IndexFunc(firsts, func(f *ast.Lead) bool { return f.Word == c.Word || oftenWords[f.Word] && oftenWords[c.Word] })
		var before *ast.Lead
		if at >= 0 {
			before = firsts[at]
		} else {
			firsts = append(firsts, c)
		}
		switch {
		case before != nil:
			message := "`" + c.Word + "` is there twice"
			if before.Word != c.Word {
				message = "`" + c.Word + "`, and `" + before.Word + "`"
			}
			p.err(codeClauseTwice, from, to, "%s", message).
				See(before.Span, "first here").
				WithHelp("%s", twiceHelp(r))
		case w.has(left) && gone != nil:
			p.err(codeClauseOrder, from, to, "a step is left once").
				See(gone.Span, "it is left here already").
				WithHelp("make the second part a step of its own")
		case r > 0 && r < 4 && latest != nil && highest > r:
			p.err(codeClauseOrder, from, to, "a step is worked, then watched, then left").
				See(latest.Span, "this comes after it").
				Because("the planner counts the times of a step in this order, and only work may come after").
				WithHelp("make the last part a step of its own, or change the order if it is only written so")
		}
		if w.has(left) && gone == nil {
			gone = c
		}
		if r > 0 && r < 4 && (latest == nil || r > highest) { // `then work` says itself when it is
			latest, highest = c, r
		}
	}
}

// oftenWords say how often a step is done.
var oftenWords = map[string]bool{"twice": true, "three times": true, "four times": true}

// thenWork is work when a step has been watched or left.
const thenWork = "then work"

// again tells whether a clause is attention now and then while a step runs.
func again(c ast.Clause) bool {
	t, ok := c.(*ast.Timed)
	return ok && t.Spell.Every != nil
}

func twiceHelp(rank int) string {
	if rank > 0 {
		return "add the times up, or make the second part a step of its own"
	}
	return "keep one of the two"
}
