package check

import (
	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

// courseOrder asks about courses that are written in another order than they
// are served in.
var courseOrder = &Rule{
	Code: "M106", Title: "A course served before the one above it.", Family: Menu, Severity: diag.Question,
	What:    "A course has a time that is earlier than that of a course above it.",
	Why:     "The menu is printed in the order it is written in; mostly one of the times is a slip.",
	Fix:     "Correct the time, or move the course up.",
	Bad:     "menu Dinner\n  covers 4\n  on the table 2027-05-02 19:00\n\n  course First, at 19:00\n    Soup, from the shop\n  course Main, at 18:30\n    Pie, from the shop\n",
	At:      "7:10",
	Good:    "menu Dinner\n  covers 4\n  on the table 2027-05-02 19:00\n\n  course First, at 19:00\n    Soup, from the shop\n  course Main, at 19:30\n    Pie, from the shop\n",
	Sources: []string{"common practice, no source"},
	Whole:   true,
	Check: func(p *Pass) {
		for _, m := range p.Model.Menus {
			if !m.Asked || m.Serve == nil {
				continue
			}
			var last *resolve.Course
			for _, c := range m.Courses {
				if last != nil && c.At < last.At {
					p.Report(c.NameAt, "%s is served before %s, which stands above it", c.Name, last.Name).
						See(last.NameAt, "this one is later").WithHelp("correct the time, or move the course up")
					continue
				}
				last = c
			}
		}
	},
}
