package check_test

import (
	"context"
	"fmt"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/rogpeppe/go-internal/txtar"
	"github.com/stretchr/testify/require"

	"tamis/compiler"
	"tamis/compiler/load"
)

// A finding that a file of the corpus wants: how grave, the code, the place,
// and words that stand in its message or help.
var wantLine = regexp.MustCompile(`^want (error|warning|question|hint) ([A-Z]\d\d\d) (\S+:\d+:\d+)(?: "(.+)")?$`)

// The corpus: small folders with faults in them, each with all that is found
// there and nothing else. testdata/check/README.md says how they are written.
func TestCorpus(t *testing.T) {
	names, err := filepath.Glob("../../testdata/check/*.txtar")
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(names), 40)
	for _, name := range names {
		t.Run(strings.TrimSuffix(filepath.Base(name), ".txtar"), func(t *testing.T) {
			a, err := txtar.ParseFile(name)
			require.NoError(t, err)
			files := fstest.MapFS{}
			for _, f := range a.Files {
				files[f.Name] = &fstest.MapFile{Data: f.Data}
			}
			dir, want, words := ".", []string{}, []string{}
			for line := range strings.Lines(string(a.Comment)) {
				line = strings.TrimSpace(line)
				if d, ok := strings.CutPrefix(line, "folder "); ok {
					dir = d
				}
				if m := wantLine.FindStringSubmatch(line); m != nil {
					want, words = append(want, m[1]+" "+m[2]+" "+m[3]), append(words, m[4])
				} else {
					require.False(t, strings.HasPrefix(line, "want"), "not in its form: %s", line)
				}
			}
			tree, err := load.FS(files, dir, "", "")
			require.NoError(t, err)
			found := compiler.Compile(context.Background(), tree, compiler.Options{}).Diags.Sorted()
			got := []string{}
			for _, d := range found {
				at := "-"
				if !d.At.Span.IsZero() {
					p := d.At.Span.Position()
					at = fmt.Sprintf("%s:%d:%d", d.At.Span.File.Name, p.Line, p.Column)
				}
				got = append(got, d.Severity.String()+" "+d.Code+" "+at)
				require.NoError(t, tone(d.Message), d.Code)
			}
			require.ElementsMatch(t, want, got, "found:\n%s", show(found))
			for i, w := range want {
				d := found[slices.Index(got, w)]
				require.Contains(t, d.Message+"\n"+strings.Join(d.Help, "\n"), words[i], w)
			}
		})
	}
}
