package compiler_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler/sheets"
	"tamis/compiler/timeline"
)

const pinned = `menu Supper
  covers 4
  on the table 2027-09-19 13:00
  at Home
  course Main
    Leek pie
      step 1: at 11:50, by Nell
      step 2: in small
kitchen Home
  cooks Omar, Nell
  oven main, 2 shelves
  oven small
dish Leek pie
  serves 4
  gather
    600 g leeks, sliced | work 10 min | by Omar
    300 g puff pastry
  method
    - Fill the puff pastry with the leeks.
      | work 10 min
    - Bake until brown.
      | oven 200 C | leave 30 min
  serve hot, within 15 min
`

func byNumber(t *testing.T, m *made, n int) *timeline.Job {
	t.Helper()
	for _, j := range m.Timelines[0].Jobs {
		if j.Number == n && j.Step != nil {
			return j
		}
	}
	require.Fail(t, "no such step")
	return nil
}

// A pin fixes when a step begins, who does it and in which oven; without the pins the
// plan would do it otherwise. `by` on a gathered line says who prepares it.
func TestPins(t *testing.T) {
	m := compiled(t, tried{text: pinned})
	fill, bake := byNumber(t, m, 1), byNumber(t, m, 2)
	require.Equal(t, 11*60+50, fill.Start())
	require.Equal(t, []string{"Nell"}, fill.Cooks)
	require.Equal(t, "small", bake.Oven)
	for _, j := range m.Timelines[0].Jobs {
		if j.Line != nil {
			require.Equal(t, []string{"Omar"}, j.Cooks)
		}
	}
	require.Regexp(t, `11:50 A Fill the puff pastry`, m.words(sheets.RunSheet))
	free := compiled(t, tried{text: with(t, with(t, pinned, "      step 1: at 11:50, by Nell\n", ""), "      step 2: in small\n", "")})
	require.NotEqual(t, 11*60+50, byNumber(t, free, 1).Start())

	m = compiled(t, tried{text: with(t, with(t, pinned, "step 1: at 11:50, by Nell", "step 1: at day before, 17:30"), "    - Bake", "    pause up to 1 day, fridge\n    - Bake")})
	require.Equal(t, 17*60+30-timeline.Day, byNumber(t, m, 1).Start())
}

func TestPinsThatCannotBe(t *testing.T) {
	for _, c := range [][2]string{ // what it is, and what it becomes
		{"step 2: in small", "step 3: in small"},
		{"in small", "in large"},
		{"by Nell", "by Nel"},
		{"  on the table 2027-09-19 13:00\n", ""},
		{"step 1: at 11:50, by Nell", "step 1: in small"},
		{"step 2: in small", "step 1: by Omar"},
		{"    Leek pie\n      step", "    Leek pie, from the shop\n      step"},
		{"    Leek pie\n      step", "    Leek pie, to be written\n      step"},
	} {
		was, now := c[0], c[1]
		found := false
		for _, d := range foundIn(t, map[string]string{"a.tamis": with(t, pinned, was, now)}) {
			found = found || d.Code == "M115"
		}
		require.True(t, found, now)
	}
}
