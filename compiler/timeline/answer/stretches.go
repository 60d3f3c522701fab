package answer

import (
	"cmp"
	"slices"

	"tamis/compiler/resolve"
	"tamis/compiler/timeline"
	"tamis/compiler/timeline/problem"
)

// breakMinutes is how long nobody works on a dish before a stretch of work is
// over, in minutes: common practice, no source.
const breakMinutes = 60

// stretchOfWork is a time in which the dishes are worked on without a break.
type stretchOfWork struct {
	from, to timeline.Minute
	work     []problem.WorkKey
	longest  int // of its pieces, in minutes
}

// stretches are the stretches of work of a plan.
func (r *Result) stretches() (out []stretchOfWork) {
	type piece struct {
		from, to timeline.Minute
		work     problem.WorkKey
	}
	var all []piece
	for _, j := range r.Draft.Jobs {
		if j.Wash != nil || j.Mk == nil || !r.On(j) {
			continue
		}
		at := r.Start(j)
		for i, p := range j.Parts {
			if p.Kind != resolve.Leave {
				all = append(all, piece{at + timeline.Minute(p.From), at + timeline.Minute(p.To), problem.WorkKey{Key: j.Key(), Phase: i}})
			}
		}
	}
	slices.SortStableFunc(all, func(a, b piece) int { return a.from - b.from })
	for _, p := range all {
		if n := len(out); n > 0 && p.from < out[n-1].to+breakMinutes {
			out[n-1].to = max(out[n-1].to, p.to)
			out[n-1].work = append(out[n-1].work, p.work)
			out[n-1].longest = max(out[n-1].longest, p.to-p.from)
			continue
		}
		out = append(out, stretchOfWork{p.from, p.to, []problem.WorkKey{p.work}, p.to - p.from})
	}
	return out
}

// Rounds deals out washing up to the stretches of work that are too long
// without. ok tells that the plan has all it wants already.
func (r *Result) Rounds() (out []problem.Round, ok bool) {
	w := r.Draft.EveryLine()
	if w == nil {
		return nil, true
	}
	length := timeline.Minutes(w.Time)
	ok = true
	for _, s := range r.stretches() {
		every := max(problem.FloorMinutes(w.Every), s.longest) // nobody stops in the middle
		if s.to-s.from <= every {
			continue
		}
		free, at, had := 0, s.from, 0
		for _, j := range r.Draft.Jobs {
			if j.Wash == nil || j.Wash.Up != w || r.Start(j)+j.Length < s.from || r.Start(j) > s.to {
				continue
			}
			had++
			free = max(free, r.Start(j)-at)
			at = r.Start(j) + length
		}
		free = max(free, s.to-at)
		count := timeline.CeilDiv(s.to-s.from, every) - 1
		if free > every {
			ok = false
			if had >= count {
				count = had + 1
			}
		} else {
			count = had
		}
		out = append(out, problem.Round{Work: s.work, Count: count, Day: timeline.FloorDiv(s.from, timeline.Day), Every: every})
	}
	return out, ok
}

// Unwashed tells whether the plan works for longer than it may without a round
// of washing up.
func (r *Result) Unwashed() bool {
	if k := r.Set.Keep; k != nil && k.Loose {
		return false
	}
	_, ok := r.Rounds()
	return !ok
}

// SinkJobs are the jobs of washing up that a plan has, the last first; of the
// rounds one.
func (r *Result) SinkJobs() (out []*problem.Job) {
	for _, j := range r.Draft.Jobs {
		if j.Wash == nil || !r.On(j) || j.Wash.Up == nil {
			continue
		}
		every := j.Wash.Up.When == resolve.WashEvery
		if !every || !slices.ContainsFunc(out, func(o *problem.Job) bool { return o.Wash.Up == j.Wash.Up }) {
			out = append(out, j)
		}
	}
	slices.SortStableFunc(out, func(a, b *problem.Job) int { return cmp.Compare(r.Start(b), r.Start(a)) })
	return out
}
