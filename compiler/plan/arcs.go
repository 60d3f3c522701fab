package plan

import "slices"

// Arcs: differences between two variables, perhaps only under a condition.
//
// "y comes at least w after x" moves the lower bound of y when that of x moves, and the
// upper bound of x when that of y moves: two arcs, each carrying a bound from one side to
// another. An arc whose condition (its gate) is open is still watched: when it would make a
// bound cross, the gate cannot hold. A chain of lags without slack is a cycle of arcs, and
// moves as one in a single round of propagation.
//
// Lags that contradict each other are a cycle, too, round which the bounds would creep to the
// end of time a few minutes a lap, and the conflict would blame the end of time. So now and
// then a long run of arcs is looked at for a lap; if there is one, its gates are the conflict.

type arc struct {
	src, dst side
	add      int32
	gate     lit
}

// after adds the rule: if gate, then y >= x + w.
func (e *engine) after(y, x variable, w int32, gate lit) {
	e.addArc(arc{x.lower(), y.lower(), -w, gate})
	e.addArc(arc{y.upper(), x.upper(), -w, gate})
}

func (e *engine) addArc(a arc) {
	if e.broken || e.fails(a.gate) {
		return
	}
	n := int32(len(e.arcs))
	e.arcs = append(e.arcs, a)
	e.out[a.src] = append(e.out[a.src], n)
	if !e.holdsNow(a.gate) {
		e.gates[a.gate.side] = append(e.gates[a.gate.side], n)
	}
	if !e.followArc(n) {
		e.broken = true
	}
}

// addClause adds the rule that at least one of the statements holds.
func (e *engine) addClause(lits ...lit) {
	if e.broken {
		return
	}
	kept := make([]lit, 0, len(lits))
	for _, l := range lits {
		if e.holdsNow(l) {
			return
		}
		if e.fails(l) {
			continue
		}
		// No two statements on one side: the wider says it all (and followClauses relies on it).
		if i := slices.IndexFunc(kept, func(q lit) bool { return q.side == l.side }); i >= 0 {
			kept[i].max = max(kept[i].max, l.max)
			continue
		}
		kept = append(kept, l)
	}
	switch len(kept) {
	case 0:
		e.broken = true
	case 1:
		if !e.set(kept[0], reason{}) {
			e.broken = true
		}
	default:
		e.attach(kept, false)
	}
}

func (e *engine) followArcs(ev event) bool {
	for _, n := range e.out[ev.side] {
		if !e.followArc(n) {
			return false
		}
	}
	for _, n := range e.gates[ev.side] {
		if g := e.arcs[n].gate; g.max >= ev.top && g.max < ev.old && !e.followArc(n) {
			return false
		}
	}
	return true
}

func (e *engine) followArc(n int32) bool {
	a := &e.arcs[n]
	max := e.top[a.src] + a.add
	if max >= e.top[a.dst] {
		return true
	}
	if e.holdsNow(a.gate) {
		if !e.set(lit{a.dst, max}, reason{byArc, n, 0}) {
			return false
		}
		return e.trail[len(e.trail)-1].hops%lapCheck != 0 || !e.lap()
	}
	least := -e.top[a.dst^1]
	if max >= least || e.fails(a.gate) {
		return true
	}
	// The weakest source bound that still rules the gate out.
	return e.set(a.gate.not(), e.because(lit{a.src, least - a.add - 1}, lit{a.dst ^ 1, -least}))
}

// lapCheck is after how many arcs in a row a lap is looked for.
const lapCheck = 50

// lap looks whether the arcs that led to the latest event went round; if so, it reports the
// conflict.
func (e *engine) lap() bool {
	i := int32(len(e.trail)) - 1
	start := e.trail[i].side
	e.conflict = e.conflict[:0]
	for left := e.trail[i].hops; left > 0; left-- {
		ev := &e.trail[i]
		a := &e.arcs[ev.why.a]
		if a.gate != always {
			e.conflict = append(e.conflict, a.gate)
		}
		if a.src == start {
			return true
		}
		// The event the arc set out from: the latest on its source before this one.
		j := e.last[a.src]
		for j > i {
			j = e.trail[j].prev
		}
		if j < 0 || e.trail[j].why.kind != byArc {
			return false
		}
		i = j
	}
	return false
}
