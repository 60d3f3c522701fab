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

// One tin holds what was written for it: twice, and half, is asked about, where its size or
// kind is named in the margin, in the sentence or where it was filled; not a tray of
// vegetables, what is counted in tins, nor what was tried.
func TestOneTinHoldsWhatWasWritten(t *testing.T) {
	const list = "    200 g butter\n    200 g caster sugar\n    200 g self-raising flour\n  method\n    - Beat the butter, caster sugar and self-raising flour.\n      | work 10 min"
	for _, c := range []struct {
		covers, steps string
		found         bool
	}{
		{"16", "\n    - Bake.\n      | oven 170 C | in 20 cm tin | leave 45 min\n", true},
		{"4", "\n    - Bake.\n      | oven 170 C | in loaf tin | leave 45 min\n", true},
		{"8", "\n    - Bake.\n      | oven 170 C | in loaf tin | leave 45 min\n", false},
		{"9", "\n    - Bake.\n      | oven 170 C | in loaf tin | leave 45 min\n", false},
		{"16", "\n    - Bake in a deep 8-inch tin for 45 minutes.\n      | oven 170 C | leave 45 min\n", true},
		{"16", "\n    - Bake in a 9 x 5-inch loaf pan.\n      | oven 350 F | leave 45 min\n", true},
		{"40", "\n    - Scrape into a 900 g loaf tin, a 23 cm pie dish or the like.\n      | work 3 min\n    - Bake.\n      | oven 170 C | leave 45 min\n", true},
		{"16", "\n    - Scrape into two 20 cm tins.\n      | into 2 cake tins | work 3 min\n    - Bake.\n      | oven 170 C | leave 45 min\n", false},
		{"16", "\n    - Spread out.\n      | work 3 min\n    - Bake.\n      | oven 170 C | in roasting tray | leave 45 min\n", false},
		{"16", "\n    - Bake in a 20 cm tin.\n      | oven 170 C | leave 45 min per load\n", false},
	} {
		_, all := alarms("menu M\n  covers " + c.covers + "\n  course Main\n    Cake\n\ndish Cake\n  serves 8\n  gather\n" + list + c.steps + "  serve cold\n")
		var got []string
		for _, d := range all {
			if d.Code == "H145" || d.Code == "H143" {
				got = append(got, d.Code)
			}
		}
		if c.found {
			assert.Equal(t, []string{"H145"}, got, "%s: %s", c.covers, c.steps)
		} else {
			assert.NotContains(t, got, "H145", "%s: %s", c.covers, c.steps)
		}
	}
	_, all := alarms("menu M\n  covers 16\n  course Main\n    Cake\n\ndish Cake\n  serves 8\n  tested 8 to 24\n  gather\n" + list + "\n    - Bake.\n      | oven 170 C | in 20 cm tin | leave 45 min\n  serve cold\n")
	assert.False(t, slices.ContainsFunc(all, func(d diag.Diagnostic) bool { return d.Code == "H145" }))
}
