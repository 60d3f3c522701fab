package check

import (
	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

// noGrill asks about a sentence that grills while the margin holds no grill.
var noGrill = &Rule{
	Code: "H119", Title: "The sentence grills, and the margin has no grill.", Family: Heat, Severity: diag.Question,
	What:    "A sentence has something under the grill, the margin has a time, and the step holds neither grill nor oven nor ring, nor can it be read from the sentence, which has more than one fire.",
	Why:     "In most kitchens the grill is the oven, and the plan may have something else in it.",
	Fix:     "Write `| grill high`.",
	Bad:     "dish Toasts\n  serves 4\n  gather\n    8 slices bread\n    8 eggs\n  method\n    - Boil the eggs, and toast the bread under the grill. | watch 9 min\n",
	At:      "7:42",
	Good:    "dish Toasts\n  serves 4\n  gather\n    8 slices bread\n    8 eggs\n  method\n    - Boil the eggs. | ring high | leave 9 min\n    - Toast the bread under the grill. | grill high | watch 4 min\n",
	Sources: []string{"common practice, no source"},
	Check: func(p *Pass) {
		p.eachStep(func(_ *resolve.Recipe, s *resolve.Step, prose saying) {
			m := underGrill.FindStringIndex(prose.text)
			if m == nil || s.Grill || len(s.Heats) > 0 || s.Rings > 0 || len(s.Phases) == 0 || grillTalk.MatchString(prose.sentenceAt(m[0])) {
				return
			}
			p.Report(prose.place(m[0], m[1]), "this is under the grill, and the margin has none").WithHelp("write `| grill high`")
		})
	},
}

var (
	underGrill = mustCompile(`(?i)\bunder (?:a|the)(?: \w+)? grill\b`)
	grillTalk  = mustCompile(`(?i)\b(heat|light|preheat|turn on) the grill\b`)
)
