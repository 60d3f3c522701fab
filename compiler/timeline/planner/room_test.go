package planner

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler/timeline/answer"
)

// One cook fries for 100 minutes. By hand (see TestHandsVary): a minute late 44.6 times in
// 100, and 15 min earlier would make it 95 on time. Late in spite of five to spare, by six
// minutes of the triangle and more: (12.09/18.09)²/2 = 22.3; of ten: (7.09/18.09)²/2 = 7.7.
const fryTable = `kitchen Hut
  cooks Ana
  rings 4
menu Lunch
  covers 4
  on the table 2027-05-02 13:00
  at Hut
  hours on the day, 08:00 to 14:00
  course Main
    Fritters
dish Fritters
  serves 4
  gather
    500 g parsnips
  method
    - Fry the parsnips.
      | ring high | work 100 min
  serve hot, within 30 min
`

// What would often be late has minutes to spare before the table, where the hours and what
// is written of waiting leave them: as many as help, ten at most.
func TestRoomBeforeTheTable(t *testing.T) {
	for _, c := range []struct {
		name, from, to string
		spare          int // minutes
		odds           float64
	}{
		{"room", "", "", 10, 92.3},
		{"served at once", "within 30 min", "within 5 min", 0, 55.4},
		{"within a quarter of an hour", "within 30 min", "within 15 min", 10, 92.3},
		{"within ten", "within 30 min", "within 10 min", 5, 77.7},
		{"no hours", "  hours on the day, 08:00 to 14:00\n", "", 0, 55.4},
		{"nobody there", "08:00", "11:20", 0, 55.4},
		{"there five minutes before", "08:00", "11:15", 5, 77.7},
		{"hardly any work", "100 min", "5 min", 0, 100},
		{"cold", "serve hot", "serve cold", 10, 92.3},
	} {
		line := onTime(t, strings.Replace(fryTable, c.from, c.to, min(1, len(c.from))))
		fry := job(line, t, "Fry the parsnips")
		require.Equal(t, c.spare, at(13, 0)-fry.End(), c.name)
		require.InDelta(t, c.odds, 100*float64(line.Odds.OnTime)/float64(line.Odds.Runs), 4, c.name)
		if c.spare == 0 {
			require.NotContains(t, line.Note, "to spare", c.name)
			continue
		}
		require.Contains(t, line.Note, fmt.Sprintf("%d min to spare before Main, so that a slip is not late.", c.spare), c.name)
		require.GreaterOrEqual(t, fry.Slack, c.spare, "%s: it is no rule", c.name)
		require.Nil(t, answer.ResultOf(line).Set.Habits.Room, c.name)
	}
	_, why := onTime(t, fryTable).BoundWords()
	require.Contains(t, why, "leave less to spare before the table")
}

// A dish that is plated has its room before the plating.
func TestRoomBeforePlating(t *testing.T) {
	line := onTime(t, strings.Replace(fryTable, "  course Main", "  plates 75 s a cover\n  course Main", 1))
	plate := job(line, t, "Plate Main")
	require.Equal(t, at(13, 0), plate.End())
	require.Equal(t, 10, plate.Start()-job(line, t, "Fry the parsnips").End())
}

// What only stands begins to when it is left: the batter is whisked by 12:10 and fried from
// 12:50, so it stands from then, not for the last half hour alone. What comes out of the
// fridge is fetched when it must be.
func TestWhatStandsBeginsToWhenItIsLeft(t *testing.T) {
	kitchen, hours := "  cooks A\n  rings 4\n", "  hours on the day, 08:00 to 14:00\n  task Shell the nuts, work 20 min, before Main\n  course Main\n    Pancakes\n"
	for up, left := range map[string]int{"": 30, ", up to 4 h": 40} {
		line := plannedText(t, writtenMenu(kitchen, hours,
			writtenDish("Pancakes", "    500 g flour\n", "cold, within 4 h", "Whisk the flour. | work 10 min", "Let it stand. | leave 30 min"+up, "Boil it. | ring high | start 30 min before serving | work 30 min")))
		whisk, stand := job(line, t, "Whisk the flour"), job(line, t, "Let it stand")
		require.Less(t, stand.Start()-whisk.End(), 5)
		if up != "" {
			require.Equal(t, job(line, t, "Boil it").Start(), stand.End())
			continue
		}
		require.Equal(t, left, stand.End()-stand.Start())
	}
	line := plannedText(t, writtenMenu(kitchen, hours,
		writtenDish("Pancakes", "    500 g flour\n", "cold, within 4 h", "Whisk the flour. | work 10 min", "Chill it. | leave 2 h, up to 4 h | fridge", "Let it come to room temperature. | leave 30 min | room", "Boil it. | ring high | start 30 min before serving | work 30 min")))
	require.Equal(t, 30, job(line, t, "Boil it").Start()-job(line, t, "Let it come to room temperature").Start())
}

// Somebody who works for four hours and not a minute more has a break too.
func TestBreakInFourHours(t *testing.T) {
	line := plannedText(t, writtenMenu("  cooks A\n  rings 4\n", "  hours on the day, 06:00 to 14:00\n  course Main\n    Salad\n",
		writtenDish("Salad", "    1 kg parsnips\n", "cold, within 1 h", "Peel the parsnips. | work 2 h | keeps 1 day, fridge", "Slice. | work 2 h | keeps 1 day, fridge")))
	require.NotContains(t, line.Note, "No break")
	require.Equal(t, 10, job(line, t, "Break for A").End()-job(line, t, "Break for A").Start())
}

// A task that is to be done some minutes before serving is done about then.
func TestDoneBeforeServingIsNotDoneInTheMorning(t *testing.T) {
	line := plannedText(t, writtenMenu("  cooks A, B\n  rings 4\n", "  hours on the day, 08:00 to 14:00\n  task Make the coffee, work 6 min, done 5 min before serving, before Main\n  course Main\n    Salad\n",
		writtenDish("Salad", "    1 kg parsnips\n", "cold, within 1 h", "Peel the parsnips. | work 30 min", "Slice. | work 20 min", "Dish up. | work 6 min")))
	coffee := job(line, t, "Make the coffee")
	require.LessOrEqual(t, coffee.End(), at(11, 55))
	require.GreaterOrEqual(t, coffee.Start(), at(11, 40))
}
