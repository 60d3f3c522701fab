package plan

import "context"

func solve(ctx context.Context, p *Problem, b Budget) (Outcome, error) {
	if err := p.Check(); err != nil {
		return Outcome{}, err
	}
	return Outcome{}, ctx.Err()
}
