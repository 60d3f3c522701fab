package check

import (
	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

var idleBase = &Rule{
	Code: "U320", Title: "A base that nobody draws on.", Family: Names, Severity: diag.Hint,
	What: "A folder with a menu has a base which is not on the menu, and which no list, chapter or part speaks of.",
	Why:  "Either a line that should draw on it is spelt in another way, or it is in the wrong folder.",
	Fix:  "Gather it by its whole name where it goes in, or take it out.",
	Bad: `menu Supper
  covers 4

  course Main
    Buttered leeks

dish Buttered leeks
  serves 4
  gather
    800 g    leeks
    40 g     salted butter
  method
    - Soften the leeks in the butter. | ring low | work 10 min

base Dill butter
  makes 280 g
  gather
    250 g    butter, soft
    30 g     dill leaves, chopped
  method
    - Beat the dill leaves into the butter. | work 6 min
`,
	At: "15:6",
	Good: `menu Supper
  covers 4

  course Main
    Buttered leeks

dish Buttered leeks
  serves 4
  gather
    800 g    leeks
    40 g     dill butter
  method
    - Soften the leeks in the butter. | ring low | work 10 min

base Dill butter
  makes 280 g
  keeps 3 days, fridge
  gather
    250 g    butter, soft
    30 g     dill leaves, chopped
  method
    - Beat the dill leaves into the butter. | work 6 min
`,
	Sources: []string{"common practice, no source"},
	Whole:   true,
	Check:   checkIdleBase,
}

func checkIdleBase(p *Pass) {
	menus := map[*resolve.Scope]bool{}
	for _, m := range p.Model.Menus {
		if m.Asked {
			menus[m.Scope] = true
		}
	}
	if len(menus) == 0 {
		return
	}
	for _, r := range idleBases(p) {
		if menus[r.Scope] {
			p.Report(r.NameAt, "nothing here draws on %s", r.Name).
				WithHelp("gather it by its whole name where it goes in: `100 g %s`", r.Name).
				WithHelp("or take it out of this folder")
		}
	}
}

// idleBases are the bases that no list draws on, and that no menu, book, series or
// block speaks of.
func idleBases(p *Pass) (out []*resolve.Recipe) {
	spoken := map[string]bool{} // folded names that menus, books, series and blocks speak of
	used := map[*resolve.Recipe]bool{}
	for _, r := range p.Model.Recipes {
		for _, l := range r.Lines {
			if l.From != nil {
				used[l.From] = true
			}
			if l.Product != nil {
				used[l.Product.Recipe] = true
			}
			for _, s := range l.Instead {
				spoken[larder.Fold(s.Name)] = true
			}
			if l.Carried != "" {
				spoken[l.Key] = true
			}
		}
	}
	for _, name := range p.Model.Spoken {
		spoken[larder.Fold(name.Text)] = true
	}
	for _, r := range p.Recipes() {
		if r.Base && !used[r] && !spoken[r.Key] {
			out = append(out, r)
		}
	}
	return out
}
