package compiler_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler"
	"tamis/compiler/sheets"
	"tamis/lang/quantity"
)

// Fruit of a named seller, one line for its juice and one for its zest, is bought by that
// seller and stops no build.
func TestFruitOfASellerForJuiceAndZest(t *testing.T) {
	text := menuOf(4, "Tart") + dishOf("Tart", "", "2 lemons, juiced | from the greengrocer", "1 lemon, zested | from the greengrocer", "500 g flour")
	m := compiled(t, tried{text: text, opt: compiler.Options{Sheets: []sheets.Kind{sheets.Shopping}}})
	require.Regexp(t, `lemon`, m.words(sheets.Shopping))
}

// A limit in Celsius is said in Fahrenheit at both ends of a span; what is cooled to, or
// kept below, is rounded down.
func TestLimitsInFahrenheit(t *testing.T) {
	for rules, want := range map[string]string{
		"UK": `keep it at 46 F \(8 C\) or below`,
		"AU": `140 to 69 F \(60 to 21 C\)`,
	} {
		text := strings.Replace(menuOf(4, "Pot"), "  rules UK\n", "  rules "+rules+"\n", 1) +
			cooked("Pot", "rice", "cold, within 30 min", "Boil the rice. | ring high | leave 15 min", "Cool it in shallow trays. | work 5 min | leave 1 h", "Cover and chill. | work 2 min | stand 3 h, fridge")
		m := compiled(t, tried{text: text, opt: compiler.Options{Units: quantity.US, Sheets: []sheets.Kind{sheets.Prep, sheets.Shopping}}})
		said := m.words(sheets.Shopping)
		require.Regexp(t, want, said, rules)
		require.NotRegexp(t, `\d F \(\d+ to \d+ F`, said, rules)
	}
}

// A book on cards names no pages, for cards count by themselves; a list without the
// recipes has none to name.
func TestABookNamesPagesWhereThereAreSome(t *testing.T) {
	paged := func(opt compiler.Options) bool {
		d := pages(t, twoRecipes, opt)
		tb := table(t, &d.Sheets[0], 0)
		return tb != tb.OffPaper()
	}
	require.True(t, paged(compiler.Options{}))
	require.False(t, paged(compiler.Options{Card: true}))
	require.False(t, paged(compiler.Options{Sheets: []sheets.Kind{sheets.Overview}}))
}

// Where nothing is bought the cautions stand whole with the dish.
func TestCautionsAreWholeWithoutAShoppingList(t *testing.T) {
	text := menuOf(4, "Water") + "dish Water\n  serves 4\n  gather\n    1 litre water\n  method\n    - Simmer the water. | ring low | leave 30 min\n    - Keep it hot. | hold hot up to 30 min\n  serve hot, within 10 min\n"
	m := compiled(t, tried{text: text})
	require.Regexp(t, `held at 63 C or above\. \(a\) .*come first\. \(a: Food Hygiene`, m.words(sheets.Prep))
}

// What comes out on another day has a row of that day: nobody reads back to the evening
// before.
func TestWhatComesOutTheNextDayHasARowThen(t *testing.T) {
	text := "menu Tea\n  on the table 2027-09-19 13:00\n  covers 4\n  course Main\n    Pork, ahead\n    Soup\n" +
		"dish Pork\n  serves 4\n  keeps 3 days, fridge\n  gather\n    2 kg pork shoulder\n    1 litre chicken stock\n  method\n    - Put the pork shoulder and the chicken stock in a tin and braise.\n      | work 5 min | oven 120 C | leave 11 h\n    pause up to 1 day, fridge\n    - Slice and lay out. | work 5 min\n" +
		"dish Soup\n  serves 4\n  gather\n    1 kg carrots\n    1 litre water\n  method\n    - Simmer the carrots in the water. | ring low | leave 30 min\n    - Blend it. | work 5 min\n"
	m := compiled(t, tried{text: text, opt: compiler.Options{Sheets: []sheets.Kind{sheets.RunSheet}}})
	var sunday []string
	for _, g := range table(t, sheetOf(t, m.Documents[0], sheets.RunSheet, ""), 0).Groups {
		for _, r := range g.Rows {
			if strings.HasPrefix(g.Title, "Sunday") {
				sunday = append(sunday, runText(r.Cells[0].Runs)+" "+runText(r.Cells[2].Runs))
			}
		}
	}
	require.Regexp(t, `^\d\d:\d\d Take out of the oven: Pork, step 1`, sunday[0])
}

// One pack without a name for what it is in is what it holds: nobody writes "1 × 1 kg".
// Things that are cut in one go are named in their number.
func TestListsAreWrittenAsCooksDo(t *testing.T) {
	text := menuOf(4, "Salad") + "larder\n  rock samphire | packs 1 kg\n" +
		"dish Salad\n  serves 4\n  gather\n    600 g rock samphire\n    2 lemons, halved | work 3 min\n    400 g carrots, diced | work 6 min\n  method\n    - Stir everything. | work 5 min\n  serve cold\n"
	m := compiled(t, tried{text: text, opt: compiler.Options{Sheets: []sheets.Kind{sheets.Wall, sheets.Shopping}}})
	require.Contains(t, m.words(sheets.Shopping), " 1 kg rock samphire")
	require.NotContains(t, m.words(sheets.Shopping), "1 × 1 kg")
	require.Contains(t, m.words(sheets.Wall), "lemons (A)")
}
