package quantity

// A ladder is a set of units that are measured out together: gallons, quarts,
// cups, spoons; or pounds and ounces. Amounts are printed as one of them, or
// as a larger and a smaller.
type ladder struct {
	rungs []rung  // largest first
	pair  float64 // how much dearer two units are than one, in the coin of rung.cost
	odd   float64 // how much dearer still if the second has a fraction
}

// rung is a unit with the fractions that its measures come in.
type rung struct {
	unit *Unit
	size Number
	dens []int64 // 1, 2, 4 …
	fine int64   // a denominator used only below 1 and alone, or 0
	over []int64 // the fractions that a smaller unit may be added to
	min  Number  // the smallest number of it that stands alone
	max  Number  // the number of it that is no longer used; 0: none
}

var (
	teaspoon, dessertspoon, tablespoon, cup = MustUnit("tsp"), MustUnit("dessertspoon"), MustUnit("tbsp"), MustUnit("cup")
	fluidOunce, gill, pint                  = MustUnit("fl oz"), MustUnit("gill"), MustUnit("pint")
	quart, gallon                           = MustUnit("quart"), MustUnit("gallon")
	ounce, pound, inch                      = MustUnit("oz"), MustUnit("lb"), MustUnit("inch")
)

// The most that is measured with spoons where there are no cups, and with cups
// where litres are at hand. Common practice, no source.
const (
	mostSpoons = 8
	mostCups   = 8
)

// ladderFor is the ladder of the writer's unit, or of the system; nil for
// metric units.
func ladderFor(d Dimension, st Style) *ladder {
	u := st.Unit
	if u != nil && u.Dim != d {
		u = nil
	}
	switch {
	case u != nil && u.metric:
		return nil
	case d == Mass && (u != nil || st.System == US || st.System == Imperial):
		return pounds
	case d == Length && (u != nil || st.System == US || st.System == Imperial):
		return inches
	case d != Volume || st.System == NoSystem:
		return nil
	}
	switch u {
	case fluidOunce, gill, pint, quart, gallon:
		return pints(st.System)
	case nil:
		switch st.System {
		case US:
			return spoons(st)
		case Imperial:
			return pints(st.System)
		}
		return nil
	}
	return spoons(st)
}

var pounds = &ladder{pair: 1, rungs: []rung{
	{unit: pound, size: mustBase(pound, NoSystem), dens: []int64{1, 2, 4}, over: []int64{1}, min: Frac(1, 4)},
	{unit: ounce, size: mustBase(ounce, NoSystem), dens: []int64{1, 2, 4}, fine: 8, min: Frac(1, 8), max: Int(16)},
}}

var inches = &ladder{pair: 9, rungs: []rung{
	{unit: inch, size: mustBase(inch, NoSystem), dens: []int64{1, 2, 4}, fine: 8, min: Frac(1, 8)},
}}

func mustBase(u *Unit, s System) Number {
	n, ok := u.Base(s)
	if !ok {
		panic("quantity: no size for " + u.Name)
	}
	return n
}

func spoons(st Style) *ladder {
	s := st.System
	l := &ladder{pair: 3, odd: 1}
	tsp, tbsp, cupSize := mustBase(teaspoon, s), mustBase(tablespoon, s), mustBase(cup, s)
	cups := rung{unit: cup, size: cupSize, dens: []int64{1, 2, 3, 4}, over: []int64{1, 2, 3, 4}, min: Frac(1, 4), max: Int(mostCups)}
	mostTbsp := Int(mostSpoons)
	if s == US {
		l.rungs = append(l.rungs,
			rung{unit: gallon, size: mustBase(gallon, s), dens: []int64{1, 2}, over: []int64{1}, min: Int(1)},
			rung{unit: quart, size: mustBase(quart, s), dens: []int64{1, 2, 4}, over: []int64{1}, min: Int(2), max: Int(8)})
	}
	if s == US || st.Unit == cup {
		l.rungs = append(l.rungs, cups)
		mostTbsp = Int(4)
		if st.Unit == tablespoon {
			mostTbsp = Int(mostSpoons)
		}
	} else {
		mostTbsp = mostTbsp.Add(Frac(1, 2))
	}
	l.rungs = append(l.rungs,
		rung{unit: tablespoon, size: tbsp, dens: []int64{1, 2}, over: []int64{1}, min: Frac(1, 2), max: mostTbsp},
		rung{unit: teaspoon, size: tsp, dens: []int64{1, 2, 4}, fine: 8, min: Frac(1, 8), max: tbsp.Div(tsp)})
	if st.Unit == dessertspoon {
		if size, ok := dessertspoon.Base(s); ok {
			d := rung{unit: dessertspoon, size: size, dens: []int64{1, 2}, over: []int64{1}, min: Frac(1, 2), max: Int(6)}
			n := len(l.rungs) - 1
			l.rungs = append(l.rungs[:n:n], d, l.rungs[n])
		}
	}
	return l
}

func pints(s System) *ladder {
	if _, ok := pint.Base(s); !ok {
		return nil // metric has no pints
	}
	perPint := mustBase(pint, s).Div(mustBase(fluidOunce, s))
	l := &ladder{pair: 2, odd: 1, rungs: []rung{
		{unit: gallon, size: mustBase(gallon, s), dens: []int64{1, 2}, over: []int64{1}, min: Int(1)},
	}}
	if s == US {
		l.rungs = append(l.rungs, rung{unit: quart, size: mustBase(quart, s), dens: []int64{1, 2}, over: []int64{1}, min: Int(1), max: Int(8)})
	}
	l.rungs = append(l.rungs,
		rung{unit: pint, size: mustBase(pint, s), dens: []int64{1, 2, 4}, over: []int64{1}, min: Frac(1, 4), max: Int(8)},
		rung{unit: fluidOunce, size: mustBase(fluidOunce, s), dens: []int64{1, 2, 4}, min: Frac(1, 4), max: perPint})
	return l
}

// figure is the plainest way to print v within tol. Each way costs 0.6 for
// each per cent of error, and something for fractions, for a second unit and
// for leaving the writer's own unit; the weights were set by eye.
func (l *ladder) figure(v, tol Number, st Style) (figure, bool) {
	var best figure
	var bestCost float64
	found := false
	try := func(value Number, cost float64, terms ...Term) {
		if !within(value, v, tol) {
			return
		}
		cost += 60 * miss(value, v).Float() / v.Float()
		if !found || cost < bestCost {
			best, bestCost, found = figure{append([]Term(nil), terms...), value}, cost, true
		}
	}
	for i, r := range l.rungs {
		n := v.Div(r.size)
		if n.Less(r.min.Mul(Frac(9, 10))) || r.max.Sign() > 0 && !n.Less(r.max.Add(Int(1))) {
			continue
		}
		for _, den := range r.steps(n) {
			count := RoundTo(n, Frac(1, den))
			if count.Less(r.min) || r.max.Sign() > 0 && !count.Less(r.max) {
				continue
			}
			try(count.Mul(r.size), r.cost(den, st), Term{Value: Exactly(count), Unit: r.unit})
		}
		for _, den := range r.over {
			upper := n.Div(Frac(1, den)).Floor().Mul(Frac(1, den))
			if upper.Less(r.min) || r.max.Sign() > 0 && !upper.Less(r.max) {
				continue
			}
			rest := n.Sub(upper).Mul(r.size)
			for _, low := range l.rungs[i+1:] {
				m := rest.Div(low.size)
				for _, d := range low.dens {
					count := RoundTo(m, Frac(1, d))
					// Not 1/2 cup + 5 tbsp: the second is less than the first's smallest step.
					if count.Sign() <= 0 || low.max.Sign() > 0 && !count.Less(low.max) || !count.Mul(low.size).Less(r.size.Div(Int(r.over[len(r.over)-1]))) {
						continue
					}
					cost := r.cost(den, st) + low.cost(d, Style{}) + l.pair
					if !count.IsInt() {
						cost += l.odd
					}
					try(upper.Mul(r.size).Add(count.Mul(low.size)), cost,
						Term{Value: Exactly(upper), Unit: r.unit}, Term{Value: Exactly(count), Unit: low.unit})
				}
			}
		}
	}
	return best, found
}

// steps are the denominators for a number of this size.
func (r rung) steps(n Number) []int64 {
	if r.fine > 0 && n.Less(Int(1)) {
		return append(r.dens[:len(r.dens):len(r.dens)], r.fine)
	}
	return r.dens
}

func (r rung) cost(den int64, st Style) float64 {
	c := map[int64]float64{1: 0, 2: 0.2, 3: 0.4, 4: 0.4, 8: 0.9}[den]
	if st.Unit == r.unit {
		c -= 0.6
	}
	return c
}
