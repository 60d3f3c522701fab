package answer

import (
	"cmp"
	"slices"

	"tamis/compiler/timeline"
	"tamis/compiler/timeline/problem"
)

// roomWords say before which courses something is left so that a slip is not late, as much
// as there is of it.
func (r *Result) roomWords() (out []string) {
	names := map[int][]string{}
	var all []int
	for i, c := range r.Draft.Courses {
		n := r.roomBefore(c)
		if i >= len(r.Room) || r.Room[i] == 0 || n < roomWorth {
			continue
		}
		if names[n] == nil {
			all = append(all, n)
		}
		names[n] = append(names[n], cmp.Or(c.Course, "serving"))
	}
	slices.Sort(all)
	for _, n := range all {
		out = append(out, timeline.SpanWords(n)+" to spare before "+timeline.Listed(names[n])+", so that a slip is not late.")
	}
	return out
}

// roomWorth is the least room that is spoken of, in minutes.
const roomWorth = 2

// roomBefore is how long what is done by hand for a course, or its plating, is over before
// it must be.
func (r *Result) roomBefore(course *problem.Job) int {
	to := course
	if p := r.Draft.Plating(course); p != nil {
		to = p
	}
	least := timeline.Day
	for _, l := range r.Draft.Links {
		if l.To.Job == to && l.From.Job.Kind != "" && r.Counts(l) {
			least = min(least, r.time(l.To)-r.time(l.From)-l.Gap)
		}
	}
	return least
}
