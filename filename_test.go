package main

import (
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
)

// What no Windows takes as a file's name: device names with or without an
// ending, and closing full stops and blanks (Microsoft, Naming Files, Paths, and
// Namespaces; from memory). Unicode marks belong to the letter before them.
func TestFileNames(t *testing.T) {
	for title, want := range map[string]string{
		"Harvest lunch":         "harvest-lunch",
		"  Soup / stew: two?  ": "soup-stew-two",
		"Leeks...":              "leeks",
		"CON":                   "con-sheets",
		"Aux.":                  "aux-sheets",
		"com1":                  "com1-sheets",
		"Console":               "console",
		"":                      "sheets",
		"?!":                    "sheets",
		"Cre\u0300me":           "crème",
		"n\u0308am":             "n\u0308am", // no single letter stands for it
		"खीर":                   "खीर",
		"❤\ufe0f Soup":          "soup",
		"a\xffb":                "a-b",
		"../../etc":             "etc",
		"tag\U000e0041s":        "tag-s",
	} {
		require.Equal(t, want, fileName(title), "%q", title)
	}
}

func TestLongTitlesFit(t *testing.T) {
	for _, title := range []string{
		strings.Repeat("leek and potato ", 30), strings.Repeat("x", 500), strings.Repeat("щ", 400),
		strings.Repeat("e\u0323\u0308", 300), strings.Repeat("味", 300),
	} {
		name := fileName(title)
		require.LessOrEqual(t, len(name), longestName)
		require.Greater(t, len(name), longestName/2)
		require.True(t, utf8.ValidString(name))
		require.False(t, strings.HasSuffix(name, "-"))
	}
	whole := fileName(strings.Repeat("e\u0323\u0308", 300))
	require.Equal(t, strings.Repeat("ẹ\u0308", len(whole)/len("ẹ\u0308")), whole, "no letter loses its marks")
}

// Names that one system holds to be the same are told apart.
func TestFileNamesDiffer(t *testing.T) {
	name := fileNames()
	for _, c := range [][2]string{
		{"Straße", "straße"},
		{"STRASSE", "strasse-2"},
		{"Menu", "menu"},
		{"menu!", "menu-2"},
		{"Menu 2", "menu-2-2"},
		{"Cafe\u0301", "café"},
		{"CAFÉ", "café-2"},
	} {
		require.Equal(t, c[1], name(c[0]), c[0])
	}
}
