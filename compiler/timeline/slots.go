package timeline

import (
	"cmp"
	"fmt"
	"slices"

	"tamis/compiler/resolve"
)

// firing is the use of an oven at a setting, in minutes.
type firing struct {
	oven     oven
	from, to Minute
	setting  int
	turned   Minute // when a step in it has the oven turned to this heat; none: no step has
}

// heats lists what the ovens do: uses at one setting with no more than a
// preheat between them are one spell.
func (r *result) heats(t *Timeline) {
	d := r.draft
	var uses []firing
	for _, b := range r.blocks() {
		task := r.solution.Tasks[b.act]
		mode := d.p.Activities[b.act].Modes[task.Mode].Uses
		for n, u := range mode {
			if o, ok := d.kit.ovenOf(task.Members[n]); ok && u.State != nil {
				at := d.origin + task.Start*d.grid
				f := firing{o, at + u.From*d.grid, min(at+u.To*d.grid, at+b.length), task.Settings[n], none}
				if n > 0 && b.roles[n-1] == ovenRole { // in it since before
					f.turned = f.from
					if settling := mode[n-1]; settling.State == nil {
						f.turned = at + settling.From*d.grid
					}
				}
				uses = append(uses, f)
			}
		}
	}
	slices.SortStableFunc(uses, func(a, b firing) int { return cmp.Compare(a.from, b.from) })
	last := map[int]*Heat{}
	for _, u := range uses {
		celsius := u.setting
		if u.oven.fan { // the engine counts as an oven without a fan is set
			celsius -= resolve.FanOffset
		}
		before, change := last[u.oven.res], 0
		if before != nil {
			change = u.oven.state.Gap(before.setting, u.setting) * d.grid
		}
		warm := before != nil && u.from-before.End <= max(u.oven.preheat, change)
		if warm && before.setting == u.setting { // it stays on
			before.End = max(before.End, u.to)
			continue
		}
		h := &Heat{Oven: u.oven.name, Celsius: celsius, Fan: u.oven.fan, Start: u.from, End: u.to, Preheat: u.from - u.oven.preheat, setting: u.setting}
		if warm {
			h.Turned, h.Preheat = true, max(before.End, u.from-change)
			if u.turned != none {
				h.Preheat = max(before.End, u.turned)
			}
		}
		last[u.oven.res] = h
		t.Heats = append(t.Heats, h)
	}
	if len(d.kit.ovens) == 0 {
		r.imagineOvens(t)
	}
	slices.SortStableFunc(t.Heats, func(a, b *Heat) int {
		return cmp.Or(cmp.Compare(a.Preheat, b.Preheat), cmp.Compare(a.Oven, b.Oven))
	})
}

// imagined is an oven of a kitchen that names none: as many as are wanted.
type imagined struct {
	name string
	last *Heat
}

// defaultPreheat is how long an oven takes to heat when nobody says, in
// minutes: common practice, no source.
const defaultPreheat = 15

// imagineOvens gives what bakes in a kitchen without ovens as few ovens as
// will do.
func (r *result) imagineOvens(t *Timeline) {
	var bakes []*job
	for _, j := range r.draft.jobs {
		if j.Step != nil && len(j.Step.Step.Heats) > 0 && r.on(j) {
			bakes = append(bakes, j)
		}
	}
	slices.SortStableFunc(bakes, func(a, b *job) int { return cmp.Compare(r.start(a), r.start(b)) })
	var ovens []*imagined
	for _, j := range bakes {
		r.job(j).Shelves = max(1, j.Step.Step.Shelves)
		parts := j.heatParts(1, j.length)
		if len(parts) == 0 {
			continue
		}
		at := r.start(j)
		first := j.Step.Step.Heats[parts[0].heat]
		i := slices.IndexFunc(ovens, func(o *imagined) bool {
			if at+parts[0].from >= o.last.End+defaultPreheat {
				return true
			}
			same := first.Low <= o.last.Celsius && o.last.Celsius <= first.High
			return same && len(parts) == 1 && at+parts[0].from >= o.last.Start
		})
		if i < 0 {
			name := "oven"
			if len(ovens) > 0 {
				name = fmt.Sprintf("oven %d", len(ovens)+1)
			}
			ovens = append(ovens, &imagined{name: name})
			i = len(ovens) - 1
		}
		o := ovens[i]
		r.job(j).Oven = o.name
		for n, p := range parts {
			h := &Heat{Oven: o.name, Start: at + p.from, End: at + p.to, Celsius: j.Step.Step.Heats[p.heat].Low}
			h.Preheat = h.Start - defaultPreheat
			if n > 0 {
				h.Turned, h.Preheat = true, h.Start
			} else if l := o.last; l != nil && h.Start <= l.End+defaultPreheat && first.Low <= l.Celsius && l.Celsius <= first.High {
				l.End = max(l.End, h.End)
				continue
			}
			t.Heats = append(t.Heats, h)
			o.last = h
		}
	}
}

func (r *result) startOf(j *job) Minute {
	if !r.on(j) {
		return 0
	}
	return r.start(j)
}
