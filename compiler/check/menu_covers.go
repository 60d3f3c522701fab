package check

import "tamis/lang/diag"

// noCovers asks for how many a menu is.
var noCovers = &Rule{
	Code: "M101", Title: "A menu for nobody knows how many.", Family: Menu, Severity: diag.Question,
	What:    "A menu has no `covers`, and a dish on it has no `for`. Said once a menu.",
	Why:     "Every dish is made at the size it was written for, and these are seldom the same.",
	Fix:     "Write `covers 12` in the menu.",
	Bad:     "menu Supper\n  course Main\n    Leek pot\n\ndish Leek pot\n  serves 4\n  gather\n    600 g leeks\n  method\n    - Soften the leeks. | ring low | work 8 min\n",
	At:      "1:6",
	Good:    "menu Supper\n  covers 4\n\n  course Main\n    Leek pot\n\ndish Leek pot\n  serves 4\n  gather\n    600 g leeks\n  method\n    - Soften the leeks. | ring low | work 8 min\n",
	Sources: []string{"the Tamis notation, 2.15"},
	Whole:   true,
	Check: func(p *Pass) {
		for _, m := range p.Model.Menus {
			if !m.Asked || m.Covers > 0 {
				continue
			}
		menu:
			for _, c := range m.Courses {
				for _, s := range c.Servings {
					if s.Recipe != nil && !s.Counted {
						p.Report(m.NameAt, "%s does not say for how many it is", m.Name).
							See(s.Span, "made at its written size").WithHelp("write `covers 12` in the menu")
						break menu
					}
				}
			}
		}
	},
}
