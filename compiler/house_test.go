package compiler_test

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler"
	"tamis/compiler/resolve"
)

const pot = `
dish Turnip pot
  serves 4
  takes 50 min to 1 h 20 min
  gather
    2 to 3   onions
    300 to 400 g turnips
  method
    - Stew the onions and turnips, covered, for 30 to 35 minutes.
      | ring low | work 3 min | leave 30 to 35 min
    - Bake.
      | oven 180 to 190 C | leave 20 min to 1 h 10 min
`

// printedPages is all that is printed of a folder, as text.
func printedPages(t *testing.T, files map[string]string) string {
	t.Helper()
	r := compileFiles(t, files, compiler.Options{})
	for _, d := range r.Documents {
		d.Recipes = nil // for other programs: in the writer's own words
	}
	var out bytes.Buffer
	e := json.NewEncoder(&out)
	e.SetEscapeHTML(false)
	require.NoError(t, e.Encode(r.Documents))
	return out.String()
}

// A book's `style range dash` reaches every figure that Tamis prints, and no
// word of the writer's sentences; where a dash would tie two units, the word
// stays.
func TestRangesInHouseStyle(t *testing.T) {
	dash := printedPages(t, map[string]string{"book.tamis": "book Hut\n  style range dash\n", "pot.tamis": pot})
	for _, want := range []string{"2–3", "300–400 g", "leave 30–35 min", "oven 180–190 °C", "20 min to 1 h 10 min", "for 30 to 35 minutes"} {
		require.Contains(t, dash, want)
	}
	for _, not := range []string{`"2 to 3"`, `"300 to 400 g"`, "leave 30 to 35 min"} {
		require.NotContains(t, dash, not)
	}
	word := printedPages(t, map[string]string{"book.tamis": "book Hut\n  style range to\n", "pot.tamis": pot})
	require.Contains(t, word, `"300 to 400 g"`)
	require.NotContains(t, word, "–35 min")
}

// The closed list, each rule found in any case, under the switch it sets.
func TestHouseStyles(t *testing.T) {
	require.Equal(t, []string{
		"range dash", "range to", "units metric", "units US", "units imperial", "units both",
		"divided", "not divided", "preheat always", "preheat never", "credits", "terms explained",
	}, resolve.HouseStyles())
	for _, s := range resolve.HouseStyles() {
		rule, _, ok := resolve.HouseStyle("  " + strings.ToUpper(s))
		require.True(t, ok, s)
		require.Equal(t, s, rule)
	}
	_, a, _ := resolve.HouseStyle("divided")
	_, b, _ := resolve.HouseStyle("not divided")
	require.Equal(t, a, b, "two answers to one question")
	_, _, ok := resolve.HouseStyle("range dashes")
	require.False(t, ok)
}
