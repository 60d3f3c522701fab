package demand_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler/demand"
)

// How a line grows with the covers, by its law, from below the written size to
// ten times it; worked by hand. The laws are common practice, no source.
func TestLawsOfGrowing(t *testing.T) {
	const text = `menu Lunch
  covers %d
  course Main
    Soup
dish Soup
  serves 6
  gather
    900 g    cucumbers
    4 g      salt         | scales less
    1        bay leaf     | fixed
    3        eggs         | whole
    10 g     butter       | per vessel
  method
    - Blend everything.
`
	for _, c := range []struct {
		covers                                int
		cucumbers, salt, leaf, eggs, perPiece string
	}{
		{3, "450", "2", "1", "2", "10"},        // half: 1 1/2 eggs are 2, and one vessel is greased all the same
		{6, "900", "4", "1", "3", "10"},        // as written
		{7, "1050", "13/3", "1", "4", "20"},    // a little more: 4 (1 + 1/12); 3 1/2 eggs are 4; a second vessel
		{9, "1350", "5", "1", "5", "20"},       // half way to double: 4 times 1 1/4
		{12, "1800", "6", "1", "6", "20"},      // double: 1 1/2 times
		{18, "2700", "7", "1", "9", "30"},      // half way from 1 1/2 to 2 times
		{24, "3600", "8", "1", "12", "40"},     // four times: twice
		{36, "5400", "10", "1", "18", "60"},    // beyond, a quarter for each further time: 2 1/2 times
		{48, "7200", "12", "1", "24", "80"},    // 3 times
		{60, "9000", "14", "1", "30", "100"},   // 3 1/2 times
		{62, "9300", "43/3", "1", "31", "110"}, // 10 1/3: 4 (2 + 6 1/3 / 4)
	} {
		ms, ds := meals(t, fmt.Sprintf(text, c.covers), demand.Options{})
		require.Empty(t, codes(ds), "%v", ds)
		soup := making(t, ms[0], "Soup")
		for name, want := range map[string]string{"cucumbers": c.cucumbers, "salt": c.salt, "bay leaf": c.leaf, "eggs": c.eggs, "butter": c.perPiece} {
			require.Equal(t, want, amount(t, soup, name), "%s for %d", name, c.covers)
		}
	}
}

// A range keeps both its ends, each taken up to a whole one.
func TestWholeRangesAreTakenUpAtBothEnds(t *testing.T) {
	ms, ds := meals(t, "menu Lunch\n  covers 9\n  course Main\n    Soup\ndish Soup\n  serves 6\n  gather\n    3 to 5 eggs | whole\n  method\n    - Beat the eggs.\n", demand.Options{})
	require.Empty(t, codes(ds), "%v", ds)
	v := making(t, ms[0], "Soup").Lines[0].Quantity.Value
	require.Equal(t, []string{"5", "8"}, []string{v.Low.String(), v.High.String()}, "4 1/2 to 7 1/2")
	require.Contains(t, making(t, ms[0], "Soup").Lines[0].How, "taken up to a whole one", "and `--why` says so")
}

// One for so many is taken up to whole ones; what is weighed is not.
func TestOneForSoMany(t *testing.T) {
	for covers, want := range map[int][2]string{3: {"1", "75"}, 4: {"1", "100"}, 5: {"2", "125"}, 75: {"19", "1875"}} {
		ms, ds := meals(t, fmt.Sprintf("menu M\n  covers %d\n  course C\n    Salad\ndish Salad\n  serves 4\n  gather\n    1 per 4 covers lettuce\n    100 g per 4 covers radishes\n  method\n    - Toss everything.\n", covers), demand.Options{})
		require.Empty(t, codes(ds))
		salad := making(t, ms[0], "Salad")
		require.Equal(t, want, [2]string{amount(t, salad, "lettuce"), amount(t, salad, "radishes")}, "for %d", covers)
	}
}
