package planner

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler/events"
	"tamis/compiler/timeline"
)

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

// A course is plated when its dishes are ready, and what is left on the heat until then is
// off before; not when a step is written to end at the pass.
func TestPlatedWhenReady(t *testing.T) {
	menu := func(dishes ...string) *timeline.Timeline {
		text := strings.Join(dishes, "")
		return plannedText(t, strings.Replace(writtenMenu("  cooks A, B\n  rings 4\n  plates 20 s a cover\n", "  hours on the day, 08:00 to 14:00\n  course Main\n    Stew\n    Gravy\n", text), "covers 12", "covers 15", 1))
	}
	stew := writtenDish("Stew", "    1 kg onions\n", "hot, within 10 min", "Watch the onions. | ring low | watch 60 min")
	for name, gravy := range map[string]string{
		"watched": writtenDish("Gravy", "    1 kg leeks\n", "hot, within 10 min", "Watch the leeks. | ring low | watch 60 min"),
		"left":    writtenDish("Gravy", "    1 kg leeks\n", "hot, within 10 min", "Simmer the leeks. | ring low | work 5 min | leave 30 to 60 min"),
		"at once": writtenDish("Gravy", "    1 kg leeks\n", "hot, within 1 min", "Watch the leeks. | ring low | watch 60 min"),
	} {
		line := menu(stew, gravy)
		require.Zero(t, line.Late, name)
		plate := job(line, t, "Plate Main")
		for _, j := range line.Jobs {
			if j.Step == nil {
				continue
			}
			require.LessOrEqual(t, j.End(), plate.Start(), "%s: %s", name, j.Title)
			for _, x := range j.Puts {
				require.LessOrEqual(t, x.End, plate.Start(), "%s: %s", name, j.Title)
			}
		}
	}
	line := menu(stew, writtenDish("Gravy", "    1 kg leeks\n", "hot, within 10 min", "Froth the leeks. | start 4 min before serving | work 3 min"))
	require.Equal(t, 12*60-5, job(line, t, "Froth the leeks").Start()/5*5)
}

// Where breaks are wanted often they can be had.
func TestBreaksOftenerThanEveryHour(t *testing.T) {
	var steps []string
	for _, what := range strings.Fields("Peel Slice Salt Rinse Dry Dress Toss Turn") {
		steps = append(steps, what+" the parsnips. | work 15 min | keeps 1 day, fridge")
	}
	line := plannedText(t, writtenMenu("  cooks A\n  breaks 10 min, every 50 min\n", "  hours on the day, 08:00 to 14:00\n  course Main\n    Salad\n",
		writtenDish("Salad", "    1 kg parsnips\n", "cold, within 1 h", steps...)))
	breaks := 0
	from, to := 0, -1000
	for _, j := range line.Jobs {
		if strings.HasPrefix(j.Title, "Break for ") {
			breaks++
			continue
		}
		if j.Start()-to >= 10 {
			from = j.Start()
		}
		to = max(to, j.End())
		require.LessOrEqual(t, to-from, 50, j.Title)
	}
	require.NotZero(t, breaks)
}
