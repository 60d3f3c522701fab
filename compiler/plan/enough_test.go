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
