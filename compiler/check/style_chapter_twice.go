package check

import (
	"tamis/compiler/larder"
	"tamis/lang/ast"
	"tamis/lang/diag"
)

// chapterTwice asks about a dish that stands in a book twice.
var chapterTwice = &Rule{
	Code: "E118", Title: "in the book twice", Family: Style, Severity: diag.Query,
	What:    "The chapters of a book name one dish twice.",
	Why:     "It is printed once, where it comes first.",
	Fix:     "Take one of the two out.",
	Bad:     "book Ferry book\n  chapter Soups\n    Leek pot\n  chapter Suppers\n    Leek pot\n\ndish Leek pot\n  serves 4\n",
	At:      "5:5",
	Good:    "book Ferry book\n  chapter Soups\n    Leek pot\n\ndish Leek pot\n  serves 4\n",
	Sources: []string{"the Tamis notation, 2.19"},
	Check: func(p *Pass) {
		for _, b := range p.Model.Books {
			first := map[string]*ast.ChapterRef{}
			for _, it := range b.Items {
				c, ok := it.(*ast.Chapter)
				if !ok {
					continue
				}
				for _, ref := range c.Refs {
					key := larder.Fold(ref.Ref.Text)
					if have := first[key]; have != nil {
						p.Report(ref.Ref.Span, "%s stands in the book twice", ref.Ref.Text).
							See(have.Ref.Span, "the first").WithHelp("take one of the two out")
						continue
					}
					first[key] = ref
				}
			}
		}
	},
}
