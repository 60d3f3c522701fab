package compiler_test

import (
	"bytes"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
	"tamis/render/text"
)

// readOf compiles a dish for four with a list and a method.
func readOf(t *testing.T, gather, method string) *compiler.Result {
	return compileText(t, trialDish(gather, method), compiler.Options{NoPlan: true, NoPages: true})
}

func codesOf(r *compiler.Result) (out []string) {
	for _, d := range r.Diags.Sorted() {
		out = append(out, d.Code)
	}
	return out
}

// A margin that says what a step uses overrules the names of its sentence, and not its
// figures: they grow with the dish.
func TestFiguresBesideUses(t *testing.T) {
	r := readOf(t, "    200 g butter\n    16 eggs\n", "    - Beat 100 g of the butter with three of the eggs, and shape into 8 cakes with 2 litres of water.\n      | work 10 min | uses 100 g butter | uses 3 eggs\n    - Use the rest of the butter, and the rest of the eggs.\n      | work 1 min\n")
	step := r.Model.Recipes[0].Reading.Steps[0]
	got := map[string]resolve.FigureKind{}
	for _, f := range step.Figures {
		got[f.At.Text()] = f.Kind
	}
	require.Equal(t, map[string]resolve.FigureKind{"100 g": resolve.FigureScaled, "three": resolve.FigureScaled, "8": resolve.FigureScaled, "2 litres": resolve.FigureScaled}, got)
	require.NotContains(t, codesOf(r), "U222")

	r = readOf(t, "    200 g butter\n", "    - Beat 80 g of the butter.\n      | work 10 min | uses 100 g butter\n    - Use the rest of the butter.\n      | work 1 min\n")
	require.Contains(t, codesOf(r), "U222", "80 g here, 100 g there")
	r = readOf(t, "    200 g butter\n", "    - Beat in half the butter.\n      | work 10 min | uses 100 g butter\n    - Use the rest of the butter.\n      | work 1 min\n")
	require.NotContains(t, codesOf(r), "U222", "half of 200 g is 100 g")
}

// `--read` says of every figure what it was taken for.
func TestEveryFigureIsShown(t *testing.T) {
	r := readOf(t, "    500 g flour\n", "    - Knead the flour for 10 minutes, shape into 16 balls of 30 g, set them 3 cm apart, bake six at a time at 180 C, as in step 4, on speed 2, in two tins, and turn them over 3 times.\n      | work 10 min\n")
	r.Model.Recipes[0].Asked = true
	var b bytes.Buffer
	resolve.WriteReading(&b, r.Model)
	for _, line := range []string{
		`keeps "10" as written: a time`, `scales "16"`, `keeps "30 g" as written: for each`, `keeps "3" as written: a size`, `keeps "six" as written: a load`,
		`keeps "180" as written: a heat`, `keeps "4" as written: the number of a step`, `keeps "2" as written: the number of a speed`, `keeps "two" as written: so many vessels`, `keeps "3" as written: so many times`,
	} {
		require.Contains(t, b.String(), line)
	}
}

// A figure that stands anywhere before a name, or beside it, is never lost: the name is not
// taken whole. What each sentence takes stands in testdata/readings; here are the ways to lose one.
func TestNoFigureIsLost(t *testing.T) {
	gather := "    500 g flour\n    12 eggs\n    300 ml milk\n    400 g sugar\n    200 g tofu\n"
	for _, c := range []struct{ sentence, line, takes string }{
		{"Add 3 very large brown speckled fresh eggs.", "eggs", "3"},
		{"Sift in 120 g sieved cold plain well-dried flour.", "flour", "120"},
		{"Stir in 2 rather heaped tablespoons of the milk.", "milk", "30"},
		{"Add four lumps of the sugar.", "sugar", "some"},
		{"Two lumps of the sugar go into each glass.", "sugar", "some"},
		{"Add a walnut-sized nugget of the sugar.", "sugar", "some"},
		{"Thin with the milk, about 120 ml in all.", "milk", "120"},
		{"Pour in the milk, about two thirds, and stir.", "milk", "200"},
		{"Pour in the milk a little at a time; you may not need the whole of it.", "milk", "some"},
		{"Sweeten with the sugar, using no more than 50 g.", "sugar", "some"},
	} {
		r := readOf(t, gather, "    - "+c.sentence+"\n      | work 10 min\n")
		var got string
		for _, take := range r.Model.Recipes[0].Reading.Steps[0].Takes {
			if take.Line != nil && take.Line.Name == c.line && !take.Refers {
				got = take.Line.Quantity.Scale(take.Part).Value.High.String()
				if take.Unmeasured {
					got = "some"
				}
			}
		}
		require.Equal(t, c.takes, got, c.sentence)
	}
	for _, sentence := range []string{
		"Add 200 g to the flour.", "Add half a block of the tofu.", "Stir in 2 well and truly heaped tablespoons of the milk.", "Beat two of the eggs, then three.", "Put in half as much sugar as flour.", "Double the sugar if you like.",
		"Beat the eggs with their weight in sugar.", "Put in three times as much sugar.", "Stir in half of the remaining flour.",
	} {
		r := readOf(t, gather, "    - "+sentence+"\n      | work 10 min\n")
		asked := false
		at := 0
		for _, d := range r.Diags.Sorted() {
			if d.Code != "U201" && d.Code != "U202" && d.Code[0] == 'U' {
				asked, at = true, d.At.Span.Start
			}
		}
		require.True(t, asked, "%s: nothing is asked", sentence)
		require.Greater(t, at, 0)
	}
}

// A letter among the figures of a sentence is asked about, with what was meant: nothing is
// weighed or timed by it.
func TestMistypedFigures(t *testing.T) {
	for typed, meant := range map[string]string{
		"Add 1OO g of the flour.": "100", "Add l00 ml of the milk.": "100", "Simmer the milk for 2O minutes.": "20", "Bake the flour at 18O C for 5 minutes.": "180",
		"Add O.5 kg flour.": "0.5", "Add 1/2/3 of the flour.": "", "Add 0.5.3 of the flour.": "",
	} {
		r := readOf(t, "    500 g flour\n    300 ml milk\n", "    - "+typed+"\n      | work 10 min\n")
		found := false
		for _, d := range r.Diags.Sorted() {
			if d.Code == "Q125" && len(d.Fixes) > 0 {
				found = found || d.Fixes[0].Edits[0].Text == meant
			}
			found = found || d.Code == "U217" && meant == ""
		}
		require.True(t, found, typed)
	}
	for _, right := range []string{"Add 1l of the milk.", "Add 5l milk.", "Fold 2x and turn the 2nd time, at 180C/160C fan/gas 4.", "Add the flour and all of the milk, 10 at a time."} {
		r := readOf(t, "    500 g flour\n    9 litres milk\n", "    - "+right+"\n      | work 10 min\n")
		require.NotContains(t, codesOf(r), "Q125", right)
	}
}

// What begins a line of a list like an amount and is none is asked about; a name that
// begins with a figure is quoted.
func TestFiguresOfAListThatAreNone(t *testing.T) {
	for _, line := range []string{"1/2/3 tsp salt", "1.5/2 kg flour", "1//2 cup cream", "3/4/2027 eggs", "1..5 kg flour", "1-2-3 eggs"} {
		r := readOf(t, line, "- Mix everything.\n  | work 1 min")
		i := slices.IndexFunc(r.Diags.Sorted(), func(d diag.Diagnostic) bool { return d.Code == "N174" })
		require.GreaterOrEqual(t, i, 0, line)
		require.True(t, strings.HasPrefix(line, r.Diags.Sorted()[i].At.Span.Text()), line)
	}
	for _, line := range []string{`"1/2/3 mix"`, "7up", "7-up", "00 flour", "2-3 eggs", "1/2 tsp salt", "5-spice powder", "200 g 70% chocolate"} {
		require.NotContains(t, codesOf(readOf(t, line, "- Mix everything.\n  | work 1 min")), "N174", line)
	}
}

// What is lifted out of the pot is no gathered thing: its figure grows with the dish, and the
// name said again asks nothing.
func TestWhatASentenceReserves(t *testing.T) {
	for _, sentence := range []string{"Lift it out, reserving 500 ml of the liquor.", "Drain it, keeping 1/2 litre of the cooking liquid.", "Drain it, saving 300 ml of the broth.", "Reserve 300 ml of the whey."} {
		r := readOf(t, "    1 kg gammon\n    2 litres water\n", "    - Simmer the gammon in the water.\n      | ring low | leave 1 h\n    - "+sentence+"\n      | work 1 min\n    - Stir in a ladle of the reserved cooking water.\n      | work 1 min\n")
		steps := r.Model.Recipes[0].Reading.Steps
		require.Len(t, steps[1].Figures, 1, sentence)
		require.Equal(t, resolve.FigureScaled, steps[1].Figures[0].Kind, sentence)
		require.NotContains(t, codesOf(r), "U217", sentence)
		require.NotContains(t, codesOf(r), "U204", sentence)
	}
}

// An amount of what is gathered without one grows with the dish.
func TestAmountOfTheUnweighed(t *testing.T) {
	r := readOf(t, "    1 kg gammon\n    salt\n    bay leaves\n", "    - Rub the gammon with a teaspoon of salt and two bay leaves.\n      | work 1 min\n")
	var got []string
	for _, f := range r.Model.Recipes[0].Reading.Steps[0].Figures {
		require.Equal(t, resolve.FigureScaled, f.Kind)
		got = append(got, f.At.Text())
	}
	require.Equal(t, []string{"a teaspoon", "two"}, got)
}

// So many of what the margin or the block calls its pieces grow with the dish, whatever the
// verb is; what is cut in a lid does not.
func TestItsPiecesGrow(t *testing.T) {
	for _, c := range []struct {
		gather, method, figure string
		want                   resolve.FigureKind
	}{
		{"    600 ml pancake batter\n", "    - Fry 12 pancakes of the pancake batter.\n      | ring medium | into 12 pancakes, 50 ml each | watch 20 min\n", "12", resolve.FigureScaled},
		{"    350 g pie lid\n", "    - Lay the pie lid over and cut two slits.\n      | work 5 min\n", "two", resolve.FigureKept},
		{"    600 g dough\n", "    - Cut the dough into 6 squares.\n      | work 5 min\n", "6", resolve.FigureScaled},
	} {
		r := readOf(t, c.gather, c.method)
		got := map[string]resolve.FigureKind{}
		for _, f := range r.Model.Recipes[0].Reading.Steps[0].Figures {
			got[f.At.Text()] = f.Kind
		}
		require.Equal(t, c.want, got[c.figure], c.method)
	}
	r := compileText(t, "dish Shortbread\n  serves 10\n  makes 20 fingers\n  gather\n    600 g dough\n  method\n    - Press the dough out and mark it into 20 fingers.\n      | work 5 min\n", compiler.Options{NoPlan: true, NoPages: true})
	require.Equal(t, resolve.FigureScaled, r.Model.Recipes[0].Reading.Steps[0].Figures[0].Kind)
}

// "Together" makes a verb of a food that begins a clause, and not of the last of a row.
func TestTogetherIsNoVerb(t *testing.T) {
	takes := func(gather, sentence string) (out []string) {
		for _, take := range readOf(t, gather, "    - "+sentence+"\n      | work 5 min\n").Model.Recipes[0].Reading.Steps[0].Takes {
			out = append(out, take.Line.Name)
		}
		return out
	}
	require.Equal(t, []string{"cider vinegar", "salt", "caster sugar"}, takes("    45 ml cider vinegar\n    5 g salt\n    5 g caster sugar\n", "Shake the vinegar, salt and sugar together until the salt has gone."))
	require.Equal(t, []string{"butter", "caster sugar"}, takes("    45 g butter\n    50 g double cream\n    5 g caster sugar\n", "Warm the bowl and cream together the butter and sugar."))
}

// What is gathered by its path is found by its path in `uses`, and by its name.
func TestUsesByPath(t *testing.T) {
	for _, uses := range []string{"jars/Plum jam", "plum jam", "half the jars/Plum jam"} {
		r := readOf(t, "    160 g jars/Plum jam\n    20 g butter\n", "    - Butter the basin and put it in.\n      | work 3 min | uses "+uses+" | uses butter\n    - Use the rest of the plum jam.\n      | work 1 min\n")
		require.NotContains(t, codesOf(r), "U126", uses)
		require.Equal(t, "jars/Plum jam", r.Model.Recipes[0].Reading.Steps[0].Takes[0].Line.Name)
	}
	r := readOf(t, "    160 g jars/Plum jam\n", "    - Use it.\n      | work 3 min | uses bottles/Plum jam\n")
	require.Contains(t, codesOf(r), "U126", "that is another")
}

// What is left of a thing of which somebody took a spoonful has no figure, and one roll is no
// "1 rolls".
func TestTheRestOfAnUnweighedThingHasNoFigure(t *testing.T) {
	r := compileText(t, "menu Tea\n  covers 2\n  course One\n    Rolls\n\ndish Rolls\n  serves 4\n  gather\n    100 g caster sugar\n    300 g butter\n  method\n    - Beat the butter with most of the sugar.\n      | work 5 min\n    - Shape into two flat rolls, and scatter with the rest of the sugar.\n      | work 5 min\n", compiler.Options{})
	var b bytes.Buffer
	for _, d := range r.Documents {
		require.NoError(t, text.Write(&b, d, text.Options{}))
	}
	require.Contains(t, b.String(), "sugar (the rest)")
	require.NotRegexp(t, `\d g +caster sugar \(the rest\)`, b.String())
	require.Contains(t, b.String(), "into 1 flat roll,")
}
