package check

import (
	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

// noRing hints at a step that boils or fries on nothing.
var noRing = &Rule{
	Code: "H118", Title: "The sentence boils or fries, and the margin has no ring.", Family: Heat, Severity: diag.Hint,
	What:    "A sentence begins with `boil`, `fry`, `simmer` or the like, the margin has a time, and the step holds neither ring, oven, grill nor tool, nor can one be read from the sentence, which has more than one fire.",
	Why:     "The plan then gives all the rings to other things.",
	Fix:     "Write `| ring low`, or the tool it is done in: `| tool rice cooker`.",
	Bad:     "dish Leeks\n  serves 4\n  gather\n    600 g leeks\n  method\n    - Boil the leeks until soft, then brown them under the grill. | leave 20 min\n",
	At:      "6:7",
	Good:    "dish Leeks\n  serves 4\n  gather\n    600 g leeks\n  method\n    - Boil the leeks until soft. | ring high | leave 20 min\n    - Brown them under the grill. | grill high | watch 5 min\n",
	Sources: []string{"common practice, no source"},
	Check: func(p *Pass) {
		p.eachStep(func(_ *resolve.Recipe, s *resolve.Step, prose saying) {
			if len(s.Phases) == 0 || s.Rings > 0 || len(s.Heats) > 0 || s.Grill || len(s.Tools) > 0 || s.Place != "" || resolve.First[*resolve.InOven](s.Margin) != nil {
				return
			}
			for _, x := range prose.sentences() {
				if m := hobNow.FindStringIndex(prose.text[x[0]:x[1]]); m != nil {
					p.Report(prose.place(x[0]+m[0], x[0]+m[1]-1), "this wants heat, and the margin has no ring").
						WithHelp("write `| ring low`, or the tool it is done in")
					return
				}
			}
		})
	},
}

var hobNow = mustCompile(`^(?i:boil|hard-boil|soft-boil|simmer|fry|pan-fry|shallow-fry|deep-fry|stir-fry|sauté|saute|parboil|poach|steam|blanch)\s`)
