package quantity

import "math"

// Costs are whole numbers, so that every machine chooses alike: 60 for each
// per cent of error, and something for fractions, for a second unit and for
// leaving the writer's own unit. The weights were set by eye.
const costOfAll = 6000 // an error of 100%

// search looks for the plainest way to print v within tol.
type search struct {
	v, tol   Number
	v64, t64 float64 // to skip quickly what is far off; never to choose
	own      *Unit   // the writer's unit
	total    bool    // a sum may take a quarter of the smaller unit too
	// stretched lets the larger unit be used for half as much again.
	stretched bool

	best  figure
	cost  int64
	found bool
}

func (l *ladder) figure(v, tol Number, st Style) (figure, bool) {
	s := search{v: v, tol: tol, v64: v.Float(), t64: tol.Float()*1.01 + 1e-9, own: st.Unit}
	l.search(&s)
	return s.best, s.found
}

// search tries each unit, alone and with a smaller one.
func (l *ladder) search(s *search) {
	v := s.v
	for i, r := range l.rungs {
		if s.stretched {
			r.max = r.max.Mul(Frac(3, 2))
		}
		n := v.Div(r.size)
		if n.Less(r.min.Mul(Frac(9, 10))) || r.max.Sign() > 0 && !n.Less(r.max.Add(Int(1))) {
			continue
		}
		n64 := n.Float()
		for _, den := range r.steps(n) {
			if den == 4 && r.unit == gallon && n.Less(Int(2)) { // a gallon and a quarter is 5 quarts
				continue
			}
			if s.far(n64, den, n64) {
				continue
			}
			count := RoundTo(n, Frac(1, den))
			if count.Less(r.min) || r.max.Sign() > 0 && !count.Less(r.max) || den == r.fine && !count.Equal(Frac(1, den)) {
				continue
			}
			s.try(count.Mul(r.size), s.weight(r.unit, den), Term{Value: Exactly(count), Unit: r.unit})
		}
		for _, den := range r.over {
			upper := n.Mul(Int(den)).Floor().Div(Int(den))
			if upper.Less(r.min) || r.max.Sign() > 0 && !n.Less(r.max) {
				continue
			}
			l.second(s, i, upper, n.Sub(upper).Mul(r.size), s.weight(r.unit, den)+l.pair)
		}
	}
}

// isPast tells whether v is more than the ladder's largest measure is used for.
func (l *ladder) isPast(v Number) bool {
	top := l.rungs[0]
	return top.max.Sign() > 0 && !v.Less(top.max.Mul(top.size))
}

// second adds a smaller unit for rest to upper of the i-th unit.
func (l *ladder) second(s *search, i int, upper, rest Number, cost int64) {
	r := l.rungs[i]
	// Not 1/2 cup + 5 tbsp: the second is less than the first's smallest step.
	most := r.size.Div(Int(r.over[len(r.over)-1]))
	for _, low := range l.rungs[i+1:] {
		m := rest.Div(low.size)
		if s.total {
			low.max = low.max.Mul(Frac(3, 2)) // 1 cup + 4 tsp is no more than that
		}
		if low.solo || low.max.Sign() > 0 && low.max.Less(m) {
			continue
		}
		m64, all64 := m.Float(), s.v64/low.size.Float()
		for _, den := range low.dens {
			if den > 2 && !s.total { // not 2 tbsp and 1/4 tsp
				continue
			}
			if s.far(m64, den, all64) {
				continue
			}
			count := RoundTo(m, Frac(1, den))
			if count.Sign() <= 0 || low.max.Sign() > 0 && !count.Less(low.max) {
				continue
			}
			part := count.Mul(low.size)
			if !part.Less(most) {
				continue
			}
			c := cost + fractionCost(den)
			if !count.IsInt() {
				c += l.odd
			}
			s.try(upper.Mul(r.size).Add(part), c, Term{Value: Exactly(upper), Unit: r.unit}, Term{Value: Exactly(count), Unit: low.unit})
		}
	}
}

func (s *search) try(value Number, cost int64, terms ...Term) {
	if s.found && cost >= s.cost {
		return
	}
	off := value.Float()/s.v64 - 1
	if off > s.t64 || -off > s.t64 || !within(value, s.v, s.tol) {
		return
	}
	wrong, _ := miss(value, s.v).Mul(Int(costOfAll)).Div(s.v).Int64()
	if cost += wrong; s.found && cost >= s.cost {
		return
	}
	s.best, s.cost, s.found = figure{append([]Term(nil), terms...), value}, cost, true
}

// far tells that n, rounded to a den-th, is surely too far off for a value of
// all, both in the same unit.
func (s *search) far(n float64, den int64, all float64) bool {
	d := float64(den)
	return math.Abs(n-math.Floor(n*d+0.5)/d) > s.t64*all
}

func (s *search) weight(u *Unit, den int64) int64 {
	c := fractionCost(den)
	if u == s.own {
		c -= 60
	}
	return c
}

func fractionCost(den int64) int64 {
	switch den {
	case 1:
		return 0
	case 2:
		return 20
	case 8:
		return 90
	}
	return 40
}

// steps are the denominators for a number of this size.
func (r rung) steps(n Number) []int64 {
	switch {
	case r.fine > 0 && n.Less(Int(1)):
		return append(r.dens[:len(r.dens):len(r.dens)], r.fine)
	case n.Less(r.eighths):
		return append(r.dens[:len(r.dens):len(r.dens)], 8)
	}
	return r.dens
}

// fewOunces is how far less than half an ounce may be off: its scale shows eighths, and
// nobody weighs 0.35 oz. Common practice, no source.
var fewOunces = Frac(1, 6)

// nearest is v on the smallest rung, for what no measure of the ladder comes
// near: a tenth of an ounce, a sixteenth of a teaspoon.
func (l *ladder) nearest(v, tol Number) figure {
	r := l.rungs[len(l.rungs)-1]
	n := v.Div(r.size)
	dens := []int64{8, 16, 32}
	if r.unit == ounce {
		dens = nil
		if count := RoundTo(n, Frac(1, 8)); tol.Sign() > 0 && within(count, n, fewOunces) {
			return figure{[]Term{{Value: Exactly(count), Unit: r.unit}}, count.Mul(r.size)}
		}
	}
	for _, den := range append(dens, 20, 100, 1000, 10_000, 100_000) {
		if count := RoundTo(n, Frac(1, den)); within(count, n, tol) {
			return figure{[]Term{{Value: Exactly(count), Unit: r.unit}}, count.Mul(r.size)}
		}
	}
	least := Max(RoundTo(n, Frac(1, 1_000_000)), Frac(1, 1_000_000))
	return figure{[]Term{{Value: Exactly(least), Unit: r.unit}}, least.Mul(r.size)}
}

// both are the two ends of a range in one unit, if one serves: 5 1/2 to 6
// gallons, and not 5 gallons + 2 quarts to 6 gallons.
func (l *ladder) both(v Range, tolLow, tolHigh Number, st Style) (low, high figure, ok bool) {
	best := int64(0)
	for _, r := range l.rungs {
		a, costA, okA := r.alone(v.Low, tolLow, st)
		b, costB, okB := r.alone(v.High, tolHigh, st)
		if okA && okB && (!ok || costA+costB < best) {
			low, high, best, ok = a, b, costA+costB, true
		}
	}
	return low, high, ok
}

// alone is v as a number of one unit.
func (r rung) alone(v, tol Number, st Style) (f figure, cost int64, ok bool) {
	s := search{v: v, tol: tol, v64: v.Float(), t64: tol.Float()*1.01 + 1e-9, own: st.Unit}
	one := ladder{rungs: []rung{r}}
	one.rungs[0].over = nil
	one.search(&s)
	return s.best, s.cost, s.found
}
