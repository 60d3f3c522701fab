package check

import (
	"strings"

	"tamis/compiler/resolve"
	"tamis/lang/diag"
	"tamis/lang/quantity"
)

// packed hints at cups of brown sugar of which nobody says whether they are
// pressed down.
var packed = &Rule{
	Code: "D216", Title: "a cup of brown sugar, pressed down or not", Family: Amounts, Severity: diag.Hint,
	What:    "Brown sugar is measured in cups by a third of one or more, and no note says `packed` or `loose`.",
	Why:     "Pressed down a cup of it holds half as much again.",
	Fix:     "Write `1 cup brown sugar, packed`, or the weight.",
	Bad:     "dish Oat topping\n  serves 8\n  units US\n  gather\n    1 cup brown sugar\n    2 cups rolled oats\n  method\n    - Stir the brown sugar into the rolled oats. | work 2 min\n",
	At:      "5:11",
	Good:    "dish Oat topping\n  serves 8\n  units US\n  gather\n    1 cup brown sugar, packed\n    2 cups rolled oats\n  method\n    - Stir the brown sugar into the rolled oats. | work 2 min\n",
	Sources: []string{"densities of brown sugar: compiler/larder/data/density.csv", "a publisher's style guide for food (seen as an excerpt)"},
	Check: func(p *Pass) {
		p.eachLine(func(r *resolve.Recipe, l *resolve.Line) {
			a := l.AST.Amount
			if a == nil || a.Kind != quantity.Plain || len(a.Measure.Terms) == 0 || a.Measure.Terms[0].Unit == nil || a.Measure.Terms[0].Unit.Name != "cup" {
				return
			}
			if !strings.Contains(l.Key, "brown sugar") && !strings.Contains(l.Key, "muscovado") || a.Measure.Terms[0].Value.High.Less(quantity.Frac(1, 3)) {
				return
			}
			words := strings.ToLower(l.AST.Note.Text + l.AST.Brackets.Text + a.Measure.Terms[0].Modifier)
			if words != "" || factOf(r, l.Key, "weighs") != nil {
				return
			}
			p.Report(l.AST.Name.Span, "is the %s pressed down", l.Name).WithHelp("write `%s %s, packed`, or the weight", l.AST.AmountAt.Text, l.Name)
		})
	},
}
