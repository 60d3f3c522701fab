package answer

import (
	"slices"

	"tamis/compiler/demand"
	"tamis/compiler/timeline"
	"tamis/compiler/timeline/problem"
)

const (
	// fullFrom is how long before the first serving it is looked at whether the day is
	// full, in minutes.
	fullFrom = 4 * 60
	// fullAbove is how much of the hands is then at work, in per cent. Common practice, no
	// source.
	fullAbove = 50
)

// Full tells whether the day of serving has its hands full: in the last hours before the
// first serving more than half of those that are there are at work.
func (r *Result) Full() bool {
	d := r.Draft
	first := r.Start(d.FirstCourse())
	there := 0
	for _, c := range d.Kit.Cooks {
		for _, w := range d.Windows(c.Key) {
			there += max(0, min(w.To, first)-max(w.From, first-fullFrom))
		}
	}
	return r.work(first-fullFrom, first)*100 > fullAbove*there
}

// OnTheDay is how many minutes of hands the plan has on the day of serving.
func (r *Result) OnTheDay() int { return r.work(0, timeline.MaxMinutes) }

// work is how many minutes of hands there are in a time.
func (r *Result) work(from, to timeline.Minute) (sum int) {
	d := r.Draft
	for _, e := range r.errands() {
		a, z := d.Origin+e.from*d.Grid, d.Origin+e.to*d.Grid
		sum += max(0, min(z, to)-max(a, from)) * e.amount / d.Grid
	}
	return sum
}

// MayStandOver lists the dishes that may stand over night as they are, and are worked on
// before that on the day of serving.
func (r *Result) MayStandOver() (out []*demand.Making) {
	for _, steps := range r.Draft.MayStandOver() {
		if slices.ContainsFunc(steps, func(j *problem.Job) bool { return r.On(j) && r.Start(j) >= 0 }) {
			out = append(out, steps[0].Mk.M)
		}
	}
	return out
}
