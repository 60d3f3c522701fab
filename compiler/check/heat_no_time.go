package check

import (
	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

// ovenNoTime asks for how long something is in the oven.
var ovenNoTime = &Rule{
	Code: "H106", Title: "In the oven for no time.", Family: Heat, Severity: diag.Question,
	What:    "A step holds an oven, and its margin has neither `leave` nor `watch`.",
	Why:     "The oven is held from the end of the work, so nothing would be baked; and a cook with another oven has nothing to go by.",
	Fix:     "Write `| leave 40 min`, or by sight: `| watch until brown, say 40 min`.",
	Bad:     "dish Baked leeks\n  serves 4\n  gather\n    600 g leeks\n  method\n    - Bake the leeks until soft. | oven 180 C | work 2 min\n",
	At:      "6:36",
	Good:    "dish Baked leeks\n  serves 4\n  gather\n    600 g leeks\n  method\n    - Bake the leeks until soft. | oven 180 C | work 2 min | leave 40 min\n",
	Sources: []string{"the Tamis notation, 2.13"},
	Check: func(p *Pass) {
		p.eachStep(func(_ *resolve.Recipe, s *resolve.Step, _ saying) {
			c := resolve.First[*resolve.InOven](s.Margin)
			if c == nil {
				return
			}
			for _, sp := range s.Phases {
				if sp.Kind != resolve.Work {
					return
				}
			}
			for _, h := range s.Heats {
				if h.For > 0 {
					return
				}
			}
			p.Report(c.Span, "nobody says how long it is in the oven").
				WithHelp("write `| leave 40 min`, or by sight: `| watch until brown, say 40 min`")
		})
	},
}
