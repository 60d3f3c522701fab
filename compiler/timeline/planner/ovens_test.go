package planner

import (
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler/events"
	"tamis/render/plantext"
)

// two is a menu of a tart, served at noon, and a loaf of half an hour, served so
// many minutes after half past twelve: they want one oven.
func two(tart, loaf, oven string, after int) string {
	return `menu Lunch
  covers 6
  on the table 2027-09-19 12:00
  at Cottage
  course First, at 12:00
    Tart
  course Second, at 12:` + strconv.Itoa(30+after) + `
    Loaf
dish Tart
  serves 6
  gather
    1 kg     leeks
  method
    - Bake the tart of leeks.
      | oven ` + tart + ` | leave 40 min
  serve hot, within 10 min
dish Loaf
  serves 6
  gather
    1 kg     dough
  method
    - Bake the loaf of dough.
      | oven ` + loaf + ` | leave 30 min
  serve hot, within 10 min
kitchen Cottage
  cooks Ana
  oven main, 2 shelves, ` + oven + `
larder
  units metric
`
}

// The oven is ready for the second heat when the change by degrees is done: an
// oven of 15 min goes up by 60 °C in 5 min and down by 20. The turn is printed
// so long before; heats that meet need none.
func TestChangeByDegrees(t *testing.T) {
	for _, c := range []struct {
		tart, loaf, oven string
		minutes          int // 0: one heat does
	}{
		{"180 C", "220 C", "preheat 15 min", 5},
		{"180 C", "240 C", "preheat 15 min", 5},
		{"160 C", "240 C", "preheat 15 min", 10},
		{"220 C", "200 C", "preheat 15 min", 5},
		{"220 C", "180 C", "preheat 15 min", 10},
		{"240 C", "180 C", "preheat 15 min", 15},
		{"180 to 200 C", "200 to 220 C", "preheat 15 min", 0},
		{"180 C", "220 C", "preheat 45 min", 10},
		{"180 C", "220 C", "heats 10 C within 5 min", 20},
		{"180 C", "220 C", "heats 18 F within 5 min", 20}, // 18 °F are 10 °C
		{"220 C", "180 C", "cools 40 C within 1 min", 5},
	} {
		name := c.tart + " then " + c.loaf + ", " + c.oven
		line := onTime(t, two(c.tart, c.loaf, c.oven, max(c.minutes, 10)))
		if c.minutes == 0 {
			require.Len(t, line.Heats, 1, name)
			continue
		}
		require.Len(t, line.Heats, 2, name)
		first, second := line.Heats[0], line.Heats[1]
		require.False(t, first.Turned, name)
		require.Equal(t, at(12, 0), first.End, name)
		require.InDelta(t, c.minutes, second.Start-second.Preheat, 2, "%s: turned when hands are free", name)
		require.True(t, second.Turned, name)
		require.Contains(t, plantext.RunSheet(events.Of(line), 1), "Turn the main oven to", name)
	}
}

// With less time than the change takes there is no plan: a tart at 240 °C until
// ten to twelve at the earliest and a loaf of 30 min at 160 for 12:35 leave 15
// min for 80 °C, which take 20.
func TestTooSoonForTheChange(t *testing.T) {
	line := onTime(t, two("240 C", "160 C", "preheat 15 min", 10))
	require.Equal(t, 20, line.Heats[1].Start-line.Heats[1].Preheat)
	line, diags := planText(t, two("240 C", "160 C", "preheat 15 min", 5))
	if line != nil {
		require.Positive(t, line.Late)
	}
	require.Contains(t, diags.Sorted()[0].Why, "at one heat at a time")
}

// Two heats in one step: the oven is turned when the first has been on for its
// time, though the second is only reached later.
func TestTurnedWithinAStep(t *testing.T) {
	line := onTime(t, two("230 C for 10 min then 170 C", "170 C", "preheat 15 min", 10))
	require.Equal(t, []int{230, 170}, []int{line.Heats[0].Celsius, line.Heats[1].Celsius})
	require.Equal(t, at(11, 30), line.Heats[1].Preheat)
	require.Equal(t, at(11, 45), line.Heats[1].Start, "60 °C down, 15 min")
	require.Len(t, line.Heats, 2, "and so it stays for the loaf")
}
