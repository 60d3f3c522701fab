package figures

import (
	"tamis/compiler/demand"
	"tamis/compiler/resolve"
	"tamis/lang/quantity"
)

// Taken is what a step takes of a line.
type Taken struct {
	Figure
	But Figure // of "all but 2 tbsp of the": what stays behind
}

// Take is what a step of a making takes, as it is printed beside the step and in
// its sentence. It is empty where the step says no share of an amount.
func (s *Set) Take(m *demand.Making, t *resolve.Take) Taken {
	if t.Refers && t.Of.IsZero() || t.Unmeasured {
		return Taken{}
	}
	if t.Product != nil {
		if t.Amount == nil {
			return Taken{}
		}
		return Taken{Figure: s.ofProduct(m, t)}
	}
	a := m.Of(t.Line)
	if a == nil || a.Quantity == nil {
		return Taken{}
	}
	parts, ok := s.takes[a]
	if !ok {
		parts = s.parts(a)
		s.takes[a] = parts
	}
	return parts[t]
}

// Sentence is how an amount or a share in a sentence reads at this size and in these
// units: figure replaces what was written, aside follows the name. Both are empty where
// the sentence stays as it was written.
func (s *Set) Sentence(m *demand.Making, t *resolve.Take) (figure, aside string) {
	if t.Refers && t.Of.IsZero() || t.Unmeasured {
		return "", ""
	}
	part := t.Part
	if t.Of.Sign() > 0 {
		part = t.Of
	}
	taken, stays := s.Take(m, t), s.opt.Units == quantity.NoSystem && s.atWrittenSize(m, t)
	switch {
	case t.Product == nil && t.But.Sign() > 0:
		taken.Figure = taken.But
	case t.Product != nil || t.Amount != nil:
	case !t.AmountAt.IsZero() && !part.Equal(quantity.Int(1)):
		return "", taken.Text
	default:
		return "", ""
	}
	if stays {
		return "", ""
	}
	return taken.Text, ""
}

// atWrittenSize tells whether what a step takes of is as much as its writer wrote.
func (s *Set) atWrittenSize(m *demand.Making, t *resolve.Take) bool {
	if t.Product != nil {
		return m.Factor.Equal(quantity.Int(1))
	}
	a := m.Of(t.Line)
	return a == nil || a.Quantity == nil || t.Line.Quantity != nil && t.Line.Quantity.Equal(*a.Quantity)
}

// ofProduct is an amount that a sentence takes of what a step of its own block
// makes.
func (s *Set) ofProduct(m *demand.Making, t *resolve.Take) Figure {
	unit := t.Unit
	if unit == nil {
		unit = madeUnit(t.Product)
	}
	st := s.styleOf(unit, m.Recipe.System)
	if m.Factor.Equal(quantity.Int(1)) && s.opt.Units == quantity.NoSystem {
		st.Exact = true
	}
	return said(t.Amount.Scale(m.Factor), st)
}

// part is one take of a line while the line is shared out.
type part struct {
	take  *resolve.Take
	exact quantity.Quantity
	fig   Figure
	fixed bool // the sentence says an amount
	other bool // it says it in another kind of measure: spoons of what is weighed
}

// parts shares a line out among the steps that take of it. What a sentence says
// in figures is that amount, scaled; what it says in shares and in "the rest" is
// what is then left of the printed line.
func (s *Set) parts(a *demand.Amount) map[*resolve.Take]Taken {
	line := s.Line(a)
	times := ratio(a)
	all, _ := s.spooned(a, *a.Quantity)
	out := map[*resolve.Take]Taken{}
	var list []*part
	sum := quantity.Number{}
	for _, sr := range a.Making.Reading.Steps {
		for i := range sr.Takes {
			t := &sr.Takes[i]
			if t.Line == a.Line && t.Of.Sign() > 0 { // whites of eggs whose yolks went in before
				out[t] = Taken{Figure: inWords(a.Line.Name, s.said(a, t, t.Of, times))}
				continue
			}
			if t.Line != a.Line || t.Refers || t.Unmeasured {
				continue
			}
			p := &part{take: t, exact: all.Scale(t.Part)}
			p.exact.Packs = nil
			sum = sum.Add(t.Part)
			if t.Amount != nil && !t.Each && t.But.IsZero() {
				p.fig, p.fixed = s.saidPart(a, t.Amount.Scale(times), t.Unit, times), true
				p.other = !p.fig.Quantity.Same(all)
			}
			list = append(list, p)
		}
	}
	if len(list) == 1 && list[0].take.Part.Equal(quantity.Int(1)) && !list[0].other {
		out[list[0].take] = Taken{Figure: line}
		return out
	}
	buts := s.stayBehind(a, list, times)
	s.rest(line, all, list, sum)
	for _, p := range list {
		out[p.take] = Taken{Figure: inWords(a.Line.Name, p.fig), But: buts[p.take]}
	}
	return out
}

// said is a share of a line, as its sentence says it: in figures, or not.
func (s *Set) said(a *demand.Amount, t *resolve.Take, part, times quantity.Number) Figure {
	if t.Amount != nil && !t.Each {
		return s.saidPart(a, t.Amount.Scale(times), t.Unit, times)
	}
	q, spoons := s.spooned(a, *a.Quantity)
	q = q.Scale(part)
	q.Packs = nil
	if spoons {
		return said(q, s.spoonStyle(a))
	}
	return said(q, s.lineStyle(a))
}

// saidPart is an amount that a sentence says, in the unit it says it in.
func (s *Set) saidPart(a *demand.Amount, q quantity.Quantity, unit *quantity.Unit, times quantity.Number) Figure {
	st := s.lineStyle(a)
	if unit != nil {
		st = s.styleOf(unit, a.Line.Recipe.System)
	}
	if in, spoons := s.spooned(a, q); spoons {
		return said(in, s.spoonStyle(a))
	}
	if times.Equal(quantity.Int(1)) && s.opt.Units == quantity.NoSystem {
		return asSaid(q, unit, st)
	}
	return said(q, st)
}

// asSaid is an amount at its written size: the number that was written of the
// unit that was written.
func asSaid(q quantity.Quantity, unit *quantity.Unit, st quantity.Style) Figure {
	if unit != nil && !q.Value.IsRange() {
		if size, ok := unit.Base(st.System); ok && (q.Dim == quantity.Mass || q.Dim == quantity.Volume || q.Dim == quantity.Length) {
			n := q.Value.High.Div(size)
			if n.Mul(quantity.Int(1200)).IsInt() { // a number that is written so: thirds, eighths, hundredths
				return Figure{Text: quantity.Term{Value: quantity.Exactly(n), Unit: unit}.Print(st), Quantity: q, style: st}
			}
		}
	}
	st.Exact = true
	return said(q, st)
}

// stayBehind sets the figures of "all but 2 tbsp": the amount that stays is what
// the step after takes, where one does.
func (s *Set) stayBehind(a *demand.Amount, list []*part, times quantity.Number) map[*resolve.Take]Figure {
	out := map[*resolve.Take]Figure{}
	for i, p := range list {
		if p.take.But.IsZero() {
			continue
		}
		q := a.Quantity.Scale(p.take.But)
		q.Packs = nil // spooned where the line is
		f := s.saidPart(a, q, p.take.Unit, times)
		out[p.take] = f
		if i == len(list)-2 && !list[i+1].fixed && list[i+1].take.Part.Equal(p.take.But) {
			list[i+1].fig, list[i+1].fixed = f, true
		}
	}
	return out
}

// rest gives the takes that say no amount what is left of the printed line, and
// where every take says one, sees that they come to it.
func (s *Set) rest(line Figure, all quantity.Quantity, list []*part, sum quantity.Number) {
	whole := sum.Equal(quantity.Int(1))
	left := line.Quantity
	left.Packs = nil
	var open []*part
	var exact []quantity.Quantity
	for _, p := range list {
		if p.fixed && !whole {
			continue
		}
		taken := p.fig.Quantity
		if p.other { // by its share
			taken = line.Quantity.Scale(p.take.Part)
		}
		if !p.fixed {
			open, exact = append(open, p), append(exact, p.exact)
			continue
		}
		if less, problem := left.Sub(taken); problem == nil {
			left = less
		}
	}
	st := line.style.At(line.Quantity)
	st.Modifier = ""
	switch {
	case len(open) == 1 && whole && len(list) > 1:
		if left.Value.Low.Sign() > 0 {
			open[0].fig = remainder(left, st)
			return
		}
	case len(open) > 0 && len(open) == len(list):
		if spread(line.Quantity, all, open, exact, st) {
			return
		}
	case len(open) > 0 && whole && left.Value.Low.Sign() > 0:
		total := quantity.Quantity{}
		for _, q := range exact {
			total, _ = total.Add(q)
		}
		if spread(left, total, open, exact, st) {
			return
		}
	case len(open) == 0 && whole && len(list) > 1 && !left.Value.High.IsZero():
		agree(line, all, left, list, st)
		return
	}
	for _, p := range open {
		p.fig = said(p.exact, st)
	}
}

// nearEnough is how far the last of several amounts may be off so that all come
// to their line. Common practice, no source.
var nearEnough = quantity.Frac(5, 100)

// agree mends takes that all say an amount and, rounded each for itself, do not
// come to the line by what is left: the last makes it up where that is little;
// else the line is shared out anew.
func agree(line Figure, all, left quantity.Quantity, list []*part, st quantity.Style) {
	if last := list[len(list)-1]; !last.other {
		q, problem := last.fig.Quantity.Add(left)
		if problem == nil && q.Value.Low.Sign() > 0 && !last.exact.Value.High.Mul(nearEnough).Less(off(q.Value.High, last.exact.Value.High)) {
			last.fig = remainder(q, last.fig.style)
			return
		}
	}
	var exact []quantity.Quantity
	for _, p := range list {
		if p.other {
			return
		}
		exact = append(exact, p.exact)
	}
	spread(line.Quantity, all, list, exact, st)
}

// spread shares a printed amount out.
func spread(printed, total quantity.Quantity, open []*part, exact []quantity.Quantity, st quantity.Style) bool {
	printed.Packs, total.Packs = nil, nil
	got, problem := quantity.Spread(total, printed, exact, st)
	if problem != nil {
		return false
	}
	for i, p := range open {
		p.fig = remainder(got[i], st)
	}
	return true
}

// remainder is what is left of a printed figure: exactly, where the measures can
// say it, else as near as they can.
func remainder(q quantity.Quantity, st quantity.Style) Figure {
	if counts := q.Dim == quantity.None || q.Dim == quantity.Word; counts && !q.Value.High.Mul(quantity.Int(12)).IsInt() && !q.Value.High.Mul(quantity.Int(8)).IsInt() {
		return said(q, st) // nobody counts fifteenths
	}
	if f := exactly(q, st); f.Quantity.Value.High.Equal(q.Value.High) {
		return f
	}
	return said(q, st)
}
