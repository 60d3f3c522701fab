package plan

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"
)

// Who only wants a plan as good as one there was gets it for less work, and no worse.
func TestEnoughIsEnough(t *testing.T) {
	ctx, p := context.Background(), banquet(10, 1)
	all, err := Solve(ctx, p, Budget{Steps: 600})
	require.NoError(t, err)
	require.NotNil(t, all.Solution)
	want := all.Solution.Score
	want[Earliness] += want[Earliness] / 20
	out, err := Solve(ctx, p, Budget{Steps: 600, Enough: &want})
	require.NoError(t, err)
	require.Empty(t, Verify(p, out.Solution))
	require.Equal(t, want[:Earliness], out.Solution.Score[:Earliness], "what comes first is made as small as ever")
	require.LessOrEqual(t, out.Solution.Score[Earliness], want[Earliness])
	require.Less(t, out.Steps, all.Steps*4/5)

	want[Earliness] = 0 // which no plan has: all is as if nothing had been said
	none, err := Solve(ctx, p, Budget{Steps: 600, Enough: &want})
	require.NoError(t, err)
	require.Equal(t, all, none)
}

// Where all starts are given, only who and what is left to be found: soon, and as good as
// the plan they are taken from. Starts that cannot be give no plan.
func TestStartsAreGiven(t *testing.T) {
	ctx, p := context.Background(), banquet(10, 1)
	all, err := Solve(ctx, p, Budget{Steps: 600})
	require.NoError(t, err)
	starts := make([]int, len(all.Solution.Tasks))
	for i, task := range all.Solution.Tasks {
		if starts[i] = -1; task.On {
			starts[i] = task.Start
		}
	}
	again := func() Outcome {
		out, err := Solve(ctx, p, Budget{Steps: 600, Starts: starts, NoConflict: true})
		require.NoError(t, err)
		require.Less(t, out.Steps, 60)
		return out
	}
	out := again()
	require.Empty(t, Verify(p, out.Solution))
	for i, task := range out.Solution.Tasks {
		if starts[i] >= 0 {
			require.Equal(t, starts[i], task.Start)
		}
	}
	require.Equal(t, all.Solution.Score[:Cost], out.Solution.Score[:Cost])
	require.False(t, out.Solution.Proven)
	for _, l := range p.Lags {
		if l.Before.Edge == End && l.After.Edge == Start && l.Gap >= 0 && len(l.When) == 0 {
			starts[l.After.Activity] = all.Solution.Tasks[l.Before.Activity].End - 1
			break
		}
	}
	require.Nil(t, again().Solution)
}
