package plan

import (
	"context"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/lang/effort"
)

// only keeps of a problem the rules that a conflict names, less one if leave is given.
func only(p *Problem, c *Conflict, leave rule) *Problem {
	q := *p
	kept := func(list []int, kind ruleKind, n int) bool {
		return slices.Contains(list, n) && leave != rule{kind, n}
	}
	q.Lags, q.Dues = nil, nil
	off := q.AddBranch(Branch{Options: []Option{{}, {}}, Fixed: true}) // option 1 never holds
	q.Branches = slices.Clone(q.Branches)
	for i := range p.Branches {
		q.Branches[i].Fixed = p.Branches[i].Fixed && kept(c.Branches, ruleBranch, i)
	}
	q.Activities = slices.Clone(p.Activities)
	for i := range q.Activities {
		if !kept(c.Activities, ruleActivity, i) {
			q.Activities[i].When = append(slices.Clone(q.Activities[i].When), Choice{off, 1})
		}
	}
	for i, l := range p.Lags {
		if kept(c.Lags, ruleLag, i) {
			q.Lags = append(q.Lags, l)
		}
	}
	for i, d := range p.Dues {
		if kept(c.Dues, ruleDue, i) {
			q.Dues = append(q.Dues, d)
		}
	}
	q.Resources = slices.Clone(p.Resources)
	for r := range q.Resources {
		if !kept(c.Resources, ruleResource, r) {
			q.Resources[r].Capacity, q.Resources[r].Calendar = 1000, nil
			if q.Resources[r].State != nil {
				// Without its rule, one such oven for each use: no two meet, none needs heating.
				q.Resources[r].State = nil
			}
		}
	}
	for i := range q.Activities {
		q.Activities[i].Modes = slices.Clone(q.Activities[i].Modes)
		for k := range q.Activities[i].Modes {
			m := &q.Activities[i].Modes[k]
			m.Uses = slices.Clone(m.Uses)
			for n := range m.Uses {
				u := &m.Uses[n]
				if u.State != nil && slices.ContainsFunc(u.Of, func(r int) bool { return q.Resources[r].State == nil }) {
					u.State = nil // some oven without rules will take it
				}
			}
		}
	}
	if !c.Horizon || leave.kind == ruleHorizon {
		q.Horizon += 60
	}
	return &q
}

func hasTie(p *Problem) bool {
	for _, a := range p.Activities {
		for _, m := range a.Modes {
			for _, u := range m.Uses {
				if u.Tie != 0 {
					return true
				}
			}
		}
	}
	return false
}

// A conflict is one: its rules alone leave no plan. And it is small: leaving out any of them
// lets a plan be made.
func TestConflictsAreConflictsAndSmall(t *testing.T) {
	seen, rules := 0, 0
	rounds := effort.Rounds[uint64](150, 700)
	for seed := range rounds {
		p := smallKitchen(rand.New(rand.NewPCG(seed, 1)))
		out, err := Solve(context.Background(), p, Budget{Steps: 2000})
		require.NoError(t, err)
		c := out.Conflict
		if c == nil || hasTie(p) { // what a tie means without one of its ovens, only cannot say
			continue
		}
		seen++
		require.True(t, c.Proven, "seed %d", seed)
		none := rule{ruleHorizon + 1, 0}
		rest, err := Solve(context.Background(), only(p, c, none), Budget{Steps: 2000})
		require.NoError(t, err)
		require.Nil(t, rest.Solution, "seed %d: %+v is no conflict", seed, c)
		each := map[ruleKind][]int{ruleLag: c.Lags, ruleResource: c.Resources, ruleActivity: c.Activities, ruleDue: c.Dues, ruleBranch: c.Branches}
		if c.Horizon {
			each[ruleHorizon] = []int{0}
		}
		for kind, list := range each {
			for _, n := range list {
				rest, err := Solve(context.Background(), only(p, c, rule{kind, n}), Budget{Steps: 2000})
				require.NoError(t, err)
				require.NotNil(t, rest.Solution, "seed %d: %+v does not need %v", seed, c, rule{kind, n})
				rules++
			}
		}
	}
	t.Logf("%d conflicts of %.1f rules", seen, float64(rules)/float64(seen))
	require.Greater(t, seen, int(rounds)/14)
}

// A fried fish must be served within 2 min, but the plate is only warm 10 min later.
func TestExplainNamesTheHold(t *testing.T) {
	p := &Problem{Horizon: 20000}
	cook := p.AddResource(Resource{Name: "cook", Capacity: 1, Hands: true})
	fry := work(p, "fry", 5, one(cook))
	plate := work(p, "serve", 0)
	other := work(p, "sauce", 10, one(cook))
	before := p.AtLeast(EndOf(fry), StartOf(other), 0, "fry first")
	after := p.AtLeast(EndOf(other), StartOf(plate), 0, "sauce on the plate")
	hold := p.AtMost(EndOf(fry), StartOf(plate), 2, "crisp for 2 min")
	work(p, "wash up", 20, one(cook))
	out, err := Solve(context.Background(), p, Budget{})
	require.NoError(t, err)
	require.Equal(t, &Conflict{Activities: []int{fry, plate, other}, Lags: []int{before, after, hold}, Proven: true}, out.Conflict)
}

// Late by 5 min at best: Explain says what cannot be done by the hour.
func TestExplainLateness(t *testing.T) {
	p := &Problem{Horizon: 100}
	cook := p.AddResource(Resource{Name: "cook", Capacity: 1, Hands: true, Calendar: []Span{{30, 100}}})
	a, b := work(p, "soup", 20, one(cook)), work(p, "fish", 15, one(cook))
	for _, i := range []int{a, b} {
		p.Dues = append(p.Dues, Due{Of: EndOf(i), At: 60, Weight: 1})
	}
	s := solved(t, p)
	require.True(t, s.Proven)
	require.Equal(t, 5, s.Score[Lateness])
	require.Equal(t, 5, s.Bound)
	out, err := Explain(context.Background(), p, Budget{})
	require.NoError(t, err)
	require.Equal(t, &Conflict{Activities: []int{a, b}, Resources: []int{cook}, Dues: []int{0, 1}, Proven: true}, out.Conflict)
	require.False(t, p.Dues[0].Hard)
}

// Far too much work for the cooks: no search gets through that, but the work adds up to more
// than their hours, and what is blamed is the work and the cooks, not how the dishes hang
// together.
func TestTooMuchWork(t *testing.T) {
	p := banquet(28, 1)
	for r := range 3 {
		p.Resources[r].Calendar = []Span{{1440 + 510, 1440 + 840}}
	}
	out, err := Solve(context.Background(), p, Budget{Steps: 1000})
	require.NoError(t, err)
	c := out.Conflict
	require.NotNil(t, c)
	require.True(t, c.Proven)
	require.Equal(t, []int{0, 1, 2}, c.Resources)
	require.Empty(t, c.Lags)
	require.Empty(t, c.Dues)
	work := 0
	for _, i := range c.Activities {
		for _, u := range p.Activities[i].Modes[0].Uses {
			if len(u.Of) == 3 {
				work += u.To - u.From
			}
		}
	}
	require.Greater(t, work, 3*330)
}
