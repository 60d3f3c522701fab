package quantity

// A ladder is a set of units that are measured out together: gallons, quarts,
// cups, spoons; or pounds and ounces. Amounts are printed as one of them, or
// as a larger and a smaller.
type ladder struct {
	rungs []rung // largest first
	pair  int64  // how much dearer two units are than one, as costs are reckoned
	odd   int64  // how much dearer still if the second has a fraction
}

// rung is a unit with the fractions that its measures come in.
type rung struct {
	unit *Unit
	size Number
	dens []int64 // 1, 2, 4 …
	fine int64   // a denominator used only below 1 and alone, or 0
	// eighths is the number below which it comes in eighths too, as a scale of
	// ounces shows it; 0: none. Common practice, no source.
	eighths Number
	over    []int64 // the fractions that a smaller unit may be added to
	min     Number  // the smallest number of it that stands alone
	max     Number  // the number of it that is no longer used; 0: none
	solo    bool    // never added to a larger unit
}

var (
	teaspoon, dessertspoon, tablespoon, cup = MustUnit("tsp"), MustUnit("dessertspoon"), MustUnit("tbsp"), MustUnit("cup")
	fluidOunce, gill, pint                  = MustUnit("fl oz"), MustUnit("gill"), MustUnit("pint")
	quart, gallon                           = MustUnit("quart"), MustUnit("gallon")
	ounce, pound, inch                      = MustUnit("oz"), MustUnit("lb"), MustUnit("inch")
	peck, bushel                            = MustUnit("peck"), MustUnit("bushel")
)

// IsSpoon tells whether a unit is a spoon, which every kitchen has, whatever
// its scales and jugs say.
func (u *Unit) IsSpoon() bool { return u == teaspoon || u == dessertspoon || u == tablespoon }

// InMetric tells whether a unit is of the metric system: a gram, a litre.
func (u *Unit) InMetric() bool { return u.metric }

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
	case d != Volume:
		return nil
	case st.System == NoSystem && u != nil && u.IsSpoon():
		return ladders[ladderKey{Metric, u}] // a spoon that is nobody's has its metric size
	case st.System == NoSystem:
		return nil
	}
	switch u {
	case peck, bushel:
		return ladders[ladderKey{st.System, peck}]
	case fluidOunce, gill, pint, quart, gallon:
		return ladders[ladderKey{st.System, pint}]
	case nil:
		switch st.System {
		case US:
			return ladders[ladderKey{US, nil}]
		case Imperial:
			return ladders[ladderKey{Imperial, pint}]
		}
		return nil
	}
	return ladders[ladderKey{st.System, u}]
}

type ladderKey struct {
	system System
	unit   *Unit // the writer's; pint stands for all that go with it
}

var ladders = func() map[ladderKey]*ladder {
	m := make(map[ladderKey]*ladder)
	for _, s := range []System{Metric, US, Imperial, AU} {
		for _, u := range []*Unit{nil, teaspoon, dessertspoon, tablespoon, cup} {
			m[ladderKey{s, u}] = spoons(s, u)
		}
		if l := pints(s); l != nil {
			m[ladderKey{s, pint}] = l
			m[ladderKey{s, peck}] = &ladder{pair: 200, odd: 100, rungs: []rung{
				{unit: bushel, size: mustBase(bushel, s), dens: []int64{1, 2}, over: []int64{1}, min: Int(1)},
				{unit: peck, size: mustBase(peck, s), dens: []int64{1, 2, 4}, fine: 8, min: Frac(1, 8), max: Int(4)},
			}}
		}
	}
	return m
}()

var pounds = &ladder{pair: 100, rungs: []rung{
	{unit: pound, size: mustBase(pound, NoSystem), dens: []int64{1, 2, 4}, over: []int64{1}, min: Frac(1, 4)},
	{unit: ounce, size: mustBase(ounce, NoSystem), dens: []int64{1, 2, 4}, eighths: Int(1), min: Frac(1, 8), max: Int(16)},
}}

var inches = &ladder{pair: 900, rungs: []rung{
	{unit: inch, size: mustBase(inch, NoSystem), dens: []int64{1, 2, 4}, fine: 8, min: Frac(1, 8)},
}}

func mustBase(u *Unit, s System) Number {
	n, ok := u.Base(s)
	if !ok {
		panic("quantity: no size for " + u.Name)
	}
	return n
}

// spoons is the ladder for a writer who uses unit u.
func spoons(s System, u *Unit) *ladder {
	l := &ladder{pair: 300, odd: 100}
	tsp, tbsp, cupSize := mustBase(teaspoon, s), mustBase(tablespoon, s), mustBase(cup, s)
	cups := rung{unit: cup, size: cupSize, dens: []int64{1, 2, 3, 4}, over: []int64{1, 2, 3, 4}, min: Frac(1, 4), max: Int(mostCups)}
	mostTbsp := Int(mostSpoons)
	if s == US {
		fewest := Int(2)
		if u == cup { // what a writer measures in cups may be dry: quarts only of what is a heap
			fewest, cups.max = Int(4), Int(4*4)
		}
		l.rungs = append(l.rungs,
			rung{unit: gallon, size: mustBase(gallon, s), dens: []int64{1, 2, 4}, over: []int64{1}, min: Int(1)},
			rung{unit: quart, size: mustBase(quart, s), dens: []int64{1, 2, 4}, over: []int64{1}, min: fewest, max: Int(8)})
	}
	if s == US || u == cup {
		l.rungs = append(l.rungs, cups)
		mostTbsp = Int(4)
		if u == tablespoon {
			mostTbsp = Int(mostSpoons)
		}
	} else {
		mostTbsp = mostTbsp.Add(Frac(1, 2))
	}
	l.rungs = append(l.rungs,
		rung{unit: tablespoon, size: tbsp, dens: []int64{1, 2}, over: []int64{1}, min: Frac(1, 2), max: mostTbsp},
		rung{unit: teaspoon, size: tsp, dens: []int64{1, 2, 4}, fine: 8, min: Frac(1, 8), max: tbsp.Div(tsp)})
	if u == dessertspoon {
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
	l := &ladder{pair: 250, odd: 100, rungs: []rung{
		{unit: gallon, size: mustBase(gallon, s), dens: []int64{1, 2, 4}, over: []int64{1}, min: Int(1)},
	}}
	if s == US {
		l.rungs = append(l.rungs, rung{unit: quart, size: mustBase(quart, s), dens: []int64{1, 2}, over: []int64{1}, min: Int(1), max: Int(8)})
	}
	l.rungs = append(l.rungs,
		rung{unit: pint, size: mustBase(pint, s), dens: []int64{1, 2, 4}, over: []int64{1}, min: Frac(1, 4), max: Int(8)},
		rung{unit: fluidOunce, size: mustBase(fluidOunce, s), dens: []int64{1, 2, 4}, min: Frac(1, 4), max: perPint})
	tbsp, tsp := mustBase(tablespoon, s), mustBase(teaspoon, s) // what is less than an ounce or two is spooned
	l.rungs = append(l.rungs,
		rung{unit: tablespoon, size: tbsp, dens: []int64{1, 2}, min: Frac(1, 2), max: Int(4), solo: true},
		rung{unit: teaspoon, size: tsp, dens: []int64{1, 2, 4}, fine: 8, min: Frac(1, 8), max: tbsp.Div(tsp).Add(Int(1)), solo: true}) // 3½ tsp: between one spoon and one and a half
	return l
}
