package check

import (
	"strings"

	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
	"tamis/lang/source"
)

// notHere asks about tools, vessels and ovens that the kitchen has not.
var notHere = &Rule{
	Code: "H114", Title: "A tool or vessel the kitchen has not.", Family: Heat, Severity: diag.Question,
	What:    "A step names a tool, a vessel or an oven, and the kitchen of the menu lists such things and not this one. A vessel whose step says what it holds is let pass: it is described, not looked for.",
	Why:     "It has to be brought along; and what is not listed is planned as if there were any number of it.",
	Fix:     "List it in the kitchen, or name one that is there.",
	Bad:     "kitchen Boat\n  tools whisk\n\nmenu Supper\n  covers 4\n  at Boat\n\n  course Main\n    Leek soup\n\ndish Leek soup\n  serves 4\n  gather\n    600 g leeks\n  method\n    - Blend the leeks. | tool blender | work 5 min\n",
	At:      "16:31",
	Good:    "kitchen Boat\n  tools whisk, blender\n\nmenu Supper\n  covers 4\n  at Boat\n\n  course Main\n    Leek soup\n\ndish Leek soup\n  serves 4\n  gather\n    600 g leeks\n  method\n    - Blend the leeks. | tool blender | work 5 min\n",
	Sources: []string{"the Tamis notation, 2.16"},
	Check: func(p *Pass) {
		said := map[source.Span]bool{}
		for _, meal := range p.Meals {
			k := meal.Kitchen
			if k == nil {
				continue
			}
			var tools, vessels, ovens []string
			for _, t := range k.Tools {
				tools = append(tools, t.Name)
			}
			for _, v := range k.Vessels {
				vessels = append(vessels, v.Name)
			}
			for _, o := range k.Ovens {
				ovens = append(ovens, o.Name)
			}
			for _, m := range meal.Makings {
				for _, s := range m.Recipe.Steps {
					for _, c := range clausesOf(s) {
						if said[c.Where()] {
							continue
						}
						said[c.Where()] = true
						switch c := c.(type) {
						case *resolve.WithTool:
							p.lists(k, c, "tools", "tool", tools)
						case *resolve.InVessel:
							if len(c.Holds.Terms) == 0 {
								p.lists(k, c, "vessels", "vessel", vessels)
							}
						case *resolve.InOven:
							if !c.Name.IsZero() {
								p.lists(k, c, "ovens", "oven", ovens)
							}
						}
					}
				}
			}
		}
	},
	After: Demanded,
}

func (p *Pass) lists(k *resolve.Kitchen, c resolve.Clause, many, one string, there []string) {
	if len(there) == 0 {
		return
	}
	wanted := c.Names()
	for _, name := range there {
		if larder.Fold(name) == larder.Fold(wanted.Text) {
			return
		}
	}
	at := wanted.Span
	if at.IsZero() {
		at = c.Where()
	}
	d := p.Report(at, "%s lists its %s, and no %s", k.Name, many, wanted.Text)
	if near := diag.Nearest(wanted.Text, there); near != "" {
		d.WithHelp("did you mean %s?", near)
	}
	field := one + " " + wanted.Text
	if one == "tool" {
		field = "tools " + strings.Join(append(there, wanted.Text), ", ")
	}
	d.WithHelp("write in the kitchen: `%s`", field)
}
