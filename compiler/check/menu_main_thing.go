package check

import (
	"slices"

	"tamis/compiler/demand"
	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
	"tamis/lang/quantity"
)

// mainThing hints at a menu that serves one thing twice.
var mainThing = &Rule{
	Code: "M104", Title: "The same main thing in two courses.", Family: Menu, Severity: diag.Hint,
	What:    "Dishes of two courses are mostly of the same vegetable, fruit, meat or fish, by weight. Onions, potatoes, carrots, tomatoes and lemons are let pass.",
	Why:     "Guests remember the meal as the one with all the cucumber.",
	Fix:     "Change one of the two; if it is meant so, `allow M104: ` and the reason.",
	Bad:     twoLeeks("Leek pot", "leeks"),
	At:      "8:5",
	Good:    twoLeeks("Pea pot", "frozen peas"),
	Sources: []string{"common practice, no source"},
	After:   Demanded,
	Check: func(p *Pass) {
		for _, meal := range p.Meals {
			if meal.Menu == nil || !meal.Menu.Asked {
				continue
			}
			first := map[*larder.Item]*resolve.Serving{}
			for _, c := range meal.Menu.Courses {
				for _, s := range c.Servings {
					it := mainOf(meal, s)
					if it == nil {
						continue
					}
					have := first[it]
					if have == nil {
						first[it] = s
						continue
					}
					if have.Course != s.Course {
						p.Report(s.NameAt, "%s is mostly %s, and so is %s", s.Name, it.Name, have.Name).
							See(have.NameAt, "the other course")
					}
				}
			}
		}
	},
}

func twoLeeks(dish, thing string) string {
	return "menu Supper\n  covers 4\n\n  course First\n    Leek soup\n\n  course Main\n    " + dish + "\n\ndish Leek soup\n  serves 4\n  gather\n    600 g leeks\n  method\n    - Boil the leeks. | ring high | work 8 min\n\n" +
		"dish " + dish + "\n  serves 4\n  gather\n    800 g " + thing + "\n  method\n    - Stew the " + thing + ". | ring low | work 8 min\n"
}

// everyday are things that a menu may have in every course.
var everyday = []string{"onion", "red onion", "white onion", "shallot", "spring onion", "garlic", "potato", "floury potato", "waxy potato", "new potato", "carrot", "celery", "tomato", "lemon", "lime", "apple"}

// mainOf is what most of a serving is made of, if it is one of the things that
// guests notice, and at least a third of what is weighed.
func mainOf(meal *demand.Meal, s *resolve.Serving) *larder.Item {
	i := slices.IndexFunc(meal.Makings, func(m *demand.Making) bool { return m.Serving == s })
	if i < 0 {
		return nil
	}
	var most, all quantity.Number
	var what *larder.Item
	for _, a := range meal.Makings[i].Lines {
		if a.Quantity == nil || a.Line.Water {
			continue
		}
		g, ok := gramsAtMost(a.Line, *a.Quantity)
		if !ok {
			continue
		}
		all = all.Add(g)
		if most.Less(g) {
			most = g
			what, _ = itemOf(a.Line)
			if a.Source != nil {
				what = nil
			}
		}
	}
	if what == nil || most.Mul(quantity.Int(3)).Less(all) || slices.Contains(everyday, what.Name) {
		return nil
	}
	if !slices.Contains([]string{"greengrocer", "butcher", "fishmonger"}, what.Counter) {
		return nil
	}
	return what
}
