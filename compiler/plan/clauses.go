package plan

import "slices"

// Clauses: "at least one of these bounds holds".
//
// Two statements of each clause are watched; as long as neither has become false nothing
// needs doing (Moskewicz et al., "Chaff", 2001; Eén & Sörensson, "An extensible SAT-solver",
// 2003). What is new with bounds is only that a side has a list of thresholds to pass rather
// than two literals to take.

type clause struct {
	lits   []lit // lits[0] is the one forced, when the clause is a reason
	levels int32 // how many levels it joined when learnt (the lower the better)
	learnt bool
	gone   bool
}

// watch stands in the list of the side whose move can make a watched statement false.
type watch struct {
	at    int32 // it becomes false when the side's bound drops to this or below
	n     int32 // the clause
	other lit   // another statement of it; while this holds, there is nothing to do
}

func (e *engine) attach(lits []lit, learnt bool) int32 {
	n := int32(len(e.clauses))
	e.clauses = append(e.clauses, clause{lits: lits, learnt: learnt})
	e.watch(lits[0], n, lits[1])
	e.watch(lits[1], n, lits[0])
	return n
}

func (e *engine) watch(l lit, n int32, other lit) {
	f := l.not()
	e.watches[f.side] = append(e.watches[f.side], watch{f.max, n, other})
}

func (e *engine) followClauses(ev event) bool {
	ws := e.watches[ev.side]
	kept := ws[:0]
	for i := 0; i < len(ws); i++ {
		w := ws[i]
		if w.at < ev.top || w.at >= ev.old || e.holdsNow(w.other) {
			kept = append(kept, w)
			continue
		}
		c := &e.clauses[w.n]
		if c.gone {
			continue
		}
		lits := c.lits
		if f := lits[0].not(); f.side == ev.side && f.max == w.at {
			lits[0], lits[1] = lits[1], lits[0]
		}
		if e.holdsNow(lits[0]) {
			w.other = lits[0]
			kept = append(kept, w)
			continue
		}
		moved := false
		for k := 2; k < len(lits); k++ {
			if !e.fails(lits[k]) {
				lits[1], lits[k] = lits[k], lits[1]
				e.watch(lits[1], w.n, lits[0])
				moved = true
				break
			}
		}
		if moved {
			continue
		}
		kept = append(kept, w)
		if !e.set(lits[0], reason{byClause, w.n, 0}) {
			kept = append(kept, ws[i+1:]...)
			e.watches[ev.side] = kept
			return false
		}
	}
	e.watches[ev.side] = kept
	return true
}

// forget drops the half of the learnt clauses that joined most levels. Clauses that are
// reasons on the trail stay. Call at level 0 only, where none are needed.
func (e *engine) forget() {
	slices.SortStableFunc(e.learnt, func(a, b int32) int {
		return int(e.clauses[a].levels - e.clauses[b].levels)
	})
	keep := len(e.learnt) / 2
	for keep < len(e.learnt) && e.clauses[e.learnt[keep]].levels <= 2 {
		keep++
	}
	for _, n := range e.learnt[keep:] {
		e.clauses[n].gone = true
		e.clauses[n].lits = nil
	}
	e.learnt = e.learnt[:keep]
	for s := range e.watches {
		e.watches[s] = slices.DeleteFunc(e.watches[s], func(w watch) bool { return e.clauses[w.n].gone })
	}
}
