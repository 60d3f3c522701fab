package check

import (
	"strconv"

	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

// stepNumber hints at steps that are spoken of by their number.
var stepNumber = &Rule{
	Code: "H112", Title: "A step spoken of by its number.", Family: Heat, Severity: diag.Hint,
	What:    "A sentence speaks of `step 4`. Where there is no such step, or it is the step itself, this is a warning.",
	Why:     "When a step is added above it, the number speaks of another one.",
	Fix:     "Name what the step made: `the stock from before`, or give it a name with `makes`.",
	Bad:     "dish Leek pot\n  serves 4\n  gather\n    600 g leeks\n  method\n    - Simmer the leeks. | ring low | leave 15 min\n    - Go on as in step 1. | ring low | leave 5 min\n",
	At:      "7:19",
	Good:    "dish Leek pot\n  serves 4\n  gather\n    600 g leeks\n  method\n    - Simmer the leeks. | ring low | leave 15 min\n    - Simmer them a little more. | ring low | leave 5 min\n",
	Sources: []string{"common practice, no source"},
	Check: func(p *Pass) {
		p.eachStep(func(r *resolve.Recipe, s *resolve.Step, prose saying) {
			for _, m := range stepSaid.FindAllStringSubmatchIndex(prose.text, -1) {
				n, _ := strconv.Atoi(prose.text[m[2]:m[3]])
				at := prose.place(m[0], m[1])
				switch {
				case n < 1 || n > len(r.Steps):
					p.ReportAs(diag.Warning, at, "there is no step %d: %s has %d", n, r.Name, len(r.Steps)).WithHelp("name what is meant instead")
				case n == s.Index+1:
					p.ReportAs(diag.Warning, at, "this is step %d itself", n).WithHelp("name what is meant instead")
				default:
					p.Report(at, "the number is wrong as soon as a step is added above").WithHelp("name what step %d made", n)
				}
			}
		})
	},
}

var stepSaid = mustCompile(`(?i)\bsteps? (\d+)\b`)
