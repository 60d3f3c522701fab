package check

import (
	"tamis/lang/diag"
)

// shortHeadline compares the time promised with the longest chain of steps.
var shortHeadline = &Rule{
	Code: "H109", Title: "The promised time is too short.", Family: Heat, Severity: diag.Warning,
	What:    "The time that `takes` promises is shorter than the longest chain of steps that wait for one another, counted at the shortest figures of the margins, by more than a twentieth; or more of it is work than there is time.",
	Why:     "A reader who begins that long before supper eats late.",
	Fix:     "Promise at least what the steps add up to.",
	Bad:     "dish Leek pot\n  serves 4\n  takes 20 min\n  gather\n    600 g leeks\n  method\n    - Cut the leeks. | work 5 min\n    - Simmer until soft. | ring low | leave 45 min\n",
	At:      "3:3",
	Good:    "dish Leek pot\n  serves 4\n  takes 50 min\n  gather\n    600 g leeks\n  method\n    - Cut the leeks. | work 5 min\n    - Simmer until soft. | ring low | leave 45 min\n",
	Sources: []string{"the Tamis notation, 2.6"},
	Check: func(p *Pass) {
		for _, r := range p.Recipes() {
			t := r.Takes
			if t == nil || !mine(r, t.Span) {
				continue
			}
			promised := max(t.Total.High, t.Total.UpTo)
			if least := chain(r); promised*105/100 < least && !t.Total.AtLeast {
				p.Report(t.Span, "%s is promised, and the steps take %s one after the other", t.Total, lengthOf(least)).
					WithHelp("write `takes %s`, or more with the preparation", lengthOf(least))
				continue
			}
			if w := t.Work; w != nil && w.High > promised {
				p.Report(t.Span, "%s of work do not go into %s", *w, t.Total).
					WithHelp("the first time is from start to finish, the second how much of it is work")
			}
		}
	},
}
