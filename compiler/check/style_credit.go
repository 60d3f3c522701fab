package check

import (
	"tamis/lang/diag"
)

// noCredit asks where a dish comes from, in a book that wants it said.
var noCredit = &Rule{
	Code: "E104", Title: "No word of where it comes from.", Family: Style, Severity: diag.Question,
	What:    "The book has `style credits`, and a dish or base has neither `by` nor `source`.",
	Why:     "Whoever gave the recipe reads the book, too.",
	Fix:     "Write `by Nell Ferry`, or `source An aunt's notebook, about 1950`.",
	Bad:     "book Ferry book\n  style credits\n\ndish Leek pot\n  serves 4\n  gather\n    600 g leeks\n  method\n    - Soften the leeks. | ring low | work 8 min\n",
	At:      "4:6",
	Good:    "book Ferry book\n  style credits\n\ndish Leek pot\n  by Nell Ferry\n  serves 4\n  gather\n    600 g leeks\n  method\n    - Soften the leeks. | ring low | work 8 min\n",
	Sources: []string{"Associated Press, recipe guidelines of 2015 (seen as an excerpt)"},
	Check: func(p *Pass) {
		for _, r := range p.Recipes() {
			if !p.Model.House(r.Span).Credits {
				continue
			}
			if len(r.Own.Credits) == 0 && r.Own.Like.IsZero() { // else as the one it is like
				p.Report(r.NameAt, "nobody says where %s comes from", r.Name).WithHelp("write `by` or `source` in it")
			}
		}
	},
}
