package check

import (
	"tamis/compiler/demand"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
	"tamis/lang/quantity"
)

// smallVessel asks whether what goes in fits. It reckons with the least room
// that things take up, and only with what can be measured.
var smallVessel = &Rule{
	Code: "H113", Title: "More than the vessel holds.", Family: Heat, Severity: diag.Question,
	What:    "What a step puts in a vessel, or the mixture that goes on to it, is more than the vessel holds, by volume or by weight: at the written size, or at the size of the menu with all such vessels of the kitchen. Steps that go `per load` are let pass.",
	Why:     "It boils over, or a second vessel is looked for with the hands full.",
	Fix:     "Name a larger vessel, or let it go in turns: `| work 6 min per load`.",
	Bad:     "dish Leek pot\n  serves 4\n  gather\n    600 g leeks\n    4 litres water\n  method\n    - Boil the leeks in the water. | ring high | in pan, holds 3 litres | leave 20 min\n",
	At:      "7:50",
	Good:    "dish Leek pot\n  serves 4\n  gather\n    600 g leeks\n    4 litres water\n  method\n    - Boil the leeks in the water. | ring high | in pan, holds 8 litres | leave 20 min\n",
	Sources: []string{"common practice, no source: a pan of leaves and bones is fuller than this counts"},
	Check: func(p *Pass) {
		seen := map[*resolve.Step]bool{}
		for _, meal := range p.Meals {
			for _, m := range meal.Makings {
				if m.Reading == nil {
					continue
				}
				for i, sr := range m.Reading.Steps {
					if s := sr.Step; !seen[s] && m.Recipe.Asked && mine(m.Recipe, s.Span) {
						seen[s] = true
						p.fits(meal, m, sr.Step, contents(m.Reading.Steps, i))
					}
				}
			}
		}
	},
	After: Demanded,
}

// contents are what a step has in its vessel: what it takes; or, where it takes nothing by
// itself, what the steps just above it put together: the mixture that goes on.
func contents(steps []*resolve.StepReading, i int) (out []resolve.Take) {
	for ; i >= 0; i-- {
		sr := steps[i]
		for _, t := range sr.Takes {
			if !t.Refers {
				out = append(out, t)
			}
		}
		if len(sr.Takes) > 0 && len(out) > 0 || i == 0 || sr.Step.Meanwhile || len(sr.Step.After) > 0 {
			return out
		}
		s := steps[i-1].Step
		if resolve.First[*resolve.InVessel](s.Margin) != nil || s.Into != nil || len(s.Heats) > 0 || s.Rings > 0 || speaksIn(s.Prose.Text, "drain", "strain", "sieve", "squeeze", "discard") {
			return nil // less of it may go on
		}
	}
	return out
}

func (p *Pass) fits(meal *demand.Meal, m *demand.Making, s *resolve.Step, takes []resolve.Take) {
	c := resolve.First[*resolve.InVessel](s.Margin)
	if c == nil || goesRound(s) {
		return
	}
	var sum, mass quantity.Number
	for _, t := range takes {
		if q, ok := taken(t); ok {
			sum = sum.Add(mlAtLeast(t.Line, q))
			mass = mass.Add(leastGrams(t.Line, q))
		} else if t.Product != nil && t.Product.Quantity != nil {
			sum = sum.Add(t.Product.Quantity.Value.Low.Div(heaviest))
		}
	}
	report := func(goes, holds quantity.Number, how string, as quantity.Measure) {
		p.Report(c.Span, "at least %s go in, and %s %s", inUnitsOf(as, m.Recipe, goes), how, inUnitsOf(as, m.Recipe, holds)).
			WithHelp("name a larger vessel, or let it go in turns: `| work 6 min per load`")
	}
	goes := func(holds quantity.Quantity) quantity.Number {
		if holds.Dim == quantity.Mass {
			return mass
		}
		return sum
	}
	if len(c.Holds.Terms) > 0 {
		if q, problem := c.Holds.Quantity(m.Recipe.System); problem == nil && bulky(q) {
			how := "it holds"
			if s.Vessels > 1 {
				how = "they hold"
			}
			if holds := q.Value.High.Mul(quantity.Int(int64(max(1, s.Vessels)))); holds.Less(goes(q)) {
				report(goes(q), holds, how, c.Holds)
				return
			}
		}
	}
	if meal.Kitchen == nil {
		return
	}
	for _, v := range meal.Kitchen.Vessels {
		if v.Key != s.Vessel || v.Holds == nil || !bulky(*v.Holds) {
			continue
		}
		all := v.Holds.Value.High.Mul(quantity.Int(int64(v.Count)))
		if total := goes(*v.Holds).Mul(m.Factor); all.Less(total) {
			how := "the " + v.Name + " of " + meal.Kitchen.Name + " holds"
			if v.Count > 1 {
				how = "all of this kind in " + meal.Kitchen.Name + " hold"
			}
			report(total, all, how, v.Written)
		}
	}
}

// inUnitsOf is a volume or a weight in the units in which a vessel was measured.
func inUnitsOf(m quantity.Measure, r *resolve.Recipe, n quantity.Number) string {
	st := r.Style()
	u := m.Terms[0].Unit
	if u != nil && u.Dim == quantity.Mass {
		st.Unit, st.System = u, r.System
		return quantity.Grams(n).Print(st)
	}
	if u != nil && u.Dim == quantity.Volume {
		st.Unit, st.System = u, r.System
	}
	return quantity.Millilitres(n).Print(st)
}

// leastGrams is the least that an amount of a line weighs, in g; 0 where that cannot be
// told.
func leastGrams(l *resolve.Line, q quantity.Quantity) quantity.Number {
	n := q.Value.Low
	switch q.Dim {
	case quantity.Mass:
		return n
	case quantity.Volume:
		if low, _, ok := densities(l); ok {
			return n.Mul(low)
		}
		return n.Mul(lightest)
	case quantity.None:
		if each, _, ok := l.PieceGrams(); ok {
			return n.Mul(each)
		}
	}
	return quantity.Number{}
}

// bulky tells whether a vessel is said to hold so much, and not so many: six
// slices are no six millilitres.
func bulky(q quantity.Quantity) bool { return q.Dim == quantity.Mass || q.Dim == quantity.Volume }

// goesRound tells whether a step is done a load at a time.
func goesRound(s *resolve.Step) bool {
	for _, sp := range s.Phases {
		if sp.Per != nil {
			return true
		}
	}
	return s.Into != nil
}
