package check

import (
	"strings"

	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

// dividedStyle keeps a book to one way with lines that several steps share.
var dividedStyle = &Rule{
	Code: "E108", Title: "`divided`, against the house style.", Family: Style, Severity: diag.Question,
	What:    "The book has `style divided`, and a line that several steps take from has not the note `divided`; or it has `style not divided`, and a line has the note.",
	Why:     "A note that stands on some lines only tells the reader that the others go in at once.",
	Fix:     "Write `, divided` after the name, or take it out.",
	Bad:     "book Ferry book\n  style divided\n\ndish Leek pot\n  serves 4\n  gather\n    60 g butter\n    600 g leeks\n  method\n    - Soften the leeks in half the butter. | ring low | work 8 min\n    - Beat in the rest of the butter. | work 1 min\n",
	At:      "7:10",
	Good:    "book Ferry book\n  style divided\n\ndish Leek pot\n  serves 4\n  gather\n    60 g butter, divided\n    600 g leeks\n  method\n    - Soften the leeks in half the butter. | ring low | work 8 min\n    - Beat in the rest of the butter. | work 1 min\n",
	Sources: []string{"Associated Press, recipe guidelines of 2015, for it; a food writer's blog of 2012, against it (both seen as excerpts)"},
	Check: func(p *Pass) {
		for _, r := range p.Recipes() {
			style := p.Model.House(r.Span).Divided
			if style == "" || r.Reading == nil {
				continue
			}
			steps := map[*resolve.Line]int{}
			for _, sr := range r.Reading.Steps {
				here := map[*resolve.Line]bool{}
				for _, t := range sr.Takes {
					if t.Line != nil && !t.Refers && !t.Line.ToTaste && !here[t.Line] {
						here[t.Line] = true
						steps[t.Line]++
					}
				}
			}
			for _, l := range r.Reading.Lines {
				if !mine(r, l.Span) || l.Quantity == nil {
					continue
				}
				noted := strings.Contains(strings.ToLower(l.Note.Text), "divided")
				switch {
				case style == "divided" && steps[l] > 1 && !noted:
					p.Report(l.NameAt, "%d steps take of %s, and the house style says `divided`", steps[l], l.Name).WithHelp("write `%s, divided`", l.Name)
				case style == "not divided" && noted:
					p.Report(l.Note.Span, "the house style does not say `divided`").WithHelp("take the word out: the steps say how much goes in")
				}
			}
		}
	},
}
