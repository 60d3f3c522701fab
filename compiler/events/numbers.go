package events

import (
	"tamis/compiler/demand"
	"tamis/compiler/resolve"
)

// Number is the number of a step as it is printed; 0 for one that falls away.
// The plan gives it; without one every step counts. l may be nil.
func (l *List) Number(m *demand.Making, s *resolve.Step) int {
	if jobs := l.Jobs(m, s); len(jobs) > 0 {
		return jobs[0].Number
	}
	n := 0
	for _, sr := range m.Reading.Steps {
		if l.Skips(m, sr.Step) {
			continue
		}
		n++
		if sr.Step == s {
			return n
		}
	}
	return 0
}

// Skips tells whether the plan leaves a step out: an `only after a pause` step of a dish
// that is made straight through, or the reverse. l may be nil.
func (l *List) Skips(m *demand.Making, s *resolve.Step) bool {
	for _, c := range s.If {
		if !c.Paused || c.Pause == 0 {
			continue
		}
		if taken, known := l.Paused(m, m.Recipe.Pauses[c.Pause-1]); known && taken == c.Unless {
			return true
		}
	}
	return false
}

// Paused tells what the plan did at a pause: taken or not, or not known. l may
// be nil.
func (l *List) Paused(m *demand.Making, p *resolve.Pause) (taken, known bool) {
	if l == nil || l.taken == nil {
		return false, false
	}
	return l.taken[p][m], true
}

// Jobs are the jobs of a step in order of time: one, or one for each load. l may
// be nil.
func (l *List) Jobs(m *demand.Making, s *resolve.Step) []*Event {
	if l == nil {
		return nil
	}
	return l.jobs[stepKey{m, s}]
}

// First is the job of a step, of several loads the first; nil when there is
// none. l may be nil.
func (l *List) First(m *demand.Making, s *resolve.Step) *Event {
	if jobs := l.Jobs(m, s); len(jobs) > 0 {
		return jobs[0]
	}
	return nil
}

// Each is the events of one kind, in order of time. l may be nil.
func (l *List) Each(kind Kind) (out []*Event) {
	if l == nil {
		return nil
	}
	for _, e := range l.Events {
		if e.Kind == kind {
			out = append(out, e)
		}
	}
	return out
}

// JobsOf are the jobs of a dish, its preparation included, in order of time. l
// may be nil.
func (l *List) JobsOf(m *demand.Making) (out []*Event) {
	for _, e := range l.Each(Job) {
		if e.Dish == m {
			out = append(out, e)
		}
	}
	return out
}

// Touches are the moments at which a job wants a hand, in order of time.
func (l *List) Touches(job *Event) (out []*Event) {
	for _, e := range l.Each(Touch) {
		if e.Of == job {
			out = append(out, e)
		}
	}
	return out
}
