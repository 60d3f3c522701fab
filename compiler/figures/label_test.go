package figures

import (
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/lang/quantity"
)

// A tin is called by its own label, whatever the units of the line it is added to: 28 oz
// are no 793 314659/400000 g, and 400 g no 14.109585 oz.
func TestATinKeepsItsLabel(t *testing.T) {
	s := &Set{}
	grams := quantity.Quantity{Dim: quantity.Mass, Value: quantity.Exactly(quantity.Int(400))}
	oz, _, problems := quantity.ReadMeasure("28 oz", quantity.Options{})
	require.Empty(t, problems)
	ounces, problem := oz.Quantity(quantity.US)
	require.Nil(t, problem)
	require.Equal(t, "400 g", s.packSize(grams, quantity.Style{System: quantity.US, Unit: ounce}))
	require.Equal(t, "1 3/4 lb", s.packSize(ounces, quantity.Style{System: quantity.Metric}))
	require.Equal(t, "400 g", s.packSize(grams, quantity.Style{System: quantity.Metric}))
}
