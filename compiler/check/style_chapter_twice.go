package check

import (
	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

// chapterTwice asks about a dish that stands in a book twice.
var chapterTwice = &Rule{
	Code: "E118", Title: "In the book twice.", Family: Style, Severity: diag.Question,
	What:    "The chapters of a book name one dish twice.",
	Why:     "It is printed once, where it comes first.",
	Fix:     "Take one of the two out.",
	Bad:     "book Ferry book\n  chapter Soups\n    Leek pot\n  chapter Suppers\n    Leek pot\n\ndish Leek pot\n  serves 4\n",
	At:      "5:5",
	Good:    "book Ferry book\n  chapter Soups\n    Leek pot\n\ndish Leek pot\n  serves 4\n",
	Sources: []string{"the Tamis notation, 2.19"},
	Whole:   true,
	Check: func(p *Pass) {
		for _, b := range p.Model.Books {
			first := map[string]resolve.Text{}
			for _, c := range b.Chapters {
				for _, ref := range c.Names {
					key := larder.Fold(ref.Text)
					if have, ok := first[key]; ok {
						p.Report(ref.Span, "%s stands in the book twice", ref.Text).
							See(have.Span, "the first").WithHelp("take one of the two out")
						continue
					}
					first[key] = ref
				}
			}
		}
	},
}
