package timeline

import (
	"context"
	"fmt"
	"slices"

	"tamis/compiler/plan"
	"tamis/compiler/resolve"
)

// Washing up `every 2 h` counts the work on the dishes, and when there is work
// is only known from a plan. So the meal is planned without these rounds, the
// stretches of work that are too long are given as many as they want, and it is
// planned again; the jobs of a stretch are then tied to its rounds.

// breakMinutes is how long nobody works on a dish before a stretch of work is
// over, in minutes: common practice, no source.
const breakMinutes = 60

// mostRounds is how often rounds are dealt out anew before it is given up.
const mostRounds = 6

// round is a stretch of work with its washing up.
type round struct {
	work  []workKey
	count int // how often it is washed up in it
	day   int // of its beginning
}

// workKey is a phase of a job in which hands are wanted.
type workKey struct {
	key   key
	phase int
}

// washRounds makes the jobs of the rounds: none of the work of a stretch is
// begun longer before its first or ended longer after its last than `every`
// says, nor do two lie further apart.
func (d *draft) washRounds(w *resolve.WashUp) {
	every, n := floorMinutes(w.Every), 0
	for _, r := range d.set.wash.rounds {
		var first, last *job
		set := d.washers(w.By, false)
		if by := d.hands(w.By); len(by) > 0 && (!d.clock || d.hasHours(w.By, r.day)) {
			set = by
		}
		for range r.count {
			j := d.washing(&wash{up: w, n: n}, fmt.Sprintf("Wash up, round %d", n+1), minutes(w.Time), set, nil)
			n++
			if j == nil {
				continue
			}
			if last != nil {
				d.link(last.end(), j.begin(), 0, every, washRound)
			} else {
				first = j
			}
			last = j
		}
		if first == nil {
			continue
		}
		for _, j := range slices.Clone(d.jobs) {
			for i, p := range j.parts {
				if j.wash == nil && slices.Contains(r.work, workKey{j.key(), i}) {
					d.link(moment{j, int(p.from)}, first.begin(), -day, every, washRound)
					d.link(last.end(), moment{j, int(p.to)}, -day, every, washRound)
				}
			}
		}
	}
}

// stretchOfWork is a time in which the dishes are worked on without a break.
type stretchOfWork struct {
	from, to Minute
	work     []workKey
}

// stretches are the stretches of work of a plan.
func (r *result) stretches() (out []stretchOfWork) {
	type piece struct {
		from, to Minute
		work     workKey
	}
	var all []piece
	for _, j := range r.draft.jobs {
		if j.wash != nil || j.mk == nil || !r.on(j) {
			continue
		}
		at := r.start(j)
		for i, p := range j.parts {
			if p.kind != resolve.Leave {
				all = append(all, piece{at + Minute(p.from), at + Minute(p.to), workKey{j.key(), i}})
			}
		}
	}
	slices.SortStableFunc(all, func(a, b piece) int { return a.from - b.from })
	for _, p := range all {
		if n := len(out); n > 0 && p.from < out[n-1].to+breakMinutes {
			out[n-1].to = max(out[n-1].to, p.to)
			out[n-1].work = append(out[n-1].work, p.work)
			continue
		}
		out = append(out, stretchOfWork{p.from, p.to, []workKey{p.work}})
	}
	return out
}

// everyLine is the line of washing up `every` so often that a plan keeps; nil
// when there is none, or it is left until after.
func (d *draft) everyLine() *resolve.WashUp {
	k := d.meal.Kitchen
	if k == nil || d.set.wash.none || d.set.wash.later || slices.Contains(d.set.wash.off, resolve.WashEvery) {
		return nil
	}
	for i := range k.WashUps {
		if k.WashUps[i].When == resolve.WashEvery {
			return &k.WashUps[i]
		}
	}
	return nil
}

// rounds deals out washing up to the stretches of work that are too long
// without. ok tells that the plan has all it wants already.
func (r *result) rounds() (out []round, ok bool) {
	w := r.draft.everyLine()
	if w == nil {
		return nil, true
	}
	every, length := floorMinutes(w.Every), minutes(w.Time)
	ok = true
	for _, s := range r.stretches() {
		if s.to-s.from <= every {
			continue
		}
		free, at, had := 0, s.from, 0
		for _, j := range r.draft.jobs {
			if j.wash == nil || j.wash.up != w || r.start(j)+j.length < s.from || r.start(j) > s.to {
				continue
			}
			had++
			free = max(free, r.start(j)-at)
			at = r.start(j) + length
		}
		free = max(free, s.to-at)
		count := ceilDiv(s.to-s.from, every) - 1
		if free > every {
			ok = false
			if had >= count {
				count = had + 1
			}
		} else {
			count = had
		}
		out = append(out, round{s.work, count, floorDiv(s.from, day)})
	}
	return out, ok
}

// solve puts a meal to the engine, as often as it takes to deal out the rounds
// of washing up. The result is then of the setup with the rounds, and has no
// solution yet.
func (r *result) solve(ctx context.Context, budget plan.Budget) (plan.Outcome, error) {
	for n := range mostRounds {
		b := budget
		if n == 0 && r.draft.everyLine() != nil && r.set.wash.rounds == nil {
			b.Steps = max(100, b.Steps/10) // only to see when there is work
		}
		out, err := plan.Solve(ctx, &r.draft.p, b)
		if b.Steps < budget.Steps && err == nil && out.Solution == nil && (out.Conflict == nil || !out.Conflict.Proven) {
			out, err = plan.Solve(ctx, &r.draft.p, budget)
		}
		if err != nil || out.Solution == nil {
			return out, err
		}
		r.solution = out.Solution
		rounds, ok := r.rounds()
		k := r.set.keep
		if r.solution = nil; ok || k != nil && k.loose {
			return out, nil
		}
		r.set.wash.rounds = rounds
		r.draft = translate(r.draft.meal, r.set, nil)
	}
	return plan.Outcome{}, nil
}

// unwashed tells whether the plan works for longer than it may without a round
// of washing up.
func (r *result) unwashed() bool {
	if k := r.set.keep; k != nil && k.loose {
		return false
	}
	_, ok := r.rounds()
	return !ok
}
