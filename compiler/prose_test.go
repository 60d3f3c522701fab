package compiler_test

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler"
	"tamis/compiler/demand"
	"tamis/compiler/sheets"
)

// sentencesAt is what the steps of a dish say, made for so many.
func sentencesAt(t *testing.T, text string, covers int) string {
	d := pages(t, text, compiler.Options{Demand: demand.Options{Covers: covers}, Sheets: []sheets.Kind{sheets.Prep}})
	var b strings.Builder
	for i := range d.Sheets {
		for _, step := range steps(&d.Sheets[i]) {
			b.WriteString(runText(step.Runs) + "\n")
		}
	}
	return b.String()
}

// What a figure beside a margin counts, or of a thing without an amount, is one or more as
// the figure says.
func TestNamesBehindFiguresAreInTheirNumber(t *testing.T) {
	text := trialDish("2 lemons\n1 egg\nbay leaves\n500 g flour", "- Squeeze 2 lemons over the flour, add 1 egg and one bay leaf.\n  | work 5 min | uses lemons | uses flour | uses egg\n- Serve with two bay leaves.\n  | work 1 min")
	require.Contains(t, sentencesAt(t, text, 8), "4 lemons over the flour, add 2 eggs and")
	require.Contains(t, sentencesAt(t, text, 8), "4 bay leaves.")
	require.Contains(t, sentencesAt(t, text, 2), "1 lemon over")
	require.Contains(t, sentencesAt(t, text, 2), "1 bay leaf.")
}

// trialDish is a dish for four with these lines and these steps.
func trialDish(gather, method string) string {
	indent := func(s string) string {
		return "    " + strings.ReplaceAll(strings.TrimSpace(s), "\n", "\n    ") + "\n"
	}
	return "dish Trial\n  serves 4\n  units metric\n  gather\n" + indent(gather) + "  method\n" + indent(method)
}

// aside is what a share comes to.
var aside = regexp.MustCompile(` \([^)]*\)`)

// Every figure of a sentence grows with the covers or stays, by what it is.
func TestFiguresInSentences(t *testing.T) {
	for _, c := range []struct{ gather, method, twice string }{
		{"500 g potatoes", "- Mash the potatoes and shape into 16 flat cakes.", "Mash the potatoes and shape into 32 flat cakes."},
		{"500 g potatoes", "- Mash the potatoes and shape into sixteen flat cakes.", "Mash the potatoes and shape into 32 flat cakes."},
		{"500 g potatoes", "- Boil the potatoes in two litres of water.", "Boil the potatoes in 4 litres of water."},
		{"1 litre stock", "- Boil the stock down to 400 ml.", "Boil the stock down to 800 ml."},
		{"500 g pastry", "- Divide the pastry into 8 pieces of 60 g.", "Divide the pastry into 16 pieces of 60 g."},
		{"12 fritters", "- Fry the fritters 4 at a time.", "Fry the fritters 4 at a time."},
		{"120 ml jam", "- Put 1 tsp of the jam in each of 24 cases.", "Put 1 tsp of the jam in each of 48 cases."},
		{"300 g butter", "- Melt two thirds of the butter.\n- Stir in what is left of the butter.", "Melt two thirds of the butter (400 g).\nStir in what is left of the butter (200 g)."},
		{"200 g butter", "- Melt all but 40 g of the butter.\n- Add the rest of the butter.", "Melt all but 80 g of the butter.\nAdd the rest of the butter (80 g)."},
		{"200 g butter", "- Melt the butter, less 40 g.\n- Add the rest of the butter.", "Melt the butter, less 80 g.\nAdd the rest of the butter (80 g)."},
		{"60 ml oil\n60 ml vinegar", "- Mix the oil and vinegar, two tablespoons of each.\n- Add the rest of the oil and vinegar.", "Mix the oil and vinegar, 4 tbsp of each.\nAdd the rest of the oil (60 ml) and vinegar (60 ml)."},
		{"6 eggs", "- Beat two of the eggs.\n- Add the rest of the eggs.", "Beat 4 of the eggs.\nAdd the rest of the eggs (8)."},
		{"6 eggs", "- Beat in one egg at a time.", "Beat in one egg at a time."},
		{"1 lemon", "- Squeeze half a lemon over it.\n- Slice the rest of the lemon.", "Squeeze 1 lemon over it.\nSlice the rest of the lemon (1)."},
		{"500 g potatoes", "- Mash the potatoes and heap them on 4 plates.", "Mash the potatoes and heap them on 8 plates."},
		{"500 g potatoes", "- Mash the potatoes and share them out between 4 bowls.", "Mash the potatoes and share them out between 8 bowls."},
		{"500 g flour", "- Knead the flour and shape into 16 trials of 50 g.", "Knead the flour and shape into 32 trials of 50 g."},
		{"500 g flour", "- Knead the flour on speed 2, fold it 3 times and roll to 5 mm.", "Knead the flour on speed 2, fold it 3 times and roll to 5 mm."},
	} {
		text := trialDish(c.gather, c.method)
		require.Equal(t, c.twice, strings.TrimSpace(sentencesAt(t, text, 8)), text)
		written := "- " + strings.ReplaceAll(strings.TrimSpace(sentencesAt(t, text, 4)), "\n", "\n- ")
		require.Equal(t, c.method, aside.ReplaceAllString(written, ""), "at the written size, as written")
	}
}
