package demand_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler/demand"
	"tamis/lang/quantity"
)

const roast = `menu Lunch
  covers 12
  course Main
    Roast
    Greens
dish Roast
  serves 6
  gather
    2.4 kg   shoulder xx
    300 ml   gravy
  method
    - Roast everything.
dish Greens
  serves 6, 150 g each
  gather
    900 g    greens xx
    100 ml   gravy
  method
    - Boil everything.
base Gravy
  makes 1 litre
  gather
    200 g    flour xx
  method
    - Whisk the flour xx.
`

// "I have 3.2 kg of shoulder": everything else follows.
func TestFitToWhatIsOnHand(t *testing.T) {
	ms, ds := meals(t, roast, demand.Options{Fit: []demand.Wanted{{Name: "shoulder xx", Quantity: quantity.Grams(quantity.Int(3200))}}})
	require.Empty(t, codes(ds))
	m := ms[0]
	require.Equal(t, "3200", amount(t, making(t, m, "Roast"), "shoulder xx"), "it is just used up")
	require.Equal(t, "1200", amount(t, making(t, m, "Greens"), "greens xx"), "two thirds of 1800 g")
	require.Equal(t, "1600/3", making(t, m, "Gravy").Supply.Drawn.Value.High.String(), "400 ml and 133 1/3 ml")
	require.Equal(t, "8", making(t, m, "Roast").Portions.String())
}

func TestTheScarcestRules(t *testing.T) {
	ms, _ := meals(t, roast, demand.Options{Fit: []demand.Wanted{
		{Name: "shoulder xx", Quantity: quantity.Grams(quantity.Int(9600))},
		{Name: "greens xx", Quantity: quantity.Grams(quantity.Int(900))},
	}})
	require.Equal(t, "900", amount(t, making(t, ms[0], "Greens"), "greens xx"))
	require.Equal(t, "2400", amount(t, making(t, ms[0], "Roast"), "shoulder xx"))
}

func TestFitToWhatNothingUses(t *testing.T) {
	_, ds := meals(t, roast, demand.Options{Fit: []demand.Wanted{{Name: "swan", Quantity: quantity.Grams(quantity.Int(1))}}})
	require.Equal(t, []string{"D108"}, codes(ds))
}

// Armed Forces recipe service, general information on standardized recipes
// (entry by portion size): new size ÷ written size × portions.
func TestPortionsOfAnotherSize(t *testing.T) {
	ms, ds := meals(t, roast, demand.Options{Portions: []demand.Wanted{{Name: "greens", Quantity: quantity.Grams(quantity.Int(100))}}})
	require.Empty(t, codes(ds))
	require.Equal(t, "1200", amount(t, making(t, ms[0], "Greens"), "greens xx"), "1800 g × 100/150")
	require.Equal(t, "4800", amount(t, making(t, ms[0], "Roast"), "shoulder xx"), "the other dish stays")

	_, ds = meals(t, roast, demand.Options{Portions: []demand.Wanted{{Name: "roast", Quantity: quantity.Grams(quantity.Int(100))}}})
	require.Equal(t, []string{"D109"}, codes(ds), "it does not say how large a portion is")
}
