package plan

// Neighbourhoods: which part of the plan to take up again while the rest stands still.

type neighbours struct {
	s     *planner
	st    stage
	size  int
	limit int
	lags  [][]int // per activity: those it has a lag with
	free  []bool
}

func newNeighbours(s *planner, st stage) *neighbours {
	n := &neighbours{s: s, st: st, size: 6, limit: 30, lags: make([][]int, len(s.p.Activities)), free: make([]bool, len(s.p.Activities))}
	link := func(a, b int) {
		if a != b {
			n.lags[a], n.lags[b] = append(n.lags[a], b), append(n.lags[b], a)
		}
	}
	for _, l := range s.p.Lags {
		link(l.Before.Activity, l.After.Activity)
	}
	return n
}

// improve takes up one neighbourhood.
func (n *neighbours) improve() {
	s := n.s
	n.pick()
	given := []lit{n.st.atMost(s.best.Score[n.st.place] - 1)}
	for i := range s.p.Activities {
		if n.free[i] || !s.best.Tasks[i].On {
			continue
		}
		given = n.hold(given, i)
	}
	if s.rng.IntN(4) > 0 {
		for _, options := range s.c.option {
			for _, l := range options {
				if s.g.held(l) {
					given = append(given, l)
				}
			}
		}
	}
	s.g.only = manner(s.rng.IntN(3))
	switch s.try(given, nil, n.limit) {
	case refuted:
		n.size = min(n.size+1, len(s.p.Activities))
	case unknown:
		n.size = max(n.size-1, 3)
	}
	s.g.only = bothManners
}

// hold fixes an activity where the best plan has it.
func (n *neighbours) hold(given []lit, i int) []lit {
	c := n.s.c
	t := &n.s.best.Tasks[i]
	given = append(given, c.start[i].atMost(int32(t.Start)), c.start[i].atLeast(int32(t.Start)), c.mode[i][t.Mode])
	for _, picks := range c.member[i][t.Mode] {
		for _, l := range picks {
			if n.s.g.held(l) {
				given = append(given, l)
			}
		}
	}
	return given
}

// pick frees about size activities: neighbours in time of one chosen by chance, or those it
// is joined to by lags, near and far, or a bit of both.
func (n *neighbours) pick() {
	tasks := n.s.best.Tasks
	clear(n.free)
	if len(tasks) == 0 {
		return
	}
	centre := n.s.rng.IntN(len(tasks))
	if to := n.culprits(); len(to) > 0 && n.s.rng.IntN(3) > 0 {
		centre = to[n.s.rng.IntN(len(to))]
	}
	style := n.s.rng.IntN(3)
	left := n.size
	if style != 0 {
		left = n.joined(centre, left)
	}
	if style == 1 {
		return
	}
	for ; left > 0; left-- {
		near, gap := -1, 0
		for i := range tasks {
			d := max(tasks[i].Start-tasks[centre].End, tasks[centre].Start-tasks[i].End, 0)
			if !n.free[i] && tasks[i].On && (near < 0 || d < gap || d == gap && n.s.rng.IntN(2) == 0) {
				near, gap = i, d
			}
		}
		if near < 0 {
			return
		}
		n.free[near] = true
	}
}

// culprits lists the activities that the best plan's score in the place at hand is due to;
// none where all have a part in it.
func (n *neighbours) culprits() []int {
	s, p := n.s.best, n.s.p
	var list []int
	switch {
	case p.Goal == Makespan:
	case n.st.place == Lateness:
		for _, d := range p.Dues {
			if i := d.Of.Activity; s.Tasks[i].On && d.Weight > 0 && s.time(d.Of) > d.At {
				list = append(list, i)
			}
		}
	case n.st.place == Waiting:
		for _, w := range p.Waits {
			i, j := w.From.Activity, w.To.Activity
			if s.Tasks[i].On && s.Tasks[j].On && w.Weight > 0 && s.time(w.To)-s.time(w.From) > w.Free {
				list = append(list, i, j)
			}
		}
	case n.st.place == Lead:
		first := p.Horizon - s.Score[Lead]
		for i, t := range s.Tasks {
			if t.On && t.Start <= first && first < t.End {
				list = append(list, i)
			}
		}
	}
	return list
}

// joined frees up to count activities found along lags from the centre; it returns how many
// are left to free.
func (n *neighbours) joined(centre, count int) int {
	queue := []int{centre}
	n.free[centre] = true
	for len(queue) > 0 && count > 0 {
		i := queue[0]
		queue = queue[1:]
		count--
		for _, j := range n.lags[i] {
			if !n.free[j] && n.s.rng.IntN(4) > 0 {
				n.free[j] = true
				queue = append(queue, j)
			}
		}
	}
	return count
}
