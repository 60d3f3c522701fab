package planner

import (
	"context"
	"fmt"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"tamis/compiler/events"
	"tamis/compiler/resolve"
	"tamis/compiler/timeline"
	"tamis/compiler/timeline/answer"
	"tamis/lang/effort"
)

// begins pins a step to so many minutes before serving.
func begins(n int) clause {
	return func(s *resolve.Step) {
		t := time.Duration(n) * time.Minute
		s.StartBefore = &t
	}
}

func cold() *resolve.ServeHow { return &resolve.ServeHow{State: "cold"} }

func keeps(hours int) *resolve.Keep { return &resolve.Keep{Time: *span(60*hours, 60*hours)} }

// What is left until after serving is washed up by who is there: the omelette is fried
// from 12:45 by Ana, who goes home at 13:00.
func TestWhoHasGoneHomeDoesNotWashUp(t *testing.T) {
	omelette := recipe("Omelette", step("Fry", ring, work(10)), hot(10))
	kitchen := func() *resolve.Kitchen {
		k := washUpMeal(washUp(resolve.WashAfterDish, 10, 0))
		k.Cooks = []string{"Ana", "Jo"}
		return k
	}
	hours := func(ana, jo int) []resolve.Hours {
		return []resolve.Hours{{Cooks: []string{"ana"}, From: at(8, 0), To: ana}, {Cooks: []string{"jo"}, From: at(8, 0), To: jo}}
	}
	line := newMeal(kitchen(), hours(at(13, 0), at(15, 0))...).serve("Main", at(13, 0), omelette).planned(t)
	require.Equal(t, []string{"13:05 to 13:15 Jo Wash up after Omelette"}, sinkAfter(line))
	require.NotContains(t, line.Note, "washing up")

	// Nobody is there long enough: it goes on past the hours of who is there last.
	line, _ = newMeal(kitchen(), hours(at(13, 0), at(13, 10))...).serve("Main", at(13, 0), omelette).plan(t)
	require.Equal(t, []string{"13:05 to 13:15 Jo Wash up after Omelette"}, sinkAfter(line))
	require.Contains(t, line.Note, "The washing up after serving goes on until 13:15, past the hours.")
}

// The tart is in the oven at 180 °C from 11:00 to 11:30; then Ana chops until the pie
// goes in at 12:10. She cannot light the oven for 11:55, nor while the tart is in.
func TestAnOvenIsLitWhenItIsEmpty(t *testing.T) {
	tart := recipe("Tart", step("Bake the tart", heat(180, 180), leave(30), begins(120)), cold(), keeps(4))
	pie := recipe("Pie", step("Chop", work(40), begins(90)), step("Bake the pie", heat(220, 220), leave(30), begins(50)), cold(), keeps(4))
	line, _ := newMeal(farmhouse()).serve("Main", at(13, 0), tart, pie).plan(t)
	require.Len(t, line.Heats, 2)
	first, second := line.Heats[0], line.Heats[1]
	require.Equal(t, []int{at(11, 30), at(11, 55), at(12, 10)}, []int{first.End, second.Preheat, second.Start})
	require.Empty(t, second.By)
	require.Equal(t, "Nobody is free for a minute at 11:55 (light the main oven).", line.Note)

	two := farmhouse()
	two.Cooks = []string{"Ana", "Jo"}
	line = newMeal(two).serve("Main", at(13, 0), tart, pie).planned(t)
	require.Equal(t, at(11, 55), line.Heats[1].Preheat)
	require.Len(t, line.Heats[1].By, 1)
}

// The tart is out at 11:30 and the pie goes in at 12:00: lit again at 11:45 the oven would
// have been off for a quarter of an hour. It stays on, and is turned when Ana, who chops
// until 11:50, has done so.
func TestAnOvenStaysOnForAWhile(t *testing.T) {
	tart := recipe("Tart", step("Bake the tart", heat(180, 180), leave(30), begins(120)), cold(), keeps(4))
	pie := recipe("Pie", step("Chop", work(20), begins(90)), step("Bake the pie", heat(220, 220), leave(30), begins(60)), cold(), keeps(4))
	line := newMeal(farmhouse()).serve("Main", at(13, 0), tart, pie).planned(t)
	require.Len(t, line.Heats, 2)
	first, second := line.Heats[0], line.Heats[1]
	require.Empty(t, first.OffBy)
	require.True(t, second.Turned)
	require.Equal(t, []int{at(11, 30), at(11, 55), at(12, 0)}, []int{first.End, second.Preheat, second.Start})
	require.Equal(t, []string{"Ana"}, second.By)
	require.Empty(t, line.Note)
}

// The roast goes on at 170 °C from 12:10, when the cook is at the mint for a minute: a
// minute later the oven would be turned too late.
func TestAnOvenIsNotTurnedTooLate(t *testing.T) {
	roast := recipe("Roast", step("Roast", heat(230, 230), heat(170, 170), leave(40), begins(60)), hot(30))
	roast.Steps[0].Heats[0].For = 10 * time.Minute
	mint := recipe("Mint", step("Chop", work(1), begins(50)), cold())
	line, _ := newMeal(nil).serve("Main", at(13, 0), roast, mint).plan(t)
	require.Len(t, line.Heats, 2)
	require.Equal(t, []int{at(12, 10), at(12, 10)}, []int{line.Heats[1].Preheat, line.Heats[1].Start})
	require.Empty(t, line.Heats[1].By)
	require.Contains(t, line.Note, "Nobody is free for a minute at 12:10 (turn the oven).")
}

// No oven is lit while the last thing is in it, and none is hot before it is lit.
func TestOvensAreLitInTime(t *testing.T) {
	lit := 0
	rounds := effort.Rounds[uint64](6, 8)
	for seed := range rounds {
		for _, p := range banqueted(t, seed) {
			last := map[string]*timeline.Heat{}
			for _, h := range p.line.Heats {
				require.LessOrEqual(t, h.Preheat, h.Start, "seed %d", seed)
				if was := last[h.Oven]; was != nil {
					require.GreaterOrEqual(t, h.Preheat, was.End, "seed %d", seed)
				}
				last[h.Oven] = h
				lit++
			}
		}
	}
	require.Greater(t, lit, int(rounds))
}

// Two trays go into the oven for half past twelve, and there is one pair of hands: the
// one goes in a minute after the other, and so say the rows of both.
func TestOnePairOfHandsPutsInOneThing(t *testing.T) {
	tray := func(name string) *resolve.Recipe {
		return recipe(name, step("Roast "+name, heat(180, 180), leave(30), begins(30)), hot(10))
	}
	line := newMeal(farmhouse()).serve("Main", at(13, 0), tray("leeks"), tray("beets")).planned(t)
	var rows, in []string
	for _, e := range events.Of(line).Events {
		text := fmt.Sprintf("%s %v", line.TimeText(int(e.At)), e.Who)
		switch e.Kind {
		case events.Job:
			rows = append(rows, text)
		case events.In:
			in = append(in, text)
			require.Equal(t, e.At, e.Start)
		}
	}
	require.Equal(t, []string{"12:30 [Ana]", "12:31 [Ana]"}, rows)
	require.Equal(t, rows, in)
}

// A pot that the next step goes on with at once stays where it is; one that waits for it
// is taken off, by name.
func TestWhatStaysOnItsRing(t *testing.T) {
	for _, c := range []struct {
		waits int
		want  string
	}{{0, ""}, {10, "12:20 [Ana] Take off the ring"}} {
		soup := recipe("Soup", step("Boil", ring, leave(10), begins(50+c.waits)), step("Simmer", ring, leave(40), begins(40)), hot(10))
		line := newMeal(farmhouse()).serve("Main", at(13, 0), soup).planned(t)
		boil := job(line, t, "Boil")
		require.Equal(t, c.waits == 0, boil.Stays)
		var out string
		for _, e := range events.Of(line).Events {
			if e.Kind == events.Out && e.Of.Title == "Boil" {
				out = fmt.Sprintf("%s %v %s", line.TimeText(int(e.Start)), e.Who, e.Words)
			}
		}
		if c.waits > 0 {
			require.Contains(t, out, "[Ana] Take off the ring")
			require.InDelta(t, boil.End(), boil.Puts[len(boil.Puts)-1].End, 3)
			continue
		}
		require.Equal(t, c.want, out)
	}
}

// In a plan made again a dish stays with its cook as it does in the first: dealing its
// jobs out once more changes nothing.
func TestAReplannedDishStaysWithItsCook(t *testing.T) {
	anew := 0
	for seed := range uint64(3) {
		for _, p := range banqueted(t, seed) {
			if len(p.line.Cooks) < 2 {
				continue
			}
			late := slices.MinFunc(p.line.Jobs, func(a, b *timeline.Job) int { return a.Slack - b.Slack })
			r := Replan(context.Background(), p.line, late, 25)
			if r == nil || r.Timeline == nil {
				continue
			}
			res := answer.ResultOf(r.Timeline)
			was := fmt.Sprint(res.Solution.Tasks)
			res.Redeal()
			require.Equal(t, was, fmt.Sprint(res.Solution.Tasks), "seed %d", seed)
			if len(r.Moved) > 0 {
				anew++
			}
		}
	}
	require.Positive(t, anew)
}

// For a minute at the oven nobody begins later what has to be done in time: who lays the
// table until it is served does not lay it a minute longer.
func TestNoRoomIsMadeInWhatIsWaitedFor(t *testing.T) {
	line := plannedText(t, writtenMenu("  cooks A, B\n  rings 2\n  oven main, 1 shelf, preheat 10 min\n", "  hours on the day, 11:15 to 14:00\n  task Lay the table, work 45 min, before First\n  course First\n    Stew\n  course Main, 30 min after First\n    Cake\n",
		writtenDish("Stew", "    1 kg onions\n", "hot, within 1 min", "Watch the onions. | ring low | watch 45 min")+
			writtenDish("Cake", "    1 kg batter\n", "hot, within 1 min", "Bake the batter. | oven 180 C | leave 25 min")))
	require.Zero(t, line.Late)
	require.Equal(t, 12*60, job(line, t, "Lay the table").End())
	require.Contains(t, line.Note, "Nobody is free for a minute at 11:55 (light the main oven)")
}
