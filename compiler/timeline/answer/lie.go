package answer

import (
	"slices"

	"tamis/compiler/resolve"
	"tamis/compiler/timeline"
	"tamis/compiler/timeline/problem"
)

// mostLain is how long after what is done to a thing it is still plain that it begins to
// stand then, in minutes; after that somebody fetches it.
const mostLain = 90

// Lie begins what only stands, rests or proves when it is left, on a clock of so many
// minutes: the engine begins it as late as it may, and a batter that is to stand for half an
// hour would be whisked and then wait to begin to.
func (r *Result) Lie(grid int) {
	if r.Solution == nil || r.Set.Keep != nil {
		return
	}
	for _, b := range r.Blocks() {
		j := b.Jobs[0]
		wants := slices.ContainsFunc(b.Roles, func(k problem.RoleKind) bool { return k != problem.HereRole })
		if len(b.Jobs) > 1 || wants || j.Kind != timeline.StepJob || slices.ContainsFunc(j.Parts, func(p problem.Part) bool { return p.Kind != resolve.Leave }) {
			continue
		}
		left, ok := r.leftAt(j)
		start := r.Start(j)
		at := r.Draft.FirstCourse().At - timeline.FloorDiv(r.Draft.FirstCourse().At-left, grid)*grid
		if !ok || at >= start || start-left > mostLain {
			continue
		}
		task := &r.Solution.Tasks[b.Act]
		by := (start - at) / r.Draft.Grid
		task.Start, task.End = task.Start-by, task.End-by
		if !r.inOrder(b) || r.Broken() {
			task.Start, task.End = task.Start+by, task.End+by
		}
	}
}

// leftAt is when a step can begin that needs nobody, and whether somebody, or the fire, has
// had it until then: what comes out of the fridge to stand is fetched.
func (r *Result) leftAt(j *problem.Job) (at timeline.Minute, ok bool) {
	at = -timeline.MaxMinutes
	for _, l := range r.Draft.Links {
		if l.To.Job != j || !r.Counts(l) {
			continue
		}
		if n := r.time(l.From) + l.Gap; n > at {
			parts := l.From.Job.Parts
			at, ok = n, len(parts) > 0 && (parts[len(parts)-1].Kind != resolve.Leave || l.From.Job.Hot)
		}
	}
	return at, ok
}
