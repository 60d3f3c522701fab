package check

import "tamis/lang/diag"

// untested asks about a dish that is cooked for numbers nobody has tried.
var untested = &Rule{
	Code: "D214", Title: "Cooked for a number nobody has tried.", Family: Amounts, Severity: diag.Question,
	What:    "A dish says at what numbers of portions it was tested, and the menu makes more than the largest or fewer than the smallest of them.",
	Why:     "Large pots reduce more slowly, deep tins bake longer, and half a custard sets before anybody looks.",
	Fix:     "Make it in batches of a tested size, try it, or widen `tested`.",
	Bad:     "menu Supper\n  covers 30\n\n  course Main\n    Leek pot\n\ndish Leek pot\n  serves 4\n  tested 4 to 12\n  gather\n    600 g leeks\n  method\n    - Soften the leeks. | ring low | work 8 min\n",
	At:      "5:5",
	Good:    "menu Supper\n  covers 12\n\n  course Main\n    Leek pot\n\ndish Leek pot\n  serves 4\n  tested 4 to 12\n  gather\n    600 g leeks\n  method\n    - Soften the leeks. | ring low | work 8 min\n",
	Sources: []string{"New Zealand Guild of Food Writers, recipe writing tips (seen as an excerpt)"},
	Check: func(p *Pass) {
		for _, meal := range p.Meals {
			if meal.Menu == nil || !meal.Menu.Asked {
				continue
			}
			for _, m := range meal.Makings {
				t := m.Recipe.Tested
				if t == nil || m.Serving == nil || m.Portions.Sign() <= 0 {
					continue
				}
				var what string
				switch {
				case t.High.Less(m.Portions):
					what = "more"
				case m.Portions.Less(t.Low):
					what = "fewer"
				default:
					continue
				}
				p.Report(m.Serving.NameAt, "%s portions of %s are %s than were ever tried", m.Portions.Text(false), m.Recipe.Name, what).
					See(orTitle(m.Recipe, m.Recipe.Own.Tested), "tested").
					WithHelp("make it in batches of a tested size, or widen `tested` when it has been tried")
			}
		}
	},
	After: Demanded,
}
