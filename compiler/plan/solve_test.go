package plan

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestSameAnswerEveryTime(t *testing.T) {
	for _, build := range []func() *Problem{
		func() *Problem { return banquet(6, 3) },
		func() *Problem {
			p, err := readInstance("../../testdata/psplib/j60/j601_1.sm")
			require.NoError(t, err)
			return p
		},
	} {
		first, err := Solve(context.Background(), build(), Budget{Seed: 5, Steps: 700})
		require.NoError(t, err)
		for range 2 {
			again, err := Solve(context.Background(), build(), Budget{Seed: 5, Steps: 700})
			require.NoError(t, err)
			require.Equal(t, first, again)
		}
	}
}

func TestProgressOnlyImproves(t *testing.T) {
	var told []Progress
	out, err := Solve(context.Background(), banquet(10, 1), Budget{Seed: 1, Progress: func(p Progress) { told = append(told, p) }})
	require.NoError(t, err)
	require.Greater(t, len(told), 2)
	for k := 1; k < len(told); k++ {
		require.True(t, told[k].Score.Less(told[k-1].Score))
		require.GreaterOrEqual(t, told[k].Steps, told[k-1].Steps)
	}
	require.Equal(t, told[len(told)-1].Score, out.Solution.Score)
}

func TestCancel(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	_, err := Solve(ctx, banquet(10, 1), Budget{Steps: 1 << 30})
	require.ErrorIs(t, err, context.Canceled)

	ctx, cancel = context.WithCancel(context.Background())
	p := banquet(10, 1)
	out, err := Solve(ctx, p, Budget{Steps: 1 << 30, Progress: func(Progress) { cancel() }})
	require.NoError(t, err)
	require.Empty(t, Verify(p, out.Solution))
	require.False(t, out.Solution.Proven)
}

// The loaf stays in the oven it went into when the lid comes off, though the other is free.
func TestTieKeepsTheOven(t *testing.T) {
	p := &Problem{Horizon: 100}
	ovens := []int{
		p.AddResource(Resource{Name: "a", Capacity: 1, State: &State{Change: 5}, Calendar: []Span{{0, 70}}}),
		p.AddResource(Resource{Name: "b", Capacity: 1, State: &State{Change: 5}}),
	}
	use := func(lo int) Use { return Use{Of: ovens, Amount: 1, State: &Range{lo, lo + 10}, Tie: 7} }
	lid, bare := work(p, "covered", 30, use(230)), work(p, "bare", 20, use(235))
	p.Exactly(EndOf(lid), StartOf(bare), 0, "")
	s := solved(t, p)
	require.Equal(t, []int{ovens[1]}, s.Tasks[lid].Members)
	require.Equal(t, []int{ovens[1]}, s.Tasks[bare].Members)
	require.Equal(t, []Steady{{ovens[1], 50, 50, 100, 240}}, s.States)
	require.Equal(t, 80, s.Tasks[bare].Start)
}

// Two cooks alike: whoever put the pan on turns it, and plates what was in it.
func TestPoolsDealToWhoeverBegan(t *testing.T) {
	p := &Problem{Horizon: 60}
	cooks := []int{p.AddResource(Resource{Name: "Ana", Capacity: 1, Hands: true}), p.AddResource(Resource{Name: "Jo", Capacity: 1, Hands: true})}
	hand := func(from, to int) Use { return Use{Of: cooks, Amount: 1, From: from, To: to} }
	long := work(p, "stir", 60, hand(0, 60))
	fry := work(p, "fry", 20, hand(0, 5), hand(10, 12), hand(18, 20))
	plate := work(p, "plate", 10, hand(0, 10))
	p.Exactly(EndOf(fry), StartOf(plate), 0, "")
	require.NotNil(t, p.pools()[0])
	s := solved(t, p)
	jo := s.Tasks[fry].Members[0]
	require.NotEqual(t, jo, s.Tasks[long].Members[0])
	require.Equal(t, []int{jo, jo, jo}, s.Tasks[fry].Members)
	require.Equal(t, []int{jo}, s.Tasks[plate].Members)

	p.Resources[1].Calendar = []Span{{0, 60}} // no longer alike on paper: chosen by the search
	require.Nil(t, p.pools()[0])
	s = solved(t, p)
	jo = s.Tasks[fry].Members[0]
	require.Equal(t, []int{jo, jo, jo}, s.Tasks[fry].Members)
}

// Positive cycles of lags are seen for what they are, over any horizon.
func TestLagCycle(t *testing.T) {
	p := &Problem{Horizon: maxTime}
	a, b := work(p, "a", 5), work(p, "b", 5)
	p.AtLeast(EndOf(a), StartOf(b), 0, "a before b")
	p.AtMost(StartOf(a), StartOf(b), 4, "b within 4 min of a")
	out, err := Solve(context.Background(), p, Budget{})
	require.NoError(t, err)
	require.Equal(t, []int{0, 1}, out.Conflict.Lags)
	require.Equal(t, []int{a, b}, out.Conflict.Activities)
}

func TestCheckRefuses(t *testing.T) {
	good := func() *Problem {
		p := &Problem{Horizon: 60}
		oven := p.AddResource(Resource{Name: "oven", Capacity: 1, State: &State{}})
		work(p, "bake", 30, Use{Of: []int{oven}, Amount: 1, State: &Range{1, 2}})
		p.AddBranch(Branch{Options: []Option{{}}})
		p.AtLeast(EndOf(0), EndOf(0), 0, "")
		p.Dues = []Due{{Of: EndOf(0)}}
		p.Waits = []Wait{{From: EndOf(0), To: EndOf(0)}}
		return p
	}
	require.NoError(t, good().Check())
	use := func(p *Problem) *Use { return &p.Activities[0].Modes[0].Uses[0] }
	for name, spoil := range map[string]func(*Problem){
		"horizon":             func(p *Problem) { p.Horizon = -1 },
		"capacity":            func(p *Problem) { p.Resources[0].Capacity = -1 },
		"out of order":        func(p *Problem) { p.Resources[0].Calendar = []Span{{5, 9}, {8, 12}} },
		"too far off":         func(p *Problem) { p.Resources[0].Calendar = []Span{{0, 1 << 40}} },
		"time -1 in":          func(p *Problem) { p.Resources[0].State.First = -1 },
		"deadline 1099511627": func(p *Problem) { p.Activities[0].Deadline = 1 << 40 },
		"amounts too large": func(p *Problem) {
			m := &p.Activities[0].Modes[0]
			for range 300 {
				m.Uses = append(m.Uses, Use{Of: []int{0}, Amount: maxTime})
			}
		},
		"neither calendar":     func(p *Problem) { p.Resources[0].Stock = true },
		"preset 3":             func(p *Problem) { p.Branches[0].Preset = 3 },
		"no modes":             func(p *Problem) { p.Activities[0].Modes = nil },
		"release -1":           func(p *Problem) { p.Activities[0].Release = -1 },
		"duration -1":          func(p *Problem) { p.Activities[0].Modes[0].Duration = -1 },
		"no resource":          func(p *Problem) { use(p).Of = nil },
		"does not exist":       func(p *Problem) { use(p).Of = []int{1} },
		"amount":               func(p *Problem) { use(p).Amount = -1 },
		"window 20 to 31":      func(p *Problem) { use(p).From, use(p).To = 20, 31 },
		"state range 2 to 1":   func(p *Problem) { use(p).State = &Range{2, 1} },
		"no rule":              func(p *Problem) { p.Resources[0].State = nil },
		"lag 0":                func(p *Problem) { p.Lags[0].After.Activity = 2 },
		"due 0":                func(p *Problem) { p.Dues[0].Of.Edge = 2 },
		"wait 0":               func(p *Problem) { p.Waits[0].Free = -1 },
		"no option 1":          func(p *Problem) { p.Activities[0].When = When{{0, 1}} },
		"weights or costs too": func(p *Problem) { p.Dues[0].Weight, p.Horizon = 1<<15, 1<<16 },
	} {
		p := good()
		spoil(p)
		require.ErrorContains(t, p.Check(), name)
		_, err := Solve(context.Background(), p, Budget{})
		require.Error(t, err)
	}
}

// Whatever it is given, the engine answers, and what it answers is true.
func TestAnythingGoes(t *testing.T) {
	refused, planned, none := 0, 0, 0
	rapid.Check(t, func(t *rapid.T) {
		bad := 0 // now and then, what no problem may say
		if rapid.IntRange(0, 4).Draw(t, "bad") == 0 {
			bad = 1
		}
		small := rapid.IntRange(-bad, 12)
		index := rapid.IntRange(-bad, 3+bad)
		resource := rapid.IntRange(-bad, 2+bad)
		moment := rapid.Custom(func(t *rapid.T) Moment {
			return Moment{index.Draw(t, "of"), Edge(rapid.IntRange(0, 1+bad).Draw(t, "edge"))}
		})
		p := &Problem{Horizon: rapid.IntRange(40-41*bad, 80).Draw(t, "horizon"), Goal: Goal(rapid.IntRange(0, 1).Draw(t, "goal"))}
		for range 3 {
			r := Resource{Capacity: rapid.IntRange(2-3*bad, 4).Draw(t, "capacity"), Hands: rapid.Bool().Draw(t, "hands")}
			if rapid.Bool().Draw(t, "calendar") {
				from := small.Draw(t, "from")
				r.Calendar = []Span{{from, from + 1 - bad + small.Draw(t, "length")}, {25, 35}, {35, 50}}
			}
			if bad == 0 || rapid.Bool().Draw(t, "state") {
				r.State = &State{
					First: small.Draw(t, "first"), Change: small.Draw(t, "change"), Off: small.Draw(t, "off"),
					Up: small.Draw(t, "up"), Down: small.Draw(t, "down"), Step: small.Draw(t, "step"),
				}
			}
			p.AddResource(r)
		}
		if bad == 0 || rapid.Bool().Draw(t, "branch") {
			p.AddBranch(Branch{Options: []Option{{}, {Cost: small.Draw(t, "cost")}}, Preset: rapid.IntRange(0, 1).Draw(t, "preset")})
		}
		for range rapid.IntRange(4-4*bad, 7).Draw(t, "activities") {
			a := Activity{Release: small.Draw(t, "release")}
			if rapid.IntRange(0, 3).Draw(t, "until") == 0 {
				a.Deadline = 5 * small.Draw(t, "deadline")
			}
			if rapid.Bool().Draw(t, "when") {
				a.When = When{{0, rapid.IntRange(0, 1).Draw(t, "option")}}
			}
			for range rapid.IntRange(1, 2).Draw(t, "modes") {
				m := Mode{Duration: small.Draw(t, "duration")}
				for range rapid.IntRange(0, 2).Draw(t, "uses") {
					u := Use{Of: rapid.SliceOfNDistinct(resource, 1, 3, rapid.ID[int]).Draw(t, "any of"), Amount: rapid.IntRange(-bad, 2).Draw(t, "amount"), Tie: rapid.IntRange(0, 1).Draw(t, "tie")}
					if rapid.Bool().Draw(t, "windowed") && m.Duration > bad {
						u.From = rapid.IntRange(0, m.Duration-1+bad).Draw(t, "from")
						u.To = rapid.IntRange(u.From+1-bad, m.Duration+bad).Draw(t, "to")
					}
					if rapid.Bool().Draw(t, "stated") {
						lo := small.Draw(t, "lo")
						u.State = &Range{lo, lo + small.Draw(t, "hi")}
					}
					m.Uses = append(m.Uses, u)
				}
				a.Modes = append(a.Modes, m)
			}
			p.AddActivity(a)
		}
		for range rapid.IntRange(0, 3).Draw(t, "rules") {
			p.Lags = append(p.Lags, Lag{Before: moment.Draw(t, "before"), After: moment.Draw(t, "after"), Gap: rapid.IntRange(-19, 5).Draw(t, "gap")})
			p.Dues = append(p.Dues, Due{Of: moment.Draw(t, "due"), At: 3 * small.Draw(t, "at"), Weight: small.Draw(t, "weight"), Hard: rapid.IntRange(0, 5).Draw(t, "hard") == 1})
			p.Waits = append(p.Waits, Wait{From: moment.Draw(t, "wait from"), To: moment.Draw(t, "to"), Free: small.Draw(t, "free"), Weight: small.Draw(t, "weight")})
		}
		out, err := Solve(context.Background(), p, Budget{Steps: 300})
		if err != nil {
			if bad == 0 {
				t.Fatalf("refused: %v", err)
			}
			refused++
			return
		}
		if (out.Solution == nil) == (out.Conflict == nil) {
			t.Fatalf("solution %v, conflict %v", out.Solution, out.Conflict)
		}
		none++
		if out.Solution != nil {
			planned++
			none--
			if faults := Verify(p, out.Solution); len(faults) > 0 {
				t.Fatalf("%v", faults)
			}
		}
	})
	t.Logf("%d refused, %d planned, %d without a plan", refused, planned, none)
}
