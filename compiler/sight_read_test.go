package compiler_test

import (
	"context"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"tamis/compiler"
	"tamis/compiler/load"
	"tamis/compiler/resolve"
)

// taken is what the last of these sentences takes of a line of the list; nil for nothing.
func taken(t *testing.T, name string, sentences ...string) *resolve.Take {
	text := "dish Trial\n  serves 4\n  units metric\n  gather\n    600 g flour\n    200 g butter\n    6 eggs\n    500 ml port\n    3 x 400 g tins beans\n    1 bunch basil\n    300 g pasta\n    100 g walnuts\n  method\n"
	for _, s := range sentences {
		text += "    - " + s + "\n"
	}
	tree, err := load.FS(fstest.MapFS{"trial.tamis": {Data: []byte(text)}}, ".", "", "")
	require.NoError(t, err)
	r := compiler.Compile(context.Background(), tree, compiler.Options{NoPlan: true, NoPages: true})
	steps := r.Model.Recipes[0].Reading.Steps
	for _, k := range steps[len(steps)-1].Takes {
		if k.Line != nil && k.Line.Name == name && !k.Refers {
			return &k
		}
	}
	return nil
}

// What only the cook can tell is some of a thing: the rest of it is still there.
func TestSomeOfIsAsMuchAsTheCookSees(t *testing.T) {
	for s, name := range map[string]string{
		"Add port until it colours.":                             "port",
		"Put in flour enough to bind it.":                        "flour",
		"Add port, a spoonful at a time, to taste.":              "port",
		"Work in flour till it no longer sticks to the hand.":    "flour",
		"Make a paste with butter the size of two walnuts.":      "butter",
		"Squeeze in port, a little at first.":                    "port",
		"Add the stalks of the basil.":                           "basil",
		"Beat in the port by the ladleful, as much as it takes.": "port",
		"Fry the basil stalks.":                                  "basil",
		"Stir in two good spoonfuls of port, as much as it can":  "port",
	} {
		k := taken(t, name, s)
		require.NotNil(t, k, s)
		require.True(t, k.Unmeasured, s)
	}
	for s, name := range map[string]string{
		"Put the basil inside.":                      "basil",
		"Beat in the butter until pale.":             "butter",
		"Add the port and boil until it is syrupy.":  "port",
		"Add flour until it holds, 600 g.":           "flour",
		"Roll the dough with the butter inside out.": "butter",
	} {
		k := taken(t, name, s)
		require.NotNil(t, k, s)
		require.True(t, k.All, s)
	}
}

// What a thing is only likened to, or was cooked in, is not taken.
func TestLikenedThingsAreNotTaken(t *testing.T) {
	require.Nil(t, taken(t, "walnuts", "Roll it into balls the size of a walnut."))
	require.Nil(t, taken(t, "port", "Stew it in its own port."))
	require.Nil(t, taken(t, "pasta", "Save a mug of the pasta water."))
	require.Nil(t, taken(t, "flour", "Grease the tin, flour it and chill."))
	require.Nil(t, taken(t, "port", "Reserve the port."))
}

// Amounts that correct, or go on from, what the sentence said before.
func TestAmountsThatGoOnFromWhatWasSaid(t *testing.T) {
	parts := func(name string, s ...string) string { return taken(t, name, s...).Part.String() }
	require.Equal(t, "1/2", parts("eggs", "Break in three of the eggs, whites and yolks together."))
	require.Equal(t, "1", parts("beans", "Open three of the tins first."))
	require.Equal(t, "1/2", parts("butter", "Add half the flour, half the butter, then the rest of each."))
	require.Equal(t, "9/10", parts("walnuts", "Fold in the walnuts and the basil, all but 10 g of the walnuts."))
	require.Equal(t, "3/8", parts("flour", "Rub in a quarter of the flour.", "Dust with half of what flour is left."))
}
