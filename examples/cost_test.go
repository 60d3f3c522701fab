package examples

import (
	"context"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler"
	"tamis/compiler/load"
	"tamis/compiler/sheets"
)

// Every figure of the cost card of the bakery's Saturday, worked by hand from the
// amounts of its expected.csv and the prices of its larder, a kilo or a litre:
//
//	strong flour 1.05, rye flour 1.20, butter 8.40, sugar 1.60, dried yeast 9.00, salt 0.80,
//	pumpkin seeds 9.50, sunflower seeds 6.00, milk 1.20 a litre of 1.03 kg
//
//	ferment   1516.48 flour 1.59231 + 3.03 yeast 0.02730                             = 1.61960
//	white     3240 flour 3.402 + 19.44 yeast 0.17496 + 77.76 salt 0.06221
//	          + 64.8 butter 0.54432 + 1296/3036 of the ferment 0.69137               = 4.87486
//	rye       1680 flour 1.764 + 720 rye 0.864 + 12 yeast 0.108 + 60 salt 0.048
//	          + 192 sunflower 1.152 + 144 pumpkin 1.368 + 1200/3036 ferment 0.64016  = 5.94416
//	rolls     1800 flour 1.89 + 720/1.03 ml milk 0.83883 + 72 sugar 0.1152 + 14.4 yeast 0.1296
//	          + 39.6 salt 0.03168 + 144 butter 1.2096 + 540/3036 ferment 0.28807     = 4.50299
//	in all                                                                           15.32201
//
// Printed, 4.87 + 5.94 + 4.50 are 15.31; the cent goes to the white loaves, which lost most
// by rounding. A portion: 4.87486/12, 5.94416/8, 4.50299/48; a cover: 15.32201/24.
//
// At the till: butter 250 g 2.10; milk 2 x 568 ml 1.3632; yeast 125 g 1.125; strong flour 6 x 1.5 kg
// 9.45; rye flour 1.5 kg 1.80; by weight 177.5 g of salt (78 + 60 + 39.5) 0.142, 144 g pumpkin 1.368,
// 192 g sunflower 1.152, 72 g sugar 0.1152: 18.6154.
func TestCostsOfTheBakeryByHand(t *testing.T) {
	tree, err := load.Path("bakery-morning")
	require.NoError(t, err)
	r := compiler.Compile(context.Background(), tree, compiler.Options{Sheets: []sheets.Kind{sheets.CostCard}})
	require.Len(t, r.Documents, 1)
	s := r.Documents[0].Sheets[0]
	got := map[string]string{}
	for _, g := range s.Blocks[0].(*sheets.Table).Groups {
		for _, row := range g.Rows {
			var cells []string
			for _, c := range row.Cells[1:] {
				for _, run := range c.Runs {
					cells = append(cells, run.Text)
				}
			}
			got[strings.TrimSpace(g.Title+" "+cells[0])] = strings.TrimSpace(strings.Join(cells[1:], " "))
		}
	}
	require.Equal(t, map[string]string{
		"What is used White tin loaf":                    "12 4.88 0.41",
		"What is used Seeded rye round":                  "8 5.94 0.74",
		"What is used Morning rolls":                     "48 4.50 0.09",
		"What is used The meal, and a cover":             "24 15.32 0.64",
		"Bases Overnight ferment":                        "1.62",
		"What is paid at the till The meal, and a cover": "24 18.62 0.78",
	}, got)
}
