package sheets

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
)

// The list of sheets stands before the cautions of the first sheet and what
// follows them; a sheet without one, or without cautions, is whole.
func TestAroundTheListOfSheets(t *testing.T) {
	h, c, l := &Heading{Text: "Bases"}, &Cautions{}, &List{}
	s := &Sheet{Contents: true, Blocks: []Block{h, c, l}}
	before, after := s.Around()
	require.Equal(t, []Block{h}, before)
	require.Equal(t, []Block{c, l}, after)
	s.Contents = false
	before, after = s.Around()
	require.Len(t, before, 3)
	require.Empty(t, after)
	before, after = (&Sheet{Contents: true, Blocks: []Block{h, l}}).Around()
	require.Len(t, before, 2)
	require.Empty(t, after)
}

// A panel writes its moments as times of day, or counted from its zero.
func TestTimesOfAPanel(t *testing.T) {
	day := &Panel{}
	require.Equal(t, "09:05", day.Time(9*60+5))
	require.Equal(t, "00:30", day.Time(24*60+30), "what goes past midnight")
	counted := &Panel{Counts: true, Zero: 1080}
	require.Equal(t, "T", counted.Time(1080))
	require.Equal(t, "T−1:30", counted.Time(990))
	require.Equal(t, "T+0:05", counted.Time(1085))
}

// Every usual sheet is a kind of sheet, in the order they are bound.
func TestKindsAreBoundInOrder(t *testing.T) {
	all := Kinds()
	last := -1
	for _, k := range DefaultKinds() {
		at := slices.Index(all, k)
		require.Greater(t, at, last, k)
		last = at
	}
	require.Len(t, slices.Compact(slices.Sorted(slices.Values(all))), len(all), "each once")
}
