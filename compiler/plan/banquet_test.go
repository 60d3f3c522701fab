package plan

import (
	"context"
	"flag"
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/lang/effort"
)

// banquet makes a kitchen of a given number of dishes in three courses: three cooks on two
// days, two ovens, six rings, dishes of six to ten steps that are served hot, some of which
// may be paused the day before.
func banquet(dishes int, seed uint64) *Problem {
	rng := rand.New(rand.NewPCG(seed, 7))
	p := &Problem{Name: fmt.Sprint("banquet ", dishes), Horizon: 2 * 1440}
	hours := []Span{{1020, 1200}, {1440 + 510, 1440 + 900}}
	var cooks, ovens []int
	for _, name := range []string{"Ana", "Jo", "Sam"} {
		cooks = append(cooks, p.AddResource(Resource{Name: name, Capacity: 1, Hands: true, Calendar: hours}))
	}
	for _, name := range []string{"main oven", "side oven"} {
		ovens = append(ovens, p.AddResource(Resource{Name: name, Capacity: 2, State: &State{First: 15, Change: 10}, Calendar: hours}))
	}
	rings := p.AddResource(Resource{Name: "rings", Capacity: 6})
	blender := p.AddResource(Resource{Name: "blender", Capacity: 1})
	serve := make([]int, 3)
	for k := range serve {
		serve[k] = work(p, fmt.Sprint("course ", k+1), 0)
		p.Dues = append(p.Dues, Due{Of: StartOf(serve[k]), At: 1440 + 780 + []int{0, 30, 75}[k], Weight: 1 + k%2, Exact: true})
	}
	cook := func(from, to int) Use { return Use{Of: cooks, Amount: 1, From: from, To: to} }
	for d := range dishes {
		last := -1
		pause := -1
		if rng.IntN(3) == 0 {
			pause = p.AddBranch(Branch{Name: fmt.Sprint("dish ", d), Options: []Option{{Name: "straight"}, {Name: "paused", Cost: 1}}})
		}
		steps := 6 + rng.IntN(5)
		for k := range steps {
			var uses []Use
			hands := 2 + rng.IntN(10)
			left := 0
			kind := rng.IntN(5)
			switch kind {
			case 0:
				left = 5 * rng.IntN(9)
				uses = append(uses, Use{Of: []int{rings}, Amount: 1, From: 0, To: hands + left})
			case 1:
				left = 15 + 5*rng.IntN(10)
				if k == 2 {
					lo := 140 + 10*rng.IntN(9)
					uses = append(uses, Use{Of: ovens, Amount: 1, From: hands, To: hands + left, State: &Range{lo, lo + 20}})
				}
			case 2:
				if rng.IntN(3) == 0 {
					uses = append(uses, Use{Of: []int{blender}, Amount: 1, From: 0, To: hands})
				}
			}
			uses = append(uses, cook(0, hands))
			if left > 20 && kind == 0 {
				uses = append(uses, cook(hands+left/2, hands+left/2+1), cook(hands+left-1, hands+left))
			}
			i := work(p, fmt.Sprintf("dish %d step %d", d, k), hands+left, uses...)
			if last >= 0 {
				p.AtLeast(EndOf(last), StartOf(i), 0, "in order")
				if rng.IntN(4) == 0 {
					p.AtMost(EndOf(last), StartOf(i), 15, "before it cools")
				}
			}
			if pause >= 0 && k == steps-2 {
				back := p.AddActivity(Activity{Name: fmt.Sprintf("dish %d back", d), When: When{{pause, 1}}, Modes: []Mode{{Duration: 12, Uses: []Use{cook(0, 3), one(rings)}}}})
				p.AtLeast(EndOf(last), StartOf(back), 90, "cooled")
				p.AtLeast(EndOf(back), StartOf(i), 0, "brought back")
				p.AtMost(EndOf(back), StartOf(i), 15, "before it cools")
				p.AtMost(EndOf(last), StartOf(i), 60, "straight through", Choice{pause, 0})
			}
			last = i
		}
		at := serve[d%3]
		p.AtLeast(EndOf(last), StartOf(at), 0, "served")
		p.AtMost(EndOf(last), StartOf(at), 30, "served hot")
		p.Waits = append(p.Waits, Wait{From: EndOf(last), To: StartOf(at), Free: 5, Weight: 1 + rng.IntN(3)})
	}
	return p
}

var banquetSteps = flag.Int("steps", 0, "steps for each banquet")

// Banquets of up to some 160 activities, 3 cooks, 2 ovens and 6 rings are served on time, and
// hardly anything waits; those of up to 50 activities are proven best. Times are in
// BENCHMARKS.md.
func TestBanquets(t *testing.T) {
	for _, dishes := range []int{2, 5, 10, 18} {
		for seed := range uint64(3) {
			p := banquet(dishes, seed)
			var out Outcome
			var err error
			took, _ := effort.Of(func() { out, err = Solve(context.Background(), p, Budget{Seed: 1, Steps: *banquetSteps}) })
			require.NoError(t, err)
			s := out.Solution
			require.NotNil(t, s)
			require.Empty(t, Verify(p, s))
			require.Zero(t, s.Score[Lateness])
			require.Less(t, s.Score[Waiting], 10)
			require.True(t, s.Proven || dishes > 5)
			t.Logf("%2d dishes, %3d activities, seed %d: %v, proven %v, %d steps, %v", dishes, len(p.Activities), seed, s.Score, s.Proven, out.Steps, took)
		}
	}
}

// The same with cooks who are not alike, and with steps that ask for one by name: one comes
// later, no two keep the same hours.
func TestBanquetsWithNamedCooks(t *testing.T) {
	for seed := range uint64(3) {
		p := banquet(10, seed)
		for r := range 3 {
			p.Resources[r].Calendar = []Span{{1020, 1200}, {1440 + 500 + 30*r, 1440 + 900}}
		}
		named := map[int]int{}
		for i := 3; i < len(p.Activities); i += 7 {
			for n, u := range p.Activities[i].Modes[0].Uses {
				if len(u.Of) == 3 {
					p.Activities[i].Modes[0].Uses[n].Of, named[i] = []int{i % 3}, i%3
				}
			}
		}
		require.NotEmpty(t, named)
		s := solved(t, p)
		require.Zero(t, s.Score[Lateness])
		for i, cook := range named {
			if !s.Tasks[i].On {
				continue
			}
			uses := p.Activities[i].Modes[0].Uses
			require.Equal(t, cook, s.Tasks[i].Members[len(uses)-1])
		}
	}
}
