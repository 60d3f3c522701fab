package check

import (
	"slices"
	"strings"

	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

var listHead = &Rule{
	Code: "U312", Title: "A list by one name, steps by another.", Family: Names, Severity: diag.Question,
	What: "A part of the list is headed `for the filling`, say, and the steps speak of a stuffing and never of a filling.",
	Why:  "The head of a list is how the cook finds the step it belongs to.",
	Fix:  "Use one word in both places.",
	Bad: `dish Stuffed onions
  serves 4
  gather
    4        onions
    for the filling
      100 g    breadcrumbs
      40 g     butter
  method
    - Rub the butter into the breadcrumbs for the stuffing. | work 5 min
    - Fill the onions and bake. | oven 180 C | work 10 min | leave 40 min
`,
	At: "9:51",
	Good: `dish Stuffed onions
  serves 4
  gather
    4        onions
    for the stuffing
      100 g    breadcrumbs
      40 g     butter
  method
    - Rub the butter into the breadcrumbs for the stuffing. | work 5 min
    - Fill the onions and bake. | oven 180 C | work 10 min | leave 40 min
`,
	Sources: []string{"common practice, no source"},
	Check:   checkListHead,
}

// headTwins are words that cooks use for one part of a dish.
var headTwins = [][]string{
	{"filling", "stuffing", "farce", "forcemeat"},
	{"icing", "frosting", "glaze", "glacé icing"},
	{"dressing", "vinaigrette"},
	{"pastry", "crust", "dough"},
	{"topping", "crumble", "crust"},
	{"sauce", "gravy"},
	{"batter", "dough"},
	{"marinade", "rub"},
}

func checkListHead(p *Pass) {
	for _, r := range p.Recipes() {
		for _, sub := range r.SubLists {
			head := headOf(sub.Name)
			if sub.Key == "serving" || len(sub.Lines) == 0 || !ownLine(r, sub.Lines[0]) || said(r, head) {
				continue
			}
			reportHead(p, r, sub, head)
		}
	}
}

// said tells whether a folded word stands in any step of a recipe.
func said(r *resolve.Recipe, word string) bool {
	return slices.ContainsFunc(r.Steps, func(s *resolve.Step) bool { return hasWord(proseOf(s), word) })
}

// reportHead looks for another word for the head of a list.
func reportHead(p *Pass, r *resolve.Recipe, sub *resolve.SubList, head string) {
	for _, twins := range headTwins {
		if !slices.Contains(twins, head) {
			continue
		}
		for _, twin := range twins {
			if twin == head || gatheredAs(r, twin) {
				continue
			}
			done := false
			p.eachStepOf(r, func(_ *resolve.Step, prose saying) {
				for _, w := range wordRun.FindAllStringIndex(prose.text, -1) {
					if done || larder.Fold(prose.text[w[0]:w[1]]) != twin {
						continue
					}
					done = true
					p.Report(prose.place(w[0], w[1]), "the list says %s, and this says %s", sub.Name, strings.ToLower(prose.text[w[0]:w[1]])).
						See(sub.NameAt, "the list").
						WithHelp("say one of them in both places")
				}
			})
			if done {
				return
			}
		}
	}
}

// gatheredAs tells whether a word belongs to something else of the recipe: a
// line, another list, a thing that a step makes, or the dish itself.
func gatheredAs(r *resolve.Recipe, word string) bool {
	has := func(name string) bool { return hasWord(name, word) }
	return has(r.Name) || slices.ContainsFunc(r.Lines, func(l *resolve.Line) bool { return has(l.Name) }) ||
		slices.ContainsFunc(r.SubLists, func(s *resolve.SubList) bool { return has(s.Name) }) ||
		slices.ContainsFunc(r.Products, func(pr *resolve.Product) bool { return has(pr.Name) })
}
