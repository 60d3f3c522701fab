package format_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/lang/ast"
	"tamis/lang/diag"
	"tamis/lang/format"
	"tamis/lang/parse"
	"tamis/lang/source"
)

// clean reads a text that has no errors.
func clean(text string) (*ast.File, bool) {
	var list diag.List
	tree := parse.File(source.New("f.tamis", text), &list)
	return tree, !list.HasErrors()
}

// checkFormat: formatted text reads, means the same, keeps its comments, and
// formats to itself.
func checkFormat(t *testing.T, text string) {
	t.Helper()
	tree, ok := clean(text)
	if !ok {
		return
	}
	once := format.File(tree)
	var list diag.List
	again := parse.File(source.New("f.tamis", once), &list)
	require.Zero(t, list.Count(diag.Error), "formatted text no longer reads:\n%s\n%v", once, list.Sorted())
	twice := format.File(again)
	format.Sort(tree)
	format.Sort(again)
	require.Empty(t, ast.Difference(tree, again), "the meaning or the comments changed:\n%s", once)
	require.Equal(t, once, twice, "formatting twice is not formatting once")
	for _, l := range strings.Split(once, "\n") {
		require.Equal(t, strings.TrimRight(l, " \t\r"), l, "trailing spaces")
	}
}

func FuzzFormat(f *testing.F) {
	for _, pattern := range []string{"../parse/testdata/*.tamis", "testdata/*.tamis"} {
		names, _ := filepath.Glob(pattern)
		for _, name := range names {
			b, err := os.ReadFile(name)
			require.NoError(f, err)
			for _, block := range strings.Split(string(b), "\n\n") {
				f.Add(block)
			}
		}
	}
	f.Fuzz(func(t *testing.T, text string) { checkFormat(t, text) })
}
