package quantity_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/lang/quantity"
)

// A quantity is measurable where its measures have a part for it: grams have one for all,
// ounces (1/4 oz is the least on American scales: common practice, no source) none for a gram,
// and nothing wants no measure.
func TestMeasurable(t *testing.T) {
	us := quantity.Style{System: quantity.US}
	require.True(t, quantity.Grams(quantity.Int(1)).Measurable(quantity.Style{System: quantity.Metric}))
	require.False(t, quantity.Grams(quantity.Int(1)).Measurable(us))
	require.True(t, quantity.Grams(quantity.Decimal("28.349523125")).Measurable(us), "an ounce")
	require.True(t, quantity.Grams(quantity.Int(0)).Measurable(us))
}
