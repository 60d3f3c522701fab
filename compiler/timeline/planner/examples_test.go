package planner

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler/demand"
	"tamis/compiler/events"
	"tamis/compiler/load"
	"tamis/compiler/resolve"
	"tamis/compiler/timeline"
	"tamis/compiler/timeline/answer"
	"tamis/lang/diag"
	"tamis/lang/effort"
	"tamis/render/plantext"
)

// loaded reads a folder through every pass before this one.
func loaded(t *testing.T, dir string) ([]*demand.Meal, *diag.List) {
	t.Helper()
	tree, err := load.Path(dir)
	require.NoError(t, err)
	diags := &diag.List{}
	diags.AddAll(&tree.Diags)
	model := resolve.Build(tree, diags)
	return demand.Meals(model, demand.Options{}, diags), diags
}

// TestExamples plans every meal of the examples, twice, and audits each; those of many
// jobs twice only where there is time.
func TestExamples(t *testing.T) {
	var dirs []string
	require.NoError(t, filepath.WalkDir("../../../examples", func(path string, entry os.DirEntry, err error) error {
		if err == nil && strings.HasSuffix(path, load.Ending) && !slices.Contains(dirs, filepath.Dir(path)) {
			dirs = append(dirs, filepath.Dir(path))
		}
		return err
	}))
	for _, dir := range dirs {
		t.Run(filepath.ToSlash(dir), func(t *testing.T) {
			meals, diags := loaded(t, dir)
			for _, m := range meals {
				var line *timeline.Timeline
				took, _ := effort.Of(func() { line = Plan(context.Background(), m, timeline.Options{Known: &known}, diags) })
				require.NotNil(t, line, "%s: %v", m.Title, diags.Sorted())
				require.Zero(t, line.Late, m.Title)
				audit(t, line)
				t.Logf("%s: %v, %d jobs", m.Title, took, len(line.Jobs))
				if len(line.Jobs) > 50 && !effort.Long() {
					continue
				}
				var one, two bytes.Buffer
				require.NoError(t, plantext.WriteText(&one, events.Of(line), 1))
				require.NoError(t, plantext.WriteText(&two, events.Of(Plan(context.Background(), m, timeline.Options{}, nil)), 1))
				require.Equal(t, one.String(), two.String(), "the same plan every time")
			}
		})
	}
}

// An answer can be asked for again: the times of the plan are the same, for what
// was planned counts from the start of its jobs and is never moved.
func TestAnsweredTwice(t *testing.T) {
	line := newMeal(farmhouse()).serve("Main", at(13, 0), recipe("Soup", step("Simmer", ring, work(10), leave(30)), step("Blend", work(5)), hot(10))).planned(t)
	again := answer.ResultOf(line).Answer(answer.ResultOf(line).Opt, nil)
	require.Len(t, again.Jobs, len(line.Jobs))
	for i, j := range again.Jobs {
		require.NotSame(t, line.Jobs[i], j)
		require.Equal(t, line.Jobs[i].Phases, j.Phases)
		require.Equal(t, line.Jobs[i].Cooks, j.Cooks)
	}
	require.Equal(t, line.Servings, again.Servings)
}
