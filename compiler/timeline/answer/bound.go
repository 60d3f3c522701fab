package answer

import (
	"tamis/compiler/plan"
)

// What is known of plans nobody has made: how much later work could begin, or
// how much less late the meal could be, at most.

// later is by how many minutes the first hands-on work could at most begin
// later in any plan on the same clock that is as punctual and keeps food
// waiting no longer; -1 when nothing was asked of the engine.
func (r *Result) later() int {
	s := r.Solution
	if s.Bounds[plan.Lead] == 0 {
		return -1
	}
	latest := r.Draft.P.Horizon - s.Bounds[plan.Lead]
	return max(0, latest-max(r.begins, r.firstHeld())) * r.Draft.Grid
}

// early is by how many minutes work begins before it must, for cold work is done before
// the rush.
func (r *Result) early() int { return max(0, r.begins-r.firstHeld()) * r.Draft.Grid }

// firstHeld is when a cook is first held, in the engine's units; where none
// ever is, when anything first begins.
func (r *Result) firstHeld() int {
	first, any := r.Draft.P.Horizon, r.Draft.P.Horizon
	for i, t := range r.Solution.Tasks {
		if !t.On {
			continue
		}
		any = min(any, t.Start)
		for n, u := range r.Draft.P.Activities[i].Modes[t.Mode].Uses {
			if u.Amount > 0 && t.Start < t.End && r.Draft.P.Resources[t.Members[n]].Hands {
				first = min(first, t.Start+u.From)
			}
		}
	}
	if first == r.Draft.P.Horizon {
		return any
	}
	return first
}
