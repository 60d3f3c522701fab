package compiler_test

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// "The vegetables" leaves alone what a later step takes up raw by its own name.
func TestAClassLeavesWhatALaterStepBegins(t *testing.T) {
	gather := "    600 g lamb mince\n    1 onion\n    2 carrots\n    1 swede\n    1 kg potatoes\n"
	for _, c := range []struct{ later, takenFirst string }{
		{"Boil the potatoes and mash them.", "onion carrots swede"},
		{"Lay the potatoes over the top.", "onion carrots swede"},
		{"Peel the potatoes and the carrots and roast them.", "onion swede"},
		{"Serve with the carrots on top.", "onion carrots swede potatoes"},
		{"Simmer until the potatoes are tender.", "onion carrots swede potatoes"},
	} {
		r := readOf(t, gather, "    - Brown the mince, add the vegetables.\n      | work 10 min\n    - "+c.later+"\n      | work 10 min\n")
		got := ""
		for _, take := range r.Model.Recipes[0].Reading.Steps[0].Takes {
			if take.Line != nil && take.Line.Name != "lamb mince" && !take.Refers {
				if got != "" {
					got += " "
				}
				got += take.Line.Name
			}
		}
		require.Equal(t, c.takenFirst, got, c.later)
	}
}
