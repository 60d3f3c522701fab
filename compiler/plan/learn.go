package plan

// Lazy clause generation, the core.
//
// The search works on whole-number variables, each known by a lower and an upper bound that
// creep together as choices are made. The only thing it ever asserts is a bound: "x is at
// most 7", "x is at least 3". A yes-or-no question is a variable from 0 to 1.
//
// Every bound that moves is written on a trail together with its reason: a choice, or a set
// of earlier bounds that force it. When two bounds of one variable cross, the reasons are
// followed back until one bound of the latest choice remains that, with some earlier ones,
// explains the failure (the first unique implication point). The search learns that these
// cannot all hold, goes back to the latest choice that matters, and carries on with the new
// rule in force. It never fails twice for one cause.
//
// In the textbooks a bound is a Boolean literal made on demand (Ohrimenko, Stuckey & Codish,
// "Propagation via lazy clause generation", Constraints 14, 2009). Here, as in later solvers,
// clauses are made of bounds outright and no literals are made at all. For scheduling see
// Schutt, Feydy, Stuckey & Wallace, "Explaining the cumulative propagator", Constraints 16,
// 2011. References from memory.

// side is one of the two bounds of a variable x: the side 2x speaks of x, the side 2x+1 of
// its negative, so that both only ever have an upper bound.
type side int32

// variable is a whole-number unknown of the engine.
type variable int32

func (x variable) upper() side { return side(2 * x) }
func (x variable) lower() side { return side(2*x + 1) }
func (x variable) atMost(v int32) lit {
	return lit{x.upper(), v}
}

func (x variable) atLeast(v int32) lit {
	return lit{x.lower(), -v}
}

// lit is the statement "side is at most max".
type lit struct {
	side side
	max  int32
}

func (l lit) not() lit { return lit{l.side ^ 1, -l.max - 1} }

// always holds: variable 0 of every engine is the constant 0.
var always = lit{0, 0}

// reason says why a bound moved.
type reason struct {
	kind reasonKind
	a    int32 // clause, arc, or offset into the arena
	n    int32 // length in the arena
}

type reasonKind uint8

const (
	byChoice reasonKind = iota
	byClause
	byArc
	byArena
)

// event is one move of one side, from old to top.
type event struct {
	side     side
	old, top int32
	prev     int32 // the event before on this side, -1 if none
	level    int32
	hops     int32 // how many arcs in a row led here
	why      reason
}

// propagator is a constraint too wide for arcs and clauses. It is run when a side it
// subscribed to has moved, after arcs and clauses have come to rest, and returns false on
// conflict, which it has reported by engine.fail.
type propagator interface {
	propagate(e *engine) bool
}

type engine struct {
	top   []int32   // per side: its upper bound
	floor []int32   // per side: the same before any choice
	last  []int32   // per side: its latest event, -1 if none
	past  [][]int32 // per side: all its events
	trail []event
	marks []int32 // per level: length of the trail when its choice was made
	holds []int32 // per level: length of the arena
	head  int     // events before it have been propagated

	arena    []lit // reasons of propagators
	conflict []lit // statements, all true, that cannot all be

	arcs    []arc
	out     [][]int32 // per side: arcs that start from it
	gates   [][]int32 // per side: arcs whose condition is on it
	clauses []clause
	watches [][]watch // per side: clauses to look at when it moves
	wide    []propagator
	subs    [][]int32 // per side: propagators to wake
	waiting []int32   // queue of woken propagators
	served  int       // how many of the queue have been run
	woken   []bool

	order    order // variables by how often they took part in conflicts
	analysis analysis
	learnt   []int32
	broken   bool // the rules contradict each other whatever is chosen

	conflicts int
}

func newEngine() *engine {
	e := &engine{}
	e.newVariable(0, 0)
	return e
}

// newVariable makes an unknown from lo to hi.
func (e *engine) newVariable(lo, hi int32) variable {
	x := variable(len(e.top) / 2)
	e.top = append(e.top, hi, -lo)
	e.floor = append(e.floor, hi, -lo)
	e.last = append(e.last, -1, -1)
	e.past = append(e.past, nil, nil)
	e.out = append(e.out, nil, nil)
	e.gates = append(e.gates, nil, nil)
	e.watches = append(e.watches, nil, nil)
	e.subs = append(e.subs, nil, nil)
	e.analysis.grow()
	e.order.grow()
	return x
}

// newChoice makes a yes-or-no unknown and returns the statement "yes".
func (e *engine) newChoice() lit { return e.newVariable(0, 1).atLeast(1) }

func (e *engine) hi(x variable) int32     { return e.top[x.upper()] }
func (e *engine) lo(x variable) int32     { return -e.top[x.lower()] }
func (e *engine) fixed(x variable) bool   { return e.hi(x) == e.lo(x) }
func (e *engine) holdsNow(l lit) bool     { return e.top[l.side] <= l.max }
func (e *engine) fails(l lit) bool        { return e.top[l.side^1] <= -l.max-1 }
func (e *engine) level() int32            { return int32(len(e.marks)) }
func (e *engine) subscribe(s side, p int) { e.subs[s] = append(e.subs[s], int32(p)) }

// addWide registers a propagator and returns its number for subscribe.
func (e *engine) addWide(p propagator) int {
	e.wide = append(e.wide, p)
	e.woken = append(e.woken, false)
	e.wake(int32(len(e.wide) - 1))
	return len(e.wide) - 1
}

func (e *engine) wake(p int32) {
	if !e.woken[p] {
		e.woken[p] = true
		e.waiting = append(e.waiting, p)
	}
}

// set makes l true for the reason given. It returns false, with the conflict reported, when
// l is false already.
func (e *engine) set(l lit, why reason) bool {
	old := e.top[l.side]
	if old <= l.max {
		return true
	}
	if e.top[l.side^1] <= -l.max-1 {
		e.conflict = e.explain(e.conflict[:0], l, why)
		e.conflict = append(e.conflict, l.not())
		return false
	}
	ev := event{side: l.side, old: old, top: l.max, prev: e.last[l.side], level: e.level(), why: why}
	if why.kind == byArc {
		ev.hops = 1
		if from := e.last[e.arcs[why.a].src]; from >= 0 {
			ev.hops += e.trail[from].hops
		}
	}
	e.trail = append(e.trail, ev)
	e.last[l.side] = int32(len(e.trail) - 1)
	e.past[l.side] = append(e.past[l.side], int32(len(e.trail)-1))
	e.top[l.side] = l.max
	if ev.level == 0 {
		e.floor[l.side] = l.max
	}
	return true
}

// because stores the reasons of a propagator for one move.
func (e *engine) because(lits ...lit) reason {
	if len(e.marks) == 0 {
		return reason{} // nothing is ever undone or explained below the first choice
	}
	off := len(e.arena)
	e.arena = append(e.arena, lits...)
	return reason{byArena, int32(off), int32(len(lits))}
}

// fail reports that the statements, all true, cannot all be. It returns false.
func (e *engine) fail(lits ...lit) bool {
	e.conflict = append(e.conflict[:0], lits...)
	return false
}

// explain appends the statements that forced l by the reason given.
func (e *engine) explain(buf []lit, l lit, why reason) []lit {
	switch why.kind {
	case byClause:
		for _, q := range e.clauses[why.a].lits[1:] {
			buf = append(buf, q.not())
		}
	case byArc:
		a := &e.arcs[why.a]
		buf = append(buf, a.gate, lit{a.src, l.max - a.add})
	case byArena:
		buf = append(buf, e.arena[why.a:why.a+why.n]...)
	}
	return buf
}

// choose opens a new level with the choice l, which must be open.
func (e *engine) choose(l lit) {
	e.openLevel()
	e.set(l, reason{})
}

func (e *engine) openLevel() {
	e.marks = append(e.marks, int32(len(e.trail)))
	e.holds = append(e.holds, int32(len(e.arena)))
}

// backTo undoes every level above the one given.
func (e *engine) backTo(level int32) {
	if e.level() <= level {
		return
	}
	to := int(e.marks[level])
	for i := len(e.trail) - 1; i >= to; i-- {
		ev := &e.trail[i]
		e.top[ev.side] = ev.old
		e.last[ev.side] = ev.prev
		e.past[ev.side] = e.past[ev.side][:len(e.past[ev.side])-1]
		e.order.back(variable(ev.side / 2))
	}
	e.trail = e.trail[:to]
	e.arena = e.arena[:e.holds[level]]
	e.marks = e.marks[:level]
	e.holds = e.holds[:level]
	e.head = to
	for _, p := range e.waiting[e.served:] {
		e.woken[p] = false
	}
	e.waiting, e.served = e.waiting[:0], 0
}

// propagate draws every conclusion; false means conflict.
func (e *engine) propagate() bool {
	for {
		for e.head < len(e.trail) {
			ev := e.trail[e.head]
			e.head++
			if !e.followArcs(ev) || !e.followClauses(ev) {
				return false
			}
			for _, p := range e.subs[ev.side] {
				e.wake(p)
			}
		}
		if e.served == len(e.waiting) {
			e.waiting, e.served = e.waiting[:0], 0
			return true
		}
		p := e.waiting[e.served]
		e.served++
		e.woken[p] = false
		if !e.wide[p].propagate(e) {
			return false
		}
	}
}
