package check

import (
	"tamis/compiler/larder"
	"tamis/lang/diag"
)

var substituteSame = &Rule{
	Code: "U314", Title: "A substitute that is the same thing.", Family: Names, Severity: diag.Question,
	What: "`instead` offers what its line gathers already, by the same name.",
	Why:  "It is no choice.",
	Fix:  "Name another thing, or write the other amount as a range.",
	Bad: `dish Leek pot
  serves 4
  gather
    700 ml   chicken stock
      instead 700 ml chicken stock
    600 g    leeks
  method
    - Simmer the leeks in the stock. | ring low | work 2 min | leave 15 min
`,
	At: "5:22",
	Good: `dish Leek pot
  serves 4
  gather
    700 ml   chicken stock
      instead 700 ml vegetable stock
    600 g    leeks
  method
    - Simmer the leeks in the stock. | ring low | work 2 min | leave 15 min
`,
	Sources: []string{"the Tamis notation, 2.6"},
	Check: func(p *Pass) {
		for _, r := range p.Recipes() {
			for _, l := range r.Lines {
				for _, s := range l.Instead {
					if larder.Fold(s.Name) == l.Key && s.Size == l.Size && ownLine(r, l) && lineNote(l) == noted(s.Wording) {
						p.Report(s.NameAt, "this offers %s in place of %s", s.Name, l.Name).WithHelp("name another thing, or take the line out")
					}
				}
			}
		}
	},
}
