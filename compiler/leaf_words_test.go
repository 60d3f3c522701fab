package compiler_test

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler"
	"tamis/compiler/sheets"
	"tamis/render/markdown"
	"tamis/render/text"
)

// Links from one document of a series to another are for a screen that opens them: they do
// not stand in plain text and Markdown. The last part keeps nothing for a later one, and a
// time by weight is said as one says it.
func TestTheWordsOfASeries(t *testing.T) {
	all := ""
	for _, d := range example(t, "evening-class", compiler.Options{Sheets: []sheets.Kind{sheets.Leaf, sheets.Series, sheets.Crew}}).Documents {
		var plain, marked bytes.Buffer
		require.NoError(t, text.Write(&plain, d, text.Options{}))
		require.NoError(t, markdown.Write(&marked, d))
		require.NotContains(t, plain.String()+marked.String(), "doc:", d.Title)
		all += plain.String()
	}
	require.Contains(t, all, "hands-on 4 min per lb lamb shoulder")
	require.Contains(t, all, "What is left\n")
	require.Contains(t, all, "T is when the camera starts · on camera 41 min")
	require.NotContains(t, all, "min before the camera")
}

// A leaf has one figure for holding hot: beside the step, where it says one that is hot enough,
// else among the cautions.
func TestALeafHasOneFigureForHoldingHot(t *testing.T) {
	of := func(hold string) string {
		text := strings.Replace(lessonsAtHome, "serve hot, within 10 min", "serve hot, within 30 min", 1)
		text = strings.Replace(text, "ring medium | tool stick blender", hold+" | ring medium | tool stick blender", 1)
		require.Contains(t, text, hold)
		return strings.Join(inLines(handouts(t, text, sheets.Leaf)[1].Sheets[0]), "\n")
	}
	for hold, caution := range map[string]bool{"hold hot up to 15 min, above 75 C": false, "hold hot up to 15 min": true} {
		require.Equal(t, caution, strings.Contains(of(hold), "held hot is held at"), hold)
	}
}

// How long a thing takes is what its steps add up to by hand, for one cook: no pause of a plan
// in which nothing of it stands or cooks is of it.
func TestALeafAddsUpItsTimes(t *testing.T) {
	want := map[string]string{
		"Caper butter":                  "hands-on 24 min, 24 min in all",          // 3 + 3 + 4, 5 + 3 + 6
		"Elderflower syrup":             "hands-on 49 min, 24 h 49 min in all",     // 3 + 15, 12 + 4 + 15; a day
		"Pickled cucumbers":             "hands-on 33 min, 3 h 33 min in all",      // 10, 3 + 10 + 8 + 2; 2 h and 1 h
		"Boat dough":                    "hands-on 24 min, 1 h 39 min in all",      // 14 + 10; 1 h 15
		"Boathouse pie":                 "hands-on 1 h 16 min, 16 h 16 min in all", // 22, 4 + 8 + 20 + 1 + 12 + 1 + 8; 2 h, 1 h, 12 h
		"Cold chicken with green sauce": "hands-on 1 h 11 min, 3 h 21 min in all",  // 4, 30 + 8 + 15 + 2 + 12; 1 h 10 and 1 h
		"Lamb skewers":                  "hands-on 43 min, 8 h 46 min in all",      // 15, 5 + 12 + 11; 8 h, 5 min, of which two are for the lemon
	}
	seen := map[string]string{}
	for _, d := range example(t, "regatta-picnic", compiler.Options{Sheets: []sheets.Kind{sheets.Leaf}}).Documents {
		for _, line := range inLines(d.Sheets[0]) {
			name, facts, _ := strings.Cut(strings.TrimPrefix(line, "- "), ": ")
			if i := strings.Index(facts, "hands-on "); i >= 0 && want[name] != "" && strings.HasSuffix(facts, "in all") {
				seen[name] = strings.ReplaceAll(facts[i:], "\u00a0", " ")
			}
		}
	}
	require.Equal(t, want, seen)
}
