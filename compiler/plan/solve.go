package plan

import "context"

func solve(ctx context.Context, p *Problem, b Budget) (Outcome, error) {
	if err := p.Check(); err != nil {
		return Outcome{}, err
	}
	limit := b.Steps
	if limit <= 0 {
		limit = defaultSteps(p)
	}
	s := newPlanner(ctx, p, b, limit)
	var v verdict
	if c, ok := asClassic(p); ok {
		v = s.runClassic(c)
	} else {
		v = s.run()
	}
	if v == found {
		s.best.Bound, s.best.Bounds = s.bound, s.best.Score // places without a choice are what they are
		for _, st := range s.c.goal {
			s.best.Bounds[st.place] = s.bounds[st.place]
		}
		s.best.Bounds[0] = s.bound
		p.tidy(s.best)
		p.settle(s.best)
		return Outcome{Solution: s.best, Steps: s.used}, nil
	}
	if err := ctx.Err(); err != nil {
		return Outcome{Steps: s.used}, err
	}
	if b.NoConflict {
		return Outcome{Conflict: &Conflict{Proven: v == refuted}, Steps: s.used}, nil
	}
	conflict, steps := explain(ctx, p, v == refuted, limit)
	return Outcome{Conflict: conflict, Steps: s.used + steps}, nil
}

// defaultSteps is a budget that keeps to a fraction of a second.
func defaultSteps(p *Problem) int {
	if _, ok := asClassic(p); ok {
		return 20000
	}
	return max(700, 140000/(len(p.Activities)+10))
}
