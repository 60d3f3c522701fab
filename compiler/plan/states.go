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

// settle gives each run of one setting a round value near the middle of what all its uses
// allow, and reports the runs. A run ends where the setting changes, where the resource idles
// too long, and where it closes.
func (p *Problem) settle(s *Solution) {
	s.States = nil
	for r := range p.Resources {
		res := &p.Resources[r]
		rule := res.State
		if rule == nil {
			continue
		}
		list := p.stays(s, r)
		// An idle spell ends a run only if making ready fits into it, and a change does.
		off := max(rule.Off, rule.First, rule.Change)
		var last Steady
		for i := 0; i < len(list); {
			j, to := i, list[i].to
			lo, hi := list[i].lo, list[i].hi
			for j < len(list) && list[j].at == list[i].at && (j == i || list[j].from-to <= off && res.isOpen(to, list[j].from)) {
				to, lo, hi = max(to, list[j].to), max(lo, list[j].lo), min(hi, list[j].hi)
				j++
			}
			run := Steady{Resource: r, From: list[i].from, To: to, Setting: roundest(lo, hi)}
			for _, st := range list[i:j] {
				s.Tasks[st.task].Settings[st.use] = run.Setting
			}
			run.Ready = run.From - rule.First
			if i > 0 && run.From-last.To <= off && res.isOpen(last.To, run.From) {
				run.Ready = max(last.To, run.From-rule.Change)
				if run.Setting == last.Setting {
					run.Ready = run.From
				}
			}
			s.States = append(s.States, run)
			last = run
			i = j
		}
	}
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
