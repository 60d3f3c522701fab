package compiler_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler"
	"tamis/compiler/demand"
	"tamis/compiler/sheets"
)

// What is sold by the dozen is bought so, with the least over; 1 or 2 litres are two sizes;
// the cost card says for how many in whole and half portions.
func TestPacksOfWhatIsCounted(t *testing.T) {
	const text = `larder
  eggs | price 0.20 each | packs 6 or 10
  dinner rolls | packs 12
  apple juice | packs 1 or 2 litres
menu Lunch
  covers 25, 3 children
  course Main
    Plate
dish Plate
  serves 6
  gather
    3        eggs
    8        dinner rolls
    600 ml   apple juice
  method
    - Boil the eggs for 10 minutes and serve with the dinner rolls and the apple juice.
      | ring high | watch 10 min | core 75 C
`
	m := compiled(t, tried{text: text, opt: compiler.Options{Sheets: []sheets.Kind{sheets.Shopping, sheets.CostCard}}})
	said := m.words(sheets.Shopping) // 26 1/2 portions: 13 1/4 eggs, 35 1/3 rolls, 2.65 litres
	require.Regexp(t, `3 boxes eggs A of 6 13 needed, 5 spare`, said)
	require.Regexp(t, `3 packets dinner rolls A of 12`, said)
	require.Regexp(t, `3 cartons apple juice A of 1 litre`, said)
	require.Contains(t, m.words(sheets.CostCard), "26 1/2")

	m = compiled(t, tried{text: text, opt: compiler.Options{Demand: demand.Options{Covers: 38}, Sheets: []sheets.Kind{sheets.Shopping}}})
	require.Regexp(t, `2 boxes eggs A of 10`, m.words(sheets.Shopping)) // 19 eggs
}
