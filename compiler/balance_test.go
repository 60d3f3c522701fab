package compiler_test

import (
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/rogpeppe/go-internal/txtar"
	"github.com/stretchr/testify/require"

	"tamis/compiler"
	"tamis/compiler/demand"
	"tamis/compiler/load"
	"tamis/lang/diag"
	"tamis/lang/quantity"
)

// Whatever the covers: what is drawn on is made, and what is made and not drawn
// is left. For the small menus of
// testdata/small and the old recipes of testdata/texts.
func TestWhatIsDrawnIsMade(t *testing.T) {
	small, err := filepath.Glob("../testdata/small/*.txtar")
	require.NoError(t, err)
	supplies := 0
	for _, name := range append(small, textFolders(t)...) {
		var tree *load.Tree
		if archive, err := txtar.ParseFile(name); err == nil {
			files := fstest.MapFS{}
			for _, f := range archive.Files {
				if !strings.HasPrefix(f.Name, "tamis ") {
					files[f.Name] = &fstest.MapFile{Data: f.Data}
				}
			}
			tree, err = load.FS(files, ".", "", "")
			require.NoError(t, err)
		} else {
			tree, err = load.Path(name)
			require.NoError(t, err)
		}
		for _, covers := range []int{0, 1, 7, 90} {
			r := compiledTree(tree, compiler.Options{Demand: demand.Options{Covers: covers}, NoPlan: true, NoPages: true})
			if slices.ContainsFunc(r.Diags.Sorted(), func(d diag.Diagnostic) bool { return d.Severity == diag.Error }) {
				continue // said to be short (D107)
			}
			for _, meal := range r.Meals {
				for _, s := range meal.Supplies {
					supplies++
					sum := s.Drawn.Scale(quantity.Int(0))
					for _, d := range s.Draws {
						next, problem := sum.Add(d.Quantity)
						require.Nil(t, problem, name)
						sum = next
					}
					drawn := s.Drawn.Value.High // by other dishes, and by the block's own later steps
					require.False(t, drawn.Less(sum.Value.High), "%s for %d: %s is drawn of %s, not %s", name, covers, sum.Value, s.Name, drawn)
					require.False(t, s.Made.Value.High.Less(drawn), "%s for %d: %s drawn of %s %s", name, covers, drawn, s.Made.Value, s.Name)
					require.Equal(t, s.Made.Value.High.Sub(drawn).String(), s.Left.Value.High.String(), "%s for %d: left of %s", name, covers, s.Name)
				}
			}
		}
	}
	require.Greater(t, supplies, 100)
}
