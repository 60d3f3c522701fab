package check

import (
	"strings"

	"tamis/compiler/hazard"
	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
	"tamis/lang/source"
)

var containsLess = &Rule{
	Code: "A101", Title: "`contains` leaves out what the thing is made of.", Family: Allergens, Severity: diag.Question,
	What:    "An entry of the larder says what a thing contains, and an allergen that it holds by its nature is not among it. What is written wins over what Tamis knows, so it would be on no sheet.",
	Why:     "The lists of allergens on the sheets are made from this line.",
	Fix:     "Add the allergen, or name the thing so that it is clear why it has none.",
	Sources: []string{"Regulation (EU) 1169/2011 Annex II, as seen reproduced", "FD&C Act 201(qq): FALCPA 2004 and FASTER Act 2021, as seen quoted"},
	Bad: `larder
  plain flour | contains soya
`,
	At: "2:17",
	Good: `larder
  plain flour | contains wheat, soya
`,
	Whole: true,
	Check: func(p *Pass) {
		eachContains(p, func(e *resolve.Entry) {
			f := e.Contains
			it, ok := larder.Builtin().Find(e.Name)
			if !ok {
				return
			}
			var missing []string
			for _, c := range it.Contains {
				if c.Depends || c.Substance == "sulphites" || containsSays(f, c.Substance) {
					continue
				}
				if one := []larder.Content{c}; len(larder.Builtin().Regulate("EU", one)) > 0 || len(larder.Builtin().Regulate("US", one)) > 0 {
					missing = append(missing, c.Named())
				}
			}
			if len(missing) == 0 {
				return
			}
			d := p.Report(f.Span, "%s holds %s, which this leaves out", e.Name, wordList(missing))
			if n := len(f.Substances); n > 0 {
				end := source.Span{File: f.Span.File, Start: f.Substances[n-1].Span.End, End: f.Substances[n-1].Span.End}
				d.Replace("add "+wordList(missing), false, end, ", "+strings.Join(missing, ", "))
			}
			d.WithHelp("if yours has none, give it a name that says so")
		})
	},
}

// eachContains calls f for every entry with `contains` of the larders asked for.
func eachContains(p *Pass, f func(*resolve.Entry)) {
	for _, e := range p.Model.Entries {
		if e.Asked && e.Contains != nil {
			f(e)
		}
	}
}

// containsSays tells whether a `contains` covers a substance.
func containsSays(f *resolve.ContainsFact, substance string) bool {
	for _, c := range hazard.ContentsSaid(f) {
		if sameSubstance(c.Substance, substance) {
			return true
		}
	}
	return groupsSay(f, substance)
}

// groupsSay tells whether a `contains` names the group of a list that has the
// substance: "cereals containing gluten".
func groupsSay(f *resolve.ContainsFact, substance string) bool {
	for _, n := range f.Substances {
		for _, list := range []string{"EU", "US", "CA", "AU"} {
			for _, a := range larder.Builtin().Regulate(list, []larder.Content{{Substance: substance}}) {
				if larder.Fold(a.Group) == larder.Fold(n.Text) {
					return true
				}
			}
		}
	}
	return false
}
