package demand_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler/demand"
)

// A dish for 8 to 10 is made as written for 8, 9 and 10, from 8 below and from 10 above.
func TestServesARange(t *testing.T) {
	for covers, leeks := range map[int]string{4: "500", 7: "875", 8: "1000", 9: "1000", 10: "1000", 11: "1100", 20: "2000"} {
		ms, ds := meals(t, fmt.Sprintf("menu M\n  covers %d\n  course C\n    Stew\ndish Stew\n  serves 8 to 10\n  gather\n    1 kg     leeks\n  method\n    - Cook the leeks.\n      | work 5 min\n", covers), demand.Options{})
		require.Empty(t, codes(ds))
		require.Equal(t, leeks, amount(t, making(t, ms[0], "Stew"), "leeks"), "%d covers", covers)
	}
}

// `makes nearly` counts as said, with a hint where more than nine tenths is drawn;
// `about` says nothing.
func TestMakesNearly(t *testing.T) {
	for _, c := range []struct {
		makes string
		drawn int
		hint  bool
	}{{"nearly 1 litre", 400, true}, {"about 1 litre", 400, false}, {"1 litre", 400, false}, {"nearly 1 litre\n  whole batches", 900, false}, {"nearly 1 litre\n  whole batches", 901, true}} {
		ms, ds := meals(t, fmt.Sprintf("menu M\n  covers 4\n  course C\n    Stew\ndish Stew\n  serves 4\n  gather\n    %d ml   stock\n  method\n    - Warm the stock.\n      | work 5 min\nbase Stock\n  makes %s\n  keeps 2 days, fridge\n  gather\n    1 kg     bones xx\n  method\n    - Simmer the bones xx.\n      | work 5 min\n", c.drawn, c.makes), demand.Options{})
		require.Equal(t, c.hint, len(codes(ds)) == 1, "%s: %v", c.makes, ds)
		if c.makes == "nearly 1 litre" {
			require.Equal(t, "400", amount(t, making(t, ms[0], "Stock"), "bones xx"))
		}
	}
}
