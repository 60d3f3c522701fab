package planner

import (
	"context"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/compiler/timeline"
	"tamis/compiler/timeline/problem"
	"tamis/lang/quantity"
)

func perLoad(kind resolve.SpellKind, n int) clause {
	return func(s *resolve.Step) {
		s.Phases = append(s.Phases, resolve.Spell{Kind: kind, Per: span(n, n), Each: resolve.Each{Load: true}})
	}
}

// trays makes a step go in so many loads, by the pieces a tray holds.
func trays(n int) clause {
	return func(s *resolve.Step) {
		s.Into = &resolve.Into{Count: n, Head: resolve.Head{Name: resolve.Text{Text: "buns"}}}
	}
}

// bakehouse has a tray for one bun at a time and an oven of one shelf, or two
// such ovens.
func bakehouse(ovens int, cooks ...string) *resolve.Kitchen {
	k := farmhouse()
	k.Cooks, k.Ovens = cooks, nil
	for _, name := range []string{"left", "right"}[:ovens] {
		k.Ovens = append(k.Ovens, resolve.Oven{Name: name, Key: name, Shelves: 1, Preheat: 15 * time.Minute})
	}
	k.Vessels = []resolve.Vessel{{Name: "buns", Key: larder.Fold("buns"), Count: 1}}
	return k
}

func buns(loads int, more ...clause) *resolve.Recipe {
	bake := step("Bake the buns", append([]clause{heat(200, 200), trays(loads), perLoad(resolve.Leave, 20)}, more...)...)
	return recipe("Buns", step("Shape the buns", work(10)), bake, step("Glaze the buns", work(5)))
}

// One oven: the loads stand in it one after the other, each for its own twenty
// minutes, with a hand at every change; the step is done with the last. By hand:
// glazed 12:55 to 13:00, so out at 12:55, 12:35 and 12:15, in at 11:55.
func TestLoadsQueueForTheOven(t *testing.T) {
	line := newMeal(bakehouse(1, "Ana")).serve("Main", at(13, 0), buns(3)).planned(t)
	for n, start := range []timeline.Minute{at(11, 55), at(12, 15), at(12, 35)} {
		j := job(line, t, []string{"Bake the buns, load 1 of 3", "Bake the buns, load 2 of 3", "Bake the buns, load 3 of 3"}[n])
		require.Equal(t, start, j.Start(), j.Title)
		require.Equal(t, start+20, j.End(), j.Title)
		require.Equal(t, n+1, j.Load)
		require.Equal(t, 2, j.Number, "all are one step on the prep sheet")
		require.Equal(t, "left", j.Oven)
		require.Equal(t, at(12, 55)-j.End(), j.Waits, "what is done first waits for the rest")
	}
	require.Equal(t, []string{"Ana"}, job(line, t, "Bake the buns, load 2 of 3").Cooks, "someone puts it in")
	require.Len(t, line.Heats, 1, "the oven stays hot")
	require.Equal(t, []*timeline.Job{job(line, t, "Bake the buns, load 1 of 3")}, job(line, t, "Bake the buns, load 2 of 3").After)
	require.Equal(t, at(11, 55), job(line, t, "Shape the buns").End())
}

// Two ovens: two loads are in at once, and three are done in the time of two.
func TestLoadsShareOvens(t *testing.T) {
	line := newMeal(bakehouse(2, "Ana")).serve("Main", at(13, 0), buns(3)).planned(t)
	first, last := job(line, t, "Bake the buns, load 1 of 3"), job(line, t, "Bake the buns, load 3 of 3")
	require.Equal(t, at(12, 55), last.End())
	require.LessOrEqual(t, last.End()-first.Start(), 45, "two rounds of twenty minutes, with five to change hands")
}

// The hands are free while a load is in: another dish's ten minutes of work fit
// between two loads, where they would not before or after the whole of it.
func TestHandsAreFreeBetweenLoads(t *testing.T) {
	sauce := recipe("Sauce", step("Whisk the sauce", work(10)))
	sauce.ServeHow = hot(30)
	line := newMeal(bakehouse(1, "Ana")).serve("Main", at(13, 0), buns(2), sauce).planned(t)
	whisk, last := job(line, t, "Whisk the sauce"), job(line, t, "Bake the buns, load 2 of 2")
	require.GreaterOrEqual(t, whisk.Start(), last.Start())
	require.LessOrEqual(t, whisk.End(), last.End())
}

// What is written once is done once: the fat is heated before the first load,
// and what comes after the loads comes after the last.
func TestWhatLoadsDoOnce(t *testing.T) {
	fry := step("Fry the buns", ring, trays(2), work(6), perLoad(resolve.Work, 2), perLoad(resolve.Leave, 8), leave(12))
	line := newMeal(bakehouse(0, "Ana")).serve("Main", at(13, 0), recipe("Buns", fry)).planned(t)
	one, two := job(line, t, "Fry the buns, load 1 of 2"), job(line, t, "Fry the buns, load 2 of 2")
	require.Equal(t, 6+2+8, one.End()-one.Start())
	require.Equal(t, 2+8+12, two.End()-two.Start())
}

// A step that keeps the hands from the first load to the last, and one that does
// something to all of them in between, stay one job; so do very many loads.
func TestLoadsThatStayTogether(t *testing.T) {
	for _, s := range []*resolve.Step{
		step("Sear", ring, trays(3), perLoad(resolve.Work, 4)),
		step("Turn and bake", ring, trays(3), perLoad(resolve.Work, 2), leave(10), perLoad(resolve.Leave, 5)),
		step("Bake", ring, trays(problem.MostApart+1), perLoad(resolve.Leave, 3)),
	} {
		line := newMeal(bakehouse(0, "Ana")).serve("Main", at(13, 0), recipe("Buns", s)).planned(t)
		j := job(line, t, s.Title)
		require.Zero(t, j.Load)
		require.Equal(t, s.Into.Count, j.Loads)
	}
	line := newMeal(bakehouse(0, "Ana")).serve("Main", at(13, 0), recipe("Buns", step("Turn and bake", ring, trays(3), perLoad(resolve.Work, 2), leave(10), perLoad(resolve.Leave, 5)))).planned(t)
	j := job(line, t, "Turn and bake")
	require.Equal(t, 3*2+10+3*5, j.End()-j.Start())
}

// A load is named as it is printed; the number alone means the first.
func TestFindALoad(t *testing.T) {
	line := newMeal(bakehouse(1, "Ana")).serve("Main", at(13, 0), buns(3)).planned(t)
	for text, load := range map[string]int{"A2": 1, "A2 load 3": 3, "A2, load 2 of 3": 2, "buns step 2 load 2": 2, "bake the buns load 3": 3} {
		j, err := line.Find(text)
		require.NoError(t, err, text)
		require.Equal(t, load, j.Load, text)
	}
	_, err := line.Find("A2 load 4")
	require.EqualError(t, err, "A2 has 3 loads, so there is no load 4 of it")
	_, err = line.Find("A1 load 2")
	require.EqualError(t, err, "A1 is done in one go, not in loads")
}

// A load that takes longer puts off the loads after it, not the ones before.
func TestALoadIsLate(t *testing.T) {
	line := newMeal(bakehouse(1, "Ana")).serve("Main", at(13, 0), buns(3)).planned(t)
	j, by, err := line.Delayed("A2 load 2 10 min")
	require.NoError(t, err)
	again := Replan(context.Background(), line, j, by)
	require.NotNil(t, again.Timeline)
	require.Equal(t, at(11, 55), job(again.Timeline, t, "Bake the buns, load 1 of 3").Start())
	require.Equal(t, at(12, 15), job(again.Timeline, t, "Bake the buns, load 2 of 3").Start())
	require.Equal(t, at(12, 45), job(again.Timeline, t, "Bake the buns, load 2 of 3").End())
	require.Equal(t, at(12, 45), job(again.Timeline, t, "Bake the buns, load 3 of 3").Start())
	require.Equal(t, 10, again.Servings[0].Served-again.Servings[0].At)
}

// The number of loads is that of the scaled recipe.
func TestLoadsGrowWithTheCovers(t *testing.T) {
	m := newMeal(bakehouse(1, "Ana")).serve("Main", at(13, 0), buns(2))
	m.Makings[0].Factor = quantity.Int(2)
	line := m.planned(t)
	require.Equal(t, 4, job(line, t, "Bake the buns, load 4 of 4").Loads)
}
