package planner

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler/timeline"
	"tamis/compiler/timeline/answer"
)

// What a meal has asked the engine once it does not ask again, though nobody keeps
// plans from one compile to the next: what is amiss is mended with plans that were
// tried before, and one slip is planned for as often as somebody asks.
func TestAMealKeepsWhatItAsked(t *testing.T) {
	meals, _ := loaded(t, "../../../examples/dumpling-supper")
	line := Plan(context.Background(), meals[0], timeline.Options{}, nil)
	require.NotEmpty(t, line.Odds.Watch)
	known := answer.ResultOf(line).Opt.Known
	require.NotNil(t, known)
	Slips(context.Background(), line, false)
	asked := known.Solved()
	require.Positive(t, asked)
	Slips(context.Background(), line, false)
	require.Equal(t, asked, known.Solved())
}
