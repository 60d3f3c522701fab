package check

import (
	"cmp"
	"fmt"
	"slices"

	"tamis/compiler/resolve"
	"tamis/compiler/timeline"
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

// eachPlan calls f for every menu that was planned in full.
func (p *Pass) eachPlan(f func(*resolve.Menu, *timeline.Timeline)) {
	for i, t := range p.Timelines {
		if t != nil && t.Clock && p.Meals[i].Menu != nil {
			f(p.Meals[i].Menu, t)
		}
	}
}

// supperOf is a menu with these hours and a salad of one step.
func supperOf(hours, step string) string {
	return fmt.Sprintf(`menu Supper
  covers 4
  on the table 2027-05-02 19:00
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
