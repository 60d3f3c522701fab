package resolve

import (
	"regexp"
	"slices"
	"strings"

	"tamis/compiler/larder"
	"tamis/lang/ast"
	"tamis/lang/diag"
	"tamis/lang/format"
	"tamis/lang/prose"
	"tamis/lang/quantity"
	"tamis/lang/source"
)

// Where a margin says nothing of heat, time or place, what the sentence says is
// read as a clause of it that nobody has confirmed: an offer. It becomes a clause
// of the model like any other, with Offered and Said set, so that every pass after
// this one plans with it and prints it with a "?". What a sentence says is read by
// lang/prose; here it meets the margin, slot by slot, and the margin wins.

// Offer is what one sentence or one note offers.
type Offer struct {
	At     source.Span // the words it was read from
	Margin string      // as it would be written: "ring low ? | leave 40 min ?"; stages are parted by ". "
	Steps  []*Step     // the steps it belongs to: more than one where a step was parted; none: a line's
	Line   *Line       // the line whose note it is; nil: a step's
	Asked  []Text      // further times that are said for another case, and are not planned with
	Write  []diag.Edit // writes it into the text
}

// part is a step to be resolved: one that is written, or part of one.
type part struct {
	*ast.Step
	of    *ast.Step // the step as it is written
	said  int       // how many of its clauses, the last ones, are read from its sentence
	offer *Offer    // nil: nothing is
	plain bool      // its sentence, which is whole, says neither a time nor a heat
}

// offering reads the offers of one recipe, in the order of its steps.
type offering struct {
	*builder
	r     *Recipe
	oven  *prose.Heat
	whole bool // no step is parted: the sentences speak of them by number
}

var byNumber = regexp.MustCompile(`(?i)\bsteps? [0-9]`)

func (b *builder) offering(r *Recipe) *offering {
	o := &offering{builder: b, r: r}
	for _, it := range r.method.Items {
		if s, ok := it.(*ast.Step); ok && strings.Contains(s.Prose.Text, "tep") && byNumber.MatchString(s.Prose.Text) {
			o.whole = true
		}
	}
	for _, l := range r.Lines {
		o.note(l)
	}
	return o
}

// note reads what the note of a line offers: "soaked overnight".
func (o *offering) note(l *Line) {
	if l.Note.IsZero() || len(l.Prep) > 0 || l.Note.Span.File == nil {
		return
	}
	c := prose.Note(l.Note.Text)
	if c == nil {
		return
	}
	t := c.Clause.(*ast.Timed)
	t.Span = l.Note.Span
	sp := spell(t)
	sp.Said = true
	l.Prep = append(l.Prep, sp)
	end := l.Note.Span.File.Span(l.Note.Span.End, l.Note.Span.End)
	o.r.Offers = append(o.r.Offers, &Offer{
		At: l.Note.Span, Line: l, Margin: format.Margin([]ast.Clause{t}),
		Write: []diag.Edit{{Span: end, Text: " | " + format.Margin([]ast.Clause{t})}},
	})
}

// given are the slots that a margin has filled.
func given(x *ast.Step) (g prose.Given) {
	g.Any = len(x.Clauses) > 0 || len(x.Moments) > 0
	for _, c := range x.Clauses {
		switch c := c.(type) {
		case *ast.Timed:
			g.Time = g.Time || c.Word != string(WordThenWork) // what comes after says nothing of how long it cooks
		case *ast.Stay:
			if c.Word != "keeps" {
				g.Time, g.Place, g.Heat = true, true, true
			}
		case *ast.Heat, *ast.Ring:
			g.Heat = true
		case *ast.InPlace:
			g.Place, g.Heat = true, true
		case *ast.Timing:
			g.Start = true
		case *ast.Degrees:
			g.Degrees = true
		case *ast.Hold:
			g.Hold = true
		case *ast.Named:
			g.Tool = g.Tool || c.Word == "tool"
		}
	}
	return g
}

// step reads what the sentence of a step offers, and gives the steps it is.
func (o *offering) step(x *ast.Step) []part {
	if len(x.Lines) == 0 {
		return []part{{Step: x, of: x, plain: true}}
	}
	g := given(x)
	g.Start = g.Start || o.r.Base
	g.Any = g.Any || o.whole
	text := joined(x.Lines)
	said := prose.Read(text.text)
	plain := len(said.Times) == 0 && len(said.Heats) == 0
	of := said.Offer(g, o.oven)
	o.oven = of.Oven
	offer := &Offer{}
	for _, t := range of.Asked {
		at := text.place(t.From, t.To)
		offer.Asked = append(offer.Asked, Text{at.Text(), at})
	}
	var parts []part
	var margins []string
	for i := range of.Stages {
		s := &of.Stages[i]
		clauses := o.clauses(s, text, offer)
		p := part{Step: x, of: x, said: len(clauses), offer: offer, plain: plain}
		if len(of.Stages) > 1 || len(s.Moments) > 0 {
			p.Step, p.plain = text.part(x, of.Stages, i), false
		}
		if len(clauses) > 0 {
			margins = append(margins, format.Margin(clauses))
			copied := *p.Step
			copied.Clauses = append(copied.Clauses[:len(copied.Clauses):len(copied.Clauses)], clauses...)
			p.Step = &copied
		}
		parts = append(parts, p)
	}
	if len(margins) == 0 && len(offer.Asked) == 0 {
		return []part{{Step: x, of: x, plain: plain}}
	}
	if len(margins) == 0 {
		offer.At = offer.Asked[0].Span
	}
	offer.Margin = strings.Join(margins, ". ")
	if len(margins) > 0 {
		offer.Write = text.write(x, parts)
	}
	o.r.Offers = append(o.r.Offers, offer)
	return parts
}

// clauses are the clauses of a stage with their places in the text. A time by a
// weight of nobody knows what is asked about.
func (o *offering) clauses(s *prose.Stage, text prosed, offer *Offer) (out []ast.Clause) {
	for _, c := range s.Clauses {
		at := text.place(c.From, c.To)
		c.Base().Span = at
		if t, ok := c.Clause.(*ast.Timed); ok && c.Weighed {
			l := o.weighed(text.text[s.From:s.To])
			if l == nil {
				offer.Asked = append(offer.Asked, Text{at.Text(), at})
				continue
			}
			t.Spell.Each.Name = ast.Name{Text: l.Name, Span: t.Span}
		}
		if offer.At.IsZero() {
			offer.At = at
		}
		out = append(out, c.Clause)
	}
	return out
}

// weighed is the thing by whose weight a text tells a time: the one piece of meat or fish
// that it names; where it names others, as the broth to baste with, the one that is
// gathered; where none is gathered, the one thing that it names and the list weighs. Nil:
// nobody can tell.
func (o *offering) weighed(text string) *Line {
	flesh := func(l *Line) bool {
		it := l.item()
		return it != nil && (it.Counter == "butcher" || it.Counter == "fishmonger")
	}
	named := o.weighs(text)
	joints := slices.DeleteFunc(slices.Clone(named), func(l *Line) bool { return !flesh(l) })
	if len(joints) == 0 && len(named) > 0 {
		for _, l := range o.r.Lines {
			if flesh(l) {
				joints = append(joints, l)
			}
		}
		if len(joints) == 0 {
			joints = named
		}
	}
	if len(joints) != 1 || joints[0].Quantity == nil || joints[0].Quantity.Dim != quantity.Mass {
		return nil
	}
	return joints[0]
}

// weighs are the things that a text names and the list weighs, in order.
func (o *offering) weighs(text string) (found []*Line) {
	f := o.finder(o.r, o.r.Lines, nil)
	words := o.words(text)
	for i := range words {
		for _, m := range f.at(words, i, false) {
			l := m.target.line
			if l != nil && l.Quantity != nil && l.Quantity.Dim == quantity.Mass && !slices.Contains(found, l) {
				found = append(found, l)
			}
		}
	}
	return found
}

// prosed is the written lines of a step as one text, joined by blanks.
type prosed struct {
	text   string
	lines  []ast.Text
	starts []int
}

func joined(lines []ast.Text) prosed {
	p := prosed{lines: lines}
	if len(lines) == 1 {
		p.text, p.starts = lines[0].Text, []int{0}
		return p
	}
	var b strings.Builder
	for i, l := range lines {
		if i > 0 {
			b.WriteByte(' ')
		}
		p.starts = append(p.starts, b.Len())
		b.WriteString(l.Text)
	}
	p.text = b.String()
	return p
}

// place is where the bytes from and to of the text were written.
func (p prosed) place(from, to int) source.Span {
	at := func(off int) int {
		i := len(p.starts) - 1
		for i > 0 && p.starts[i] > off {
			i--
		}
		return p.lines[i].Span.Start + off - p.starts[i]
	}
	return p.lines[0].Span.File.Span(at(from), at(max(from, to-1))+1)
}

// between are the lines of the text from one byte to another, as a sentence of
// its own: with a capital, and a full stop where a comma was.
func (p prosed) between(from, to int) (out []ast.Text) {
	for i, l := range p.lines {
		a, b := max(from, p.starts[i]), min(to, p.starts[i]+len(l.Text))
		for a < b && p.text[a] == ' ' {
			a++
		}
		end := b
		for end > a && p.text[end-1] == ' ' && b < to {
			end--
		}
		if a >= end {
			continue
		}
		out = append(out, ast.Text{Text: p.text[a:end], Span: p.place(a, end)})
	}
	return out
}

// sentence makes a sentence of lines that were cut out of one.
func sentence(lines []ast.Text) []ast.Text {
	if len(lines) == 0 {
		return nil
	}
	lines[0].Text = larder.Capital(lines[0].Text)
	last := &lines[len(lines)-1]
	if n := len(last.Text) - 1; strings.IndexByte(",; ", last.Text[n]) >= 0 {
		last.Text = last.Text[:n] + "."
	}
	return lines
}

// part is the step that stage i of a written one is.
func (p prosed) part(x *ast.Step, stages []prose.Stage, i int) *ast.Step {
	s := stages[i]
	out := *x
	out.Lines, out.Moments = nil, nil
	from := s.From
	for _, m := range s.Moments {
		out.Lines = append(out.Lines, p.between(from, m.From)...)
		from = m.To
	}
	out.Lines = sentence(append(out.Lines, p.between(from, s.To)...))
	for _, m := range s.Moments {
		lines := sentence(p.between(m.Does, m.End))
		at := p.place(m.From, m.To)
		moment := &ast.Moment{At: m.At, Prose: text(lines), Lines: lines}
		moment.Span = at
		out.Moments = append(out.Moments, moment)
	}
	out.Prose = text(out.Lines)
	file := x.Span.File
	start, end := x.Span.Start, x.Span.End
	if i > 0 {
		start = p.place(s.From, s.From+1).Start
	}
	if i < len(stages)-1 {
		end = p.place(max(s.From, s.To-1), s.To).End
	}
	out.Span = file.Span(start, end)
	return &out
}

// text joins lines by blanks.
func text(lines []ast.Text) ast.Text {
	if len(lines) == 0 {
		return ast.Text{}
	}
	p := joined(lines)
	first, last := lines[0].Span, lines[len(lines)-1].Span
	return ast.Text{Text: p.text, Span: first.File.Span(first.Start, last.End)}
}

// write are the edits that put what is offered into the text.
func (p prosed) write(x *ast.Step, parts []part) []diag.Edit {
	first, last := p.lines[0].Span, p.lines[len(p.lines)-1].Span
	margin := func(of part) string {
		if of.said == 0 {
			return ""
		}
		return " | " + format.Margin(of.Clauses[len(of.Clauses)-of.said:])
	}
	if len(parts) == 1 && len(parts[0].Moments) == len(x.Moments) {
		return []diag.Edit{{Span: last.File.Span(last.End, last.End), Text: margin(parts[0])}}
	}
	in := indentAt(first)
	var b strings.Builder
	for i, of := range parts {
		if i > 0 {
			b.WriteString("\n" + in + "- ")
		}
		for k, l := range of.Lines {
			if k > 0 {
				b.WriteString("\n" + in + "  ")
			}
			b.WriteString(l.Text)
		}
		b.WriteString(margin(of))
		for _, m := range of.Moments {
			at := "half time"
			if m.At != nil {
				at = m.At.String()
			}
			b.WriteString("\n" + in + "  at " + at + ": " + m.Prose.Text)
		}
	}
	return []diag.Edit{{Span: first.File.Span(first.Start, last.End), Text: b.String()}}
}

// indentAt is what stands before the dash of the line that a place is on.
func indentAt(at source.Span) string {
	text := at.File.Text
	start := strings.LastIndexByte(text[:at.Start], '\n') + 1
	end := start
	for end < len(text) && (text[end] == ' ' || text[end] == '\t') {
		end++
	}
	return text[start:end]
}
