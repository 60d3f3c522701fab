package compiler_test

import (
	"context"
	"fmt"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"tamis/compiler"
	"tamis/compiler/load"
	"tamis/testdata/bigbook"
)

// checked reads and checks texts, as `tamis check` does.
func checked(t testing.TB, files map[string]string) *compiler.Result {
	t.Helper()
	fsys := fstest.MapFS{}
	for name, text := range files {
		fsys[name] = &fstest.MapFile{Data: []byte(text)}
	}
	tree, err := load.FS(fsys, ".", "", "")
	require.NoError(t, err)
	return compiler.Compile(context.Background(), tree, compiler.Options{NoPages: true})
}

func BenchmarkCheck(b *testing.B) {
	for _, n := range []int{500, 1000, 2000, 4000} {
		files := bigbook.Book{Recipes: n, Seed: 1}.Files()
		b.Run(fmt.Sprint("recipes-", n), func(b *testing.B) {
			b.ReportAllocs()
			for range b.N {
				checked(b, files)
			}
		})
	}
	for _, n := range []int{1000, 2000, 8000} {
		files := map[string]string{"a.tamis": bigbook.Lines(n)}
		b.Run(fmt.Sprint("lines-", n), func(b *testing.B) {
			for range b.N {
				checked(b, files)
			}
		})
	}
	for _, n := range []int{100, 200, 1000} {
		files := map[string]string{"a.tamis": bigbook.Chain(n)}
		b.Run(fmt.Sprint("chain-", n), func(b *testing.B) {
			for range b.N {
				checked(b, files)
			}
		})
	}
}
