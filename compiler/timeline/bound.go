package timeline

import (
	"fmt"

	"tamis/compiler/plan"
)

// What is known of plans nobody has made: how much later work could begin, or
// how much less late the meal could be, at most.

// later is by how many minutes the first hands-on work could at most begin
// later in any plan on the same clock that is as punctual and keeps food
// waiting no longer; -1 when nothing was asked of the engine.
func (r *result) later() int {
	s := r.solution
	if s.Bounds[plan.Lead] == 0 {
		return -1
	}
	latest := r.draft.p.Horizon - s.Bounds[plan.Lead]
	return max(0, latest-r.firstHeld()) * r.draft.grid
}

// firstHeld is when a cook is first held, in the engine's units; where none
// ever is, when anything first begins.
func (r *result) firstHeld() int {
	first, any := r.draft.p.Horizon, r.draft.p.Horizon
	for i, t := range r.solution.Tasks {
		if !t.On {
			continue
		}
		any = min(any, t.Start)
		for n, u := range r.draft.p.Activities[i].Modes[t.Mode].Uses {
			if u.Amount > 0 && t.Start < t.End && r.draft.p.Resources[t.Members[n]].Hands {
				first = min(first, t.Start+u.From)
			}
		}
	}
	if first == r.draft.p.Horizon {
		return any
	}
	return first
}

// BoundWords says for a cook how far the plan is from the best there could be:
// that it cannot start later and so cannot be shorter, or by how much it might;
// of a late one, that it cannot be less late, or by how much it might. It is
// empty where nothing is known.
func (t *Timeline) BoundWords() string {
	text, _ := t.bound()
	return text
}

// bound is what BoundWords says, and what that means.
func (t *Timeline) bound() (text, why string) {
	least := t.Late - t.Bound
	switch {
	case t.Late > 0 && least <= 0:
		return "Cannot be less late", fmt.Sprintf("no plan for this kitchen and these hours is late by less than %s in all", spanWords(t.Late))
	case t.Late > 0:
		return fmt.Sprintf("At most %s (%s) less late is possible", spanWords(least), percent(least, t.Late)), "a better plan was looked for and not found"
	case t.Later < 0:
		return "", ""
	}
	latest := t.Start + t.Later
	why = "no plan that is on time, with food waiting no longer, begins after " + t.onDay(latest, floorDiv(latest, day) != 0)
	if t.Later == 0 {
		return "Cannot start later, so cannot be shorter", why
	}
	return fmt.Sprintf("At most %s (%s) better is possible", spanWords(t.Later), percent(t.Later, t.length())), why
}

// length is how long the meal takes, from the first hands-on work to the last
// serving.
func (t *Timeline) length() int {
	last := t.Start + 1
	for _, s := range t.Servings {
		last = max(last, s.Served)
	}
	return last - t.Start
}

// percent is a part of a whole in per cent, rounded up.
func percent(part, whole int) string { return fmt.Sprintf("%d %%", ceilDiv(100*part, max(1, whole))) }
