package plan

import "slices"

// Overload: more work than fits between two moments (Erschler & Lopez 1990, the overload rule
// of edge finding; from memory). Holds that cannot start before one moment nor end after
// another must fit in between together; their work, amount times length, is compared with
// what the resource has open there.
//
// The rule costs more than the profile's and seldom fires once choices have been made. It is
// put to use where the search sets out, when it may show in one stroke that there is too much
// to do, which no search would ever get through.

// item is a hold that is sure to take place, with the spell it is bound to.
type item struct {
	from, to int32 // earliest start, latest end
	work     int64
	hold     *hold
}

// overloaded looks for two moments with too much work between them. If there are, it reports
// the conflict.
func (c *cumulative) overloaded(e *engine) bool {
	var items []item
	for i := range c.holds {
		h := &c.holds[i]
		if e.holdsNow(h.on) {
			items = append(items, item{
				e.lo(h.start) + h.from, e.hi(h.start) + h.to, int64(h.amount) * int64(h.to-h.from), h,
			})
		}
	}
	slices.SortStableFunc(items, func(a, b item) int { return int(a.to) - int(b.to) })
	starts := make([]int32, len(items))
	for i := range items {
		starts[i] = items[i].from
	}
	slices.Sort(starts)
	// Of all spells with too much work, the one with most: it says so with the fewest bounds.
	most, first, last := int64(0), int32(0), 0
	for _, from := range slices.Compact(starts) {
		work := int64(0)
		for i := range items {
			if items[i].from < from {
				continue
			}
			work += items[i].work
			if over := work - c.room(from, items[i].to); over > most {
				most, first, last = over, from, i
			}
		}
	}
	if most == 0 {
		return false
	}
	c.buf = c.buf[:0]
	until := items[last].to
	for _, it := range items[:last+1] {
		if it.from < first {
			continue
		}
		if it.work < most { // there is too much without it
			most -= it.work
			continue
		}
		c.buf = append(c.buf, it.hold.start.atLeast(first-it.hold.from), it.hold.start.atMost(until-it.hold.to), it.hold.on)
	}
	e.fail(c.buf...)
	return true
}

// room is the work that fits on the resource between two moments.
func (c *cumulative) room(from, to int32) int64 {
	room := int64(c.capacity) * int64(to-from)
	for _, b := range c.taken {
		if d := min(b.to, to) - max(b.from, from); d > 0 {
			room -= int64(b.amount) * int64(d)
		}
	}
	return room
}

// overloaded looks at all resources.
func (e *engine) overloaded() bool {
	for _, p := range e.wide {
		if c, ok := p.(*cumulative); ok && c.overloaded(e) {
			return true
		}
	}
	return false
}
