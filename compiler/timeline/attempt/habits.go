package attempt

import (
	"maps"
	"slices"

	"tamis/compiler/demand"
	"tamis/compiler/timeline"
	"tamis/compiler/timeline/problem"
	"tamis/compiler/timeline/washing"
)

// Habitual plans with one setup and all the habits of a good kitchen. The plan is the
// best there is when it is on time.
func (a *Attempts) Habitual(set problem.Setup) {
	d := a.translate(set)
	if d.Coarse {
		return
	}
	if set.Habits = d.Habits(); set.Habits.None() {
		return
	}
	if r := a.Try(set, false); r != nil && r.OnTime() {
		a.Best, a.Last = r, r
	}
}

// SomeHabits looks, where the best plan keeps none, for one that keeps some and is as
// much on time, with hot food waiting no longer: the days before that can end in time, and
// with them all, without the boards clear, with that alone.
func (a *Attempts) SomeHabits() {
	best := a.Best
	if best.Kept() || best.Set.Keep != nil {
		return
	}
	set := best.Set
	set.Habits = problem.Habits{}
	all := a.translate(set).Habits()
	try := func(h problem.Habits) bool {
		if h.None() || a.Ctx.Err() != nil {
			return false
		}
		set.Habits = h
		r := a.hotness(set)
		if r == nil || !r.AsGood(best) {
			return false
		}
		a.Best = r
		return true
	}
	ends := all.Ends
	if len(ends) > 1 { // one full day does not keep the others from ending in time
		ends = slices.DeleteFunc(slices.Clone(ends), func(end timeline.Minute) bool {
			return !try(problem.Habits{Ends: []timeline.Minute{end}})
		})
	}
	_ = try(problem.Habits{Cuts: all.Cuts, Early: all.Early, Ends: ends}) || try(problem.Habits{Cuts: all.Cuts, Early: all.Early}) ||
		try(problem.Habits{Cuts: all.Cuts, Ends: ends}) || try(problem.Habits{Early: all.Early, Ends: ends}) || try(problem.Habits{Ends: ends})
}

// mostAhead is how many plans are made to find what can be made the day before.
const mostAhead = 5

// UseDayBefore makes dishes the day before that may wait so long, though nobody wrote
// `ahead`, where hands are idle then: all of them, else one after the other. What has to be
// chilled and brought back for it waits only where the day of serving is full.
func (a *Attempts) UseDayBefore() {
	if a.Best.Set.Keep != nil || len(a.Best.Draft.MayBeAhead(false)) == 0 {
		return
	}
	may := a.Best.Draft.MayBeAhead(a.Best.OnTime() && !a.Best.Full())
	if len(may) == 0 {
		return
	}
	if a.ahead(may) || len(may) == 1 {
		return
	}
	for i, m := range may {
		if i == mostAhead || a.Ctx.Err() != nil {
			return
		}
		a.ahead(append(slices.Clone(a.Best.Set.Habits.Ahead), m))
	}
}

// ahead plans with dishes made the day before, and keeps what is as good and has less to
// do on the day.
func (a *Attempts) ahead(dishes []*demand.Making) bool {
	set := a.Best.Set
	set.Habits, set.Wash.Rounds = problem.Habits{Ahead: dishes}, nil // work is done at other times
	all := a.translate(set).Habits()
	for _, h := range []problem.Habits{all, set.Habits} {
		set.Habits = h
		if r := a.hotness(set); r != nil && r.NearlyAsGood(a.Best, a.spare) && (r.Late() < a.Best.Late() || r.OnTheDay() < a.Best.OnTheDay()) {
			a.Best = r
			return true
		}
	}
	return false
}

// tryKeepers is how many plans are made to find dishes that can stay with one cook: the
// larger the meal, the fewer.
func tryKeepers(jobs int) int { return min(16, max(1, 60000/(jobs*jobs))) }

// DishesStay looks for a plan in which fewer dishes change hands: each with whoever has
// it for longest, then only those that do, then one after the other with each cook.
func (a *Attempts) DishesStay() {
	cooks := a.Best.Draft.CookKeys()
	if a.Best.Set.Keep != nil || len(cooks) < 2 {
		return
	}
	a.Best.Redeal()
	who, change := a.Best.Keepers()
	tries := 0
	try := func(with map[*demand.Making]string) bool {
		if tries++; tries > tryKeepers(len(a.Best.Draft.Jobs)) || a.Ctx.Err() != nil {
			return false
		}
		if !a.stay(with, len(change)) {
			return false
		}
		who, change = a.Best.Keepers()
		return true
	}
	for was := len(change) + 1; len(change) > 0 && len(change) < was; {
		was = len(change)
		only := map[*demand.Making]string{}
		for _, m := range change {
			only[m] = who[m]
		}
		if try(who) || try(only) {
			continue
		}
		for _, m := range slices.Clone(change) {
			for _, c := range cooks {
				with := maps.Clone(a.Best.Set.Habits.Keepers)
				if with == nil {
					with = map[*demand.Making]string{}
				}
				if with[m] = c; slices.Contains(change, m) {
					try(with)
				}
			}
		}
	}
}

// mostBreaks is how often breaks are put into a plan before it is given up.
const mostBreaks = 3

// TakeBreaks puts a break into each stretch of work that is too long without, where that
// makes nothing worse.
func (a *Attempts) TakeBreaks() {
	for range mostBreaks {
		missing := a.Best.Unbroken()
		if len(missing) == 0 || a.Best.Set.Keep != nil || a.Ctx.Err() != nil {
			return
		}
		set := a.Best.Set
		set.Habits.Breaks = append(slices.Clone(set.Habits.Breaks), missing...)
		set.Habits.Keepers, _ = a.Best.Keepers() // or another has the long stretch
		r := a.hotness(set)
		if r == nil || !r.NearlyAsGood(a.Best, a.spare) {
			return
		}
		r.Redeal()
		_, was := a.Best.Keepers()
		if _, change := r.Keepers(); len(r.Unbroken()) >= len(missing) || len(change) > len(was) {
			return
		}
		a.Best = r
	}
}

// stay plans with a cook for each of some dishes, and keeps what is as good when fewer
// dishes change hands in it than some.
func (a *Attempts) stay(who map[*demand.Making]string, than int) bool {
	set := a.Best.Set
	set.Habits.Keepers = maps.Clone(who)
	r := a.hotness(set)
	if r == nil || !r.NearlyAsGood(a.Best, a.spare) {
		return false
	}
	r.Redeal()
	if _, change := r.Keepers(); len(change) >= than {
		return false
	}
	a.Best = r
	return true
}

// translate makes the problem of a setup, and the findings with the first.
func (a *Attempts) translate(set problem.Setup) *problem.Draft {
	diags := a.Diags
	if a.Said {
		diags = nil
	}
	a.Said = true
	return washing.Translate(a.Meal, set, diags)
}
