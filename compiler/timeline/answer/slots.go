package answer

import (
	"cmp"
	"fmt"
	"slices"

	"tamis/compiler/timeline"
	"tamis/compiler/timeline/problem"
	"tamis/lang/quantity"
)

// firing is the use of an oven at a setting, in minutes.
type firing struct {
	oven     problem.Oven
	from, to timeline.Minute
	setting  int
	turned   timeline.Minute // when a step in it has the oven turned to this heat; none: no step has
}

// staysHot is how long before it would be lit again nobody turns an oven off, in minutes:
// common practice, no source.
const staysHot = 20

// heats lists what the ovens do: uses at one setting with little more than a
// preheat between them are one spell.
func (r *Result) heats(t *timeline.Timeline) {
	d := r.Draft
	var uses []firing
	for _, b := range r.Blocks() {
		task := r.Solution.Tasks[b.Act]
		mode := d.P.Activities[b.Act].Modes[task.Mode].Uses
		for n, u := range mode {
			if o, ok := d.Kit.OvenOf(task.Members[n]); ok && u.State != nil {
				at := d.Origin + task.Start*d.Grid
				f := firing{o, at + u.From*d.Grid, min(at+u.To*d.Grid, at+b.Length), task.Settings[n], problem.None}
				if n > 0 && b.Roles[n-1] == problem.OvenRole { // in it since before
					f.turned = f.from
					if settling := mode[n-1]; settling.State == nil {
						f.turned = at + settling.From*d.Grid
					}
				}
				uses = append(uses, f)
			}
		}
	}
	slices.SortStableFunc(uses, func(a, b firing) int { return cmp.Compare(a.from, b.from) })
	last := map[int]*timeline.Heat{}
	for _, u := range uses {
		celsius := u.setting
		if u.oven.Fan { // the engine counts as an oven without a fan is set
			celsius = quantity.FanOven(celsius)
		}
		before, change := last[u.oven.Res], 0
		if before != nil {
			change = u.oven.State.Gap(before.Setting, u.setting) * d.Grid
		}
		warm := before != nil && u.from-before.End <= max(u.oven.Preheat, change)+staysHot
		if warm && before.Setting == u.setting { // it stays on
			before.End = max(before.End, u.to)
			continue
		}
		h := &timeline.Heat{Oven: u.oven.Name, Celsius: celsius, Fan: u.oven.Fan, Start: u.from, End: u.to, Preheat: u.from - u.oven.Preheat, Setting: u.setting}
		if warm {
			h.Turned, h.Preheat = true, max(before.End, u.from-change)
			if u.turned != problem.None {
				h.Preheat = max(before.End, u.turned)
			}
		}
		last[u.oven.Res] = h
		t.Heats = append(t.Heats, h)
	}
	if len(d.Kit.Ovens) == 0 {
		r.imagineOvens(t)
	}
	slices.SortStableFunc(t.Heats, func(a, b *timeline.Heat) int {
		return cmp.Or(cmp.Compare(a.Preheat, b.Preheat), cmp.Compare(a.Oven, b.Oven))
	})
}

// imagined is an oven of a kitchen that names none: as many as are wanted.
type imagined struct {
	name string
	last *timeline.Heat
}

// defaultPreheat is how long an oven takes to heat when nobody says, in
// minutes: common practice, no source.
const defaultPreheat = 15

// imagineOvens gives what bakes in a kitchen without ovens as few ovens as
// will do.
func (r *Result) imagineOvens(t *timeline.Timeline) {
	var bakes []*problem.Job
	for _, j := range r.Draft.Jobs {
		if j.Step != nil && len(j.Step.Step.Heats) > 0 && r.On(j) {
			bakes = append(bakes, j)
		}
	}
	slices.SortStableFunc(bakes, func(a, b *problem.Job) int { return cmp.Compare(r.Start(a), r.Start(b)) })
	var ovens []*imagined
	for _, j := range bakes {
		r.Job(j).Shelves = max(1, j.Step.Step.Shelves)
		parts := j.HeatParts(1, j.Cooked())
		if len(parts) == 0 {
			continue
		}
		at := r.Start(j)
		first := j.Step.Step.Heats[parts[0].Heat]
		i := slices.IndexFunc(ovens, func(o *imagined) bool {
			if at+parts[0].From >= o.last.End+defaultPreheat {
				return true
			}
			same := first.Low <= o.last.Celsius && o.last.Celsius <= first.High
			return same && len(parts) == 1 && at+parts[0].From >= o.last.Start
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
		r.Job(j).Oven = o.name
		for n, p := range parts {
			h := &timeline.Heat{Oven: o.name, Start: at + p.From, End: at + p.To, Celsius: j.Step.Step.Heats[p.Heat].Low}
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
