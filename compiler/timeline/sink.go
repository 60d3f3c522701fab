package timeline

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"tamis/compiler/plan"
	"tamis/compiler/resolve"
)

// What gives way to what: being on time comes first, then hot food that does
// not wait, and only then the sink.

// of names washing up for a message.
func (w *wash) of() string {
	switch {
	case w.tool != "":
		return "washing the " + w.tool
	case w.mk != nil:
		return "washing up after " + w.mk.m.Recipe.Name
	case w.up.When == resolve.WashBefore:
		return "washing up before serving"
	}
	return "washing up, every " + spanWords(floorMinutes(w.up.Every))
}

// floorMinutes is a time in whole minutes, rounded down.
func floorMinutes(t time.Duration) int { return int(t / time.Minute) }

// mostLeft is how many plans are made to find the washing up that hot food
// waits for.
const mostLeft = 8

// hotFirst leaves washing up until after serving where hot food would wait for
// it: as little of it as will do. A meal for which nothing hot waits, or waits
// as long without any washing up, stays as it is.
func (a *attempts) hotFirst(r *result) *result {
	if r.solution == nil || r.set.keep != nil || r.solution.Score[plan.Waiting] == 0 {
		return r
	}
	jobs := r.sinkJobs()
	if len(jobs) == 0 {
		return r
	}
	without := r.set
	without.wash = washSet{none: true}
	best := a.hotness(without)
	if best == nil || !colder(r, best) {
		return r
	}
	left, tries := r.set, 0
	for len(jobs) > 0 && tries < mostLeft {
		for _, j := range jobs {
			if tries++; tries > mostLeft {
				break
			}
			set := left
			set.wash = set.wash.without(j.wash)
			if n := a.hotness(set); n != nil && !colder(n, best) {
				return n
			}
		}
		left.wash = left.wash.without(jobs[0].wash)
		jobs = jobs[1:]
	}
	return best
}

// hotness is a plan with a setup; nil when there is none.
func (a *attempts) hotness(set setup) *result {
	r := &result{set: set, draft: translate(a.meal, set, nil)}
	out, err := r.solve(a.ctx, plan.Budget{Seed: a.opt.Seed, Steps: a.opt.Steps, NoConflict: true})
	if err != nil || out.Solution == nil || len(plan.Verify(&r.draft.p, out.Solution)) > 0 {
		return nil
	}
	r.solution = out.Solution
	return r
}

// colder tells whether hot food waits longer in a plan than in another that is
// as much on time.
func colder(r, than *result) bool {
	a, b := r.solution.Score, than.solution.Score
	return a[plan.Lateness] == b[plan.Lateness] && a[plan.Waiting] > b[plan.Waiting]
}

// sinkJobs are the jobs of washing up that a plan has, the last first; of the
// rounds one.
func (r *result) sinkJobs() (out []*job) {
	for _, j := range r.draft.jobs {
		if j.wash == nil || !r.on(j) || j.wash.up == nil {
			continue
		}
		every := j.wash.up.When == resolve.WashEvery
		if !every || !slices.ContainsFunc(out, func(o *job) bool { return o.wash.up == j.wash.up }) {
			out = append(out, j)
		}
	}
	slices.SortStableFunc(out, func(a, b *job) int { return cmp.Compare(r.start(b), r.start(a)) })
	return out
}

// without leaves one washing up until after; the rounds all together.
func (s washSet) without(w *wash) washSet {
	if w.up.When == resolve.WashEvery {
		s.off = append(slices.Clone(s.off), resolve.WashEvery)
		return s
	}
	s.left = append(slices.Clone(s.left), w.key())
	return s
}

// washedAfter lists the washing up that is left until after serving for the sake
// of hot food.
func (r *result) washedAfter() (names []string) {
	if r.set.wash.none {
		return []string{"all the washing up"}
	}
	for _, k := range r.set.wash.left {
		name := "the washing up before serving"
		if k.making != nil {
			name = "the washing up after " + k.making.Recipe.Name
		}
		if !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	if slices.Contains(r.set.wash.off, resolve.WashEvery) {
		names = append(names, "the washing up every so often")
	}
	return names
}

// washLater are the cures that leave washing up until after serving: a line of
// the kitchen each, then all of them.
func (d *draft) washLater(c clash, hands bool) (out []cure) {
	if !hands && !slices.ContainsFunc(c.jobs, func(j *job) bool { return j.wash != nil }) {
		return nil
	}
	var lines []string
	for _, j := range d.jobs {
		if j.wash == nil || j.wash.up == nil {
			continue
		}
		line := "`" + j.wash.up.Words() + "`"
		if slices.Contains(lines, line) {
			continue
		}
		lines = append(lines, line)
		when := j.wash.up.When
		out = append(out, cure{
			change: func(s *setup) { s.wash.off = append(slices.Clone(s.wash.off), when) },
			text:   fmt.Sprintf("leave the washing up until after: take out %s", line),
		})
	}
	if len(lines) > 1 {
		out = append(out, cure{
			change: func(s *setup) { s.wash = washSet{none: true} },
			text:   "leave all the washing up until after: take out " + strings.Join(lines, " and "),
		})
	}
	return out
}

// sayLeft hints at the washing up that hot food would have waited for.
func (r *result) sayLeft() {
	names := r.washedAfter()
	if r.diags == nil || len(names) == 0 {
		return
	}
	for _, w := range r.draft.meal.Kitchen.WashUps {
		left := r.set.wash.none || slices.Contains(r.set.wash.off, w.When) ||
			slices.ContainsFunc(r.set.wash.left, func(k key) bool { return k.title == string(w.When) })
		if !left {
			continue
		}
		r.diags.Hintf("P109", w.Span, "%s is left until after serving", listed(names)).
			Because("hot food would wait for it").
			WithHelp("give it to one more cook, or make it shorter")
		return
	}
}
