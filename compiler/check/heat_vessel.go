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
	What:    "What a step puts in a vessel is more than the vessel holds: at the written size, or at the size of the menu with all such vessels of the kitchen. Steps that go `per load` are let pass.",
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
				for _, sr := range m.Reading.Steps {
					if s := sr.Step; !seen[s] && m.Recipe.Asked && mine(m.Recipe, s.Span) {
						seen[s] = true
						p.fits(meal, m, sr)
					}
				}
			}
		}
	},
	After: Demanded,
}

func (p *Pass) fits(meal *demand.Meal, m *demand.Making, sr *resolve.StepReading) {
	s := sr.Step
	c := resolve.First[*resolve.InVessel](s.Margin)
	if c == nil || goesRound(s) {
		return
	}
	var sum quantity.Number
	for _, t := range sr.Takes {
		if q, ok := taken(t); ok {
			sum = sum.Add(mlAtLeast(t.Line, q))
		} else if t.Product != nil && t.Product.Quantity != nil {
			sum = sum.Add(t.Product.Quantity.Value.Low.Div(heaviest))
		}
	}
	report := func(goes, holds quantity.Number, how string, as quantity.Measure) {
		p.Report(c.Span, "at least %s go in, and %s %s", inUnitsOf(as, m.Recipe, goes), how, inUnitsOf(as, m.Recipe, holds)).
			WithHelp("name a larger vessel, or let it go in turns: `| work 6 min per load`")
	}
	if len(c.Holds.Terms) > 0 {
		if q, problem := c.Holds.Quantity(m.Recipe.System); problem == nil && bulky(q) {
			how := "it holds"
			if s.Vessels > 1 {
				how = "they hold"
			}
			if holds := room(q).Mul(quantity.Int(int64(max(1, s.Vessels)))); holds.Less(sum) {
				report(sum, holds, how, c.Holds)
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
		all := room(*v.Holds).Mul(quantity.Int(int64(v.Count)))
		if total := sum.Mul(m.Factor); all.Less(total) {
			how := "the " + v.Name + " of " + meal.Kitchen.Name + " holds"
			if v.Count > 1 {
				how = "all of this kind in " + meal.Kitchen.Name + " hold"
			}
			report(total, all, how, v.Written)
		}
	}
}

// inUnitsOf is a volume in the units in which a vessel was measured.
func inUnitsOf(m quantity.Measure, r *resolve.Recipe, ml quantity.Number) string {
	st := r.Style()
	if u := m.Terms[0].Unit; u != nil && u.Dim == quantity.Volume {
		st.Unit, st.System = u, r.System
	}
	return quantity.Millilitres(ml).Print(st)
}

// bulky tells whether a vessel is said to hold so much, and not so many: six
// slices are no six millilitres.
func bulky(q quantity.Quantity) bool { return q.Dim == quantity.Mass || q.Dim == quantity.Volume }

// room is what a vessel holds in ml; of one measured by weight, the most that
// so much can take up.
func room(q quantity.Quantity) quantity.Number {
	if q.Dim == quantity.Mass {
		return q.Value.High.Div(lightest)
	}
	return q.Value.High
}

// goesRound tells whether a step is done a load at a time.
func goesRound(s *resolve.Step) bool {
	for _, sp := range s.Phases {
		if sp.Per != nil {
			return true
		}
	}
	return s.Into != nil
}
