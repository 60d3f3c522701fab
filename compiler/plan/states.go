package plan

import "slices"

// The settings of resources with a state, as someone would write them down.

// stay is one use with a state.
type stay struct {
	from, to   int
	task, use  int
	lo, hi, at int
}

// stays lists the uses with a state of resource r, in order of time.
func (p *Problem) stays(s *Solution, r int) []stay {
	var list []stay
	for i, t := range s.Tasks {
		if !t.On {
			continue
		}
		m := &p.Activities[i].Modes[t.Mode]
		for n, u := range m.Uses {
			if u.State == nil || t.Members[n] != r || u.Amount == 0 {
				continue
			}
			from, to := u.window(m.Duration)
			if from < to {
				list = append(list, stay{t.Start + from, t.Start + to, i, n, u.State.Lo, u.State.Hi, t.Settings[n]})
			}
		}
	}
	slices.SortStableFunc(list, func(a, b stay) int { return a.from - b.from })
	return list
}

// join gives the stays from i up to and with j one value within a range, if there is one that
// leaves time for the changes from and to the others: the search had no reason to change it.
func (rule *State) join(list []stay, i, j, lo, hi int) bool {
	for at := lo; at <= hi; at++ {
		if rule.fits(list, i, j+1, at) {
			for n := i; n <= j; n++ {
				list[n].at = at
			}
			return true
		}
	}
	return false
}

// settle gives each run of one setting a round value near the middle of what all its uses
// allow, as far as the changes before and after it leave time for, and reports the runs. A run
// ends where the setting changes, where the resource idles too long, and where it closes.
func (p *Problem) settle(s *Solution) {
	s.States = nil
	for r := range p.Resources {
		res := &p.Resources[r]
		if res.State == nil {
			continue
		}
		list := p.stays(s, r)
		// A value may stand in the way of a rounder one before it only until it is rounded
		// itself, so the runs are gone over until nothing changes; a few times do.
		var runs []Steady
		for range 4 {
			before := slices.Clone(list)
			if runs = p.runs(r, list); slices.Equal(before, list) {
				break
			}
		}
		for _, st := range list {
			s.Tasks[st.task].Settings[st.use] = st.at
		}
		s.States = append(s.States, runs...)
	}
}

// runs gives each run of stays in a resource its value, and reports the runs.
func (p *Problem) runs(r int, list []stay) (out []Steady) {
	res := &p.Resources[r]
	rule := res.State
	// An idle spell ends a run only if making ready fits into it, and a change does.
	off := max(rule.Off, rule.First, rule.Change)
	var last Steady
	for i := 0; i < len(list); {
		j, to := i+1, list[i].to
		lo, hi := list[i].lo, list[i].hi
		for j < len(list) && list[j].from-to <= off && res.IsOpen(to, list[j].from) {
			low, high := max(lo, list[j].lo), min(hi, list[j].hi)
			if list[j].at != list[i].at && !rule.join(list, i, j, low, high) {
				break
			}
			to, lo, hi = max(to, list[j].to), low, high
			j++
		}
		at := rule.roundSetting(list, i, j, lo, hi)
		run := Steady{Resource: r, From: list[i].from, To: to, Setting: at}
		for n := i; n < j; n++ {
			list[n].at = at
		}
		run.Ready = run.From - rule.First
		if i > 0 && run.From-last.To <= off && res.IsOpen(last.To, run.From) {
			run.Ready = max(last.To, run.From-rule.Gap(last.Setting, run.Setting))
		}
		out = append(out, run)
		last = run
		i = j
	}
	return out
}

// roundSetting is the roundest value within a range for the stays from i up to j, one run, that
// leaves time for the changes from and to the others as they are now set.
func (rule *State) roundSetting(list []stay, i, j, lo, hi int) int {
	from, to := list[i].at, list[i].at
	for from > lo && rule.fits(list, i, j, from-1) {
		from--
	}
	for to < hi && rule.fits(list, i, j, to+1) {
		to++
	}
	return roundest(from, to)
}

// fits tells whether the stays from i up to j could all have a value, the others being as they
// are.
func (rule *State) fits(list []stay, i, j, at int) bool {
	for n, other := range list {
		if n >= i && n < j {
			continue
		}
		for _, st := range list[i:j] {
			switch {
			case st.from >= other.to:
				if st.from-other.to < rule.Gap(other.at, at) {
					return false
				}
			case other.from >= st.to:
				if other.from-st.to < rule.Gap(at, other.at) {
					return false
				}
			case other.at != at:
				return false
			}
		}
	}
	return true
}

// roundest is the multiple of ten within the range that is nearest its middle, or else of
// five, or else the middle.
func roundest(lo, hi int) int {
	middle := lo + (hi-lo)/2
	for _, step := range []int{10, 5} {
		down := middle - ((middle%step)+step)%step
		near := down
		if down < lo || down+step <= hi && down+step-middle < middle-down {
			near = down + step
		}
		if lo <= near && near <= hi {
			return near
		}
	}
	return middle
}
