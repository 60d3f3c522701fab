package events

import "tamis/compiler/timeline"

// Odds is the chance of keeping a plan, since hands vary and times are ranges.
type Odds struct {
	Runs   int      // meals cooked
	OnTime int      // of them, those with no course a minute late
	Worst  Minutes  // the most by which a course was late in any
	Watch  []*Event // the jobs that cost most time, worst first
	Buffer Minutes  // how much earlier all would have to begin to be on time in 95 of 100; 0: it is
	// TooLong are the dishes that would then wait longer than is written, and, with Closed,
	// nobody is there so early.
	TooLong string
	Closed  bool
	// Courses are how often each course was late, of Runs, in their order.
	Courses []CourseOdds
}

// CourseOdds is how often a course was late.
type CourseOdds struct {
	Course string // its name; empty without one
	Late   int    // of Odds.Runs
}

// Spell is a time from one moment to another.
type Spell struct{ From, To Moment }

// Rest is a plan made again after a job has taken longer.
type Rest struct {
	List  *List             // the whole meal: what was begun as it was, the rest from Now on; nil when there is no plan
	Now   Moment            // when the late job should have ended
	Job   *Event            // the late job, as it is now
	By    Minutes           // how much later it ends
	Was   map[*Event]Moment // when the jobs that have moved began before
	Over  []string          // what waits longer than it may
	Why   string            // what makes the meal late, or leaves no plan
	Cures []string          // what would bring it back, each tried
	Tried []string          // what would not, with what came of it
}

// JobOf is the event of a job of the plan; nil when it is another's.
func (l *List) JobOf(j *timeline.Job) *Event { return l.byJob[j] }

// RestOf is the rest of a plan as events. The list is the plan's before the
// delay.
func (l *List) RestOf(r *timeline.Replanned) *Rest {
	out := &Rest{
		Now: Moment(r.Now), Job: l.JobOf(r.Job), By: Minutes(r.By), Was: map[*Event]Moment{},
		Over: r.Over, Why: r.Why, Cures: r.Cures, Tried: r.Tried,
	}
	if r.Timeline == nil {
		return out
	}
	out.List = Of(r.Timeline)
	out.Job = out.List.JobOf(r.Job)
	for _, m := range r.Moved {
		out.Was[out.List.JobOf(m.Job)] = Moment(m.Was)
	}
	return out
}

// reasons adds what a cook may ask of a plan: what a job waited for, what keeps
// it, the chain, the chances, the hours.
func (l *List) reasons(t *timeline.Timeline) {
	all := func(jobs []*timeline.Job) (out []*Event) {
		for _, j := range jobs {
			out = append(out, l.byJob[j])
		}
		return out
	}
	for _, j := range t.Jobs {
		e := l.byJob[j]
		e.Asked, e.Slack, e.After, e.Holds = j.Asked, Minutes(j.Slack), all(j.After), j.Holds
	}
	l.Critical = all(t.Chain)
	if o := t.Odds; o != nil {
		l.Odds = &Odds{Runs: o.Runs, OnTime: o.OnTime, Worst: Minutes(o.Worst), Watch: all(o.Watch), Buffer: Minutes(o.Buffer), TooLong: timeline.Listed(o.TooLong), Closed: o.Closed}
		for _, c := range o.Courses {
			l.Odds.Courses = append(l.Odds.Courses, CourseOdds(c))
		}
	}
	l.busy = spellsOf(t.Busy())
	if t.Hours != nil {
		l.Hours = spellsOf(t.Hours)
	}
}

func spellsOf(by map[string][]timeline.Spell) map[string][]Spell {
	out := map[string][]Spell{}
	for cook, spells := range by {
		for _, s := range spells {
			out[cook] = append(out[cook], Spell{Moment(s.From), Moment(s.To)})
		}
	}
	return out
}
