package check

import (
	"strings"

	"tamis/compiler/hazard"
	"tamis/compiler/larder"
	"tamis/lang/ast"
	"tamis/lang/diag"
	"tamis/lang/source"
)

var containsLess = &Rule{
	Code: "A101", Title: "`contains` leaves out what the thing is made of", Family: Allergens, Severity: diag.Query,
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
	Check: func(p *Pass) {
		eachContains(p, func(e *ast.Entry, f *ast.Fact) {
			it, ok := larder.Builtin().Find(e.Name.Text)
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
			d := p.Report(f.Span, "%s holds %s, which this leaves out", e.Name.Text, wordList(missing))
			if n := len(f.Names); n > 0 {
				end := source.Span{File: f.Span.File, Start: f.Names[n-1].Span.End, End: f.Names[n-1].Span.End}
				d.Replace("add "+wordList(missing), false, end, ", "+strings.Join(missing, ", "))
			}
			d.WithHelp("if yours has none, give it a name that says so")
		})
	},
}

// eachContains calls f for every `contains` of the larders asked for.
func eachContains(p *Pass, f func(*ast.Entry, *ast.Fact)) {
	for _, file := range p.Tree.Files {
		if !p.Tree.Asked(file) {
			continue
		}
		for _, b := range file.AST.Blocks {
			l, ok := b.(*ast.Larder)
			if !ok {
				continue
			}
			for _, it := range l.Items {
				e, ok := it.(*ast.Entry)
				if !ok {
					continue
				}
				for i := range e.Facts {
					if e.Facts[i].Key == "contains" {
						f(e, &e.Facts[i])
					}
				}
			}
		}
	}
}

// containsSays tells whether a `contains` covers a substance.
func containsSays(f *ast.Fact, substance string) bool {
	for _, c := range hazard.ContentsSaid(f) {
		if sameSubstance(c.Substance, substance) {
			return true
		}
	}
	return groupsSay(f, substance)
}

// groupsSay tells whether a `contains` names the group of a list that has the
// substance: "cereals containing gluten".
func groupsSay(f *ast.Fact, substance string) bool {
	for _, n := range f.Names {
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
