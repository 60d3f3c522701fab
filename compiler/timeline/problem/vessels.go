package problem

import (
	"cmp"
	"slices"

	"tamis/compiler/plan"
	"tamis/compiler/resolve"
	"tamis/lang/quantity"
)

// stay is a run of steps of one making that stand in one vessel: what is in it
// stays in it between them.
type stay struct {
	mk          *Making
	first, last *Job
	until       Moment // when it is empty again
}

// keepVessels sees that nothing else goes into a pot between two steps of a
// dish that both stand in it. The engine holds a vessel during steps only; so
// for a vessel there is one of, any two dishes that want it go one wholly
// before the other.
func (d *Draft) keepVessels() {
	byVessel := map[string][]stay{}
	for _, mk := range d.Makings {
		runs := map[string]*stay{}
		for _, j := range mk.Steps {
			key := j.Step.Step.Vessel
			if v, ok := d.Kit.Vessels[key]; !ok || v.Count != 1 || len(j.When) > 0 {
				continue
			}
			if r := runs[key]; r != nil {
				r.last = j
				continue
			}
			runs[key] = &stay{mk: mk, first: j, last: j}
		}
		for key, r := range runs {
			r.until = d.emptied(mk, r.last)
			byVessel[key] = append(byVessel[key], *r)
		}
	}
	var keys []string
	for key := range byVessel {
		keys = append(keys, key)
	}
	slices.Sort(keys)
	for _, key := range keys {
		stays := byVessel[key]
		slices.SortFunc(stays, func(a, b stay) int { return cmp.Compare(a.mk.index, b.mk.index) })
		for i, a := range stays {
			for _, b := range stays[i+1:] {
				if a.first != a.last || b.first != b.last || a.until.Job != a.last || b.until.Job != b.last {
					d.oneBeforeOther(key, a, b)
				}
			}
		}
	}
}

// emptied is when a vessel is free after a job: at its end, or, when it may be
// left longer, when what follows it begins.
func (d *Draft) emptied(mk *Making, j *Job) Moment {
	if j.Extra == 0 && !j.Open {
		return j.End()
	}
	for _, l := range d.Links {
		if l.From.Job == j && l.From.At == j.Length && l.To.Job != j && len(l.When) == 0 && len(l.To.Job.When) == 0 {
			return l.To
		}
	}
	return mk.Course.Begin()
}

func (d *Draft) oneBeforeOther(key string, a, b stay) {
	branch := d.P.AddBranch(plan.Branch{
		Name:    d.Kit.Vessels[key].Name,
		Options: []plan.Option{{Name: a.mk.M.Recipe.Name + " first"}, {Name: b.mk.M.Recipe.Name + " first"}},
	})
	d.Link(a.until, b.first.Begin(), 0, -1, VesselFree, plan.Choice{Branch: branch, Option: 0})
	d.Link(b.until, a.first.Begin(), 0, -1, VesselFree, plan.Choice{Branch: branch, Option: 1})
}

// vesselsWanted is how many vessels a step takes: as many as are written, times
// the scaling and whole; a load takes as many as are written.
func vesselsWanted(mk *Making, j *Job) int {
	s := j.Step.Step
	if c := resolve.First[*resolve.InVessel](s.Margin); c == nil || c.Count == 0 || j.Loads > 1 {
		return max(1, s.Vessels)
	}
	return max(1, wholeMinutes(quantity.Int(int64(s.Vessels)).Mul(mk.M.Factor)))
}
