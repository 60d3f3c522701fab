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

	shut    []int64   // the keys of what is taken, in order
	keys    []int64   // of what runs, in order
	gone    []int64   // of them, what runs no more
	come    []int64   // what runs now and did not
	merged  []int64   // keys, as they become
	live    []running // compulsory parts when the profile was built
	now     []running // the same now
	profile []block
	built   bool
	version int    // of the profile
	seen    []seen // per hold
	buf     []lit
}

// seen is how things stood when nothing was learnt about a hold: as long as they stand so,
// nothing is.
type seen struct {
	version int
	lo, hi  int32
	on      bool
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
	c.seen = make([]seen, len(c.holds))
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
		now := seen{c.version, e.lo(h.start), e.hi(h.start), e.holdsNow(h.on)}
		if c.seen[i] == now {
			continue
		}
		if !c.pushLater(e, i, h) || !c.pushEarlier(e, i, h) {
			return false
		}
		if e.lo(h.start) == now.lo && e.hi(h.start) == now.hi && !e.fails(h.on) {
			c.seen[i] = now
		}
	}
	return true
}

// pushable is false for holds that nothing can be learnt about.
func (c *cumulative) pushable(e *engine, h *hold) bool {
	return !e.holdsNow(h.on) || e.lo(h.start) < e.hi(h.start)
}

// A key is a change of the profile: its moment, and below it the change of amount.
const half = 1 << 31

func keysOf(keys []int64, from, to, amount int32) []int64 {
	return append(keys, int64(from)<<32|(half+int64(amount)), int64(to)<<32|(half-int64(amount)))
}

// build adds up the compulsory parts: c.profile lists, in order, blocks of constant amount.
// While the parts are as they were, it is as it was.
func (c *cumulative) build(e *engine) {
	c.now = c.now[:0]
	for i := range c.holds {
		h := &c.holds[i]
		if from, to := h.compulsory(e); from < to && e.holdsNow(h.on) {
			c.now = append(c.now, running{from, to, int32(i)})
		}
	}
	if c.built && slices.Equal(c.now, c.live) {
		return
	}
	if !c.built {
		for _, b := range c.taken {
			c.shut = keysOf(c.shut, b.from, b.to, b.amount)
		}
		slices.Sort(c.shut)
		c.built = true
	}
	c.rekey()
	c.live, c.now = c.now, c.live
	c.version++
	c.profile = c.profile[:0]
	amount := int32(0)
	for i, k := 0, 0; i < len(c.shut) || k < len(c.keys); {
		var t int32
		if k == len(c.keys) || i < len(c.shut) && c.shut[i] < c.keys[k] {
			t = int32(c.shut[i] >> 32)
		} else {
			t = int32(c.keys[k] >> 32)
		}
		for ; i < len(c.shut) && int32(c.shut[i]>>32) == t; i++ {
			amount += int32(c.shut[i]&(1<<32-1) - half)
		}
		for ; k < len(c.keys) && int32(c.keys[k]>>32) == t; k++ {
			amount += int32(c.keys[k]&(1<<32-1) - half)
		}
		if n := len(c.profile); n > 0 && c.profile[n-1].to == 0 {
			c.profile[n-1].to = t
		}
		if amount > 0 {
			c.profile = append(c.profile, block{t, 0, amount})
		}
	}
}

// rekey puts the keys of what runs now in the place of those of what ran. From one time to
// the next little changes, so only that is put in order.
func (c *cumulative) rekey() {
	c.gone, c.come = c.gone[:0], c.come[:0]
	for i, k := 0, 0; i < len(c.live) || k < len(c.now); {
		switch {
		case k == len(c.now) || i < len(c.live) && c.live[i].n < c.now[k].n:
			c.gone = c.keyed(c.gone, c.live[i])
			i++
		case i == len(c.live) || c.now[k].n < c.live[i].n:
			c.come = c.keyed(c.come, c.now[k])
			k++
		default:
			if c.live[i] != c.now[k] {
				c.gone = c.keyed(c.gone, c.live[i])
				c.come = c.keyed(c.come, c.now[k])
			}
			i, k = i+1, k+1
		}
	}
	slices.Sort(c.gone)
	slices.Sort(c.come)
	c.merged = c.merged[:0]
	g, n := 0, 0
	for _, key := range c.keys {
		if g < len(c.gone) && c.gone[g] == key {
			g++
			continue
		}
		for ; n < len(c.come) && c.come[n] < key; n++ {
			c.merged = append(c.merged, c.come[n])
		}
		c.merged = append(c.merged, key)
	}
	c.merged = append(c.merged, c.come[n:]...)
	c.keys, c.merged = c.merged, c.keys
}

func (c *cumulative) keyed(keys []int64, r running) []int64 {
	return keysOf(keys, r.from, r.to, c.holds[r.n].amount)
}

// ending is the first block of the profile that ends at t or later.
func (c *cumulative) ending(t int32) int {
	lo, hi := 0, len(c.profile)
	for lo < hi {
		if m := (lo + hi) / 2; c.profile[m].to < t {
			lo = m + 1
		} else {
			hi = m
		}
	}
	return lo
}

// beginning is the first block of the profile that begins at t or later.
func (c *cumulative) beginning(t int32) int {
	lo, hi := 0, len(c.profile)
	for lo < hi {
		if m := (lo + hi) / 2; c.profile[m].from < t {
			lo = m + 1
		} else {
			hi = m
		}
	}
	return lo
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
	for k := c.ending(e.lo(h.start) + h.from); k < len(c.profile); k++ {
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
	for k := c.beginning(e.hi(h.start)+h.to) - 1; k >= 0; k-- {
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
