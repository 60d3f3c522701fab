package check

import (
	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

// styleTwice asks which of two rules of the house style holds.
var styleTwice = &Rule{
	Code: "E112", Title: "Two rules of the house style that disagree.", Family: Style, Severity: diag.Question,
	What:    "A book sets one switch of the house style twice.",
	Why:     "The last one holds, and the first is overlooked.",
	Fix:     "Take one of the two out.",
	Bad:     "book Ferry book\n  style range dash\n  style range to\n\ndish Leek pot\n  serves 4\n",
	At:      "3:9",
	Good:    "book Ferry book\n  style range to\n\ndish Leek pot\n  serves 4\n",
	Sources: []string{"the Tamis notation, 2.19"},
	Whole:   true,
	Check: func(p *Pass) {
		for _, b := range p.Model.Books {
			set := map[string]resolve.Text{}
			for _, s := range b.Styles {
				_, of, known := resolve.HouseStyle(s.Text)
				if !known {
					continue
				}
				if before, ok := set[of]; ok {
					p.Report(s.Span, "the house style for %s is set twice", of).
						See(before.Span, "the first").WithHelp("take one of the two out")
				}
				set[of] = s
			}
		}
	},
}
