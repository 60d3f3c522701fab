package check

import (
	"tamis/compiler/resolve"
	"tamis/lang/diag"
	"tamis/lang/quantity"
)

// otherPieces asks about a yield that is not what the steps divide into.
var otherPieces = &Rule{
	Code: "D215", Title: "The yield and the pieces differ.", Family: Amounts, Severity: diag.Question,
	What:    "A block makes so many pieces, and a step divides into another number of them.",
	Why:     "What draws on it counts with the first, and the cook shapes the second.",
	Fix:     "Write the same number in both.",
	Bad:     "dish Buns\n  makes 12 buns\n  gather\n    500 g strong flour\n    300 ml water\n  method\n    - Knead the strong flour with the water. | work 10 min\n    - Shape into buns. | into 16 buns | work 10 min\n    - Bake. | oven 220 C | leave 15 min\n",
	At:      "8:26",
	Good:    "dish Buns\n  makes 16 buns\n  gather\n    500 g strong flour\n    300 ml water\n  method\n    - Knead the strong flour with the water. | work 10 min\n    - Shape into buns. | into 16 buns | work 10 min\n    - Bake. | oven 220 C | leave 15 min\n",
	Sources: []string{"the Tamis notation, 2.12"},
	Check: func(p *Pass) {
		p.eachStep(func(r *resolve.Recipe, s *resolve.Step, _ saying) {
			if s.Into == nil || r.Makes == nil || r.Makes.Quantity.Dim != quantity.None && r.Makes.Quantity.Dim != quantity.Word {
				return
			}
			n := quantity.Int(int64(s.Into.Count))
			if made := r.Makes.Quantity.Value; n.Less(made.Low) || made.High.Less(n) {
				p.Report(s.Into.Span, "this divides into %d, and %s makes %s", s.Into.Count, r.Name, made.High.Text(false)).
					See(orTitle(r, r.Own.Makes), "the yield").
					WithHelp("write the same number in both")
			}
		})
	},
}
