package demand_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler/demand"
)

// bayMilk is a milk made for one dish and finished in another. Written for six:
// 1.2 litres made, 300 ml in the layers, and the greens have a share.
func bayMilk(covers, greens, batches string) string {
	return strings.NewReplacer("COVERS", covers, "SHARE", greens, "BATCHES", batches).Replace(`menu M
  covers COVERS
  course C
    Layers
    Greens
base Bay milk
  makes 1.2 litres
  BATCHES
  gather
    1.25 litres milk
  method
    - Warm the milk.
dish Layers
  serves 6
  gather
    300 ml   bay milk
  method
    - Pour on the bay milk.
dish Greens
  serves 6
  gather
    SHARE bay milk
  method
    - Stir in the bay milk.
`)
}

// By hand. The base is made over as often as the greens, 14/6; the layers take
// 300 ml × 14/6 = 700 ml of 2800 ml, so 2100 ml are the rest; half is 1400 ml,
// and 700 ml are left over.
func TestTheRestOfABase(t *testing.T) {
	tests := []struct {
		name, share, covers, batches string
		made, greens, left           float64 // ml
	}{
		{name: "the rest", share: "the rest of the", covers: "14", made: 2800, greens: 2100},
		{name: "at the written size", share: "rest of the", covers: "6", made: 1200, greens: 900},
		{name: "half", share: "half the", covers: "14", made: 2800, greens: 1400, left: 700},
		// 1.17 batches become 2: 2400 ml less 350 ml
		{name: "whole batches", share: "the rest of the", covers: "7", batches: "whole batches", made: 2400, greens: 2050},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			ms, ds := meals(t, bayMilk(tt.covers, tt.share, tt.batches), demand.Options{})
			require.Empty(t, codes(ds))
			s := ms[0].Supplies[0]
			require.InDelta(t, tt.made, s.Made.Value.High.Float(), 1e-6)
			require.InDelta(t, tt.left, s.Left.Value.High.Float(), 1e-6)
			greens := ms[0].Makings[2].Lines[0]
			require.InDelta(t, tt.greens, greens.Quantity.Value.High.Float(), 1e-6)
			require.Same(t, ms[0].Makings[0], greens.Source)
		})
	}
}

// Where the others want more than the written size gives, the base grows for
// them: 1.8 litres and half as much again as both, since half goes elsewhere.
func TestABaseGrowsRoundAShare(t *testing.T) {
	text := strings.Replace(bayMilk("6", "half the", ""), "300 ml  ", "1.8 litres", 1)
	ms, ds := meals(t, text, demand.Options{})
	require.Empty(t, codes(ds))
	s := ms[0].Supplies[0]
	require.InDelta(t, 3600, s.Made.Value.High.Float(), 1e-6)
	require.InDelta(t, 1800, ms[0].Makings[2].Lines[0].Quantity.Value.High.Float(), 1e-6)
	require.Zero(t, s.Left.Value.High.Sign())
}

// A share of what comes off a roast is a share of what there is.
func TestTheRestOfAByProduct(t *testing.T) {
	ms, ds := meals(t, `menu M
  covers 8
  course C
    Roast
    Potatoes
    Greens
dish Roast
  serves 4
  gather
    2 kg     goose
  method
    - Roast the goose.
      | makes 200 g goose fat
dish Potatoes
  serves 8
  gather
    150 g    goose fat
  method
    - Fry in the goose fat.
dish Greens
  serves 8
  gather
    the rest of the goose fat
  method
    - Wilt the greens in the goose fat.
`, demand.Options{})
	require.Empty(t, codes(ds))
	greens := ms[0].Makings[2].Lines[0]
	require.InDelta(t, 250, greens.Quantity.Value.High.Float(), 1e-6, "2 × 200 g less 150 g")
	require.Equal(t, []string{"the rest of the goose fat: 250 g of 400 g made"}, greens.How)
}

// A dish that is served twice has its half once, parted between the two. By
// hand: made 2 and 1 times, the base is made 3 times, 3.6 litres, and half of it
// is parted as 1200 ml and 600 ml; the layers take 900 ml.
func TestAShareOfADishServedTwice(t *testing.T) {
	for _, test := range []struct {
		share         string
		first, second float64
	}{
		{"half the", 1200, 600},
		{"the rest of the", 1800, 900},
	} {
		text := strings.Replace(bayMilk("18", test.share, ""), "    Greens\n", "    Greens, for 12\n    Greens, for 6\n", 1)
		ms, ds := meals(t, text, demand.Options{})
		require.Empty(t, codes(ds), test.share)
		require.InDelta(t, 3600, ms[0].Supplies[0].Made.Value.High.Float(), 1e-6, test.share)
		require.Equal(t, test.first, ms[0].Makings[2].Lines[0].Quantity.Value.High.Float(), test.share)
		require.Equal(t, test.second, ms[0].Makings[3].Lines[0].Quantity.Value.High.Float(), test.share)
	}
}
