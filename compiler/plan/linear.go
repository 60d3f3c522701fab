package plan

// Sums: if gate, then the sum of terms is at most limit. Used for what plans cost: lateness,
// waiting, how early work lies.

// term is factor times the value of a side (2x: x itself; 2x+1: its negative); factor > 0.
type term struct {
	side   side
	factor int32
}

type linear struct {
	terms []term
	limit int64
	gate  lit
	up    []int // the terms that are above their floor now
	buf   []lit
}

// sum adds the rule. Terms of x and of its negative are told apart by side.
func (e *engine) sum(terms []term, limit int64, gate lit) {
	n := e.addWide(&linear{terms: terms, limit: limit, gate: gate})
	for _, t := range terms {
		e.subscribe(t.side^1, n) // the least value of the term grows when the other side drops
	}
	if gate != always {
		e.subscribe(gate.side, n)
	}
}

// least is the smallest value of the term's side.
func (e *engine) least(t term) int64 { return int64(t.factor) * int64(-e.top[t.side^1]) }

func (c *linear) propagate(e *engine) bool {
	if e.fails(c.gate) {
		return true
	}
	total := int64(0)
	for _, t := range c.terms {
		total += e.least(t)
	}
	slack := c.limit - total
	c.risen(e)
	if !e.holdsNow(c.gate) {
		if slack < 0 {
			return e.set(c.gate.not(), e.because(c.floor(e, -1, -slack-1)...))
		}
		return true
	}
	if slack < 0 {
		return e.fail(append(c.floor(e, -1, -slack-1), c.gate)...)
	}
	for i, t := range c.terms {
		low := -e.top[t.side^1]
		room := slack / int64(t.factor)
		if int64(e.top[t.side])-int64(low) > room {
			// One more than room would overdraw; the others may be this much lower and it still does.
			spare := (room+1)*int64(t.factor) - slack - 1
			lits := append(c.floor(e, i, spare), c.gate)
			if !e.set(lit{t.side, low + int32(room)}, e.because(lits...)) {
				return false
			}
		}
	}
	return true
}

// risen notes which terms are above their floor: of the others nothing need be stated.
func (c *linear) risen(e *engine) {
	c.up = c.up[:0]
	for i, t := range c.terms {
		if s := t.side ^ 1; e.floor[s] != e.top[s] {
			c.up = append(c.up, i)
		}
	}
}

// floor states the least values of all risen terms but one, loosened by up to spare in all.
func (c *linear) floor(e *engine, but int, spare int64) []lit {
	c.buf = c.buf[:0]
	for _, i := range c.up {
		if i == but {
			continue
		}
		t := c.terms[i]
		s := t.side ^ 1
		v := e.top[s]
		// Loosening only pays when it drops the statement altogether.
		if drop := int64(e.floor[s]-v) * int64(t.factor); drop <= spare {
			spare -= drop
			continue
		}
		if loose := spare / int64(t.factor); loose > 0 {
			v += int32(loose)
			spare -= loose * int64(t.factor)
		}
		c.buf = append(c.buf, lit{s, v})
	}
	return c.buf
}
