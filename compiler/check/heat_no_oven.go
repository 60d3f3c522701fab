package check

import (
	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

// noOven asks about a sentence that bakes while the margin holds no oven.
var noOven = &Rule{
	Code: "H104", Title: "The sentence bakes, and the margin has no oven.", Family: Heat, Severity: diag.Question,
	What:    "A sentence begins with `bake` or `roast`, or puts something in the oven, and the step holds no oven, ring or grill.",
	Why:     "The plan then gives the oven to something else.",
	Fix:     "Write the oven in the margin, with its heat: `| oven 180 C | leave 40 min`.",
	Bad:     "dish Baked leeks\n  serves 4\n  gather\n    600 g leeks\n  method\n    - Bake the leeks until soft. | leave 40 min\n",
	At:      "6:7",
	Good:    "dish Baked leeks\n  serves 4\n  gather\n    600 g leeks\n  method\n    - Bake the leeks until soft. | oven 180 C | leave 40 min\n",
	Sources: []string{"common practice, no source"},
	Check: func(p *Pass) {
		p.eachStep(func(_ *resolve.Recipe, s *resolve.Step, prose saying) {
			if len(s.Heats) > 0 || s.Rings > 0 || s.Grill || len(s.Tools) > 0 || resolve.First[*resolve.InOven](s.Margin) != nil {
				return
			}
			for _, x := range prose.sentences() {
				text := prose.text[x[0]:x[1]]
				if ovenTalk.MatchString(text) {
					continue
				}
				if m := bakesNow.FindStringSubmatchIndex(text); m != nil {
					p.Report(prose.place(x[0]+m[2], x[0]+m[3]), "this is baked, and the margin has no oven").
						WithHelp("write the oven in the margin: `| oven 180 C | leave 40 min`, with the right figures")
					return
				}
				if m := intoOven.FindStringIndex(text); m != nil {
					p.Report(prose.place(x[0]+m[0], x[0]+m[1]), "this is in the oven, and the margin has none").
						WithHelp("write the oven in the margin: `| oven 180 C | leave 40 min`, with the right figures")
					return
				}
			}
		})
	},
}

var (
	bakesNow = mustCompile(`^(?:Then |Cover and )?((?i:bake|roast))\s+(?:the|it|them|for|until|at|in|on|uncovered|covered|,)`)
	intoOven = mustCompile(`(?i)\b(?:put|slide|set|place|return|bake|roast|cook)\b[^.,;]*\b(?:in|into|to) (?:the|a (?:slow|hot|moderate)|a very \w+) oven\b`)
)
