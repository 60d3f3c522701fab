package compiler_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler/sheets"
)

// A soup that is like another, for twice as many: what replaces the milk is bought,
// measured and named in the sentences; the milk is nowhere.
func TestAVariantIsPrintedInItsOwnWords(t *testing.T) {
	m := compiled(t, tried{text: menuOf(8, "Cream soup") + `dish White soup
  serves 4
  gather
    600 g leeks
    400 ml milk
  method
    - Simmer the leeks in half the milk.
      | ring low | leave 15 min
    - Strain.
      | work 3 min
    - Stir in the rest of the milk, as in step 1.
      | work 2 min

dish Cream soup
  as White soup, but
  replace milk with 300 ml double cream
  before step 1, "Simmer"
    - Wash the leeks.
      | work 5 min
`})
	require.Equal(t, "Simmer the leeks in half the double cream (300 ml).", m.sentence("Cream soup", 1))
	require.Contains(t, m.sentence("Cream soup", 3), "as in step 2.")
	words := m.words(sheets.Prep, sheets.Shopping, sheets.RunSheet)
	require.Contains(t, words, "300 ml double cream (600 ml in all)")
	require.NotContains(t, words, "ml milk")
	require.NotContains(t, words, "the milk")
}
