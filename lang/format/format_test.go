package format_test

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/lang/diag"
	"tamis/lang/format"
	"tamis/lang/quantity"
	"tamis/lang/source"
)

var update = flag.Bool("update", false, "write the formatted text; read the difference as code")

func formatted(t *testing.T, text string) string {
	t.Helper()
	out, found := format.Source(source.New("x.tamis", text))
	for _, d := range found {
		require.NotEqual(t, diag.Error, d.Severity, d.Message)
	}
	return out
}

func TestUntidyText(t *testing.T) {
	in, err := os.ReadFile("testdata/untidy.tamis")
	require.NoError(t, err)
	got := formatted(t, string(in))
	if *update {
		require.NoError(t, os.WriteFile("testdata/untidy.want", []byte(got), 0o644))
	}
	want, err := os.ReadFile("testdata/untidy.want")
	require.NoError(t, err)
	require.Equal(t, string(want), got)
	checkFormat(t, string(in))
}

func TestHarvest(t *testing.T) {
	in, err := os.ReadFile("../parse/testdata/harvest.tamis")
	require.NoError(t, err)
	checkFormat(t, string(in))
}

// The examples read without errors and keep their meaning.
func TestExamples(t *testing.T) {
	names, err := filepath.Glob("../../examples/*/*.tamis")
	require.NoError(t, err)
	for _, name := range names {
		text, err := os.ReadFile(name)
		require.NoError(t, err)
		_, ok := clean(string(text))
		require.True(t, ok, name)
		checkFormat(t, string(text))
	}
}

// line makes a dish of one gathered line, and gives that line formatted.
func line(t *testing.T, text string) string {
	t.Helper()
	got := formatted(t, "dish A\n  gather\n    "+text+"\n")
	return strings.TrimSuffix(strings.TrimPrefix(got, "dish A\n  gather\n    "), "\n")
}

func TestGatheredLines(t *testing.T) {
	for in, want := range map[string]string{
		"200g flour":                         "200 g    flour",
		"1 kg of flour":                      "1 kg     flour",
		"salt":                               "salt",
		"1 litre of water":                   "1 litre  water",
		"2 l water":                          "2 litres water",
		"250 millilitres milk":               "250 ml   milk",
		"2-3 onions":                         "2 to 3   onions",
		"½ lemon":                            "1/2      lemon",
		"1½ tbsp oil":                        "1 1/2 tbsp oil",
		"2 large eggs(free range),beaten":    "2        large eggs (free range), beaten",
		"2 × 400g tins tomatoes":             "2 x 400 g tins tomatoes",
		"200 g flour, optional":              "200 g    flour                             | optional",
		"salt,to taste":                      "salt                                       | to taste",
		"200 g flour|work 5 mins|optional":   "200 g    flour                             | work 5 min | optional",
		"200 g flour | optional | work 5min": "200 g    flour                             | work 5 min | optional",
		`200 g "onions"`:                     "200 g    onions",
		`4 "cup cakes"`:                      `4        "cup cakes"`,
		`"salt, flaky"`:                      `"salt, flaky"`,
		`200 g "slow onions"`:                "200 g    slow onions",
		`200 g "butter or lard"`:             `200 g    "butter or lard"`,
		`200 g "of the best"`:                `200 g    "of the best"`,
		`"two onions"`:                       `"two onions"`,
		`"salt to taste"`:                    `"salt to taste"`,
		`"70% chocolate"`:                    `"70% chocolate"`,
		`"for the dressing"`:                 `"for the dressing"`,
		`3 "fronds dill"`:                    `3        "fronds dill"`,
		"2 onions, a very long note that goes on and on | work 5 min": "2        onions, a very long note that goes on and on  | work 5 min",
	} {
		require.Equal(t, want, line(t, in), in)
	}
	// The bar stands in column 48.
	require.Equal(t, 47, strings.Index("    "+line(t, "200 g flour | optional"), "|"))
}

// One changed line in is one changed line out: layout never looks at a
// line's neighbours.
func TestLinesStandAlone(t *testing.T) {
	a := formatted(t, "dish A\n  gather\n    2 onions | work 5 min\n    200 g flour | optional\n")
	b := formatted(t, "dish A\n  gather\n    2 onions | work 5 min\n    1 1/2 tbsp rapeseed oil of the very best kind there is | optional\n")
	x, y := strings.Split(a, "\n"), strings.Split(b, "\n")
	require.Equal(t, len(x), len(y))
	changed := 0
	for i := range x {
		if x[i] != y[i] {
			changed++
		}
	}
	require.Equal(t, 1, changed)
}

func TestMargins(t *testing.T) {
	step := func(margin string) string {
		got := formatted(t, "dish A\n  method\n    - Do it.\n      | "+margin+"\n")
		return strings.TrimPrefix(got, "dish A\n  method\n    - Do it.\n")
	}
	require.Equal(t, "      | if plain | oven 200 C | in tin | tool whisk | work 2 min | leave 1 h 20 min\n",
		step("work 2 min | leave 80 min | tool whisk | in tin | oven 200°C | if plain"))
	long := step("caution hot sugar burns badly, keep children away | work 2 min per 300g green beans | by Ana | leave 80 min")
	require.Equal(t, "      | work 2 min per 300 g green beans\n      | leave 1 h 20 min\n      | by Ana\n      | caution hot sugar burns badly, keep children away\n", long)
}

func TestProseIsNotTouched(t *testing.T) {
	prose := "Toast the  barley\u00a0—  «well», 1½ cups,  to 200ºC"
	got := formatted(t, "dish A\n  about\n    "+prose+" \t\n\n        deep | # x\n  method\n    - "+prose+"   \n      and go on |work 5min\n")
	require.Equal(t, "dish A\n  about\n    "+prose+"\n\n        deep | # x\n  method\n    - "+prose+"\n      and go on\n      | work 5 min\n", got)
}

func TestErrorsLeaveTheTextAlone(t *testing.T) {
	text := "dish  A\r\n\tserves 6\r\n\tsrves 7  \r\n"
	got, found := format.Source(source.New("x.tamis", text))
	require.Equal(t, text, got)
	require.Len(t, found, 1)
}

func TestNewerNotationIsKept(t *testing.T) {
	text := "notation 99\n\ndish A\n  shimmers   6\n      # inside\n      much\n  serves 6\n  gather\n    200 g    flour                             | frozen   in March | optional\n"
	require.Equal(t, text, formatted(t, text))
}

func TestDecimalComma(t *testing.T) {
	text := "dish A\n  gather\n    1,5 kg   flour\n"
	got, found := format.SourceWith(source.New("x.tamis", text), quantity.Options{DecimalComma: true})
	require.Empty(t, found)
	require.Equal(t, text, got)
}

func TestCommentsStay(t *testing.T) {
	text := "# a\ndish A\n  # b\n  serves 6\n  gather\n    # c\n    2 onions\n      # d\n      | work 5 min\n  method\n    # e\n    - Chop and\n      # f\n      fry.\n#   g\n"
	got := formatted(t, text)
	for _, c := range []string{"# a", "# b", "# c", "# d", "# e", "# f", "# g"} {
		require.Equal(t, 1, strings.Count(got, c+"\n"), "%s in\n%s", c, got)
	}
	require.Contains(t, got, "    # e\n    # f\n    - Chop and\n      fry.\n", "comments inside a step stand above it")
	tree, ok := clean(got)
	require.True(t, ok)
	require.Len(t, tree.Trailing, 1)
}
