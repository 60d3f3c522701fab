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
