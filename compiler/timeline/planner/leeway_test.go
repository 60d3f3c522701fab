package planner

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler/events"
	"tamis/render/plantext"
)

// What two guests more cost, by hand. Ten min of frying a kilogram of onions, six kilograms
// for 12: for 14 it is seven, ten minutes more. What only stands for its own time costs
// nothing, and what fills both shelves of an oven goes in twice, if it
// may go in turns.
func TestTwoMorePlates(t *testing.T) {
	menu := func(kitchen, step string) string {
		return writtenMenu("  cooks A\n  rings 4\n"+kitchen, "  course Main\n    Stew\n", strings.Replace(
			writtenDish("Stew", "    6 kg onions\n", "hot, within 5 min", step), "serves 6", "serves 12", 1))
	}
	for _, c := range []struct{ kitchen, step, say string }{
		{"", "Fry the onions. | ring low | work 10 min per 1 kg onions", "Two more plates cost 10 min: Main would be late by that much at most."},
		{"", "Watch the onions. | ring low | watch 60 min", "Two more plates make nothing late."},
		{"  oven main, 2 shelves, preheat 10 min\n", "Bake the onions. | oven 200 C, 2 shelves | work 2 min | leave 20 min", "Two more plates do not fit: step 1 of Stew (Bake the onions) wants 3 shelves, and K has 2."},
		{"  oven main, 2 shelves, preheat 10 min\n", "Bake the onions. | oven 200 C, 2 shelves | work 2 min | leave 20 min per load", "Two more plates want one more load: Bake the onions."},
		{"  vessel pot, 2\n", "Boil the onions. | ring low | in 2 pots | work 2 min | leave 20 min", "Two more plates do not fit: step 1 of Stew (Boil the onions) wants 3 pots, and K has 2."},
	} {
		text := menu(c.kitchen, c.step)
		line := plannedText(t, text)
		require.Zero(t, line.Late, text)
		require.Equal(t, c.say, line.Leeway, c.step)
		require.Contains(t, plantext.RunSheet(events.Of(line), 1), "\n"+c.say+"\n")
	}
}
