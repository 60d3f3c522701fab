package answer

import (
	"tamis/compiler/plan"
	"tamis/compiler/timeline"
	"tamis/compiler/timeline/problem"
	"tamis/lang/diag"
)

// clockText is a time of day in a message; other days are named.
func (r *Result) clockText(m timeline.Minute) string { return r.Draft.ClockText(m) }

// Result is one attempt.
type Result struct {
	Set      problem.Setup
	Draft    *problem.Draft
	Solution *plan.Solution
	Conflict *plan.Conflict
	Named    []string // what is amiss in it, with what would mend it
	Room     []int    // minutes for which what goes to each course is ready before it must be, so that a slip is not late; nil: none
	diags    *diag.List

	Opt     timeline.Options               // it was answered with
	planned map[*problem.Job]*timeline.Job // by job, once it is answered
	cooked  *cooked                        // what came of it by chance; nil: not asked yet
	begins  int                            // when work was first begun before some of it was moved to be early; 0: none was
}

// OnTime tells whether the attempt serves everything when it should be.
func (r *Result) OnTime() bool { return r.Solution != nil && r.Solution.Score[plan.Lateness] == 0 }

// Kept tells whether a plan is on time and keeps what habits there are.
func (r *Result) Kept() bool { return r != nil && r.OnTime() && !r.Set.Habits.None() }

// AsGood tells whether a plan is no later than another, and keeps hot food waiting no
// longer.
func (r *Result) AsGood(o *Result) bool {
	return r.Late() <= o.Late() && r.Solution.Score[plan.Waiting]*r.Draft.Grid <= o.Solution.Score[plan.Waiting]*o.Draft.Grid
}

// ALittle is how much longer, in weighted minutes, hot food may wait for the sake of a
// dish that stays with its cook once more: five minutes of one dish at the table.
const ALittle = 5 * AtTable

// AtTable is what a minute of waiting for the table counts.
const AtTable = 4

// NearlyAsGood tells whether a plan is no later than another, and keeps hot food waiting
// hardly longer, or by so many weighted minutes more.
func (r *Result) NearlyAsGood(o *Result, spare int) bool {
	return r.Late() <= o.Late() && r.Solution.Score[plan.Waiting]*r.Draft.Grid <= o.Solution.Score[plan.Waiting]*o.Draft.Grid+ALittle+spare
}

// Late is how many minutes late the attempt is in all.
func (r *Result) Late() int { return r.Solution.Score[plan.Lateness] * r.Draft.Grid }

// Better tells whether r should be kept rather than s.
func (r *Result) Better(s *Result) bool {
	switch {
	case s == nil:
		return true
	case r.Solution == nil:
		return false
	case s.Solution == nil:
		return true
	}
	return r.Late() < s.Late()
}

// LatestCourse is by how many minutes the course is late that is latest.
func (r *Result) LatestCourse() (most int) {
	for _, c := range r.Draft.Courses {
		most = max(most, r.Start(c)-c.At)
	}
	return most
}

// ResultOf is what a plan was made of.
func ResultOf(t *timeline.Timeline) *Result { return t.Origin.(*Result) }
