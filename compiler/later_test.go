package compiler_test

import (
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"

	"tamis/compiler"
)

// What waits before the cold waits warm, and what waits in the cold is cold: by where the
// time stands in the sentence.
func TestWaitsBeforeTheCold(t *testing.T) {
	alarmed := func(step string) bool {
		text := fmt.Sprintf("dish Rice salad\n  rules UK\n  serves 4\n  gather\n    400 g rice\n    1 litre water\n  method\n    - Boil the rice in the water.\n      | ring high | leave 12 min\n    - %s\n  serve cold\n", step)
		codes := codesOf(compileText(t, text, compiler.Options{NoPlan: true, NoPages: true}))
		t.Log(step, codes)
		return slices.Contains(codes, "S118") || slices.Contains(codes, "S109") // kept out, or cooled too slowly
	}
	for _, warm := range []string{
		"Leave it on the side for five hours before it goes in the fridge.\n      | leave 5 h",
		"Leave it for five hours before chilling.\n      | leave 5 h",
		"Let it stand for 5 hours, then chill.\n      | leave 5 h",
		"Let it stand five hours and then put it in the fridge.\n      | leave 5 h",
		"Let it stand for 5 hours until it is cool enough, then into the freezer.\n      | leave 5 h",
		"Leave it out for 5 hours; after that refrigerate it.\n      | leave 5 h",
		"Before chilling, leave it on the side for five hours.\n      | leave 5 h",
		"Leave it 5 hours prior to refrigerating.\n      | leave 5 h",
		"Leave it for 5 hours, afterwards chill it.\n      | leave 5 h",
	} {
		assert.True(t, alarmed(warm), warm)
	}
	for _, cold := range []string{
		"Chill it for five hours before it goes in the freezer.\n      | leave 5 h",
		"Let it stand briefly, then chill for 5 hours.\n      | leave 5 h",
		"Leave it for 5 hours in the fridge.\n      | leave 5 h",
		"Divide it, afterwards chill for 5 hours.\n      | leave 5 h",
		"Leave it in the fridge for 5 hours, then turn it out next to the freezer.\n      | leave 5 h",
		"Chill it for 5 hours, then turn it out.\n      | leave 5 h",
		"Refrigerate for 5 hours.\n      | leave 5 h",
	} {
		assert.False(t, alarmed(cold), cold)
	}
}
