package plan

import "slices"

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
					case len(set) < 2 || u.Tie != 0 || u.Amount > 1 || !p.alike(set[0], r):
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

// alike says whether two resources differ in name only, and each serves one use at a time.
func (p *Problem) alike(a, b int) bool {
	x, y := &p.Resources[a], &p.Resources[b]
	return x.Capacity == 1 && y.Capacity == 1 && x.Hands == y.Hands && !x.Stock && !y.Stock &&
		x.State == nil && y.State == nil && slices.Equal(x.Calendar, y.Calendar)
}

// errand is a use of a pool, with its time.
type errand struct{ task, use, from, to int }

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
				list = append(list, errand{i, n, t.Start + from, t.Start + to})
			}
		}
	}
	slices.SortStableFunc(list, func(a, b errand) int { return a.from - b.from })
	busy := make([]int, len(c.p.Resources)) // until when
	doer := make([]int, len(s.Tasks))       // 1 + who last had a use of the task
	for _, x := range list {
		u := &c.p.Activities[x.task].Modes[s.Tasks[x.task].Mode].Uses[x.use]
		pick := -1
		wish := []int{doer[x.task]}
		for _, before := range c.follows[x.task] {
			wish = append(wish, doer[before])
		}
		for _, w := range wish {
			if w > 0 && slices.Contains(u.Of, w-1) && busy[w-1] <= x.from {
				pick = w - 1
				break
			}
		}
		for _, r := range u.Of {
			if pick < 0 && (busy[r] <= x.from || x.from == x.to || u.Amount == 0) {
				pick = r
			}
		}
		if pick < 0 {
			pick = u.Of[0] // cannot be: no more than there are were let in
		}
		s.Tasks[x.task].Members[x.use] = pick
		if x.to > x.from && u.Amount > 0 {
			busy[pick], doer[x.task] = x.to, pick+1
		}
	}
}
