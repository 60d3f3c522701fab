package problem

import (
	"cmp"
	"slices"

	"tamis/compiler/timeline"
)

// A kitchen may serve several meals in a day, a breakfast and a lunch: each has its own
// rush, and between them the boards are out again.

const (
	// mealsApart is how long after a course the next is one of another meal, in minutes:
	// common practice, no source.
	mealsApart = 2 * 60
	// seated is how long after a course its table is cleared at the latest, in minutes, where
	// the next is one of another meal: common practice, no source.
	seated = 60
)

// Sitting is one meal of the day: its first course and its last.
type Sitting struct{ First, Last *Job }

// Sittings are the meals of the day, in order of time.
func (d *Draft) Sittings() (out []Sitting) {
	inTime := slices.Clone(d.Courses)
	slices.SortStableFunc(inTime, func(a, b *Job) int { return cmp.Compare(a.At, b.At) })
	for i, c := range inTime {
		if i == 0 || c.At-inTime[i-1].At >= mealsApart {
			out = append(out, Sitting{First: c})
		}
		out[len(out)-1].Last = c
	}
	return out
}

// SittingFor is the meal for which something is used at a time: the first that is not over.
func (d *Draft) SittingFor(use timeline.Minute) Sitting {
	all := d.Sittings()
	for _, s := range all {
		if use <= s.Last.At {
			return s
		}
	}
	return all[len(all)-1]
}
