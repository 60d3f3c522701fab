//go:build unix

package compiler_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"github.com/stretchr/testify/require"

	"tamis/compiler"
	"tamis/compiler/load"
	"tamis/testdata/bigbook"
)

// BenchmarkEdit is how long the findings take after one letter was typed in a
// book that is at hand: in the prose of a dish, in a base that others draw on,
// in a title.
func BenchmarkEdit(b *testing.B) {
	for _, n := range []int{1000, 4000} {
		files := bigbook.Book{Recipes: n, Seed: 1}.Files()
		for _, where := range []string{"a step", "a base", "a title"} {
			b.Run(fmt.Sprintf("%s-%d", where, n), func(b *testing.B) {
				e := editing(b, files)
				var took []time.Duration
				for b.Loop() {
					from := processor()
					e.letter(b, where)
					took = append(took, processor()-from)
				}
				slices.Sort(took)
				b.ReportMetric(float64(took[len(took)/2].Microseconds())/1000, "cpu-ms/edit")
				b.ReportMetric(float64(len(e.last.Model.Fresh())), "recipes/edit")
			})
		}
	}
}

// desk is a book that somebody edits.
type desk struct {
	files map[string]string
	tree  *load.Tree
	s     *compiler.Session
	last  *compiler.Result
	n     int
}

func editing(t testing.TB, files map[string]string) *desk {
	t.Helper()
	fsys := fstest.MapFS{}
	for name, text := range files {
		fsys[name] = &fstest.MapFile{Data: []byte(text)}
	}
	tree, err := load.FS(fsys, ".", "", "")
	require.NoError(t, err)
	d := &desk{files: files, tree: tree, s: compiler.NewSession(compiler.Options{NoPages: true})}
	d.last = d.s.Compile(t.Context(), tree)
	return d
}

// letter types a letter in one file and gives the findings.
func (d *desk) letter(t testing.TB, where string) {
	d.n++
	name := fmt.Sprintf("chapter-005/recipe-%05d.tamis", 402)
	if where == "a base" {
		name = fmt.Sprintf("chapter-005/recipe-%05d.tamis", 409)
	}
	text := d.files[name]
	letters := strings.Repeat("e", 1+d.n%3)
	switch where {
	case "a title":
		first, rest, _ := strings.Cut(text, "\n")
		text = first + letters + "\n" + rest
	default:
		text = strings.Replace(text, "\n    - ", "\n    - R"+letters+"st. ", 1)
	}
	require.NotEqual(t, d.files[name], text)
	tree, err := d.tree.Change(t.Context(), map[string]*string{name: &text})
	require.NoError(t, err)
	d.tree, d.last = tree, d.s.Compile(t.Context(), tree)
}
