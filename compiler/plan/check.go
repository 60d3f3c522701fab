package plan

import "fmt"

// Check finds malformed problems: indices out of range, windows outside their activity,
// negative sizes. It says nothing on whether a plan exists.
func (p *Problem) Check() error {
	if p.Horizon < 0 || p.Horizon > maxTime {
		return fmt.Errorf("plan: horizon %d is not between 0 and %d", p.Horizon, maxTime)
	}
	for i, r := range p.Resources {
		if err := r.check(); err != nil {
			return fmt.Errorf("plan: resource %d (%s): %w", i, r.Name, err)
		}
	}
	for i, b := range p.Branches {
		if len(b.Options) == 0 || b.Preset < 0 || b.Preset >= len(b.Options) {
			return fmt.Errorf("plan: branch %d (%s): preset %d of %d options", i, b.Name, b.Preset, len(b.Options))
		}
		for _, o := range b.Options {
			if o.Cost < 0 || o.Cost > maxTime {
				return fmt.Errorf("plan: branch %d (%s): cost %d of option %s", i, b.Name, o.Cost, o.Name)
			}
		}
	}
	for i, a := range p.Activities {
		if err := p.checkActivity(a); err != nil {
			return fmt.Errorf("plan: activity %d (%s): %w", i, a.Name, err)
		}
	}
	return p.checkRules()
}

// maxTime bounds times, weights and amounts, so that sums of products stay within 64 bits.
const maxTime = 1 << 22

func (r Resource) check() error {
	if r.Capacity < 0 || r.Capacity > maxTime {
		return fmt.Errorf("capacity %d", r.Capacity)
	}
	last := -1
	for _, s := range r.Calendar {
		if s.From < 0 || s.From < last || s.To <= s.From || s.To > 2*maxTime {
			return fmt.Errorf("calendar spell %d to %d is empty, out of order or too far off", s.From, s.To)
		}
		last = s.To
	}
	if st := r.State; st != nil {
		for _, d := range []int{st.First, st.Change, st.Off, st.Up, st.Down, st.Step} {
			if d < 0 || d > maxTime {
				return fmt.Errorf("time %d in the state rule", d)
			}
		}
	}
	if r.Stock && (r.Calendar != nil || r.State != nil) {
		return fmt.Errorf("what is used up has neither calendar nor state")
	}
	return nil
}

func (p *Problem) checkActivity(a Activity) error {
	if len(a.Modes) == 0 {
		return fmt.Errorf("no modes")
	}
	if a.Release < 0 || a.Deadline < 0 || a.Release > maxTime || a.Deadline > maxTime {
		return fmt.Errorf("release %d, deadline %d", a.Release, a.Deadline)
	}
	if err := p.checkWhen(a.When); err != nil {
		return err
	}
	for k, m := range a.Modes {
		if m.Duration < 0 || m.Duration > maxTime || m.Cost < 0 || m.Cost > maxTime {
			return fmt.Errorf("mode %d: duration %d, cost %d", k, m.Duration, m.Cost)
		}
		for n, u := range m.Uses {
			if err := p.checkUse(u, m.Duration); err != nil {
				return fmt.Errorf("mode %d, use %d: %w", k, n, err)
			}
		}
	}
	return nil
}

func (p *Problem) checkUse(u Use, duration int) error {
	if len(u.Of) == 0 {
		return fmt.Errorf("no resource")
	}
	seen := map[int]bool{}
	for _, r := range u.Of {
		if r < 0 || r >= len(p.Resources) || seen[r] {
			return fmt.Errorf("resource %d does not exist or is named twice", r)
		}
		seen[r] = true
		if u.State != nil && p.Resources[r].State == nil {
			return fmt.Errorf("asks resource %d for a state it has no rule for", r)
		}
	}
	if u.Amount < 0 || u.Amount > maxTime {
		return fmt.Errorf("amount %d", u.Amount)
	}
	if whole := u.From == 0 && u.To == 0; !whole && (u.From < 0 || u.To <= u.From || u.To > duration) {
		return fmt.Errorf("window %d to %d of an activity of %d", u.From, u.To, duration)
	}
	if u.State != nil && (u.State.Lo > u.State.Hi || u.State.Lo < -maxTime || u.State.Hi > maxTime) {
		return fmt.Errorf("state range %d to %d", u.State.Lo, u.State.Hi)
	}
	return nil
}

func (p *Problem) checkRules() error {
	for i, l := range p.Lags {
		if !p.has(l.Before) || !p.has(l.After) || l.Gap > maxTime || l.Gap < -maxTime {
			return fmt.Errorf("plan: lag %d (%s): no such activity, or gap %d", i, l.Why, l.Gap)
		}
		if err := p.checkWhen(l.When); err != nil {
			return fmt.Errorf("plan: lag %d (%s): %w", i, l.Why, err)
		}
	}
	for i, d := range p.Dues {
		if !p.has(d.Of) || d.Weight < 0 || d.Weight > maxTime || d.At < 0 || d.At > maxTime {
			return fmt.Errorf("plan: due %d: no such activity, or weight %d at %d", i, d.Weight, d.At)
		}
	}
	for i, w := range p.Waits {
		if !p.has(w.From) || !p.has(w.To) || w.Weight < 0 || w.Weight > maxTime || w.Free < 0 || w.Free > maxTime {
			return fmt.Errorf("plan: wait %d: no such activity, or weight %d, free %d", i, w.Weight, w.Free)
		}
	}
	return p.checkSizes()
}

// checkSizes keeps the sums of the score within what the engine counts with.
func (p *Problem) checkSizes() error {
	const most = 1 << 30
	late, wait, cost, held := 0, 0, 0, 0
	for _, r := range p.Resources {
		held += r.Capacity
	}
	for _, d := range p.Dues {
		late += d.Weight
	}
	for _, w := range p.Waits {
		wait += w.Weight
	}
	for _, b := range p.Branches {
		for _, o := range b.Options {
			cost += o.Cost
		}
	}
	for _, a := range p.Activities {
		for _, m := range a.Modes {
			cost += m.Cost
			for _, u := range m.Uses {
				held += u.Amount
			}
		}
	}
	if held > most {
		return fmt.Errorf("plan: capacities or amounts too large: together they must stay below %d", most)
	}
	h := p.Horizon + 1
	if late > most/h || wait > most/h || len(p.Activities) > most/h || cost > most {
		return fmt.Errorf("plan: weights or costs too large: weight times horizon must stay below %d", most)
	}
	return nil
}

func (p *Problem) has(m Moment) bool {
	return m.Activity >= 0 && m.Activity < len(p.Activities) && m.Edge <= End
}

func (p *Problem) checkWhen(w When) error {
	for _, c := range w {
		if c.Branch < 0 || c.Branch >= len(p.Branches) || c.Option < 0 || c.Option >= len(p.Branches[c.Branch].Options) {
			return fmt.Errorf("no option %d of branch %d", c.Option, c.Branch)
		}
	}
	return nil
}
