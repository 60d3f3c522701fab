package check

import (
	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

// toWrite reminds of dishes that have no recipe yet.
var toWrite = &Rule{
	Code: "M110", Title: "Still to be written.", Family: Menu, Severity: diag.Hint,
	What:    "A menu with a serving time has dishes that are `to be written`. Said once a menu.",
	Why:     "They are on no shopping list and in no plan.",
	Fix:     "Write the recipe, or `from the shop`.",
	Bad:     "menu Dinner\n  covers 4\n  on the table 2027-05-02 19:00\n\n  course Main\n    Leek pot, to be written\n    Pie, from the shop\n",
	At:      "6:5",
	Good:    "menu Dinner\n  covers 4\n  on the table 2027-05-02 19:00\n\n  course Main\n    Leek pot, from the shop\n    Pie, from the shop\n",
	Sources: []string{"the Tamis notation, 2.15"},
	Whole:   true,
	Check: func(p *Pass) {
		for _, m := range p.Model.Menus {
			if !m.Asked || m.Serve == nil {
				continue
			}
			var list []*resolve.Serving
			for _, c := range m.Courses {
				for _, s := range c.Servings {
					if s.ToWrite {
						list = append(list, s)
					}
				}
			}
			if len(list) == 0 {
				continue
			}
			d := p.Report(list[0].NameAt, "%s has no recipe yet, and is in no plan", list[0].Name)
			for _, s := range list[1:] {
				d.See(s.NameAt, "nor has this one")
			}
		}
	},
}
