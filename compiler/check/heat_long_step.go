package check

import (
	"strings"

	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

// The words and sentences a cook can keep in mind while the hands are busy.
// Common practice, no source: style sheets have 40 to 60 words.
const (
	stepWords     = 60
	stepSentences = 6
)

var longStep = &Rule{
	Code: "H111", Title: "A step with too much in it.", Family: Heat, Severity: diag.Hint,
	What:    "A step has more than 60 words, or more than six sentences.",
	Why:     "At the stove a cook looks up once, reads one thing, and does it; what stands after it is overlooked.",
	Fix:     "Cut it in two. Each half then has a time of its own, too.",
	Bad:     "dish Leek pot\n  serves 4\n  gather\n    600 g leeks\n  method\n    - Wash the leeks. Cut off the roots. Split them. Wash them again. Cut them in lengths. Dry them well. Put them in a pan. | work 10 min\n",
	At:      "6:5",
	Good:    "dish Leek pot\n  serves 4\n  gather\n    600 g leeks\n  method\n    - Wash the leeks, cut off the roots, split them and wash them again. | work 6 min\n    - Cut them in lengths, dry them well and put them in a pan. | work 4 min\n",
	Sources: []string{"common practice, no source"},
	Check: func(p *Pass) {
		p.eachStep(func(_ *resolve.Recipe, s *resolve.Step, prose saying) {
			words, sentences := 0, len(prose.sentences())
			for range strings.FieldsSeq(prose.text) {
				words++
			}
			switch at := s.Lines; {
			case len(at) == 0:
			case words > stepWords:
				p.Report(firstLine(s), "this step has %d words", words).WithHelp("cut it in two, each with its own time")
			case sentences > stepSentences:
				p.Report(firstLine(s), "this step has %d sentences", sentences).WithHelp("cut it in two, each with its own time")
			}
		})
	},
}
