package planner

import (
	"context"
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"github.com/stretchr/testify/require"

	"tamis/compiler/demand"
	"tamis/compiler/load"
	"tamis/compiler/resolve"
	"tamis/compiler/timeline"
	"tamis/lang/diag"
	"tamis/lang/effort"
)

// large are large menus of chance, and the processor time that a plan of each may take that is
// on time, on a busy machine (a second on an idle one for all but one of twelve of 25
// dishes): what is late, or refused, and why, is said within five seconds.
var large = []struct {
	dishes, cooks int
	within        time.Duration
}{{25, 6, 3 * time.Second}, {40, 6, 5 * time.Second}, {40, 4, 5 * time.Second}, {40, 2, 5 * time.Second}}

func largeMeal(t testing.TB, dishes, cooks int, seed uint64) *demand.Meal {
	t.Helper()
	text := banquetOf(rand.New(rand.NewPCG(seed, 78)), dishes, cooks)
	tree, err := load.FS(fstest.MapFS{"menu.tamis": {Data: []byte(text)}}, ".", "", "")
	require.NoError(t, err)
	diags := &diag.List{}
	meals := demand.Meals(resolve.Build(tree, diags), demand.Options{}, diags)
	require.Len(t, meals, 1)
	return meals[0]
}

// A large menu is planned, or refused with what cannot be, while a cook waits.
func TestLargeMenusInTime(t *testing.T) {
	for i, c := range large {
		for seed := range effort.Rounds[uint64](1, 8) {
			if !effort.Long() && i != 1 {
				continue
			}
			meal := largeMeal(t, c.dishes, c.cooks, 3+seed)
			diags := &diag.List{}
			var line *timeline.Timeline
			took, known := effort.Of(func() { line = Plan(context.Background(), meal, timeline.Options{}, diags) })
			within := c.within
			if line == nil || line.Late > 0 {
				within = 5 * time.Second
			}
			require.True(t, !known || took < within, "%d dishes of %d cooks, %d: %v", c.dishes, c.cooks, 3+seed, took)
			refused := false
			for _, d := range diags.Sorted() {
				refused = refused || (d.Code == "P202" || d.Code == "P203") && d.Why != ""
			}
			require.Equal(t, line == nil, refused)
		}
	}
}

// go test ./compiler/timeline/planner -bench Large -run '^$' -benchtime 1x
func BenchmarkLargeMenus(b *testing.B) {
	for _, c := range large {
		for seed := range uint64(12) {
			b.Run(fmt.Sprintf("%d dishes, %d cooks, %d", c.dishes, c.cooks, seed), func(b *testing.B) {
				meal := largeMeal(b, c.dishes, c.cooks, seed)
				for range b.N {
					var line *timeline.Timeline
					took, _ := effort.Of(func() { line = Plan(context.Background(), meal, timeline.Options{}, &diag.List{}) })
					b.ReportMetric(took.Seconds(), "cpu-s")
					if line != nil {
						b.ReportMetric(float64(len(line.Jobs)), "jobs")
					}
				}
			})
		}
	}
}

// A refusal of a large meal names what cannot be: a handful of dishes, and what would mend
// these where nothing mends all of it. By hand: in First of the first menu, dishes 4, 10 and 11
// want three heats, and there are two ovens.
func TestARefusalOfALargeMealNamesWhatCannotBe(t *testing.T) {
	for _, c := range []struct {
		cooks int
		seed  uint64
	}{{6, 0}, {6, 1}, {6, 5}, {4, 2}, {2, 6}} {
		diags := &diag.List{}
		require.Nil(t, Plan(context.Background(), largeMeal(t, 40, c.cooks, c.seed), timeline.Options{}, diags))
		var said *diag.Diagnostic
		for _, d := range diags.Sorted() {
			if d.Code == "P202" {
				said = &d
			}
		}
		require.NotNil(t, said, "%d cooks, %d: no P202", c.cooks, c.seed)
		require.LessOrEqual(t, strings.Count(said.Message, "Dish "), 6, said.Message)
		require.Contains(t, strings.Join(said.Help, "\n"), "find ")
		if c.seed == 0 {
			require.Contains(t, said.Message, "Dish 4, Dish 10 and Dish 11 cannot all be done in time together")
			require.Regexp(t, `wanted is \d+ °C for Dish 4, \d+ °C for Dish 10 and \d+ °C for Dish 11`, said.Why)
		}
	}
}
