package plan

import (
	"math/rand/v2"
	"slices"
)

// Schedule generation (Kolisch 1996). The serial scheme takes activities one by one in the
// order of a list and starts each as early as precedence and resources allow. The parallel
// scheme goes through time and starts, at each moment, what it can. Serial schedules are the
// active ones, among which is always a best; parallel ones have no idle time that could be
// helped, are fewer and on average better, but may not include a best. From memory.
//
// Double justification (Valls, Ballestín & Quintanilla 2005): take the activities from the
// last end to the first and start each as late as it goes, then from the first start to the
// last and start each as early as it goes. The result is never longer than what it came from.

// drafter makes schedules; it holds the working space.
type drafter struct {
	c     *classic
	back  *classic // time turned round
	usage []uint64 // per moment: words
	dirty int32    // moments below it may differ from the free capacity
	start []int32
	end   []int32
	list  []int32
	flip  []int32
	key   []int64
	made  int // schedules made
}

func newDrafter(c *classic) *drafter {
	d := &drafter{c: c, back: c.reversed()}
	d.usage = make([]uint64, int(c.horizon+1)*max(c.words, 1))
	for i := range d.usage {
		if c.words > 0 {
			d.usage[i] = c.free[i%c.words]
		}
	}
	d.start, d.end = make([]int32, c.n), make([]int32, c.n)
	d.list, d.flip = make([]int32, c.n), make([]int32, c.n)
	d.key = make([]int64, c.n)
	return d
}

func (d *drafter) clear() {
	c := d.c
	switch c.words {
	case 0:
	case 1:
		f := c.free[0]
		for t := range d.usage[:d.dirty] {
			d.usage[t] = f
		}
	default:
		for t := range int(d.dirty) {
			copy(d.usage[t*c.words:], c.free)
		}
	}
	d.dirty = 0
}

// fit is the earliest start of i at or after t that the resources allow.
func (d *drafter) fit(c *classic, i, t int32) int32 {
	length := c.duration[i]
	if length == 0 || c.words == 0 {
		return t
	}
	if c.words == 1 {
		need, usage := c.demand[i], d.usage
		if need == 0 {
			return t
		}
		for at := t + length - 1; at >= t; {
			if (usage[at]-need)&tops != tops {
				t = at + 1
				at = t + length - 1
				continue
			}
			at--
		}
		return t
	}
	for at := t + length - 1; at >= t; {
		ok := true
		for w := range c.words {
			ok = ok && (d.usage[int(at)*c.words+w]-c.demand[int(i)*c.words+w])&tops == tops
		}
		if !ok {
			t = at + 1
			at = t + length - 1
			continue
		}
		at--
	}
	return t
}

// put starts i at t.
func (d *drafter) put(c *classic, i, t int32) {
	d.start[i], d.end[i] = t, t+c.duration[i]
	if d.end[i] > d.dirty {
		d.dirty = d.end[i]
	}
	switch c.words {
	case 0:
	case 1:
		need := c.demand[i]
		span := d.usage[t:d.end[i]]
		for k := range span {
			span[k] -= need
		}
	default:
		for at := t; at < d.end[i]; at++ {
			for w := range c.words {
				d.usage[int(at)*c.words+w] -= c.demand[int(i)*c.words+w]
			}
		}
	}
}

// serial makes the schedule of a list, which must respect precedence, and returns its length.
func (d *drafter) serial(c *classic, list []int32) int32 {
	d.clear()
	d.made++
	length := int32(0)
	for _, i := range list {
		t := int32(0)
		for _, j := range c.before[i] {
			t = max(t, d.end[j])
		}
		d.put(c, i, d.fit(c, i, t))
		length = max(length, d.end[i])
	}
	return length
}

// parallel makes a schedule by going through time, at each moment starting what fits in the
// order drawn: biased random sampling by regret (Drexl 1991) of the latest finish time, or the
// best rule alone when rng is nil.
func (d *drafter) parallel(c *classic, rng *rand.Rand) int32 {
	d.clear()
	d.made++
	left := make([]int, c.n)
	var ready []int32
	for i := range c.n {
		left[i] = len(c.before[i])
		if left[i] == 0 {
			ready = append(ready, int32(i))
		}
	}
	done, t, length := 0, int32(0), int32(0)
	var running, fits []int32
	for done < c.n {
		for { // start what fits now, one by one
			fits = fits[:0]
			for _, i := range ready {
				if d.fit(c, i, t) == t {
					fits = append(fits, i)
				}
			}
			if len(fits) == 0 {
				break
			}
			i := draw(c, fits, rng)
			d.put(c, i, t)
			length = max(length, d.end[i])
			ready = slices.DeleteFunc(ready, func(j int32) bool { return j == i })
			running = append(running, i)
			if d.end[i] == t { // of no length: what waits for it may start now
				done, running, ready = d.finish(c, t, done, running, ready, left)
			}
		}
		next := int32(-1)
		for _, i := range running {
			if next < 0 || d.end[i] < next {
				next = d.end[i]
			}
		}
		if next < 0 {
			break
		}
		t = next
		done, running, ready = d.finish(c, t, done, running, ready, left)
	}
	return length
}

// finish retires what has ended by t and adds what it kept waiting.
func (d *drafter) finish(c *classic, t int32, done int, running, ready []int32, left []int) (int, []int32, []int32) {
	kept := running[:0]
	for _, i := range running {
		if d.end[i] > t {
			kept = append(kept, i)
			continue
		}
		done++
		for _, j := range c.after[i] {
			if left[j]--; left[j] == 0 {
				ready = append(ready, j)
			}
		}
	}
	return done, kept, ready
}

// draw picks one of the activities: the longer the path after it, the likelier.
func draw(c *classic, from []int32, rng *rand.Rand) int32 {
	worst := c.tail[from[0]]
	best := from[0]
	for _, i := range from {
		worst = min(worst, c.tail[i])
		if c.tail[i] > c.tail[best] {
			best = i
		}
	}
	if rng == nil {
		return best
	}
	total := int64(0)
	for _, i := range from {
		r := int64(c.tail[i] - worst + 1)
		total += r * r
	}
	x := rng.Int64N(total)
	for _, i := range from {
		r := int64(c.tail[i] - worst + 1)
		if x -= r * r; x < 0 {
			return i
		}
	}
	return best
}

// sample makes a list by drawing among the activities whose predecessors are listed.
func (d *drafter) sample(list []int32, rng *rand.Rand) {
	c := d.c
	left := make([]int, c.n)
	var ready []int32
	for i := range c.n {
		left[i] = len(c.before[i])
		if left[i] == 0 {
			ready = append(ready, int32(i))
		}
	}
	for k := range list {
		i := draw(c, ready, rng)
		list[k] = i
		ready = slices.DeleteFunc(ready, func(j int32) bool { return j == i })
		for _, j := range c.after[i] {
			if left[j]--; left[j] == 0 {
				ready = append(ready, j)
			}
		}
	}
}

// order fills list with the activities by key; equal keys keep to the order of precedence.
func (d *drafter) order(c *classic, list, by []int32) {
	for k, i := range c.topo {
		d.key[k] = int64(by[i])<<32 | int64(k)
	}
	slices.Sort(d.key)
	for k, x := range d.key {
		list[k] = c.topo[x&(1<<32-1)]
	}
}

// justify shortens the schedule just made as far as double justification can, and returns its
// length. d.start and d.end hold the result, d.list its order by start.
func (d *drafter) justify(length int32) int32 {
	for {
		// Turned round, the ends are starts counted from the end of the plan.
		for i := range d.end {
			d.flip[i] = length - d.end[i]
		}
		d.order(d.back, d.list, d.flip)
		shorter := d.serial(d.back, d.list)
		for i := range d.end {
			d.flip[i] = shorter - d.end[i]
		}
		d.order(d.c, d.list, d.flip)
		now := d.serial(d.c, d.list)
		if now >= length {
			d.order(d.c, d.list, d.start)
			return now
		}
		length = now
	}
}
