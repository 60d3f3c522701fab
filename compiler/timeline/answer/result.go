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
	diags    *diag.List

	Opt     timeline.Options               // it was answered with
	planned map[*problem.Job]*timeline.Job // by job, once it is answered
	begins  int                            // when work was first begun before some of it was moved to be early; 0: none was
}

// OnTime tells whether the attempt serves everything when it should be.
func (r *Result) OnTime() bool { return r.Solution != nil && r.Solution.Score[plan.Lateness] == 0 }

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
