package timeline

import "slices"

// OnTime tells whether there is a plan for the rest and every course still to
// come is on time in it.
func (r *Replanned) OnTime() bool {
	return r.Timeline != nil && !slices.ContainsFunc(r.Servings, func(s *Serving) bool { return s.Served >= r.Now && s.Served > s.At })
}

// Replanned is the rest of a plan, made again after a step has taken longer.
type Replanned struct {
	*Timeline          // the whole meal: what was begun as it was, the rest from Now on; nil when there is no plan
	Now       Minute   // when the late job should have ended
	Job       *Job     // the late job, as it is now
	By        int      // minutes it ends later
	Moved     []Move   // in order of time
	Over      []string // what waits longer than it may
	Why       string   // what makes the meal late, or leaves no plan
	Cures     []string // what would bring it back, each tried
	Tried     []string // what would not, with what came of it
}

// Move is a job that begins at another time than it did.
type Move struct {
	Job *Job
	Was Minute
}
