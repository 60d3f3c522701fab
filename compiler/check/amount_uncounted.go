package check

import (
	"tamis/lang/diag"
	"tamis/lang/quantity"
)

// uncounted asks about a number that has lost its unit: nobody counts flour.
var uncounted = &Rule{
	Code: "D218", Title: "So many of what is weighed.", Family: Amounts, Severity: diag.Question,
	What:    "A line counts five or more of a thing that is weighed or poured, such as flour, sugar, salt or water, and has no unit.",
	Why:     "Kitchens leave the grams away among themselves, and it scales and is bought as so many pieces.",
	Fix:     "Write the unit, such as `500 g plain flour` or `80 ml water`.",
	Bad:     "dish Dough\n  serves 4\n  gather\n    500 plain flour\n    300 ml water\n  method\n    - Knead the plain flour with the water. | work 10 min\n    - Bake. | oven 220 C | leave 30 min\n",
	At:      "4:5",
	Good:    "dish Dough\n  serves 4\n  gather\n    500 g plain flour\n    300 ml water\n  method\n    - Knead the plain flour with the water. | work 10 min\n    - Bake. | oven 220 C | leave 30 min\n",
	Sources: []string{"common practice, no source"},
	Check: func(p *Pass) {
		for _, r := range p.Recipes() {
			for _, l := range r.Lines {
				it, part := itemOf(l)
				if !bareCount(l) || it == nil || part != "" || len(it.Pieces) > 0 || len(it.Densities) == 0 && !it.Water || it.Plural != it.Name || l.From != nil || l.Product != nil || !mine(r, l.Span) {
					continue
				}
				if says(r, l.Key).Piece != nil || l.Quantity.Value.High.Less(quantity.Int(5)) {
					continue
				}
				unit := "g"
				if it.Water {
					unit = "ml"
				}
				p.Report(l.AmountAt, "%s %s: so many of what", l.AmountText, l.Name).
					WithHelp("write the unit, such as `%s %s %s`", l.AmountText, unit, l.Name)
			}
		}
	},
}
