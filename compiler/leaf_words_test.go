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
