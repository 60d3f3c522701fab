package check

import (
	"strings"

	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

// renamedBase asks whether a thing that is bought is what a base of the folder makes
// under another name: a base that was renamed while somebody else wrote a dish that
// draws on it.
var renamedBase = &Rule{
	Code: "U324", Title: "Bought, or made here by another name?", Family: Names, Severity: diag.Question,
	What: "A list gathers something that is bought, nothing draws on a base of the folder, and both are the same kind of thing: brown stock, and Dark stock.",
	Why:  "Where a base was given another name, the old name in a list is bought without a word.",
	Fix:  "Write the name that the base has now; or say that it is bought, `| from the shop`.",
	Bad: `dish Bean pot
  serves 4
  gather
    600 g    white beans, cooked
    200 ml   cellar stock
  method
    - Warm the beans in the cellar stock. | ring low | work 10 min

base Kitchen stock
  makes 1 litre
  gather
    500 g    leeks
    1.5 litres water
  method
    - Simmer the leeks in the water, uncovered. | ring low | leave 1 h
`,
	At: "5:14",
	Good: `dish Bean pot
  serves 4
  gather
    600 g    white beans, cooked
    200 ml   kitchen stock
  method
    - Warm the beans in the kitchen stock. | ring low | work 10 min

base Kitchen stock
  makes 1 litre
  keeps 2 days, fridge
  gather
    500 g    leeks
    1.5 litres water
  method
    - Simmer the leeks in the water, uncovered. | ring low | leave 1 h
`,
	Sources: []string{"common practice, no source"},
	Whole:   true,
	Check: func(p *Pass) {
		idle := map[string][]*resolve.Recipe{} // by the last word of their names
		for _, r := range idleBases(p) {
			idle[kindWord(r.Name)] = append(idle[kindWord(r.Name)], r)
		}
		if len(idle) == 0 {
			return
		}
		for _, r := range p.Recipes() {
			for _, l := range r.Lines {
				if l.From != nil || l.Product != nil || l.Bought || l.Seller != "" || l.Carried != "" || l.Water || r.Scope.Entry(l.Key) != nil {
					continue
				}
				if _, known := larder.Builtin().Find(l.Name); known {
					continue
				}
				for _, base := range idle[kindWord(l.Name)] {
					if base == r || base.Scope != r.Scope || diag.Nearest(l.Name, []string{base.Name}) != "" { // a slip is told of as one
						continue
					}
					p.Report(l.NameAt, "%s is bought, and nothing draws on %s: is it the same", l.Name, base.Name).
						See(base.NameAt, "made here").
						WithHelp("write %q", lowerName(base.Name)).
						WithHelp("or say that it is bought: `%s | from the shop`", l.Name).
						Replace("write "+lowerName(base.Name), false, l.NameAt, lowerName(base.Name))
					break
				}
			}
		}
	},
}

// kindWord is the word that says what kind of thing a name is.
func kindWord(name string) string {
	words := strings.Fields(larder.Fold(name))
	if len(words) == 0 {
		return ""
	}
	return words[len(words)-1]
}

// lowerName is a name as it stands in a list: with a small letter, unless the rest of
// it has capitals too.
func lowerName(name string) string {
	if small := larder.Small(name); small == strings.ToLower(name) {
		return small
	}
	return name
}
