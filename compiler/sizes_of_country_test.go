package compiler_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler"
	"tamis/compiler/sheets"
)

// Where a thing is another size, or is sold otherwise, in a country, that of the rules of
// the recipe counts, else of the kitchens of its folder, else of its measures. British
// leeks are sold trimmed (from memory); SR28 leaves 44 in a hundred of others (NDB 11246),
// and 39 of a cauliflower (NDB 11135).
func TestSizesOfTheCountry(t *testing.T) {
	for _, c := range []struct{ head, rules, line, want string }{
		{"", "rules UK", "700 g leeks | trimmed", "1 kg"},
		{"", "rules EU-FR", "700 g leeks | trimmed", "1 kg"},
		{"kitchen Ours\n  rules UK\n  cooks Ana\n", "rules UK", "700 g leeks | trimmed", "1 kg"},
		{"kitchen Ours\n  rules UK\n  cooks Ana\n", "about\n    Winter.", "700 g leeks | trimmed", "1 kg"},
		{"", "units metric", "700 g leeks | trimmed", "1.6 kg"},
		{"", "rules UK", "600 g cauliflower | trimmed", "1 kg"},
	} {
		text := c.head + "dish T\n  " + c.rules + "\n  serves 4\n  gather\n    " + c.line + "\n  method\n    - Boil everything.\n      | ring high | leave 10 min\n"
		m := compiled(t, tried{text: text, opt: compiler.Options{Sheets: []sheets.Kind{sheets.Shopping}}})
		require.Contains(t, m.words(sheets.Shopping), c.want, "%s %s, %s", c.head, c.rules, c.line)
	}
	for _, c := range []struct {
		rules, line string
		grams       float64
	}{
		{"rules UK", "4 large eggs", 59.84}, // EC 589/2008, class L, without its shell
		{"rules US", "4 large eggs", 50},    // SR28, NDB 01123
		{"units US", "4 large eggs", 50},
		{"rules UK", "2 green chillies", 9},
		{"rules US", "2 green chillies", 45},
	} {
		m := compiled(t, tried{text: "dish T\n  " + c.rules + "\n  serves 4\n  gather\n    " + c.line + "\n  method\n    - Boil everything.\n      | ring high | leave 10 min\n"})
		grams, _, ok := m.Model.Recipes[0].Lines[0].PieceGrams()
		require.True(t, ok)
		require.InDelta(t, c.grams, grams.Float(), 0.01, "%s, %s", c.rules, c.line)
	}
}
