package check

import (
	"time"

	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

// earlyOven asks about an oven that is heated hours before it is wanted.
var earlyOven = &Rule{
	Code: "H108", Title: "The oven is heated hours early.", Family: Heat, Severity: diag.Question,
	What:    "A sentence has the oven heated, and what follows takes an hour or longer before anything goes into it.",
	Why:     "It burns for nothing, and a shared oven cannot be used for anything else.",
	Fix:     "Move the sentence down, or leave it out: the plan says when the oven is turned on.",
	Bad:     "dish Tart\n  serves 4\n  gather\n    400 g pastry\n  method\n    - Preheat the oven. | work 1 min | uses nothing\n    - Roll out the pastry and chill. | work 5 min | stand 2 h, fridge\n    - Bake until gold. | oven 180 C | leave 30 min\n",
	At:      "6:7",
	Good:    "dish Tart\n  serves 4\n  gather\n    400 g pastry\n  method\n    - Roll out the pastry and chill. | work 5 min | stand 2 h, fridge\n    - Preheat the oven. | work 1 min\n    - Bake until gold. | oven 180 C | leave 30 min\n",
	Sources: []string{"common practice, no source"},
	Check: func(p *Pass) {
		p.eachStep(func(r *resolve.Recipe, s *resolve.Step, prose saying) {
			m := heatsOven.FindStringIndex(prose.text)
			if m == nil || len(s.Heats) > 0 {
				return
			}
			var between time.Duration
			for _, next := range r.Steps[s.Index+1:] {
				if len(next.Heats) > 0 {
					if between >= time.Hour {
						p.Report(prose.place(m[0], m[1]), "%s pass before anything goes into the oven", lengthOf(between)).
							WithHelp("move this down, or leave it out: the plan says when the oven is turned on")
					}
					return
				}
				if always(next) && !next.Meanwhile {
					least, _, _, _ := stepLengths(next)
					between += least
				}
			}
		})
	},
}

var heatsOven = mustCompile(`(?i)\b(preheat|(heat|light|turn on|set) (the|your) oven)\b`)
