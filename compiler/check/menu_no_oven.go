package check

import (
	"tamis/compiler/resolve"
	"tamis/lang/diag"
	"tamis/lang/source"
)

// ovenNotListed asks about an oven or a ring in a kitchen that lists only the
// other.
var ovenNotListed = &Rule{
	Code: "M111", Title: "An oven, and the kitchen lists none.", Family: Menu, Severity: diag.Question,
	What:    "A dish is baked in a kitchen that lists rings and no oven, or cooked on a ring in one that lists ovens and no rings. Said once a menu.",
	Why:     "What a kitchen does not list is planned as if there were any number of it.",
	Fix:     "List it in the kitchen, `oven main, 2 shelves`, or cook the dish another way.",
	Bad:     boatSupper("rings 2"),
	At:      "13:26",
	Good:    boatSupper("rings 2\n  oven small"),
	Sources: []string{"the Tamis notation, 2.20"},
	After:   Demanded,
	Check: func(p *Pass) {
		for _, meal := range p.Meals {
			k := meal.Kitchen
			if k == nil || meal.Menu == nil || (k.Rings > 0) == (len(k.Ovens) > 0) {
				continue
			}
			at, what, name := source.Span{}, "an oven", "oven main, 2 shelves"
			if k.Rings == 0 {
				what, name = "a ring", "rings 4"
			}
			for _, m := range meal.Makings {
				for _, s := range m.Recipe.Steps {
					if c := wanting(s, k); c != nil && at.IsZero() {
						at = c.Where()
					}
				}
			}
			if !at.IsZero() {
				p.Report(at, "this wants %s, and %s lists none", what, k.Name).WithHelp("write in the kitchen: `%s`", name)
			}
		}
	},
}

// wanting is the clause of a step that wants what the kitchen does not list.
func wanting(s *resolve.Step, k *resolve.Kitchen) resolve.Clause {
	switch {
	case len(k.Ovens) == 0 && len(s.Heats) > 0:
		return resolve.FirstOf(s.Margin, resolve.WordOven)
	case k.Rings == 0 && s.Rings > 0:
		return resolve.FirstOf(s.Margin, resolve.WordRing)
	}
	return nil
}

func boatSupper(field string) string {
	return "menu Supper\n  covers 4\n  at Boat\n  course Main\n    Leeks\ndish Leeks\n  serves 4\n  gather\n    600 g leeks\n  method\n" +
		"    - Boil the leeks. | ring high | work 8 min\n    - Drain. | work 1 min\n    - Bake until gold. | oven 200 C | leave 20 min\n\nkitchen Boat\n  " + field + "\n"
}
