package compiler_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler"
	"tamis/compiler/demand"
	"tamis/compiler/sheets"
	"tamis/lang/quantity"
)

const pastry = `dish Rounds
  serves 4
  units metric
  gather
    500 g    shortcrust pastry
    4        carrots, in 2 cm dice
    3 tins   peaches
    90 g     butter (3 oz)
    1        leg of lamb (about 2 kg)
    4        chicken thighs (about 150 g each)
    2        onions (300 g)
    1 jar    mustard (small)
  method
    - Roll the shortcrust pastry 3 mm thick and cut 5 cm rounds; stamp out 6 cm (2 1/2 inch) circles, and divide into 8 strips 2 cm wide.
      | work 5 min
    - Slice the carrots into 5-mm coins; shape into 2-inch balls.
      | work 5 min
`

// A length is no yield: it is as it was written at any size; in other units only where
// they were asked for, and not where both are said. A measure in brackets behind a name is
// scaled with it; of one thing it is that of each; what is each stays.
func TestLengthsAndBracketsAtAnySize(t *testing.T) {
	for _, c := range []struct {
		covers int
		units  quantity.System
		want   []string
	}{
		{0, "", []string{"3 mm thick and cut 5 cm rounds; stamp out 6 cm (2 1/2 inch) circles, and divide into 8 strips 2 cm wide", "into 5-mm coins; shape into 2-inch balls", "in 2 cm dice", "butter, 3 oz", "leg of lamb, about 2 kg", "onions, 300 g", "3 tins"}},
		{10, "", []string{"3 mm thick and cut 5 cm rounds; stamp out 6 cm (2 1/2 inch) circles, and divide into 20 strips 2 cm wide", "into 5-mm coins; shape into 2-inch balls", "butter, 7 1/2 oz", "legs of lamb, about 2 kg each", "chicken thighs, about 150 g each", "onions, 750 g", "8 tins peaches or 7 1/2", "3 jars mustard, small use 2 1/2"}},
		{10, quantity.US, []string{"1/8 inch thick and cut 2 inch rounds; stamp out 6 cm (2 1/2 inch) circles, and divide into 20 strips 3/4 inch wide", "into 3/16-inch coins; shape into 2-inch balls", "in 3/4 inch dice", "[ ] 8 oz butter [ ]", "about 4 lb 6 1/2 oz each"}},
		{10, quantity.Metric, []string{"3 mm thick", "into 5-mm coins; shape into 5-cm balls", "[ ] 225 g butter [ ]"}},
	} {
		m := compiled(t, tried{text: pastry, opt: compiler.Options{Units: c.units, Demand: demand.Options{Covers: c.covers}, Sheets: []sheets.Kind{sheets.Prep}}})
		said := m.words(sheets.Prep)
		for _, w := range c.want {
			require.Contains(t, said, w, "for %d, in %q", c.covers, c.units)
		}
	}
}
