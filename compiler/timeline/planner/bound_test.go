package planner

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler/events"
	"tamis/compiler/timeline"
	"tamis/lang/effort"
	"tamis/render/plantext"
)

// Six eggs, nothing else: 2 min of work and 10 in the pan before one o'clock.
// The plan is as short as it can be, and says so.
func TestBoundIsMet(t *testing.T) {
	eggs := recipe("Eggs", step("Boil the eggs", ring, work(2), leave(10)), hot(10))
	line, _ := newMeal(farmhouse()).serve("Main", at(13, 0), eggs).plan(t)
	require.Equal(t, at(12, 45), line.Start, "12 min, on the clock of five")
	require.Zero(t, line.Later)
	require.Equal(t, "Cannot start later", bound(line))
	require.Contains(t, plantext.RunSheet(events.Of(line), 1), "\nCannot start later: a plan that begins after 12:45 would be late, or keep food waiting longer.\n")
}

// A late meal says whether it could be less late.
func TestBoundOfALateMeal(t *testing.T) {
	line := &timeline.Timeline{Late: 20, Bound: 20}
	require.Equal(t, "Cannot be less late", bound(line))
	line.Bound = 15
	require.Equal(t, "At most 5 min (25 %) less late is possible", bound(line))
}

// Hardly allowed to search, the planner owns up to the gap, and the plan it
// makes with more time lies within it. At least one of the examples must leave
// a gap at first, or nothing is tested here.
func TestGapHoldsTheBest(t *testing.T) {
	gaps := 0
	hurries := []int{8}
	if effort.Long() {
		hurries = []int{8, 30, 100}
	}
	for _, dir := range []string{"bakery-morning", "dumpling-supper", "evening-class", "harvest-lunch", "village-hall-curry"} {
		meals, _ := loaded(t, "../../../examples/"+dir)
		for _, m := range meals {
			if m.Menu == nil {
				continue
			}
			best := Plan(context.Background(), m, timeline.Options{Known: &known}, nil)
			require.NotNil(t, best, dir)
			require.NotEmpty(t, events.Of(best).Bound, dir)
			for _, steps := range hurries {
				hasty := Plan(context.Background(), m, timeline.Options{Steps: steps}, nil)
				if hasty == nil || hasty.Late > 0 || best.Waiting > hasty.Waiting || hasty.Grid != best.Grid {
					continue
				}
				require.LessOrEqual(t, best.Start, hasty.Start+hasty.Later+hasty.Grid-1, dir)
				if hasty.Later > 0 && hasty.Early == 0 {
					gaps++
					require.Regexp(t, `^At most .* \(\d+ %\) better is possible$`, events.Of(hasty).Bound)
					require.Regexp(t, `better is possible: a plan that begins after .* would be late, or keep food waiting longer`, plantext.RunSheet(events.Of(hasty), 1))
				}
			}
		}
	}
	require.Positive(t, gaps)
}

// bound is what a plan says of how good it is, without what that means.
func bound(t *timeline.Timeline) string {
	text, _ := t.BoundWords()
	return text
}
