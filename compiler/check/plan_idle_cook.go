package check

import (
	"slices"

	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/compiler/timeline"
	"tamis/lang/diag"
	"tamis/lang/source"
)

var idleCook = &Rule{
	Code: "P303", Title: "Somebody with hours and nothing to do.", Family: Plan, Severity: diag.Hint,
	What:  "The menu gives somebody hours by name, and the plan gives them nothing to do.",
	Why:   "One pair of hands is paid, or begged, for nothing; or a `by` in a step is missing.",
	Fix:   "Take the hours out, or say in the steps and tasks who does them: `| by Omar`.",
	After: Planned,
	Bad: supperOf(`  hours on the day, 17:00 to 20:00, Nell
  hours on the day, 17:00 to 20:00, Omar
`, "- Pick the leaves over. | work 30 min | by Nell"),
	At: "6:3",
	Good: supperOf(`  hours on the day, 17:00 to 20:00, Nell
`, "- Pick the leaves over. | work 30 min | by Nell"),
	Sources: []string{"common practice, no source"},
	Whole:   true,
	Check:   checkIdleCook,
}

func checkIdleCook(p *Pass) {
	p.eachPlan(func(m *resolve.Menu, t *timeline.Timeline) {
		for _, cook := range t.Cooks {
			key := larder.Fold(cook)
			var at source.Span
			for _, h := range m.Hours {
				if slices.Contains(h.Cooks, key) && at.IsZero() {
					at = h.Span
				}
			}
			if at.IsZero() || len(busy(t, cook, 1)) > 0 {
				continue
			}
			p.Report(at, "%s has hours, and nothing to do in the plan", cook).
				WithHelp("take the hours out, or write `| by %s` after a step", cook)
		}
	})
}
