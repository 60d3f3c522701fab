package plan

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"
)

// solved runs the engine and the checker.
func solved(t testing.TB, p *Problem) *Solution {
	t.Helper()
	out, err := Solve(context.Background(), p, Budget{Seed: 1, Steps: 3000})
	require.NoError(t, err)
	require.NotNil(t, out.Solution, "conflict %+v", out.Conflict)
	require.Empty(t, Verify(p, out.Solution))
	return out.Solution
}

// work is an activity of one mode.
func work(p *Problem, name string, duration int, uses ...Use) int {
	return p.AddActivity(Activity{Name: name, Modes: []Mode{{Duration: duration, Uses: uses}}})
}

func one(r int) Use { return Use{Of: []int{r}, Amount: 1} }

func during(r, from, to int) Use { return Use{Of: []int{r}, Amount: 1, From: from, To: to} }

// Two bakes of 40 and 45 min, one at 190 to 200, one at 195 to 205, share one oven with two
// shelves: common practice, no source.
func TestTwoBakesShareAnOven(t *testing.T) {
	p := &Problem{Horizon: 120}
	oven := p.AddResource(Resource{Name: "oven", Capacity: 2, State: &State{First: 15, Change: 10}})
	bake := func(name string, d, lo, hi int) int {
		return work(p, name, d, Use{Of: []int{oven}, Amount: 1, State: &Range{lo, hi}})
	}
	a, b := bake("tart", 40, 190, 200), bake("loaf", 45, 195, 205)
	for _, i := range []int{a, b} {
		p.Dues = append(p.Dues, Due{Of: EndOf(i), At: 120, Weight: 1})
	}
	s := solved(t, p)
	require.True(t, s.Proven)
	require.Equal(t, 120, s.Tasks[a].End)
	require.Equal(t, 120, s.Tasks[b].End)
	require.Equal(t, []Steady{{Resource: oven, Ready: 60, From: 75, To: 120, Setting: 200}}, s.States)
}

// The same, but nothing suits both: the oven changes in between, 10 min.
func TestTwoBakesApart(t *testing.T) {
	p := &Problem{Horizon: 120}
	oven := p.AddResource(Resource{Name: "oven", Capacity: 2, State: &State{First: 15, Change: 10}})
	a := work(p, "tart", 40, Use{Of: []int{oven}, Amount: 1, State: &Range{160, 170}})
	b := work(p, "loaf", 45, Use{Of: []int{oven}, Amount: 1, State: &Range{220, 230}})
	s := solved(t, p)
	require.True(t, s.Proven)
	// Latest first start: 120-45-10-40 = 25 either way; the shorter last starts the later.
	require.Equal(t, 25, s.Tasks[b].Start)
	require.Equal(t, 80, s.Tasks[a].Start)
	require.Equal(t, []Steady{{oven, 10, 25, 70, 220}, {oven, 70, 80, 120, 160}}, s.States)
	p.Horizon = 109 // 15 + 40 + 10 + 45 = 110
	out, err := Solve(context.Background(), p, Budget{})
	require.NoError(t, err)
	require.Nil(t, out.Solution)
	require.Equal(t, &Conflict{Activities: []int{a, b}, Resources: []int{oven}, Horizon: true, Proven: true}, out.Conflict)
}

// A cream infuses 10 to 15 min on a low ring while the only cook is wanted elsewhere.
func TestCreamInfuses(t *testing.T) {
	p := &Problem{Horizon: 60}
	cook := p.AddResource(Resource{Name: "cook", Capacity: 1, Hands: true})
	ring := p.AddResource(Resource{Name: "ring", Capacity: 1})
	warm := work(p, "warm the cream", 5, one(cook), one(ring))
	infuse := p.AddActivity(Activity{Name: "infuse", Modes: []Mode{{Duration: 10, Uses: []Use{one(ring)}}}})
	strain := work(p, "strain", 3, one(cook))
	p.Exactly(EndOf(warm), StartOf(infuse), 0, "straight on")
	p.AtLeast(EndOf(infuse), StartOf(strain), 0, "10 min")
	p.AtMost(EndOf(infuse), StartOf(strain), 5, "15 min at most")
	plate := work(p, "plate", 8, one(cook))
	p.Exactly(EndOf(strain), StartOf(plate), 0, "plated at once")
	p.Dues = append(p.Dues, Due{Of: EndOf(plate), At: 60, Weight: 1, Exact: true})
	carve := work(p, "carve", 12, one(cook))
	p.Dues = append(p.Dues, Due{Of: EndOf(carve), At: 40, Weight: 1})
	s := solved(t, p)
	require.True(t, s.Proven)
	// Plated at 52, strained at 49: infusing ends from 44 to 49, so warming ends from 34 to
	// 39. Carving at its latest, 28 to 40, is in the way: it goes first, from 22 to 34.
	require.Equal(t, 22, s.Tasks[carve].Start)
	require.Equal(t, 34, s.Tasks[warm].Start)
	require.Equal(t, 39, s.Tasks[infuse].Start)
	require.Equal(t, 0, s.Score[Lateness])
	require.Equal(t, 38, s.Score[Lead])
}

// Rice for a dinner is cooked straight through if the cook is free, or the night before,
// cooled, and brought back, if she is not. Cooling within 90 min and bringing back are the
// kitchen's own figures here, not advice.
func TestPausedTheNightBefore(t *testing.T) {
	build := func(busy int) (*Problem, map[string]int) {
		p := &Problem{Horizon: 1440}
		cook := p.AddResource(Resource{Name: "cook", Capacity: 1, Hands: true, Calendar: []Span{{0, 180}, {1350, 1440}}})
		ring := p.AddResource(Resource{Name: "ring", Capacity: 1})
		pause := p.AddBranch(Branch{Name: "rice", Options: []Option{{Name: "straight"}, {Name: "paused", Cost: 1}}})
		id := map[string]int{}
		id["rice"] = work(p, "cook rice", 40, during(cook, 0, 10), one(ring))
		paused := When{{pause, 1}}
		add := func(name string, d int, uses ...Use) {
			id[name] = p.AddActivity(Activity{Name: name, When: paused, Modes: []Mode{{Duration: d, Uses: uses}}})
		}
		add("cool", 90, during(cook, 0, 5))
		add("back", 15, one(cook), one(ring))
		id["serve"] = work(p, "serve", 0)
		p.AtLeast(EndOf(id["rice"]), StartOf(id["cool"]), 0, "")
		p.AtMost(EndOf(id["rice"]), StartOf(id["cool"]), 10, "cooled at once")
		p.AtLeast(EndOf(id["cool"]), StartOf(id["back"]), 0, "")
		p.AtLeast(EndOf(id["back"]), StartOf(id["serve"]), 0, "")
		p.AtMost(EndOf(id["back"]), StartOf(id["serve"]), 10, "served hot")
		p.AtLeast(EndOf(id["rice"]), StartOf(id["serve"]), 0, "")
		p.AtMost(EndOf(id["rice"]), StartOf(id["serve"]), 10, "served hot", Choice{pause, 0})
		p.Dues = append(p.Dues, Due{Of: StartOf(id["serve"]), At: 1440, Weight: 10, Exact: true})
		id["roast"] = work(p, "roast", busy, one(cook))
		p.Exactly(EndOf(id["roast"]), StartOf(id["serve"]), 15, "carved and served")
		return p, id
	}
	p, id := build(20) // 1405 to 1425: the rice needs her from 1390 to 1400 at the latest
	s := solved(t, p)
	require.True(t, s.Proven)
	require.Equal(t, []int{0}, s.Options)
	require.False(t, s.Tasks[id["cool"]].On)
	require.Equal(t, 1395, s.Tasks[id["rice"]].Start) // until 1435, served within 10 min; she is free until 1405

	p, id = build(60) // 1365 to 1425: she is not free from 1390 to 1410
	s = solved(t, p)
	require.True(t, s.Proven)
	require.Equal(t, []int{1}, s.Options)
	require.Equal(t, 135, s.Tasks[id["rice"]].Start)        // until 175
	require.Equal(t, 175, s.Tasks[id["cool"]].Start)        // her last 5 min of the evening
	require.Equal(t, 1425, s.Tasks[id["back"]].Start)       // between the roast and serving
	require.Equal(t, 1440-135, s.Score[Lead])               // the evening's first work
	require.Equal(t, 1, s.Score[Cost])                      // one pause
	require.Equal(t, 0, s.Score[Lateness]+s.Score[Waiting]) // on time
	require.Equal(t, 1365, s.Tasks[id["roast"]].Start)      // nothing else moves
}

// An idle oven is reported as made ready afresh only if it idled long enough for that, however
// soon it is said to go cold.
func TestShortIdleIsNoPreheat(t *testing.T) {
	p := &Problem{Horizon: 60}
	oven := p.AddResource(Resource{Name: "oven", Capacity: 1, State: &State{First: 15, Off: 2}})
	use := Use{Of: []int{oven}, Amount: 1, State: &Range{180, 180}}
	a, b := work(p, "tart", 10, use), work(p, "pie", 10, use)
	p.Exactly(EndOf(a), StartOf(b), 5, "")
	s := solved(t, p)
	require.Equal(t, []Steady{{oven, 20, 35, 60, 180}}, s.States)
}

// What takes no time takes nothing, and may come in the middle of what fills the resource.
func TestNoTimeTakesNothing(t *testing.T) {
	p := &Problem{Horizon: 30, Goal: Makespan}
	oven := p.AddResource(Resource{Name: "oven", Capacity: 1, State: &State{}})
	roast := work(p, "roast", 30, Use{Of: []int{oven}, Amount: 1, State: &Range{180, 180}})
	look := work(p, "look in", 0, Use{Of: []int{oven}, Amount: 1, State: &Range{90, 90}})
	p.Exactly(StartOf(roast), StartOf(look), 15, "half way")
	s := solved(t, p)
	require.True(t, s.Proven)
	require.Equal(t, 15, s.Tasks[look].Start)
}

// What cannot take place in its hours is left out where there is a choice, and spoils nothing,
// however many ways there are to do it.
func TestImpossibleOptionIsLeftOut(t *testing.T) {
	p := &Problem{Horizon: 30}
	b := p.AddBranch(Branch{Options: []Option{{Name: "ahead"}, {Name: "fresh", Cost: 1}}})
	ahead := p.AddActivity(Activity{Name: "ahead", When: When{{b, 0}}, Modes: []Mode{{Duration: 3}, {Duration: 5}}})
	p.Dues = []Due{{Of: StartOf(ahead), At: 9, Exact: true}, {Of: EndOf(ahead), At: 4, Hard: true}}
	s := solved(t, p)
	require.Equal(t, []int{1}, s.Options)
	require.False(t, s.Tasks[ahead].On)
}
