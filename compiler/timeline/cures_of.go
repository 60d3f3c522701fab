package timeline

import (
	"fmt"
	"maps"
	"slices"

	"tamis/compiler/demand"
	"tamis/compiler/resolve"
)

// pausing proposes, for what is left of a meal, to take a pause that the recipe
// allows and the plan did not: nothing behind it may have been begun.
func (d *draft) pausing(c clash) (out []cure) {
	k := d.set.keep
	if k == nil {
		return nil
	}
	for _, mk := range d.makings {
		if s := mk.m.Serving; s != nil && s.Straight || len(c.jobs) > 0 && !slices.ContainsFunc(c.jobs, func(j *job) bool { return j.mk == mk }) {
			continue
		}
		for n, p := range mk.pauses {
			last := mk.stepBefore(n)
			if p.state != straight || last == nil || k.served(mk.course) || mk.pastPause(k, n) {
				continue
			}
			text := fmt.Sprintf("pause after %s, up to %s %s", last.of(), spanWords(minutes(p.model.UpTo)), placeIn(p.model.Place))
			out = append(out, cure{text: text, change: func(s *setup) {
				all := *s.keep
				all.pauses = map[*demand.Making][]bool{}
				maps.Copy(all.pauses, k.pauses)
				taken := make([]bool, len(mk.pauses))
				copy(taken, k.pauses[mk.m])
				taken[n] = true
				all.pauses[mk.m] = taken
				s.keep = &all
			}})
		}
	}
	return out
}

func placeIn(place string) string {
	switch place {
	case "":
		return "somewhere cold"
	case "room":
		return "at room temperature"
	}
	return "in the " + place
}

// pastPause tells whether something was begun that comes after a pause, or that
// would have been otherwise with it.
func (mk *making) pastPause(k *kept, n int) bool {
	return slices.ContainsFunc(mk.steps, func(j *job) bool {
		s := j.Step.Step
		other := slices.ContainsFunc(s.If, func(c resolve.Condition) bool { return c.Paused && c.Pause == n+1 })
		return (s.Pause > n || other) && k.begun(j.first().key())
	})
}

// stepBefore is the last step before a pause that takes place.
func (mk *making) stepBefore(n int) *job {
	for _, j := range slices.Backward(mk.steps) {
		if j.Step.Step.Pause <= n {
			return j
		}
	}
	return nil
}

// leavingOut proposes to leave out what is only done if needed and is still to
// do.
func (d *draft) leavingOut() []cure {
	var steps []string
	for _, j := range d.jobs {
		if j.ifNeeded() && j.first() == j && !d.set.keep.begun(j.key()) {
			steps = append(steps, j.of())
		}
	}
	if len(steps) == 0 {
		return nil
	}
	if n := len(steps); n > 3 {
		steps = append(steps[:2], fmt.Sprintf("%d more", n-2))
	}
	return []cure{{text: fmt.Sprintf("leave out %s, only done if needed", listed(steps)), change: func(s *setup) { s.bare = true }}}
}

// longerHours proposes to begin earlier, on the serving day or one before, or to
// work on a day more.
func (d *draft) longerHours(r *result) (out []cure) {
	if !d.clock || len(d.open) == 0 || d.set.keep != nil {
		return nil
	}
	hours := len(d.meal.Menu.Hours) > 0
	if from := d.firstCourse().at - d.longestChain(); hours && from < d.open[0].from {
		n := -floorDiv(from, day)
		if from < beforeOpens-n*day { // it begins before anybody is up
			n++
		}
		if n > 0 {
			out = append(out, growing([]int{n, n + 1}, func(n int) cure {
				w := window{beforeOpens - n*day, beforeShuts - n*day}
				return cure{change: func(s *setup) { s.more = w }, text: fmt.Sprintf("work %s too: `hours %s, 08:00 to 21:00`", daysBeforeWords(n), daysBeforeWords(n))}
			})...)
		}
	}
	add := func(opens Minute, much ...int) {
		var can []int
		for _, n := range much {
			if !hours || floorDiv(opens-n, day) == floorDiv(opens, day) && opens-n >= floorDiv(opens, day)*day+dayOpens {
				can = append(can, n)
			}
		}
		out = append(out, growing(can, func(n int) cure {
			at := d.clockText(opens - n)
			if opens >= 0 {
				at += " on the day"
			}
			return cure{change: func(s *setup) { s.opens, s.earlier = opens, n }, text: fmt.Sprintf("begin at %s, %s earlier", at, spanWords(n))}
		})...)
	}
	if r.solution == nil && hours {
		for i, w := range d.open {
			if w.from < 0 && i < 2 {
				add(w.from, 30, 60, 90, 120, 180, 240, 300, 360, 480, 600)
			}
		}
	}
	add(d.dayOpens(), 60, 120)
	return out
}

func daysBeforeWords(n int) string {
	if n == 1 {
		return "day before"
	}
	return fmt.Sprintf("%d days before", n)
}

// during says when a dish is made that could not be before, by a plan with
// longer hours.
func (t *result) during(c clash, cu cure) string {
	if len(c.jobs) == 0 || t.set.earlier == 0 && t.set.more == (window{}) {
		return ""
	}
	mk := c.jobs[0].mk
	if mk == nil || slices.ContainsFunc(c.jobs, func(j *job) bool { return j.mk != mk }) {
		return ""
	}
	from, to := none, -none
	var made []*job
	for _, j := range t.draft.jobs {
		if j.mk != nil && j.mk.m == mk.m && t.on(j) {
			made = append(made, j)
			from = min(from, t.start(j))
		}
	}
	for _, j := range made { // until it stands
		if j.length < longLeave && t.start(j) < from+day/2 {
			to = max(to, t.start(j)+j.length)
		}
	}
	if from >= to {
		return ""
	}
	return fmt.Sprintf(" (%s is then made from %s to %s)", mk.m.Recipe.Name, t.draft.clockText(from), t.draft.clockText(to))
}
