package planner

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// A salad and a fry-up for one o'clock, and one cook, who is there from eight.
const fryUp = `kitchen Hut
  cooks Ana
  rings 4
menu Lunch
  covers 4
  on the table 2027-05-02 13:00
  at Hut
  hours on the day, 08:00 to 14:00
  course Main
    Salad
    Fry up
dish Salad
  serves 4
  gather
    500 g beetroot, sliced | work 10 min
  method
    - Marinate the beetroot.
      | work 30 min | keeps 1 day, fridge
    - Dish up.
      | work 2 min
  serve cold, within 4 h
dish Fry up
  serves 4
  gather
    500 g parsnips
  method
    - Fry the parsnips.
      | ring high | work 30 min
  serve hot, within 5 min
`

// Cold work that keeps is done an hour before the first serving where the cooks are
// there: the beetroot is sliced, marinated and dished up by 12:00, one after the other
// on the clock of five, and the last hour is the frying's. Without hours, or where it
// does not keep, all of it is as late as it may be, with the five minutes that its dish may
// stand to spare.
func TestColdWorkEarly(t *testing.T) {
	for _, c := range []struct {
		name, from, to        string
		slice, mix, dish, fry int
		bound                 string
	}{
		{"keeps", "", "", at(11, 15), at(11, 25), at(11, 55), at(12, 25), "Begins 25 min before it must"},
		{"no hours", "  hours on the day, 08:00 to 14:00\n", "", at(11, 45), at(11, 55), at(12, 25), at(12, 30), "Cannot start later"},
		{"is eaten fresh", "cold, within 4 h", "cold, within 20 min", at(11, 20), at(11, 30), at(12, 55), at(12, 25), "Begins 25 min before it must"},
		{"nobody says that it keeps", " | keeps 1 day, fridge", "", at(11, 40), at(11, 50), at(12, 20), at(12, 25), "At most 4 min (5 %) better is possible"},
		{"is cut fresh", "beetroot, sliced", "lettuce, shredded", at(11, 15), at(11, 25), at(11, 55), 0, ""},
	} {
		text := strings.ReplaceAll(fryUp, c.from, c.to)
		if c.from == "" {
			text = fryUp
		}
		if strings.Contains(c.to, "lettuce") {
			text = strings.ReplaceAll(text, "the beetroot", "the lettuce")
		}
		line := onTime(t, text)
		prep := job(line, t, map[bool]string{true: "beetroot, sliced", false: "lettuce, shredded"}[strings.Contains(text, "beetroot")])
		mix := line.Jobs[1]
		if c.bound == "" { // it goes with what follows it, and no sooner than it must
			require.Equal(t, mix.Start(), prep.End(), c.name)
			continue
		}
		require.Equal(t, []int{c.slice, c.mix, c.dish}, []int{prep.Start(), mix.Start(), job(line, t, "Dish up").Start()}, c.name)
		require.Equal(t, c.fry, job(line, t, "Fry the parsnips").Start(), c.name)
		require.Equal(t, c.bound, bound(line), c.name)
	}
	text, why := onTime(t, fryUp).BoundWords()
	require.Equal(t, "Begins 25 min before it must: cold work is done before the rush; a plan that begins after 11:44 would be late, or keep food waiting longer, or be less tidy: a thing cut twice, knives out in service, a dish in two hands, or leave less to spare before the table", text+": "+why)
}

// A task before a dish is done before the course of that dish, not before the first.
func TestATaskBeforeADish(t *testing.T) {
	menu := func(before string) int {
		line := plannedText(t, writtenMenu("  cooks A, B\n  rings 2\n", "  hours on the day, 08:00 to 15:00\n  task Light the candles, work 5 min, before "+before+"\n  course First\n    Soup\n  course Main, 1 h after First\n    Stew\n",
			writtenDish("Soup", "    1 kg leeks\n", "hot, within 5 min", "Watch the leeks. | ring low | watch 20 min")+
				writtenDish("Stew", "    1 kg onions\n", "hot, within 5 min", "Watch the onions. | ring low | watch 45 min")))
		return job(line, t, "Light the candles").End()
	}
	require.LessOrEqual(t, menu("Soup"), 12*60)
	require.Greater(t, menu("Stew"), 12*60)
	require.LessOrEqual(t, menu("Stew"), 13*60)
}

// A task that only has to be done before a course is not left to the last half hour, where
// somebody is free sooner, when it sets up; what would be cold again is.
func TestTasksAreNotLeftToTheRush(t *testing.T) {
	at := func(task string) int {
		line := plannedText(t, writtenMenu("  cooks A, B\n  rings 2\n", "  hours on the day, 08:00 to 14:00\n  task "+task+", work 5 min, before Main\n  course Main\n    Stew\n",
			writtenDish("Stew", "    1 kg onions\n", "hot, within 5 min", "Watch the onions. | ring low | watch 45 min")))
		return job(line, t, task).End()
	}
	require.LessOrEqual(t, at("Light the hot cupboard"), 11*60)
	require.LessOrEqual(t, at("Fill the water jugs"), 11*60)
	require.Greater(t, at("Warm the plates"), 11*60+30)
	require.Greater(t, at("Light the candles"), 11*60+30)
	require.Greater(t, at("Load the baskets"), 11*60+30, "what goes in is not ready")
}
