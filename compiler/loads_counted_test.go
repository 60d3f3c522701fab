package compiler_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"
)

// A pan that holds so many slices is filled by the slice: what is counted in them
// is divided by them, and what is weighed is never divided by a count. The minutes
// are 4 times the loads, by hand.
func TestLoadsOfWhatIsCounted(t *testing.T) {
	for _, c := range []struct {
		line, vessel string
		covers       int
		minutes      int
		codes        []string
	}{
		{"12 slices bacon", "in wide pan, holds 6 slices", 4, 8, nil},
		{"12 slices bacon", "in wide pan, holds 6 slices", 5, 12, nil}, // 15 slices
		{"12 slices bacon", "in wide pan, holds 6 slices", 2, 4, nil},
		{"12 slices bacon", "in 2 wide pans, holds 6 slices", 8, 8, nil},       // 24 slices, 12 at a time
		{"600 g bacon", "in wide pan, holds 300 g", 4, 8, nil},                 // as ever
		{"600 g bacon", "in wide pan, holds 6 slices", 4, 4, []string{"P111"}}, // not 100 loads
		{"12 rashers bacon", "in wide pan, holds 6 slices", 4, 4, []string{"P111"}},
	} {
		t.Run(fmt.Sprintf("%s %s for %d", c.line, c.vessel, c.covers), func(t *testing.T) {
			text := fmt.Sprintf("menu M\n  covers %d\n  on the table 2027-05-02 12:00\n  at K\n  course Main\n    Bacon\nkitchen K\n"+plainKitchen+
				"dish Bacon\n  serves 4\n  gather\n    %s | from the shop\n  method\n    - Fry the bacon. | ring medium | %s | watch 4 min per load\n  serve hot\n", c.covers, c.line, c.vessel)
			m := compiled(t, tried{text: text})
			j := m.job("Fry the bacon")
			require.Equal(t, c.minutes, int(j.End()-j.Start()))
			for _, code := range []string{"P111", "H113"} {
				if len(c.codes) > 0 && code == c.codes[0] {
					require.Contains(t, m.codes(), code)
				} else {
					require.NotContains(t, m.codes(), code)
				}
			}
		})
	}
}

// Six slices are no six millilitres: a pan of them is not too small for 600 g.
func TestVesselOfSlicesIsNotMeasured(t *testing.T) {
	m := compiled(t, tried{text: "dish Bacon\n  serves 4\n  gather\n    600 g bacon | from the shop\n  method\n    - Fry the bacon. | ring medium | in wide pan, holds 6 slices | watch 4 min\n  serve hot\n"})
	require.NotContains(t, m.codes(), "H113")
}
