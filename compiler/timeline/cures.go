package timeline

import (
	"fmt"
	"slices"
	"strings"

	"tamis/compiler/plan"
)

// maxCures is how many cures are offered, and maxTries how many are tried.
const (
	maxCures = 3
	maxTries = 9
)

// cure is something that might help, to be tried before it is offered.
type cure struct {
	change func(*setup)
	text   string
	more   []cure // more and more of it, to be tried if this is not enough
	strict bool   // it is no cure if things wait longer than they may
}

// cures tries what might mend a meal that is late or has no plan, and says
// what worked: a plan was made with it, and everything was on time. What did
// not is kept in a.tried, with what came of it.
func (a *attempts) cures(r *result, c clash, say func(string)) {
	said, most := 0, maxCures
	if r.set.keep != nil {
		most = 2 * maxCures // there is no other day: all that can be done is wanted
	}
	defer func() {
		if said == 0 && r.set.keep == nil && a.ctx.Err() == nil {
			for _, t := range triedWords(a.tried) {
				say(t)
			}
			a.tried = nil
		}
	}()
	for i, cu := range a.possible(r, c) {
		if i == maxTries || said == most || a.ctx.Err() != nil {
			return
		}
		best, with, t := a.enough(r, cu)
		if t == nil || t.late() > 0 {
			a.tried = append(a.tried, tried{best.text, t.came()})
			continue
		}
		said++
		say(best.text + with + t.during(c, best))
	}
}

// tried is a cure that was not enough, and what came of it.
type tried struct{ text, came string }

// triedWords says them all, those with the same end together.
func triedWords(all []tried) (out []string) {
	var ends []string
	for _, t := range all {
		if !slices.Contains(ends, t.came) {
			ends = append(ends, t.came)
		}
	}
	for _, end := range ends {
		var texts []string
		for _, t := range all {
			if t.came == end {
				texts = append(texts, t.text)
			}
		}
		out = append(out, fmt.Sprintf("tried, and %s: %s", end, strings.Join(texts, "; ")))
	}
	return out
}

// came says what came of a cure that was not enough.
func (t *result) came() string {
	if t == nil {
		return "no plan that keeps every limit"
	}
	return fmt.Sprintf("still %s late", spanWords(t.latestCourse()))
}

// enough finds how much of a cure mends a meal: every other amount is tried
// until one does, then the one before it. With says what is still amiss.
func (a *attempts) enough(r *result, cu cure) (best cure, with string, t *result) {
	best = cu
	t, with = a.with(r, cu)
	near := cu // the least with which there is a plan
	found := t != nil
	for i := 0; i < len(cu.more) && (t == nil || t.late() > 0); i += 2 {
		n, amiss := a.with(r, cu.more[i])
		if n != nil && !found {
			near, found = cu.more[i], true
		}
		if n == nil || n.late() > 0 {
			continue
		}
		best, with, t = cu.more[i], amiss, n
		if i > 0 {
			if n, amiss := a.with(r, cu.more[i-1]); n != nil && n.late() == 0 {
				best, with, t = cu.more[i-1], amiss, n
			}
		}
	}
	if r.solution != nil || !found || t != nil && t.late() == 0 {
		return best, with, t
	}
	// Where there was no plan there is one, but late: need it be?
	set := r.set
	near.change(&set)
	if n := a.harder(set); n != nil && n.late() == 0 {
		return near, "", n
	}
	return best, with, t
}

// harder plans with a setup and all the work that a plan may take, by the
// minute.
func (a *attempts) harder(set setup) *result {
	set.grid = 1
	t := a.trial(set, 1)
	if t == nil || t.late() == 0 {
		return t
	}
	why, err := plan.Explain(a.ctx, &t.draft.p, plan.Budget{Seed: a.opt.Seed, Steps: a.opt.Steps})
	if s := why.Solution; err == nil && s != nil && s.Score[plan.Lateness] == 0 && len(plan.Verify(&t.draft.p, s)) == 0 {
		was := t.solution
		if t.solution = s; t.unwashed() {
			t.solution = was
		}
	}
	return t
}

// with plans with a cure; nil: there is no plan. What runs late may wait longer
// than it should only if there is no other way.
func (a *attempts) with(r *result, cu cure) (t *result, amiss string) {
	set := r.set
	set.grid = 1
	if set.keep != nil {
		all := *set.keep
		all.until, all.loose = none, false
		set.keep = &all
	}
	cu.change(&set)
	t = a.trial(set, 4)
	if t == nil && set.grid < a.opt.Grid && r.draft.everyLine() != nil { // rounds of washing up may suit the coarser clock
		set.grid = a.opt.Grid
		if t = a.trial(set, 1); t == nil {
			set.grid = 1
		}
	}
	if !cu.strict && r.set.keep != nil && r.set.keep.loose && (t == nil || t.late() > 0) {
		all := *set.keep
		all.loose = true
		set.keep = &all
		if l := a.trial(set, 4); l != nil && (t == nil || l.late() < t.late()) {
			return l, ", though things wait longer than they may"
		}
	}
	return t, ""
}

// trial plans with a setup and a part of the work that a plan may take; nil:
// there is no plan.
func (a *attempts) trial(set setup, part int) *result {
	t := &result{set: set, draft: translate(a.meal, set, nil)}
	out, err := t.solve(a.ctx, plan.Budget{Seed: a.opt.Seed, Steps: max(200, a.opt.Steps/part), NoConflict: true})
	if err != nil || out.Solution == nil || len(plan.Verify(&t.draft.p, out.Solution)) > 0 {
		return nil
	}
	t.solution = out.Solution
	return t
}

// latestCourse is by how many minutes the course is late that is latest.
func (r *result) latestCourse() (most int) {
	for _, c := range r.draft.courses {
		most = max(most, r.start(c)-c.at)
	}
	return most
}

// possible lists the cures worth trying: those that touch what the conflict
// names.
func (a *attempts) possible(r *result, c clash) (out []cure) {
	d := r.draft
	add := func(text string, change func(*setup)) { out = append(out, cure{change: change, text: text}) }
	all := len(c.resources) == 0 // nothing is known: try what is usual
	oven, rings, cooks, things := false, false, false, false
	for _, res := range c.resources {
		if _, ok := d.kit.ovenOf(res); ok {
			oven = true
		} else if _, ok := d.kit.cookOf(res); ok {
			cooks = true
		} else if res == d.kit.rings {
			rings = true
		} else if res != d.kit.here {
			things = true
		}
	}
	out = append(out, d.washLater(c, cooks || all)...)
	out = append(out, d.pausing(c)...)
	out = append(out, d.leavingOut()...)
	for i, mk := range d.makings {
		if d.set.keep != nil || len(mk.pauses) == 0 || mk.m.Serving == nil || slices.ContainsFunc(mk.pauses, func(p pause) bool { return p.state == paused }) {
			continue
		}
		if len(c.jobs) > 0 && !slices.ContainsFunc(c.jobs, func(j *job) bool { return j.mk == mk }) {
			continue
		}
		text := fmt.Sprintf("make it ahead: `%s, ahead`", mk.m.Recipe.Name)
		add(text, func(s *setup) { s.ahead = i + 1; s.sameDay = true; s.free = false })
	}
	if rings || all && d.kit.rings >= 0 {
		add("find one more ring", func(s *setup) { s.rings = 1 })
	}
	if len(d.kit.ovens) > 0 && (oven || all) {
		add("find room for one more shelf in the oven", func(s *setup) { s.shelves = 1 })
		add("find a second oven", func(s *setup) { s.ovens = 1 })
	}
	if r.solution != nil && d.set.keep == nil {
		for _, n := range []int{15, 30, 45, 60, 90, 120} {
			if n >= r.late()/max(1, r.lateCourses()) {
				add(fmt.Sprintf("serve %s later", spanWords(n)), func(s *setup) { s.later = n })
				break
			}
		}
	}
	out = append(out, d.longerHours(r)...)
	if d.clock && d.set.keep == nil && len(d.meal.Menu.Hours) > 0 && len(d.open) > 0 && d.open[0].from > beforeShuts-day {
		add("work on the evening before: `hours day before, 17:00 to 21:00`", func(s *setup) { s.evening = true })
	}
	if cooks || all {
		out = append(out, growing([]int{1, 2}, func(n int) cure {
			return cure{change: func(s *setup) { s.cooks = n }, text: []string{"find one more cook", "find two more cooks"}[n-1]}
		})...)
	}
	if things {
		add("have one more of what is wanted twice at once", func(s *setup) { s.spare = true })
	}
	switch {
	case d.set.keep != nil:
		first := max(1, r.lateBy())
		out = append(out, growing([]int{first, first + 5, first + 10, first + 15, first + 30, first + 60}, func(n int) cure {
			return cure{change: func(s *setup) { s.later = n }, text: fmt.Sprintf("serve what is left %s later", spanWords(n)), strict: true}
		})...)
	case r.solution == nil:
		out = append(out, growing([]int{15, 30, 60}, func(n int) cure {
			return cure{change: func(s *setup) { s.later = n }, text: fmt.Sprintf("serve %s later", spanWords(n))}
		})...)
	}
	return out
}

// lateBy is by how many minutes a plan, if there is one, is late at most.
func (r *result) lateBy() int {
	if r.solution == nil {
		return 0
	}
	return r.latestCourse()
}

// growing is one cure of which more and more may be tried.
func growing(much []int, of func(int) cure) []cure {
	if len(much) == 0 {
		return nil
	}
	first := of(much[0])
	for _, n := range much[1:] {
		first.more = append(first.more, of(n))
	}
	return []cure{first}
}

// dayOpens is when work may begin on the serving day.
func (d *draft) dayOpens() Minute {
	for _, w := range d.open {
		if w.from >= 0 {
			return w.from
		}
	}
	return d.open[0].from
}

// lateCourses counts the courses that are late.
func (r *result) lateCourses() (n int) {
	for _, c := range r.draft.courses {
		if r.start(c) > c.at {
			n++
		}
	}
	return n
}
