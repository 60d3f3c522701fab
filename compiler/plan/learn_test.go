package plan

import (
	"context"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

// Every rule the search learns must allow a plan that is known to exist, as long as that plan
// was not ruled out by an assumption, and assumptions are no rules. This caught two statements
// of a learnt rule vouching for each other, each leaving the other out.
func TestLearntRulesAllowTheBestPlan(t *testing.T) {
	for _, name := range []string{"j30/j3025_3.sm", "j30/j3013_2.sm", "rcpspmax/ubo20/psp1.sch", "mm/j10/j1021_3.mm"} {
		p, err := readInstance(filepath.Join("..", "..", "testdata", "psplib", name))
		require.NoError(t, err)
		out, err := Solve(context.Background(), p, Budget{Seed: 1, Steps: 100000})
		require.NoError(t, err)
		best := out.Solution

		// The plan as values of an engine of its own.
		c := encode(p, false)
		var given []lit
		for i, task := range best.Tasks {
			given = append(given, c.start[i].atMost(int32(task.Start)), c.start[i].atLeast(int32(task.Start)), c.mode[i][task.Mode])
		}
		v, _ := c.e.search(context.Background(), given, nil, newGuide(c, false), 1000)
		require.Equal(t, found, v)
		values := make([]int32, len(c.e.top)/2)
		for x := range values {
			values[x] = c.e.lo(variable(x))
		}
		c.e.backTo(0)

		// Learn from trying to do better, which cannot be done.
		target := c.goal[0].atMost(best.Score[0] - 1)
		g := newGuide(c, false)
		for range 4 {
			v, _ := c.e.search(context.Background(), nil, []lit{target}, g, 1500)
			require.NotEqual(t, found, v, "%s: better than %d", name, best.Score[0])
		}
		checked := 0
		for _, n := range c.e.learnt {
			allows := false
			for _, l := range c.e.clauses[n].lits {
				value := values[l.side/2]
				if l.side&1 == 1 {
					value = -value
				}
				allows = allows || value <= l.max
			}
			require.True(t, allows, "%s: learnt rule %v forbids the plan of %d", name, c.e.clauses[n].lits, best.Score[0])
			checked++
		}
		for x, value := range values { // rules of one statement have become bounds
			require.True(t, c.e.lo(variable(x)) <= value && value <= c.e.hi(variable(x)), "%s: variable %d of %d is %d, not within %d to %d; goal %d, starts %v", name, x, len(values), value, c.e.lo(variable(x)), c.e.hi(variable(x)), c.goal[0].side/2, c.start)
		}
		t.Logf("%s: %d rules", name, checked)
	}
}

func TestLuby(t *testing.T) {
	var got []int
	for i := 1; i <= 15; i++ {
		got = append(got, luby(i))
	}
	require.Equal(t, []int{1, 1, 2, 1, 1, 2, 4, 1, 1, 2, 1, 1, 2, 4, 8}, got) // Luby, Sinclair & Zuckerman 1993
}

// Two true statements, each of which a tighter or looser form of the other explains, must not
// both drop out of a learnt rule.
func TestLearntRuleKeepsOneOfTwo(t *testing.T) {
	e := newEngine()
	x, y := e.newVariable(0, 9), e.newVariable(0, 9)
	b, c := e.newChoice(), e.newChoice()
	e.addClause(y.atLeast(1).not(), x.atLeast(3))
	e.addClause(x.atLeast(3).not(), y.atLeast(5))
	e.addClause(b.not(), x.atLeast(3).not(), c)
	e.addClause(c.not(), y.atLeast(5).not(), b.not())
	e.choose(y.atLeast(1))
	require.True(t, e.propagate())
	require.True(t, e.holdsNow(y.atLeast(5)))
	e.choose(b)
	require.False(t, e.propagate())
	require.True(t, e.learn())
	e.backTo(0)
	require.True(t, e.propagate())
	require.False(t, e.fails(b), "b is possible with x and y at 0")
	require.True(t, open(e, b))
	e.choose(b)
	require.True(t, e.propagate())
	require.True(t, e.set(x.atMost(0), reason{}) && e.propagate())
}
