package check

import (
	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

// samePan asks about "the same pan" that is another in the margin.
var samePan = &Rule{
	Code: "H122", Title: "The same pan, and another in the margin.", Family: Heat, Severity: diag.Question,
	What:    "A sentence goes on in `the same pan`, and its margin names another vessel than the last one before it.",
	Why:     "The plan keeps two pans, and the wrong one is washed up.",
	Fix:     "Name the same vessel in both margins, or say in the sentence which pan it is.",
	Bad:     "dish Leek pot\n  serves 4\n  gather\n    600 g leeks\n    200 g carrots\n  method\n    - Fry the leeks. | ring high | in frying pan | work 6 min\n    - Fry the carrots in the same pan. | ring high | in stockpot | work 6 min\n",
	At:      "8:54",
	Good:    "dish Leek pot\n  serves 4\n  gather\n    600 g leeks\n    200 g carrots\n  method\n    - Fry the leeks. | ring high | in frying pan | work 6 min\n    - Fry the carrots in the same pan. | ring high | in frying pan | work 6 min\n",
	Sources: []string{"common practice, no source"},
	Check: func(p *Pass) {
		last := map[*resolve.Recipe]*resolve.Step{}
		p.eachStep(func(r *resolve.Recipe, s *resolve.Step, prose saying) {
			c := resolve.First[*resolve.InVessel](s.Margin)
			if c == nil {
				return
			}
			if before := last[r]; before != nil && before.Vessel != s.Vessel && sameVessel.MatchString(prose.text) {
				p.Report(c.Span, "the sentence goes on in the same pan, and this is another").
					See(resolve.First[*resolve.InVessel](before.Margin).Span, "the last one").
					WithHelp("name the same vessel in both margins, or say in the sentence which pan it is")
			}
			last[r] = s
		})
	},
}

var sameVessel = mustCompile(`(?i)\bthe same (pan|pot|tin|dish|tray|bowl|saucepan|casserole)\b`)
