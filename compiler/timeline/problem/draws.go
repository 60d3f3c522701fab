package problem

import (
	"slices"

	"tamis/compiler/demand"
	"tamis/compiler/resolve"
	"tamis/compiler/timeline"
)

// draws links what takes from gather lines to what has to be there first: the
// preparation of the line, and the base, dish or by-product it is drawn from.
func (d *Draft) draws(mk *Making) {
	for _, a := range mk.M.Lines {
		takers := mk.takers(a.Line)
		prep := mk.Prep[a.Line]
		if prep != nil {
			d.beforeUse(mk, prep, takers)
		}
		src := d.byMake[a.Source]
		if src == nil || src == mk {
			continue
		}
		if prep != nil {
			takers = append([]*Job{prep}, takers...)
		}
		if len(takers) == 0 { // nobody names it: it is there when the dish is served
			takers = []*Job{mk.Course}
		}
		for _, t := range takers {
			d.drawsFrom(src, a, t)
		}
	}
}

// takers are the jobs of the steps that take from a line, in order.
func (mk *Making) takers(line *resolve.Line) (out []*Job) {
	for _, j := range mk.Steps {
		for _, t := range j.Step.Takes {
			if t.Line == line && !t.Refers {
				out = append(out, j)
				break
			}
		}
	}
	return out
}

// beforeUse links a preparation to the first step that takes the line, within
// the time prepared things may wait: as long as the line keeps, where it says so.
func (d *Draft) beforeUse(mk *Making, prep *Job, takers []*Job) {
	most := d.KeepsFor(prep)
	if prep.Fresh() && (d.Set.Habits.Fresh || d.Set.Habits.cutOnce(prep.Key())) {
		most = min(most, FreshKeeps)
	}
	most += prep.Extra
	if prep.Open {
		most = -1
	}
	to := mk.Course
	if len(takers) > 0 {
		to = takers[0]
		if t := to.Step.Step.Within; t != nil && most >= 0 && len(mk.plainBefore(mk.indexOf(to))) == 0 {
			most = min(most, timeline.Minutes(*t)+prep.Extra)
		}
	}
	prep.follow = true
	d.Link(prep.End(), to.Begin(), 0, most, prepared)
	for _, t := range takers { // the first may be absent
		if t != to {
			d.Link(prep.End(), t.Begin(), 0, -1, prepared)
		}
		if len(t.When) == 0 {
			break
		}
	}
}

func (mk *Making) indexOf(j *Job) int {
	for i, s := range mk.Steps {
		if s == j {
			return i
		}
	}
	return 0
}

// drawsFrom links a job to the making its line is drawn from: to the end of
// everything done for a base, to the maker of a by-product.
func (d *Draft) drawsFrom(src *Making, a *demand.Amount, to *Job) {
	if p := a.Line.Product; p != nil {
		for _, j := range src.Steps {
			if j.Step.Step == p.Step {
				j.followed(to, nil)
				most := longer(keepMinutes(src, p), j.Extra, j.Open)
				if n := d.written(j); n >= 0 && p.Keeps == nil && j.readyAt(p) == j.End() {
					most = n
				}
				d.Link(j.readyAt(p), to.Begin(), 0, most, TakesFrom).Product = p
				return
			}
		}
	}
	most := KeepsDefault
	if k := src.M.Recipe.Keeps; k != nil {
		most = timeline.Minutes(max(k.Time.High, k.Time.UpTo))
	}
	src.drawers = append(src.drawers, taker{to, most})
	for i, j := range src.Steps {
		if src.Last(i) && len(j.followIf) == 0 {
			n := longer(most, j.Extra, j.Open)
			if _, held := j.Held(); held || src.M.Recipe.Keeps == nil && d.written(j) >= 0 {
				n = d.written(j)
			}
			d.across(src, before{j, nil}, to.Begin(), len(src.Pauses), n, TakesFrom)
			if !src.mayPause(j.Step.Step.Pause, len(src.Pauses)) {
				d.waiting(j, to, HotBase(src, j))
			}
			continue
		}
		d.Link(j.End(), to.Begin(), 0, -1, AllOf)
	}
	for _, line := range src.M.Lines {
		if j := src.Prep[line.Line]; j != nil && !j.follow {
			d.Link(j.End(), to.Begin(), 0, -1, AllOf)
		}
	}
}

// together keeps those that draw on a base whose last step may be drawn out
// near each other: it ends when the first takes from it, and from then on the
// base only keeps.
func (d *Draft) together() {
	for _, mk := range d.Makings {
		drawnOut := slices.ContainsFunc(mk.Steps, func(j *Job) bool { return !j.follow && (j.Extra > 0 || j.Open) })
		if !drawnOut {
			continue
		}
		for i, a := range mk.drawers {
			for _, b := range mk.drawers[i+1:] {
				if a.job != b.job {
					d.Link(a.job.Begin(), b.job.Begin(), -a.most, b.most, Near)
				}
			}
		}
	}
}

// HotBase is what the waiting of a base counts: nothing when it keeps.
func HotBase(src *Making, j *Job) int {
	if src.M.Recipe.Keeps != nil {
		return 0
	}
	return HotWeight(j, waitHotMid)
}

// keepMinutes is how long a by-product may wait to be drawn on: as long as it
// keeps, else as long as the block it is made in keeps.
func keepMinutes(src *Making, p *resolve.Product) int {
	k := p.Keeps
	if k == nil {
		k = src.M.Recipe.Keeps
	}
	if k == nil {
		return KeepsDefault
	}
	return timeline.Minutes(max(k.Time.High, k.Time.UpTo))
}

func longer(most, extra int, open bool) int {
	if open {
		return -1
	}
	return most + extra
}

// Last tells whether nothing in the making follows the step at place i.
func (mk *Making) Last(i int) bool {
	for _, b := range mk.plainBefore(len(mk.Steps)) {
		if b.job == mk.Steps[i] {
			return true
		}
	}
	return !mk.Steps[i].follow
}
