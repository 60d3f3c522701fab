package desk

import (
	"maps"
	"runtime/debug"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"tamis/lang/effort"
	"tamis/testdata/bigbook"
)

// A book of five hundred files: its first findings in a second, and those of an edit in
// 50 ms, 99 times in 100, of processor time and the editor's own share counted. Run it
// with -v for the figures. Planning waits until nobody types, and is not in them.
func TestABigBookIsQuick(t *testing.T) {
	defer debug.SetGCPercent(debug.SetGCPercent(300)) // as rarely as the command sweeps a large book
	files := bigbook.Book{Recipes: 500, Seed: 1}.Files()
	e := newEditor(t, files)
	names := slices.Sorted(maps.Keys(files))
	name := names[slices.IndexFunc(names, func(n string) bool { return strings.Contains(files[n], "\n    - ") })]
	first, known := effort.Of(func() {
		e.open(name, files[name])
		e.call("textDocument/foldingRange", e.of(name), nil) // all files have been told of when it is answered
	})
	if !known {
		t.Skip("this system does not say how long work takes")
	}
	shown := 0
	for _, p := range e.found {
		shown += len(p.Diagnostics)
	}
	require.Greater(t, shown, 100, "the findings of all files are told")
	// What else the machine does costs an edit processor time too: of three times that
	// the same letter is typed, the quickest counts.
	edits, asks := map[string]time.Duration{}, map[string]time.Duration{}
	for range 3 {
		e.letters(files, names, name, edits, asks)
	}
	t.Logf("%d files, first findings %v; edits in %d of them: median %v, 99th %v; hover, completion and colours: median %v, 99th %v (processor time)",
		len(files), first, len(edits), part(edits, 0.5), part(edits, 0.99), part(asks, 0.5), part(asks, 0.99))
	require.Less(t, first, 2*time.Second, "first findings: of two cores, less than a second")
	require.Greater(t, len(edits), effort.Rounds(30, 80))
	// On a crowded machine a processor gets less done in a millisecond; reading the book,
	// in 0.7 s where nothing else runs, says how much less.
	crowded := max(1, first.Seconds()/0.7)
	limit := func(ms float64) time.Duration { return time.Duration(ms * crowded * float64(time.Millisecond)) }
	require.Less(t, part(edits, 0.99), limit(50), "an edit")
	require.Less(t, part(asks, 0.99), limit(100), "three questions")
}

// part is the time within which a share of all is done.
func part(took map[string]time.Duration, share float64) time.Duration {
	list := slices.Sorted(maps.Values(took))
	return list[int(float64(len(list)-1)*share)]
}

// letters types a letter here and there in a book, in dishes and in bases that others
// draw on, and asks about the place. One text stays open, and with it the book.
func (e *editor) letters(files map[string]string, names []string, keep string, edits, asks map[string]time.Duration) {
	for i := range effort.Rounds(48, 400) {
		name := names[(i*37)%len(names)]
		if name == keep {
			continue
		}
		spot := strings.Index(files[name], "\n    - ")
		if spot < 0 {
			continue
		}
		e.open(name, files[name])
		e.call("textDocument/foldingRange", e.of(name), nil)
		word, _, _ := strings.Cut(files[name][spot+7:], " ")
		if spot := "\n    - " + word + " "; strings.Count(files[name], spot) == 1 {
			took, _ := effort.Of(func() { e.edit(name, spot, "\n    - "+word+"e ") })
			keepLess(edits, name, took)
			took, _ = effort.Of(func() {
				e.call("textDocument/hover", e.at(name, "- "+word), nil)
				e.call("textDocument/completion", e.at(name, "- "+word), nil)
				e.call("textDocument/semanticTokens/full", e.of(name), nil)
			})
			keepLess(asks, name, took)
		}
		e.tell("textDocument/didClose", e.of(name))
	}
}

func keepLess(in map[string]time.Duration, name string, took time.Duration) {
	if was, ok := in[name]; !ok || took < was {
		in[name] = took
	}
}
