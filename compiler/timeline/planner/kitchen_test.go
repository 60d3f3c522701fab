package planner

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler/events"
	"tamis/compiler/resolve"
	"tamis/compiler/timeline"
	"tamis/render/plantext"
)

// Two bakes near 200 °C share one oven: 45 min of potatoes and 40 min of
// parsnips after 20 min of parboiling. Common practice, no source. Worked by
// hand: served at 13:00 with at most 10 min of waiting, so both come out by
// 13:00; the potatoes go in at 12:15 and the parsnips at 12:20.
func TestTwoBakesShareAnOven(t *testing.T) {
	potatoes := recipe("Potatoes",
		step("Parboil the potatoes", ring, work(5), leave(15)),
		step("Roast the potatoes", heat(190, 210), work(5), leave(45)),
		hot(10))
	parsnips := recipe("Parsnips",
		step("Parboil the parsnips", ring, work(5), leave(15)),
		step("Roast the parsnips", heat(200, 220), work(5), leave(40)),
		hot(10))
	line := newMeal(farmhouse()).serve("Main", at(13, 0), potatoes, parsnips).planned(t)

	p, q := job(line, t, "Roast the potatoes"), job(line, t, "Roast the parsnips")
	require.Equal(t, at(13, 0), p.End())
	require.Equal(t, at(12, 10), p.Start())
	require.Equal(t, at(12, 15), q.Start())
	require.Equal(t, at(13, 0), q.End())
	require.Equal(t, "main", p.Oven)
	require.Len(t, line.Heats, 1, "one heat does for both")
	require.GreaterOrEqual(t, line.Heats[0].Celsius, 200)
	require.LessOrEqual(t, line.Heats[0].Celsius, 210)
	require.Equal(t, at(12, 15), line.Heats[0].Start)
	require.Equal(t, at(12, 0), line.Heats[0].Preheat)
	require.Equal(t, []string{"Ana"}, p.Cooks)
	require.Zero(t, p.Slack)
	var why bytes.Buffer
	require.NoError(t, writeWhy(&why, line, p))
	require.Equal(t, `A2  Roast the potatoes
  dish           Potatoes, step 2
  when           Sun 12:10 to 13:00, 50 min
  who            Ana
  where          main oven
  waits for      Parboil the potatoes (A1), done 12:05
  not later for  Main is served at 13:00
                 Ana is wanted for step 2 of Parsnips (Roast the parsnips) at 12:15
  slack          none: begun a minute late, something is late or waits too long
  critical chain yes: it follows Parboil the parsnips (B1), and is the last before the table
`, why.String())
}

// One hob ring kept low: a cream infuses 10 to 15 min (common practice, no
// source). Planned on the longer, the shorter printed as slack.
func TestRangePlansOnTheLonger(t *testing.T) {
	cream := recipe("Cream", step("Infuse the cream", ring, work(2), leaveRange(10, 15)), hot(10))
	line := newMeal(farmhouse()).serve("Pudding", at(13, 0), cream).planned(t)
	j := job(line, t, "Infuse the cream")
	require.Equal(t, 17, j.End()-j.Start())
	require.Equal(t, 10, j.Phases[1].Least)
	require.Equal(t, at(12, 40), j.Start(), "the latest start on the clock of five minutes")
	require.Equal(t, at(12, 57), j.End(), "the end is true to the minute")
	require.Equal(t, 3, j.Waits)
	require.Equal(t, 3, j.Slack, "on the clock of one minute it could")
	require.Equal(t, at(12, 40), line.Start)
}

// A pause the night before: the braise is cooked and cooled while Ana is there
// the day before, and brought back on the day.
func TestPausedTheNightBefore(t *testing.T) {
	lamb := recipe("Slow lamb",
		step("Braise the lamb", heat(150, 160), work(10), leave(90)),
		step("Cool the lamb", work(5), leave(60)),
		pauseUpTo(24),
		step("Bring the lamb back", ifPaused, heat(150, 160), work(5), leave(40)),
		step("Slice the lamb", work(10)),
		hot(10))
	m := newMeal(farmhouse(),
		resolve.Hours{From: at(17, 0) - timeline.Day, To: at(20, 0) - timeline.Day},
		resolve.Hours{From: at(8, 30), To: at(15, 0)},
	).serve("Main", at(13, 0), lamb)
	m.Makings[0].Serving.Ahead = true
	line := m.planned(t)
	require.Less(t, job(line, t, "Braise the lamb").Start(), 0)
	require.Less(t, job(line, t, "Cool the lamb").Start(), 0)
	back := job(line, t, "Bring the lamb back")
	require.Equal(t, at(12, 0), back.Start())
	require.Equal(t, at(12, 45), job(line, t, "Slice the lamb").Start(), "5 min to spare")
	require.True(t, line.Paused[lamb.Pauses[0]][m.Makings[0]])

	m.Makings[0].Serving.Ahead, m.Makings[0].Serving.Straight = false, true
	line = m.planned(t)
	require.Greater(t, job(line, t, "Braise the lamb").Start(), at(8, 30))
	require.Empty(t, line.Paused)
}

// A strand of meanwhile steps runs beside its host and ends before the next
// plain step; one cook cannot do two things at once.
func TestMeanwhileStrand(t *testing.T) {
	pilaf := recipe("Pilaf",
		step("Simmer the barley", ring, work(5), leave(40)),
		step("Toast the nuts", meanwhile, ring, work(5)),
		step("Whisk the dressing", meanwhile, work(5)),
		step("Fold all together", work(5)),
		hot(10))
	line := newMeal(farmhouse()).serve("Main", at(13, 0), pilaf).planned(t)
	host, nuts := job(line, t, "Simmer the barley"), job(line, t, "Toast the nuts")
	dressing, fold := job(line, t, "Whisk the dressing"), job(line, t, "Fold all together")
	require.Equal(t, at(12, 55), fold.Start())
	require.Equal(t, at(12, 10), host.Start())
	require.Equal(t, at(12, 45), dressing.Start(), "its cook takes the barley off at 12:54")
	require.Equal(t, at(12, 40), nuts.Start())
	require.Equal(t, nuts, dressing.After[0], "the strand is done in order")
	require.Len(t, dressing.After, 1)
	require.ElementsMatch(t, []string{"Simmer the barley", "Toast the nuts", "Whisk the dressing"}, titles(fold.After))
}

// Two roasts at heats that do not meet, both to be hot within 10 min, and one
// oven: no plan is on time. A second oven cures it.
func TestClashAndCure(t *testing.T) {
	a := recipe("Meringue", step("Bake the meringue", heat(100, 110), work(5), leave(30)), hot(10))
	b := recipe("Flatbread", step("Bake the flatbread", heat(230, 240), work(5), leave(30)), hot(10))
	line, diags := newMeal(farmhouse()).serve("Main", at(13, 0), a, b).plan(t)
	require.Nil(t, line)
	all := diags.Sorted()
	require.Len(t, all, 1)
	d := all[0]
	require.Equal(t, "P202", d.Code)
	require.Contains(t, d.Message, "Meringue and Flatbread")
	require.Contains(t, d.Why, "one main oven with 2 shelves, at one heat at a time")
	require.Contains(t, d.Help, "find a second oven")
	require.NotContains(t, d.Help, "find one more ring")
	require.NotContains(t, d.Help, "find room for one more shelf in the oven")
}

// What cannot be on time is planned late, and the finding says how late.
func TestLateIsSaid(t *testing.T) {
	stew := recipe("Stew", step("Simmer the stew", ring, work(10), leave(50)), hot(10))
	line, diags := newMeal(farmhouse(), resolve.Hours{From: at(12, 15), To: at(15, 0)}).serve("Main", at(13, 0), stew).plan(t)
	require.NotNil(t, line)
	require.Equal(t, 15, line.Late)
	require.Equal(t, 15, line.Bound)
	require.True(t, line.Proven)
	require.Equal(t, at(13, 15), line.Servings[0].Served)
	require.Contains(t, line.Note, "Main is 15 min late")
	all := diags.Sorted()
	require.Len(t, all, 1)
	require.Equal(t, "P201", all[0].Code)
	require.Equal(t, "Main (Stew) is 15 min late: served at 13:15 instead of 13:00", all[0].Message)
	require.Contains(t, all[0].Help, "serve 15 min later")
	require.Contains(t, all[0].Help, "begin at 11:15 on the day, 1 h earlier (Stew is then made from 12:00 to 13:00)")
}

// The run sheet is the same at every run.
func TestRunSheet(t *testing.T) {
	a := recipe("Soup", step("Simmer the soup", ring, work(10), leave(30)), hot(10))
	b := recipe("Bread", step("Bake the bread", heat(220, 220), work(5), leave(35)), step("Rest the bread", leave(20)))
	m := newMeal(farmhouse()).serve("First", at(13, 0), a, b)
	var one, two bytes.Buffer
	require.NoError(t, plantext.WriteText(&one, events.Of(m.planned(t)), 1))
	require.NoError(t, plantext.WriteText(&two, events.Of(m.planned(t)), 1))
	require.Equal(t, one.String(), two.String())
	t.Log("\n" + one.String())
}
