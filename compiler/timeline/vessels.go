package timeline

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
	mk          *making
	first, last *job
	until       moment // when it is empty again
}

// keepVessels sees that nothing else goes into a pot between two steps of a
// dish that both stand in it. The engine holds a vessel during steps only; so
// for a vessel there is one of, any two dishes that want it go one wholly
// before the other.
func (d *draft) keepVessels() {
	byVessel := map[string][]stay{}
	for _, mk := range d.makings {
		runs := map[string]*stay{}
		for _, j := range mk.steps {
			key := j.Step.Step.Vessel
			if v, ok := d.kit.vessels[key]; !ok || v.count != 1 || len(j.when) > 0 {
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
				if a.first != a.last || b.first != b.last || a.until.job != a.last || b.until.job != b.last {
					d.oneBeforeOther(key, a, b)
				}
			}
		}
	}
}

// emptied is when a vessel is free after a job: at its end, or, when it may be
// left longer, when what follows it begins.
func (d *draft) emptied(mk *making, j *job) moment {
	if j.extra == 0 && !j.open {
		return j.end()
	}
	for _, l := range d.links {
		if l.from.job == j && l.from.at == j.length && l.to.job != j && len(l.when) == 0 && len(l.to.job.when) == 0 {
			return l.to
		}
	}
	return mk.course.begin()
}

func (d *draft) oneBeforeOther(key string, a, b stay) {
	branch := d.p.AddBranch(plan.Branch{
		Name:    d.kit.vessels[key].name,
		Options: []plan.Option{{Name: a.mk.m.Recipe.Name + " first"}, {Name: b.mk.m.Recipe.Name + " first"}},
	})
	d.link(a.until, b.first.begin(), 0, -1, vesselFree, plan.Choice{Branch: branch, Option: 0})
	d.link(b.until, a.first.begin(), 0, -1, vesselFree, plan.Choice{Branch: branch, Option: 1})
}

// vesselsWanted is how many vessels a step takes: as many as are written, times
// the scaling and whole; a load takes as many as are written.
func vesselsWanted(mk *making, j *job) int {
	s := j.Step.Step
	if c := resolve.First[*resolve.InVessel](s.Margin); c == nil || c.Count == 0 || j.Loads > 1 {
		return max(1, s.Vessels)
	}
	return max(1, wholeMinutes(quantity.Int(int64(s.Vessels)).Mul(mk.m.Factor)))
}
