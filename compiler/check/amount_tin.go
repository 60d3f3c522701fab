package check

import (
	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
	"tamis/lang/quantity"
)

// noTinSize asks how much is in a tin.
var noTinSize = &Rule{
	Code: "D203", Title: "A tin or packet without a size.", Family: Amounts, Severity: diag.Question,
	What:    "A line counts tins, packets, jars or other packages and does not say what one holds; the larder of the folder does not either.",
	Why:     "Tins of tomatoes are sold with 200, 400 and 800 g, and the nearest shop may have only one of them.",
	Fix:     "Write such as `2 x 400 g tins plum tomatoes`, or `packs 400 g` in the larder.",
	Bad:     "dish Tomato soup\n  serves 4\n  gather\n    2 tins plum tomatoes\n  method\n    - Heat the plum tomatoes. | ring low | work 8 min\n",
	At:      "4:5",
	Good:    "dish Tomato soup\n  serves 4\n  gather\n    2 x 400 g tins plum tomatoes\n  method\n    - Heat the plum tomatoes. | ring low | work 8 min\n",
	Sources: []string{"a community cookbook's guide for contributors (seen as an excerpt)"},
	Check: func(p *Pass) {
		p.eachLine(func(r *resolve.Recipe, l *resolve.Line) {
			a := l.Written
			if a == nil || a.Kind != quantity.Plain || len(a.Measure.Terms) == 0 || l.From != nil || l.Product != nil || l.BoughtAs != nil || l.Brackets.Text != "" {
				return
			}
			t := a.Measure.Terms[0]
			if t.Unit == nil || !t.Unit.Packs || says(r, l.Key).Packs != nil || t.Modifier != "" {
				return
			}
			if t.Unit.Name == "bottle" && oneSize(r, l.Name) {
				return
			}
			switch t.Unit.Name {
			case "tub", "punnet", "bag", "box", "bottle", "tin", "can", "jar", "packet", "sachet", "carton":
				p.Report(l.AmountAt, "what does one %s of %s hold", t.Unit.Name, l.Name).
					WithHelp("write such as `%s x 400 g %s %s`, with the right figure", t.Value.High.Text(false), t.Unit.Plural, l.Name)
			}
		})
	},
}

// oneSize tells whether a thing is sold in bottles of one size, as wine is.
func oneSize(r *resolve.Recipe, name string) bool {
	it, ok := larder.Builtin().Find(name)
	if !ok {
		return false
	}
	region, sizes := "UK", 0
	if r.System == quantity.US {
		region = "US"
	}
	for _, p := range it.Packs {
		if p.Region == region {
			sizes++
		}
	}
	return sizes == 1 && it.Packs[0].Unit == "ml"
}

// eachLine calls f for every line that is written in a recipe asked for.
func (p *Pass) eachLine(f func(r *resolve.Recipe, l *resolve.Line)) {
	for _, r := range p.Recipes() {
		for _, l := range r.Lines {
			if mine(r, l.Span) {
				f(r, l)
			}
		}
	}
}
