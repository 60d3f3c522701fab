package compiler_test

import (
	"context"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"tamis/compiler"
	"tamis/compiler/load"
)

// Who asks for one file is told nothing of a book that lies beside it.
func TestFindingsAreOfWhatWasAskedFor(t *testing.T) {
	files := fstest.MapFS{
		"pot.tamis":   {Data: []byte("dish Leek pot\n  serves 4\n  gather\n    500 g leeks\n  method\n    - Stew the leeks.\n      | ring low | work 5 min | leave 20 min\n  serve hot\n")},
		"notes.tamis": {Data: []byte("book Ferry book\n  chapter Soups\n    Nothing here\n")},
	}
	codes := func(only string) (out []string) {
		tree, err := load.FS(files, ".", only, "")
		require.NoError(t, err)
		for _, d := range compiler.Compile(context.Background(), tree, compiler.Options{}).Diags.Sorted() {
			out = append(out, d.Code)
		}
		return out
	}
	require.Contains(t, codes(""), "U323")
	require.NotContains(t, codes("pot.tamis"), "U323")
}
