package figures

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"tamis/compiler/demand"
	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/compiler/sheets"
	"tamis/lang/quantity"
)

// The writer's sentences, with their figures at the size that is made. What is
// said of amounts, shares and yields comes from the reading of the step; the
// rest of the words stay as they were written.

// edit is a place of a sentence that is printed otherwise than it was written,
// or stands out. After it may come an aside.
type edit struct {
	from, to int // offsets in the source
	text     string
	style    sheets.Style
	aside    string
}

// Prose is lines of a step's prose, its own or those of one of its moments, with
// the figures of its reading scaled. A share is followed by what it comes to.
func (s *Set) Prose(m *demand.Making, lines []resolve.Text, sr *resolve.StepReading) []sheets.Run {
	return s.prose(m, lines, sr, true)
}

// Words is Prose as plain words, a share as it was said.
func (s *Set) Words(m *demand.Making, lines []resolve.Text, sr *resolve.StepReading) string {
	var b strings.Builder
	for _, r := range s.prose(m, lines, sr, false) {
		b.WriteString(r.Text)
	}
	return b.String()
}

type stepOf struct {
	making *demand.Making
	step   *resolve.StepReading
}

type stepWords struct{ title, line string }

// StepWords are the title of a step and the line it has on a list, with the amounts of its
// sentence at the size that is made.
func (s *Set) StepWords(m *demand.Making, sr *resolve.StepReading) (title, line string) {
	if len(sr.Step.Lines) == 0 { // it has a title alone
		return sr.Step.Title, sr.Step.Line
	}
	key := stepOf{m, sr}
	w, ok := s.steps[key]
	if !ok {
		text := s.Words(m, sr.Step.Lines, sr)
		w = stepWords{resolve.TitleOf(text), resolve.LineOf(text)}
		s.steps[key] = w
	}
	return w.title, w.line
}

func (s *Set) prose(m *demand.Making, lines []resolve.Text, sr *resolve.StepReading, asides bool) []sheets.Run {
	var out []sheets.Run
	add := func(text string, style sheets.Style) {
		if text == "" {
			return
		}
		if k := len(out) - 1; k >= 0 && out[k].Style == style && style == sheets.Plain {
			out[k].Text += text
			return
		}
		out = append(out, sheets.Run{Text: text, Style: style})
	}
	for i, l := range lines {
		if i > 0 {
			add(" ", sheets.Plain)
		}
		text, at := l.Span.File.Text, l.Span.Start
		for _, e := range s.edits(m, l, sr) {
			if e.from < at {
				continue
			}
			add(text[at:e.from], sheets.Plain)
			add(e.text, e.style)
			if asides && e.aside != "" {
				add(" ("+e.aside+")", sheets.Amount)
			}
			at = e.to
		}
		add(text[at:l.Span.End], sheets.Plain)
	}
	return out
}

// edits are those of one line of prose, in order of place.
func (s *Set) edits(m *demand.Making, l resolve.Text, sr *resolve.StepReading) (out []edit) {
	text := l.Span.File.Text
	inside := func(from, to int) bool { return l.Span.Start <= from && from <= to && to <= l.Span.End }
	for i := range sr.Takes {
		t := &sr.Takes[i]
		if t.ByMargin || t.NameAt.File != l.Span.File || !inside(t.NameAt.Start, t.NameAt.End) {
			continue
		}
		figure, aside := s.Sentence(m, t)
		if figure != "" && t.AmountAt.End > t.AmountAt.Start && inside(t.AmountAt.Start, t.AmountAt.End) {
			out = append(out, edit{from: t.AmountAt.Start, to: t.AmountAt.End, text: figure, style: sheets.Amount})
		}
		name, style := text[t.NameAt.Start:t.NameAt.End], sheets.Thing
		renamed := slices.IndexFunc(sr.Reworded, func(w resolve.Rewording) bool { return w.At == t.NameAt })
		if renamed >= 0 {
			name = sr.Reworded[renamed].Text
		}
		if t.Refers {
			style = sheets.Plain
		} else if n, counted := countOf(m, t); counted && figure != "" && t.But.IsZero() {
			name = InNumber(name, n)
		}
		if style == sheets.Thing || aside != "" || renamed >= 0 {
			out = append(out, edit{from: t.NameAt.Start, to: t.NameAt.End, text: name, style: style, aside: aside})
		}
	}
	for _, w := range sr.Reworded {
		if w.At.File == l.Span.File && inside(w.At.Start, w.At.End) && !slices.ContainsFunc(out, func(e edit) bool { return e.from == w.At.Start && e.to == w.At.End }) {
			out = append(out, edit{from: w.At.Start, to: w.At.End, text: w.Text})
		}
	}
	for _, f := range sr.Figures {
		if f.Kind != resolve.FigureScaled && f.Kind != resolve.FigureEach || f.At.File != l.Span.File || !inside(f.At.Start, f.At.End) {
			continue
		}
		if figure := s.figureText(m, f); figure != "" {
			out = append(out, edit{from: f.At.Start, to: f.At.End, text: figure, style: sheets.Amount})
			count := quantity.Int(int64(WholePieces(f.Quantity.Value.High.Mul(m.Factor))))
			if n := f.Name; n.File == l.Span.File && inside(n.Start, n.End) && count.Equal(quantity.Int(1)) != f.Quantity.Value.High.Equal(quantity.Int(1)) && !slices.ContainsFunc(out, func(e edit) bool { return e.from == n.Start }) {
				out = append(out, edit{from: n.Start, to: n.End, text: InNumber(n.Text(), count)}) // 1 roll, 2 eggs
			}
		}
	}
	for _, x := range s.lengths(text[l.Span.Start:l.Span.End], m.Recipe.System) {
		from, to := l.Span.Start+x.from, l.Span.Start+x.to
		if !slices.ContainsFunc(out, func(e edit) bool { return e.from < to && from < e.to }) {
			out = append(out, edit{from: from, to: to, text: x.text})
		}
	}
	slices.SortStableFunc(out, func(x, y edit) int { return cmp.Or(cmp.Compare(x.from, y.from), cmp.Compare(x.to, y.to)) })
	return out
}

// figureText is a yield, or water from the tap, at the size that is made; empty
// where it is as it was written.
func (s *Set) figureText(m *demand.Making, f resolve.Figure) string {
	if f.Kind == resolve.FigureEach { // so much for each, at any size
		if s.opt.Units == quantity.NoSystem || f.Unit == nil || f.Quantity.Dim != quantity.Mass && f.Quantity.Dim != quantity.Volume ||
			s.keeps(quantity.Measure{Terms: []quantity.Term{{Value: f.Quantity.Value, Unit: f.Unit}}}, m.Recipe.System) {
			return ""
		}
		return s.Print(f.Quantity, f.Unit, m.Recipe.System)
	}
	if m.Factor.Equal(quantity.Int(1)) && (s.opt.Units == quantity.NoSystem || f.Unit == nil) {
		return ""
	}
	if f.Unit == nil && f.Quantity.Value.IsRange() { // 16 to 18 cakes
		return strconv.Itoa(WholePieces(f.Quantity.Value.Low.Mul(m.Factor))) + " to " + strconv.Itoa(WholePieces(f.Quantity.Value.High.Mul(m.Factor)))
	}
	if f.Unit == nil && f.Quantity.Value.High.IsInt() {
		return strconv.Itoa(WholePieces(f.Quantity.Value.High.Mul(m.Factor)))
	}
	q := f.Quantity.Scale(m.Factor)
	if made, ok := s.Made(m, nil); ok && made.Quantity.Same(q) && m.Supply != nil && m.Supply.Made.Equal(q) {
		return made.Text // the yield of the block, said again
	}
	return s.Print(q, f.Unit, m.Recipe.System)
}

// countOf is how many pieces a take comes to, if it counts pieces.
func countOf(m *demand.Making, t *resolve.Take) (quantity.Number, bool) {
	if t.Line == nil || t.Amount == nil || t.Amount.Dim != quantity.None {
		return quantity.Number{}, false
	}
	a := m.Of(t.Line)
	if a == nil || a.Quantity == nil {
		return quantity.Number{}, false
	}
	if t.Of.Sign() > 0 {
		return a.Quantity.Value.High.Mul(t.Of), true
	}
	return a.Quantity.Value.High.Mul(t.Part), true
}

// InNumber puts a counted name in the plural above one, and in the singular
// otherwise.
func InNumber(name string, n quantity.Number) string {
	if quantity.Int(1).Less(n) {
		return larder.PluralName(name)
	}
	head, last := "", name
	if i := strings.LastIndexByte(name, ' '); i >= 0 {
		head, last = name[:i+1], name[i+1:]
	}
	return head + larder.Singular(last)
}

// WholePieces is a number of pieces to the nearest whole one, and at least one.
func WholePieces(n quantity.Number) int {
	whole, _ := n.Add(quantity.Frac(1, 2)).Int64()
	return max(1, int(whole))
}
