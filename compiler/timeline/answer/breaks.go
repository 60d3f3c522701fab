package answer

import (
	"cmp"
	"slices"

	"tamis/compiler/timeline"
	"tamis/compiler/timeline/problem"
)

// Unbroken are the stretches in which a cook works for longer than they should without a
// break, each as the break they want: after an hour of it, within as long as one may work.
func (r *Result) Unbroken() (out []*problem.Break) {
	d := r.Draft
	all := r.errands()
	breaks := map[int]bool{}
	for _, j := range d.Jobs {
		breaks[j.Block.Act] = breaks[j.Block.Act] || j.IsBreak()
	}
	for _, c := range d.CookKeys() {
		res := d.Hands([]string{c})[0]
		var work []timeline.Spell
		for _, e := range all {
			if r.Solution.Tasks[e.act].Members[e.use] == res && !breaks[e.act] {
				work = append(work, timeline.Spell{From: d.Origin + e.from*d.Grid, To: d.Origin + e.to*d.Grid})
			}
		}
		slices.SortFunc(work, func(a, b timeline.Spell) int { return cmp.Compare(a.From, b.From) })
		from, to, n := timeline.Minute(0), timeline.Minute(-timeline.MaxMinutes), 0
		for _, w := range work {
			if w.From-to >= d.BreakMinutes() {
				from = w.From
			}
			if to = max(to, w.To); to-from > d.BreakEvery() {
				out = append(out, &problem.Break{Cook: c, From: from + 60, To: from + d.BreakEvery(), N: n})
				from, n = from+d.BreakEvery(), n+1
			}
		}
	}
	return out
}
