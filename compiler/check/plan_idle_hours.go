package check

import (
	"slices"

	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/compiler/timeline"
	"tamis/lang/diag"
)

var idleHours = &Rule{
	Code: "P302", Title: "Hours in which nothing is done.", Family: Plan, Severity: diag.Hint,
	What:  "The menu has hours in which the plan gives nobody anything to do.",
	Why:   "Somebody would come in for nothing; or a dish that was to be made then is missing.",
	Fix:   "Take the hours out, or let a dish be made `ahead`.",
	After: Planned,
	Bad: supperOf(`  hours day before, 17:00 to 19:00
  hours on the day, 17:00 to 20:00
`, "- Pick the leaves over. | work 30 min"),
	At: "5:3",
	Good: supperOf(`  hours on the day, 17:00 to 20:00
`, "- Pick the leaves over. | work 30 min"),
	Sources: []string{"common practice, no source"},
	Whole:   true,
	Check:   checkIdleHours,
}

func checkIdleHours(p *Pass) {
	p.eachPlan(func(m *resolve.Menu, t *timeline.Timeline) {
		for _, h := range m.Hours {
			used, anybody := false, len(h.Cooks) == 0
			for _, cook := range t.Cooks {
				if len(h.Cooks) > 0 && !slices.Contains(h.Cooks, larder.Fold(cook)) {
					continue
				}
				for _, s := range busy(t, cook, 1) {
					anybody = true
					used = used || s.from < h.To && h.From < s.to
				}
			}
			if !used && anybody { // somebody who has no work at all is idleCook's
				p.Report(h.Span, "nothing is planned in these hours").
					WithHelp("take them out, or let something be made then: `%s, ahead`", dishOf(m))
			}
		}
	})
}

// dishOf is some dish of a menu, for an example.
func dishOf(m *resolve.Menu) string {
	for _, c := range m.Courses {
		for _, s := range c.Servings {
			if s.Recipe != nil && len(s.Recipe.Pauses) > 0 {
				return s.Name
			}
		}
	}
	for _, c := range m.Courses {
		for _, s := range c.Servings {
			return s.Name
		}
	}
	return "Barley pilaf"
}
