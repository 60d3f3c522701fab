package answer

import (
	"cmp"
	"slices"

	"tamis/compiler/timeline"
	"tamis/compiler/timeline/problem"
)

// unbroken is a stretch of a cook's work without a break.
type unbroken struct {
	cook string // by key
	timeline.Spell
}

// tooLong are the stretches in which a cook works for longer than they should without a
// break.
func (r *Result) tooLong() (out []unbroken) {
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
		var s timeline.Spell
		for i, w := range work {
			if i == 0 || w.From-s.To >= d.BreakMinutes() {
				s = w
			}
			s.To = max(s.To, w.To)
			ends := i+1 == len(work) || work[i+1].From-s.To >= d.BreakMinutes()
			if ends && s.To-s.From+r.unseen() >= d.BreakEvery() {
				out = append(out, unbroken{c, s})
			}
		}
	}
	return out
}

// unseen is how many minutes of a long stretch the engine does not see: an oven is lit before
// it, and something taken out after.
func (r *Result) unseen() int { return r.Draft.BreakEvery() / 24 }

// Unbroken are the breaks that cooks want in their long stretches of work: as few as will
// do, and some more, spread so that wherever each falls in its time nobody works too long
// before it or after. The stretch then begins so much sooner.
func (r *Result) Unbroken(more int) (out []*problem.Break) {
	d := r.Draft
	had := map[string]int{}
	for _, b := range d.Set.Habits.Breaks {
		had[b.Cook]++
	}
	for _, s := range r.tooLong() {
		n := max(1, timeline.FloorDiv(s.To-s.From, d.BreakEvery())) + more
		piece := timeline.CeilDiv(s.To-s.From, n+1)
		spare := d.BreakEvery() - piece
		if n > 1 { // or two that draw apart leave too long between
			spare /= 2
		}
		for i := n; i > 0; i-- {
			at := s.To - i*(piece+d.BreakMinutes())
			out = append(out, &problem.Break{Cook: s.cook, From: at - spare, To: at + spare, N: had[s.cook]})
			had[s.cook]++
		}
	}
	return out
}
