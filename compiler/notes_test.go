package compiler_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler/sheets"
)

const noted = `menu Supper
  covers 8
  on the table 2027-09-19 13:00
  shop Friday
  course Main
    Black loaf
dish Rye loaf
  serves 8 ?
  also called Black loaf, Miller's loaf
  goes with soused herring
  said "take of the best rye"
  props blue plates
  equipment thermometer, peel
  cooked 2026-12-25, Bea, Tom: less salt: 8 g
  cooked 2027-01-06: as written
  corrected 2027-10-03: 12 g salt, not 20
  gather
    600 g rye flour
    12 g  salt
    400 ml water
  method
    - Mix the rye flour, the salt and the water.
      | work 10 min
      said "until it leaves the hand"
    - Bake.
      | oven 200 C, fan off, shut 20 min | leave 50 min
`

// What is noted of a dish is on its card, in the writer's words; it is found by its
// other names; the day of shopping is the last Friday before the Sunday of the meal.
func TestNotesOfADish(t *testing.T) {
	m := compiled(t, tried{text: noted})
	card := m.words(sheets.Prep)
	for _, want := range []string{
		"Also called Black loaf, Miller's loaf.", "Goes with soused herring.", "“take of the best rye”", "Props: blue plates.", "Equipment: thermometer, peel.",
		"Cooked 25 December 2026, Bea, Tom: less salt: 8 g", "Cooked 6 January 2027: as written", "Corrected 3 October 2027: 12 g salt, not 20",
		"“until it leaves the hand”", "fan off, shut for 20 min",
	} {
		require.Contains(t, card, want)
	}
	require.Contains(t, m.words(sheets.Shopping), "shop on Friday 17 September")
	require.Equal(t, "Rye loaf", m.Model.Menus[0].Courses[0].Servings[0].Recipe.Name)
	codes := map[string]int{}
	for _, d := range m.Diags.Sorted() {
		codes[d.Code]++
	}
	require.Equal(t, 1, codes["E121"], "serves 8 ?")
	require.Zero(t, codes["E120"], "the list has the right figure")
	require.Zero(t, codes["U105"])
}

// A day of shopping after the meal, a weekday with no date to count from, and another
// name that is taken.
func TestNotesThatCannotBe(t *testing.T) {
	for was, now := range map[[2]string]string{
		{"shop Friday", "M114"}:                       "shop 2027-09-20",
		{"  on the table 2027-09-19 13:00\n", "M114"}: "",
		{"also called Black loaf", "U101"}:            "also called Supper bread, Rye bread\ndish Rye bread\n  serves 2\ndish Other\n  also called Black loaf",
	} {
		found := false
		for _, d := range foundIn(t, map[string]string{"a.tamis": with(t, noted, was[0], now)}) {
			found = found || d.Code == was[1]
		}
		require.True(t, found, "%s for %s", was[1], was[0])
	}
}

// Three months are ninety days, and printed as they were written.
func TestMonths(t *testing.T) {
	m := compiled(t, tried{text: "base Stock\n  makes 1 litre\n  keeps 3 months, freezer\n  gather\n    1 kg bones\n    2 litres water\n  method\n    - Simmer the bones in the water, covered.\n      | ring low | leave 2 h\n"})
	require.Equal(t, 90*24.0, m.recipe("Stock").Keeps.Time.High.Hours())
	require.Contains(t, m.words(sheets.Prep), "keeps 3 months, freezer")
}
