package plan

// From the engine back to the model: the plan that the fixed variables describe, its score,
// and the settings of ovens and the like, made presentable.

// read takes the plan off an engine in which every variable is fixed.
func (c *encoding) read() *Solution {
	e, p := c.e, c.p
	s := &Solution{Options: make([]int, len(p.Branches)), Tasks: make([]Task, len(p.Activities))}
	for i, options := range c.option {
		s.Options[i] = chosen(e, options)
	}
	for i := range p.Activities {
		t := &s.Tasks[i]
		t.On = e.holdsNow(c.on[i])
		if !t.On {
			continue
		}
		t.Mode = chosen(e, c.mode[i])
		m := &p.Activities[i].Modes[t.Mode]
		t.Start = int(e.lo(c.start[i]))
		t.End = t.Start + m.Duration
		for n, u := range m.Uses {
			t.Members = append(t.Members, u.Of[chosen(e, c.member[i][t.Mode][n])])
			setting := 0
			if u.State != nil {
				setting = int(e.lo(c.settingAt(i, t.Mode, n)))
			}
			t.Settings = append(t.Settings, setting)
		}
	}
	c.deal(s)
	s.Score = p.score(s)
	return s
}

// chosen is the number of the first statement that holds, 0 if none does.
func chosen(e *engine, picks []lit) int {
	for k, l := range picks {
		if e.holdsNow(l) {
			return k
		}
	}
	return 0
}

// time is when the moment falls.
func (s *Solution) time(m Moment) int {
	if m.Edge == End {
		return s.Tasks[m.Activity].End
	}
	return s.Tasks[m.Activity].Start
}

// score measures a plan.
func (p *Problem) score(s *Solution) Score {
	var z Score
	for i, b := range p.Branches {
		z[Cost] += b.Options[s.Options[i]].Cost
	}
	for i, t := range s.Tasks {
		if t.On {
			z[Cost] += p.Activities[i].Modes[t.Mode].Cost
		}
	}
	if p.Goal == Makespan {
		for _, t := range s.Tasks {
			if t.On {
				z[0] = max(z[0], t.End)
			}
		}
		return z
	}
	for _, d := range p.Dues {
		if s.Tasks[d.Of.Activity].On {
			z[Lateness] += d.Weight * max(0, s.time(d.Of)-d.At)
		}
	}
	for _, w := range p.Waits {
		if s.Tasks[w.From.Activity].On && s.Tasks[w.To.Activity].On {
			z[Waiting] += w.Weight * max(0, s.time(w.To)-s.time(w.From)-w.Free)
		}
	}
	z[Lead] = p.Horizon - p.firstHands(s)
	for _, t := range s.Tasks {
		if t.On {
			z[Earliness] += p.Horizon - t.Start
		}
	}
	return z
}

// firstHands is when the first hands-on work starts, the horizon if there is none.
func (p *Problem) firstHands(s *Solution) int {
	first, none := p.Horizon, true
	for _, r := range p.Resources {
		none = none && !r.Hands
	}
	for i, t := range s.Tasks {
		if !t.On {
			continue
		}
		if none {
			first = min(first, t.Start)
			continue
		}
		m := &p.Activities[i].Modes[t.Mode]
		for n, u := range m.Uses {
			if from, to := u.window(m.Duration); from < to && u.Amount > 0 && p.Resources[t.Members[n]].Hands {
				first = min(first, t.Start+from)
			}
		}
	}
	return first
}
