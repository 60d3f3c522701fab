package planner

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler/events"
	"tamis/compiler/resolve"
	"tamis/compiler/timeline/answer"
	"tamis/render/plantext"
)

// A range is taken as a triangle with a tenth of it beyond either figure. The
// points are worked out by hand from its definition: with half the base h, the
// part below the point a from the lower end is a²/2h².
func TestDrawIsATriangle(t *testing.T) {
	d := answer.Doubt{Planned: 40, Least: 30, Most: 40}
	require.InDelta(t, -10, d.Draw(0.1), 1e-9, "one in ten takes less than 30 min")
	require.InDelta(t, 0, d.Draw(0.9), 1e-9, "one in ten takes more than 40")
	require.InDelta(t, -5, d.Draw(0.5), 1e-9)
	half := 5 / (1 - math.Sqrt(0.2)) // 9.045 min
	require.InDelta(t, -5-half, d.Draw(0), 1e-9)
	require.InDelta(t, -5+half, d.Draw(1), 1e-9)
	sum := 0.0
	for i := range 1000 {
		before, x := d.Draw(float64(i)/1000), d.Draw((float64(i)+0.5)/1000)
		require.LessOrEqual(t, before, x)
		sum += x
	}
	require.InDelta(t, -5, sum/1000, 1e-3)
}

// By hand: one range that ends at the table is late when it takes a minute or
// more longer than its upper figure. For 30 to 50 min the triangle reaches 8.09
// min beyond it; a minute beyond leaves (7.09/18.09)²/2 = 7.7 in 100 late. Two
// such steps on two rings must both be on time: 92.3² = 85.2 in 100.
func TestOddsByHand(t *testing.T) {
	k := farmhouse()
	k.Cooks = nil
	one := recipe("Stew", step("Simmer the stew", ring, leaveRange(30, 50)), hot(0))
	two := recipe("Rice", step("Simmer the rice", ring, leaveRange(30, 50)), hot(0))
	line := newMeal(k).serve("Main", at(13, 0), one).planned(t)
	require.Equal(t, at(12, 10), job(line, t, "Simmer the stew").Start())
	require.InDelta(t, 92.3, 100*float64(line.Odds.OnTime)/float64(line.Odds.Runs), 2)
	require.LessOrEqual(t, line.Odds.Worst, 8)
	require.GreaterOrEqual(t, line.Odds.Worst, 6)
	require.Equal(t, []string{"Simmer the stew"}, titles(line.Odds.Watch))

	line = newMeal(k).serve("Main", at(13, 0), one, two).planned(t)
	require.InDelta(t, 85.2, 100*float64(line.Odds.OnTime)/float64(line.Odds.Runs), 2.5)
	require.ElementsMatch(t, []string{"Simmer the stew", "Simmer the rice"}, titles(line.Odds.Watch))

	again := newMeal(k).serve("Main", at(13, 0), one, two).planned(t)
	require.Equal(t, line.Odds.OnTime, again.Odds.OnTime, "the same every time")
}

// A step with room after it does not make the meal late; without
// hands or a range there is nothing to say.
func TestOddsWithRoom(t *testing.T) {
	base := recipe("Jelly", step("Cook the jelly", ring, leaveRange(20, 30)), step("Chill the jelly", upTo(60, 600)))
	base.Steps[1].Place = "fridge"
	line := newMeal(farmhouse()).serve("Main", at(13, 0), base, recipe("Roast", step("Roast", heat(180, 180), leaveRange(60, 80)), hot(0))).planned(t)
	require.Equal(t, []string{"Roast"}, titles(line.Odds.Watch)[:1])
	require.Nil(t, newMeal(farmhouse()).serve("Main", at(13, 0), recipe("Jelly", step("Chill", leave(60)))).planned(t).Odds)
}

// Hands vary. By hand: one cook, 100 min of plain work that ends at the table. One time
// in ten takes 110 min or more, and half the triangle's base is 10/(1-sqrt 0.2) = 18.09
// min; a minute over is passed (17.09/18.09)²/2 = 44.6 times in 100, and 95 in 100 are
// no later than 18.09 - sqrt(0.1)*18.09 = 12.4 min, so that 15 min of buffer will do.
func TestHandsVary(t *testing.T) {
	for _, s := range []*resolve.Step{step("Fry", ring, work(100)), step("Fry", ring, watch(100))} {
		line := newMeal(farmhouse()).serve("Main", at(13, 0), recipe("Fritters", s, hot(0))).planned(t)
		require.InDelta(t, 55.4, 100*float64(line.Odds.OnTime)/float64(line.Odds.Runs), 4)
		require.Equal(t, 15, line.Odds.Buffer)
		require.Equal(t, "Main", line.Odds.Courses[0].Course)
		require.Equal(t, line.Odds.Runs-line.Odds.OnTime, line.Odds.Courses[0].Late)
		require.Equal(t, []string{"Fritters"}, line.Odds.TooLong, "served at once")
		require.Contains(t, plantext.RunSheet(events.Of(line), 1), "15 min more between the work and the table would make it 95 of 100, but Fritters would then wait longer than is written")
	}
	line := newMeal(farmhouse()).serve("Main", at(13, 0), recipe("Fritters", step("Fry", ring, work(100)), hot(30))).planned(t)
	require.Equal(t, at(13, 0), job(line, t, "Fry").End(), "no hours are given")
	require.Contains(t, plantext.RunSheet(events.Of(line), 1), "Begin all of it 15 min earlier, and it is on time in 95 of 100")
}

// What a guess is taken to mean, by hand: the ends that one in ten passes, on
// either side, of a hundred minutes.
func TestGuessesHaveTheirEnds(t *testing.T) {
	line := newMeal(farmhouse()).serve("Main", at(13, 0), recipe("Soup",
		step("Simmer", about(100)), step("Brown", untilBrown(100)), step("Skim", work(20), ifNeeded), step("Pour", work(10)),
	)).planned(t)
	doubts := map[string]answer.Doubt{}
	for _, d := range answer.ResultOf(line).Doubts() {
		doubts[d.Job.Title] = d
	}
	require.Len(t, doubts, 4)
	require.InDelta(t, -10, doubts["Simmer"].Draw(0.1), 1e-9)
	require.InDelta(t, 10, doubts["Simmer"].Draw(0.9), 1e-9)
	require.InDelta(t, -15, doubts["Brown"].Draw(0.1), 1e-9)
	require.InDelta(t, 30, doubts["Brown"].Draw(0.9), 1e-9)
	require.InDelta(t, 1, doubts["Pour"].Draw(0.9), 1e-9, "hands vary by a tenth")
	require.InDelta(t, -20, doubts["Skim"].Draw(0.3), 0)
	require.InDelta(t, 0, doubts["Skim"].Draw(0.7), 0)
	require.Contains(t, plantext.RunSheet(events.Of(line), 1), "Skim · only if needed")
	require.Equal(t, 20, job(line, t, "Skim").End()-job(line, t, "Skim").Start(), "it has its room")
	require.NotEmpty(t, line.Odds.Watch)
	require.Equal(t, "Brown", line.Odds.Watch[0].Title, "the widest guess costs most")
}

func about(n int) clause {
	return func(s *resolve.Step) {
		sp := spell(resolve.Leave, n, n)
		sp.Fixed.About = true
		s.Phases = append(s.Phases, sp)
	}
}

func untilBrown(n int) clause {
	return func(s *resolve.Step) {
		sp := spell(resolve.Watch, n, n)
		sp.Fixed.About = true
		sp.Until = resolve.Text{Text: "brown"}
		s.Phases = append(s.Phases, sp)
	}
}

func ifNeeded(s *resolve.Step) { s.OnlyIfNeeded = true }
