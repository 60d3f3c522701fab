package compiler_test

import (
	"context"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"tamis/compiler"
	"tamis/compiler/load"
)

// guarded says whether a sentence, after others, is asked about because of a word of which
// nothing was made.
func guarded(t *testing.T, sentences ...string) bool {
	text := "dish Trial\n  serves 4\n  units metric\n  gather\n    600 g leeks\n    200 g butter\n    6 eggs\n    500 ml cream\n    2 x 400 g tins beans\n    4 lemons\n  method\n"
	for _, s := range sentences {
		text += "    - " + s + "\n"
	}
	tree, err := load.FS(fstest.MapFS{"trial.tamis": {Data: []byte(text)}}, ".", "", "")
	require.NoError(t, err)
	for d := range compiler.Compile(context.Background(), tree, compiler.Options{NoPlan: true, NoPages: true}).Diags.All() {
		if d.Code == "U223" {
			return true
		}
	}
	return false
}

// A word that can change an amount, and of which the reading makes nothing, is asked about.
func TestWordsThatChangeAnAmountAreAskedAbout(t *testing.T) {
	for _, s := range [][]string{
		{"Slice half the leeks, and fry the others."},
		{"Add 20 g of the butter per leek."},
		{"If you like, the juice of a lemon."},
		{"Perhaps stir in the cream."},
		{"Beat in the eggs, four at most."},
		{"Add the second lemon."},
		{"Use no eggs to begin with, then whisk the same of cream and butter."},
		{"Never put in more than four eggs."},
		{"Cut two of the lemons in wedges, eight from each; squeeze the remaining pair."},
		{"Dress with cream and lemon in the proportion of three to one."},
		{"If the eggs are small use all six, otherwise five."},
		{"Add an egg, then a spoonful of cream, and so on until all is in."},
		{"Strew the leeks over, except such as are wanted for the top."},
		{"Use half the cream now and the other half once it has cooled."},
		{"Slice the lemons, or use just half."},
		{"Finish with the cream, more than you think."},
		{"Pour in the cream until it tastes right.", "Warm the butter, and put in the cream until it tastes right."},
		{"Don't pour in all the cream at once."},
		{"Drain the beans, and mash one of the tins."},
		{"Scatter over the leeks, though not all."},
		{"Pour in the cream, or none."},
		{"Add 50 g of the butter, and a little more."},
		{"Brush with the cream (keep a spoonful)."},
		{"Stir in the cream, without the last spoonful."},
		{"Three eggs would do at a pinch."},
		{"Pour over the cream, if liked."},
		{"Beat in twice two eggs."},
		{"Don't be shy with the butter, but do keep back 20 g."},
		{"The cream wants to cover the leeks, so you may not need it all."},
		{"Two lemons in the pot, two squeezed over."},
		{"Some of the cream may be left out."},
		{"Twice the butter may be used."},
	} {
		require.True(t, guarded(t, s...), "%q", s)
	}
}

// The same words where they change nothing, or where the reading made something of them.
func TestWordsThatChangeNothingAreNotAskedAbout(t *testing.T) {
	for _, s := range [][]string{
		{"Slice the leeks, turn them over and fry the other side."},
		{"Fry the leeks in the butter for 5 minutes more, or until soft."},
		{"Whisk the cream twice, for at least 4 minutes each time."},
		{"Sweat the leeks in half the butter; if they catch, lower the heat."},
		{"Beat in the eggs one at a time, each with a little flour, but do not let it split."},
		{"Divide the leeks into four equal parts."},
		{"Put in half the leeks.", "Add the remaining leeks and cook as before."},
		{"Bring the cream to the boil again, first stirring it as much as you can."},
		{"Chop most of the leeks, leaving a few whole."},
		{"As much as you can, keep the cream from the boil."},
		{"Until it thickens, whisk the cream."},
		{"Fry the leeks w two-thirds of the butter."},
		{"Till the leeks are soft, stir them."},
		{"Leave the leeks for the same time as the beans."},
		{"Until it is thick, pour in the cream."},
	} {
		require.False(t, guarded(t, s...), "%q", s)
	}
}
