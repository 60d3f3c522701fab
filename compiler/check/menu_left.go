package check

import (
	"tamis/compiler/resolve"
	"tamis/lang/diag"
	"tamis/lang/quantity"
	"tamis/lang/source"
)

// leftNoKeeps asks how long what is left over keeps.
var leftNoKeeps = &Rule{
	Code: "M107", Title: "Left over, and nobody says how long it keeps.", Family: Menu, Severity: diag.Hint,
	What:    "More than a tenth of a base, or of something a step makes, is left when the menu is cooked, and neither it nor its block has `keeps`.",
	Why:     "What has no date is thrown away at once, or too late.",
	Fix:     "Write `keeps 2 days, fridge` where it is made, with your own figures.",
	Bad:     leftButter("\n"),
	At:      "5:6",
	Good:    leftButter("\n  keeps 3 days, fridge\n"),
	Sources: []string{"University of New Hampshire Extension, date marking (seen as an excerpt)"},
	After:   Demanded,
	Check: func(p *Pass) {
		said := map[source.Span]bool{}
		for _, meal := range p.Meals {
			if meal.Menu == nil || !meal.Menu.Asked {
				continue
			}
			for _, s := range meal.Supplies {
				if s.Left.Value.High.Sign() <= 0 || s.Drawn.Value.High.Sign() <= 0 || !s.Left.Same(s.Made) {
					continue
				}
				if s.Left.Value.High.Mul(quantity.Int(10)).Less(s.Made.Value.High) {
					continue
				}
				r, at := s.Making.Recipe, s.Making.Recipe.NameAt
				if keepsSaid(r, s.Product) {
					continue
				}
				if s.Product != nil && s.Product.Made != nil {
					at = s.Product.Made.Span
				}
				if said[at] {
					continue
				}
				said[at] = true
				p.Report(at, "%s of %s is left over, and nobody says how long it keeps", s.Say(s.Left), s.Name).
					WithHelp("write `keeps 2 days, fridge` where it is made, with your own figures")
			}
		}
	},
}

func keepsSaid(r *resolve.Recipe, pr *resolve.Product) bool {
	return r.Keeps != nil || pr != nil && pr.Keeps != nil
}

func leftButter(keeps string) string {
	return "menu Supper\n  covers 4\n  course Main\n    Toasts\nbase Dill butter\n  makes 280 g\n  whole batches" + keeps +
		"  gather\n    250 g butter\n    40 g dill\n  method\n    - Beat the dill into the butter. | work 6 min\n\n" +
		"dish Toasts\n  serves 4\n  gather\n    100 g dill butter\n    8 slices white bread\n  method\n    - Spread the white bread with the dill butter. | work 5 min\n  serve cold\n"
}
