package figures

import (
	"regexp"
	"strings"

	"tamis/compiler/demand"
	"tamis/lang/quantity"
)

// Line is the figure of a line of a making; without an amount it is empty. A
// line at its written size is as it was written; else it is rounded, in the
// writer's own kind of unit.
func (s *Set) Line(a *demand.Amount) Figure {
	if f, ok := s.lines[a]; ok {
		return f
	}
	if a.Line.Share != nil && !s.shared {
		s.shareOut()
		if f, ok := s.lines[a]; ok {
			return f
		}
	}
	f := s.line(a)
	s.lines[a] = f
	return f
}

func (s *Set) line(a *demand.Amount) Figure {
	if a.Quantity == nil {
		return Figure{}
	}
	st := s.lineStyle(a)
	if s.asWritten(a) {
		w := *a.Line.Written
		f := Figure{Quantity: *a.Quantity, style: st}
		if w.Kind == quantity.Paired {
			f.Beside = w.Also.Print(s.Style())
			w.Kind = quantity.Plain
		}
		f.Text = w.Print(s.Style())
		return f
	}
	if f, ok := s.whole(a, st); ok {
		return f
	}
	q, spoons := s.spooned(a, *a.Quantity)
	if spoons {
		st = s.spoonStyle(a)
	}
	f := inWords(a.Line.Name, said(wholeEnds(a, q), st))
	if w := a.Line.Written; w != nil && w.Kind == quantity.Paired && s.opt.Units == quantity.NoSystem {
		if also, problem := w.Also.Quantity(a.Line.Recipe.System); problem == nil {
			second := s.Style()
			second.Unit, second.System = w.Also.Terms[0].Unit, a.Line.Recipe.System
			f.Beside = also.Scale(ratio(a)).Print(second)
		}
	}
	return f
}

// wholeEnds is a range of whole things, scaled: from one on its ends are whole, for what
// was two or three is no two and a third to three and a half.
func wholeEnds(a *demand.Amount, q quantity.Quantity) quantity.Quantity {
	w := a.Line.Quantity
	if q.Dim != quantity.None && q.Dim != quantity.Word || !q.Value.IsRange() || w == nil || !w.Value.Low.IsInt() || !w.Value.High.IsInt() {
		return q
	}
	for _, end := range []*quantity.Number{&q.Value.Low, &q.Value.High} {
		if !end.Less(quantity.Int(1)) {
			*end = quantity.RoundTo(*end, quantity.Int(1))
		}
	}
	return q
}

// ratio is how many times its written amount a line is.
func ratio(a *demand.Amount) quantity.Number {
	if w := a.Line.Quantity; w != nil && w.Value.High.Sign() > 0 && w.Same(*a.Quantity) {
		return a.Quantity.Value.High.Div(w.Value.High)
	}
	return a.Making.Factor
}

// asWritten tells whether a line is what its writer wrote, in units that may
// stay.
func (s *Set) asWritten(a *demand.Amount) bool {
	w, q := a.Line.Written, a.Line.Quantity
	if w == nil || q == nil || a.Quantity == nil || !a.Quantity.Value.Equal(q.Value) || !a.Quantity.Same(*q) {
		return false
	}
	m := w.Measure
	switch w.Kind {
	case quantity.Plain, quantity.Paired:
	case quantity.Packages:
		m = w.Each
	default:
		return false
	}
	system := a.Line.Recipe.System
	if !s.keeps(m, system) || s.opt.Units != quantity.NoSystem && w.Kind == quantity.Paired {
		return false
	}
	back, problem := w.Quantity(system, 0)
	return problem == nil && back.Value.Equal(q.Value)
}

// formulaTolerance is how far a weight of a baker's formula may be from the
// true one. Common practice, no source: bakers weigh to the gram.
var formulaTolerance = quantity.Frac(1, 200)

func (s *Set) lineStyle(a *demand.Amount) quantity.Style {
	w := a.Line.Written
	if w == nil {
		return s.styleOf(nil, a.Line.Recipe.System)
	}
	m := w.Measure
	if w.Kind == quantity.Packages {
		m = w.Each
	}
	var unit *quantity.Unit
	modifier := ""
	if len(m.Terms) > 0 {
		unit = m.Terms[0].Unit
		if len(m.Terms) == 1 {
			modifier = m.Terms[0].Modifier
		}
	}
	st := s.styleOf(unit, a.Line.Recipe.System)
	if w.Kind == quantity.Percent && s.opt.Units == quantity.NoSystem {
		st.Tolerance = formulaTolerance
	}
	if modifier != "" {
		st.Modifier = modifier
		if unit.Dim == quantity.Word {
			st.Unit = unit
		}
	}
	return st
}

// Sum is what several lines come to, one figure for each kind of measure that
// cannot be added to another: the sum of their printed figures.
func (s *Set) Sum(lines []*demand.Amount) (out []Figure) {
	for _, a := range lines {
		if f := s.Line(a); f.Text != "" {
			out = add(out, f)
		}
	}
	for i, f := range out {
		if f.Text == "" {
			out[i] = inWords(lines[0].Line.Name, s.total(f))
		}
	}
	return out
}

// Join says amounts beside each other that cannot be added: "600 g + 2"; and
// "5 tbsp, and 210 to 280 g", where a plus could be read as part of one of them.
func Join(amounts []string) string {
	for _, a := range amounts {
		if strings.Contains(a, " + ") || strings.Contains(a, " to ") {
			return strings.Join(amounts, ", and ")
		}
	}
	return strings.Join(amounts, " + ")
}

// add puts a figure to the first it can be added to; the sum has no text yet.
// Tins are added to tins of their size, and to nothing that is weighed out.
func add(sums []Figure, f Figure) []Figure {
	for i := range sums {
		if f.Quantity.IsZero() || !sums[i].Quantity.Same(f.Quantity) || !sums[i].Quantity.Packs.Alike(f.Quantity.Packs) {
			continue
		}
		if sum, problem := sums[i].Quantity.Add(f.Quantity); problem == nil {
			sums[i] = Figure{Quantity: sum, style: sums[i].style}
			return sums
		}
	}
	return append(sums, f)
}

// total sets a sum of printed figures.
func (s *Set) total(f Figure) Figure {
	if text, ok := s.Packs(f.Quantity, f.style); ok {
		f.Text = text
		return f
	}
	out := exactly(f.Quantity, f.style)
	out.Quantity.Packs = nil
	return out
}

// Packs prints so many packages: "3 × 400 g tins"; false for what is none, or not
// a whole number of them.
func (s *Set) Packs(q quantity.Quantity, st quantity.Style) (string, bool) {
	p := q.Packs
	if p == nil || !p.Count.Low.IsInt() || !p.Count.High.IsInt() {
		return "", false
	}
	text := quantity.Quantity{Value: p.Count}.Print(s.Style()) + " × " + s.packSize(p.Each, st)
	if p.Container != nil {
		text += " " + p.Container.For(p.Count)
	}
	return text, true
}

// StyleOf is how amounts that go with a line are set: packs of it, what is spare.
func (s *Set) StyleOf(a *demand.Amount) quantity.Style {
	st := s.lineStyle(a)
	st.Modifier, st.Tolerance = "", quantity.Number{}
	return st
}

var ounce, fluidOunce = quantity.MustUnit("oz"), quantity.MustUnit("fl oz")

// crooked is a figure that stands on no label.
var crooked = regexp.MustCompile(`\.\d{3}|/\d{3}`)

// packSize is what one package of a line holds: as it was written, or as its
// label says it in the units asked for.
func (s *Set) packSize(each quantity.Quantity, st quantity.Style) string {
	if s.opt.Units != quantity.NoSystem {
		return label(each, st)
	}
	st.Exact = true
	text := each.Print(st)
	if st.Unit != nil && !st.Unit.InMetric() { // 28 oz is no 1 3/4 lb on a tin
		text = asSaid(each, st.Unit, st).Text
	}
	for _, other := range [...]quantity.Style{{System: quantity.Metric}, {System: quantity.US, Unit: ounce}, {System: quantity.US, Unit: fluidOunce}} {
		if !crooked.MatchString(text) {
			break
		}
		// a tin of another country, on a line with others: its label is in its own units
		if other.Unit == nil || other.Unit.Dim == each.Dim {
			other.Exact = true
			if t := each.Print(other); !crooked.MatchString(t) {
				text = t
			}
		}
	}
	return text
}

// LabelSize is what a pack in the shop holds. usual says that nobody wrote it: it
// is then as labels say it where the line is at home.
func (s *Set) LabelSize(each quantity.Quantity, a *demand.Amount, usual bool) string {
	st := s.StyleOf(a)
	if !usual {
		return s.packSize(each, st)
	}
	st.Unit = nil
	return label(each, st)
}

// label says a size as the labels of a system do: in whole or half ounces, less than two in quarters, from
// two pounds in pounds, else in metric.
func label(each quantity.Quantity, st quantity.Style) string {
	unit := ounce
	switch {
	case st.System != quantity.US && st.System != quantity.Imperial || each.Dim != quantity.Mass && each.Dim != quantity.Volume:
		st.Exact = true
		st.System, st.Unit = quantity.Metric, nil
		if each.Value.High.Less(quantity.Int(10)) {
			return each.Print(st)
		}
		each.Value = quantity.Exactly(quantity.RoundTo(each.Value.High, quantity.Int(1))) // a tin of 14 oz is one of 397 g
		return each.Print(st)
	case each.Dim == quantity.Volume:
		unit = fluidOunce
	case !each.Value.High.Less(quantity.Int(907)):
		return each.Print(st)
	}
	size, _ := unit.Base(st.System)
	exact, step := each.Value.High.Div(size), quantity.Frac(1, 2)
	if exact.Less(quantity.Int(2)) {
		step = quantity.Frac(1, 4)
	}
	n := quantity.Max(quantity.RoundTo(exact, step), step)
	return quantity.Term{Value: quantity.Exactly(n), Unit: unit}.Print(st)
}
