package timeline

import (
	"cmp"
	"slices"

	"tamis/compiler/plan"
)

// snap moves as many jobs of a plan by the minute as can be to a coarser
// clock: each, from the first, is begun earlier by up to a grid if every rule
// is still kept. What stands in an oven stays where it is.
func (r *result) snap(grid int) {
	if r.solution == nil {
		return
	}
	d, tasks := r.draft, r.solution.Tasks
	first := d.firstCourse().at
	order := r.blocks()
	slices.SortStableFunc(order, func(a, b *block) int { return cmp.Compare(tasks[a.act].Start, tasks[b.act].Start) })
	waiting := r.waited()
	for _, b := range order {
		if slices.Contains(b.roles, ovenRole) {
			continue
		}
		off := (d.origin + tasks[b.act].Start*d.grid - first) % grid
		if off < 0 {
			off += grid
		}
		if off == 0 {
			continue
		}
		tasks[b.act].Start -= off
		tasks[b.act].End -= off
		if r.broken() || r.waited() > waiting+2*grid {
			tasks[b.act].Start += off
			tasks[b.act].End += off
		}
	}
}

// broken tells whether the solution breaks a rule. Its stated score is that of
// the plan before it was moved, which is no matter here.
func (r *result) broken() bool {
	return slices.ContainsFunc(plan.Verify(&r.draft.p, r.solution), func(v plan.Violation) bool { return v.Rule != "score" })
}
