// Package attempt puts a meal to the engine: one way of planning it at a time
// (problem.Setup), as often as it takes to deal out the rounds of washing up, and again
// without some of it where hot food would wait for the sink (sink.go).
//
// Read Try in attempts.go first. Which ways are tried, and in what order, is for
// those above: package planner for a plan, package advice for a cure.
package attempt

import (
	"context"

	"tamis/compiler/demand"
	"tamis/compiler/plan"
	"tamis/compiler/timeline"
	"tamis/compiler/timeline/answer"
	"tamis/compiler/timeline/problem"
	"tamis/compiler/timeline/washing"
	"tamis/lang/diag"
)

// Attempts plans one meal in several ways until one is on time.
type Attempts struct {
	Ctx   context.Context
	Meal  *demand.Meal
	Opt   timeline.Options
	Diags *diag.List

	spent int  // steps of the engine, to find better plans than the first
	spare int  // weighted minutes that hot food may wait longer for the sake of good habits
	Said  bool // the findings of translating have been made
	Best  *answer.Result
	Last  *answer.Result // the last attempt: by the minute, and with the most leave

	Tried   []Tried
	WhyLate *plan.Conflict
	Failed  error // what the engine could not be asked
}

// Try plans with one setup. It returns nil when ctx is done or the problem
// cannot be put to the engine. What is in conflict when there is no plan is
// only looked for if it is asked why: that takes longer than to find that
// there is none.
func (a *Attempts) Try(set problem.Setup, why bool) *answer.Result {
	d := a.translate(set)
	if len(d.Jobs) == 0 {
		return nil
	}
	r := &answer.Result{Set: set, Draft: d}
	if d.Coarse { // a limit is shorter than the grid
		return r
	}
	budget := a.Budget(d, 1)
	budget.NoConflict = true
	out, err := solve(r, a.Ctx, a.Opt.Known, budget)
	if err == nil && out.Solution == nil && why {
		budget.NoConflict = false
		out, err = a.conflict(r, budget)
	}
	if err != nil {
		a.Failed = err
		return nil
	}
	r.Solution, r.Conflict = out.Solution, out.Conflict
	if r.Solution != nil && len(plan.Verify(&r.Draft.P, r.Solution)) > 0 {
		r.Solution = nil // an answer that breaks a rule is no answer
	}
	return r
}

// conflict finds what cannot all be kept: of the limits that are written, if they
// are enough, else of all.
func (a *Attempts) conflict(r *answer.Result, budget plan.Budget) (plan.Outcome, error) {
	apart := *r
	apart.Set.Apart = true
	apart.Draft = washing.Translate(a.Meal, apart.Set, nil)
	if out, err := solve(&apart, a.Ctx, a.Opt.Known, budget); err == nil && out.Solution == nil {
		*r = apart
		return out, nil
	}
	return solve(r, a.Ctx, a.Opt.Known, budget)
}

// DefaultSteps is the engine's budget for one attempt.
const DefaultSteps = 1000

const (
	// large is a meal, in activities of the engine, for which each of its steps takes so long
	// that there are fewer of them: what one costs grows with the meal, and so does how many
	// of the rules each has to look at.
	large = 120
	// fewest is how many steps there are for the largest.
	fewest = 60
)

// Budget is what the engine may spend on a draft, or on a part of that; no less than a
// plan takes.
func (a *Attempts) Budget(d *problem.Draft, part int) plan.Budget {
	steps, least := a.Opt.Steps/part, 200
	if len(d.P.Activities) > large {
		steps, least = fewer(steps, d), fewest
	}
	if part > 1 || steps < a.Opt.Steps {
		steps = max(least, steps)
	}
	return plan.Budget{Seed: a.Opt.Seed, Steps: steps}
}

// fewer is how many of some steps or tries there are for a draft.
func fewer(n int, d *problem.Draft) int {
	size := max(large, len(d.P.Activities))
	return max(1, n*large*large*large/(size*size*size))
}

// stubborn is how many times that is spent on a meal that has no plan yet and
// is not proven to have none, if it is not large.
const stubborn = 10

// Stubborn lets the engine spend more on what comes, for a meal that has no plan yet and is
// not proven to have none: of a large one only as much as a cook waits for.
func (a *Attempts) Stubborn() {
	a.Opt.Steps *= max(2, stubborn*large/max(large, len(a.Last.Draft.P.Activities)))
}

// Tried is a cure that was not enough, and what came of it.
type Tried struct{ Text, Came string }

// Trial plans with a setup and a part of the work that a plan may take; nil:
// there is no plan.
func (a *Attempts) Trial(set problem.Setup, part int) *answer.Result {
	t := &answer.Result{Set: set, Draft: washing.Translate(a.Meal, set, nil)}
	budget := a.Budget(t.Draft, part)
	budget.NoConflict = true
	out, err := solve(t, a.Ctx, a.Opt.Known, budget)
	if err != nil || out.Solution == nil || len(plan.Verify(&t.Draft.P, out.Solution)) > 0 {
		return nil
	}
	t.Solution = out.Solution
	return t
}

// mostRounds is how often rounds are dealt out anew before it is given up.
const mostRounds = 6

// solve puts a meal to the engine, as often as it takes to deal out the rounds
// of washing up. The result is then of the setup with the rounds, and has no
// solution yet.
func solve(r *answer.Result, ctx context.Context, known *plan.Memory, budget plan.Budget) (plan.Outcome, error) {
	for n := range mostRounds {
		b := budget
		if n == 0 && r.Draft.EveryLine() != nil && r.Set.Wash.Rounds == nil {
			b.Steps = max(100, b.Steps/10) // only to see when there is work
		}
		out, err := known.Solve(ctx, &r.Draft.P, b)
		if b.Steps < budget.Steps && err == nil && out.Solution == nil && (out.Conflict == nil || !out.Conflict.Proven) {
			out, err = known.Solve(ctx, &r.Draft.P, budget)
		}
		if err != nil || out.Solution == nil {
			return out, err
		}
		r.Solution = out.Solution
		rounds, ok := r.Rounds()
		k := r.Set.Keep
		if r.Solution = nil; ok || k != nil && k.Loose {
			return out, nil
		}
		r.Set.Wash.Rounds = rounds
		r.Draft = washing.Translate(r.Draft.Meal, r.Set, nil)
	}
	return plan.Outcome{}, nil
}
