package check

import (
	"tamis/compiler/resolve"
	"tamis/lang/diag"
	"tamis/lang/quantity"
)

// manyEggs is from how many eggs on their size matters in baking. Common
// practice, no source.
const manyEggs = 3

// eggSize hints at eggs of no size in baking.
var eggSize = &Rule{
	Code: "D211", Title: "Eggs of no size, in baking.", Family: Amounts, Severity: diag.Hint,
	What:    "A recipe that bakes with flour takes three eggs or more, does not say how large they are, and the larder of the folder does not say what one weighs.",
	Why:     "A British large egg weighs a quarter more than a British small one, and an American large egg about as much as a British medium one.",
	Fix:     "Write `3 large eggs`, or once for the folder in the larder: `egg | piece 58 g`.",
	Bad:     "dish Sponge\n  serves 8\n  gather\n    4 eggs\n    225 g plain flour\n  method\n    - Fold the plain flour into the eggs. | work 10 min\n    - Bake. | oven 180 C | leave 25 min\n",
	At:      "4:7",
	Good:    "dish Sponge\n  serves 8\n  gather\n    4 large eggs\n    225 g plain flour\n  method\n    - Fold the plain flour into the eggs. | work 10 min\n    - Bake. | oven 180 C | leave 25 min\n",
	Sources: []string{"the style sheet of a publisher of cookery books (seen as an excerpt)", "weights of eggs: compiler/larder/data/pieces.csv"},
	Check: func(p *Pass) {
		baking := map[*resolve.Recipe]bool{}
		for _, r := range p.Recipes() {
			baking[r] = bakes(r)
		}
		p.eachLine(func(r *resolve.Recipe, l *resolve.Line) {
			it, part := itemOf(l)
			if !baking[r] || !bareCount(l) || l.Size != "" || it == nil || it.Name != "egg" || part != "" || l.Quantity.Value.High.Less(quantity.Int(manyEggs)) || says(r, l.Key).Piece != nil {
				return
			}
			p.Report(l.NameAt, "how large are the %s", l.Name).
				WithHelp("write `%s large eggs`, or in the larder `egg | piece 58 g`", l.AmountText)
		})
	},
}
