package plan

// The goal in the engine: for each place of the score, a side to be made as small as can be.

// stage is one place of the score: the value of side, plus add.
type stage struct {
	place int
	side  side
	add   int64
}

// atMost is the statement that the place of the score is at most v.
func (s stage) atMost(v int) lit {
	m := int64(v) - s.add
	return lit{s.side, int32(max(min(m, 1<<30), -1<<30))}
}

// least is the smallest value the bounds leave.
func (s stage) least(e *engine) int { return int(int64(-e.top[s.side^1]) + s.add) }

func (c *encoding) encodeGoal() {
	if c.guards != nil {
		return // any plan will do
	}
	if c.p.Goal == Makespan {
		c.encodeMakespan()
	} else {
		c.encodeLateness()
		c.encodeWaiting()
		c.encodeLead()
		c.encodeEarliness()
	}
	c.encodeCost()
}

// aux makes a variable that only measures, and is not to be chosen.
func (c *encoding) aux(lo, hi int32) variable {
	x := c.e.newVariable(lo, hi)
	c.e.order.mute[x] = true
	return x
}

func (c *encoding) encodeMakespan() {
	m := c.aux(0, int32(c.p.Horizon))
	for i := range c.p.Activities {
		c.difference(point{m, 0}, c.end[i], 0, c.on[i])
	}
	c.goal = append(c.goal, stage{0, m.upper(), 0})
}

// total adds a stage for a sum of terms, if there are any.
func (c *encoding) total(place int, terms []term, add int64) {
	if len(terms) == 0 {
		return
	}
	z := c.aux(-1<<30, 1<<30)
	c.e.sum(append(terms, term{z.lower(), 1}), 0, always)
	c.goal = append(c.goal, stage{place, z.upper(), add})
}

func (c *encoding) encodeLateness() {
	var terms []term
	for _, d := range c.p.Dues {
		if d.Hard || d.Weight == 0 {
			continue
		}
		late := c.aux(0, int32(c.p.Horizon))
		c.difference(point{late, 0}, c.moment(d.Of), -d.At, c.on[d.Of.Activity])
		terms = append(terms, term{late.upper(), int32(d.Weight)})
	}
	c.total(Lateness, terms, 0)
}

func (c *encoding) encodeWaiting() {
	var terms []term
	for _, w := range c.p.Waits {
		if w.Weight == 0 {
			continue
		}
		from, to := c.moment(w.From), c.moment(w.To)
		gate := c.all(c.on[w.From.Activity], c.on[w.To.Activity])
		x := c.aux(0, int32(c.p.Horizon))
		limit := int64(w.Free) + int64(from.add) - int64(to.add)
		if from.of == to.of {
			c.e.addClause(gate.not(), x.atLeast(int32(max(-limit, 0))))
		} else {
			c.e.sum([]term{{x.lower(), 1}, {to.of.upper(), 1}, {from.of.lower(), 1}}, limit, gate)
		}
		terms = append(terms, term{x.upper(), int32(w.Weight)})
	}
	c.total(Waiting, terms, 0)
}

func (c *encoding) encodeLead() {
	if len(c.p.Activities) == 0 {
		return
	}
	first := c.aux(0, int32(c.p.Horizon))
	none := true
	for _, r := range c.p.Resources {
		none = none && !r.Hands
	}
	for i, a := range c.p.Activities {
		if none {
			c.difference(point{c.start[i], 0}, point{first, 0}, 0, c.on[i])
			continue
		}
		for k, m := range a.Modes {
			for n, u := range m.Uses {
				if u.Amount == 0 {
					continue
				}
				from, to := u.window(m.Duration)
				if from >= to {
					continue
				}
				for at, r := range u.Of {
					if !c.p.Resources[r].Hands {
						continue
					}
					gate := c.mode[i][k]
					if c.pool[r] == nil {
						gate = c.member[i][k][n][at]
					}
					c.difference(point{c.start[i], int32(from)}, point{first, 0}, 0, gate)
				}
			}
		}
	}
	c.goal = append(c.goal, stage{Lead, first.lower(), int64(c.p.Horizon)})
}

func (c *encoding) encodeEarliness() {
	var terms []term
	add := int64(0)
	for i := range c.p.Activities {
		if c.on[i] == always {
			terms = append(terms, term{c.start[i].lower(), 1})
			add += int64(c.p.Horizon)
			continue
		}
		x := c.aux(0, int32(c.p.Horizon))
		c.e.sum([]term{{x.lower(), 1}, {c.start[i].lower(), 1}}, -int64(c.p.Horizon), c.on[i])
		terms = append(terms, term{x.upper(), 1})
	}
	c.total(Earliness, terms, add)
}

func (c *encoding) encodeCost() {
	var terms []term
	add := int64(0)
	cost := func(l lit, n int) {
		if n == 0 {
			return
		}
		t, a := count(l, int32(n))
		add += a
		if t.factor > 0 {
			terms = append(terms, t)
		}
	}
	for i, b := range c.p.Branches {
		for k, o := range b.Options {
			cost(c.option[i][k], o.Cost)
		}
	}
	for i, a := range c.p.Activities {
		for k, m := range a.Modes {
			cost(c.mode[i][k], m.Cost)
		}
	}
	c.total(Cost, terms, add)
}
