package check

import (
	"time"

	"tamis/compiler/resolve"
	"tamis/compiler/timeline"
	"tamis/lang/diag"
)

var noBreak = &Rule{
	Code: "P301", Title: "Six hours without a break.", Family: Plan, Severity: diag.Hint,
	What:  "By the plan somebody works or watches for more than six hours without 20 minutes off.",
	Why:   "In many countries a break is the law at work; in any kitchen it is when fingers are cut.",
	Fix:   "Let somebody else do a part, begin earlier, or do more the day before. Local rules come first.",
	After: Planned,
	Bad: supperOf(`  hours on the day, 08:00 to 20:00, Nell
`, "- Pick the leaves over. | work 6 h 30 min"),
	At: "1:6",
	Good: supperOf(`  hours on the day, 08:00 to 20:00, Nell
`, "- Pick the leaves over. | work 5 h 30 min"),
	Sources: []string{
		"Directive 2003/88/EC, article 4 (a rest break where the working day is longer than six hours), from memory",
		"Working Time Regulations 1998 (UK), regulation 12 (20 minutes), from memory",
	},
	Whole: true,
	Check: checkNoBreak,
}

// What the law calls a long spell, and a break.
const (
	longSpell = 6 * 60
	aBreak    = 20
)

func checkNoBreak(p *Pass) {
	p.eachPlan(func(m *resolve.Menu, t *timeline.Timeline) {
		for _, cook := range t.Cooks {
			for _, s := range busy(t, cook, aBreak) {
				if s.to-s.from <= longSpell {
					continue
				}
				p.Report(m.NameAt, "by the plan %s has no 20 minutes off in %s", cookWords(t, cook), lengthOf(time.Duration(s.to-s.from)*time.Minute)).
					WithHelp("let somebody else do a part of it, or do more the day before")
				break
			}
		}
	})
}

// cookWords is what a message calls a cook.
func cookWords(t *timeline.Timeline, cook string) string {
	if len(t.Cooks) == 1 && t.Meal.Kitchen == nil {
		return "the cook"
	}
	return cook
}
