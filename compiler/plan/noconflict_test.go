package plan

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"
)

// Whoever only wants to know whether there is a plan is not kept waiting for
// the reasons.
func TestNoConflict(t *testing.T) {
	p := &Problem{Horizon: 10}
	p.AddActivity(Activity{Modes: []Mode{{Duration: 20}}})
	out, err := Solve(context.Background(), p, Budget{NoConflict: true})
	require.NoError(t, err)
	require.Nil(t, out.Solution)
	require.True(t, out.Conflict.Proven)
	require.Empty(t, out.Conflict.Activities)
	out, err = Solve(context.Background(), p, Budget{})
	require.NoError(t, err)
	require.Equal(t, []int{0}, out.Conflict.Activities)
}
