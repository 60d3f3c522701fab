package check

import (
	"strings"

	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

// unknownStyle asks about a rule of the house style that is none.
var unknownStyle = &Rule{
	Code: "E111", Title: "No rule of the house style.", Family: Style, Severity: diag.Question,
	What:    "A `style` line of a book says something that is no rule of the house style.",
	Why:     "It changes nothing, and nobody notices.",
	Fix:     "Write one of the rules of the notation, 2.19: `style range dash`, `style units metric` and so on.",
	Bad:     "book Ferry book\n  style rnge dash\n\ndish Leek pot\n  serves 4\n",
	At:      "2:9",
	Good:    "book Ferry book\n  style range dash\n\ndish Leek pot\n  serves 4\n",
	Sources: []string{"the Tamis notation, 2.19"},
	Whole:   true,
	Check: func(p *Pass) {
		for _, s := range p.styleLines() {
			if _, _, ok := resolve.HouseStyle(s.Text); ok {
				continue
			}
			d := p.Report(s.Span, "%q is no rule of the house style", s.Text)
			if near := diag.Nearest(s.Text, resolve.HouseStyles()); near != "" {
				d.WithHelp("did you mean `%s`?", near)
			}
			d.WithHelp("the rules are `%s`", strings.Join(resolve.HouseStyles(), "`, `"))
		}
	},
}

// styleLines are the `style` lines of all books.
func (p *Pass) styleLines() (out []resolve.Text) {
	for _, b := range p.Model.Books {
		out = append(out, b.Styles...)
	}
	return out
}
