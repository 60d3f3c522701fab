package plan

import (
	"context"
	"math/rand/v2"
)

// From any plan to the best: the places of the score are made as small as can be, one after
// the other, each kept while the next is worked on.
//
// At each place, two methods take turns. One asks the search for any plan better than the
// best: it ends with one, or with the proof that there is none, or gives up for now. The
// other holds most of the best plan still and asks the same of the rest (large neighbourhood
// search: Shaw 1998): it proves nothing, but improves plans too large for the first.

type planner struct {
	ctx    context.Context
	p      *Problem
	c      *encoding
	g      *guide
	rng    *rand.Rand
	budget Budget

	used  int // conflicts and plans so far
	limit int
	best  *Solution
	bound int // of Score[0]

	bounds Score // of each place, among plans as good in those before
}

func newPlanner(ctx context.Context, p *Problem, b Budget, limit int) *planner {
	c := encode(p, false)
	return &planner{
		ctx: ctx, p: p, c: c, g: newGuide(c, p.Goal == Kitchen), budget: b, limit: limit,
		rng: rand.New(rand.NewPCG(b.Seed, 0x7461_6d69_73)),
	}
}

// try searches under statements and keeps a better plan if it finds one.
func (s *planner) try(given, assumed []lit, limit int) verdict {
	before := s.c.e.conflicts
	v, _ := s.c.e.search(s.ctx, given, assumed, s.g, min(limit, s.limit-s.used))
	s.used += s.c.e.conflicts - before + 1
	if v == found {
		s.keep()
	}
	return v
}

func (s *planner) keep() {
	sol := s.c.read()
	e := s.c.e
	if s.best == nil || sol.Score.Less(s.best.Score) {
		s.best = sol
		values := make([]int32, len(e.top)/2)
		for x := range values {
			values[x] = e.lo(variable(x))
		}
		s.g.best = values
		s.tell()
	}
	e.backTo(0)
}

func (s *planner) tell() {
	if s.budget.Progress != nil {
		s.budget.Progress(Progress{s.best.Score, s.bound, s.used})
	}
}

func (s *planner) out() bool { return s.used >= s.limit || s.ctx.Err() != nil }

// run does all of it. The verdict is unknown if neither a plan nor the proof that there is
// none was found.
func (s *planner) run() verdict {
	if len(s.budget.Starts) > 0 {
		return s.asGiven()
	}
	if v := s.first(); v != found {
		return v
	}
	proven := true
	for k, st := range s.c.goal {
		share := s.used + (s.limit-s.used)*(k+2)/(len(s.c.goal)+2)
		if k == len(s.c.goal)-1 {
			share = s.limit
		}
		least := s.minimise(st, share)
		s.bounds[st.place] = s.best.Score[st.place]
		if !least {
			s.bounds[st.place] = min(s.bounds[st.place], st.least(s.c.e))
		}
		proven = least && proven
		s.c.e.addClause(st.atMost(s.best.Score[st.place]))
	}
	s.best.Proven = proven && s.ctx.Err() == nil
	return found
}

// first finds some plan: at best one that is as good as can be in the first place, else any.
func (s *planner) first() verdict {
	e := s.c.e
	if e.broken || !e.propagate() {
		e.broken = true
		return refuted
	}
	late := s.g.late
	defer func() { s.g.late, s.g.only = late, bothManners }()
	for limit := 200; !s.out(); limit *= 2 {
		s.g.only = bothManners
		if len(s.c.goal) > 0 {
			st := s.c.goal[0]
			least := st.least(e)
			if st.place == 0 {
				s.bound = least
			}
			s.g.late = late
			switch s.try(nil, []lit{st.atMost(least)}, limit) {
			case found:
				return found
			case refuted:
				if e.broken {
					return refuted
				}
				e.addClause(st.atMost(least).not())
			}
		}
		s.g.late = false
		if v := s.try(nil, nil, limit); v != unknown {
			return v
		}
	}
	return unknown
}

// asGiven looks for any plan with the starts that are given.
func (s *planner) asGiven() verdict {
	var given []lit
	for i, at := range s.budget.Starts {
		if x := s.c.start[i]; at >= 0 {
			given = append(given, x.atMost(int32(at)), x.atLeast(int32(at)))
		}
	}
	v := s.try(given, nil, s.limit)
	if v == found {
		for _, st := range s.c.goal {
			s.bounds[st.place] = st.least(s.c.e)
		}
		s.bound = s.bounds[0]
	}
	return v
}

// patience is the part of the budget that is spent on beginning a few minutes later in
// all without finding anything: no cook would see it.
const patience = 6

// minimise works on one place of the score until share is used up; true means that the best
// plan's is proven least.
func (s *planner) minimise(st stage, share int) bool {
	e := s.c.e
	limit, gap := 100, 2
	around := newNeighbours(s, st)
	var shifted *Solution
	better, best := s.used, s.best // when the best was found
	for {
		if e.broken || !e.propagate() {
			return true // nothing at or below the best is left but the best
		}
		at := s.best.Score[st.place]
		least := st.least(e)
		if st.place == 0 {
			s.bound = max(s.bound, min(least, at))
		}
		if at <= least {
			return true
		}
		if s.best != best {
			better, best = s.used, s.best
		}
		if s.used >= share || s.out() || s.p.Goal == Kitchen && st.place == Earliness && s.used-better >= s.limit/patience {
			return false
		}
		if s.enough(st) {
			return false
		}
		e.addClause(st.atMost(at))
		if s.best != shifted {
			s.shift(st)
			shifted = s.best
			continue
		}
		target := at - max(1, (at-least)/gap)
		s.g.only = bothManners
		switch s.try(nil, []lit{st.atMost(target)}, min(limit, share-s.used)) {
		case found:
			continue
		case refuted:
			if e.broken {
				return true
			}
			e.addClause(st.atMost(target).not())
			continue
		}
		gap *= 2
		if gap > 16 {
			gap = 1 << 30
		}
		for n := 0; n < limit && s.used < share && !s.out(); {
			before := s.used
			around.improve()
			n += s.used - before
		}
		limit += limit / 2
	}
}

// enough tells whether the best plan is as early as was asked for, and no worse before that.
func (s *planner) enough(st stage) bool {
	want := s.budget.Enough
	if want == nil || s.p.Goal != Kitchen || st.place != Earliness {
		return false
	}
	for k := range Earliness + 1 {
		if s.best.Score[k] > want[k] {
			return false
		}
	}
	return true
}

// shift asks for a better plan with the activities in the order of the best, each moved as
// far as it goes (justification: Valls, Ballestín & Quintanilla 2005), again and again while
// it helps: first better in the place at hand, then merely better in the last that counts
// time, from which the next try starts nearer.
func (s *planner) shift(st stage) {
	s.g.follow, s.g.only = true, onlyGreedy
	last := st
	for _, other := range s.c.goal {
		if other.place == Earliness && s.p.Goal == Kitchen {
			last = other
		}
	}
	for _, st := range []stage{st, last} {
		for rounds := 0; rounds < 10 && !s.out(); rounds++ {
			if s.try(nil, []lit{st.atMost(s.best.Score[st.place] - 1)}, 20) != found {
				break
			}
		}
	}
	s.g.follow, s.g.only = false, bothManners
}
