package plan

// The classical problem, by both engines in turn: a first brood; the search, which proves
// most plans of up to some sixty activities best, or improves them; the rest of the breeding;
// and what is left to the search.

// A dead end of the search takes about as long as deadEnd schedules of the same project.
const deadEnd = 12

func (s *planner) runClassic(c *classic) verdict {
	steps := s.limit
	least := int(c.energyBound())
	b := newBreeder(c, s.budget.Seed, min(max(steps/400, 20), 400))
	bred := 0
	breed := func(most int) {
		b.run(int32(least), b.made+most, func() bool { return s.ctx.Err() != nil })
		s.used += b.made - bred
		bred = b.made
	}
	breed(min(steps/4, 3000))
	if !s.seed(b) {
		return unknown
	}
	s.c.e.addClause(s.c.goal[0].atMost(least - 1).not())
	part := steps / 3
	if c.n > 80 && s.best.Score[0]-least > least/12 {
		part = steps / 12 // a gap this wide is not closed in a second
	}
	proven := s.share(part)
	if !proven {
		breed(steps - s.used - part)
		if int(b.best.length) < s.best.Score[0] {
			s.seed(b)
		}
		proven = s.share(steps - s.used)
	}
	s.best.Proven = proven && s.ctx.Err() == nil
	return found
}

// seed makes the breeder's best plan the planner's, unless the context is done.
func (s *planner) seed(b *breeder) bool {
	var given []lit
	for i, at := range b.best.start {
		given = append(given, s.c.start[i].atMost(at), s.c.start[i].atLeast(at))
	}
	v, _ := s.c.e.search(s.ctx, given, nil, s.g, 1000)
	if v == found {
		s.keep()
	}
	return v == found
}

// share lets the search work for a number of steps.
func (s *planner) share(steps int) bool {
	used := s.used
	s.used, s.limit = 0, max(steps/deadEnd, 1)
	proven := s.minimise(s.c.goal[0], s.limit)
	s.used = used + s.used*deadEnd
	return proven
}
