package washing

import (
	"fmt"
	"slices"

	"tamis/compiler/resolve"
	"tamis/compiler/timeline"
	"tamis/compiler/timeline/problem"
)

// Washing up `every 2 h` counts the work on the dishes, and when there is work
// is only known from a plan. So the meal is planned without these rounds, the
// stretches of work that are too long are given as many as they want, and it is
// planned again; the jobs of a stretch are then tied to its rounds.

// washRounds makes the jobs of the rounds: none of the work of a stretch is
// begun longer before its first or ended longer after its last than `every`
// says, nor do two lie further apart.
func washRounds(d *problem.Draft, w *resolve.WashUp) {
	n := 0
	if !planned(d, w, nil) {
		after(d, w, "Wash up what is left", d.Hands(w.By))
		return
	}
	for _, r := range d.Set.Wash.Rounds {
		every := r.Every
		var first, last *problem.Job
		set := washers(d, w.By, false)
		if by := d.Hands(w.By); len(by) > 0 && (!d.Clock || hasHours(d, w.By, r.Day)) {
			set = by
		}
		for range r.Count {
			j := washing(d, &problem.Wash{Up: w, N: n}, fmt.Sprintf("Wash up, round %d", n+1), timeline.Minutes(w.Time), set, nil)
			n++
			if j == nil {
				continue
			}
			if last != nil {
				d.Link(last.End(), j.Begin(), 0, every, problem.WashRound)
			} else {
				first = j
			}
			last = j
		}
		if first == nil {
			continue
		}
		for _, j := range slices.Clone(d.Jobs) {
			for i, p := range j.Parts {
				if j.Wash == nil && slices.Contains(r.Work, problem.WorkKey{Key: j.Key(), Phase: i}) {
					d.Link(problem.Moment{Job: j, At: int(p.From)}, first.Begin(), -timeline.Day, every, problem.WashRound)
					d.Link(last.End(), problem.Moment{Job: j, At: int(p.To)}, -timeline.Day, every, problem.WashRound)
				}
			}
		}
	}
}
