package demand_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler/demand"
)

// Rules of thumb of the trade; common practice, no source for any of them.

// One large potato a cover, and one for the pot.
func TestOneEachPlusOne(t *testing.T) {
	text := `menu M
  covers 14
  course C
    Mash
dish Mash
  serves 4
  gather
    1 per cover plus 1 potatoes
  method
    - Boil the potatoes.
`
	ms, ds := meals(t, text, demand.Options{})
	require.Empty(t, codes(ds))
	require.Equal(t, "15", amount(t, making(t, ms[0], "Mash"), "potatoes"))
}

// Three cloves of garlic flavour 500 ml of cream, whatever the number.
func TestGarlicToCream(t *testing.T) {
	text := `menu M
  covers 12
  course C
    Fondue
dish Fondue
  serves 6
  gather
    500 ml   double cream
    3 cloves garlic
  method
    - Infuse the garlic in the double cream.
`
	for covers, want := range map[int][2]string{6: {"500", "3"}, 12: {"1000", "6"}, 30: {"2500", "15"}} {
		ms, ds := meals(t, text, demand.Options{Covers: covers})
		require.Empty(t, codes(ds))
		require.Equal(t, want, [2]string{amount(t, making(t, ms[0], "Fondue"), "double cream"), amount(t, making(t, ms[0], "Fondue"), "garlic")})
	}
}

// A large tray serves 12 to 16: for any number in between one is made as it is written;
// for more, 16 are fed by each.
func TestALargeTray(t *testing.T) {
	text := `menu M
  covers 24
  course C
    Tray bake
dish Tray bake
  serves 12 to 16
  gather
    2 kg     roots xx
  method
    - Roast the roots xx.
`
	for covers, grams := range map[int]string{12: "2000", 14: "2000", 16: "2000", 24: "3000"} {
		ms, ds := meals(t, text, demand.Options{Covers: covers})
		require.Empty(t, codes(ds))
		require.Equal(t, grams, amount(t, making(t, ms[0], "Tray bake"), "roots xx"), "for %d", covers)
	}
}
