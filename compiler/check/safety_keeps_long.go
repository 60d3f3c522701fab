package check

import (
	"slices"

	"tamis/compiler/hazard"
	"tamis/compiler/larder"
	"tamis/lang/diag"
)

var keepsLong = &Rule{
	Code: "S110", Title: "Cooked food kept chilled for longer than the limit.", Family: Safety, Severity: diag.Warning,
	What:    "Cooked meat, fish, eggs, dairy, rice or vegetables keep, pause or stand in the fridge for longer than the rules allow. What vinegar or sugar keeps is not asked about, nor bread, cakes and plain fat.",
	Why:     "Some germs grow in the fridge too, and give no sign of it.",
	Fix:     "Shorten the time, or freeze it.",
	Sources: []string{"East Devon District Council guide", "Food Standards Scotland consumer advice", "FDA Food Code 2022, 3-501.17(A), as states adopt it", "USDA National Agricultural Library, leftover food answer", "French order of 21 December 2009, as seen quoted"},
	Bad: `base Chicken broth
  rules UK
  makes 2 litres
  keeps 6 days, fridge
  gather
    2 kg     chicken wings
    3 litres water
  method
    - Simmer the chicken wings in the water, and strain.
      | ring low | leave 2 h
    - Cool in iced water.
      | work 5 min | leave 1 h
`,
	At: "4:3",
	Good: `base Chicken broth
  rules UK
  makes 2 litres
  keeps 3 days, fridge
  gather
    2 kg     chicken wings
    3 litres water
  method
    - Simmer the chicken wings in the water, and strain.
      | ring low | leave 2 h
    - Cool in iced water.
      | work 5 min | leave 1 h
`,
	Check: func(p *Pass) {
		seen := once{}
		for _, d := range p.dishes() {
			for _, s := range d.stays() {
				if s.place != "fridge" || !s.pot.Cooked && !cameCooked(s.pot) || !s.pot.Grows() || s.pot.Baked() || plainFat(s, d) {
					continue
				}
				foods := []string{"cooked"}
				if s.pot.Rice() {
					foods = []string{"rice", "cooked"}
				}
				r := d.choice.Rule("keep", foods...)
				l := r.Shortest()
				if s.time <= l.Time || seen.again(s.at) {
					continue
				}
				what := "cooked food"
				if len(l.Foods) > 0 && l.Foods[0] == "rice" {
					what = "cooked rice"
				}
				p.cite(p.ReportAs(softer(diag.Warning, r), s.at, "%s in the fridge; the figure for %s is %s", lengthOf(s.time), what, l.Length()), r, l).
					WithHelp("write %s or less, or freeze it", lengthOf(l.Time))
			}
		}
	},
}

// cameCooked tells whether meat, fish or eggs in a pot came cooked: what is made of them
// keeps no longer than what was cooked here.
func cameCooked(pot hazard.Pot) bool {
	return slices.ContainsFunc(pot.Items, func(i *hazard.Item) bool {
		return i.Cooked && i.Strong && (i.Has(larder.Meat) || i.Has(larder.Fish) || i.Has(larder.Egg) || i.Has(larder.Shellfish)) && !i.IsKind("cured")
	})
}
