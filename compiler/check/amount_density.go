package check

import (
	"tamis/compiler/resolve"
	"tamis/lang/diag"
	"tamis/lang/quantity"
)

// pairDensity compares the two measures of a line that gives both a volume
// and a weight with what the thing is known to weigh.
var pairDensity = &Rule{
	Code: "D205", Title: "A cup of this does not weigh that.", Family: Amounts, Severity: diag.Question,
	What:    "A line gives a volume and a weight, and the thing is known to weigh a third more or less than that, however the cup is filled.",
	Why:     "Readers with scales and readers with cups cook two different dishes.",
	Fix:     "Correct one of the two, or leave the second out.",
	Bad:     "dish Pancakes\n  serves 4\n  units US\n  gather\n    1 cup (250 g) plain flour\n    3 eggs\n  method\n    - Whisk the plain flour with the eggs. | work 5 min\n",
	At:      "5:5",
	Good:    "dish Pancakes\n  serves 4\n  units US\n  gather\n    1 cup (125 g) plain flour\n    3 eggs\n  method\n    - Whisk the plain flour with the eggs. | work 5 min\n",
	Sources: []string{"the weights of the built-in larder, each with its source: compiler/larder/data/density.csv", "common practice, no source, for the third"},
	Check: func(p *Pass) {
		p.eachLine(func(r *resolve.Recipe, l *resolve.Line) {
			a := l.Written
			if a == nil || a.Kind != quantity.Paired {
				return
			}
			one, p1 := a.Measure.Quantity(r.System)
			two, p2 := a.Also.Quantity(r.System)
			if p1 != nil || p2 != nil {
				return
			}
			volume, weight := a.Measure, a.Also // as they were written
			if one.Dim == quantity.Mass {
				one, two, volume, weight = two, one, weight, volume
			}
			low, high, ok := densities(l)
			if !ok || one.Dim != quantity.Volume || two.Dim != quantity.Mass || one.Value.High.Sign() <= 0 {
				return
			}
			d := two.Value.High.Div(one.Value.High)
			room := quantity.Frac(4, 3)
			if !d.Less(low.Div(room)) && !high.Mul(room).Less(d) {
				return
			}
			p.Report(l.AmountAt, "%s of %s weigh about %s, not %s", volume.String(), l.Name, weighsAbout(low, high, one.Value.High, quantity.Style{System: r.System, Unit: weight.Terms[0].Unit}), weight.String()).
				WithHelp("correct one of the two, or leave the second out")
		})
	},
}

// weighsAbout says what a volume weighs, from the lightest to the heaviest.
func weighsAbout(low, high, ml quantity.Number, st quantity.Style) string {
	a, b := quantity.Grams(low.Mul(ml)).Print(st), quantity.Grams(high.Mul(ml)).Print(st)
	if a == b {
		return a
	}
	return a + " to " + b
}
