package check

import (
	"strings"

	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

var containsUnknown = &Rule{
	Code: "A102", Title: "`contains` names no allergen of any list.", Family: Allergens, Severity: diag.Question,
	What:    "A word after `contains` is not one that the lists of allergens use, so it would be printed nowhere.",
	Why:     "Only what the lists name is carried on to the sheets.",
	Fix:     "Use the word of the list: the cereal, the nut, milk, egg, fish and so on.",
	Sources: []string{"Regulation (EU) 1169/2011 Annex II, as seen reproduced", "FD&C Act 201(qq), as seen quoted"},
	Bad: `larder
  rye crackers | contains rey
`,
	At: "2:27",
	Good: `larder
  rye crackers | contains rye
`,
	Whole: true,
	Check: func(p *Pass) {
		eachContains(p, func(e *resolve.Entry) {
			for _, n := range e.Contains.Substances {
				if _, ok := larder.Builtin().Substance(n.Text); ok || strings.EqualFold(n.Text, "none") || groupNamed(n.Text) {
					continue
				}
				d := p.Report(n.Span, "%s is on no list of allergens", n.Text)
				if near := diag.Nearest(n.Text, substances); near != "" {
					d.Replace("write "+near, false, n.Span, near)
				}
				d.WithHelp("the words are those of the lists: %s", strings.Join(substances, ", "))
			}
		})
	},
}

// substances are the words of the lists, most asked for first.
var substances = []string{
	"wheat", "rye", "barley", "oats", "milk", "egg", "fish", "crustacean", "mollusc", "peanut", "soya", "almond", "hazelnut", "walnut",
	"cashew", "pecan", "Brazil nut", "pistachio", "macadamia", "pine nut", "celery", "mustard", "sesame", "sulphites", "lupin",
}

// groupNamed tells whether a name is that of a whole group of some list.
func groupNamed(name string) bool {
	for _, list := range []string{"EU", "UK", "US", "CA", "AU"} {
		for _, g := range larder.Builtin().Groups(list) {
			if larder.Fold(g.Name) == larder.Fold(name) {
				return true
			}
		}
	}
	return false
}
