package check

import (
	"tamis/compiler/resolve"
	"tamis/lang/diag"
	"tamis/lang/quantity"
)

// whichSugar hints at sugar of no kind in baking.
var whichSugar = &Rule{
	Code: "D217", Title: "Sugar of no kind, in baking.", Family: Amounts, Severity: diag.Hint,
	What:    "A recipe that bakes with flour gathers 50 g or more of `sugar`, and does not say which.",
	Why:     "Fine sugar takes up air with butter, coarse sugar stays in grains, and brown sugar makes it moist.",
	Fix:     "Name it: `caster sugar`, `granulated sugar`, `soft brown sugar`.",
	Bad:     "dish Shortbread\n  serves 8\n  gather\n    225 g plain flour\n    75 g sugar\n    150 g butter\n  method\n    - Rub everything together. | work 8 min\n    - Bake. | oven 160 C | leave 40 min\n",
	At:      "5:10",
	Good:    "dish Shortbread\n  serves 8\n  gather\n    225 g plain flour\n    75 g caster sugar\n    150 g butter\n  method\n    - Rub everything together. | work 8 min\n    - Bake. | oven 160 C | leave 40 min\n",
	Sources: []string{"a publisher's style guide for food (seen as an excerpt)"},
	Check: func(p *Pass) {
		baking := map[*resolve.Recipe]bool{}
		for _, r := range p.Recipes() {
			baking[r] = bakes(r)
		}
		p.eachLine(func(r *resolve.Recipe, l *resolve.Line) {
			if l.Key != "sugar" || !baking[r] || l.Note.Text != "" || l.Brackets.Text != "" || r.Scope.Entry(l.Key) != nil {
				return
			}
			if q := l.Quantity; q == nil || q.Dim != quantity.Mass && q.Dim != quantity.Volume || q.Value.High.Less(quantity.Int(50)) {
				return
			}
			p.Report(l.NameAt, "which sugar is this").WithHelp("write `caster sugar`, `granulated sugar` or `soft brown sugar`")
		})
	},
}
