package check

import (
	"tamis/lang/diag"
)

// manyCovers is from how many guests on laying and washing up take a cook's
// time. Common practice, no source.
const manyCovers = 8

// noTask hints at a dinner that nobody lays the table for.
var noTask = &Rule{
	Code: "M105", Title: "Nobody lays the table or washes up.", Family: Menu, Severity: diag.Hint,
	What:    "A menu for eight or more, with a serving time and two courses, has no `task`.",
	Why:     "Laying, warming plates and washing up between the courses take hands that the plan gives to the cooking.",
	Fix:     "Write such as `task Lay the table, work 20 min, before First`.",
	Bad:     longDinner(""),
	At:      "1:6",
	Good:    longDinner("  task Lay the table, work 20 min, before First\n"),
	Sources: []string{"Cambridge IGCSE 0648 syllabus of 2013, plan of work (seen as an excerpt)"},
	Whole:   true,
	Check: func(p *Pass) {
		for _, m := range p.Model.Menus {
			if m.Asked && m.Serve != nil && m.Covers >= manyCovers && len(m.Courses) > 1 && len(m.Tasks) == 0 {
				what := "nobody lays the table or washes up"
				if m.Kitchen != nil && len(m.Kitchen.WashUps) > 0 {
					what = "nobody lays the table"
				}
				p.Report(m.NameAt, "%s is for %d, and %s", m.Name, m.Covers, what).
					WithHelp("write such as `task Lay the table, work 20 min, before %s`", m.Courses[0].Name)
			}
		}
	},
}

func longDinner(task string) string {
	return "menu Dinner\n  covers 12\n  on the table 2027-05-02 19:00\n" + task + "\n  course First\n    Leeks\n  course Main, 40 min after First\n    Pancakes\n\n" +
		"dish Leeks\n  serves 4\n  method\n    - Boil them. | ring high | work 8 min\n  serve cold\n\ndish Pancakes\n  serves 4\n  method\n    - Fry them. | ring high | work 10 min\n  serve hot\n"
}
