package check

import (
	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

// icedHot hints at what is iced or carved as it leaves the oven.
var icedHot = &Rule{
	Code: "H117", Title: "Iced or carved straight from the oven.", Family: Heat, Severity: diag.Hint,
	What:    "A step begins with icing or carving, the step before it is in the oven, and nothing stands between them: no rest, no cooling, no word of either.",
	Why:     "Icing runs off a hot cake, and meat carved at once leaves its juice on the board.",
	Fix:     "Write a step between them, with its time: `- Let it rest. | rest 20 min`.",
	Bad:     "dish Lamb\n  serves 6\n  gather\n    2 kg leg of lamb\n  method\n    - Roast the leg of lamb. | oven 180 C | leave 1 h 30 min\n    - Carve onto hot plates. | work 8 min\n",
	At:      "7:7",
	Good:    "dish Lamb\n  serves 6\n  gather\n    2 kg leg of lamb\n  method\n    - Roast the leg of lamb. | oven 180 C | leave 1 h 30 min\n    - Let it stand. | rest 20 min\n    - Carve onto hot plates. | work 8 min\n",
	Sources: []string{"common practice, no source"},
	Check: func(p *Pass) {
		p.eachStep(func(r *resolve.Recipe, s *resolve.Step, prose saying) {
			m := icesNow.FindStringIndex(prose.text)
			if m == nil || s.Index == 0 || s.AnyTime || len(s.After) > 0 || calmed.MatchString(prose.text) {
				return
			}
			before := r.Steps[s.Index-1]
			for before.Meanwhile && before.Index > 0 {
				before = r.Steps[before.Index-1]
			}
			if len(before.Heats) == 0 || calmed.MatchString(before.Prose.Text) {
				return
			}
			for _, pause := range r.Pauses {
				if pause.After == s.Index {
					return
				}
			}
			p.Report(prose.place(m[0], m[1]), "the step before it is in the oven, and nothing lets it rest or cool").
				WithHelp("write a step between them: `- Let it rest. | rest 20 min`")
		})
	},
}

var (
	icesNow = mustCompile(`^(?i:ice|frost|carve)\b`)
	calmed  = mustCompile(`(?i)\b(cool|cold|cools|cooled|rest|rested|rests|settle|stand|stood)\b`)
)
