package parse_test

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"sort"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/lang/diag"
	"tamis/lang/parse"
	"tamis/lang/source"
)

var update = flag.Bool("update", false, "write what is said into the archives; read the difference as code")

// archive is several short files in one: each after a line "-- name --".
type archive struct {
	Head  string
	Files []archived
}

type archived struct{ Name, Data string }

func readArchive(t *testing.T, name string) *archive {
	t.Helper()
	b, err := os.ReadFile(name)
	require.NoError(t, err)
	a := &archive{}
	for _, l := range strings.SplitAfter(string(b), "\n") {
		if n, ok := strings.CutPrefix(l, "-- "); ok && strings.HasSuffix(n, " --\n") {
			a.Files = append(a.Files, archived{Name: strings.TrimSuffix(n, " --\n")})
		} else if k := len(a.Files); k > 0 {
			a.Files[k-1].Data += l
		} else {
			a.Head += l
		}
	}
	return a
}

func (a *archive) write(t *testing.T, name string) {
	t.Helper()
	out := a.Head
	for _, f := range a.Files {
		out += "-- " + f.Name + " --\n" + f.Data
	}
	require.NoError(t, os.WriteFile(name, []byte(out), 0o644))
}

// read parses a text and gives what is said about it.
func read(text string) []diag.Diagnostic {
	var list diag.List
	parse.File(source.New("x.tamis", text), &list)
	return list.Sorted()
}

// said is a finding in short: its place, code, words, advice and fixes.
func said(d diag.Diagnostic) string {
	var b strings.Builder
	at, end := d.At.Span.Position(), d.At.Span.File.Position(d.At.Span.End)
	fmt.Fprintf(&b, "%d:%d-%d:%d %s %s: %s\n", at.Line, at.Column, end.Line, end.Column, d.Severity, d.Code, d.Message)
	for _, h := range d.Help {
		fmt.Fprintf(&b, "  try: %s\n", h)
	}
	for _, f := range d.Fixes {
		fmt.Fprintf(&b, "  fix: %s\n", f.Title)
	}
	return b.String()
}

// TestMessages holds what is said about each slip, with its line and column,
// against the archives in testdata.
func TestMessages(t *testing.T) {
	names, err := filepath.Glob("testdata/*.txtar")
	require.NoError(t, err)
	require.NotEmpty(t, names)
	for _, name := range names {
		archive := readArchive(t, name)
		for i := 0; i+1 < len(archive.Files); i += 2 {
			in, want := archive.Files[i], &archive.Files[i+1]
			t.Run(filepath.Base(name)+"/"+in.Name, func(t *testing.T) {
				var got strings.Builder
				for _, d := range read(in.Data) {
					got.WriteString(said(d))
				}
				if *update {
					want.Data = got.String()
					return
				}
				require.Equal(t, want.Data, got.String())
			})
		}
		if *update {
			archive.write(t, name)
		}
	}
}

// apply carries out a fix.
func apply(text string, fix diag.Fix) string {
	edits := append([]diag.Edit(nil), fix.Edits...)
	sort.Slice(edits, func(i, j int) bool { return edits[i].Span.Start > edits[j].Span.Start })
	for _, e := range edits {
		text = text[:e.Span.Start] + e.Text + text[e.Span.End:]
	}
	return text
}

// TestFixes: a fix takes its finding away, and a safe one brings no other.
func TestFixes(t *testing.T) {
	names, err := filepath.Glob("testdata/*.txtar")
	require.NoError(t, err)
	for _, name := range names {
		archive := readArchive(t, name)
		for i := 0; i+1 < len(archive.Files); i += 2 {
			text := archive.Files[i].Data
			before := read(text)
			for _, d := range before {
				for _, fix := range d.Fixes {
					mended := apply(text, fix)
					after := read(mended)
					for _, e := range after {
						require.False(t, e.Code == d.Code && e.At.Span.Start == d.At.Span.Start && e.Message == d.Message,
							"%s: %q does not mend it:\n%s", archive.Files[i].Name, fix.Title, mended)
					}
					if fix.Safe {
						require.Less(t, len(after), len(before), "%s: %q brings other findings:\n%s\n%v", archive.Files[i].Name, fix.Title, mended, after)
					}
				}
			}
		}
	}
}
