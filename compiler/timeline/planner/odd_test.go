package planner

import (
	"context"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"tamis/compiler/demand"
	"tamis/compiler/events"
	"tamis/compiler/resolve"
	"tamis/compiler/timeline"
	"tamis/lang/diag"
	"tamis/lang/effort"
	"tamis/lang/quantity"
	"tamis/render/plantext"
)

// Bad input is answered, never with a panic.
func TestOddMeals(t *testing.T) {
	require.Nil(t, Plan(context.Background(), nil, timeline.Options{}, nil))
	require.Nil(t, Plan(context.Background(), &demand.Meal{}, timeline.Options{}, nil))

	for name, harm := range map[string]func(*meal, *resolve.Recipe){
		"no steps":   func(_ *meal, r *resolve.Recipe) { r.Steps = nil },
		"no reading": func(m *meal, _ *resolve.Recipe) { m.Makings[0].Reading = nil },
		"nothing made": func(m *meal, _ *resolve.Recipe) {
			m.Makings[0].Factor = quantity.Int(0)
		},
		"no time at all": func(_ *meal, r *resolve.Recipe) {
			r.Steps[0].Phases = []resolve.Spell{{Kind: resolve.Work}}
		},
		"waits for itself": func(_ *meal, r *resolve.Recipe) { r.Steps[0].After = []*resolve.Step{r.Steps[0]} },
		"waits in a ring": func(_ *meal, r *resolve.Recipe) {
			r.Steps[0].After = []*resolve.Step{r.Steps[1]}
			r.Steps[1].After = []*resolve.Step{r.Steps[0]}
		},
		"a very long step": func(_ *meal, r *resolve.Recipe) {
			r.Steps[0].Phases[0].Fixed = &quantity.Span{Low: 1 << 62, High: 1 << 62}
		},
		"paused without a pause": func(_ *meal, r *resolve.Recipe) {
			r.Steps[1].If = []resolve.Condition{{Paused: true}}
			r.Steps[1].Pause = 7
		},
		"no oven shelves":    func(m *meal, _ *resolve.Recipe) { m.Kitchen.Ovens[0].Shelves = 0 },
		"meanwhile to begin": func(_ *meal, r *resolve.Recipe) { r.Steps[0].Meanwhile = true },
		"nobody": func(m *meal, _ *resolve.Recipe) {
			m.Menu.Hours = []resolve.Hours{{From: 0, To: 900, Cooks: []string{"nobody"}}}
		},
		"hours that never are": func(m *meal, _ *resolve.Recipe) { m.Menu.Hours = []resolve.Hours{{From: 900, To: 800}} },
		"hours after the meal": func(m *meal, _ *resolve.Recipe) {
			m.Menu.Hours = []resolve.Hours{{From: 2000, To: 2100}}
		},
		"by a stranger": func(_ *meal, r *resolve.Recipe) { r.Steps[0].By = []string{"zed"} },
		"heat for longer": func(_ *meal, r *resolve.Recipe) {
			r.Steps[1].Heats = []resolve.Heat{{Low: 200, High: 200, For: time.Hour}, {Low: 100, High: 120, For: time.Hour}, {Low: 90, High: 90}}
		},
		"upside-down heat":      func(_ *meal, r *resolve.Recipe) { r.Steps[1].Heats = []resolve.Heat{{Low: 200, High: 100}} },
		"attention every never": func(_ *meal, r *resolve.Recipe) { r.Steps[0].Phases[0].Every = &quantity.Span{} },
		"per nothing": func(_ *meal, r *resolve.Recipe) {
			r.Steps[0].Phases[0].Per = span(5, 5)
		},
		"served in the past": func(m *meal, _ *resolve.Recipe) { m.Menu.Courses[0].At = -5000 },
		"served off the clock": func(m *meal, _ *resolve.Recipe) {
			m.serve("Next", at(13, 7), recipe("Cake", step("Cut", work(3))))
		},
	} {
		t.Run(name, func(t *testing.T) {
			r := recipe("Stew", step("Fry", ring, work(5), leave(5)), step("Bake", heat(150, 160), work(2), leave(20)), hot(10))
			m := newMeal(farmhouse()).serve("Main", at(13, 0), r)
			harm(m, r)
			if name == "no steps" {
				m.Makings[0].Reading.Steps = nil
			}
			diags := &diag.List{}
			line := Plan(context.Background(), m.Meal, timeline.Options{}, diags)
			if line != nil {
				require.NotEmpty(t, plantext.RunSheet(events.Of(line), 1))
				return
			}
			nothing := m.Makings[0].Reading == nil || len(m.Makings[0].Reading.Steps) == 0
			require.True(t, diags.HasErrors() || nothing, "no plan and no word")
			for _, d := range diags.Sorted() {
				require.Less(t, len(d.Why), 600, "nobody reads more")
			}
		})
	}
}

// A plan that is called off gives up at once.
func TestCalledOff(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	m := newMeal(farmhouse()).serve("Main", at(13, 0), recipe("Stew", step("Fry", ring, work(5))))
	effort.Within(t, time.Second, "a plan called off", func() { Plan(ctx, m.Meal, timeline.Options{}, &diag.List{}) })
}

// Each grid is kept: jobs begin on it, ends are true.
func TestGrids(t *testing.T) {
	for _, grid := range []int{1, 5, 10, 15} {
		m := newMeal(farmhouse()).serve("Main", at(13, 0), recipe("Stew", step("Fry", ring, work(4)), step("Stir", work(3))))
		line := Plan(context.Background(), m.Meal, timeline.Options{Grid: grid}, &diag.List{})
		require.NotNil(t, line)
		audit(t, line)
		fry, stir := job(line, t, "Fry"), job(line, t, "Stir")
		require.Equal(t, 4, fry.End()-fry.Start())
		require.Zero(t, stir.Start()%grid)
		// What has been on the heat waits 10 min at most, which no clock of
		// fifteen minutes allows.
		require.LessOrEqual(t, stir.Start()-fry.End(), 10)
		if grid < 15 {
			require.Zero(t, fry.Start()%grid)
		}
	}
}
