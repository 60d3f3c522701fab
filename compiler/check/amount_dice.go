package check

import (
	"strings"

	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

// dice hints at meat that is diced, and nobody says how large.
var dice = &Rule{
	Code: "D216", Title: "Diced, and how large?", Family: Amounts, Severity: diag.Hint,
	What:    "Meat is gathered `diced` or `cubed`, and the note has no size.",
	Why:     "Dice of two centimetres are tender in an hour, and dice of four in two.",
	Fix:     "Write the size: `in 3 cm dice`.",
	Bad:     "dish Beef stew\n  serves 4\n  gather\n    800 g shin of beef, diced\n  method\n    - Stew the shin of beef, covered. | ring low | work 5 min | leave 2 h | core 90 C\n",
	At:      "4:25",
	Good:    "dish Beef stew\n  serves 4\n  gather\n    800 g shin of beef, in 3 cm dice\n  method\n    - Stew the shin of beef, covered. | ring low | work 5 min | leave 2 h | core 90 C\n",
	Sources: []string{"New Zealand Guild of Food Writers, recipe writing tips (seen as an excerpt)"},
	Check: func(p *Pass) {
		p.eachLine(func(r *resolve.Recipe, l *resolve.Line) {
			note := strings.ToLower(l.Note.Text)
			it, _ := itemOf(l)
			if it == nil || it.Counter != "butcher" || !unsized.MatchString(note) || sized.MatchString(note) {
				return
			}
			p.Report(l.Note.Span, "how large are the dice").WithHelp("write the size: `in 3 cm dice`")
		})
	},
}

var (
	unsized = mustCompile(`\b(diced|cubed|in dice|in cubes)\b`)
	sized   = mustCompile(`\d|\b(small|large|big|bite|finely|coarsely|tiny|half|inch|cm|size)\b`)
)
