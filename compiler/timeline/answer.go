package timeline

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"tamis/compiler/demand"
	"tamis/compiler/plan"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

// answer turns the engine's solution into clock times.
func (r *result) answer(opt Options, diags *diag.List) *Timeline {
	d, s := r.draft, r.solution
	t := &Timeline{
		Meal: d.meal, Clock: d.clock, Grid: d.grid,
		Late: r.late(), Bound: s.Bound * d.grid, Proven: s.Bound >= s.Score[plan.Lateness],
		Waiting: r.waited() * d.grid,
		Paused:  map[*resolve.Pause]map[*demand.Making]bool{},
		from:    r, opt: opt,
	}
	for _, c := range d.kit.cooks {
		t.Cooks = append(t.Cooks, c.name)
	}
	r.planned = map[*job]*Job{}
	for _, j := range d.jobs {
		if r.on(j) {
			r.planned[j] = &Job{Piece: j.Piece}
		}
	}
	for _, j := range d.jobs {
		if r.on(j) {
			r.place(j)
			t.Jobs = append(t.Jobs, r.job(j))
		}
	}
	t.Odds = r.chances(opt.Seed)
	r.stretch()
	r.heats(t)
	r.slack()
	r.number()
	t.Chain = r.criticalChain()
	slices.SortStableFunc(t.Jobs, func(a, b *Job) int { return cmp.Compare(a.Start(), b.Start()) })
	r.pauses(t)
	r.servings(t)
	t.Start, t.Later = r.firstHands(), r.later()
	t.Note = r.note()
	r.diags = diags
	r.sayKeeps()
	r.sayLoads()
	r.sayLeft()
	return t
}

// job is a job of the plan, with its times; nil when it does not take place, or
// before there is a plan.
func (r *result) job(j *job) *Job { return r.planned[j] }

// on tells whether a job takes place.
func (r *result) on(j *job) bool { return r.solution.Tasks[j.block.act].On }

// start is when a job begins.
func (r *result) start(j *job) Minute {
	return r.draft.origin + r.solution.Tasks[j.block.act].Start*r.draft.grid + j.offset
}

// time is when a moment comes.
func (r *result) time(m moment) Minute { return r.start(m.job) + m.at }

// counts tells whether a link is in force.
func (r *result) counts(l *link) bool {
	return r.on(l.from.job) && r.on(l.to.job) && plan.When(l.when).Holds(r.solution.Options)
}

// waited is the weighted waiting of the solution, in the engine's units.
func (r *result) waited() (sum int) {
	for _, w := range r.draft.p.Waits {
		a, b := r.solution.Tasks[w.From.Activity], r.solution.Tasks[w.To.Activity]
		if a.On && b.On {
			sum += w.Weight * max(0, b.Start-a.Start-w.Free)
		}
	}
	return sum
}

// place gives a job its times, cooks and oven.
func (r *result) place(j *job) {
	at, out := r.start(j), r.job(j)
	for _, s := range j.parts {
		out.Phases = append(out.Phases, Phase{Kind: s.kind, Start: at + Minute(s.from), End: at + Minute(s.to), Least: s.least, Place: s.place})
	}
	for _, t := range j.touches {
		out.Touches = append(out.Touches, Touch{Start: at + Minute(t.from), End: at + Minute(t.to), Text: t.text, Swap: t.swap})
	}
	r.people(j)
	task := r.solution.Tasks[j.block.act]
	for n, role := range j.block.roles {
		if o, ok := r.draft.kit.ovenOf(task.Members[n]); ok && role == ovenRole {
			out.Oven = o.name
		}
	}
	for _, l := range r.draft.links {
		if l.to.job == j && l.why != allOf && l.why != near && l.why != vesselFree && l.why != washRound && l.from.job.Kind != "" && r.counts(l) && (l.why != nextLoad || r.start(l.from.job)+l.from.job.length <= r.start(j)) && !slices.Contains(out.After, r.job(l.from.job)) {
			out.After = append(out.After, r.job(l.from.job))
		}
	}
}

// people says who works on each phase of a job.
func (r *result) people(j *job) {
	out := r.job(j)
	task := r.solution.Tasks[j.block.act]
	mode := r.draft.p.Activities[j.block.act].Modes[task.Mode]
	by := func(from offset, role roleKind) (names []string) {
		unit := (j.offset + int(from)) / r.draft.grid
		for n, u := range mode.Uses {
			whole := u.From == 0 && u.To == 0
			if c, ok := r.draft.kit.cookOf(task.Members[n]); ok && j.block.roles[n] == role && (whole || u.From <= unit && unit < u.To) {
				names = append(names, c.name)
			}
		}
		return names
	}
	add := func(names []string) {
		for _, n := range names {
			if !slices.Contains(out.Cooks, n) {
				out.Cooks = append(out.Cooks, n)
			}
		}
	}
	for i, s := range j.parts {
		p := &out.Phases[i]
		if p.Kind == resolve.Leave {
			continue
		}
		p.Cooks = by(s.from, cookRole)
		if p.Kind == resolve.Work || j.workEnd == 0 {
			p.Cooks = append(p.Cooks, by(s.from, helpRole)...)
		}
		add(p.Cooks)
	}
	for i, t := range j.touches {
		out.Touches[i].Cooks = by(t.from, cookRole)
		if t.swap {
			add(out.Touches[i].Cooks)
		}
	}
}

// stretch lets what may be left longer stay until it is wanted, and works out
// the waiting of everything.
func (r *result) stretch() {
	next := map[*job]Minute{}
	for _, l := range r.draft.links {
		switch l.why {
		case beforeServing, forTask, vesselFree, allOf, near, washed, washRound:
			continue
		}
		if l.from.at != l.from.job.length || !r.counts(l) {
			continue
		}
		at := r.time(l.to)
		if have, ok := next[l.from.job]; !ok || at < have {
			next[l.from.job] = at
		}
	}
	for _, j := range r.draft.jobs {
		at, ok := next[j]
		if !ok || !r.on(j) {
			continue
		}
		out := r.job(j)
		last := &out.Phases[len(out.Phases)-1]
		if wait := at - last.End; wait > 0 && last.Kind == resolve.Leave {
			switch {
			case j.open:
				last.Stretch = min(wait, r.vesselFor(j))
			case j.extra > 0:
				last.Stretch = min(wait, j.extra, r.vesselFor(j))
			}
			last.End += last.Stretch
		}
		out.Waits = max(0, at-last.End)
	}
	for _, mk := range r.draft.makings { // what is done first waits for the last load, and then with it
		for _, s := range mk.steps {
			for _, j := range r.draft.loadsOf(mk, s) {
				if j != s && r.on(j) {
					r.job(j).Waits = max(0, r.job(s).End()+r.job(s).Waits-r.job(j).End())
				}
			}
		}
	}
}

func vesselOf(j *job) string {
	if j.Step == nil {
		return ""
	}
	return j.Step.Step.Vessel
}

// vesselFor is how much longer than planned a job's vessel is not wanted for
// anything else.
func (r *result) vesselFor(j *job) int {
	v, listed := r.draft.kit.vessels[vesselOf(j)]
	if !listed {
		return maxMinutes
	}
	var starts []Minute // one for each vessel that is wanted then
	end := r.start(j) + j.length
	in := 0 // in other vessels of the kind when it should be done
	for _, o := range r.draft.jobs {
		if o == j || o.Step == nil || vesselOf(o) != vesselOf(j) || !r.on(o) {
			continue
		}
		switch at := r.start(o); {
		case at >= end:
			starts = append(starts, slices.Repeat([]Minute{at}, max(1, o.Vessels))...)
		case at+o.length > end:
			in += max(1, o.Vessels)
		}
	}
	slices.Sort(starts)
	if spare := v.count - max(1, j.Vessels) - in; spare < len(starts) {
		return starts[max(0, spare)] - end
	}
	return maxMinutes
}

// pauses notes which pauses are taken.
func (r *result) pauses(t *Timeline) {
	for _, mk := range r.draft.makings {
		for _, p := range mk.pauses {
			if p.state == paused || p.state == free && r.solution.Options[p.branch] == int(paused) {
				if t.Paused[p.model] == nil {
					t.Paused[p.model] = map[*demand.Making]bool{}
				}
				t.Paused[p.model][mk.m] = true
			}
		}
	}
}

// servings lists the dishes in the order they are served.
func (r *result) servings(t *Timeline) {
	d := r.draft
	ready := func(mk *making, at Minute) Minute {
		last, any := at, false
		for _, j := range mk.steps {
			if end := r.start(j) + j.length; r.on(j) && (!any || end > last) {
				last, any = end, true
			}
		}
		return last
	}
	if d.meal.Menu == nil {
		for _, mk := range d.makings {
			if !mk.used {
				t.Servings = append(t.Servings, &Serving{
					Making: mk.m, Name: mk.m.Recipe.Name, At: mk.course.at,
					Ready: ready(mk, mk.course.at), Served: r.start(mk.course),
				})
			}
		}
		return
	}
	for i, c := range d.meal.Menu.Courses {
		served := r.start(d.courses[i])
		for _, s := range c.Servings {
			out := &Serving{Name: s.Name, Course: c.Name, At: d.courses[i].at, Ready: served, Served: served}
			for _, mk := range d.makings {
				if mk.m.Serving == s {
					out.Making, out.Ready = mk.m, ready(mk, served)
				}
			}
			t.Servings = append(t.Servings, out)
		}
	}
}

// firstHands is when the first hands-on work begins.
func (r *result) firstHands() Minute {
	first, any := r.start(r.draft.firstCourse()), false
	for _, j := range r.draft.jobs {
		if !r.on(j) {
			continue
		}
		for _, p := range r.job(j).Phases {
			if p.Kind != resolve.Leave && (!any || p.Start < first) {
				first, any = p.Start, true
			}
		}
	}
	return first
}

// note tells the cook what was taken for granted and what could not be kept.
func (r *result) note() string {
	d := r.draft
	var out []string
	if r.late() > 0 {
		for _, c := range d.courses {
			if n := r.start(c) - c.at; n > 0 {
				what := "The meal"
				if c.course != "" {
					what = c.course
				}
				out = append(out, fmt.Sprintf("%s is %s late.", what, spanWords(n)))
			}
		}
	}
	if names := r.sameDay(); len(names) > 0 {
		out = append(out, listed(names)+" cannot be done the day before; it is made ahead on the day itself.")
	}
	if names := r.washedAfter(); len(names) > 0 {
		out = append(out, "So that no hot food waits for it, "+listed(names)+" is left until after serving.")
	}
	if d.meal.Kitchen == nil {
		out = append(out, "No kitchen is named: planned for "+hands(len(d.kit.cooks))+", with as many rings and ovens as are wanted.")
	}
	if d.clock && len(d.meal.Menu.Hours) == 0 && r.firstHands() < 0 {
		out = append(out, "Work begins before the day of serving, for the menu gives no hours.")
	}
	return strings.Join(out, " ")
}

// sameDay lists what is made ahead on the day of serving though there are hours
// before it.
func (r *result) sameDay() (names []string) {
	d := r.draft
	if !d.set.sameDay || !d.clock {
		return nil
	}
	if _, _, ok := d.night(); !ok {
		return nil
	}
	for _, mk := range d.makings {
		for _, p := range mk.pauses {
			if p.state != paused {
				continue
			}
			for _, j := range mk.steps {
				if j.Step.Step.Index == p.model.After-1 && r.on(j) && r.start(j) > 0 {
					names = append(names, mk.m.Recipe.Name)
				}
			}
		}
	}
	return names
}

func hands(n int) string {
	if n == 1 {
		return "one cook"
	}
	return fmt.Sprintf("%d cooks", n)
}

// number counts the steps of each making as the prep sheet does.
func (r *result) number() {
	for _, mk := range r.draft.makings {
		n := 0
		for _, j := range mk.steps {
			if r.on(j) {
				n++
				for _, load := range r.draft.loadsOf(mk, j) {
					r.job(load).Number = n
				}
			}
		}
	}
}
