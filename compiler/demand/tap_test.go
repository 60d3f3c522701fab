package demand_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler/demand"
)

// One pot of celeriac, drawn on at two moments: half the slices come out firm,
// the rest cook on. In the written size 1.2 kg firm and 1.3 kg soft.
const twoMoments = `base Boiled celeriac
  makes 1.3 kg
  gather
    3 kg     celeriac, peeled, sliced
  method
    - Boil the celeriac.
      | ring high | leave 12 min
      at 6 min: Lift out half of the slices.
        | sets aside 1.2 kg firm celeriac
    - Drain the rest.
      | work 2 min
dish Tray
  serves 6
  gather
    FIRM     firm celeriac
  method
    - Roast the firm celeriac.
dish Layers
  serves 6
  gather
    SOFT     boiled celeriac
  method
    - Layer the celeriac.
`

// A base is made over for whatever of it is wanted most, and what is then over
// of the rest is named. For 12, by hand:
func TestABaseIsMadeForEverythingDrawnFromIt(t *testing.T) {
	tests := []struct {
		name, firm, soft         string
		factor                   float64
		raw, firmLeft, softLeft  float64 // g
		onlyTray, withoutMeasure bool
	}{
		// 2 × 600 g / 1.2 kg = 1, 2 × 780 g / 1.3 kg = 1.2: the soft part decides
		{name: "its own yield decides", firm: "600 g", soft: "780 g", factor: 1.2, raw: 3600, firmLeft: 240, softLeft: 0},
		// 2 × 900 g / 1.2 kg = 1.5, 2 × 650 g / 1.3 kg = 1: the firm part decides
		{name: "what is drawn at six minutes decides", firm: "900 g", soft: "650 g", factor: 1.5, raw: 4500, firmLeft: 0, softLeft: 650},
		{name: "only the firm part is wanted", firm: "900 g", soft: "650 g", onlyTray: true, factor: 1.5, raw: 4500, firmLeft: 0, softLeft: 1950},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			text := "menu M\n  covers 12\n  course C\n    Tray\n"
			if !tt.onlyTray {
				text += "    Layers\n"
			}
			ms, ds := meals(t, text+replace(twoMoments, "FIRM ", tt.firm, "SOFT ", tt.soft), demand.Options{})
			require.Empty(t, codes(ds))
			base := ms[0].Makings[0]
			require.Equal(t, "Boiled celeriac", base.Recipe.Name)
			require.InDelta(t, tt.factor, base.Factor.Float(), 1e-9)
			require.InDelta(t, tt.raw, base.Lines[0].Quantity.Value.High.Float(), 1e-6)
			for _, s := range ms[0].Supplies {
				want := tt.softLeft
				if s.Product != nil {
					want = tt.firmLeft
				}
				require.InDelta(t, want, s.Left.Value.High.Float(), 1e-6, s.Name)
			}
		})
	}
}

// A base without `makes` is made for its by-products alone.
func TestABaseOfByProducts(t *testing.T) {
	ms, ds := meals(t, `menu M
  covers 12
  course C
    Tray
base Rendered fat
  gather
    1 kg     goose skin
  method
    - Melt the goose skin slowly.
      | makes 300 ml goose fat
    - Eat the crackling.
dish Tray
  serves 6
  gather
    75 ml    goose fat
  method
    - Roast in the goose fat.
`, demand.Options{})
	require.Empty(t, codes(ds))
	require.InDelta(t, 0.5, ms[0].Makings[0].Factor.Float(), 1e-9, "150 ml of 300")
}

// What the base itself uses of it comes off first: of 600 g a batch it keeps
// 100 g, so 1 kg takes two batches.
func TestABaseKeepsItsOwnShare(t *testing.T) {
	ms, ds := meals(t, `menu M
  covers 6
  course C
    Tray
    Soup
base Slow onions
  makes 500 g
  gather
    2 kg     onions
  method
    - Cook the onions.
      | sets aside 600 g golden onions
    - Cook on, and stir 100 g of the golden onions back in.
dish Tray
  serves 6
  gather
    1 kg     golden onions
  method
    - Spread the golden onions.
dish Soup
  serves 6
  gather
    100 g    slow onions
  method
    - Warm the slow onions.
`, demand.Options{})
	require.Empty(t, codes(ds))
	require.InDelta(t, 2, ms[0].Makings[0].Factor.Float(), 1e-9)
}

func replace(text string, pairs ...string) string { return strings.NewReplacer(pairs...).Replace(text) }
