package hazard

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// Words that say the same in other forms are one, and what is denied is not said.
func TestSigns(t *testing.T) {
	for _, c := range []struct {
		text, sign string
		want       bool
	}{
		{"Turned over glowing coals", "heat device", true},
		{"hung in the tandoor", "heat device", true},
		{"Cook them in the air-fryer.", "heat device", true},
		{"Do not wash the bird", "rinse", false},
		{"washing the bird", "rinse", true},
		{"Thaw beside the radiator", "thaw", true},
		{"still half frozen", "half frozen", true},
		{"keep the brine. In oil now", "under oil", true},
		{"cover. with the oil", "under oil", true},
		{"cover it well. Then fry. The oil", "under oil", false},
		{"on the same board", "same tools", true},
		{"in the same pan", "same tools", false},
		{"wash the board", "tools washed", true},
		{"2.5 psi", "pressure", true},
	} {
		require.Equal(t, c.want, SignsOf(c.text).Tell(c.sign), "%s: %s", c.text, c.sign)
	}
}

// A stem is the stem of itself.
func TestStem(t *testing.T) {
	for in, want := range map[string]string{"washes": "wash", "washed": "wash", "washing": "wash", "grilled": "gril", "grill": "gril", "smoke": "smok", "smoked": "smok", "berries": "berri", "coals": "coal", "thawing": "thaw", "loss": "los", "egg": "egg"} {
		require.Equal(t, want, stem(in), in)
	}
}
