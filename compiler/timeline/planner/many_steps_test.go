package planner

import (
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"tamis/compiler/resolve"
	"tamis/compiler/timeline/problem"
	"tamis/lang/effort"
)

// afterPause makes a step one that takes place after the first or second pause only.
func afterPause(pause int) clause {
	return func(s *resolve.Step) { s.If = append(s.If, resolve.Condition{Paused: true, Pause: pause}) }
}

// Of a hot dish with many pauses, and a step that is for each of them only, there are
// more ways from the table back to the fire than anybody could walk; of two pauses all
// are walked, and each is a limit.
func TestManyWaysBackToTheFire(t *testing.T) {
	draft := func(pauses int) *problem.Draft {
		parts := []any{step("Boil", ring, work(5))}
		for range pauses {
			parts = append(parts, pauseUpTo(24), step("Cool", work(1)))
		}
		parts = append(parts, step("Fry", ring, work(5)))
		for i := range pauses {
			parts = append(parts, step(fmt.Sprint("Stir ", i), work(1), afterPause(1+i)))
		}
		m := newMeal(farmhouse()).serve("Main", at(13, 0), recipe("Stew", append(parts, step("Dish up", work(1)), hot(10))...))
		return problem.Begin(m.Meal, problem.Setup{Grid: 5, Free: true}, nil)
	}
	effort.Within(t, 2*time.Second, "24 pauses", func() { require.Len(t, draft(24).Jobs, 51) })
	limits := map[string]int{}
	for _, l := range draft(2).Links {
		if l.Why == problem.InAll {
			limits[fmt.Sprint(l.When)] = l.Max
		}
	}
	// Straight through the work after the fire is the dishing up alone; each pause that is taken adds a step.
	require.Equal(t, map[string]int{"[]": 13, "[{0 0}]": 12, "[{1 0}]": 12, "[{0 0} {1 0}]": 11}, limits)
}

// A method of two strands, of which the one hangs on the first step and the other on
// itself, is put in order in one walk over its links for each step.
func TestManySteps(t *testing.T) {
	after := func(b *resolve.Step) clause { return func(s *resolve.Step) { s.After = []*resolve.Step{b} } }
	first := step("Soak", work(1))
	last := first
	parts := []any{first}
	for i := range 1000 {
		chop, stir := step(fmt.Sprint("Chop ", i), work(1), after(first)), step(fmt.Sprint("Stir ", i), work(1), after(last))
		parts, last = append(parts, chop, stir), stir
	}
	m := newMeal(farmhouse()).serve("Main", at(13, 0), recipe("Mise", append(parts, cold())...))
	effort.Within(t, time.Second, "2,000 steps", func() {
		d := problem.Begin(m.Meal, problem.Setup{Grid: 5}, nil)
		require.Len(t, d.Jobs, 2001)
	})
}
