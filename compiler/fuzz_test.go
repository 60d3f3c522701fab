package compiler_test

import (
	"io"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler/resolve"
)

// FuzzCompile presses any text through every pass: no panic, no hang, and
// every finding lies inside the file.
func FuzzCompile(f *testing.F) {
	f.Add(supper)
	files, err := filepath.Glob("../examples/*/*.tamis")
	require.NoError(f, err)
	for _, name := range files {
		text, err := os.ReadFile(name)
		require.NoError(f, err)
		f.Add(string(text))
	}
	f.Fuzz(func(t *testing.T, text string) {
		if len(text) > 4000 {
			return // planning is bounded by steps, not by what a fuzzer can think of
		}
		r := compileText(t, text, everySheet)
		for _, d := range r.Diags.Sorted() {
			if s := d.At.Span; s.File != nil {
				require.LessOrEqual(t, s.Start, s.End)
				require.LessOrEqual(t, s.End, len(s.File.Text))
			}
			require.NotEmpty(t, d.Code)
			require.NotEmpty(t, d.Message)
		}
		resolve.WriteReading(io.Discard, r.Model)
	})
}
