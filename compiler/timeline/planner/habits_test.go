package planner

import (
	"context"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

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
	line = menu(writtenDish("Cake", "    1 kg plums\n", "at room temperature", "Stone the plums. | work 20 min", "pause up to 2 days, fridge", "Bake the plums. | oven 180 C | work 5 min | leave 40 min"), "10 min")
	require.Negative(t, job(line, t, "Stone the plums").Start())
	require.Contains(t, line.Note, "Cake is begun the day before, when hands are idle.", "it is baked on the day")

	pot := writtenDish("Cake", "    1 kg lentils\n", "hot, within 10 min", "Boil the lentils. | ring low | work 30 min | leave 20 min",
		"Cool and chill. | only before a pause | work 4 min | leave 40 min | reach 8 C", "pause up to 1 day, fridge", "Bring back. | only after a pause | ring medium | work 3 min | leave 10 min | core 75 C", "Dish up. | work 3 min")
	require.Positive(t, job(menu(pot, "10 min"), t, "Boil the lentils").Start(), "there is time enough on the day")
	require.Negative(t, job(menu(pot, "2 h"), t, "Boil the lentils").Start(), "there is not")
}

// What is cut fresh waits for no more than an hour where the plan can be so, for one dish or
// for several.
func TestFreshCutWaitsForNobody(t *testing.T) {
	for _, salad := range []string{"3 avocados", "3 radishes"} {
		line := plannedText(t, writtenMenu("  cooks A\n  rings 4\n", "  hours on the day, 08:00 to 16:00\n  course First\n    Salad\n  course Main, 45 min after First\n    Ragout\n",
			writtenDish("Salad", "    "+salad+", sliced | work 5 min\n", "cold, within 2 h", "Dress the "+salad[2:]+". | work 5 min")+
				writtenDish("Ragout", "    1 kg lentils\n    3 avocados, sliced | work 5 min\n", "hot, within 10 min", "Watch the lentils. | ring low | watch 70 min", "Top with the avocados. | work 5 min")))
		require.Zero(t, line.Late)
		seen := 0
		for _, j := range line.Jobs {
			if j.Kind != timeline.PrepJob || !strings.Contains(j.Title, "avocado") {
				continue
			}
			seen++
			used := job(line, t, "Top with the avocados")
			if j.Making.Recipe.Name == "Salad" {
				used = job(line, t, "Dress the avocados")
			}
			require.LessOrEqual(t, used.Start()-j.End(), 60, "%s: %s", salad, j.Making.Recipe.Name)
		}
		require.NotZero(t, seen)
	}
}

// A job is called by what is made of it: its step's amounts at the size of the menu.
func TestJobsAreCalledByTheAmountsMade(t *testing.T) {
	line := plannedText(t, writtenMenu("  cooks A\n  rings 4\n", "  hours on the day, 08:00 to 16:00\n  course Main\n    Pilaf\n",
		strings.Replace(writtenDish("Pilaf", "    500 g barley\n", "hot, within 10 min", "Boil 400 g of the barley. | ring low | watch 70 min", "Add the rest of the barley. | work 5 min"), "serves 12", "serves 4", 1)))
	j := line.Jobs[0]
	require.Equal(t, "Boil 1.2 kg of the barley", j.Title)
	said := ""
	for _, s := range Slips(context.Background(), line, true) {
		said += s.Words + "\n" + s.Brief + "\n"
	}
	said += line.Note + strings.Join(line.Jobs[1].Holds, "\n")
	require.Contains(t, said, "1.2 kg")
	require.NotContains(t, said, "400 g")
}

// Where one cook has raw fish and then at once what another dish eats raw, the plan says
// that the board is washed between; what goes into one dish meets there anyhow.
func TestOneBoardIsNamed(t *testing.T) {
	menu := func(salad string) string {
		return plannedText(t, writtenMenu("  cooks A\n  rings 4\n", "  hours on the day, 11:00 to 14:00\n  course Main\n    Fish\n    Salad\n",
			writtenDish("Fish", "    1 kg salmon, skinned | work 30 min\n", "hot, within 5 min", "Watch the salmon. | ring low | watch 20 min")+salad)).Note
	}
	require.Regexp(t, `Wash hands, board and knife between: cucumbers, sliced after salmon, skinned \(11:\d\d\)`,
		menu(writtenDish("Salad", "    2 cucumbers, sliced | work 5 min\n", "cold, within 10 min", "Dress the cucumbers. | work 5 min")))
	require.NotContains(t, menu(writtenDish("Salad", "    2 cucumbers, sliced | work 5 min\n", "hot, within 10 min", "Fry the cucumbers. | ring high | work 5 min")), "Wash hands")
}
