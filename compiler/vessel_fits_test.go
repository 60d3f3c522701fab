package compiler_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"

	"tamis/lang/diag"
)

// What is scaled is asked about where its vessel no longer holds it: by weight, by pieces
// that are weighed, and a mixture of the step above; not what a step in between pours off.
func TestWhatIsScaledStillFits(t *testing.T) {
	const kitchen = "kitchen Ours\n  rules UK\n  cooks Ana\n  rings 4\n  oven main, 2 shelves\n  vessel gratin dish, holds 2 litres\n  vessel roasting tin, holds 3 kg\n\n"
	for _, c := range []struct {
		name, covers, dish string
		found              bool
	}{
		{"a joint in a tin by weight", "24", "    1 lamb shoulder (about 2 kg)\n  method\n    - Roast the lamb shoulder.\n      | oven 160 C | in roasting tin | leave 4 h | core 75 C\n", true},
		{"the joint as written", "6", "    1 lamb shoulder (about 2 kg)\n  method\n    - Roast the lamb shoulder.\n      | oven 160 C | in roasting tin | leave 4 h | core 75 C\n", false},
		{"a mixture of the step above", "24", "    600 g potatoes, sliced\n    600 ml double cream\n  method\n    - Layer the potatoes with the double cream.\n      | work 10 min\n    - Bake.\n      | oven 170 C | in gratin dish | leave 1 h 10 min\n", true},
		{"the mixture as written", "6", "    600 g potatoes, sliced\n    600 ml double cream\n  method\n    - Layer the potatoes with the double cream.\n      | work 10 min\n    - Bake.\n      | oven 170 C | in gratin dish | leave 1 h 10 min\n", false},
		{"drained in between", "24", "    600 g potatoes, sliced\n    600 ml water\n  method\n    - Soak the potatoes in the water, and drain them.\n      | work 10 min\n    - Bake.\n      | oven 170 C | in gratin dish | leave 1 h 10 min\n", false},
		{"in turns", "24", "    600 g potatoes, sliced\n    600 ml double cream\n  method\n    - Layer the potatoes with the double cream.\n      | work 10 min\n    - Bake.\n      | oven 170 C | in gratin dish | leave 1 h 10 min per load\n", false},
	} {
		_, all := alarms("menu M\n  covers " + c.covers + "\n  at Ours\n  course Main\n    Plate\n\n" + kitchen + "dish Plate\n  serves 6\n  gather\n" + c.dish + "  serve hot\n")
		assert.Equal(t, c.found, slices.ContainsFunc(all, func(d diag.Diagnostic) bool { return d.Code == "H113" }), "%s: %v", c.name, all)
	}
}
