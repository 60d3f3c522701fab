package problem

import (
	"slices"

	"tamis/compiler/resolve"
	"tamis/compiler/timeline"
	"tamis/lang/quantity"
)

const (
	// mostApart is how many loads are planned one by one. More of them go round
	// without a clock of their own.
	MostApart = 12
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
func (d *Draft) stepJobs(mk *Making, sr *resolve.StepReading) (out []*Job) {
	n := d.loads(mk, sr)
	if n < 2 || n > MostApart || !apart(sr.Step) {
		return []*Job{d.stepJob(mk, sr, n, 0)}
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
func (j *Job) swaps() {
	if j.Load > 1 && j.Parts[0].Kind == resolve.Leave {
		j.Touches = append([]touch{{To: Offset(min(swapMinutes, j.Length)), Swap: true}}, j.Touches...)
	}
}

// inTurn puts the loads of a step in order: they end in the order in which they
// begin, none waits long for its turn, and what is hot least of all.
func (d *Draft) inTurn(loads []*Job) {
	for i := 1; i < len(loads); i++ {
		a, b := loads[i-1], loads[i]
		d.Link(a.Begin(), Moment{b, 0}, max(0, a.Length-b.Length), a.Length+loadsApart, NextLoad)
		if a.Hot {
			d.waitFrom(a, b, 0, waitHeld)
		}
	}
}

// LoadsOf are the jobs of a step that its making knows by the last of them.
func (d *Draft) LoadsOf(mk *Making, last *Job) (out []*Job) {
	if last.head == nil {
		return []*Job{last}
	}
	for _, j := range d.Jobs {
		if j.Mk == mk && j.Kind == timeline.StepJob && j.Step == last.Step {
			out = append(out, j)
		}
	}
	return out
}

// ServedHot tells whether a dish goes to the table hot: a roll that is served
// warm may cool on its rack.
func (mk *Making) ServedHot() bool {
	how := mk.M.Recipe.ServeHow
	return how != nil && how.State == "hot"
}

// cold tells whether a dish is served cold or at room temperature.
func (mk *Making) cold() bool {
	how := mk.M.Recipe.ServeHow
	return how != nil && (how.State == "cold" || how.State == "at room temperature")
}
