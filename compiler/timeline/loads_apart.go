package timeline

import (
	"fmt"
	"slices"

	"tamis/compiler/resolve"
	"tamis/lang/quantity"
)

const (
	// mostApart is how many loads are planned one by one. More of them go round
	// without a clock of their own.
	mostApart = 12
	// loadsApart is how long the next load may wait once the one before is out,
	// in minutes, while something else has the oven: common practice, no source.
	loadsApart = 30
	// swapMinutes is how long it takes to put in a load that has no work of its
	// own: common practice, no source.
	swapMinutes = 1
)

// stepJobs makes the job of a step, or one for each load of it: while a load is
// left, the hands are free, the next may go into another oven, and something
// else may go in between.
func (d *draft) stepJobs(mk *making, sr *resolve.StepReading) (out []*job) {
	n := d.loads(mk, sr)
	if n < 2 || n > mostApart || !apart(sr.Step) {
		return []*job{d.stepJob(mk, sr, n, 0)}
	}
	for load := range n {
		out = append(out, d.stepJob(mk, sr, n, load+1))
	}
	out[n-1].head = out[0]
	return out
}

// apart tells whether the loads of a step are jobs of their own: when each is
// left for a time, and nothing is done to all of them in between. A step that
// keeps the hands from the first load to the last is one job.
func apart(s *resolve.Step) bool {
	first, last, left := -1, -1, false
	for i, sp := range s.Phases {
		if sp.Per != nil && sp.Each.Load {
			if first < 0 {
				first = i
			}
			last, left = i, left || sp.Kind == resolve.Leave
		}
	}
	return left && !slices.ContainsFunc(s.Phases[first:last+1], func(sp resolve.Spell) bool { return sp.Every == nil && (sp.Per == nil || !sp.Each.Load) })
}

// share says how much of phase i belongs to one load: how many times its fixed
// part, and how many times its growing part, of which there are count in all.
// What is done once is done with the first load, or with the last when it comes
// after the loads.
func share(s *resolve.Step, i, loads, load int, count quantity.Number) (fixed int, growing quantity.Number) {
	byLoad := func(sp resolve.Spell) bool { return sp.Per != nil && sp.Each.Load }
	with := 1
	if i > slices.IndexFunc(s.Phases, byLoad) && !byLoad(s.Phases[i]) {
		with = loads
	}
	if load == with {
		fixed = 1
	}
	switch {
	case byLoad(s.Phases[i]):
		return fixed, quantity.Int(1)
	case fixed == 1:
		return 1, count
	}
	return 0, quantity.Int(0)
}

// swaps gives a load that goes in without any work of its own a hand at its
// beginning. Someone sees to the first load when the step is begun.
func (j *job) swaps() {
	if j.Load > 1 && j.parts[0].kind == resolve.Leave {
		j.touches = append([]touch{{to: offset(min(swapMinutes, j.length)), swap: true}}, j.touches...)
	}
}

// inTurn puts the loads of a step in order: they end in the order in which they
// begin, none waits long for its turn, and what is hot least of all.
func (d *draft) inTurn(loads []*job) {
	for i := 1; i < len(loads); i++ {
		a, b := loads[i-1], loads[i]
		d.link(a.begin(), moment{b, 0}, max(0, a.length-b.length), a.length+loadsApart, nextLoad)
		if a.hot {
			d.waitFrom(a, b, 0, waitHeld)
		}
	}
}

// loadsOf are the jobs of a step that its making knows by the last of them.
func (d *draft) loadsOf(mk *making, last *job) (out []*job) {
	if last.head == nil {
		return []*job{last}
	}
	for _, j := range d.jobs {
		if j.mk == mk && j.Kind == StepJob && j.Step == last.Step {
			out = append(out, j)
		}
	}
	return out
}

// LoadText says which load of its step a job is, "load 2 of 3"; empty when it is
// all of it.
func (j *Piece) LoadText() string {
	if j.Load == 0 {
		return ""
	}
	return fmt.Sprintf("load %d of %d", j.Load, j.Loads)
}

// sayLoads hints at hot food whose first load waits for the last longer than
// such food may wait. The plan has them as near each other as it can.
func (r *result) sayLoads() {
	if r.diags == nil {
		return
	}
	said := map[*resolve.Step]bool{}
	for _, mk := range r.draft.makings {
		for i, last := range mk.steps {
			first, s := last.first(), last.Step.Step
			_, held := last.held()
			if first == last || !r.on(first) || !last.hot || said[s] || !held && !mk.servedHot() {
				continue
			}
			most := r.draft.limit(last)
			if !held && mk.last(i) {
				most = max(most, r.draft.tableLimit(mk, last))
			}
			if most < 0 || r.job(first).Waits <= most {
				continue
			}
			said[s] = true
			if held {
				r.diags.Queryf("P110", last.place, "the first of %d loads is held %s, and `hold` allows %s", first.Loads, spanWords(r.job(first).Waits), spanWords(most)).
					Because("they go in one after the other, as near together as the plan can bring them, and all of them are wanted at once").
					WithHelp("cook more at a time: more tins, more shelves, a larger vessel").
					WithHelp("or hold it as long as that takes, if it bears it: `| hold hot up to %s, above 63 C`", spanWords(ceilDiv(r.job(first).Waits, 15)*15))
				continue
			}
			r.diags.Hintf("P110", last.place, "the first of %d loads waits %s, and %s are allowed", first.Loads, spanWords(r.job(first).Waits), spanWords(most)).
				Because("they go in one after the other, as near together as the plan can bring them").
				WithHelp("say how it is kept meanwhile: `| hold hot up to %s, above 63 C`", spanWords(ceilDiv(r.job(first).Waits, 15)*15)).
				WithHelp("or cook more at a time: more tins, more shelves, a larger vessel")
		}
	}
}

// servedHot tells whether a dish goes to the table hot: a roll that is served
// warm may cool on its rack.
func (mk *making) servedHot() bool {
	how := mk.m.Recipe.ServeHow
	return how != nil && how.State == "hot"
}

// cold tells whether a dish is served cold or at room temperature.
func (mk *making) cold() bool {
	how := mk.m.Recipe.ServeHow
	return how != nil && (how.State == "cold" || how.State == "at room temperature")
}
