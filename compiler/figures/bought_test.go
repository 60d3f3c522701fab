package figures

import (
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/lang/quantity"
)

// What is bought covers what the sheets say, and by no more than can be weighed: under 100 g
// that is the next gram, above it the next figure a sheet would print.
func TestBoughtByWeight(t *testing.T) {
	for _, tt := range []struct {
		grams quantity.Number
		want  string
	}{
		{quantity.Frac(131, 2), "66 g"},
		{quantity.Int(66), "66 g"},
		{quantity.Int(86), "86 g"},
		{quantity.Int(64), "64 g"},
		{quantity.Int(138), "140 g"},
		{quantity.Int(1423), "1.425 kg"},
	} {
		q := quantity.Quantity{Dim: quantity.Mass, Value: quantity.Exactly(tt.grams)}
		require.Equal(t, tt.want, (&Set{}).Bought(q, quantity.Style{}), "%v g", tt.grams)
	}
}
