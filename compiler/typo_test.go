package compiler_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler"
	"tamis/lang/diag"
)

func foundIn(t *testing.T, files map[string]string) []diag.Diagnostic {
	t.Helper()
	return compileFiles(t, files, compiler.Options{}).Diags.Sorted()
}

// A slip in a sentence is asked about where it is, with the gathered name; a word that
// only looks like it is not taken for one.
func TestSlipsInSentences(t *testing.T) {
	const pie = "dish Fish pie\n  serves 4\n  gather\n    600 g %s\n  method\n    - %s\n      | work 5 min\n"
	for _, c := range []struct{ gathered, says, slip, right string }{
		{"smoked haddock", "Poach the haddok.", "haddok", "haddock"},
		{"butter", "Melt the buter in a pan.", "buter", "butter"},
		{"butter", "Buttre is melted.", "Buttre", "Butter"},
		{"shallots", "Chop the shalots.", "shalots", "shallots"},
		{"parsley leaves", "Chop the parsely.", "parsely", "parsley"},
		{"aubergines", "Salt the aubergenes.", "aubergenes", "aubergines"},
		{"butter", "Stir the batter until it is better.", "", ""},
		{"butter", "Lay it in the buttered dish.", "", ""},
		{"rice", "Leave it to rise until ripe and rich.", "", ""},
		{"cream", "Whisk until creamy.", "", ""},
		{"flour", "Fry four at a time.", "", ""},
		{"flour", "Arrange the flowers on the floor.", "", ""},
	} {
		text := fmt.Sprintf(pie, c.gathered, c.says)
		var got *diag.Diagnostic
		for _, d := range foundIn(t, map[string]string{"a.tamis": text}) {
			if d.Code == "U201" {
				require.Nil(t, got, text)
				got = &d
			}
		}
		require.NotNil(t, got, text)
		if c.slip == "" {
			require.Equal(t, c.gathered, got.At.Span.Text())
			continue
		}
		require.Equal(t, c.slip, got.At.Span.Text())
		edit := got.Fixes[0].Edits[0]
		require.Equal(t, c.right, edit.Text)
		for _, d := range foundIn(t, map[string]string{"a.tamis": text[:edit.Span.Start] + edit.Text + text[edit.Span.End:]}) {
			require.NotEqual(t, "U201", d.Code, text)
		}
	}
}

// A file copied beside itself is one message, whatever is wrong in it; one that was
// changed since is one too, for all the names that stand in both.
func TestOneCopyOneMessage(t *testing.T) {
	const text = "dish Leek pot\n  serves 4\n  gather\n    2 leeks\ndish Bean pot\n  serves 4\nmenu Supper\n  covers 4\n  course Main\n    Leek pot\n"
	alone := foundIn(t, map[string]string{"pots.tamis": text})
	found := foundIn(t, map[string]string{"pots.tamis": text, "pots copy.tamis": text + "\n"})
	require.Len(t, found, len(alone)+1)
	for _, d := range found {
		require.Equal(t, d.Code == "F107", d.At.Span.File.Name == "pots copy.tamis", "%s %s", d.Code, d.Message)
	}
	n := 0
	for _, d := range foundIn(t, map[string]string{"pots.tamis": text, "pots copy.tamis": text + "dish Third\n  serves 2\n"}) {
		if d.Code == "U101" {
			n++
		}
	}
	require.Equal(t, 1, n)
}
