package check

import (
	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

// boiledInOven asks about a step that boils or fries in an oven.
var boiledInOven = &Rule{
	Code: "H105", Title: "The margin has an oven, and the sentence a ring.", Family: Heat, Severity: diag.Question,
	What:    "The margin holds an oven and no ring, and every sentence that begins with a way of cooking boils, fries or steams.",
	Why:     "A ring and an oven are different places in the plan, and the oven is mostly the one that is short.",
	Fix:     "Write `| ring high` in place of the oven, or say in the sentence what goes in the oven.",
	Bad:     "dish Leeks\n  serves 4\n  gather\n    600 g leeks\n  method\n    - Boil the leeks until soft. | oven 180 C | leave 20 min\n",
	At:      "6:36",
	Good:    "dish Leeks\n  serves 4\n  gather\n    600 g leeks\n  method\n    - Boil the leeks until soft. | ring high | leave 20 min\n",
	Sources: []string{"common practice, no source"},
	Check: func(p *Pass) {
		p.eachStep(func(_ *resolve.Recipe, s *resolve.Step, prose saying) {
			c := resolve.First[*resolve.InOven](s.Margin)
			if c == nil || s.Rings > 0 || inOven.MatchString(prose.text) {
				return
			}
			for _, x := range prose.sentences() {
				if hobVerb.MatchString(prose.text[x[0]:x[1]]) {
					p.Report(c.Span, "the sentence boils or fries, and the margin has an oven").
						See(prose.place(x[0], x[1]), "the sentence").
						WithHelp("write `ring high` in place of the oven, or say what goes in the oven")
					return
				}
			}
		})
	},
}

var (
	hobVerb = mustCompile(`^(?i:boil|fry|deep-fry|stir-fry|sauté|saute|parboil|blanch)\s`)
	inOven  = mustCompile(`(?i)\b(oven|bak(e|es|ing)|roast(s|ing)?|brown|crisp|gratin|finish|tin|tray|dish)\b`)
)
