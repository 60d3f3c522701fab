package attempt

import (
	"tamis/compiler/plan"
	"tamis/compiler/timeline/answer"
	"tamis/compiler/timeline/problem"
	"tamis/compiler/timeline/washing"
)

// What gives way to what: being on time comes first, then hot food that does
// not wait, and only then the sink.

// mostLeft is how many plans are made to find the washing up that hot food
// waits for, of a meal that is not large.
const mostLeft = 8

// HotFirst is hotFirst of the best plan.
func (a *Attempts) HotFirst() { a.Best = a.hotFirst(a.Best) }

// hotFirst leaves washing up until after serving where hot food would wait for
// it: as little of it as will do. A meal for which nothing hot waits, or waits
// as long without any washing up, stays as it is.
func (a *Attempts) hotFirst(r *answer.Result) *answer.Result {
	if r.Solution == nil || r.Set.Keep != nil || r.Solution.Score[plan.Waiting] == 0 {
		return r
	}
	jobs := r.SinkJobs()
	if len(jobs) == 0 {
		return r
	}
	without := r.Set
	without.Wash = problem.WashSet{None: true}
	best := a.hotness(without)
	if best == nil || !colder(r, best) {
		return r
	}
	left, tries, most := r.Set, 0, fewer(mostLeft, r.Draft)
	for len(jobs) > 0 && tries < most {
		for _, j := range jobs {
			if tries++; tries > most {
				break
			}
			set := left
			set.Wash = set.Wash.Without(j.Wash)
			if n := a.hotness(set); n != nil && !colder(n, best) {
				return n
			}
		}
		left.Wash = left.Wash.Without(jobs[0].Wash)
		jobs = jobs[1:]
	}
	return best
}

// purse is how many times the budget of one plan all those may take together that are to
// be better than the first, of a meal of many jobs.
const purse = 3

// hotness is a plan with a setup; nil when there is none.
func (a *Attempts) hotness(set problem.Setup) *answer.Result {
	return a.planned(set, plan.Budget{})
}

// noBetter is hotness for the best plan's setup with another rule, which makes no
// plan better: one as good as the best ends the search.
func (a *Attempts) noBetter(set problem.Setup) *answer.Result {
	return a.planned(set, plan.Budget{Enough: &a.Best.Solution.Score})
}

// asTimed is a plan with the best plan's setup and another rule, in which all is done at the
// best plan's times; nil where there is none. What is known of how good any plan can be holds
// for it too.
func (a *Attempts) asTimed(set problem.Setup) *answer.Result {
	r := a.planned(set, plan.Budget{Starts: a.Best.Starts()})
	if r != nil && len(r.Solution.Tasks) == len(a.Best.Solution.Tasks) {
		r.Solution.Bound, r.Solution.Bounds = a.Best.Solution.Bound, a.Best.Solution.Bounds
	}
	return r
}

// planned is a plan with a setup, and with what is asked of it beside; nil when there is none.
func (a *Attempts) planned(set problem.Setup, asked plan.Budget) *answer.Result {
	r := &answer.Result{Set: set, Draft: washing.Translate(a.Meal, set, nil)}
	if len(r.Draft.Jobs) > mostNamed && a.spent >= fewer(purse*a.Opt.Steps, r.Draft) {
		return nil
	}
	budget := a.Budget(r.Draft, 1)
	budget.NoConflict, budget.Enough, budget.Starts = true, asked.Enough, asked.Starts
	if asked.Starts != nil && len(asked.Starts) != len(r.Draft.P.Activities) {
		return nil
	}
	out, err := solve(r, a.Ctx, a.Opt.Known, budget)
	a.spent += out.Steps
	if err != nil || out.Solution == nil || len(plan.Verify(&r.Draft.P, out.Solution)) > 0 {
		return nil
	}
	r.Solution = out.Solution
	return r
}

// colder tells whether hot food waits longer in a plan than in another that is
// as much on time.
func colder(r, than *answer.Result) bool {
	a, b := r.Solution.Score, than.Solution.Score
	return a[plan.Lateness] == b[plan.Lateness] && a[plan.Waiting] > b[plan.Waiting]
}
