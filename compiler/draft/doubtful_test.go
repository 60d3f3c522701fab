package draft_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// A point before three figures is a decimal to some and a thousand to others: such a line
// is not read, and it is said. A comma there parts thousands, but for behind a nought.
func TestThousands(t *testing.T) {
	r := made("x.txt", "Bread\n\nIngredients\n\n1.500 g flour\n2.000 ml water\n1,500 g rye\n12,000 g bran\n1.5 g salt\n0.500 g saffron\n\nMethod\n\nMix with 1.500 g butter.\n")
	for _, w := range []string{"    \"1.500 g flour\"\n", "    \"1.500 g butter\"\n", "    \"2.000 ml water\"\n", "    1500 g   rye\n", "    12000 g  bran\n", "    1.5 g    salt\n", "    0.5 g    saffron\n"} {
		assert.Contains(t, r.Text, w)
	}
	assert.Contains(t, strings.Join(r.Told, "\n"), "1.500 g")
	assert.Contains(t, strings.Join(r.Told, "\n"), "2.000 ml")
	assert.Len(t, r.Told, 3)
}

// Inches are a length of what is gathered, and no count of it.
func TestInches(t *testing.T) {
	r := made("x.txt", "Cake\n\nIngredients\n\n3\" piece of ginger\n8″ tin\n1½\" stick of cinnamon, bruised\n8\" x 10\" tin\n200 g \"strong\" flour\n500 g \"00\" flour\n\nMethod\n\nPut 2 sticks of rhubarb in an 8\" tin with a 3\" piece of mace.\n")
	for _, w := range []string{"\"3″ piece of ginger\"\n", "\"8″ tin\"\n", "\"1½″ stick of cinnamon, bruised\"\n", "200 g", "2 sticks rhubarb\n", "\"8″ x 10″ tin\"\n", "500 g    00 flour\n"} {
		assert.Contains(t, r.Text, "    "+w)
	}
	assert.NotContains(t, r.Text, "3        pieces")
	assert.NotContains(t, r.Text, "8        tin")
}

// A system of measures is guessed only where it has every unit of the text, so that a draft
// makes no error of its own.
func TestGuessedUnitsFit(t *testing.T) {
	for text, want := range map[string]string{
		"1 cup milk\n1 pint cream\n30g sugar\n":   "units US ?\n",
		"1 fl oz rum\n1 cup milk\n30 g salt\n":    "units US ?\n",
		"1 cup milk\n30 g salt\n":                 "units metric ?\n",
		"1 pint milk\n1/2 lb butter\n30g sugar\n": "units imperial ?\n",
		"1 quart milk\n30g sugar\n":               "",
	} {
		r := made("x.txt", "Pie\n\n"+text+"\nMix it all.\n")
		assert.Contains(t, r.Text, want, text)
		if want == "" {
			assert.NotContains(t, r.Text, "units ", text)
		}
	}
}

// An amount behind its name is one, and the second of two measures is not lost.
func TestAmountsBehind(t *testing.T) {
	r := made("x.txt", "Cake\n\nIngredients\n\nflour, 30g\nsugar 50 to 60g\ncaster sugar: 100 g\n2 x 400g/14oz cans tomatoes\n250 g butter\n\nMethod\n\nMix.\n")
	for _, w := range []string{"30 g     flour\n", "50 to 60 g sugar\n", "100 g    caster sugar\n", "2 x 400 g cans tomatoes\n", "  said \"2 x 400g/14oz cans tomatoes\"\n", "250 g    butter\n"} {
		assert.Contains(t, r.Text, "    "+w)
	}
}
