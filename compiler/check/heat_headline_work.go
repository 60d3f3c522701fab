package check

import (
	"tamis/lang/diag"
)

// shortWork compares the work promised with the work of the margins.
var shortWork = &Rule{
	Code: "H110", Title: "The promised work is too little.", Family: Heat, Severity: diag.Question,
	What:    "The work that `takes` promises is less than the work of the steps and of the preparation, or one pair of hands cannot do all of it in the time promised. A tenth is let pass.",
	Why:     "Readers choose a recipe for an evening by this figure.",
	Fix:     "Promise what the margins add up to.",
	Bad:     "dish Leek pot\n  serves 4\n  takes 1 h, work 10 min\n  gather\n    600 g leeks, sliced | work 15 min\n  method\n    - Simmer until soft. | ring low | work 5 min | leave 30 min\n",
	At:      "3:3",
	Good:    "dish Leek pot\n  serves 4\n  takes 1 h, work 20 min\n  gather\n    600 g leeks, sliced | work 15 min\n  method\n    - Simmer until soft. | ring low | work 5 min | leave 30 min\n",
	Sources: []string{"the Tamis notation, 2.6", "common practice, no source, for the tenth"},
	Check: func(p *Pass) {
		for _, r := range p.Recipes() {
			t := r.Takes
			if t == nil || !mine(r, t.Span) || t.Total.High < chain(r) {
				continue
			}
			if work := hands(r, false, true); t.Work != nil && t.Work.High < work*9/10 {
				p.Report(t.Span, "%s of work are promised, and the margins add up to %s", *t.Work, lengthOf(work)).
					WithHelp("write `takes %s, work %s`", t.Total, lengthOf(work))
				continue
			}
			if busy := hands(r, true, true); max(t.Total.High, t.Total.UpTo) < busy*9/10 && !t.Total.AtLeast {
				p.Report(t.Span, "%s is promised, and one pair of hands is busy for %s", t.Total, lengthOf(busy)).
					WithHelp("write `takes %s`, or say in `about` that two people cook it", lengthOf(busy))
			}
		}
	},
}
