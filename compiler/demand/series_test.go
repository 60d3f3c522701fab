package demand_test

import (
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"tamis/compiler/demand"
	"tamis/compiler/load"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

const evenings = `series Three evenings
  part 1 Stock
    shows Stock
    date 2027-03-01
  part 2 Pie
    shows Pie
    date 2027-03-04
    copies 3 of Pie, as lined tin
    copies 1 of Pie
  part 3 Supper
    shows Soup
    date 2027-03-08
menu Supper
  covers 9
  on the table 2027-03-08 19:00
  course Main
    Soup
    Pie
larder
  units metric
base Stock
  makes 2 litres
  keeps 5 days, fridge
  gather
    1 kg     bones xx
    3 litres water
  method
    - Simmer the bones xx in the water. | makes 200 ml dripping xx | keeps 4 days, fridge
dish Pie
  serves 6
  gather
    300 g    flour xx
    200 g    butter xx
    1 kg     leeks xx
    400 ml   stock               | made in part 1
  method
    - Rub 150 g of the butter xx into the flour xx.
    - Roll it out. | makes lined tin
    - Soften the leeks xx in the rest of the butter xx and pour in the stock.
dish Soup
  serves 3
  gather
    500 ml   stock               | made in part 1
    20 ml    dripping xx         | made in part 1
    100 g    pasta xx            | whole
  method
    - Heat everything.
`

func series(t *testing.T, text string, opt demand.Options) (*demand.Series, []diag.Diagnostic) {
	t.Helper()
	tree, err := load.FS(fstest.MapFS{"a.tamis": {Data: []byte(text)}}, ".", "", "")
	require.NoError(t, err)
	diags := &diag.List{}
	diags.AddAll(&tree.Diags)
	m := resolve.Build(tree, diags)
	meals := demand.Meals(m, opt, diags)
	all := demand.SeriesOf(m, meals, opt, diags)
	require.Len(t, all, 1)
	return all[0], diags.Sorted()
}

// Nine covers: the pie, written for six, is made one and a half times over; the
// soup, written for three, three times.
func TestPartsOfASeries(t *testing.T) {
	s, ds := series(t, evenings, demand.Options{})
	require.Empty(t, codes(ds), "%v", ds)
	require.Equal(t, "Supper", s.Meal.Title)
	require.Len(t, s.Parts, 3)

	pie, lined, finished := s.Parts[1].Shown[0], s.Parts[1].StandIns[0], s.Parts[1].StandIns[1]
	require.Equal(t, "450", amount(t, pie, "flour xx"), "300 × 1.5")
	require.Equal(t, "600", amount(t, pie, "stock"), "400 × 1.5")

	require.Equal(t, "1350", amount(t, lined, "flour xx"), "3 copies of 450")
	require.Equal(t, "675", amount(t, lined, "butter xx"), "3 copies of 150 × 1.5: the rest goes in after the tin is lined")
	require.Len(t, lined.Lines, 2, "no leeks and no stock are in a lined tin")
	require.Len(t, lined.Reading.Steps, 2)
	require.Equal(t, "9/2", lined.Factor.String(), "three copies at 1.5")

	require.Equal(t, "1500", amount(t, finished, "leeks xx"), "1 kg × 1.5")
	require.Equal(t, "600", amount(t, finished, "stock"))

	stock := s.Parts[0].Shown[0]
	require.Equal(t, "3300", stock.Supply.Drawn.Value.High.String(), "600 pie, 600 the pie that stands ready, 500 × 3 soup, 600 the pie that the meal makes again")
	require.Equal(t, "33/20", stock.Factor.String(), "3.3 litres of 2")
	require.Equal(t, "1650", amount(t, stock, "bones xx"))
	require.True(t, stock.Supply.Left.IsZero())

	require.Equal(t, []string{"600 ml Stock to 2", "600 ml Stock to 2", "1.5 litres Stock to 3", "600 ml Stock to the meal", "60 ml dripping xx to 3"}, carried(s))
	by, ok := s.Carries[0].UseBy()
	require.True(t, ok)
	require.Equal(t, "2027-03-06", by.Format("2006-01-02"), "five days from the first of March")
	by, _ = s.Carries[4].UseBy()
	require.Equal(t, "2027-03-05", by.Format("2006-01-02"), "the dripping's own four days")
}

func carried(s *demand.Series) (out []string) {
	for _, c := range s.Carries {
		text := ""
		if c.Amount != nil {
			text = c.Amount.Value.High.String() + " ml "
			if v := c.Amount.Value.High.String(); v == "1500" {
				text = "1.5 litres "
			}
		}
		to := "the meal"
		if c.To != nil {
			to = string(rune('0' + c.To.Of.Number))
		}
		out = append(out, text+c.Name()+" to "+to)
	}
	return out
}

// --covers goes through to every part.
func TestPartsAtOtherCovers(t *testing.T) {
	s, _ := series(t, evenings, demand.Options{Covers: 18})
	require.Equal(t, "6600", s.Parts[0].Shown[0].Supply.Drawn.Value.High.String(), "twice 3.3 litres")
	require.Equal(t, "2700", amount(t, s.Parts[1].StandIns[0], "flour xx"))
}

// Without a menu a series is at written size, and a base that nothing draws on
// is made once.
func TestSeriesWithoutAMenu(t *testing.T) {
	text := evenings[:strings.Index(evenings, "menu Supper")] + evenings[strings.Index(evenings, "larder"):]
	s, ds := series(t, text, demand.Options{})
	require.Empty(t, codes(ds))
	require.Nil(t, s.Meal)
	require.Equal(t, "300", amount(t, s.Parts[1].Shown[0], "flour xx"))
	require.Equal(t, "1300", s.Parts[0].Shown[0].Supply.Drawn.Value.High.String(), "400 + 400 + 500")

	alone := strings.ReplaceAll(text, "| made in part 1", "| left from Monday")
	s, _ = series(t, alone, demand.Options{})
	require.Equal(t, "1", s.Parts[0].Shown[0].Factor.String())
}

// A dish that waits for the meal is carried to it; one that cannot is not.
func TestWhatWaitsForTheMeal(t *testing.T) {
	waiting := strings.Replace(evenings, "    - Soften the leeks xx in", "    pause up to 3 days, fridge\n    - Soften the leeks xx in", 1)
	s, ds := series(t, strings.Replace(waiting, "    Pie\nlarder", "    Pie, ahead\nlarder", 1), demand.Options{})
	require.Empty(t, codes(ds))
	last := s.Carries[len(s.Carries)-1]
	require.Equal(t, "Pie", last.Name())
	require.Nil(t, last.To)
	by, _ := last.UseBy()
	require.Equal(t, "2027-03-07", by.Format("2006-01-02"), "three days from the fourth of March")

	s, _ = series(t, waiting, demand.Options{})
	for _, c := range s.Carries {
		require.NotEqual(t, "Pie", c.Name(), "nobody made it ahead: it is made again for the meal")
	}
}

// What the meal makes again draws again on what was carried over; what waited for it, or
// is shown on its own day, was drawn for once.
func TestWhatIsMadeAgainDrawsAgain(t *testing.T) {
	drawn := func(text string) string {
		s, ds := series(t, text, demand.Options{})
		require.Empty(t, codes(ds))
		return s.Parts[0].Shown[0].Supply.Drawn.Value.High.String()
	}
	require.Equal(t, "3300", drawn(evenings), "600 + 600 + 1500, and 600 for the pie of the meal")
	waiting := strings.Replace(evenings, "    - Soften the leeks xx in", "    pause up to 3 days, fridge\n    - Soften the leeks xx in", 1)
	require.Equal(t, "2700", drawn(strings.Replace(waiting, "    Pie\nlarder", "    Pie, ahead\nlarder", 1)), "the pie of the fourth is the one that is eaten on the eighth")
	require.Equal(t, "2700", drawn(strings.Replace(evenings, "2027-03-04", "2027-03-08", 1)), "it is shown on the day of the meal")
}

// A base is made for whatever of it later parts want most; the by-product of a
// dish comes in the amount the dish gives.
func TestByProductsOfLaterParts(t *testing.T) {
	s, ds := series(t, strings.Replace(evenings, "20 ml    dripping", "120 ml   dripping", 1), demand.Options{})
	require.Empty(t, codes(ds))
	require.Equal(t, "9/5", s.Parts[0].Shown[0].Factor.String(), "120 ml × 3 of dripping, 200 ml a batch; the stock alone asks for 1.65")

	pie := strings.NewReplacer("| makes lined tin", "| makes lined tin | sets aside 90 g offcuts xx", "100 g    pasta xx            | whole", "50 g     offcuts xx          | made in part 2").Replace(evenings)
	_, ds = series(t, strings.Replace(pie, "    copies 1 of Pie\n", "", 1), demand.Options{})
	require.Empty(t, codes(ds), "90 g × 1.5 × 4 pies, and 150 g are wanted: %v", ds)
	_, ds = series(t, strings.Replace(pie, "    copies 3 of Pie, as lined tin\n    copies 1 of Pie\n", "", 1), demand.Options{})
	require.Equal(t, []string{"D107"}, codes(ds))
	require.Contains(t, ds[0].Message, "15 g of offcuts xx is short")
}

func TestNamesOfASeries(t *testing.T) {
	for _, tt := range []struct{ from, to, code string }{
		{"shows Soup", "shows Soupe", "U105"},
		{"1 of Pie\n", "1 of Pye\n", "U105"},
		{"as lined tin", "as lined box", "U140"},
	} {
		s, ds := series(t, strings.Replace(evenings, tt.from, tt.to, 1), demand.Options{})
		require.Contains(t, codes(ds), tt.code)
		require.Len(t, s.Parts, 3, "the rest of the series is worked out")
	}
}
