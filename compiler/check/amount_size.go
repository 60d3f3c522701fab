package check

import (
	"tamis/compiler/resolve"
	"tamis/lang/diag"
	"tamis/lang/quantity"
)

// noPieceSize hints at fruit and vegetables that are counted where weights
// matter.
var noPieceSize = &Rule{
	Code: "D202", Title: "A count without a size, in baking.", Family: Amounts, Severity: diag.Hint,
	What:    "A recipe that bakes with flour counts fruit or vegetables without `small`, `medium` or `large`, and the larder of the folder does not say what one weighs. Lemons, limes and oranges are let pass.",
	Why:     "Three small bananas are half of three large ones, and the cake is dry or wet by that.",
	Fix:     "Write a weight, `350 g bananas`, or a size, `3 large bananas`.",
	Bad:     "dish Banana loaf\n  serves 8\n  gather\n    3 bananas\n    250 g plain flour\n  method\n    - Mash the bananas into the plain flour. | work 5 min\n    - Bake. | oven 180 C | leave 50 min\n",
	At:      "4:5",
	Good:    "dish Banana loaf\n  serves 8\n  gather\n    3 large bananas\n    250 g plain flour\n  method\n    - Mash the bananas into the plain flour. | work 5 min\n    - Bake. | oven 180 C | leave 50 min\n",
	Sources: []string{"New Zealand Guild of Food Writers, recipe writing tips (seen as an excerpt)"},
	Check: func(p *Pass) {
		for _, r := range p.Recipes() {
			if !bakes(r) {
				continue
			}
			for _, l := range r.Lines {
				it, part := itemOf(l)
				if !bareCount(l) || l.Size != "" || it == nil || part != "" || it.Counter != "greengrocer" || l.From != nil || l.Product != nil || !mine(r, l.Span) {
					continue
				}
				switch it.Name {
				case "lemon", "lime", "orange", "clementine", "mandarin", "garlic":
					continue
				}
				if says(r, l.Key).Piece != nil {
					continue
				}
				p.Report(l.AmountAt, "%s: how large are they", l.Name).
					WithHelp("write a weight, or a size: `%s large %s`", l.AmountText, l.Name)
			}
		}
	},
}

// bareCount tells whether a line is so many of a thing, with no unit.
func bareCount(l *resolve.Line) bool {
	return l.Written != nil && l.Written.Kind == quantity.Plain && l.Quantity != nil && l.Quantity.Dim == quantity.None
}
