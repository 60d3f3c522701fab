package check

import (
	"tamis/compiler/demand"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
	"tamis/lang/quantity"
)

// unmeasurable hints at scaled amounts that no cook can measure.
var unmeasurable = &Rule{
	Code: "D207", Title: "An amount nobody can measure.", Family: Amounts, Severity: diag.Hint,
	What:    "At the size of the menu a dish needs a part of an egg, or less than a third of a gram, or less than an eighth of a teaspoon. An amount written so small is let pass.",
	Why:     "The sheets print the nearest figure that can be measured, and the cook should know that it is one.",
	Fix:     "Cook for a number that comes out whole, or write the line by weight: an egg beaten and weighed is 50 g without its shell.",
	Bad:     "menu Supper\n  covers 5\n\n  course Main\n    Egg custard\n\ndish Egg custard\n  serves 4\n  gather\n    3 eggs\n    500 ml whole milk\n  method\n    - Whisk the eggs into the whole milk. | work 5 min\n",
	At:      "10:5",
	Good:    "menu Supper\n  covers 8\n\n  course Main\n    Egg custard\n\ndish Egg custard\n  serves 4\n  gather\n    3 eggs\n    500 ml whole milk\n  method\n    - Whisk the eggs into the whole milk. | work 5 min\n",
	Sources: []string{"US Armed Forces Recipe Service, for rounding in bands (seen as an excerpt)", "common practice, no source, for the limits"},
	Check: func(p *Pass) {
		seen := map[*resolve.Line]bool{}
		for _, meal := range p.Meals {
			if meal.Menu == nil {
				continue
			}
			for _, m := range meal.Makings {
				for _, a := range m.Lines {
					if l := a.Line; !seen[l] && a.Quantity != nil && l.Quantity != nil && m.Recipe.Asked && a.Source == nil {
						seen[l] = true
						p.measurable(m, a)
					}
				}
			}
		}
	},
	After: Demanded,
}

func (p *Pass) measurable(m *demand.Making, a *demand.Amount) {
	l, q := a.Line, *a.Quantity
	written := l.Quantity.Value.High
	at := l.AmountAt
	switch q.Dim {
	case quantity.None:
		it, part := itemOf(l)
		if it == nil || it.Name != "egg" || part != "" || !written.IsInt() {
			return
		}
		n := q.Value.High
		if near := quantity.RoundTo(n, quantity.Int(1)); near.Sub(n).Mul(near.Sub(n)).Less(quantity.Frac(1, 100)) {
			return
		}
		p.Report(at, "%.2f eggs are needed for %s", n.Float(), sizeOf(m)).
			WithHelp("beat the last egg and take a part of it, or cook for a number that comes out whole")
	case quantity.Mass:
		if least := quantity.Frac(1, 3); q.Value.High.Less(least) && !written.Less(least) {
			p.Report(at, "%.2f g of %s are needed for %s, and kitchen scales do not show that", q.Value.High.Float(), l.Name, sizeOf(m)).
				WithHelp("make a larger batch, or write it in pinches")
		}
	case quantity.Volume:
		if least := quantity.Frac(6, 10); q.Value.High.Less(least) && !written.Less(least) {
			p.Report(at, "%.2f ml of %s are needed for %s, less than an eighth of a teaspoon", q.Value.High.Float(), l.Name, sizeOf(m)).
				WithHelp("make a larger batch, or write it in drops or pinches")
		}
	}
}

// sizeOf says at what size a making is made.
func sizeOf(m *demand.Making) string {
	if n, ok := m.Portions.Int64(); ok && n > 0 && m.Portions.IsInt() {
		return quantity.Int(n).Text(false) + " portions of " + m.Recipe.Name
	}
	return m.Recipe.Name + " at this size"
}
