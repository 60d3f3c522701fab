package check

import (
	"strings"

	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

// doubleWord hints at a small word written twice.
var doubleWord = &Rule{
	Code: "E116", Title: "A word written twice.", Family: Style, Severity: diag.Hint,
	What:    "A small word stands twice in a row in a sentence: `the the`.",
	Why:     "The eye passes over it, and the printer does not.",
	Fix:     "Take one of the two out.",
	Bad:     "dish Leek pot\n  serves 4\n  gather\n    600 g leeks\n  method\n    - Soften the the leeks. | ring low | work 8 min\n",
	At:      "6:18",
	Good:    "dish Leek pot\n  serves 4\n  gather\n    600 g leeks\n  method\n    - Soften the leeks. | ring low | work 8 min\n",
	Sources: []string{"common practice, no source"},
	Check: func(p *Pass) {
		p.eachStep(func(_ *resolve.Recipe, s *resolve.Step, _ saying) {
			for _, prose := range p.passages(s) {
				p.doubled(prose)
			}
		})
	},
}

// doubled reports each small word that stands behind itself.
func (p *Pass) doubled(prose saying) {
	text := prose.text
	last, lastEnd := "", 0
	for i := 0; i < len(text); {
		if !ofWord(text[i]) {
			i++
			continue
		}
		from := i
		for i < len(text) && ofWord(text[i]) {
			i++
		}
		word := text[from:i]
		if len(word) == len(last) && strings.EqualFold(word, last) && smallWords[strings.ToLower(word)] && strings.TrimSpace(text[lastEnd:from]) == "" {
			p.Report(prose.place(from, i), "%q stands here twice", strings.ToLower(word)).
				Replace("take one out", true, prose.place(lastEnd, i), "")
		}
		last, lastEnd = word, i
	}
}

var smallWords = map[string]bool{
	"the": true, "a": true, "an": true, "and": true, "of": true, "to": true, "with": true, "until": true, "is": true, "it": true, "for": true, "into": true, "then": true, "or": true, "from": true,
}
