// Package planner plans a meal: Plan goes through the ways of planning it, from what
// a cook would like best to what is merely possible, and has it explained when none is
// on time. It is the only one of the packages below timeline that others need. What a plan
// is made for, and how that is put to the engine, is in ../BENCHMARKS.md.
package planner

import (
	"context"

	"tamis/compiler/demand"
	"tamis/compiler/figures"
	"tamis/compiler/plan"
	"tamis/compiler/timeline"
	"tamis/compiler/timeline/advice"
	"tamis/compiler/timeline/attempt"
	"tamis/compiler/timeline/problem"
	"tamis/lang/diag"
	"tamis/lang/source"
)

// Plan plans a meal. It always returns a timeline unless there is nothing to
// plan, no plan was found or ctx is done; then it returns nil. What the cook
// must know is in diags: P1xx speak of what was written, P2xx of what cannot
// be kept.
func Plan(ctx context.Context, meal *demand.Meal, opt timeline.Options, diags *diag.List) *timeline.Timeline {
	if meal == nil || len(meal.Makings) == 0 {
		return nil
	}
	switch opt.Grid {
	case 1, 5, 10, 15:
	default:
		opt.Grid = 5
	}
	if opt.Steps <= 0 {
		opt.Steps = attempt.DefaultSteps
	}
	if opt.Known == nil { // one meal puts some problems more than once
		opt.Known = &plan.Memory{}
	}
	a := &attempt.Attempts{Ctx: ctx, Meal: meal, Opt: opt, Diags: diags}
	return run(a)
}

// run goes through the setups, from what a cook would like best to what is
// merely possible.
func run(a *attempt.Attempts) *timeline.Timeline {
	sets := ladder(a)
	a.Habitual(sets[0])
	for i, set := range sets {
		if a.Best.Kept() {
			break
		}
		r := a.Try(set, i == len(sets)-1 && (a.Best == nil || a.Best.Solution == nil))
		if r == nil {
			if a.Ctx.Err() != nil {
				return nil
			}
			continue
		}
		a.Last = r
		if r.Better(a.Best) {
			a.Best = r
		}
		if a.Best.OnTime() {
			break
		}
	}
	if a.Best == nil {
		if a.Failed != nil && a.Ctx.Err() == nil {
			a.Diags.Errorf("P203", placeOf(a), "%s cannot be planned: a time in it, or all of them together, is longer than any meal takes", a.Meal.Title).
				Because("a time or an amount in it is far out of the ordinary").
				WithHelp("look for a slip in the minutes, hours and days of its steps, and in how many it is for")
		}
		return nil
	}
	if a.Best.Solution == nil && (a.Last.Conflict == nil || !a.Last.Conflict.Proven) {
		a.Stubborn()
		if r := a.Try(a.Last.Set, true); r != nil {
			a.Best, a.Last = r, r
		}
	}
	if a.Best.Solution == nil {
		advice.ExplainConflict(a)
		return nil
	}
	a.HotFirst()
	if !a.Best.OnTime() {
		advice.TryOnTime(a)
	}
	a.SomeHabits()
	a.UseDayBefore()
	a.DishesStay()
	a.TakeBreaks()
	a.Moves(a.Best)
	a.LeaveRoom()
	a.NameAmiss()
	if !a.Best.OnTime() {
		advice.ExplainLate(a)
	}
	return a.Best.Answer(a.Opt, a.Diags)
}

// placeOf is where the meal is written.
func placeOf(a *attempt.Attempts) source.Span {
	if m := a.Meal.Menu; m != nil && !m.NameAt.IsZero() {
		return m.NameAt
	}
	if r := a.Meal.Makings[len(a.Meal.Makings)-1].Recipe; !r.Span.IsZero() {
		return r.NameAt
	}
	return source.Span{}
}

// ladder lists the setups to try in turn.
func ladder(a *attempt.Attempts) []problem.Setup {
	first := problem.Setup{Grid: a.Opt.Grid, Figures: figures.Of(a.Meal, figures.Options{})}
	sets := []problem.Setup{first}
	add := func(change func(*problem.Setup)) {
		s := sets[len(sets)-1]
		change(&s)
		sets = append(sets, s)
	}
	pauses, ahead := false, false
	for _, m := range a.Meal.Makings {
		pauses = pauses || len(m.Recipe.Pauses) > 0 && (m.Serving == nil || !m.Serving.Straight)
		ahead = ahead || m.Serving != nil && m.Serving.Ahead
	}
	fine := first
	fine.Grid = 1
	if a.Opt.Grid > 1 {
		sets = append(sets, fine)
	}
	// Each further one gives more leave than the one before.
	if pauses {
		add(func(s *problem.Setup) { s.Grid = a.Opt.Grid; s.Free = true })
	}
	if ahead {
		add(func(s *problem.Setup) { s.Grid = a.Opt.Grid; s.Free = true; s.SameDay = true })
	}
	if m := a.Meal.Menu; m != nil && m.Serve != nil && len(m.Hours) == 0 {
		add(func(s *problem.Setup) { s.Grid = a.Opt.Grid; s.MoreDays = 1; s.Free = true })
	}
	if len(sets) > 2 && a.Opt.Grid > 1 {
		add(func(s *problem.Setup) { s.Grid = 1 })
	}
	// And where there are no hands for it, somebody leaves what they are at.
	add(func(s *problem.Setup) { s.Handless, s.Grid = true, a.Opt.Grid })
	if a.Opt.Grid > 1 {
		add(func(s *problem.Setup) { s.Grid = 1 })
	}
	return sets
}

// Replan plans a meal again from the moment at which a job of its plan should have
// ended, when it ends so many minutes later: see advice.Replan.
func Replan(ctx context.Context, t *timeline.Timeline, late *timeline.Job, by int) *timeline.Replanned {
	return advice.Replan(ctx, t, late, by)
}

// Slips are the likeliest slips of an evening with what to do then: see advice.Slips.
func Slips(ctx context.Context, t *timeline.Timeline, cures bool) []advice.Slip {
	return advice.Slips(ctx, t, cures)
}
