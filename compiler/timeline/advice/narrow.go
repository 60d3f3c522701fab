package advice

import (
	"slices"

	"tamis/compiler/demand"
	"tamis/compiler/plan"
	"tamis/compiler/timeline/answer"
	"tamis/compiler/timeline/attempt"
	"tamis/compiler/timeline/problem"
)

// Of a large meal that has no plan the engine often cannot tell why. What a part of it cannot
// do the whole cannot either, and of a part it can tell.

const (
	// mostBlamed is how many dishes are blamed at once, before it is looked whether fewer will do.
	mostBlamed = 6
	// partSteps is what the engine may spend on a part.
	partSteps = 300
)

// narrow looks for dishes of one course that cannot be done in time together, whatever else
// there is: of all of them, of those in an oven, of those that want hands to the last. It is
// nil where none is proven. The attempts are those of that part of the meal.
func narrow(a *attempt.Attempts, r *answer.Result) (of *attempt.Attempts, best *answer.Result) {
	if r.Set.Keep != nil {
		return nil, nil
	}
	least := len(dishesOf(r))
	for _, course := range r.Draft.Courses {
		for _, among := range []func(*problem.Making) bool{inOvens, toTheLast, anyDish} {
			var part []*demand.Making
			for _, mk := range r.Draft.Makings {
				if mk.Course == course && mk.M.Serving != nil && among(mk) {
					part = append(part, mk.M)
				}
			}
			if len(part) < 2 || a.Ctx.Err() != nil {
				continue
			}
			sub, n := proven(a, r.Set, part)
			if n == nil {
				continue
			}
			if size := len(dishesOf(n)); size > 0 && size < least {
				of, best, least = sub, n, size
			}
			break
		}
		if least <= mostBlamed {
			break
		}
	}
	return of, best
}

// proven is the result of planning some dishes alone, where it is proven that they have no plan.
func proven(a *attempt.Attempts, set problem.Setup, part []*demand.Making) (*attempt.Attempts, *answer.Result) {
	meal := *a.Meal
	meal.Makings = withSources(a.Meal.Makings, part)
	set.Wash, set.Habits = problem.WashSet{None: true}, problem.Habits{}
	sub := &attempt.Attempts{Ctx: a.Ctx, Meal: &meal, Opt: a.Opt, Said: true}
	sub.Opt.Steps = partSteps
	n := sub.Try(set, true)
	if n == nil || n.Solution != nil || n.Conflict == nil || !n.Conflict.Proven {
		return nil, nil
	}
	return sub, n
}

// withSources are those of some makings that others are, with all they draw on, in their order.
func withSources(all, part []*demand.Making) (out []*demand.Making) {
	want := map[*demand.Making]bool{}
	var add func(m *demand.Making)
	add = func(m *demand.Making) {
		if m == nil || want[m] {
			return
		}
		want[m] = true
		for _, l := range m.Lines {
			add(l.Source)
		}
	}
	for _, m := range part {
		add(m)
	}
	for _, m := range all {
		if want[m] {
			out = append(out, m)
		}
	}
	return out
}

func anyDish(*problem.Making) bool { return true }

func inOvens(mk *problem.Making) bool {
	return slices.ContainsFunc(mk.Steps, func(j *problem.Job) bool { return len(j.Step.Step.Heats) > 0 })
}

// toTheLast tells whether a dish is served hot and worked on at the last.
func toTheLast(mk *problem.Making) bool {
	return len(mk.Steps) > 0 && mk.ServedHot() && mk.Steps[len(mk.Steps)-1].ByHand()
}

// dishesOf are the dishes that a conflict blames; all that there are where it blames nothing.
func dishesOf(r *answer.Result) (out []*problem.Making) {
	c := r.Conflict
	if c == nil {
		c = &plan.Conflict{}
	}
	for _, j := range clashOf(r.Draft, c).jobs {
		if j.Mk != nil && !slices.Contains(out, j.Mk) {
			out = append(out, j.Mk)
		}
	}
	return out
}
