package figures

import (
	"tamis/compiler/demand"
	"tamis/compiler/resolve"
	"tamis/lang/quantity"
)

// Supply is what becomes of a base or a by-product, as it is printed: what is
// made covers what is drawn, and what is left is the rest.
type Supply struct {
	Made  Figure
	Drawn Figure
	Left  Figure   // of nothing where all is used
	Draws []Figure // one for each of demand.Supply.Draws
}

// Supply is the figures of a supply.
func (s *Set) Supply(of *demand.Supply) *Supply {
	if f, ok := s.supplies[of]; ok {
		return f
	}
	f := s.supply(of)
	s.supplies[of] = f
	return f
}

func (s *Set) supply(of *demand.Supply) *Supply {
	st := s.supplyStyle(of)
	f := &Supply{Made: s.made(of, st)}
	drawn, own := zeroOf(of.Made), of.Drawn
	for _, d := range of.Draws {
		fig := s.Line(d.By)
		if !fig.Quantity.Same(of.Made) { // grams of what is made by the litre
			text := fig.Text
			if fig = said(d.Quantity, st); text != "" {
				fig.Text = text
			}
		}
		f.Draws = append(f.Draws, fig)
		high := fig.Quantity
		high.Packs, high.Value.Low = nil, high.Value.High
		drawn, _ = drawn.Add(high)
		own, _ = own.Sub(d.Quantity)
	}
	if own.Value.High.Sign() > 0 { // what its own steps use
		own.Value.Low = own.Value.High
		drawn, _ = drawn.Add(said(own, st).Quantity)
	}
	f.Drawn = Figure{Quantity: drawn, style: st}
	if !drawn.IsZero() {
		f.Drawn = exactly(drawn, st)
		if len(of.Draws) == 1 && own.Value.High.Sign() <= 0 && s.Line(of.Draws[0].By).Quantity.Same(of.Made) {
			f.Drawn.Text = f.Draws[0].Text
		} else {
			drawn.Value = f.Drawn.Quantity.Value
		}
	}
	left := zeroOf(of.Made)
	if of.Left.Value.High.Sign() > 0 {
		left, _ = f.Made.Quantity.Sub(drawn)
		left.Value.Low = left.Value.High
	}
	if short := f.Made.Quantity.Value.High.Less(drawn.Value.High); of.Left.Value.High.Sign() >= 0 && !drawn.IsZero() && (short || left.IsZero() && !s.madeAsWritten(of)) {
		f.Made = f.Drawn
		if f.Drawn.style.System != st.System || f.Drawn.style.Unit != st.Unit {
			f.Made = exactly(drawn, st)
		}
		left = zeroOf(of.Made)
	}
	if left.Value.High.Sign() < 0 {
		left = zeroOf(of.Made)
	}
	if f.Drawn.Quantity.Value.High.Equal(f.Made.Quantity.Value.High) && !drawn.IsZero() {
		f.Drawn.Text = f.Made.Text
	}
	f.Left = Figure{Text: left.Print(st), Quantity: left, style: st}
	if left.Value.High.Sign() > 0 {
		f.Left = atMost(left, st)
	}
	return f
}

// atMost is what is left over, as near as measures can say it and never more.
func atMost(q quantity.Quantity, st quantity.Style) Figure {
	f := remainder(q, st)
	for percent := int64(1); q.Value.High.Less(f.Quantity.Value.High) && percent < 20; percent++ {
		f = said(q.Scale(quantity.Frac(100-percent, 100)), st)
	}
	return f
}

func zeroOf(q quantity.Quantity) quantity.Quantity {
	q.Value, q.Packs = quantity.Range{}, nil
	return q
}

// madeUnit is the unit in which a step wrote what it makes, or nil.
func madeUnit(p *resolve.Product) *quantity.Unit {
	if p.Made.Amount == nil {
		return nil
	}
	return FirstUnit(p.Made.Amount)
}

// FirstUnit is the unit an amount begins with, or nil.
func FirstUnit(a *quantity.Amount) *quantity.Unit {
	if len(a.Measure.Terms) == 0 {
		return nil
	}
	return a.Measure.Terms[0].Unit
}

func yieldOf(of *demand.Supply) *quantity.Amount {
	if of.Product != nil {
		return of.Product.Made.Amount
	}
	return of.Making.Recipe.Own.Yield
}

func (s *Set) supplyStyle(of *demand.Supply) quantity.Style {
	var unit *quantity.Unit
	if w := yieldOf(of); w != nil {
		unit = FirstUnit(w)
	}
	return s.styleOf(unit, of.Making.Recipe.System)
}

// madeAsWritten tells whether a block makes what its writer wrote.
func (s *Set) madeAsWritten(of *demand.Supply) bool {
	w := yieldOf(of)
	if w == nil || w.Kind != quantity.Plain || !s.keeps(w.Measure, of.Making.Recipe.System) {
		return false
	}
	q, problem := w.Quantity(of.Making.Recipe.System, 0)
	return problem == nil && q.Same(of.Made) && q.Value.Low.Equal(of.Made.Value.Low)
}

func (s *Set) made(of *demand.Supply, st quantity.Style) Figure {
	q := of.Made
	q.Packs = nil
	if s.madeAsWritten(of) {
		return Figure{Text: yieldOf(of).Print(s.Style()), Quantity: q, style: st}
	}
	return said(q, st)
}

// Made is what a making gives of its own yield, or of what one of its steps
// makes: product is nil, or that.
func (s *Set) Made(m *demand.Making, product *resolve.Product) (Figure, bool) {
	for _, of := range s.meal.Supplies {
		if of.Making == m && of.Product == product {
			return s.Supply(of).Made, true
		}
	}
	return Figure{}, false
}

// OfStep is what a step of a making makes or draws, as it is printed.
func (s *Set) OfStep(m *demand.Making, p *resolve.Product) string {
	if f, ok := s.Made(m, p); ok {
		return f.Text
	}
	return s.Print(p.Quantity.Scale(m.Factor), madeUnit(p), m.Recipe.System)
}

// Yield is what a making makes at its size, as it is printed.
func (s *Set) Yield(m *demand.Making) string {
	y, w := m.Recipe.Makes, m.Recipe.Own.Yield
	if f, ok := s.Made(m, nil); ok && f.Quantity.Same(y.Quantity) {
		return f.Text
	}
	if w == nil {
		return s.Print(y.Quantity.Scale(m.Factor), nil, m.Recipe.System)
	}
	if w.Kind == quantity.Plain && m.Factor.Equal(quantity.Int(1)) {
		return s.Written(w.Measure, m.Recipe.System)
	}
	return s.Print(y.Quantity.Scale(m.Factor), FirstUnit(w), m.Recipe.System)
}

// shareOut gives the lines that take shares of what is made their figures: with
// all of it taken, they come to what is made.
func (s *Set) shareOut() {
	s.shared = true
	for _, of := range s.meal.Supplies {
		var lines []*demand.Amount
		var exact []quantity.Quantity
		total, printed := of.Made, s.made(of, s.supplyStyle(of)).Quantity
		ok := true
		for _, d := range of.Draws {
			if d.By.Line.Share != nil {
				lines, exact = append(lines, d.By), append(exact, d.Quantity)
				continue
			}
			f := s.Line(d.By).Quantity
			f.Packs = nil
			var p1, p2 *quantity.Problem
			total, p1 = total.Sub(d.Quantity)
			printed, p2 = printed.Sub(f)
			ok = ok && p1 == nil && p2 == nil
		}
		if len(lines) == 0 || !ok || printed.Value.High.Sign() <= 0 || total.Value.High.Sign() <= 0 {
			continue
		}
		st := s.supplyStyle(of)
		got, problem := quantity.Spread(total, printed, exact, st)
		if problem != nil {
			continue
		}
		for i, a := range lines {
			s.lines[a] = remainder(got[i], st)
		}
	}
}

// OfSupply prints an amount of what is made in the unit its maker wrote.
func (s *Set) OfSupply(of *demand.Supply, q quantity.Quantity) string {
	return q.Print(s.supplyStyle(of))
}
