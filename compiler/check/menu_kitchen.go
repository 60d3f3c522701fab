package check

import "tamis/lang/diag"

// noKitchen hints at a plan that knows no limits.
var noKitchen = &Rule{
	Code: "M102", Title: "A plan for no kitchen.", Family: Menu, Severity: diag.Hint,
	What:    "A menu has a serving time, three dishes or more that are made, and no kitchen.",
	Why:     "It is planned for one cook with as many ovens, rings and pans as are wanted.",
	Fix:     "Write a `kitchen` with its cooks, ovens and rings, and `at` with its name in the menu.",
	Bad:     "menu Supper\n  covers 4\n  on the table 2027-05-02 19:00\n\n  course Main\n    Leeks\n    Carrots\n    Peas\n\ndish Leeks\n  serves 4\n  method\n    - Wash and boil. | ring high | work 2 min | leave 8 min\n\ndish Carrots\n  serves 4\n  method\n    - Wash and boil. | ring high | work 2 min | leave 8 min\n\ndish Peas\n  serves 4\n  method\n    - Wash and boil. | ring high | work 2 min | leave 8 min\n",
	At:      "1:6",
	Good:    "kitchen Boat\n  rings 3\n\nmenu Supper\n  covers 4\n  on the table 2027-05-02 19:00\n  at Boat\n\n  course Main\n    Leeks\n    Carrots\n    Peas\n\ndish Leeks\n  serves 4\n  method\n    - Wash and boil. | ring high | work 2 min | leave 8 min\n\ndish Carrots\n  serves 4\n  method\n    - Wash and boil. | ring high | work 2 min | leave 8 min\n\ndish Peas\n  serves 4\n  method\n    - Wash and boil. | ring high | work 2 min | leave 8 min\n",
	Sources: []string{"the Tamis notation, 2.20"},
	Whole:   true,
	Check: func(p *Pass) {
		for _, m := range p.Model.Menus {
			if !m.Asked || m.Serve == nil || m.Kitchen != nil {
				continue
			}
			made := 0
			for _, c := range m.Courses {
				for _, s := range c.Servings {
					if s.Recipe != nil {
						made++
					}
				}
			}
			if made >= 3 {
				p.Report(m.NameAt, "%s is planned for one cook, and for as many ovens and rings as are wanted", m.Name).
					WithHelp("write a `kitchen`, and `at` with its name in the menu")
			}
		}
	},
}
