package check

import (
	"tamis/compiler/demand"
	"tamis/compiler/figures"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
	"tamis/lang/quantity"
)

// fullTin asks about a tin that is given more, or less, than it was written for.
var fullTin = &Rule{
	Code: "H142", Title: "More in each tin than was written.", Family: Heat, Severity: diag.Question,
	What:    "A step puts its food into so many tins or dishes, and at the size of the menu each of them gets a quarter more, or a fifth less, than at the written size.",
	Why:     "A deeper tart is raw in the middle when its edge is done, and a shallow one is dry.",
	Fix:     "Cook for a number that fills whole tins, or name a tin of another size and its time.",
	Bad:     "menu Tea\n  covers 11\n  course Table\n    Custard tart\n\ndish Custard tart\n  serves 8\n  gather\n    300 g shortcrust pastry\n    500 ml single cream\n  method\n    - Line a tart tin with the shortcrust pastry. | into 1 tart tin | work 10 min\n    - Pour in the cream and bake. | oven 150 C | leave 40 min\n  serve cold\n",
	At:      "12:53",
	Good:    "menu Tea\n  covers 16\n  course Table\n    Custard tart\n\ndish Custard tart\n  serves 8\n  gather\n    300 g shortcrust pastry\n    500 ml single cream\n  method\n    - Line a tart tin with the shortcrust pastry. | into 1 tart tin | work 10 min\n    - Pour in the cream and bake. | oven 150 C | leave 40 min\n  serve cold\n",
	Sources: []string{noSource},
	Check: func(p *Pass) {
		p.madeOver(func(_ *demand.Meal, m *demand.Making, s *resolve.Step) bool {
			c := s.Into
			if c == nil || c.Count <= 0 || !c.IntoVessels() {
				return false
			}
			n := figures.WholePieces(m.Factor.Mul(quantity.Int(int64(c.Count))))
			each := m.Factor.Mul(quantity.Int(int64(c.Count))).Div(quantity.Int(int64(n)))
			if !otherSize(each) {
				return false
			}
			p.Report(c.Span, "%s is made %s times over, into %d %s: each gets %s of what was written", m.Recipe.Name, timesOver(m.Factor), n,
				figures.InNumber(c.Name.Text, quantity.Int(int64(n))), percentOf(each)).
				WithHelp("cook for a number that fills whole ones, or name one of another size and its time").
				WithHelp("or bake as many as are full: `whole batches`")
			return true
		})
	},
	After: Demanded,
}

// writtenTime asks about what is cooked several times over in the time of once.
var writtenTime = &Rule{
	Code: "H143", Title: "Made several times over, in the written time.", Family: Heat, Severity: diag.Question,
	What:    "The menu makes a block more than three times over, and a step on a ring or in an oven has a time that does not grow, in nothing whose size is known: no vessel that `holds`, no shelves, no `per load`. Where a block says what it was `tested` for, D214 asks.",
	Why:     "A pot of four times the size takes longer to boil, and four trays do not stand on one shelf.",
	Fix:     "Say what it goes into, `in stockpot, holds 20 litres`, or how many shelves it takes; let it go in turns, `| watch 8 min per load`; or, where it was tried, `tested 4 to 24`.",
	Bad:     "menu Fete\n  covers 20\n  course Table\n    Fritters\n\ndish Fritters\n  serves 4\n  gather\n    400 g courgettes\n    100 g plain flour\n  method\n    - Mix the courgettes with the flour. | work 5 min\n    - Fry. | ring medium | watch 8 min\n  serve hot\n",
	At:      "13:28",
	Good:    "menu Fete\n  covers 20\n  course Table\n    Fritters\n\ndish Fritters\n  serves 4\n  tested 4 to 24\n  gather\n    400 g courgettes\n    100 g plain flour\n  method\n    - Mix the courgettes with the flour. | work 5 min\n    - Fry. | ring medium | watch 8 min\n  serve hot\n",
	Sources: []string{noSource},
	Check: func(p *Pass) {
		asked := map[*resolve.Recipe]bool{}
		p.madeOver(func(meal *demand.Meal, m *demand.Making, s *resolve.Step) bool {
			sp := onceThrough(s)
			if sp == nil || asked[m.Recipe] || !quantity.Int(3).Less(m.Factor) || sizeKnown(meal, s) || m.Recipe.Tested != nil || inATin(m) {
				return false
			}
			asked[m.Recipe] = true // one answer holds for all its steps
			p.Report(sp.Span, "%s is made %s times over, and this takes the written %s", m.Recipe.Name, timesOver(m.Factor), sp.Fixed.String()).
				WithHelp("say what it goes into: `in stockpot, holds 20 litres`, or how many shelves it takes: `oven 180 C, 2 shelves`").
				WithHelp("or let it go in turns: `| watch 8 min per load`").
				WithHelp("where it was tried, write so: `tested 4 to 24`")
			return true
		})
	},
	After: Demanded,
}

// madeOver looks at each step of what is made at another size than it is written.
func (p *Pass) madeOver(look func(*demand.Meal, *demand.Making, *resolve.Step) bool) {
	seen := map[*resolve.Step]bool{}
	for _, meal := range p.Meals {
		for _, m := range meal.Makings {
			if m.Reading == nil || m.Factor.Equal(quantity.Int(1)) {
				continue
			}
			for _, sr := range m.Reading.Steps {
				if s := sr.Step; !seen[s] && m.Recipe.Asked && mine(m.Recipe, s.Span) && look(meal, m, s) {
					seen[s] = true
				}
			}
		}
	}
}

// onceThrough is the time of a step on a fire that does not grow with what is in it.
func onceThrough(s *resolve.Step) *resolve.Spell {
	if len(s.Heats) == 0 && s.Rings == 0 && !s.Grill {
		return nil
	}
	var out *resolve.Spell
	for i := range s.Phases {
		sp := &s.Phases[i]
		if sp.Per != nil || len(sp.Points) > 0 {
			return nil
		}
		if sp.Kind != resolve.Work && sp.Fixed != nil && out == nil {
			out = sp
		}
	}
	return out
}

// sizeKnown tells whether it is said what a step goes into: a vessel that holds so
// much, or so many shelves.
func sizeKnown(meal *demand.Meal, s *resolve.Step) bool {
	if c := resolve.First[*resolve.InVessel](s.Margin); c != nil && len(c.Holds.Terms) > 0 {
		return true
	}
	if c := resolve.First[*resolve.InOven](s.Margin); c != nil && c.Shelves > 0 {
		return true
	}
	if meal.Kitchen == nil || s.Vessel == "" {
		return false
	}
	for _, v := range meal.Kitchen.Vessels {
		if v.Key == s.Vessel && v.Holds != nil {
			return true
		}
	}
	return false
}

// timesOver is a factor as it is said: "1.3", "16".
func timesOver(f quantity.Number) string {
	return quantity.RoundTo(f, quantity.Frac(1, 10)).Text(false)
}

func percentOf(n quantity.Number) string {
	return quantity.RoundTo(n.Mul(quantity.Int(100)), quantity.Int(1)).Text(false) + " %"
}
