package check

import (
	"tamis/compiler/resolve"
	"tamis/lang/diag"
	"tamis/lang/quantity"
)

// saltKind hints at spoons of salt of no kind.
var saltKind = &Rule{
	Code: "D212", Title: "Spoons of salt, and no word of which.", Family: Amounts, Severity: diag.Hint,
	What:    "A tablespoon of salt or more is measured by volume, and its name is only `salt` or `sea salt`.",
	Why:     "A spoon of fine salt is twice as much salt as a spoon of flakes.",
	Fix:     "Name it, `fine salt`, `flaky salt`, or write it in grams.",
	Bad:     "dish Leek pot\n  serves 8\n  gather\n    2 kg leeks\n    2 tbsp salt\n  method\n    - Soften the leeks with the salt. | ring low | work 12 min\n",
	At:      "5:12",
	Good:    "dish Leek pot\n  serves 8\n  gather\n    2 kg leeks\n    2 tbsp fine salt\n  method\n    - Soften the leeks with the fine salt. | ring low | work 12 min\n",
	Sources: []string{"densities of salts: compiler/larder/data/density.csv", "a publisher's style guide for food (seen as an excerpt)"},
	Check: func(p *Pass) {
		p.eachLine(func(r *resolve.Recipe, l *resolve.Line) {
			if l.Key != "salt" && l.Key != "sea salt" || l.Note.Text != "" || l.Quantity == nil || l.Quantity.Dim != quantity.Volume || l.Quantity.Value.High.Less(quantity.Int(14)) {
				return
			}
			p.Report(l.NameAt, "which %s is this", l.Name).WithHelp("write `fine salt` or `flaky salt`, or the weight")
		})
	},
}
