package plan

import (
	"cmp"
	"slices"
)

// Pools: people or tools that are alike and only ever asked for as "any one of them".
//
// Which of them does what can then be left until the times are known. If never more than n
// are wanted at once, n will do: taking the uses in order of start, there is always one free
// (uses are intervals, and interval graphs are perfect). So the search sees one resource of
// capacity n, and has no members to choose.

// pools finds, for each resource that is in a pool, the pool; nil for the others.
func (p *Problem) pools() [][]int {
	pool := make([][]int, len(p.Resources))
	barred := make([]bool, len(p.Resources))
	for _, a := range p.Activities {
		for _, m := range a.Modes {
			for _, u := range m.Uses {
				set := slices.Sorted(slices.Values(u.Of))
				for _, r := range set {
					switch {
					case len(set) < 2 || u.Tie != 0 || !p.whole(u, m.Duration, set[0]) || !p.alike(set[0], r):
						barred[r] = true
					case pool[r] == nil:
						pool[r] = set
					case !slices.Equal(pool[r], set):
						barred[r] = true
					}
				}
			}
		}
	}
	for r, set := range pool {
		if slices.ContainsFunc(set, func(q int) bool { return barred[q] }) {
			pool[r] = nil
		}
	}
	return pool
}

// whole says whether a use takes all of a resource, or none; a part of it, only for one
// unit of time, so that it can be dealt out after those that take all.
func (p *Problem) whole(u Use, duration, of int) bool {
	from, to := u.window(duration)
	capacity := p.Resources[of].Capacity
	return u.Amount == 0 || u.Amount == capacity || u.Amount < capacity && to-from <= 1
}

// alike says whether two resources differ in name only.
func (p *Problem) alike(a, b int) bool {
	x, y := &p.Resources[a], &p.Resources[b]
	return x.Capacity == y.Capacity && x.Capacity > 0 && x.Hands == y.Hands && !x.Stock && !y.Stock &&
		x.State == nil && y.State == nil && slices.Equal(x.Calendar, y.Calendar)
}

// errand is a use of a pool, with its time.
type errand struct{ task, use, from, to, amount int }

// deal gives each use of a pool a member. Of those free, the one who had an earlier use of the
// same activity is preferred, then the one who did what the activity follows on, then the
// order of the use.
func (c *encoding) deal(s *Solution) {
	var list []errand
	for i, t := range s.Tasks {
		if !t.On {
			continue
		}
		m := &c.p.Activities[i].Modes[t.Mode]
		for n, u := range m.Uses {
			if c.pool[u.Of[0]] != nil {
				from, to := u.window(m.Duration)
				list = append(list, errand{i, n, t.Start + from, t.Start + to, u.Amount})
			}
		}
	}
	slices.SortStableFunc(list, func(a, b errand) int { return cmp.Or(a.from-b.from, b.amount-a.amount) })
	busy := make([]int, len(c.p.Resources)) // until when all of it is held
	type moment struct{ of, at int }
	part := map[moment]int{} // how much is held in one unit of time
	free := func(r int, x errand) bool {
		return busy[r] <= x.from && part[moment{r, x.from}]+x.amount <= c.p.Resources[r].Capacity
	}
	doer := make([]int, len(s.Tasks)) // 1 + who last had a use of the task
	for _, x := range list {
		u := &c.p.Activities[x.task].Modes[s.Tasks[x.task].Mode].Uses[x.use]
		pick := -1
		wish := []int{doer[x.task]}
		for _, before := range c.follows[x.task] {
			wish = append(wish, doer[before])
		}
		for _, w := range wish {
			if w > 0 && slices.Contains(u.Of, w-1) && free(w-1, x) {
				pick = w - 1
				break
			}
		}
		for _, r := range u.Of {
			if pick < 0 && (free(r, x) || x.from == x.to || u.Amount == 0) {
				pick = r
			}
		}
		if pick < 0 {
			pick = u.Of[0] // cannot be: no more than there are were let in
		}
		s.Tasks[x.task].Members[x.use] = pick
		if x.to > x.from && u.Amount > 0 {
			if u.Amount < c.p.Resources[pick].Capacity {
				part[moment{pick, x.from}] += u.Amount
			} else {
				busy[pick] = x.to
			}
			doer[x.task] = pick + 1
		}
	}
}
