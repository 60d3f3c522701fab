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

func (p *Pass) doubled(prose saying) {
	if !repeats(prose.text) {
		return
	}
	words := smallWord.FindAllStringIndex(prose.text, -1)
	for i := 1; i < len(words); i++ {
		a, b := words[i-1], words[i]
		word := prose.text[b[0]:b[1]]
		if strings.EqualFold(prose.text[a[0]:a[1]], word) && strings.TrimSpace(prose.text[a[1]:b[0]]) == "" {
			p.Report(prose.place(b[0], b[1]), "%q stands here twice", strings.ToLower(word)).
				Replace("take one out", true, prose.place(a[1], b[1]), "")
		}
	}
}

var smallWord = mustCompile(`(?i)\b(?:the|a|an|and|of|to|with|until|is|it|for|into|then|or|from)\b`)

// repeats tells whether two words of a text begin alike with nothing but blanks
// between, as two that are one do.
func repeats(text string) bool {
	last, in := byte(0), false
	for i := 0; i < len(text); i++ {
		c := lowByte(text[i])
		if c >= 0x80 {
			return true // there are blanks among these
		}
		letter := c >= 'a' && c <= 'z'
		switch {
		case letter && !in:
			if c == last {
				return true
			}
			last, in = c, true
		case !letter:
			in = false
			if c > ' ' {
				last = 0
			}
		}
	}
	return false
}
