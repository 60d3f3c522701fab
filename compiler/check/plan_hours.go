package check

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/compiler/timeline"
	"tamis/lang/diag"
	"tamis/lang/source"
)

var noBreak = &Rule{
	Code: "P301", Title: "six hours without a break", Family: Plan, Severity: diag.Hint,
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
	Check: checkNoBreak,
}

// What the law calls a long spell, and a break.
const (
	longSpell = 6 * 60
	aBreak    = 20
)

// spellOf is a stretch of somebody's work, in minutes of the menu's clock.
type spellOf struct{ from, to timeline.Minute }

// busy are the stretches in which somebody works or watches, in order; those
// with less than a gap between them are one.
func busy(t *timeline.Timeline, cook string, gap int) (out []spellOf) {
	var all []spellOf
	for _, j := range t.Jobs {
		for _, ph := range j.Phases {
			if slices.Contains(ph.Cooks, cook) {
				all = append(all, spellOf{ph.Start, ph.End})
			}
		}
		for _, x := range j.Touches {
			if slices.Contains(x.Cooks, cook) {
				all = append(all, spellOf{x.Start, x.End})
			}
		}
	}
	slices.SortFunc(all, func(a, b spellOf) int { return cmp.Or(cmp.Compare(a.from, b.from), cmp.Compare(a.to, b.to)) })
	for _, s := range all {
		if n := len(out); n > 0 && s.from-out[n-1].to < gap {
			out[n-1].to = max(out[n-1].to, s.to)
			continue
		}
		out = append(out, s)
	}
	return out
}

func checkNoBreak(p *Pass) {
	p.eachPlan(func(m *resolve.Menu, t *timeline.Timeline) {
		for _, cook := range t.Cooks {
			for _, s := range busy(t, cook, aBreak) {
				if s.to-s.from <= longSpell {
					continue
				}
				p.Report(m.AST.Title.Span, "by the plan %s has no 20 minutes off in %s", cookWords(t, cook), sayTime(time.Duration(s.to-s.from)*time.Minute)).
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

var idleHours = &Rule{
	Code: "P302", Title: "hours in which nothing is done", Family: Plan, Severity: diag.Hint,
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
			if !used && anybody && h.AST != nil { // somebody who has no work at all is idleCook's
				p.Report(h.AST.Pos(), "nothing is planned in these hours").
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

var idleCook = &Rule{
	Code: "P303", Title: "somebody with hours and nothing to do", Family: Plan, Severity: diag.Hint,
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
	Check:   checkIdleCook,
}

func checkIdleCook(p *Pass) {
	p.eachPlan(func(m *resolve.Menu, t *timeline.Timeline) {
		for _, cook := range t.Cooks {
			key := larder.Fold(cook)
			var at source.Span
			for _, h := range m.Hours {
				if slices.Contains(h.Cooks, key) && h.AST != nil && at.IsZero() {
					at = h.AST.Pos()
				}
			}
			if at.IsZero() || len(busy(t, cook, 1)) > 0 {
				continue
			}
			p.Report(at, "%s has hours, and nothing to do in the plan", cook).
				WithHelp("take the hours out, or write `| by %s` behind a step", cook)
		}
	})
}

// eachPlan calls f for every menu that was planned in full.
func (p *Pass) eachPlan(f func(*resolve.Menu, *timeline.Timeline)) {
	for i, t := range p.Timelines {
		if t != nil && t.Clock && p.Meals[i].Menu != nil && p.Meals[i].Menu.AST != nil {
			f(p.Meals[i].Menu, t)
		}
	}
}

// supperOf is a menu with these hours and a salad of one step.
func supperOf(hours, step string) string {
	return fmt.Sprintf(`menu Supper
  covers 4
  serve 2027-05-02 19:00
  at Boat
%s
  course Main
    Leaf salad

dish Leaf salad
  serves 4
  gather
    600 g    salad leaves
  method
    - Wash the salad leaves. | work 5 min
    %s
  serve cold

kitchen Boat
  cooks Nell, Omar
  rings 2
`, hours, step)
}
