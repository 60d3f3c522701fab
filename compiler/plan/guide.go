package plan

// What to choose next.
//
// A guide has two manners and takes turns between them at each restart. The greedy one builds
// a plan as a cook would on paper: options first, then one activity after the other, each as
// late as it goes from the serving back (or as early as it goes, for makespans): the parallel
// schedule generation scheme, with learning behind it. The other goes for the variables that
// took part in most recent conflicts, and is the better at proving that there is nothing to
// find. Both prefer, where nothing else decides, what the best plan so far did.

type guide struct {
	c     *encoding
	late  bool // place activities as late as possible, not as early
	only  manner
	turns int
	// best holds the value of each variable in the best plan so far; nil before there is one.
	best []int32
	// follow, in the greedy manner, keeps to the order of the best plan.
	follow bool
	owner  []int32 // per variable: the activity it is the start of, else -1
}

// manner says which of its two ways a guide uses.
type manner uint8

const (
	bothManners manner = iota
	onlyGreedy
	onlyActive
)

func newGuide(c *encoding, late bool) *guide {
	g := &guide{c: c, late: late}
	g.owner = make([]int32, len(c.e.top)/2)
	for i := range g.owner {
		g.owner[i] = -1
	}
	for i, x := range c.start {
		g.owner[x] = int32(i)
	}
	return g
}

func (g *guide) restart(e *engine) {
	g.turns++
	for x := variable(1); int(x) < len(e.top)/2; x++ {
		if !e.fixed(x) {
			e.order.back(x)
		}
	}
}

func (g *guide) greedy() bool {
	return g.only == onlyGreedy || g.only == bothManners && g.turns%2 == 1
}

func (g *guide) next(e *engine) (lit, bool) {
	if !g.greedy() {
		return g.active(e)
	}
	if l, ok := g.openOption(e); ok {
		return l, true
	}
	if l, ok := g.place(e); ok {
		return l, true
	}
	return g.active(e)
}

// openOption settles branches, the best plan's option or the preset first.
func (g *guide) openOption(e *engine) (lit, bool) {
	for i, options := range g.c.option {
		want := g.c.p.Branches[i].Preset
		if g.best != nil {
			for k, l := range options {
				if g.held(l) {
					want = k
				}
			}
		}
		if l := options[want]; open(e, l) {
			return l, true
		}
		for _, l := range options {
			if open(e, l) {
				return l, true
			}
		}
	}
	return lit{}, false
}

func open(e *engine, l lit) bool { return !e.holdsNow(l) && !e.fails(l) }

// held says whether l held in the best plan.
func (g *guide) held(l lit) bool {
	x := variable(l.side / 2)
	if l.side&1 == 0 {
		return g.best[x] <= l.max
	}
	return -g.best[x] <= l.max
}

// place takes the activity that can be placed nearest the end from which planning proceeds,
// and settles its mode, its start and its members, one choice at a time.
func (g *guide) place(e *engine) (lit, bool) {
	at, key, tie := -1, int32(0), int32(0)
	for i, on := range g.c.on {
		if !e.holdsNow(on) || g.settled(e, i) {
			continue
		}
		end := g.c.end[i]
		var k, t int32
		if g.follow && g.late {
			k = -g.best[g.c.start[i]]
		} else if g.follow {
			k = g.best[g.c.start[i]]
		} else if g.late {
			k, t = -(e.hi(end.of) + end.add), -e.lo(g.c.start[i])
		} else {
			k, t = e.lo(g.c.start[i]), e.hi(end.of)+end.add
		}
		if at < 0 || k < key || k == key && t < tie {
			at, key, tie = i, k, t
		}
	}
	if at < 0 {
		return lit{}, false
	}
	return g.settle(e, at)
}

// settled says whether nothing of the activity is open.
func (g *guide) settled(e *engine, i int) bool {
	if !e.fixed(g.c.start[i]) {
		return false
	}
	for k, m := range g.c.mode[i] {
		if open(e, m) {
			return false
		}
		if e.holdsNow(m) {
			for _, picks := range g.c.member[i][k] {
				for _, l := range picks {
					if open(e, l) {
						return false
					}
				}
			}
		}
	}
	return true
}

// settle proposes the next choice about activity i.
func (g *guide) settle(e *engine, i int) (lit, bool) {
	if m, ok := g.prefer(e, g.c.mode[i]); ok {
		return m, true
	}
	if s := g.c.start[i]; !e.fixed(s) {
		if g.late {
			return s.atLeast(e.hi(s)), true
		}
		return s.atMost(e.lo(s)), true
	}
	for k, m := range g.c.mode[i] {
		if !e.holdsNow(m) {
			continue
		}
		for n, picks := range g.c.member[i][k] {
			if l, ok := g.sameMember(e, i, k, n); ok {
				return l, true
			}
			if l, ok := g.prefer(e, picks); ok {
				return l, true
			}
		}
	}
	return lit{}, false
}

// prefer is the open choice the best plan made, or else the first open one.
func (g *guide) prefer(e *engine, picks []lit) (lit, bool) {
	first, ok := lit{}, false
	for _, l := range picks {
		if !open(e, l) {
			continue
		}
		if g.best != nil && g.held(l) {
			return l, true
		}
		if !ok {
			first, ok = l, true
		}
	}
	return first, ok
}

// sameMember proposes for use n the member an earlier use of the same set has taken.
func (g *guide) sameMember(e *engine, i, k, n int) (lit, bool) {
	uses := g.c.p.Activities[i].Modes[k].Uses
	for before := range n {
		for at, l := range g.c.member[i][k][before] {
			if !e.holdsNow(l) || len(uses[before].Of) < 2 || len(g.c.member[i][k][n]) == 0 {
				continue
			}
			for to, r := range uses[n].Of {
				if m := g.c.member[i][k][n][to]; r == uses[before].Of[at] && open(e, m) {
					return m, true
				}
			}
		}
	}
	return lit{}, false
}

// active takes the open variable most active in conflicts.
func (g *guide) active(e *engine) (lit, bool) {
	for {
		x, ok := e.order.pop()
		if !ok {
			return lit{}, false
		}
		if e.fixed(x) {
			continue
		}
		l := g.value(e, x)
		if e.hi(x)-e.lo(x) > 1 {
			e.order.enter(x)
		}
		return l, true
	}
}

// value proposes a bound for x: towards its value in the best plan, or the end from which
// planning proceeds; choices are tried with yes.
func (g *guide) value(e *engine, x variable) lit {
	lo, hi := e.lo(x), e.hi(x)
	if g.best != nil && g.best[x] >= lo && g.best[x] <= hi {
		if v := g.best[x]; v < hi {
			return x.atMost(v)
		}
		return x.atLeast(g.best[x])
	}
	if g.late && g.owner[x] >= 0 || lo == 0 && hi == 1 {
		return x.atLeast(hi)
	}
	return x.atMost(lo)
}
