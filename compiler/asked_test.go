package compiler_test

import (
	"fmt"
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
		for _, d := range compiledTree(tree, compiler.Options{}).Diags.Sorted() {
			out = append(out, d.Code)
		}
		return out
	}
	require.Contains(t, codes(""), "U323")
	require.NotContains(t, codes("pot.tamis"), "U323")
}

// A chapter that names nothing is offered the nearest name of its own book, and that of
// another only where its own has none.
func TestAChapterIsOfferedItsOwnBooksNames(t *testing.T) {
	dish := "dish %s\n  serves 4\n  gather\n    500 g leeks\n  method\n    - Stew the leeks.\n      | ring low | work 5 min | leave 20 min\n  serve hot\n"
	files := map[string]string{
		"house.tamis":        "book Coast\n  chapter Soups\n    aferry/Leak pot\n",
		"harbour/book.tamis": "book Harbour\n  chapter Soups\n    Leak pott\n    Bean stews\n",
		"harbour/a.tamis":    fmt.Sprintf(dish, "Leek pot") + fmt.Sprintf(dish, "Bean stew with kale"),
		"aferry/book.tamis":  "book Ferry\n  chapter Soups\n    Leak pot\n",
		"aferry/a.tamis":     fmt.Sprintf(dish, "Leak pot") + fmt.Sprintf(dish, "Bean stew"),
	}
	offered := map[string]string{}
	for _, d := range compileFiles(t, files, compiler.Options{NoPlan: true, NoPages: true}).Diags.Sorted() {
		if d.Code == "U323" {
			offered[d.At.Span.Text()] = d.Fixes[0].Edits[0].Text
		}
	}
	require.Equal(t, map[string]string{"Leak pott": "Leek pot", "Bean stews": "Bean stew"}, offered)
}
