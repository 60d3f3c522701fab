package check

import (
	"time"

	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

// longStrand asks about what is done meanwhile and takes longer than the step
// it stands beside, in recipes that no menu plans; of the others the plan
// tells.
var longStrand = &Rule{
	Code: "H121", Title: "Meanwhile, for longer than the step lasts.", Family: Heat, Severity: diag.Question,
	What:    "Steps that are done meanwhile take longer, at the shortest, than the step they are done beside at the longest. Said of recipes that are on no planned menu; P107 says it of the others.",
	Why:     "The next step then waits for what was to be done beside it.",
	Fix:     "Let it begin earlier, or write it as a step of its own without `meanwhile`.",
	Bad:     "dish Leek pot\n  serves 4\n  gather\n    600 g leeks\n    4 eggs\n  method\n    - Stew the leeks, covered. | ring low | work 2 min | leave 10 min\n    - Boil and peel the eggs. | meanwhile | ring high | work 12 min | leave 8 min\n    - Serve both. | work 2 min\n",
	At:      "8:5",
	Good:    "dish Leek pot\n  serves 4\n  gather\n    600 g leeks\n    4 eggs\n  method\n    - Stew the leeks, covered. | ring low | work 2 min | leave 20 min\n    - Boil and peel the eggs. | meanwhile | ring high | work 12 min | leave 8 min\n    - Serve both. | work 2 min\n",
	Sources: []string{"the Tamis notation, 2.13"},
	After:   Demanded,
	Whole:   true,
	Check: func(p *Pass) {
		planned := map[*resolve.Recipe]bool{}
		for i, tl := range p.Timelines {
			if tl != nil && i < len(p.Meals) {
				for _, m := range p.Meals[i].Makings {
					planned[m.Recipe] = true
				}
			}
		}
		for _, r := range p.Recipes() {
			if planned[r] {
				continue
			}
			var host, last *resolve.Step
			var sum time.Duration
			end := func() {
				if host == nil || last == nil || !mine(r, last.Span) {
					return
				}
				_, _, most, ok := stepLengths(host)
				if ok && len(host.Phases) > 0 && most < sum {
					p.Report(last.Span, "what is done meanwhile takes %s, and step %d lasts %s", lengthOf(sum), host.Index+1, lengthOf(most)).
						See(firstLine(host), "the step it runs beside").
						WithHelp("let it begin earlier, or write it as a step of its own without `meanwhile`")
				}
			}
			for _, s := range r.Steps {
				switch {
				case !always(s):
				case s.Meanwhile:
					least, _, _, _ := stepLengths(s)
					sum, last = sum+least, s
				default:
					end()
					host, last, sum = s, nil, 0
				}
			}
			end()
		}
	},
}
