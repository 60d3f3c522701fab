package check

import (
	"slices"

	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

var twoNames = &Rule{
	Code: "U319", Title: "One thing under two names.", Family: Names, Severity: diag.Question,
	What: "Two lines gather the same thing by names that have no word in common, such as spring onions and scallions. A larder line with `same as` settles it.",
	Why:  "A reader takes them for two things, and looks for both in the shop.",
	Fix:  "Use one name throughout.",
	Bad: `dish Green salad
  serves 4
  gather
    1        lettuce
    4        spring onions, sliced
  method
    - Toss the lettuce with the spring onions. | work 4 min

dish Potato salad
  serves 4
  gather
    800 g    potatoes, boiled
    4        scallions, sliced
  method
    - Toss the potatoes with the scallions. | work 4 min
`,
	At: "13:14",
	Good: `dish Green salad
  serves 4
  gather
    1        lettuce
    4        spring onions, sliced
  method
    - Toss the lettuce with the spring onions. | work 4 min

dish Potato salad
  serves 4
  gather
    800 g    potatoes, boiled
    4        spring onions, sliced
  method
    - Toss the potatoes with the spring onions. | work 4 min
`,
	Sources: []string{"common practice, no source"},
	Whole:   true,
	Check:   checkTwoNames,
}

func checkTwoNames(p *Pass) {
	first := map[*larder.Item]*resolve.Line{}
	said := map[string]bool{}
	alike := map[[2]string]bool{} // names that have a word in common
	for _, r := range p.Recipes() {
		for _, l := range r.Lines {
			it := l.Item
			if it == nil || l.From != nil || l.Product != nil || !ownLine(r, l) || says(r, l.Key).SameAs != nil {
				continue
			}
			f := first[it]
			if f == nil {
				first[it] = l
				continue
			}
			pair := [2]string{f.Name, l.Name}
			if f.Name == l.Name || alike[pair] || said[l.Key] || says(r, f.Key).SameAs != nil {
				continue
			}
			if shareWord(f.Name, l.Name) {
				alike[pair] = true
				continue
			}
			said[l.Key] = true
			p.Report(l.NameAt, "%s is another name for %s", l.Name, f.Name).
				See(f.NameAt, "the first name").
				WithHelp("use one name throughout").
				WithHelp("or write in the larder `%s | same as %s`", l.Name, f.Name)
		}
	}
}

// shareWord tells whether two names have a word in common.
func shareWord(a, b string) bool {
	other := foldedWords(b)
	return slices.ContainsFunc(foldedWords(a), func(w string) bool { return slices.Contains(other, w) })
}
