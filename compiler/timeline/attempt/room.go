package attempt

import (
	"slices"

	"tamis/compiler/timeline/answer"
	"tamis/compiler/timeline/problem"
	"tamis/compiler/timeline/washing"
)

// The engine has everything ready when it must be and no sooner, so that a plan is on time
// on paper and two minutes late at every other meal.

const (
	// wellOnTime is how many meals of a hundred are on time for nothing to be done about it.
	wellOnTime = 95
	// worthRoom is how many more of a hundred must be on time for food to wait meanwhile.
	worthRoom = 3
	// worthAmiss is how many more for each thing that is more amiss in it then.
	worthAmiss = 10
	// mostRoom is how many plans are made to find one with room, of a meal that is not large.
	mostRoom = 12
)

// LeaveRoom leaves a few minutes between the work and the table where the plan would often
// be late, if the menu gives hours for it: before the courses that are, else before all, else
// before each that has them; as little as will do. All that is written of waiting holds.
func (a *Attempts) LeaveRoom() {
	first := a.Best
	if first.Set.Keep != nil || !first.OnTime() || !first.Draft.Clock || len(a.Meal.Menu.Hours) == 0 {
		return
	}
	best := first.Chance(a.Opt.Seed)
	if best == nil || best.Hundredth(best.OnTime) >= wellOnTime {
		return
	}
	often, every := make([]int, len(best.Courses)), make([]int, len(best.Courses))
	for i, c := range best.Courses {
		if every[i] = 1; best.Hundredth(c.Late) > 100-wellOnTime {
			often[i] = 1
		}
	}
	a.spent = 0 // being on time comes before all that was tried so far
	tries := roomTries(first.Draft)
	try := func(room []int) bool {
		for _, set := range roomier(first) {
			if tries--; tries < 0 || a.Ctx.Err() != nil || best.Hundredth(best.OnTime) >= wellOnTime {
				return false
			}
			r := a.withRoom(first, set, room)
			if r == nil {
				continue
			}
			odds := r.Chance(a.Opt.Seed)
			if odds != nil && odds.Hundredth(odds.OnTime-best.OnTime) >= worthRoom+worthAmiss*max(0, r.HowMuchAmiss()-first.HowMuchAmiss()) {
				a.Best, best = r, odds
				return true
			}
		}
		return false
	}
	for _, n := range []int{5, 10} {
		try(times(often, n))
		if !slices.Equal(often, every) {
			try(times(every, n))
		}
	}
	if a.Best != first {
		return
	}
	some := make([]int, len(often))
	tries = roomTries(first.Draft)
	for i, o := range often {
		if one := slices.Clone(some); o > 0 {
			if one[i] = 5; try(one) {
				some = one
			}
		}
	}
}

// roomier are the setups in which there may be room: some of it behind the plating, where
// there is one, and by the minute, for less than a coarser clock has is room too.
func roomier(r *answer.Result) (out []problem.Setup) {
	plated := slices.ContainsFunc(r.Draft.Courses, func(c *problem.Job) bool { return r.Draft.Plating(c) != nil })
	for _, grid := range slices.Compact([]int{r.Set.Grid, 1}) {
		set := r.Set
		set.Wash.Rounds, set.Grid = nil, grid
		if plated {
			set.Habits.AtPass = true
			out = append(out, set)
			set.Habits.AtPass = false
		}
		out = append(out, set)
	}
	return out
}

// roomTries is how many plans are made to find one with room: few of a meal of many jobs.
func roomTries(d *problem.Draft) int {
	if len(d.Jobs) > mostNamed {
		return min(3, fewer(mostRoom, d))
	}
	return fewer(mostRoom, d)
}

func times(room []int, n int) (out []int) {
	for _, r := range room {
		out = append(out, n*r)
	}
	return out
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

// withRoom is a plan of a setup with room before its courses; nil where there is none that is as good
// but for that. In another order of work each hot dish may wait as long again.
func (a *Attempts) withRoom(than *answer.Result, set problem.Setup, room []int) *answer.Result {
	set.Habits.Room = room
	spare := a.spare
	for i, c := range than.Draft.Courses {
		spare += 2 * room[i] * answer.AtTable * than.Draft.HotAt(c)
	}
	good := func() *answer.Result {
		r := a.hotness(set)
		if r == nil || !r.NearlyAsGood(than, spare) {
			return nil
		}
		return r
	}
	anyone := set.Habits.Keepers
	if who, change := than.Keepers(); len(change) == 0 && anyone == nil { // each dish with whoever has it
		set.Habits.Keepers = who
	}
	r := good()
	if r == nil && anyone == nil {
		set.Habits.Keepers = nil
		r = good()
	}
	if r == nil {
		return nil
	}
	set = r.Set // from here on it may slip: the room is no rule
	set.Habits.Room, set.Habits.AtPass, r.Room = nil, false, room
	r.Set, r.Draft = set, washing.Translate(a.Meal, set, nil)
	a.Moves(r)
	return r
}
