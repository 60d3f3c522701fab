package compiler_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler"
	"tamis/compiler/sheets"
)

const fishSupper = `menu Supper
  covers 4
  on the table 2027-05-08 19:00
  hours day before, 15:00 to 20:00
  hours on the day, 14:00 to 21:00
  shop 2027-05-04, 2027-05-07, 2027-05-08
  course Main
    Cod
larder
  units metric
  thing yy | keeps 1 week, fridge
base Fennel stock
  makes 500 ml
  keeps 2 days, fridge
  gather
    300 g    fennel
    200 g    prawns in the shell
  method
    - Simmer the fennel and the prawns.
      | ring low | leave 30 min
    - Chill. | stand overnight, fridge
dish Cod
  serves 4
  gather
    600 g    cod fillets
    400 g    onions
    30 g     dill
    100 g    butter
    100 g    stuff xx
    300 g    thing yy
    500 ml   fennel stock
  method
    - Cook everything.
      | ring medium | watch 15 min
  serve hot
`

// What keeps is bought on the first day of shopping, what does not on the last
// from which it keeps, and nothing later than it is used.
func TestShoppingIsDoneNearTheUse(t *testing.T) {
	s := sheetOf(t, pages(t, fishSupper, compiler.Options{}), sheets.Shopping, "")
	got := map[string]string{}
	var groups []string
	for _, g := range s.Blocks[0].(*sheets.Table).Groups {
		groups = append(groups, g.Title+", "+g.Note)
		for _, r := range g.Rows {
			got[r.Cells[2].Runs[0].Text] = g.Note
		}
	}
	const tuesday, friday, saturday = "Tuesday 4 May", "Friday 7 May", "Saturday 8 May"
	require.Equal(t, map[string]string{
		"onions":              tuesday, // two weeks
		"fennel":              tuesday, // five days, and it is cooked on Friday
		"dill":                friday,  // three days
		"cod fillets":         friday,  // a day
		"prawns in the shell": friday,  // a day, and cooked on Friday: Saturday is too late
		"butter":              tuesday, // two weeks
		"stuff xx":            friday,  // nobody knows: a day
		"thing yy":            tuesday, // the writer's week
	}, got)
	require.Equal(t, []string{"Greengrocer, " + tuesday, "Greengrocer, " + friday}, groups[:2], "by counter, then by day")
	require.Subset(t, s.Facts, []string{"shop on " + tuesday, "shop on " + friday, "shop on " + saturday})
}

// With one day there is nothing to say beside the counters.
func TestOneDayOfShopping(t *testing.T) {
	s := sheetOf(t, pages(t, strings.Replace(fishSupper, "shop 2027-05-04, 2027-05-07, 2027-05-08", "shop Friday", 1), compiler.Options{}), sheets.Shopping, "")
	require.Contains(t, s.Facts, "shop on Friday 7 May")
	for _, g := range s.Blocks[0].(*sheets.Table).Groups {
		require.Empty(t, g.Note)
	}
}
