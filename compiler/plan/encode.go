package plan

import (
	"fmt"
	"slices"
)

// From the model to the engine: every activity gets a start, every question that the model
// leaves open (option, mode, member, setting) a choice, and every rule its arcs, clauses,
// sums and profiles.

// encoding is a problem as the engine sees it.
type encoding struct {
	p *Problem
	e *engine

	option  [][]lit      // per branch and option
	on      []lit        // per activity: it takes place
	start   []variable   // per activity
	end     []point      // per activity
	mode    [][]lit      // per activity and mode
	member  [][][][]lit  // per activity, mode, use and place in Of
	setting [][]variable // per activity: settings of its uses, by settingAt
	ties    map[int]map[int]lit
	pool    [][]int // per resource: the pool it is in, nil if none
	follows [][]int // per activity: those it comes after by some lag

	both map[string]lit // conjunctions made so far
	goal []stage

	// guards, in an encoding made to explain a conflict, are the statements "this rule
	// counts", by rule; elsewhere nil.
	guards map[rule]lit
}

// point is the value of a variable plus a constant.
type point struct {
	of  variable
	add int32
}

// rule names a part of the problem that can be left out to explain a conflict.
type rule struct {
	kind ruleKind
	n    int
}

type ruleKind uint8

const (
	ruleLag ruleKind = iota
	ruleResource
	ruleActivity
	ruleDue
	ruleBranch
	ruleHorizon
)

// encode builds the engine's view. With guarded, each rule can be switched off.
func encode(p *Problem, guarded bool) *encoding {
	c := &encoding{p: p, e: newEngine(), both: map[string]lit{}, ties: map[int]map[int]lit{}}
	if guarded {
		c.guards = map[rule]lit{}
	}
	c.pool = make([][]int, len(p.Resources))
	if !guarded {
		c.pool = p.pools()
	}
	c.follows = make([][]int, len(p.Activities))
	for _, l := range p.Lags {
		if l.Gap >= 0 && l.Before.Edge == End && l.After.Edge == Start {
			c.follows[l.After.Activity] = append(c.follows[l.After.Activity], l.Before.Activity)
		}
	}
	c.encodeBranches()
	for i := range p.Activities {
		c.encodeActivity(i)
	}
	for i := range p.Activities {
		c.encodeMembers(i)
	}
	c.encodeLags()
	c.encodeResources()
	c.encodeGoal()
	return c
}

// guard is the statement that the rule counts: always, unless a conflict is being explained.
func (c *encoding) guard(kind ruleKind, n int) lit {
	if c.guards == nil {
		return always
	}
	r := rule{kind, n}
	g, ok := c.guards[r]
	if !ok {
		g = c.e.newChoice()
		c.guards[r] = g
	}
	return g
}

// all is the statement that all of the statements hold.
func (c *encoding) all(lits ...lit) lit {
	need := make([]lit, 0, len(lits))
	for _, l := range lits {
		if l != always && !slices.Contains(need, l) {
			need = append(need, l)
		}
	}
	switch len(need) {
	case 0:
		return always
	case 1:
		return need[0]
	}
	slices.SortFunc(need, func(a, b lit) int {
		if a.side != b.side {
			return int(a.side - b.side)
		}
		return int(a.max - b.max)
	})
	key := fmt.Sprint(need)
	if l, ok := c.both[key]; ok {
		return l
	}
	b := c.e.newChoice()
	clause := []lit{b}
	for _, l := range need {
		c.e.addClause(b.not(), l)
		clause = append(clause, l.not())
	}
	c.e.addClause(clause...)
	c.both[key] = b
	return b
}

// oneOf makes n choices of which exactly one holds if the condition does, and else none.
func (c *encoding) oneOf(n int, on lit) []lit {
	if n == 1 {
		return []lit{on}
	}
	picks := make([]lit, n)
	for i := range picks {
		picks[i] = c.e.newChoice()
	}
	c.exactlyOne(picks, on)
	return picks
}

func (c *encoding) exactlyOne(picks []lit, on lit) {
	for i, l := range picks {
		c.e.addClause(l.not(), on)
		for _, m := range picks[:i] {
			c.e.addClause(l.not(), m.not())
		}
	}
	c.e.addClause(append([]lit{on.not()}, picks...)...)
}

func (c *encoding) encodeBranches() {
	for i, b := range c.p.Branches {
		picks := c.oneOf(len(b.Options), always)
		if b.Fixed {
			c.e.addClause(c.guard(ruleBranch, i).not(), picks[b.Preset])
		}
		c.option = append(c.option, picks)
	}
}

func (c *encoding) when(w When) lit {
	lits := make([]lit, len(w))
	for i, ch := range w {
		lits[i] = c.option[ch.Branch][ch.Option]
	}
	return c.all(lits...)
}

func (c *encoding) encodeActivity(i int) {
	a, e := &c.p.Activities[i], c.e
	on := c.all(c.when(a.When), c.guard(ruleActivity, i))
	shortest, longest := a.Modes[0].Duration, a.Modes[0].Duration
	for _, m := range a.Modes {
		shortest, longest = min(shortest, m.Duration), max(longest, m.Duration)
	}
	last := c.p.Horizon
	if c.guards != nil {
		last = c.p.Horizon + c.loose()
	}
	s := e.newVariable(0, int32(last))
	end := point{s, int32(shortest)}
	picks := c.oneOf(len(a.Modes), on)
	if shortest != longest {
		end = point{e.newVariable(0, int32(last)), 0}
		e.after(end.of, s, int32(shortest), always)
		e.after(s, end.of, -int32(longest), always)
		for k, m := range a.Modes {
			e.after(end.of, s, int32(m.Duration), picks[k])
			e.after(s, end.of, -int32(m.Duration), picks[k])
		}
	}
	c.on, c.start, c.end, c.mode = append(c.on, on), append(c.start, s), append(c.end, end), append(c.mode, picks)
	if a.Release > 0 {
		c.bound(i, s.atLeast(int32(a.Release)), on)
	}
	if a.Deadline > 0 {
		c.bound(i, end.of.atMost(int32(a.Deadline)-end.add), on)
	}
	c.bound(i, end.of.atMost(int32(c.p.Horizon)-end.add), c.all(on, c.guard(ruleHorizon, 0)))
}

// loose is how far past the horizon plans may run when the horizon does not count.
func (c *encoding) loose() int {
	sum := 1
	for _, a := range c.p.Activities {
		longest := 0
		for _, m := range a.Modes {
			longest = max(longest, m.Duration)
		}
		sum += longest
	}
	for _, l := range c.p.Lags {
		sum += max(l.Gap, 0)
	}
	return min(sum, maxTime)
}

// bound makes l, about activity i, hold if the condition does. The start of what may not take
// place is nobody's business, so a bound that leaves some room is set outright, as long as one
// variable says all: the two of an activity with modes could be bound into a contradiction.
func (c *encoding) bound(i int, l, cond lit) {
	if cond == always || c.guards == nil && c.end[i].of == c.start[i] && !c.e.fails(l) {
		c.e.addClause(l)
		return
	}
	c.e.addClause(cond.not(), l)
}

// encodeMembers makes the choices of who or what serves each use.
func (c *encoding) encodeMembers(i int) {
	modes := make([][][]lit, len(c.p.Activities[i].Modes))
	for k, m := range c.p.Activities[i].Modes {
		for _, u := range m.Uses {
			var picks []lit
			switch {
			case u.Tie != 0:
				picks = c.tied(u, c.mode[i][k])
			case c.pool[u.Of[0]] == nil: // members of pools are dealt out in the end
				picks = c.oneOf(len(u.Of), c.mode[i][k])
			}
			modes[k] = append(modes[k], picks)
			x := variable(0)
			if u.State != nil {
				x = c.e.newVariable(int32(u.State.Lo), int32(u.State.Hi))
			}
			if len(c.setting) <= i {
				c.setting = append(c.setting, nil)
			}
			c.setting[i] = append(c.setting[i], x)
		}
	}
	if len(c.setting) <= i {
		c.setting = append(c.setting, nil)
	}
	c.member = append(c.member, modes)
}

// settingAt is the variable of the setting of use n of mode k.
func (c *encoding) settingAt(i, k, n int) variable {
	for _, m := range c.p.Activities[i].Modes[:k] {
		n += len(m.Uses)
	}
	return c.setting[i][n]
}

// tied makes the member of a tied use follow from what the tie has taken.
func (c *encoding) tied(u Use, on lit) []lit {
	tie := c.ties[u.Tie]
	if tie == nil {
		tie = map[int]lit{}
		var picks []lit
		for r := range c.p.Resources {
			if c.tieCovers(u.Tie, r) {
				tie[r] = c.e.newChoice()
				picks = append(picks, tie[r])
			}
		}
		c.exactlyOne(picks, always)
		c.ties[u.Tie] = tie
	}
	picks := make([]lit, len(u.Of))
	some := []lit{on.not()}
	for n, r := range u.Of {
		picks[n] = c.all(on, tie[r])
		some = append(some, tie[r])
	}
	c.e.addClause(some...)
	return picks
}

// tieCovers says whether any use that carries the tie could take resource r.
func (c *encoding) tieCovers(tie, r int) bool {
	for _, a := range c.p.Activities {
		for _, m := range a.Modes {
			for _, u := range m.Uses {
				if u.Tie == tie && slices.Contains(u.Of, r) {
					return true
				}
			}
		}
	}
	return false
}

// moment is a start or an end as the engine sees it.
func (c *encoding) moment(m Moment) point {
	if m.Edge == End {
		return c.end[m.Activity]
	}
	return point{c.start[m.Activity], 0}
}

// difference adds the rule: if gate, then b >= a + gap.
func (c *encoding) difference(b, a point, gap int, gate lit) {
	w := int32(gap) + a.add - b.add
	if a.of == b.of {
		if w > 0 {
			c.e.addClause(gate.not())
		}
		return
	}
	c.e.after(b.of, a.of, w, gate)
}

func (c *encoding) encodeLags() {
	for i, l := range c.p.Lags {
		gate := c.all(c.on[l.Before.Activity], c.on[l.After.Activity], c.when(l.When), c.guard(ruleLag, i))
		c.difference(c.moment(l.After), c.moment(l.Before), l.Gap, gate)
	}
	for i, d := range c.p.Dues {
		gate := c.all(c.on[d.Of.Activity], c.guard(ruleDue, i))
		at := c.moment(d.Of)
		if d.Hard {
			c.bound(d.Of.Activity, at.of.atMost(int32(d.At)-at.add), gate)
		}
		if d.Exact {
			c.bound(d.Of.Activity, at.of.atLeast(int32(d.At)-at.add), gate)
		}
	}
}
