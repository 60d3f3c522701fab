package plan

import "slices"

// The cumulative rule: at no moment do the holds on a resource exceed what there is.
//
// A task that can start no later than it can end at the earliest surely runs in between (its
// compulsory part). Adding these up gives a profile (time-table reasoning: Le Pape 1988;
// Lahrichi 1982). Where the profile leaves too little room, other tasks are pushed past it.
//
// The explanation of a push is taken at one moment: the tasks that surely run then, and the
// one pushed, which cannot be over by then (pointwise explanation: Schutt et al. 2011). The
// moment is chosen as far along as it goes, the tasks as few as will do. References from memory.

// hold is one use of the resource: [start+from, start+to), if on.
type hold struct {
	start    variable
	from, to int32
	amount   int32
	on       lit
}

type cumulative struct {
	capacity int32
	holds    []hold
	// taken is the part of the capacity that the calendar takes away.
	taken []block

	keys    []int64
	live    []running // compulsory parts when the profile was built
	profile []block
	buf     []lit
}

// running is the compulsory part of hold n.
type running struct {
	from, to int32
	n        int32
}

// block is an amount held throughout [from, to).
type block struct{ from, to, amount int32 }

// cumulate adds the rule for one resource.
func (e *engine) cumulate(capacity int32, taken []block, holds []hold) {
	c := &cumulative{capacity: capacity, taken: taken}
	for _, h := range holds {
		if h.amount > 0 && h.to > h.from && !e.fails(h.on) {
			c.holds = append(c.holds, h)
		}
	}
	if len(c.holds) == 0 {
		return
	}
	n := e.addWide(c)
	for _, h := range c.holds {
		e.subscribe(h.start.upper(), n)
		e.subscribe(h.start.lower(), n)
		if !e.holdsNow(h.on) {
			e.subscribe(h.on.side, n)
		}
	}
}

// compulsory is the time the hold surely takes, if it is on; empty when from >= to.
func (h *hold) compulsory(e *engine) (from, to int32) {
	return e.hi(h.start) + h.from, e.lo(h.start) + h.to
}

func (c *cumulative) propagate(e *engine) bool {
	c.build(e)
	peak := int32(0)
	for _, b := range c.profile {
		peak = max(peak, b.amount)
		if b.amount > c.capacity {
			c.buf = c.buf[:0]
			c.blame(b.from, b.amount-c.capacity-1, -1)
			return e.fail(c.buf...)
		}
	}
	for i := range c.holds {
		h := &c.holds[i]
		if peak+h.amount <= c.capacity || e.fails(h.on) || !c.pushable(e, h) {
			continue
		}
		if !c.pushLater(e, i, h) || !c.pushEarlier(e, i, h) {
			return false
		}
	}
	return true
}

// pushable is false for holds that nothing can be learnt about.
func (c *cumulative) pushable(e *engine, h *hold) bool {
	return !e.holdsNow(h.on) || e.lo(h.start) < e.hi(h.start)
}

// build adds up the compulsory parts: c.profile lists, in order, blocks of constant amount.
func (c *cumulative) build(e *engine) {
	c.keys = c.keys[:0]
	const half = 1 << 31
	add := func(from, to, amount int32) {
		c.keys = append(c.keys, int64(from)<<32|(half+int64(amount)), int64(to)<<32|(half-int64(amount)))
	}
	for _, b := range c.taken {
		add(b.from, b.to, b.amount)
	}
	c.live = c.live[:0]
	for i := range c.holds {
		h := &c.holds[i]
		if from, to := h.compulsory(e); from < to && e.holdsNow(h.on) {
			add(from, to, h.amount)
			c.live = append(c.live, running{from, to, int32(i)})
		}
	}
	slices.Sort(c.keys)
	c.profile = c.profile[:0]
	amount := int32(0)
	for k := 0; k < len(c.keys); {
		t := int32(c.keys[k] >> 32)
		for k < len(c.keys) && int32(c.keys[k]>>32) == t {
			amount += int32(c.keys[k]&(1<<32-1) - half)
			k++
		}
		if n := len(c.profile); n > 0 && c.profile[n-1].to == 0 {
			c.profile[n-1].to = t
		}
		if amount > 0 {
			c.profile = append(c.profile, block{t, 0, amount})
		}
	}
}

// blame appends to c.buf the holds that run at moment t, leaving out as many as the surplus
// allows, and not the one numbered but.
func (c *cumulative) blame(t, surplus int32, but int) {
	for _, part := range c.live {
		if part.from > t || part.to <= t || int(part.n) == but {
			continue
		}
		h := &c.holds[part.n]
		if h.amount <= surplus {
			surplus -= h.amount
			continue
		}
		c.buf = append(c.buf, h.start.atMost(t-h.from), h.start.atLeast(t+1-h.to))
		if h.on != always {
			c.buf = append(c.buf, h.on)
		}
	}
}

// closed is the end of the spell round t in which the calendar alone leaves no room for the
// amount, or t if there is none; start is where the spell begins.
func (c *cumulative) closed(t, amount int32) (start, end int32) {
	for _, b := range c.taken {
		if b.from <= t && t < b.to && b.amount+amount > c.capacity {
			return b.from, b.to
		}
	}
	return t, t
}

// pushLater moves the earliest start past blocks that leave no room.
func (c *cumulative) pushLater(e *engine, i int, h *hold) bool {
	k, _ := slices.BinarySearchFunc(c.profile, e.lo(h.start)+h.from, func(b block, t int32) int { return int(b.to) - int(t) })
	for ; k < len(c.profile); k++ {
		b := c.profile[k]
		for {
			start := e.lo(h.start)
			if b.from >= start+h.to {
				return true
			}
			if b.to <= start+h.from || !c.crowded(e, h, b) {
				break
			}
			t := min(b.to, start+h.to) - 1
			c.buf = c.buf[:0]
			next := t + 1
			if open, shut := c.closed(t, h.amount); shut > t {
				next = shut
				c.buf = append(c.buf, h.start.atLeast(open+1-h.to))
			} else {
				c.blame(t, b.amount+h.amount-c.capacity-1, i)
				c.buf = append(c.buf, h.start.atLeast(t+1-h.to))
			}
			done, ok := c.move(e, h, h.start.atLeast(next-h.from))
			if !ok {
				return false
			}
			if done {
				return true
			}
		}
	}
	return true
}

// pushEarlier moves the latest start before blocks that leave no room.
func (c *cumulative) pushEarlier(e *engine, i int, h *hold) bool {
	k, _ := slices.BinarySearchFunc(c.profile, e.hi(h.start)+h.to, func(b block, t int32) int { return int(b.from) - int(t) })
	for k--; k >= 0; k-- {
		b := c.profile[k]
		for {
			start := e.hi(h.start)
			if b.to <= start+h.from {
				return true
			}
			if b.from >= start+h.to || !c.crowded(e, h, b) {
				break
			}
			t := max(b.from, start+h.from)
			c.buf = c.buf[:0]
			next := t
			if open, shut := c.closed(t, h.amount); shut > t {
				next = open
				c.buf = append(c.buf, h.start.atMost(shut-1-h.from))
			} else {
				c.blame(t, b.amount+h.amount-c.capacity-1, i)
				c.buf = append(c.buf, h.start.atMost(t-h.from))
			}
			done, ok := c.move(e, h, h.start.atMost(next-h.to))
			if !ok {
				return false
			}
			if done {
				return true
			}
		}
	}
	return true
}

// crowded says whether the block leaves no room for h, which it may itself be part of.
func (c *cumulative) crowded(e *engine, h *hold, b block) bool {
	if b.amount+h.amount <= c.capacity {
		return false
	}
	from, to := h.compulsory(e)
	return from >= to || b.from >= to || b.to <= from || !e.holdsNow(h.on)
}

// move makes the bound l hold for the reasons in c.buf, if h is on. A hold whose being on is
// open cannot be moved, as its start is not its own; it is ruled out when l cannot be. done
// says that there is no more to be had.
func (c *cumulative) move(e *engine, h *hold, l lit) (done, ok bool) {
	if e.holdsNow(h.on) {
		if h.on != always {
			c.buf = append(c.buf, h.on)
		}
		return false, e.set(l, e.because(c.buf...))
	}
	if !e.fails(l) {
		return true, true
	}
	return true, e.set(h.on.not(), e.because(append(c.buf, l.not())...))
}
