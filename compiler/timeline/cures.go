package timeline

import (
	"fmt"
	"slices"

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
}

// cures tries what might mend a meal that is late or has no plan, and says
// what worked: a plan was made with it, and everything was on time.
func (a *attempts) cures(r *result, c clash, say func(string)) {
	said := 0
	for i, cu := range a.possible(r, c) {
		if i == maxTries || said == maxCures || a.ctx.Err() != nil {
			return
		}
		set := r.set
		set.grid = 1
		if set.keep != nil {
			all := *set.keep
			all.until = none
			set.keep = &all
		}
		cu.change(&set)
		t := &result{set: set, draft: translate(a.meal, set, nil)}
		out, err := t.solve(a.ctx, plan.Budget{Seed: a.opt.Seed, Steps: max(200, a.opt.Steps/4), NoConflict: true})
		if err != nil || out.Solution == nil || out.Solution.Score[plan.Lateness] > 0 || len(plan.Verify(&t.draft.p, out.Solution)) > 0 {
			continue
		}
		said++
		say(cu.text)
	}
}

// possible lists the cures worth trying: those that touch what the conflict
// names.
func (a *attempts) possible(r *result, c clash) (out []cure) {
	d := r.draft
	add := func(text string, change func(*setup)) { out = append(out, cure{change, text}) }
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
	if d.clock && len(d.open) > 0 && d.set.keep == nil {
		for _, n := range []int{60, 120} {
			add(fmt.Sprintf("begin at %s on the day, %s earlier", d.clockText(d.dayOpens()-n), spanWords(n)), func(s *setup) { s.earlier = n })
		}
	}
	if d.clock && d.set.keep == nil && len(d.meal.Menu.Hours) > 0 && len(d.open) > 0 && d.open[0].from > beforeShuts-day {
		add("work on the evening before: `hours day before, 17:00 to 21:00`", func(s *setup) { s.evening = true })
	}
	if cooks || all {
		add("find one more cook", func(s *setup) { s.cooks = 1 })
	}
	if things {
		add("have one more of what is wanted twice at once", func(s *setup) { s.spare = true })
	}
	if r.solution == nil {
		for _, n := range []int{15, 30, 60} {
			add(fmt.Sprintf("serve %s later", spanWords(n)), func(s *setup) { s.later = n })
		}
	}
	return out
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
