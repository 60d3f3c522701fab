package attempt

import (
	"maps"
	"slices"

	"tamis/compiler/demand"
	"tamis/compiler/timeline"
	"tamis/compiler/timeline/answer"
	"tamis/compiler/timeline/problem"
	"tamis/compiler/timeline/washing"
)

// Habitual plans with one setup and all the habits of a good kitchen, else without those of
// what is cut fresh. The plan is the best there is when it is on time.
func (a *Attempts) Habitual(set problem.Setup) {
	d := a.translate(set)
	if d.Coarse {
		return
	}
	for _, h := range lessFresh(d, d.Habits()) {
		set.Habits = h
		if a.onTimeWith(set) {
			return
		}
	}
}

// lessFresh are habits, then those without one cut for several dishes of what is cut fresh,
// then those without any of what is cut fresh.
func lessFresh(d *problem.Draft, h problem.Habits) []problem.Habits {
	out := []problem.Habits{h}
	if !h.Fresh {
		return out
	}
	all := len(h.Cuts)
	if h.Cuts = d.LastingCuts(h.Cuts); len(h.Cuts) < all {
		out = append(out, h)
	}
	h.Fresh = false
	return append(out, h)
}

// onTimeWith plans with the habits of a setup, and keeps the plan when it is on time.
func (a *Attempts) onTimeWith(set problem.Setup) bool {
	if set.Habits.None() {
		return false
	}
	r := a.Try(set, false)
	if r == nil || !r.OnTime() {
		return false
	}
	a.Best, a.Last = r, r
	return true
}

// mostSome is how many plans are made to find one that keeps some habits, of a meal that is
// not large.
const mostSome = 12

// SomeHabits looks, where the best plan keeps none, for one that keeps some and is as
// much on time, with hot food waiting no longer: the days before that can end in time, and
// with them all, without the boards clear, with that alone. For what is cut fresh it may
// wait a little longer.
func (a *Attempts) SomeHabits() {
	best := a.Best
	if best.Kept() || best.Set.Keep != nil {
		return
	}
	set := best.Set
	set.Habits = problem.Habits{}
	d := a.translate(set)
	all := d.Habits()
	tries := max(2, fewer(mostSome, d))
	try := func(h problem.Habits) bool {
		if h.None() || tries == 0 || a.Ctx.Err() != nil {
			return false
		}
		tries--
		set.Habits = h
		r := a.hotness(set)
		if r == nil || !r.AsGood(best) && !(h.Fresh && r.NearlyAsGood(best, a.spare)) {
			return false
		}
		a.Best = r
		return true
	}
	if len(all.Ends) > 1 { // one full day does not keep the others from ending in time
		all.Ends = slices.DeleteFunc(all.Ends, func(end timeline.Minute) bool {
			return !try(problem.Habits{Ends: []timeline.Minute{end}})
		})
	}
	for _, h := range lessFresh(d, all) {
		if try(h) {
			return
		}
		all = h
	}
	_ = try(problem.Habits{Cuts: all.Cuts, Early: all.Early}) || try(problem.Habits{Cuts: all.Cuts, Ends: all.Ends}) ||
		try(problem.Habits{Early: all.Early, Ends: all.Ends}) || try(problem.Habits{Ends: all.Ends})
}

// mostAhead is how many plans are made to find what can be made the day before, of a meal
// that is not large.
const mostAhead = 5

// UseDayBefore makes dishes the day before that may wait so long, though nobody wrote
// `ahead`, where hands are idle then: all of them, else one after the other. What has to be
// chilled and brought back for it waits only where the day of serving is full.
func (a *Attempts) UseDayBefore() {
	if a.Best.Set.Keep != nil {
		return
	}
	var may []*demand.Making
	if a.Best.OnTime() {
		may = a.Best.MayStandOver()
	}
	if len(a.Best.Draft.MayBeAhead(false)) > 0 {
		may = append(a.Best.Draft.MayBeAhead(a.Best.OnTime() && !a.Best.Full()), may...)
	}
	if len(may) == 0 {
		return
	}
	if a.ahead(may) || len(may) == 1 {
		return
	}
	for i, m := range may {
		if i == fewer(mostAhead, a.Best.Draft) || a.Ctx.Err() != nil {
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
	none := set.Habits
	set.Habits = a.translate(set).Habits()
	r := a.hotness(set)
	if r == nil || r.Late() > a.Best.Late() { // the habits stand in the way
		set.Habits = none
		r = a.hotness(set)
	}
	if r == nil || !r.NearlyAsGood(a.Best, a.spare) {
		return false
	}
	if r.Late() < a.Best.Late() || r.OnTheDay() < a.Best.OnTheDay() && len(r.Amiss()) <= len(a.Best.Amiss()) {
		a.Best = r
		return true
	}
	return false
}

// tryKeepers is how many plans are made to find dishes that can stay with one cook: the
// larger the meal, the fewer.
func tryKeepers(jobs int) int { return min(16, max(1, 60000/(jobs*jobs))) }

// DishesStay looks for a plan in which fewer dishes change hands: at the best plan's times,
// which is soon tried, if none does then, else at any.
func (a *Attempts) DishesStay() {
	if a.Best.Set.Keep != nil || len(a.Best.Draft.CookKeys()) < 2 {
		return
	}
	a.Best.Redeal()
	best := a.Best
	a.stayEach(a.asTimed)
	if _, change := a.Best.Keepers(); len(change) > 0 {
		a.Best = best
		a.stayEach(a.noBetter)
	}
}

// stayEach gives dishes to cooks in one way of planning: each with whoever has it for
// longest, then only those that change hands, then one after the other with each cook.
func (a *Attempts) stayEach(plan func(problem.Setup) *answer.Result) {
	cooks := a.Best.Draft.CookKeys()
	who, change := a.Best.Keepers()
	tries := 0
	try := func(with map[*demand.Making]string) bool {
		if tries++; tries > tryKeepers(len(a.Best.Draft.Jobs)) || a.Ctx.Err() != nil {
			return false
		}
		if !a.stay(with, len(change), plan) {
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

// TakeBreaks puts breaks into each stretch of work that is too long without, where that
// makes nothing worse: as few as will do, else one more in each.
func (a *Attempts) TakeBreaks() {
	for n := 0; n < mostBreaks && a.Best.Set.Keep == nil && (a.takeBreaks(0) || a.takeBreaks(1)); n++ {
	}
}

// takeBreaks tells whether the plan is better for its breaks.
func (a *Attempts) takeBreaks(more int) bool {
	missing := a.Best.Unbroken(more)
	if len(missing) == 0 || a.Ctx.Err() != nil {
		return false
	}
	set := a.Best.Set
	set.Habits.Breaks = append(slices.Clone(set.Habits.Breaks), missing...)
	set.Habits.Keepers, _ = a.Best.Keepers() // or another has the long stretch
	r := a.hotness(set)
	if r == nil || !r.NearlyAsGood(a.Best, a.spare) {
		return false
	}
	r.Redeal()
	_, was := a.Best.Keepers()
	if _, change := r.Keepers(); len(r.Unbroken(0)) >= len(a.Best.Unbroken(0)) || len(change) > len(was) {
		return false
	}
	a.Best = r
	return true
}

// stay plans with a cook for each of some dishes, and keeps what is nearly as good when fewer
// dishes change hands in it than some: a little more waiting for each time that one no
// longer does.
func (a *Attempts) stay(who map[*demand.Making]string, than int, plan func(problem.Setup) *answer.Result) bool {
	set := a.Best.Set
	set.Habits.Keepers = maps.Clone(who)
	r := plan(set)
	if r == nil {
		return false
	}
	r.Redeal()
	if _, change := r.Keepers(); len(change) >= than {
		return false
	}
	if !r.NearlyAsGood(a.Best, a.spare+answer.ALittle*max(0, a.Best.HandOvers()-r.HandOvers()-1)) {
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
