package compiler_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler/sheets"
)

// A caution stands in a short line beside its step, and whole with its authority once in
// a pack; the sheet of the dish does not say it again. Where the writer has one, theirs
// stands there.
func TestCautionsBesideTheirSteps(t *testing.T) {
	text := "menu M\n  covers 4\n  course A\n    Chips\n    Soup\n    Duck\n    Noodles\n" +
		"dish Chips\n  serves 4\n  gather\n    1 kg potatoes\n    2 litres sunflower oil\n  method\n    - Cut the potatoes. | work 9 min\n    - Deep-fry the potatoes in the sunflower oil. | ring high | watch 12 min\n  serve hot\n" +
		"dish Soup\n  serves 4\n  gather\n    1 kg carrots\n    1 litre water\n  method\n    - Simmer the carrots in the water. | ring low | leave 20 min\n    - Blend while hot in the blender. | work 5 min | caution mind the lid\n  serve hot\n" +
		"dish Duck\n  rules UK\n  serves 4\n  gather\n    1 duck\n  method\n    - Rinse the duck under the tap. | work 5 min\n    - Roast the duck. | oven 180 C | leave 2 h | core 75 C\n  serve hot\n"
	text += "dish Noodles\n  serves 4\n  gather\n    4 eggs\n    2 litres sunflower oil\n    400 g noodles\n    1 litre vegetable stock\n  method\n    - Fry the eggs in the sunflower oil at 180 C. | ring high | watch 5 min | core 75 C\n    - Boil the noodles in the vegetable stock. | ring high | watch 9 min\n  serve hot\n"
	r := compileText(t, text, everySheet)
	beside := map[string]string{}
	foot, whole := map[string]string{}, ""
	for i := range r.Documents[0].Sheets {
		s := &r.Documents[0].Sheets[i]
		if s.Kind != sheets.Prep {
			for _, c := range cautionsOn(s) {
				whole += c.Text + " " + c.Source + "\n"
			}
			continue
		}
		foot[s.Title] = careOn(s)
		for n, st := range steps(s) {
			beside[s.Title] += strings.Repeat("|", n) + strings.Join(st.Margin, "; ")
		}
	}
	require.Equal(t, "|mind: dry food, pan half full, never left", beside["Chips"])
	require.Regexp(t, "^mind: dry food, pan half full, never left\\|$", beside["Noodles"], "the noodles boil in another pan")
	require.Contains(t, beside["Soup"], "mind: mind the lid")
	require.NotContains(t, beside["Soup"], "half full")
	require.Contains(t, beside["Duck"], "mind: not rinsed: patted dry")
	require.NotContains(t, foot["Chips"], "Deep fat")
	require.NotContains(t, foot["Duck"], "not rinsed")
	require.Contains(t, foot["Duck"], "Poultry")
	require.Contains(t, foot["Soup"], "Hot liquid in a blender")
	require.Contains(t, whole, "Deep fat: dry food, pan half full, never left.")
	require.Contains(t, whole, "Raw poultry is not rinsed")
	require.Contains(t, whole, "Oregon Health Authority bulletin, 2023, as seen quoted")
	for _, s := range []string{whole, beside["Chips"], beside["Duck"]} {
		require.NotContains(t, strings.ToLower(s), "safe ")
		require.NotContains(t, strings.ToLower(s), "free from")
	}
}
