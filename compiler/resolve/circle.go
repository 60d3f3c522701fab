package resolve

// circles marks the lines by which a recipe is in the end made from itself, with
// the options that hold when nobody chooses. Who follows what is drawn on stops
// there, and so finds the same wherever it began. A recipe that is taken over
// from a model before draws on none of these.
func circles(recipes []*Recipe) {
	c := &circling{at: make(map[*Recipe]*loop, len(recipes))}
	for _, r := range recipes {
		c.at[r] = &loop{}
	}
	for _, r := range recipes {
		c.visit(r)
	}
	for _, r := range recipes {
		for _, l := range r.Lines {
			if to := l.drawsOn(); to != nil && c.at[to] != nil {
				l.Circle = c.at[to].group == c.at[r].group
			}
		}
	}
}

// drawsOn is the other recipe that makes what a line gathers, or whose step
// does; nil where none does, or only when the menu chooses so.
func (l *Line) drawsOn() *Recipe {
	switch {
	case !l.Present(nil):
	case l.From != nil:
		return l.From
	case l.Product != nil && l.Product.Recipe != l.Recipe:
		return l.Product.Recipe
	}
	return nil
}

// circling finds groups of recipes that can all be reached from each other, as
// Tarjan does (SIAM Journal on Computing 1, 1972; from memory).
type circling struct {
	at     map[*Recipe]*loop
	stack  []*Recipe
	number int
}

type loop struct {
	number int // in the order of visits, from 1; 0: not visited
	low    int // the least number on the stack that can be reached
	group  int // the number of the first visited of its group; 0: not known yet
}

func (c *circling) visit(r *Recipe) *loop {
	at := c.at[r]
	if at == nil || at.number > 0 {
		return at
	}
	c.number++
	at.number, at.low = c.number, c.number
	c.stack = append(c.stack, r)
	for _, l := range r.Lines {
		to := l.drawsOn()
		if to == nil {
			continue
		}
		fresh := c.at[to] != nil && c.at[to].number == 0
		switch o := c.visit(to); {
		case o == nil || o.group > 0:
		case fresh:
			at.low = min(at.low, o.low)
		default:
			at.low = min(at.low, o.number)
		}
	}
	if at.low < at.number {
		return at
	}
	for at.group == 0 {
		last := len(c.stack) - 1
		c.at[c.stack[last]].group = at.number
		c.stack = c.stack[:last]
	}
	return at
}
