package check

import (
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"tamis/compiler/load"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
	"tamis/lang/quantity"
)

// recipe resolves the only block of a text.
func recipe(t *testing.T, text string) *resolve.Recipe {
	t.Helper()
	tree, err := load.FS(fstest.MapFS{"x.tamis": &fstest.MapFile{Data: []byte(text)}}, ".", "", "")
	require.NoError(t, err)
	var d diag.List
	m := resolve.Build(tree, &d)
	require.False(t, d.HasErrors(), "%v", d.Sorted())
	require.NotEmpty(t, m.Recipes)
	return m.Recipes[0]
}

// The most that a line can weigh, worked out by hand; the weights of pieces
// are those of the folder's own larder, so that no table can change them.
func TestGramsAtMost(t *testing.T) {
	r := recipe(t, `larder
  units metric
  turnip | piece 120 g
  thin syrup | weighs 1.3 g per ml

dish Pot
  serves 4
  gather
    3 turnips
    200 to 250 g leeks
    100 ml thin syrup
    100 ml something unheard of
    2 x 400 g tins plum tomatoes
    4 sprigs thyme
    2 things unheard of
`)
	want := []struct {
		grams int64
		known bool
	}{{360, true}, {250, true}, {130, true}, {145, true}, {800, true}, {60, true}, {0, false}}
	require.Len(t, r.Lines, len(want))
	for i, w := range want {
		g, ok := gramsAtMost(r.Lines[i], *r.Lines[i].Quantity)
		require.Equal(t, w.known, ok, r.Lines[i].Name)
		if ok && i != 5 { // a sprig of thyme is in the built-in table
			require.Equal(t, quantity.Int(w.grams).String(), g.String(), r.Lines[i].Name)
		}
	}
}

// Pieces of our own making weigh what their block says, whatever the larder
// knows by that name.
func TestGramsOfOwnPieces(t *testing.T) {
	r := recipe(t, `dish Tray
  serves 4
  gather
    4 eggs
    6 onions

base Eggs
  makes 12 pieces, 90 g each

base Onions
  makes 12 pieces
`)
	g, ok := gramsAtMost(r.Lines[0], *r.Lines[0].Quantity)
	require.True(t, ok)
	require.Equal(t, "360", g.String())
	_, ok = gramsAtMost(r.Lines[1], *r.Lines[1].Quantity)
	require.False(t, ok)
}

// The chain of a method at its shortest, worked out by hand: 10 min of work and
// 30 of leaving, beside which 35 min are done; then what waits for neither.
func TestChain(t *testing.T) {
	r := recipe(t, `dish Pot
  serves 4
  gather
    600 g leeks, sliced | work 7 min
  method
    - Stew the leeks, covered. | ring low | work 10 min | leave 30 to 40 min
    - Lay the table. | meanwhile | work 35 min
    - Stir every now and then. | ring low | work 1 min every 5 min | leave 20 min
    - Soak. | any time | leave 50 min
    - Loosen. | only if needed | work 30 min
    - Serve. | work 2 min, up to 3 min
`)
	// Step 6 waits for step 4, the step before it: 50 + 2; the longest way is 40 + 20.
	require.Equal(t, "1 h", lengthOf(chain(r)))
	// 7 + 10 + 35 + 2; what is done again and again is no time of its own.
	require.Equal(t, "54 min", lengthOf(hands(r, true, true)))
}
