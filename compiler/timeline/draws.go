package timeline

import (
	"slices"

	"tamis/compiler/demand"
	"tamis/compiler/resolve"
)

// draws links what takes from gather lines to what has to be there first: the
// preparation of the line, and the base, dish or by-product it is drawn from.
func (d *draft) draws(mk *making) {
	for _, a := range mk.m.Lines {
		takers := mk.takers(a.Line)
		prep := mk.prep[a.Line]
		if prep != nil {
			d.beforeUse(mk, prep, takers)
		}
		src := d.byMake[a.Source]
		if src == nil || src == mk {
			continue
		}
		if prep != nil {
			takers = append([]*job{prep}, takers...)
		}
		if len(takers) == 0 { // nobody names it: it is there when the dish is served
			takers = []*job{mk.course}
		}
		for _, t := range takers {
			d.drawsFrom(src, a, t)
		}
	}
}

// takers are the jobs of the steps that take from a line, in order.
func (mk *making) takers(line *resolve.Line) (out []*job) {
	for _, j := range mk.steps {
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
// the time prepared things may wait.
func (d *draft) beforeUse(mk *making, prep *job, takers []*job) {
	most := d.kit.waitPrepared + prep.extra
	if prep.open {
		most = -1
	}
	to := mk.course
	if len(takers) > 0 {
		to = takers[0]
		if t := to.Step.Step.Within; t != nil && most >= 0 && len(mk.plainBefore(mk.indexOf(to))) == 0 {
			most = minutes(*t) + prep.extra
		}
	}
	prep.follow = true
	d.link(prep.end(), to.begin(), 0, most, prepared)
	for _, t := range takers { // the first may be absent
		if t != to {
			d.link(prep.end(), t.begin(), 0, -1, prepared)
		}
		if len(t.when) == 0 {
			break
		}
	}
}

func (mk *making) indexOf(j *job) int {
	for i, s := range mk.steps {
		if s == j {
			return i
		}
	}
	return 0
}

// drawsFrom links a job to the making its line is drawn from: to the end of
// everything done for a base, to the maker of a by-product.
func (d *draft) drawsFrom(src *making, a *demand.Amount, to *job) {
	if p := a.Line.Product; p != nil {
		for _, j := range src.steps {
			if j.Step.Step == p.Step {
				j.followed(to, nil)
				most := longer(keepMinutes(src, p), j.extra, j.open)
				if n := d.written(j); n >= 0 && p.Keeps == nil && j.readyAt(p) == j.end() {
					most = n
				}
				d.link(j.readyAt(p), to.begin(), 0, most, takesFrom).product = p
				return
			}
		}
	}
	most := keepsDefault
	if k := src.m.Recipe.Keeps; k != nil {
		most = minutes(max(k.Time.High, k.Time.UpTo))
	}
	src.drawers = append(src.drawers, taker{to, most})
	for i, j := range src.steps {
		if src.last(i) && len(j.followIf) == 0 {
			n := longer(most, j.extra, j.open)
			if _, held := j.held(); held || src.m.Recipe.Keeps == nil && d.written(j) >= 0 {
				n = d.written(j)
			}
			d.across(src, before{j, nil}, to.begin(), len(src.pauses), n, takesFrom)
			if !src.mayPause(j.Step.Step.Pause, len(src.pauses)) {
				d.waiting(j, to, hotBase(src, j))
			}
			continue
		}
		d.link(j.end(), to.begin(), 0, -1, allOf)
	}
	for _, line := range src.m.Lines {
		if j := src.prep[line.Line]; j != nil && !j.follow {
			d.link(j.end(), to.begin(), 0, -1, allOf)
		}
	}
}

// together keeps those that draw on a base whose last step may be drawn out
// near each other: it ends when the first takes from it, and from then on the
// base only keeps.
func (d *draft) together() {
	for _, mk := range d.makings {
		drawnOut := slices.ContainsFunc(mk.steps, func(j *job) bool { return !j.follow && (j.extra > 0 || j.open) })
		if !drawnOut {
			continue
		}
		for i, a := range mk.drawers {
			for _, b := range mk.drawers[i+1:] {
				if a.job != b.job {
					d.link(a.job.begin(), b.job.begin(), -a.most, b.most, near)
				}
			}
		}
	}
}

// hotBase is what the waiting of a base counts: nothing when it keeps.
func hotBase(src *making, j *job) int {
	if src.m.Recipe.Keeps != nil {
		return 0
	}
	return hotWeight(j, waitHotMid)
}

// keepMinutes is how long a by-product may wait to be drawn on: as long as it
// keeps, else as long as the block it is made in keeps.
func keepMinutes(src *making, p *resolve.Product) int {
	k := p.Keeps
	if k == nil {
		k = src.m.Recipe.Keeps
	}
	if k == nil {
		return keepsDefault
	}
	return minutes(max(k.Time.High, k.Time.UpTo))
}

func longer(most, extra int, open bool) int {
	if open {
		return -1
	}
	return most + extra
}

// last tells whether nothing in the making follows the step at place i.
func (mk *making) last(i int) bool {
	for _, b := range mk.plainBefore(len(mk.steps)) {
		if b.job == mk.steps[i] {
			return true
		}
	}
	return !mk.steps[i].follow
}
