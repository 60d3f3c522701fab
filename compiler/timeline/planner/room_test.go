package planner

import (
	"context"
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler/timeline"
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
		{"served at once", "within 30 min", "within 1 min", 0, 55.4},
		{"within five", "within 30 min", "within 5 min", 5, 77.7},
		{"within a quarter of an hour", "within 30 min", "within 15 min", 10, 92.3},
		{"within ten", "within 30 min", "within 10 min", 10, 92.3},
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

// What only stands begins to when it is left. By hand: the one cook watches a stew for 50
// minutes before the last five, so the flour is whisked before that, and stands from then,
// not for the last half hour alone. What comes out of the fridge is fetched when it must be.
func TestWhatStandsBeginsToWhenItIsLeft(t *testing.T) {
	kitchen, hours := "  cooks A\n  rings 4\n", "  hours on the day, 08:00 to 14:00\n  course Main\n    Pancakes\n    Stew\n"
	stew := writtenDish("Stew", "    1 kg onions\n", "hot, within 5 min", "Watch the onions. | ring low | watch 50 min")
	pancakes := func(steps ...string) string {
		return writtenMenu(kitchen, hours, stew+writtenDish("Pancakes", "    500 g flour\n", "cold, within 4 h", append(append([]string{"Whisk the flour. | work 10 min"}, steps...), "Stir it. | start 5 min before serving | work 5 min")...))
	}
	for _, up := range []string{"", ", up to 4 h"} {
		line := plannedText(t, pancakes("Let it stand. | leave 30 min"+up))
		whisk, stand, stir := job(line, t, "Whisk the flour"), job(line, t, "Let it stand"), job(line, t, "Stir it")
		require.GreaterOrEqual(t, stir.Start()-whisk.End(), 50)
		require.Less(t, stand.Start()-whisk.End(), 5)
		if up == "" {
			require.Equal(t, 30, stand.End()-stand.Start())
		} else {
			require.Equal(t, stir.Start(), stand.End(), "it may stand longer")
		}
	}
	line := plannedText(t, pancakes("Chill it. | leave 2 h, up to 4 h | fridge", "Let it come to room temperature. | leave 30 min | room"))
	require.Equal(t, 30, job(line, t, "Stir it").Start()-job(line, t, "Let it come to room temperature").Start())
}

// hardMenu is the plan of a menu written to be hard.
func hardMenu(t *testing.T, name string) *timeline.Timeline {
	t.Helper()
	meals, _ := mealsOf(t, os.DirFS("../../../testdata/menus/"+name))
	require.Len(t, meals, 1)
	line := Plan(context.Background(), meals[0], timeline.Options{Known: &known}, nil)
	require.NotNil(t, line)
	return line
}

// At a brunch for eleven the coffee is made at the end of the hour, not before the cooking,
// and the batter stands from when it is whisked. The one cook of a roast has a break in her
// four hours.
func TestHardMenusAsTheirCooksWouldHaveThem(t *testing.T) {
	brunch := hardMenu(t, "cafe-brunch")
	require.GreaterOrEqual(t, job(brunch, t, "Make the coffee").Start(), at(10, 35))
	require.LessOrEqual(t, job(brunch, t, "Make the coffee").End(), at(10, 55))
	require.Less(t, job(brunch, t, "Let the batter stand").Start()-job(brunch, t, "Whisk the flour").End(), 5)

	// What may stand over night by what is written is baked the day before, when hands are
	// idle; scones, which keep three hours, are not.
	sale := hardMenu(t, "parish-bake-sale")
	for _, title := range []string{"Roll and cut", "Bake blind", "Beat in the eggs and fold"} {
		require.Less(t, job(sale, t, title).End(), 0, title)
	}
	require.Positive(t, job(sale, t, "Cut out").Start())
	require.Contains(t, sale.Note, "Shortbread is made the day before, when hands are idle.")

	roast := hardMenu(t, "cottage-roast")
	require.NotContains(t, roast.Note, "No break")
	require.Positive(t, job(roast, t, "Break for Ada").Start())
	require.Greater(t, job(roast, t, "Brown the onions").Start(), job(roast, t, "Wash up the boards of Gravy").Start())
}

// Room lies before each course that has it, where not all have, and a little of it behind the
// plating: of a hundred evenings at the least so many are on time, where 57, 75, 60 and 34 were
// with none. The wedding's beans go at once, so that its Main has no room.
func TestRoomBeforeEachCourseThatHasIt(t *testing.T) {
	for name, least := range map[string]int{"seven-courses": 95, "cafe-day": 95, "chapel-supper": 95, "wedding-breakfast": 55} {
		line := hardMenu(t, name)
		require.Zero(t, line.Late, name)
		require.GreaterOrEqual(t, line.Odds.Hundredth(line.Odds.OnTime), least, name)
		require.Contains(t, line.Note, "to spare before", name)
	}
	// What keeps a day is done the day before: the chicken is stuffed, the ice is frozen.
	wedding := hardMenu(t, "wedding-breakfast")
	require.Less(t, job(wedding, t, "Stuff the chicken breasts").End(), 0)
	require.Less(t, job(hardMenu(t, "seven-courses"), t, "Blend and freeze").Start(), 0)
}
