package check

import (
	"maps"

	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

// sameTwice asks about one dish that stands in one course twice.
var sameTwice = &Rule{
	Code: "M109", Title: "The same dish twice in one course.", Family: Menu, Severity: diag.Question,
	What:    "A course has one dish twice, with the same options.",
	Why:     "It is made twice, each time for everybody or for as many as `for` says.",
	Fix:     "Take one out, or write `for 24` on one line.",
	Bad:     "menu Dinner\n  covers 12\n  course Main\n    Leek pot\n    Leek pot\n\ndish Leek pot\n  serves 4\n",
	At:      "5:5",
	Good:    "menu Dinner\n  covers 12\n  course Main\n    Leek pot\n\ndish Leek pot\n  serves 4\n",
	Sources: []string{"the Tamis notation, 2.12"},
	Whole:   true,
	Check: func(p *Pass) {
		for _, m := range p.Model.Menus {
			if !m.Asked {
				continue
			}
			for _, c := range m.Courses {
				for i, s := range c.Servings {
					for _, before := range c.Servings[:i] {
						if sameServing(s, before) {
							p.Report(s.NameAt, "%s stands in %s twice", s.Name, c.Name).
								See(before.NameAt, "the first").WithHelp("take one out, or write on one line for how many it is")
							break
						}
					}
				}
			}
		}
	},
}

func sameServing(a, b *resolve.Serving) bool {
	return a.Recipe != nil && a.Recipe == b.Recipe && maps.Equal(a.Chosen, b.Chosen) && a.Ahead == b.Ahead
}
