package plan

import "slices"

// Conflict analysis: from a failure to the rule that would have prevented it.
//
// The failure is a set of true statements that cannot all be. Going back along the trail,
// the latest is replaced by its reasons, until only one statement of the latest level is
// left. Where two statements speak of one side, the tighter stands for both.

type analysis struct {
	need  []int32 // per side: the tightest statement in the set
	at    []int32 // per side: the event that made it true, -1 if the side is not in the set
	sides []side  // all sides ever put in the set during this analysis
	now   int     // statements of the level being analysed
	buf   []lit
	out   []lit
	seen  []int32 // per level: stamp, for counting levels
	stamp int32
}

func (a *analysis) grow() {
	a.need = append(a.need, 0, 0)
	a.at = append(a.at, -1, -1)
}

// origin is the event that made l true, or -1 if it always was.
func (e *engine) origin(l lit) int32 {
	i := e.last[l.side]
	for range 8 { // mostly one of the latest
		if i < 0 || e.trail[i].old > l.max {
			return i
		}
		i = e.trail[i].prev
	}
	// The first event that took the bound to max or below.
	past := e.past[l.side]
	k, _ := slices.BinarySearchFunc(past, l.max, func(i, max int32) int { return int(max) - int(e.trail[i].top) })
	if e.trail[past[k]].old <= l.max {
		return -1
	}
	return past[k]
}

// include puts a true statement into the set.
func (e *engine) include(l lit, level int32) {
	a := &e.analysis
	if had := a.at[l.side]; had >= 0 {
		if a.need[l.side] <= l.max {
			return
		}
		if e.trail[had].level == level {
			a.now--
		}
	}
	i := e.origin(l)
	if i < 0 || e.trail[i].level == 0 {
		return
	}
	if a.at[l.side] < 0 {
		a.sides = append(a.sides, l.side)
	}
	a.at[l.side], a.need[l.side] = i, l.max
	if e.trail[i].level == level {
		a.now++
	}
	e.order.bump(variable(l.side / 2))
}

// analyse turns e.conflict into a learnt clause and the level to go back to. The clause's
// first statement is the one it forces there. An empty clause means that no choice matters:
// the rules contradict each other.
func (e *engine) analyse() (lits []lit, back int32) {
	a := &e.analysis
	a.sides, a.now, a.out = a.sides[:0], 0, a.out[:0]
	// The conflict may lie wholly below the current level; analyse the level it lies in.
	level := e.conflictLevel()
	if level == 0 {
		return nil, 0
	}
	for _, l := range e.conflict {
		e.include(l, level)
	}
	i := int32(len(e.trail)) - 1
	for {
		for a.at[e.trail[i].side] != i {
			i--
		}
		s := e.trail[i].side
		if a.now == 1 {
			break
		}
		l := lit{s, a.need[s]}
		a.at[s] = -1
		a.now--
		a.buf = e.explain(a.buf[:0], l, e.trail[i].why)
		for _, q := range a.buf {
			e.include(q, level)
		}
		i--
	}
	uip := e.trail[i].side
	a.out = append(a.out, lit{uip, a.need[uip]}.not())
	for _, s := range a.sides {
		if s != uip && a.at[s] >= 0 && !e.implied(s) {
			if l := (lit{s, a.need[s]}).not(); !slices.Contains(a.out[1:], l) {
				a.out = append(a.out, l)
			}
		}
	}
	for k := 1; k < len(a.out); k++ {
		if lv := e.trail[a.at[a.out[k].side^1]].level; lv > back {
			back = lv
			a.out[1], a.out[k] = a.out[k], a.out[1]
		}
	}
	lits = append(make([]lit, 0, len(a.out)), a.out...)
	return lits, back
}

// implied says whether the set's statement on s follows from the rest of the set, so that
// the clause does not need it. Only statements that became true before it count: a tighter
// one on the side of a reason may itself have come from s, and the two would vouch for
// each other.
func (e *engine) implied(s side) bool {
	a := &e.analysis
	ev := &e.trail[a.at[s]]
	if ev.why.kind == byChoice {
		return false
	}
	a.buf = e.explain(a.buf[:0], lit{s, a.need[s]}, ev.why)
	for _, q := range a.buf {
		if a.at[q.side] >= 0 && a.at[q.side] < a.at[s] && a.need[q.side] <= q.max {
			continue
		}
		if i := e.origin(q); i >= 0 && e.trail[i].level > 0 {
			return false
		}
	}
	return true
}

// clear empties the set.
func (e *engine) clearAnalysis() {
	for _, s := range e.analysis.sides {
		e.analysis.at[s] = -1
	}
}

// countLevels is the number of levels the statements of a clause, all false, come from.
func (e *engine) countLevels(lits []lit) int32 {
	a := &e.analysis
	for int32(len(a.seen)) <= e.level() {
		a.seen = append(a.seen, 0)
	}
	a.stamp++
	n := int32(0)
	for _, l := range lits {
		if i := e.origin(l.not()); i >= 0 && a.seen[e.trail[i].level] != a.stamp {
			a.seen[e.trail[i].level] = a.stamp
			n++
		}
	}
	return n
}

// core lists those of the choices made so far that force l false: what l's opposite rests on.
func (e *engine) core(l lit) []lit {
	var chosen []lit
	a := &e.analysis
	a.sides = a.sides[:0]
	e.include(l.not(), -1)
	for i := int32(len(e.trail)) - 1; i >= 0; i-- {
		s := e.trail[i].side
		if a.at[s] != i {
			continue
		}
		q := lit{s, a.need[s]}
		a.at[s] = -1
		if e.trail[i].why.kind == byChoice {
			chosen = append(chosen, q)
			continue
		}
		a.buf = e.explain(a.buf[:0], q, e.trail[i].why)
		for _, r := range a.buf {
			e.include(r, -1)
		}
	}
	e.clearAnalysis()
	return chosen
}
