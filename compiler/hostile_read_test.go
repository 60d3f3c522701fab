package compiler_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler"
	"tamis/lang/diag"
)

// Letters that are longer or shorter when they are made small: the sign of kelvin has
// three bytes and its k one, the A with a stroke two and its small letter three. A place
// that is found in the small text is none in the text itself.
func TestLettersThatChangeTheirLength(t *testing.T) {
	for _, odd := range []string{"\u212a", "\u023a", strings.Repeat("\u212a", 9), strings.Repeat("\u023a", 9)} {
		for _, line := range []string{
			"1 %s of x", "1 %s bowls of x", "2 %s, x or y", "1 %s or y", "%s and %s", "1 %s plus extra for x", "2 %s, red, sliced", "1 %s the size of a nut", "%s eggs plus 1 yolk",
		} {
			text := "dish " + odd + "pot\n  serves 4\n  gather\n    " + strings.ReplaceAll(line, "%s", odd) + "\n  method\n    - Make as for " + odd + " the same as " + odd + ".\n"
			require.NotPanics(t, func() { foundIn(t, map[string]string{"a.tamis": text}) }, text)
		}
	}
}

// A weight of nothing is refused where it is written, and every time stays finite.
func TestAWeightOfNothing(t *testing.T) {
	for _, margin := range []string{"leave 2 h at 0 kg", "leave 2 h at 0 g, 3 h at 1 kg", "leave 2 h at 0 kg, 3 h at 0 kg"} {
		text := "dish Roast\n  serves 4\n  gather\n    2 kg beef\n  method\n    - Roast the beef.\n      | oven 180 C | " + margin + "\n"
		var codes []string
		require.NotPanics(t, func() {
			for _, d := range foundIn(t, map[string]string{"a.tamis": text}) {
				codes = append(codes, d.Code)
			}
		}, margin)
		require.Contains(t, codes, "N168", margin)
	}
}

// A letter with an accent is a letter in a slip as well: its place and its capital are whole.
func TestASlipWithAccents(t *testing.T) {
	const pie = "dish Pie\n  serves 4\n  gather\n    600 g %s\n  method\n    - %s\n      | work 5 min\n"
	for _, c := range []struct{ gathered, says, slip, right string }{
		{"éclairs", "Éclars go in first.", "Éclars", "Éclairs"},
		{"jalapeños", "Slice the jalapeñs.", "jalapeñs", "jalapeños"},
		{"crème fraîche", "Stir in the fraîhce.", "fraîhce", "fraîche"},
	} {
		found := 0
		for _, d := range foundIn(t, map[string]string{"a.tamis": fmt.Sprintf(pie, c.gathered, c.says)}) {
			if d.Code == "U201" {
				found++
				require.Equal(t, c.slip, d.At.Span.Text())
				require.Equal(t, c.right, d.Fixes[0].Edits[0].Text)
			}
		}
		require.Equal(t, 1, found, c.says)
	}
}

// What was done to a thing is a word of its own: chard was not charred, nor is a carton
// of something heated.
func TestWhatWasDoneIsAWord(t *testing.T) {
	const pot = "dish Pot\n  serves 4\n  gather\n    4 peppers\n    300 g chard\n  method\n    - %s\n      | work 5 min\n    - Slice the charred peppers.\n      | work 5 min\n"
	asks := func(says string) (codes []string) {
		for _, d := range foundIn(t, map[string]string{"a.tamis": fmt.Sprintf(pot, says)}) {
			if d.Code == "U210" || d.Code == "U317" {
				codes = append(codes, d.Code)
			}
		}
		return codes
	}
	require.Empty(t, asks("Char one of the peppers, and wash the chard."))
	require.Equal(t, []string{"U317", "U210"}, asks("Lay one of the peppers on the chard."))
}

// The tool that does it has done it: through the grater it is grated.
func TestAToolBringsItAbout(t *testing.T) {
	const pot = "dish Bake\n  serves 4\n  gather\n    4 carrots\n    300 g rice\n  method\n    - %s\n      | work 5 min\n    - Stir the %s carrots into the rice.\n      | work 5 min\n"
	asked := func(first, state string) bool {
		return slices.ContainsFunc(foundIn(t, map[string]string{"a.tamis": fmt.Sprintf(pot, first, state)}), func(d diag.Diagnostic) bool { return d.Code == "U317" })
	}
	for _, c := range [][2]string{
		{"Put two of the carrots through the grater.", "grated"},
		{"Run two of the carrots over the coarse side of a grater.", "grated"},
		{"Put two of the carrots through a ricer.", "mashed"},
		{"Lay two of the carrots in the steamer.", "steamed"},
		{"Push two of the carrots through the slicer.", "sliced"},
		{"Put two of the carrots through the shredder.", "shredded"},
	} {
		require.False(t, asked(c[0], c[1]), c)
		require.True(t, asked("Wash two of the carrots.", c[1]), c)
		require.True(t, asked(c[0], "charred"), "a %s carrot is not charred", c[1])
	}
}

// A place of a merge that nothing ends takes nothing away: both sides and all below are
// read, and the finding says so.
func TestAMergeWithoutAnEnd(t *testing.T) {
	const text = "dish Leek pot\n<<<<<<< mine\n  serves 4\n=======\n  serves 6\n%s  gather\n    500 g leeks\n  method\n    - Stew the leeks.\n\ndish Bean pot\n  serves 4\n"
	compiled := func(text string) *compiler.Result {
		return compileText(t, text, compiler.Options{NoPlan: true, NoPages: true})
	}
	ended := compiled(fmt.Sprintf(text, ">>>>>>> theirs\n"))
	require.Len(t, ended.Model.Recipes, 2)
	require.Equal(t, "4", ended.Model.Recipes[0].Serves.High.String())
	open := compiled(fmt.Sprintf(text, ""))
	require.Len(t, open.Model.Recipes, 2)
	require.Len(t, open.Model.Recipes[0].Lines, 1)
	merges := 0
	for _, d := range open.Diags.Sorted() {
		if d.Code == "N116" {
			merges++
			require.Contains(t, d.Why, "both are read")
		}
	}
	require.Equal(t, 1, merges)
}

// "Half of it" behind a part of an egg gives all of that part back first: of six yolks
// three go in, and the other three, and the whites of all six, are there afterwards.
func TestHalfOfItOfAPart(t *testing.T) {
	for _, first := range []string{"Beat the yolks and stir in half.", "Beat the egg yolks, and stir half of them into the cream."} {
		m := compiled(t, tried{text: "dish Fool\n  serves 4\n  gather\n    6 eggs\n    300 ml cream\n  method\n    - Whip the whites of the eggs.\n      | work 5 min\n    - " + first + "\n      | work 5 min\n    - Beat three egg yolks with the cream.\n      | work 5 min\n"})
		for _, d := range m.Diags.Sorted() {
			require.NotContains(t, []string{"U203", "U204", "U202", "U210", "U212"}, d.Code, d.Message)
		}
		reading := m.Model.Recipes[0].Reading
		yolks := reading.Steps[1].Takes[0]
		require.Equal(t, "1/2", yolks.Of.String(), first)
		require.True(t, yolks.Part.IsZero(), first)
		yolks = reading.Steps[2].Takes[0]
		require.Equal(t, "1/2", yolks.Of.String(), first)
	}
}

// How often a step is done is said once.
func TestTwiceAndThreeTimes(t *testing.T) {
	text := "dish Pot\n  serves 4\n  gather\n    2 leeks\n  method\n    - Wash the leeks.\n      | %s | work 5 min\n"
	codes := func(margin string) (out []string) {
		for _, d := range foundIn(t, map[string]string{"a.tamis": fmt.Sprintf(text, margin)}) {
			out = append(out, d.Code)
		}
		return out
	}
	require.NotContains(t, codes("twice"), "N165")
	require.Contains(t, codes("twice | three times"), "N165")
	require.Contains(t, codes("four times | meanwhile | twice"), "N165")
}

// On Lord Howe Island the clocks change by half an hour: on 4 April 2027 back (the tz
// database, from memory).
func TestClocksThatChangeByHalfAnHour(t *testing.T) {
	text := "menu Lunch\n  covers 4\n  on the table 2027-04-04 13:00\n  at Bay\n  course Soup\n    Pot\n\nkitchen Bay\n  cooks Ana\n  zone Australia/Lord_Howe\n\ndish Pot\n  serves 4\n  gather\n    2 leeks\n  method\n    - Wash the leeks.\n      | work 5 min\n"
	said := ""
	for _, d := range foundIn(t, map[string]string{"a.tamis": text}) {
		if d.Code == "M124" {
			said = d.Message
		}
	}
	require.Contains(t, said, "back by 30 min")
}

// A name that begins with a number is a name in a sentence too.
func TestNamesThatBeginWithANumber(t *testing.T) {
	m := compiled(t, tried{text: "base Five spice rub\n  makes 100 g\n  keeps 1 day, fridge\n  gather\n    100 g fennel seeds\n  method\n    - Grind the fennel seeds.\n      | work 5 min\n\ndish Pot\n  serves 4\n  gather\n    30 g five spice rub\n    2 leeks\n  method\n    - Rub the leeks with half the five spice rub.\n      | work 5 min\n    - Scatter the rest of the five spice rub over.\n      | work 5 min\n"})
	steps := m.Model.Recipes[1].Reading.Steps
	require.Equal(t, "1/2", steps[0].Takes[1].Part.String())
	require.Equal(t, "1/2", steps[1].Takes[0].Part.String())
	m = compiled(t, tried{text: "dish Pot\n  serves 4\n  gather\n    30 g \"five spice rub\"\n  method\n    - Add the five spice rub.\n      | work 5 min\n"})
	require.True(t, m.Model.Recipes[0].Reading.Steps[0].Takes[0].All)
}

// A line of service that is spelt wrong is told the right word; a dish that stands in no
// course is not taken for one.
func TestSlipsInLinesOfService(t *testing.T) {
	const menu = "menu M\n  covers 4\n  %s\n  course A\n    Pot\n\ndish Pot\n  serves 4\n"
	for line, right := range map[string]string{"plate 20 s a cover": "plates", "clear 5 min, after each course": "clears", "brakes 10 min, every 4 h": "breaks", "Plaice": ""} {
		help := ""
		for _, d := range foundIn(t, map[string]string{"a.tamis": fmt.Sprintf(menu, line)}) {
			if d.Code == "N121" {
				help = strings.Join(d.Help, " ")
			}
		}
		if right == "" {
			require.NotContains(t, help, "did you mean")
			continue
		}
		require.Contains(t, help, "did you mean `"+right+"`", line)
	}
}
