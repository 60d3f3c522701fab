package plan

import (
	"math/rand/v2"
	"slices"
)

// Genetic search over activity lists (Hartmann 1998; Valls, Ballestín & Quintanilla 2008).
//
// A plan is its list of activities in order of start. Two parents, each the better of two
// drawn, give a child: a stretch of one in the order of the other. The stretch is two random
// points, or the busiest part of the parent it is taken from (peak crossover). Now and then
// neighbours in the list change places. The child is scheduled, justified, and takes the
// place of the worst, unless there is one like it already. When nothing has been gained for
// long, all but a few start anew.

type plant struct {
	list   []int32
	start  []int32
	length int32
	hash   uint64
}

type breeder struct {
	*drafter
	rng   *rand.Rand
	pool  []plant
	best  plant
	taken []bool
	child []int32
	size  int
}

func newBreeder(c *classic, seed uint64, size int) *breeder {
	b := &breeder{drafter: newDrafter(c), rng: rand.New(rand.NewPCG(seed, 0x6272_6565_64)), size: size}
	b.taken, b.child = make([]bool, c.n), make([]int32, c.n)
	b.best.length = -1
	return b
}

// hashOf tells lists apart.
func hashOf(list []int32) uint64 {
	h := uint64(14695981039346656037)
	for _, i := range list {
		h = (h ^ uint64(i)) * 1099511628211
	}
	return h
}

// keep makes a plant of the schedule just justified.
func (b *breeder) keep(length int32) plant {
	p := plant{slices.Clone(b.list), slices.Clone(b.drafter.start), length, hashOf(b.list)}
	if b.best.length < 0 || length < b.best.length {
		b.best = p
	}
	return p
}

// sow fills the pool up to size, half by serial and half by parallel sampling.
func (b *breeder) sow() {
	for len(b.pool) < b.size {
		var length int32
		if len(b.pool)%2 == 0 {
			b.sample(b.child, b.rng)
			length = b.serial(b.c, b.child)
		} else {
			rng := b.rng
			if b.best.length < 0 {
				rng = nil
			}
			length = b.parallel(b.c, rng)
		}
		b.pool = append(b.pool, b.keep(b.justify(length)))
	}
}

// run breeds until a plan as short as enough is found, or until the number of schedules made
// reaches most, or stop says so.
func (b *breeder) run(enough int32, most int, stop func() bool) {
	b.sow()
	idle := 0
	for round := 0; b.best.length > enough && b.made < most; round++ {
		if round&63 == 0 && stop() {
			return
		}
		was := b.best.length
		if b.step() {
			idle = 0
		} else {
			idle++
		}
		if b.best.length < was {
			idle = 0
		}
		if idle > 40*b.size {
			b.renew()
			idle = 0
		}
	}
}

// step breeds one child; it returns whether the child was as good as the best of the pool.
func (b *breeder) step() bool {
	mother, father := b.parent(), b.parent()
	lo, hi := b.stretch(&b.pool[mother])
	b.cross(b.pool[father].list, b.pool[mother].list, lo, hi)
	b.mutate()
	length := b.justify(b.serial(b.c, b.child))
	hash := hashOf(b.list)
	worst := 0
	for k := range b.pool {
		if b.pool[k].hash == hash {
			return false
		}
		if b.pool[k].length >= b.pool[worst].length {
			worst = k
		}
	}
	if length > b.pool[worst].length {
		return false
	}
	gain := length < b.pool[worst].length
	b.pool[worst] = b.keep(length)
	return gain
}

// parent is the better of two drawn.
func (b *breeder) parent() int {
	i, j := b.rng.IntN(len(b.pool)), b.rng.IntN(len(b.pool))
	if b.pool[j].length < b.pool[i].length {
		return j
	}
	return i
}

// stretch picks the part of the mother's list that goes to the child: between two random
// points, or else the busiest of a few random spells of her schedule.
func (b *breeder) stretch(mother *plant) (lo, hi int) {
	n := b.c.n
	if b.rng.IntN(2) == 0 || mother.length < 10 {
		lo, hi = b.rng.IntN(n+1), b.rng.IntN(n+1)
		return min(lo, hi), max(lo, hi)
	}
	width := mother.length/5 + b.rng.Int32N(mother.length/2)
	most, from := int64(-1), int32(0)
	for range 3 {
		t := b.rng.Int32N(mother.length)
		if load := b.busy(mother, t, t+width); load > most {
			most, from = load, t
		}
	}
	for lo < n && mother.start[mother.list[lo]] < from {
		lo++
	}
	for hi = lo; hi < n && mother.start[mother.list[hi]] < from+width; hi++ {
	}
	return lo, hi
}

// busy is the work of a plant's schedule within a spell, over all resources.
func (b *breeder) busy(p *plant, from, to int32) int64 {
	sum := int64(0)
	for i, s := range p.start {
		if d := min(to, s+b.c.duration[i]) - max(from, s); d > 0 {
			sum += int64(d) * b.c.weight[i]
		}
	}
	return sum
}

// cross fills the child: the first lo activities of one, then the order of two up to hi, then
// again that of one.
func (b *breeder) cross(one, two []int32, lo, hi int) {
	clear(b.taken)
	k := 0
	fill := func(from []int32, to int) {
		for _, i := range from {
			if k >= to {
				return
			}
			if !b.taken[i] {
				b.taken[i] = true
				b.child[k] = i
				k++
			}
		}
	}
	fill(one, lo)
	fill(two, hi)
	fill(one, b.c.n)
}

// mutate lets neighbours change places where precedence allows, one in twenty.
func (b *breeder) mutate() {
	for k := 0; k+1 < b.c.n; k++ {
		if b.rng.IntN(20) > 0 {
			continue
		}
		i, j := b.child[k], b.child[k+1]
		free := true
		for _, a := range b.c.after[i] {
			free = free && a != j
		}
		if free {
			b.child[k], b.child[k+1] = j, i
		}
	}
}

// renew keeps the best and sows the rest anew.
func (b *breeder) renew() {
	b.pool = append(b.pool[:0], b.best)
	b.sow()
}
