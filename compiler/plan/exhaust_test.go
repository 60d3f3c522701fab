package plan

import (
	"context"
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/lang/effort"
)

// Small random kitchens against a search that tries everything. It looks at every minute of
// every resource and shares nothing with the engine or the checker.

type exhaust struct {
	p     *Problem
	s     Solution
	best  Score
	found bool
}

func (x *exhaust) run() {
	x.s = Solution{Options: make([]int, len(x.p.Branches)), Tasks: make([]Task, len(x.p.Activities))}
	x.branch(0)
}

func (x *exhaust) branch(i int) {
	if i == len(x.p.Branches) {
		x.activity(0)
		return
	}
	for k := range x.p.Branches[i].Options {
		if x.p.Branches[i].Fixed && k != x.p.Branches[i].Preset {
			continue
		}
		x.s.Options[i] = k
		x.branch(i + 1)
	}
}

func (x *exhaust) activity(i int) {
	if i == len(x.p.Activities) {
		if x.allowed() {
			x.score()
		}
		return
	}
	a := &x.p.Activities[i]
	t := &x.s.Tasks[i]
	*t = Task{On: true}
	for _, c := range a.When {
		t.On = t.On && x.s.Options[c.Branch] == c.Option
	}
	if !t.On {
		x.activity(i + 1)
		return
	}
	for k, m := range a.Modes {
		for start := a.Release; start+m.Duration <= x.p.Horizon && (a.Deadline == 0 || start+m.Duration <= a.Deadline); start++ {
			*t = Task{On: true, Mode: k, Start: start, End: start + m.Duration, Members: make([]int, len(m.Uses)), Settings: make([]int, len(m.Uses))}
			if x.lagsHold(i) {
				x.use(i, 0)
			}
		}
	}
}

func (x *exhaust) use(i, n int) {
	uses := x.p.Activities[i].Modes[x.s.Tasks[i].Mode].Uses
	if n == len(uses) {
		x.activity(i + 1)
		return
	}
	for _, r := range uses[n].Of {
		x.s.Tasks[i].Members[n] = r
		if uses[n].State == nil {
			x.use(i, n+1)
			continue
		}
		for v := uses[n].State.Lo; v <= uses[n].State.Hi; v++ {
			x.s.Tasks[i].Settings[n] = v
			x.use(i, n+1)
		}
	}
}

func (x *exhaust) at(m Moment) int {
	if m.Edge == End {
		return x.s.Tasks[m.Activity].End
	}
	return x.s.Tasks[m.Activity].Start
}

// lagsHold looks at the lags among activities up to i.
func (x *exhaust) lagsHold(i int) bool {
	for _, l := range x.p.Lags {
		if l.Before.Activity > i || l.After.Activity > i || !x.s.Tasks[l.Before.Activity].On || !x.s.Tasks[l.After.Activity].On {
			continue
		}
		counts := true
		for _, c := range l.When {
			counts = counts && x.s.Options[c.Branch] == c.Option
		}
		if counts && x.at(l.After) < x.at(l.Before)+l.Gap {
			return false
		}
	}
	return true
}

func (x *exhaust) allowed() bool {
	load := make([][]int, len(x.p.Resources))
	dial := make([][]map[int]bool, len(x.p.Resources)) // per resource and minute: settings in use
	stock := make([]int, len(x.p.Resources))
	for r := range load {
		load[r], dial[r] = make([]int, x.p.Horizon), make([]map[int]bool, x.p.Horizon)
	}
	tie := map[int]int{}
	for i, t := range x.s.Tasks {
		if !t.On {
			continue
		}
		m := x.p.Activities[i].Modes[t.Mode]
		for n, u := range m.Uses {
			r := t.Members[n]
			if u.Tie != 0 {
				if old, ok := tie[u.Tie]; ok && old != r {
					return false
				}
				tie[u.Tie] = r
			}
			stock[r] += u.Amount
			from, to := t.Start+u.From, t.Start+u.To
			if u.To == 0 {
				to = t.End
			}
			for at := from; at < to; at++ {
				load[r][at] += u.Amount
				if u.State != nil {
					if dial[r][at] == nil {
						dial[r][at] = map[int]bool{}
					}
					dial[r][at][t.Settings[n]] = true
				}
			}
		}
	}
	for r, res := range x.p.Resources {
		if res.Stock {
			if stock[r] > res.Capacity {
				return false
			}
			continue
		}
		for at := range load[r] {
			open := len(res.Calendar) == 0
			for _, s := range res.Calendar {
				open = open || s.From <= at && at < s.To
			}
			if load[r][at] > res.Capacity || !open && load[r][at] > 0 {
				return false
			}
			if len(dial[r][at]) == 0 {
				continue
			}
			// Whatever had another setting before must have had the time to change.
			for back := range at + 1 {
				for v := range dial[r][at] {
					for w := range dial[r][back] {
						if v != w && at-back-1 < x.change(res.State, w, v) {
							return false
						}
					}
				}
			}
		}
	}
	return x.ready()
}

// change turns a dial from one value to another and looks at the clock.
func (x *exhaust) change(rule *State, from, to int) int {
	clock := 0
	for from != to {
		switch {
		case from < to && rule.Up > 0:
			from = min(to, from+rule.Up)
		case from > to && rule.Down > 0:
			from = max(to, from-rule.Down)
		default:
			return rule.Change
		}
		clock += max(1, rule.Step)
	}
	return max(clock, rule.Change)
}

// ready looks for First minutes of open time before each use with a state.
func (x *exhaust) ready() bool {
	for i, t := range x.s.Tasks {
		if !t.On {
			continue
		}
		for n, u := range x.p.Activities[i].Modes[t.Mode].Uses {
			if u.State == nil || t.Start == t.End {
				continue
			}
			res := x.p.Resources[t.Members[n]]
			for at := t.Start + u.From - res.State.First; at < t.Start+u.From; at++ {
				open := len(res.Calendar) == 0
				for _, s := range res.Calendar {
					open = open || s.From <= at && at < s.To
				}
				if at < 0 || !open {
					return false
				}
			}
		}
	}
	return true
}

func (x *exhaust) score() {
	var z Score
	for _, d := range x.p.Dues {
		if !x.s.Tasks[d.Of.Activity].On {
			continue
		}
		over := x.at(d.Of) - d.At
		if d.Hard && over > 0 || d.Exact && over < 0 {
			return
		}
		z[0] += d.Weight * max(0, over)
	}
	for _, w := range x.p.Waits {
		if x.s.Tasks[w.From.Activity].On && x.s.Tasks[w.To.Activity].On {
			z[1] += w.Weight * max(0, x.at(w.To)-x.at(w.From)-w.Free)
		}
	}
	for i, t := range x.s.Tasks {
		if !t.On {
			continue
		}
		z[3] += x.p.Horizon - t.Start
		m := x.p.Activities[i].Modes[t.Mode]
		z[4] += m.Cost
		for n, u := range m.Uses {
			if x.p.Resources[t.Members[n]].Hands && m.Duration > 0 {
				z[2] = max(z[2], x.p.Horizon-t.Start-u.From)
			}
		}
	}
	for i, b := range x.p.Branches {
		z[4] += b.Options[x.s.Options[i]].Cost
	}
	if x.p.Goal == Makespan {
		z = Score{0, 0, 0, 0, z[4]}
		for _, t := range x.s.Tasks {
			z[0] = max(z[0], t.End)
		}
	}
	if !x.found || z.Less(x.best) {
		x.found, x.best = true, z
	}
}

// smallKitchen makes one of everything the model can say, at random.
func smallKitchen(rng *rand.Rand) *Problem {
	p := &Problem{Horizon: 7 + rng.IntN(3)}
	ana := p.AddResource(Resource{Name: "Ana", Capacity: 1, Hands: true})
	jo := p.AddResource(Resource{Name: "Jo", Capacity: 1, Hands: true, Calendar: []Span{{0, 3}, {4, 6}, {6, 9}}})
	oven := p.AddResource(Resource{Name: "oven", Capacity: 2, State: &State{First: rng.IntN(2), Change: rng.IntN(3)}})
	if rng.IntN(2) == 0 {
		st := p.Resources[oven].State
		st.Up, st.Down, st.Step = rng.IntN(3), rng.IntN(3), rng.IntN(3)
	}
	oven2 := p.AddResource(Resource{Name: "other oven", Capacity: 1, State: &State{First: 1, Change: 1}, Calendar: []Span{{1, 8}}})
	flour := p.AddResource(Resource{Name: "flour", Capacity: 2, Stock: true})
	if rng.IntN(2) == 0 {
		b := Branch{Name: "pause", Options: []Option{{Name: "straight"}, {Name: "paused", Cost: 1 + rng.IntN(2)}}}
		b.Preset, b.Fixed = rng.IntN(2), rng.IntN(4) == 0
		p.AddBranch(b)
	}
	p.Goal = Goal(rng.IntN(5) / 4)
	n := 2 + rng.IntN(2)
	for i := range n {
		a := Activity{Name: fmt.Sprint("step ", i)}
		if len(p.Branches) > 0 && rng.IntN(3) == 0 {
			a.When = When{{0, rng.IntN(2)}}
		}
		if rng.IntN(4) == 0 {
			a.Release = rng.IntN(3)
		}
		if rng.IntN(4) == 0 {
			a.Deadline = p.Horizon - rng.IntN(3)
		}
		for range 1 + rng.IntN(4)/3 {
			m := Mode{Duration: rng.IntN(4), Cost: rng.IntN(2)}
			for range 1 + rng.IntN(2) {
				u := Use{Amount: 1}
				switch rng.IntN(5) {
				case 0:
					u.Of = []int{ana}
				case 1:
					u.Of = []int{ana, jo}
				case 2, 3:
					u.Of = []int{oven}
					if rng.IntN(2) == 0 {
						u.Of = []int{oven, oven2}
					}
					lo := rng.IntN(4)
					u.State = &Range{lo, lo + rng.IntN(3)}
					if rng.IntN(3) == 0 {
						u.Tie = 1
					}
				case 4:
					u.Of = []int{flour}
				}
				if m.Duration > 1 && rng.IntN(2) == 0 {
					u.From = rng.IntN(m.Duration - 1)
					u.To = u.From + 1 + rng.IntN(m.Duration-u.From)
				}
				m.Uses = append(m.Uses, u)
			}
			a.Modes = append(a.Modes, m)
		}
		p.AddActivity(a)
	}
	moment := func() Moment { return Moment{rng.IntN(n), Edge(rng.IntN(2))} }
	for range rng.IntN(4) {
		l := Lag{Before: moment(), After: moment(), Gap: rng.IntN(6) - 3}
		if len(p.Branches) > 0 && rng.IntN(3) == 0 {
			l.When = When{{0, rng.IntN(2)}}
		}
		p.Lags = append(p.Lags, l)
	}
	for range rng.IntN(3) {
		p.Dues = append(p.Dues, Due{Of: moment(), At: rng.IntN(p.Horizon), Weight: rng.IntN(3), Exact: rng.IntN(4) == 0, Hard: rng.IntN(6) == 0})
	}
	for range rng.IntN(3) {
		p.Waits = append(p.Waits, Wait{From: moment(), To: moment(), Free: rng.IntN(2), Weight: rng.IntN(3)})
	}
	return p
}

// smallOven makes a kitchen of one oven that goes up and down by degrees, and two or three
// dishes, some of which bake at two heats.
func smallOven(rng *rand.Rand) *Problem {
	p := &Problem{Horizon: 8 + rng.IntN(3), Goal: Goal(rng.IntN(2))}
	p.AddResource(Resource{Name: "Ana", Capacity: 1, Hands: true})
	oven := p.AddResource(Resource{Name: "oven", Capacity: 1 + rng.IntN(2), State: &State{
		Change: rng.IntN(3), Up: rng.IntN(3), Down: rng.IntN(3), Step: rng.IntN(3),
	}})
	n := 2 + rng.IntN(2)
	for i := range n {
		m := Mode{Duration: 1 + rng.IntN(3)}
		heat := func(from, to int) {
			lo := rng.IntN(6)
			m.Uses = append(m.Uses, Use{Of: []int{oven}, Amount: 1, From: from, To: to, State: &Range{lo, lo + rng.IntN(3)}})
		}
		if rng.IntN(3) == 0 {
			m.Duration = 3 + rng.IntN(2)
			heat(0, 1)
			heat(m.Duration-1, m.Duration)
		} else {
			heat(0, m.Duration)
		}
		p.AddActivity(Activity{Name: fmt.Sprint("dish ", i), Modes: []Mode{m}})
		if rng.IntN(2) == 0 {
			p.Dues = append(p.Dues, Due{Of: EndOf(i), At: rng.IntN(p.Horizon), Weight: 1 + rng.IntN(2), Exact: rng.IntN(4) == 0})
		}
	}
	if rng.IntN(2) == 0 {
		p.AtMost(EndOf(0), StartOf(1), rng.IntN(5), "")
	}
	return p
}

func TestSmallOvensAgainstEverything(t *testing.T) {
	plans, changes := 0, 0
	rounds := effort.Rounds[uint64](60, 400)
	for seed := range rounds {
		p := smallOven(rand.New(rand.NewPCG(seed, 2)))
		x := exhaust{p: p}
		x.run()
		out, err := Solve(context.Background(), p, Budget{Seed: seed, Steps: 3000, NoConflict: true})
		require.NoError(t, err)
		require.Equal(t, x.found, out.Solution != nil, "seed %d", seed)
		if s := out.Solution; s != nil {
			plans++
			require.Empty(t, Verify(p, s), "seed %d", seed)
			require.Equal(t, x.best, s.Score, "seed %d", seed)
			require.True(t, s.Proven, "seed %d", seed)
			changes += len(s.States) - 1
		}
	}
	t.Logf("%d with a plan, %d changes of heat", plans, changes)
	require.Greater(t, plans, int(rounds)/2)
	require.Greater(t, changes, int(rounds)/2)
}

func TestSmallKitchensAgainstEverything(t *testing.T) {
	plans, none, proven := 0, 0, 0
	rounds := effort.Rounds[uint64](80, 1200)
	for seed := range rounds {
		p := smallKitchen(rand.New(rand.NewPCG(seed, 1)))
		x := exhaust{p: p}
		x.run()
		out, err := Solve(context.Background(), p, Budget{Seed: seed, Steps: 3000})
		require.NoError(t, err)
		if !x.found {
			none++
			require.Nil(t, out.Solution, "seed %d", seed)
			require.True(t, out.Conflict.Proven, "seed %d", seed)
			continue
		}
		plans++
		require.NotNil(t, out.Solution, "seed %d: plan %v exists, conflict %+v", seed, x.best, out.Conflict)
		require.Empty(t, Verify(p, out.Solution), "seed %d", seed)
		require.Equal(t, x.best, out.Solution.Score, "seed %d", seed)
		if out.Solution.Proven {
			proven++
			require.Equal(t, x.best, out.Solution.Bounds, "seed %d", seed)
		}
		// With next to no work allowed, bounds may be weak, but never above the best.
		hasty, err := Solve(context.Background(), p, Budget{Seed: seed, Steps: 1 + int(seed%12), NoConflict: true})
		require.NoError(t, err)
		if s := hasty.Solution; s != nil {
			for k := range s.Bounds {
				require.LessOrEqual(t, s.Bounds[k], x.best[k], "seed %d, place %d: %v of %v", seed, k, s.Bounds, x.best)
				if s.Score[k] != x.best[k] {
					break
				}
			}
		}
	}
	t.Logf("%d with a plan, %d of them proven best; %d without", plans, proven, none)
	require.Equal(t, plans, proven)
	require.Greater(t, plans, int(rounds)/3)
	require.Greater(t, none, int(rounds)/24)
}
