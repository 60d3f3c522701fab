package hazard_test

import (
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"tamis/compiler/hazard"
	"tamis/compiler/load"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

// What an earlier part froze raw is cooked for the first time in a later one; what it
// cooked is brought back.
func TestRawFoodOfAnEarlierPartIsNotReheated(t *testing.T) {
	warms := func(first string) bool {
		text := "series Evenings\n  part 1 One\n    shows Parcel\n  part 2 Two\n    shows Supper\n" +
			"base Parcel\n  makes 1 kg\n  keeps 4 weeks, freezer\n  gather\n    1 kg     chicken thighs\n    20 ml    olive oil\n  method\n" + first +
			"dish Supper\n  serves 4\n  gather\n    1 kg     parcel   | made in part 1\n  method\n" +
			"    - Lay the parcel out to thaw.\n      | work 3 min | thaw 12 h, fridge\n    - Grill it.\n      | grill high | watch 20 min | core 75 C\n"
		tree, err := load.FS(fstest.MapFS{"a.tamis": {Data: []byte(text)}}, ".", "", "")
		require.NoError(t, err)
		diags := &diag.List{}
		m := resolve.Build(tree, diags)
		require.False(t, diags.HasErrors(), "%v", diags.Sorted())
		for _, st := range hazard.NewTracer().Recipe(m.Recipes[1]).Stages {
			if st.Warms {
				return true
			}
		}
		return false
	}
	require.False(t, warms("    - Rub the chicken thighs with the olive oil, and freeze.\n      | freezer | work 5 min\n"))
	require.True(t, warms("    - Roast the chicken thighs with the olive oil.\n      | heat 200 C | leave 40 min\n    - Cool.\n      | leave 30 min\n"))
}
