package amount

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestSplit(t *testing.T) {
	for _, c := range []struct{ in, figure, unit string }{
		{"450 g", "450", "g"},
		{"2½ tbsp", "2½", "tbsp"},
		{"1 1/2 cups", "1 1/2", "cups"},
		{"1 ½ cups", "1 ½", "cups"},
		{"½", "½", ""},
		{"12", "12", ""},
		{"35–40 min", "35–40", "min"},
		{"35 to 40 min", "35 to 40", "min"},
		{"2 or 3 sprigs", "2 or 3", "sprigs"},
		{"about 2 kg", "about 2", "kg"},
		{"up to 3 tbsp", "up to 3", "tbsp"},
		{"a pinch", "", "a pinch"},
		{"to taste", "", "to taste"},
		{"about a handful", "", "about a handful"},
		{"200g", "", "200g"},
		{"1 kg 200 g", "1", "kg 200 g"},
		{"2 × 400 g tins", "2 × 400", "g tins"},
		{"1,000 ml", "1,000", "ml"},
		{"", "", ""},
		{"   ", "", ""},
	} {
		figure, unit := Split(c.in)
		require.Equal(t, c.figure, figure, c.in)
		require.Equal(t, c.unit, unit, c.in)
	}
}
