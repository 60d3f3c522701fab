package check

import (
	"strings"

	"tamis/compiler/resolve"
	"tamis/lang/diag"
	"tamis/lang/source"
)

// asterisk asks for the note that a star points to.
var asterisk = &Rule{
	Code: "E113", Title: "A star without a note.", Family: Style, Severity: diag.Question,
	What:    "A name, a note or a bracket ends with `*`, and `about` has no line that begins with one.",
	Why:     "The reader looks for it at the foot of the page.",
	Fix:     "Write the note in `about`, on a line that begins with `*`, or take the star out.",
	Bad:     "dish Leek pot\n  serves 4\n  gather\n    600 g leeks, young*\n  method\n    - Soften the leeks. | ring low | work 8 min\n",
	At:      "4:18",
	Good:    "dish Leek pot\n  serves 4\n  about\n    * Or small onions.\n  gather\n    600 g leeks, young*\n  method\n    - Soften the leeks. | ring low | work 8 min\n",
	Sources: []string{"a publisher's style guide for food (seen as an excerpt)"},
	Check: func(p *Pass) {
		p.eachLine(func(r *resolve.Recipe, l *resolve.Line) {
			if starLine.MatchString(aboutText(r)) {
				return
			}
			for _, t := range []struct {
				text string
				at   source.Span
			}{{l.Name, l.NameAt}, {l.Note.Text, l.Note.Span}, {l.Brackets.Text, l.Brackets.Span}} {
				if strings.HasSuffix(strings.TrimSpace(t.text), "*") {
					p.Report(t.at, "no note belongs to this star").WithHelp("write the note in `about`, on a line that begins with `*`")
				}
			}
		})
	},
}

var starLine = mustCompile(`(?m)^\s*\\?\*`)
