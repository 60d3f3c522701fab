package planner

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/lang/diag"
)

// Meals that cannot be, and what a cook is told of them. The times were worked
// out by hand.

const barn = `kitchen Barn
  cooks Ida
  oven main, 1 shelf
  rings 2
larder
  units metric
`

func noPlan(t *testing.T, code, text string) *diag.Diagnostic {
	t.Helper()
	_, diags := planText(t, text)
	for _, d := range diags.Sorted() {
		if d.Code == code {
			return &d
		}
	}
	require.Fail(t, "no "+code, "%v", diags.Sorted())
	return nil
}

// Curd ripens for three days and the hours reach back to the day before. With
// 20 min of heating, 10 and 2 h of draining, 5 of pressing and 10 of slicing it
// would have to begin 2 h 45 min before 13:00, three days before.
func TestRipensLongerThanTheHours(t *testing.T) {
	d := noPlan(t, "P202", `menu Cheese lunch
  covers 6
  on the table 2027-05-15 13:00
  at Barn
  hours day before, 16:00 to 20:00
  hours on the day, 09:00 to 14:00
  course Main
    Pressed curd
dish Pressed curd
  serves 6
  gather
    3 l      milk
  method
    - Heat the milk.
      | ring medium | watch 20 min
    - Drain the curds.
      | work 10 min | leave 2 h | room
    - Press and let it ripen.
      | work 5 min | leave 3 days | fridge
    - Slice.
      | work 10 min
  serve cold
`+barn)
	require.Contains(t, d.Why, "to the table it takes at least 3 days 2 h 45 min, so that it would have to begin by 10:15 3 days before")
	require.Len(t, d.Help, 1)
	require.True(t, strings.HasPrefix(d.Help[0], "work 3 days before too: `hours 3 days before, 08:00 to 21:00` (Pressed curd is then made from 10:15 3 days before"), d.Help[0])
}

// Three pans that each want a pair of hands to the last minute: 6 min of chard
// that may wait 5 and 25 of potatoes that may wait 5 leave nobody for the bream.
func TestThreePansAtOnce(t *testing.T) {
	d := noPlan(t, "P202", `menu Three pans
  covers 4
  on the table 2027-05-16 19:00
  at Barn
  course Main
    Fried bream
    Fried potatoes
    Wilted chard
dish Fried bream
  serves 4
  gather
    4        bream fillets
  method
    - Fry the bream.
      | ring high | watch 10 min
  serve hot, within 3 min
dish Fried potatoes
  serves 4
  gather
    800 g    potatoes
  method
    - Fry the potatoes.
      | ring high | watch 25 min
  serve hot, within 5 min
dish Wilted chard
  serves 4
  gather
    600 g    chard
  method
    - Wilt the chard.
      | watch 6 min
  serve hot, within 5 min
`+barn)
	require.Contains(t, d.Why, "All there is for it is one cook")
	require.Contains(t, d.Why, "serving Main must come within 3 min of step 1 of Fried bream")
	require.Equal(t, []string{"find two more cooks"}, d.Help)
}

// A joint takes 2 h 5 min and somebody is there from 11:00: it would have to
// begin at 10:55, and on the clock of five is served at 13:05.
func TestHoursTooShortOnTheDay(t *testing.T) {
	d := noPlan(t, "P201", `menu Joint
  covers 6
  on the table 2027-05-16 13:00
  at Barn
  hours on the day, 11:00 to 14:00
  course Main
    Leg of mutton
dish Leg of mutton
  serves 6
  gather
    2 kg     leg of mutton
  method
    - Roast the mutton.
      | ring low | work 5 min | leave 1 h 30 min
    - Rest the mutton.
      | leave 20 min | room
    - Carve.
      | work 10 min
  serve hot, within 10 min
`+barn)
	require.Contains(t, d.Message, "5 min late: served at 13:05")
	require.Contains(t, d.Why, "it takes at least 2 h 5 min, so that it would have to begin by 10:55")
	require.Equal(t, []string{"serve 15 min later", "begin at 10:00 on the day, 1 h earlier (Leg of mutton is then made from 10:55 to 13:00)"}, d.Help[:2])
}

// Late with a step that is only done if needed: without it the meal is on time.
func TestLateWithoutNeed(t *testing.T) {
	soup := recipe("Soup", step("Simmer", ring, leave(30)), step("Skim", work(10), ifNeeded), step("Pour", work(5)), hot(10))
	line := newMeal(farmhouse()).serve("Main", at(13, 0), soup).planned(t)
	require.Equal(t, at(12, 15), job(line, t, "Simmer").Start())
	r := replanned(t, line, job(line, t, "Simmer"), 10)
	require.Equal(t, at(13, 10), r.Servings[0].Served)
	require.Equal(t, []string{"leave out step 2 of Soup (Skim), only done if needed", "serve what is left 10 min later"}, r.Cures)
}
