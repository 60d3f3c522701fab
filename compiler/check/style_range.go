package check

import (
	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

// rangeStyle keeps the ranges of sentences to the house style. Those of lists
// and margins are printed in it whatever the writer wrote.
var rangeStyle = &Rule{
	Code: "E109", Title: "A range, against the house style.", Family: Style, Severity: diag.Hint,
	What:    "The book has `style range to`, and a sentence has `2-3`; or it has `style range dash`, and a sentence has `2 to 3 min`. Sentences are printed as they were written.",
	Why:     "On one page both ways stand beside each other.",
	Fix:     "Write the range in the sentence as the house has it.",
	Bad:     "book Ferry book\n  style range to\n\ndish Leek pot\n  serves 4\n  gather\n    600 g leeks\n  method\n    - Soften the leeks for 8-10 minutes. | ring low | work 10 min\n",
	At:      "9:28",
	Good:    "book Ferry book\n  style range to\n\ndish Leek pot\n  serves 4\n  gather\n    600 g leeks\n  method\n    - Soften the leeks for 8 to 10 minutes. | ring low | work 10 min\n",
	Sources: []string{"a publisher's style sheet for cookery books (seen as an excerpt)"},
	Check: func(p *Pass) {
		p.eachStep(func(r *resolve.Recipe, _ *resolve.Step, prose saying) {
			re, want := rangeDash, "`8 to 10`"
			switch p.Model.House(r.Span).Range {
			case "dash":
				re, want = rangeTo, "`8–10`"
			case "":
				return
			}
			for _, m := range re.FindAllStringSubmatchIndex(prose.text, -1) {
				p.Report(prose.place(m[2], m[3]), "the house style writes ranges as %s", want)
			}
		})
	},
}

var (
	rangeDash = mustCompile(`(?:^|[\s(])(\d+ ?[-–] ?\d+)(?:[\s,.;)]|$)`)
	rangeTo   = mustCompile(`(?:^|[\s(])(\d+ to \d+) ?(?:min|minutes|h|hours|days|weeks|seconds|s|g|kg|ml|litres|cm|mm|C|F|tbsp|tsp)\b`)
)
