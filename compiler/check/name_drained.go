package check

import (
	"tamis/compiler/resolve"
	"tamis/lang/diag"
	"tamis/lang/quantity"
)

var drainedOrNot = &Rule{
	Code: "U321", Title: "Drained or not?", Family: Names, Severity: diag.Hint,
	What: "Tins of fish, beans, fruit or the like come in a liquor, and neither the line nor a step says whether it goes in.",
	Why:  "A third of a tin may be liquor, and it is salt or sweet.",
	Fix:  "Write `drained` after the comma, `| drained 240 g`, or `with their liquor`.",
	Bad: `dish Chickpea stew
  serves 4
  gather
    2 x 400 g tins chickpeas
    400 g    tomatoes
  method
    - Simmer the chickpeas with the tomatoes. | ring low | work 2 min | leave 25 min
`,
	At: "4:20",
	Good: `dish Chickpea stew
  serves 4
  gather
    2 x 400 g tins chickpeas, drained
    400 g    tomatoes
  method
    - Simmer the chickpeas with the tomatoes. | ring low | work 2 min | leave 25 min
`,
	Sources: []string{"common practice, no source"},
	Check:   checkDrained,
}

var (
	inLiquor = map[string]bool{
		"tuna": true, "salmon": true, "sardine": true, "anchovy": true, "mackerel": true, "bean": true, "chickpea": true, "lentil": true,
		"sweetcorn": true, "olive": true, "caper": true, "cherry": true, "peach": true, "pear": true, "pineapple": true, "artichoke": true,
		"gherkin": true, "chestnut": true, "jackfruit": true, "lychee": true, "apricot": true,
	}
	liquorSaid = mustCompile(`(?i)\b(drain\w*|undrained|liquor|liquid|juice|juices|syrup|brine|oil|rinsed?|sauce|all)\b`)
)

func checkDrained(p *Pass) {
	for _, r := range p.Recipes() {
		for _, l := range r.Lines {
			a := l.Written
			if a == nil || a.Kind != quantity.Packages || !ownLine(r, l) || !inLiquor[headOf(l.Name)] || liquorSaid.MatchString(lineNote(l)+" "+l.Name) || drainedLater(r) {
				continue
			}
			if l.Drained {
				continue
			}
			p.Report(l.NameAt, "are the %s drained", l.Name).
				WithHelp("write `%s, drained`, or `%s, with their liquor`", l.Name, l.Name)
		}
	}
}

// drainedLater tells whether a step speaks of draining, or of what is drained off.
func drainedLater(r *resolve.Recipe) bool {
	for _, s := range r.Steps {
		if liquorOff.MatchString(proseOf(s)) {
			return true
		}
	}
	return len(r.Steps) == 0
}

var liquorOff = mustCompile(`(?i)\b(drain\w*|liquor|brine|rinsed?)\b`)
