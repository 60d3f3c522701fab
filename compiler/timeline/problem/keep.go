package problem

import (
	"slices"

	"tamis/compiler/demand"
	"tamis/compiler/plan"
	"tamis/compiler/resolve"
	"tamis/compiler/timeline"
)

// Kept is the part of an earlier plan that a later one keeps to: what has been
// started by a moment goes on as it was begun, and the rest begins no earlier
// than that moment.
type Kept struct {
	Now  timeline.Minute
	Late Key // the job that takes longer than planned
	By   int // minutes longer
	Past map[Key]Past
	// pauses is whether each pause was taken, by making.
	Pauses map[*demand.Making][]bool
	Until  timeline.Minute // what was to begin at or after this stays as it was; none: nothing does
	Loose  bool            // waiting past a limit is bad, but allowed
}

// None is no moment.
const None timeline.Minute = timeline.MaxMinutes

// Key tells which job of another draft of the same meal a job is.
type Key struct {
	kind   timeline.JobKind // empty for a course
	Making *demand.Making
	step   *resolve.Step
	line   *resolve.Line
	load   int
	Title  string // of a task or course
	n      int    // of washing up
}

func (j *Job) Key() Key {
	switch {
	case j.Wash != nil:
		return j.Wash.Key()
	case j.Mk == nil:
		return Key{kind: j.Kind, Title: j.Title}
	case j.Step != nil:
		return Key{kind: j.Kind, Making: j.Mk.M, step: j.Step.Step, load: j.Load}
	}
	return Key{kind: j.Kind, Making: j.Mk.M, line: j.Line.Line}
}

// Past is how a block of jobs stood in the earlier plan, by its first job.
type Past struct {
	Start timeline.Minute
	Uses  []PastUse
}

// PastUse is what a use of a block had. Resources go by name: another draft may
// number them otherwise.
type PastUse struct {
	Role    RoleKind
	Name    string
	Setting int
}

// More is how many minutes longer than planned a job takes.
func (d *Draft) More(j *Job) int {
	if k := d.Set.Keep; k != nil && j.Key() == k.Late {
		return k.By
	}
	return 0
}

// keepPast holds the problem to what was started.
func (d *Draft) keepPast() {
	k := d.Set.Keep
	if k == nil {
		return
	}
	for _, j := range append(slices.Clone(d.Jobs), d.Courses...) {
		if j.Block.Jobs[0] != j {
			continue
		}
		act := &d.P.Activities[j.Block.Act]
		p, ok := k.Past[j.Key()]
		if j.Kind == "" && p.Start >= k.Now { // a course is served when it can be
			act.Release = max(0, timeline.CeilDiv(k.Now-d.Origin, d.Grid))
			continue
		}
		if !ok || p.Start >= k.Now && (k.Until == None || p.Start < k.Until) {
			act.Release = max(0, timeline.CeilDiv(k.Now-d.Origin, d.Grid))
			if k.Loose {
				act.Deadline = 0
			}
			continue
		}
		act.Release = timeline.FloorDiv(p.Start-d.Origin, d.Grid)
		act.Deadline = act.Release + act.Modes[0].Duration
		for n := range act.Modes[0].Uses {
			u := &act.Modes[0].Uses[n]
			if p.Start >= k.Now || j.Block.Roles[n] == OvenRole || p.Start+u.From*d.Grid < k.Now { // another may see to it later
				d.keepUse(u, j.Block.Roles[n], p.Uses)
			}
		}
	}
}

// keepUse leaves a use only those who had the same use before.
func (d *Draft) keepUse(u *plan.Use, role RoleKind, had []PastUse) {
	var of []int
	for _, res := range u.Of {
		if slices.ContainsFunc(had, func(p PastUse) bool { return p.Role == role && p.Name == d.P.Resources[res].Name }) {
			of = append(of, res)
		}
	}
	if len(of) > 0 {
		u.Of = of
	}
}

// Served tells whether a course was served before the moment.
func (k *Kept) Served(course *Job) bool {
	if k == nil {
		return false
	}
	p, ok := k.Past[course.Key()]
	return ok && p.Start < k.Now
}

// Begun tells whether a job was begun before the moment.
func (k *Kept) Begun(of Key) bool {
	if k == nil {
		return false
	}
	p, ok := k.Past[of]
	return ok && p.Start < k.Now
}

// over eases hours for a meal that runs late: whoever is there stays as long as
// the delay, and on the day as long as it takes.
func (k *Kept) over(windows []Window) {
	if k == nil || !k.Loose {
		return
	}
	for i := range windows {
		w := &windows[i]
		if w.From <= k.Now && k.Now <= w.To {
			w.To += k.By
		}
		if i == len(windows)-1 {
			w.To += lateness
		}
	}
}
