package check

import (
	"tamis/lang/diag"
)

// notFed asks about a course that does not go round.
var notFed = &Rule{
	Code: "M108", Title: "A course that does not go round.", Family: Menu, Severity: diag.Question,
	What:    "Every dish of a course says for how many it is, and together they are for fewer than the covers.",
	Why:     "Somebody at the table gets nothing.",
	Fix:     "Correct one of the numbers, or leave `for` out: a dish without it is for everybody.",
	Bad:     "menu Dinner\n  covers 12\n  course Main\n    Baked trout, for 8\n    Lentil loaf, for 2\n\ndish Baked trout\n  serves 4\n\ndish Lentil loaf\n  serves 4\n",
	At:      "3:10",
	Good:    "menu Dinner\n  covers 12\n  course Main\n    Baked trout, for 10\n    Lentil loaf, for 2\n\ndish Baked trout\n  serves 4\n\ndish Lentil loaf\n  serves 4\n",
	Sources: []string{"common practice, no source"},
	Whole:   true,
	Check: func(p *Pass) {
		for _, m := range p.Model.Menus {
			if !m.Asked || m.Covers == 0 {
				continue
			}
		courses:
			for _, c := range m.Courses {
				sum := 0
				for _, s := range c.Servings {
					if s.For == 0 {
						continue courses
					}
					sum += s.For
				}
				if len(c.Servings) > 1 && sum < m.Covers {
					p.Report(c.NameAt, "%s is for %d of %d", c.Name, sum, m.Covers).WithHelp("correct one of the numbers, or leave `for` out")
				}
			}
		}
	},
}
