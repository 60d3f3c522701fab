package attempt

import (
	"slices"

	"tamis/compiler/timeline/answer"
	"tamis/compiler/timeline/washing"
)

// The engine has everything ready when it must be and no sooner, so that a plan is on time
// on paper and two minutes late at every other meal.

const (
	// wellOnTime is how many meals of a hundred are on time for nothing to be done about it.
	wellOnTime = 95
	// worthRoom is how many more of a hundred must be on time for food to wait meanwhile.
	worthRoom = 3
	// mostRoom is how many plans are made to find one with room, of a meal that is not large.
	mostRoom = 4
)

// LeaveRoom leaves a few minutes between the work and the table where the plan would often
// be late, if the menu gives hours for it: before the courses that are, else before all, as
// little as will do. All that is written of waiting holds.
func (a *Attempts) LeaveRoom() {
	first := a.Best
	if first.Set.Keep != nil || !first.OnTime() || !first.Draft.Clock || len(a.Meal.Menu.Hours) == 0 {
		return
	}
	best := first.Chance(a.Opt.Seed)
	if best == nil || best.Hundredth(best.OnTime) >= wellOnTime {
		return
	}
	often := make([]bool, len(best.Courses))
	for i, c := range best.Courses {
		often[i] = best.Hundredth(c.Late) > 100-wellOnTime
	}
	tries := fewer(mostRoom, first.Draft)
	for _, n := range []int{5, 10} {
		for _, all := range []bool{false, true} {
			if !slices.Contains(often, !all) {
				continue
			}
			if tries--; tries < 0 || a.Ctx.Err() != nil {
				return
			}
			room := make([]int, len(often))
			for i, o := range often {
				if o || all {
					room[i] = n
				}
			}
			r := a.withRoom(first, room)
			if r == nil {
				continue
			}
			if odds := r.Chance(a.Opt.Seed); odds != nil && odds.Hundredth(odds.OnTime-best.OnTime) >= worthRoom {
				a.Best, best = r, odds
			}
			if best.Hundredth(best.OnTime) >= wellOnTime {
				return
			}
		}
	}
}

// Moves improves a plan by moves, which leave every limit and all hot food as it is: back to
// the clock, cold work early, a dish with its cook, clean hands, and what stands left when it is.
func (a *Attempts) Moves(r *answer.Result) {
	if r.Draft.Grid < a.Opt.Grid {
		r.Snap(a.Opt.Grid)
	}
	r.Early(a.Opt.Grid)
	r.Redeal()
	r.CleanHands(a.Opt.Grid)
	r.Lie(a.Opt.Grid)
}

// withRoom is a plan with room before its courses; nil where there is none that is as good
// but for that. In another order of work each hot dish may wait as long again.
func (a *Attempts) withRoom(than *answer.Result, room []int) *answer.Result {
	set := than.Set
	set.Habits.Room, set.Wash.Rounds = room, nil
	r := a.hotness(set)
	if set.Grid > 1 && (r == nil || r.Late() > than.Late()) {
		set.Grid = 1
		r = a.hotness(set)
	}
	if r == nil {
		return nil
	}
	spare := a.spare
	for i, c := range r.Draft.Courses {
		spare += 2 * room[i] * answer.AtTable * r.Draft.HotAt(c)
	}
	if !r.NearlyAsGood(than, spare) {
		return nil
	}
	set = r.Set // from here on it may slip: the room is no rule
	set.Habits.Room, r.Room = nil, room
	r.Set, r.Draft = set, washing.Translate(a.Meal, set, nil)
	a.Moves(r)
	if r.HandOvers() > than.HandOvers() || r.HowMuchAmiss() > than.HowMuchAmiss() {
		return nil
	}
	return r
}
