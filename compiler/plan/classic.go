package plan

import "slices"

// The classical problem: one mode, finish-to-start precedence, constant capacities, least
// makespan. It deserves its own data: a schedule is made in some microseconds, so that tens
// of thousands can be bred in a second (breed.go).
//
// The free capacities at a moment are packed four to a word, sixteen bits each, the topmost
// of which is kept set: taking a demand away clears it exactly where the demand is too large.
// One subtraction asks all four resources at once.

type classic struct {
	n          int
	duration   []int32
	before     [][]int32 // per activity: those that must end before it starts
	after      [][]int32
	words      int      // per moment
	demand     []uint64 // per activity: words
	free       []uint64 // all of the capacity, as words with the top bits set
	horizon    int32
	topo       []int32   // an order that respects precedence
	head, tail []int32   // longest path before each activity, and after it, itself included
	loads      [][]int32 // per activity and resource: what it holds
	capacity   []int32
	weight     []int64 // per activity: the share of all capacities it holds, in thousandths
}

const tops = 0x8000800080008000

// asClassic recognises the classical problem.
func asClassic(p *Problem) (*classic, bool) {
	if p.Goal != Makespan || len(p.Branches) > 0 || len(p.Activities) == 0 {
		return nil, false
	}
	for _, d := range p.Dues {
		if d.Hard || d.Exact {
			return nil, false
		}
	}
	for _, r := range p.Resources {
		if r.Stock || r.State != nil || len(r.Calendar) > 0 || r.Capacity >= 1<<15 {
			return nil, false
		}
	}
	n := len(p.Activities)
	c := &classic{n: n, before: make([][]int32, n), after: make([][]int32, n), words: (len(p.Resources) + 3) / 4}
	c.free = make([]uint64, c.words)
	for r, res := range p.Resources {
		c.free[r/4] |= uint64(res.Capacity) << (16 * (r % 4))
		c.capacity = append(c.capacity, int32(res.Capacity))
	}
	for w := range c.free {
		c.free[w] |= tops
	}
	for i := range p.Activities {
		if !c.take(p, i) {
			return nil, false
		}
	}
	for _, l := range p.Lags {
		if l.Before.Edge != End || l.After.Edge != Start || l.Gap != 0 || len(l.When) > 0 {
			return nil, false
		}
		a, b := int32(l.Before.Activity), int32(l.After.Activity)
		if !slices.Contains(c.after[a], b) {
			c.after[a], c.before[b] = append(c.after[a], b), append(c.before[b], a)
		}
	}
	if !c.sort() || p.Horizon < int(c.horizon) {
		return nil, false
	}
	return c, true
}

// take adds activity i, if it is of the classical kind and fits its resources.
func (c *classic) take(p *Problem, i int) bool {
	a := &p.Activities[i]
	if len(a.Modes) != 1 || len(a.When) > 0 || a.Release > 0 || a.Deadline > 0 {
		return false
	}
	m := &a.Modes[0]
	load := make([]int32, len(p.Resources))
	for _, u := range m.Uses {
		if len(u.Of) != 1 || u.From != 0 || u.To != 0 || u.Tie != 0 || u.Amount >= 1<<15 {
			return false
		}
		load[u.Of[0]] += int32(u.Amount)
	}
	words := make([]uint64, c.words)
	weight := int64(0)
	for r, l := range load {
		if l > c.capacity[r] {
			return false
		}
		if l > 0 {
			weight += 1000 * int64(l) / int64(c.capacity[r])
		}
		words[r/4] |= uint64(l) << (16 * (r % 4))
	}
	c.weight = append(c.weight, weight)
	c.demand = append(c.demand, words...)
	c.loads = append(c.loads, load)
	c.duration = append(c.duration, int32(m.Duration))
	c.horizon += int32(m.Duration)
	return true
}

// sort finds an order that respects precedence, and the longest paths; false on a cycle.
func (c *classic) sort() bool {
	c.head, c.tail = make([]int32, c.n), make([]int32, c.n)
	left := make([]int, c.n)
	for i := range c.n {
		left[i] = len(c.before[i])
		if left[i] == 0 {
			c.topo = append(c.topo, int32(i))
		}
	}
	for k := 0; k < len(c.topo); k++ {
		i := c.topo[k]
		for _, j := range c.after[i] {
			c.head[j] = max(c.head[j], c.head[i]+c.duration[i])
			if left[j]--; left[j] == 0 {
				c.topo = append(c.topo, j)
			}
		}
	}
	if len(c.topo) < c.n {
		return false
	}
	for k := c.n - 1; k >= 0; k-- {
		i := c.topo[k]
		for _, j := range c.after[i] {
			c.tail[i] = max(c.tail[i], c.tail[j])
		}
		c.tail[i] += c.duration[i]
	}
	return true
}

// criticalPath is the longest path: no schedule is shorter.
func (c *classic) criticalPath() int32 {
	longest := int32(0)
	for i := range c.n {
		longest = max(longest, c.head[i]+c.tail[i])
	}
	return longest
}

// energyBound is the better of the critical path and, for each resource, the work between
// the earliest head and the shortest tail of every subset that counts: activities with head at
// least h and tail at least t need h + work/capacity + t.
func (c *classic) energyBound() int32 {
	best := c.criticalPath()
	rest := make([]int32, c.n) // tail less the activity itself
	for i := range c.n {
		rest[i] = c.tail[i] - c.duration[i]
	}
	heads := slices.Clone(c.head)
	slices.Sort(heads)
	heads = slices.Compact(heads)
	tails := slices.Clone(rest)
	slices.Sort(tails)
	tails = slices.Compact(tails)
	for r, capacity := range c.capacity {
		if capacity == 0 {
			continue
		}
		for _, h := range heads {
			for _, t := range tails {
				work := int32(0)
				for i := range c.n {
					if c.head[i] >= h && rest[i] >= t {
						work += c.loads[i][r] * c.duration[i]
					}
				}
				if work > 0 {
					best = max(best, h+t+(work+capacity-1)/capacity)
				}
			}
		}
	}
	return best
}

// reversed is the same problem with time turned round.
func (c *classic) reversed() *classic {
	r := *c
	r.before, r.after = c.after, c.before
	r.topo = slices.Clone(c.topo)
	slices.Reverse(r.topo)
	r.head, r.tail = make([]int32, c.n), make([]int32, c.n)
	for i := range c.n {
		r.head[i], r.tail[i] = c.tail[i]-c.duration[i], c.head[i]+c.duration[i]
	}
	return &r
}
