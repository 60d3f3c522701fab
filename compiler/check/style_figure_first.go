package check

import (
	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

// figureFirst hints at sentences that open with a figure.
var figureFirst = &Rule{
	Code: "E102", Title: "A sentence that opens with a figure.", Family: Style, Severity: diag.Hint,
	What:    "A sentence of a step begins with a figure.",
	Why:     "After a full stop a figure is read as part of the sentence before it, or as the number of the step.",
	Fix:     "Begin with the verb: `Stir after 2 minutes`.",
	Bad:     "dish Leek pot\n  serves 4\n  gather\n    600 g leeks\n  method\n    - Soften the leeks. 2 minutes later, stir. | ring low | work 8 min\n",
	At:      "6:25",
	Good:    "dish Leek pot\n  serves 4\n  gather\n    600 g leeks\n  method\n    - Soften the leeks. Stir after 2 minutes. | ring low | work 8 min\n",
	Sources: []string{"a publisher's style sheet for cookery books (seen as an excerpt)"},
	Check: func(p *Pass) {
		p.eachStep(func(_ *resolve.Recipe, s *resolve.Step, _ saying) {
			for _, prose := range p.passages(s) {
				p.opens(prose)
			}
		})
	},
}

func (p *Pass) opens(prose saying) {
	for _, x := range prose.sentences() {
		if text := prose.text[x[0]:x[1]]; text != "" && digit(text[0]) {
			n := 0
			for n < len(text) && text[n] != ' ' {
				n++
			}
			p.Report(prose.place(x[0], x[0]+n), "this sentence opens with a figure").WithHelp("begin with the verb")
		}
	}
}
