package check

import (
	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

// noServes hints at a dish that does not say for how many it is.
var noServes = &Rule{
	Code: "E103", Title: "For how many?", Family: Style, Severity: diag.Hint,
	What:    "A dish with a list and a method says neither how many it serves nor how much it makes, and is on no menu.",
	Why:     "Nobody can tell whether it is enough, and it cannot be scaled.",
	Fix:     "Write `serves 6`, or `makes 12 pieces`.",
	Bad:     "dish Leek pot\n  gather\n    600 g leeks\n  method\n    - Soften the leeks. | ring low | work 8 min\n",
	At:      "1:6",
	Good:    "dish Leek pot\n  serves 4\n  gather\n    600 g leeks\n  method\n    - Soften the leeks. | ring low | work 8 min\n",
	Sources: []string{"Mississippi Department of Education, standardized recipes (seen as an excerpt)"},
	Whole:   true,
	Check: func(p *Pass) {
		served := map[*resolve.Recipe]bool{}
		for _, m := range p.Model.Menus {
			for _, c := range m.Courses {
				for _, s := range c.Servings {
					served[s.Recipe] = true
				}
			}
		}
		for _, r := range p.Recipes() {
			if r.Base || r.Serves != nil || r.Makes != nil || served[r] || len(r.Lines) == 0 || len(r.Steps) == 0 {
				continue
			}
			p.Report(r.NameAt, "%s does not say for how many it is", r.Name).WithHelp("write `serves 6`, or `makes 12 pieces`")
		}
	},
}
