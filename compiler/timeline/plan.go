package timeline

import (
	"context"

	"tamis/compiler/demand"
	"tamis/compiler/plan"
	"tamis/lang/diag"
	"tamis/lang/source"
)

// Options says how to plan. The zero value is a sensible default.
type Options struct {
	// Grid is the minutes of the clock on which jobs begin: 1, 5, 10 or 15; 0
	// means 5.
	Grid int
	// Steps limits the work of each attempt, in the engine's steps; 0 means
	// enough for a large family meal.
	Steps int
	// Seed is the engine's; the same seed gives the same plan.
	Seed uint64
}

// defaultSteps is the engine's budget for one attempt.
const defaultSteps = 1000

// stubborn is how many times that is spent on a meal that has no plan yet and
// is not proven to have none.
const stubborn = 10

// Plan plans a meal. It always returns a timeline unless there is nothing to
// plan, no plan was found or ctx is done; then it returns nil. What the cook
// must know is in diags: P1xx speak of what was written, P2xx of what cannot
// be kept.
func Plan(ctx context.Context, meal *demand.Meal, opt Options, diags *diag.List) *Timeline {
	if meal == nil || len(meal.Makings) == 0 {
		return nil
	}
	switch opt.Grid {
	case 1, 5, 10, 15:
	default:
		opt.Grid = 5
	}
	if opt.Steps <= 0 {
		opt.Steps = defaultSteps
	}
	a := &attempts{ctx: ctx, meal: meal, opt: opt, diags: diags}
	return a.run()
}

// attempts plans one meal in several ways until one is on time.
type attempts struct {
	ctx   context.Context
	meal  *demand.Meal
	opt   Options
	diags *diag.List

	said bool // the findings of translating have been made
	best *result
	last *result // the last attempt: by the minute, and with the most leave

	tried   []tried
	whyLate *plan.Conflict
	failed  error // what the engine could not be asked
}

// result is one attempt.
type result struct {
	set      setup
	draft    *draft
	solution *plan.Solution
	conflict *plan.Conflict
	diags    *diag.List

	planned map[*job]*Job // by job, once it is answered
}

// onTime tells whether the attempt serves everything when it should be.
func (r *result) onTime() bool { return r.solution != nil && r.solution.Score[plan.Lateness] == 0 }

// late is how many minutes late the attempt is in all.
func (r *result) late() int { return r.solution.Score[plan.Lateness] * r.draft.grid }

// better tells whether r should be kept rather than s.
func (r *result) better(s *result) bool {
	switch {
	case s == nil:
		return true
	case r.solution == nil:
		return false
	case s.solution == nil:
		return true
	}
	return r.late() < s.late()
}

// try plans with one setup. It returns nil when ctx is done or the problem
// cannot be put to the engine. What is in conflict when there is no plan is
// only looked for if it is asked why: that takes longer than to find that
// there is none.
func (a *attempts) try(set setup, why bool) *result {
	var diags *diag.List
	if !a.said {
		diags, a.said = a.diags, true
	}
	d := translate(a.meal, set, diags)
	if len(d.jobs) == 0 {
		return nil
	}
	r := &result{set: set, draft: d}
	if d.coarse { // a limit is shorter than the grid
		return r
	}
	out, err := r.solve(a.ctx, plan.Budget{Seed: a.opt.Seed, Steps: a.opt.Steps, NoConflict: !why})
	if err != nil {
		a.failed = err
		return nil
	}
	r.solution, r.conflict = out.Solution, out.Conflict
	if r.solution != nil && len(plan.Verify(&r.draft.p, r.solution)) > 0 {
		r.solution = nil // an answer that breaks a rule is no answer
	}
	return a.hotFirst(r)
}

// run goes through the setups, from what a cook would like best to what is
// merely possible.
func (a *attempts) run() *Timeline {
	sets := a.ladder()
	for i, set := range sets {
		r := a.try(set, i == len(sets)-1 && (a.best == nil || a.best.solution == nil))
		if r == nil {
			if a.ctx.Err() != nil {
				return nil
			}
			continue
		}
		a.last = r
		if r.better(a.best) {
			a.best = r
		}
		if a.best.onTime() {
			break
		}
	}
	if a.best == nil {
		if a.failed != nil && a.ctx.Err() == nil {
			a.diags.Errorf("P203", a.placeOf(), "%s cannot be planned: %v", a.meal.Title, a.failed).
				Because("a time or an amount in it is far out of the ordinary")
		}
		return nil
	}
	if a.best.solution == nil && (a.last.conflict == nil || !a.last.conflict.Proven) {
		a.opt.Steps *= stubborn
		if r := a.try(a.last.set, true); r != nil {
			a.best, a.last = r, r
		}
	}
	if a.best.solution == nil {
		a.explainConflict()
		return nil
	}
	if !a.best.onTime() {
		a.tryOnTime()
	}
	if a.best.draft.grid < a.opt.Grid {
		a.best.snap(a.opt.Grid)
	}
	if !a.best.onTime() {
		a.explainLate()
	}
	return a.best.answer(a.opt, a.diags)
}

// placeOf is where the meal is written.
func (a *attempts) placeOf() source.Span {
	if m := a.meal.Menu; m != nil && !m.NameAt.IsZero() {
		return m.NameAt
	}
	if r := a.meal.Makings[len(a.meal.Makings)-1].Recipe; !r.Span.IsZero() {
		return r.NameAt
	}
	return source.Span{}
}

// ladder lists the setups to try in turn.
func (a *attempts) ladder() []setup {
	first := setup{grid: a.opt.Grid}
	sets := []setup{first}
	add := func(change func(*setup)) {
		s := sets[len(sets)-1]
		change(&s)
		sets = append(sets, s)
	}
	pauses, ahead := false, false
	for _, m := range a.meal.Makings {
		pauses = pauses || len(m.Recipe.Pauses) > 0 && (m.Serving == nil || !m.Serving.Straight)
		ahead = ahead || m.Serving != nil && m.Serving.Ahead
	}
	fine := first
	fine.grid = 1
	if a.opt.Grid > 1 {
		sets = append(sets, fine)
	}
	// Each further one gives more leave than the one before.
	if pauses {
		add(func(s *setup) { s.grid = a.opt.Grid; s.free = true })
	}
	if ahead {
		add(func(s *setup) { s.grid = a.opt.Grid; s.free = true; s.sameDay = true })
	}
	if m := a.meal.Menu; m != nil && m.Serve != nil && len(m.Hours) == 0 {
		add(func(s *setup) { s.grid = a.opt.Grid; s.moreDays = 1; s.free = true })
	}
	if len(sets) > 2 && a.opt.Grid > 1 {
		add(func(s *setup) { s.grid = 1 })
	}
	return sets
}
