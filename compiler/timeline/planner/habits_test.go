package planner

import (
	"context"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"tamis/compiler/events"
	"tamis/compiler/timeline"
	"tamis/lang/diag"
)

// plannedText plans the one menu of a text.
func plannedText(t *testing.T, text string) *timeline.Timeline {
	t.Helper()
	meals, _ := mealsOf(t, fstest.MapFS{"menu.tamis": {Data: []byte(text)}})
	require.Len(t, meals, 1)
	line := Plan(context.Background(), meals[0], timeline.Options{}, &diag.List{})
	require.NotNil(t, line)
	return line
}

func writtenMenu(kitchen, menu, dishes string) string {
	return "kitchen K\n" + kitchen + "menu M\n  covers 12\n  on the table 2027-05-02 12:00\n  at K\n" + menu + dishes
}

func writtenDish(name, gather, serve string, steps ...string) string {
	text := "dish " + name + "\n  serves 12\n  gather\n" + gather + "  method\n"
	for _, s := range steps {
		said, margin, _ := strings.Cut(s, " | ")
		if strings.HasPrefix(s, "pause") {
			text += "    " + s + "\n"
			continue
		}
		text += "    - " + said + "\n      | " + margin + "\n"
	}
	return text + "  serve " + serve + "\n"
}

// The same cut for two dishes is one job of one cook, ready when the boards are clear:
// 30 min before the first serving, where the kitchen says so, and 45 where it does not.
func TestOneCutOneJob(t *testing.T) {
	dishes := writtenDish("Soup", "    4 onions, finely chopped | work 4 min\n", "hot, within 10 min", "Simmer the onions. | ring low | work 5 min | leave 20 min") +
		writtenDish("Stew", "    4 onions, finely chopped | work 6 min\n", "hot, within 10 min", "Fry the onions. | ring high | work 12 min")
	for kitchen, shut := range map[string]int{"  knives down 30 min before\n": 11*60 + 30, "": 11*60 + 15} {
		line := plannedText(t, writtenMenu("  cooks A, B\n  rings 4\n"+kitchen, "  hours on the day, 08:00 to 14:00\n  course First\n    Soup\n    Stew\n", dishes))
		var cuts []*timeline.Job
		for _, j := range line.Jobs {
			if j.Kind == timeline.PrepJob {
				cuts = append(cuts, j)
			}
		}
		require.Len(t, cuts, 2)
		require.Equal(t, cuts[0].End(), cuts[1].Start())
		require.Equal(t, cuts[0].Cooks, cuts[1].Cooks)
		require.LessOrEqual(t, cuts[1].End(), shut)
	}
}

// What may wait a day and costs nothing more is made the day before where hands are idle
// then, and the plan says so; what has to be chilled and brought back for it only where
// the day is full.
func TestDayBeforeIsUsed(t *testing.T) {
	menu := func(dish string, work string) *timeline.Timeline {
		return plannedText(t, writtenMenu("  cooks A\n  oven main, 1 shelf\n  rings 4\n", "  hours day before, 14:00 to 18:00\n  hours on the day, 08:00 to 14:00\n  course Main\n    Cake\n    Fry up\n",
			dish+writtenDish("Fry up", "    1 kg parsnips\n", "cold, within 4 h", "Fry the parsnips. | ring high | work "+work)))
	}
	cake := writtenDish("Cake", "    1 kg batter\n", "at room temperature", "Bake the batter. | oven 180 C | work 10 min | leave 40 min", "pause up to 2 days, room", "Cut. | work 5 min")
	line := menu(cake, "10 min")
	require.Negative(t, job(line, t, "Bake the batter").Start())
	require.Contains(t, line.Note, "Cake is made the day before, when hands are idle.")

	pot := writtenDish("Cake", "    1 kg lentils\n", "hot, within 10 min", "Boil the lentils. | ring low | work 30 min | leave 20 min",
		"Cool and chill. | only before a pause | work 4 min | leave 40 min | reach 8 C", "pause up to 1 day, fridge", "Bring back. | only after a pause | ring medium | work 3 min | leave 10 min | core 75 C", "Dish up. | work 3 min")
	require.Positive(t, job(menu(pot, "10 min"), t, "Boil the lentils").Start(), "there is time enough on the day")
	require.Negative(t, job(menu(pot, "2 h"), t, "Boil the lentils").Start(), "there is not")
}

// Plating for twelve at 20 s is four minutes of hands before each course goes out; the
// table is cleared before the second; cleaning down comes when all is over.
func TestServiceIsWork(t *testing.T) {
	line := plannedText(t, writtenMenu("  cooks A, B\n  rings 4\n  plates 20 s a cover\n  clears 5 min, after each course\n  cleans down 30 min\n",
		"  hours on the day, 05:00 to 14:00\n  course First\n    Soup\n  course Main, 30 min after First\n    Salad\n",
		writtenDish("Soup", "    1 kg onions\n", "hot, within 10 min", "Simmer the onions. | ring low | work 5 min | leave 30 min")+
			writtenDish("Salad", "    1 kg parsnips\n", "cold, within 1 h", "Peel the parsnips. | work 3 h | keeps 1 day, fridge", "Slice. | work 3 h | keeps 1 day, fridge", "Dish up. | work 10 min")))
	first, clear, second := job(line, t, "Plate First"), job(line, t, "Clear First"), job(line, t, "Plate Main")
	require.Equal(t, 4, first.End()-first.Start())
	require.InDelta(t, 12*60, first.End(), 4)
	require.Equal(t, 5, clear.End()-clear.Start())
	require.GreaterOrEqual(t, clear.Start(), 12*60)
	require.LessOrEqual(t, clear.End(), 12*60+30)
	require.InDelta(t, 12*60+30, second.End(), 4)
	down := job(line, t, "Clean down")
	require.GreaterOrEqual(t, down.Start(), job(line, t, "Clear the table").Start())
	require.Equal(t, 30, down.End()-down.Start())
	require.Contains(t, strings.Join(events.Of(line).Calls(), "\n"), "Call times: ")
}

// Whoever works for more than four hours has a break of ten minutes in it.
func TestBreaks(t *testing.T) {
	line := plannedText(t, writtenMenu("  cooks A\n  rings 4\n", "  hours on the day, 05:00 to 14:00\n  course Main\n    Salad\n",
		writtenDish("Salad", "    1 kg parsnips\n", "cold, within 1 h", "Peel the parsnips. | work 3 h | keeps 1 day, fridge", "Slice. | work 3 h | keeps 1 day, fridge", "Dish up. | work 10 min")))
	var work []timeline.Spell
	for _, j := range line.Jobs {
		if j.Title != "Break for A" {
			work = append(work, timeline.Spell{From: j.Start(), To: j.End()})
		}
	}
	from := work[0].From
	for i, s := range work {
		if i > 0 && s.From-work[i-1].To >= 10 {
			from = s.From
		}
		require.LessOrEqual(t, s.To-from, 4*60, "from %d", from)
	}
}
