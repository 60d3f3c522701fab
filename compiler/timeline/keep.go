package timeline

import (
	"slices"

	"tamis/compiler/demand"
	"tamis/compiler/plan"
	"tamis/compiler/resolve"
)

// kept is the part of an earlier plan that a later one keeps to: what has been
// started by a moment goes on as it was begun, and the rest begins no earlier
// than that moment.
type kept struct {
	now  Minute
	late key // the job that takes longer than planned
	by   int // minutes longer
	past map[key]past
	// pauses is whether each pause was taken, by making.
	pauses map[*demand.Making][]bool
	until  Minute // what was to begin at or after this stays as it was; none: nothing does
	loose  bool   // waiting past a limit is bad, but allowed
}

// none is no moment.
const none Minute = maxMinutes

// key tells which job of another draft of the same meal a job is.
type key struct {
	kind   JobKind // empty for a course
	making *demand.Making
	step   *resolve.Step
	line   *resolve.Line
	load   int
	title  string // of a task or course
	n      int    // of washing up
}

func (j *job) key() key {
	switch {
	case j.wash != nil:
		return j.wash.key()
	case j.mk == nil:
		return key{kind: j.Kind, title: j.Title}
	case j.Step != nil:
		return key{kind: j.Kind, making: j.mk.m, step: j.Step.Step, load: j.Load}
	}
	return key{kind: j.Kind, making: j.mk.m, line: j.Line.Line}
}

// past is how a block of jobs stood in the earlier plan, by its first job.
type past struct {
	start Minute
	uses  []pastUse
}

// pastUse is what a use of a block had. Resources go by name: another draft may
// number them otherwise.
type pastUse struct {
	role    roleKind
	name    string
	setting int
}

// keeping is what a plan is to be kept by, from a moment on.
func (r *result) keeping(now Minute) *kept {
	k := &kept{now: now, until: none, past: map[key]past{}, pauses: map[*demand.Making][]bool{}}
	for _, b := range r.blocks() {
		task := r.solution.Tasks[b.act]
		p := past{start: r.draft.origin + task.Start*r.draft.grid}
		for n, role := range b.roles {
			p.uses = append(p.uses, pastUse{role, r.draft.p.Resources[task.Members[n]].Name, task.Settings[n]})
		}
		k.past[b.jobs[0].key()] = p
	}
	for _, c := range r.draft.courses {
		k.past[c.key()] = past{start: r.start(c)}
	}
	for _, mk := range r.draft.makings {
		for _, p := range mk.pauses {
			k.pauses[mk.m] = append(k.pauses[mk.m], p.state == paused || p.state == free && r.solution.Options[p.branch] == int(paused))
		}
	}
	return k
}

// more is how many minutes longer than planned a job takes.
func (d *draft) more(j *job) int {
	if k := d.set.keep; k != nil && j.key() == k.late {
		return k.by
	}
	return 0
}

// keepPast holds the problem to what was started.
func (d *draft) keepPast() {
	k := d.set.keep
	if k == nil {
		return
	}
	for _, j := range append(slices.Clone(d.jobs), d.courses...) {
		if j.block.jobs[0] != j {
			continue
		}
		act := &d.p.Activities[j.block.act]
		p, ok := k.past[j.key()]
		if j.Kind == "" && p.start >= k.now { // a course is served when it can be
			act.Release = max(0, ceilDiv(k.now-d.origin, d.grid))
			continue
		}
		if !ok || p.start >= k.now && (k.until == none || p.start < k.until) {
			act.Release = max(0, ceilDiv(k.now-d.origin, d.grid))
			if k.loose {
				act.Deadline = 0
			}
			continue
		}
		act.Release = floorDiv(p.start-d.origin, d.grid)
		act.Deadline = act.Release + act.Modes[0].Duration
		for n := range act.Modes[0].Uses {
			u := &act.Modes[0].Uses[n]
			if p.start >= k.now || j.block.roles[n] == ovenRole || p.start+u.From*d.grid < k.now { // another may see to it later
				d.keepUse(u, j.block.roles[n], p.uses)
			}
		}
	}
}

// keepUse leaves a use only those who had the same use before.
func (d *draft) keepUse(u *plan.Use, role roleKind, had []pastUse) {
	var of []int
	for _, res := range u.Of {
		if slices.ContainsFunc(had, func(p pastUse) bool { return p.role == role && p.name == d.p.Resources[res].Name }) {
			of = append(of, res)
		}
	}
	if len(of) > 0 {
		u.Of = of
	}
}

// served tells whether a course was served before the moment.
func (k *kept) served(course *job) bool {
	if k == nil {
		return false
	}
	p, ok := k.past[course.key()]
	return ok && p.start < k.now
}

// begun tells whether a job was begun before the moment.
func (k *kept) begun(of key) bool {
	if k == nil {
		return false
	}
	p, ok := k.past[of]
	return ok && p.start < k.now
}

// over eases hours for a meal that runs late: whoever is there stays as long as
// the delay, and on the day as long as it takes.
func (k *kept) over(windows []window) {
	if k == nil || !k.loose {
		return
	}
	for i := range windows {
		w := &windows[i]
		if w.from <= k.now && k.now <= w.to {
			w.to += k.by
		}
		if i == len(windows)-1 {
			w.to += lateness
		}
	}
}
