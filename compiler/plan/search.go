package plan

import "context"

// Search: choose, conclude, learn, go back; now and then start over with what was learnt.
//
// Restarts follow the sequence 1 1 2 1 1 2 4 ... (Luby, Sinclair & Zuckerman 1993).

// verdict is how a search ended.
type verdict uint8

const (
	unknown verdict = iota // the budget or the context ran out
	found                  // every variable is fixed and no rule is broken
	refuted                // the rules, with what was assumed, cannot all hold
)

// chooser proposes the next choice; none means that everything it cares for is fixed. It is
// told when the search starts over.
type chooser interface {
	next(e *engine) (lit, bool)
	restart(e *engine)
}

// search looks for values of all variables, within a number of conflicts. The statements
// given hold together from the start, as one choice; those assumed are choices of their own.
// When found, it leaves the engine with every variable fixed: read the values, then call
// backTo(0). When refuted, the second result is the part of what was assumed that cannot be,
// as far as nothing was given.
func (e *engine) search(ctx context.Context, given, assumed []lit, pick chooser, limit int) (verdict, []lit) {
	e.backTo(0)
	if e.broken || !e.propagate() {
		e.broken = true
		return refuted, nil
	}
	base := int32(0)
	if len(given) > 0 {
		base = 1
	}
	round, left := 1, luby(1)*restartUnit
	weighed := false // against overload, since the last restart
	pick.restart(e)
	for {
		fine := e.propagate()
		if fine && !weighed && int(e.level()-base) == len(assumed) {
			weighed = true
			fine = !e.overloaded()
		}
		if !fine {
			e.conflicts++
			limit--
			left--
			if base > 0 && e.conflictLevel() == base {
				e.backTo(0)
				return refuted, nil
			}
			if !e.learn() {
				e.broken = true
				e.backTo(0)
				return refuted, nil
			}
			continue
		}
		if limit <= 0 || e.conflicts&63 == 63 && ctx.Err() != nil {
			e.backTo(0)
			return unknown, nil
		}
		if left <= 0 {
			round++
			left = luby(round) * restartUnit
			e.backTo(0)
			if len(e.learnt) > 3000+300*round {
				e.forget()
			}
			weighed = false
			pick.restart(e)
			continue
		}
		if base > 0 && e.level() == 0 {
			e.openLevel()
			for _, l := range given {
				if e.fails(l) {
					e.backTo(0)
					return refuted, nil
				}
				e.set(l, reason{})
			}
			continue
		}
		if k := int(e.level() - base); k < len(assumed) {
			a := assumed[k]
			if e.fails(a) {
				blamed := append(e.core(a), a)
				e.backTo(0)
				return refuted, blamed
			}
			e.openLevel()
			e.set(a, reason{})
			continue
		}
		l, ok := pick.next(e)
		if !ok {
			if l, ok = e.leftover(); !ok {
				return found, nil
			}
		}
		e.choose(l)
	}
}

// conflictLevel is the latest level that takes part in the conflict.
func (e *engine) conflictLevel() int32 {
	level := int32(0)
	for _, l := range e.conflict {
		if i := e.origin(l); i >= 0 {
			level = max(level, e.trail[i].level)
		}
	}
	return level
}

const restartUnit = 60

// learn analyses the conflict, goes back and adds the learnt clause. It returns false when no
// choice is to blame.
func (e *engine) learn() bool {
	lits, back := e.analyse()
	if len(lits) == 0 {
		e.clearAnalysis()
		return false
	}
	levels := e.countLevels(lits)
	e.clearAnalysis()
	e.order.decay()
	e.backTo(back)
	if len(lits) == 1 {
		return e.set(lits[0], reason{})
	}
	n := e.attach(lits, true)
	e.clauses[n].levels = levels
	e.learnt = append(e.learnt, n)
	return e.set(lits[0], reason{byClause, n, 0})
}

// leftover fixes variables no chooser cared for at their lowest.
func (e *engine) leftover() (lit, bool) {
	for x := variable(1); int(x) < len(e.top)/2; x++ {
		if !e.fixed(x) {
			return x.atMost(e.lo(x)), true
		}
	}
	return lit{}, false
}

// luby is the i-th member, from 1, of the restart sequence.
func luby(i int) int {
	for k := 1; ; k++ {
		if i == 1<<k-1 {
			return 1 << (k - 1)
		}
		if i < 1<<k-1 {
			return luby(i - 1<<(k-1) + 1)
		}
	}
}
