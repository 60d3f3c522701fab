package planner

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/compiler/timeline"
	"tamis/lang/diag"
	"tamis/lang/effort"
	"tamis/lang/quantity"
)

// washUp is a line of washing up; every is in minutes and only for `every`.
func washUp(when resolve.WashWhen, min, every int, by ...string) resolve.WashUp {
	w := resolve.WashUp{Written: *span(min, min), When: when, Time: time.Duration(min) * time.Minute}
	if every > 0 {
		w.Every = time.Duration(every) * time.Minute
		w.Again = &quantity.Span{Low: w.Every, High: w.Every}
	}
	for _, n := range by {
		w.Named = append(w.Named, resolve.Text{Text: n})
		w.By = append(w.By, larder.Fold(n))
	}
	return w
}

func washUpMeal(lines ...resolve.WashUp) *resolve.Kitchen {
	k := farmhouse()
	k.WashUps = lines
	return k
}

func chopped(name string, min int) *resolve.Line {
	return &resolve.Line{Name: name, Key: name, Prep: []resolve.Spell{spell(resolve.Work, min, min)}}
}

// sink lists the washing up of a plan, as "11:50 to 12:00 Ana Wash up after X".
// sink is the washing up before serving, sinkAfter that which is left until after.
func sink(t *timeline.Timeline) []string { return sinkJobs(t, false) }

func sinkAfter(t *timeline.Timeline) []string { return sinkJobs(t, true) }

func sinkJobs(t *timeline.Timeline, later bool) (out []string) {
	for _, j := range t.Jobs {
		if j.Kind == timeline.WashJob && j.Later == later {
			out = append(out, fmt.Sprintf("%s to %s %s %s", t.TimeText(j.Start()), t.TimeText(j.End()), strings.Join(j.Cooks, ","), j.Title))
		}
	}
	return out
}

// All by hand; when pans are washed is common practice, no source.
func TestWashUpAfterEachDish(t *testing.T) {
	each := washUp(resolve.WashAfterDish, 10, 0)
	for _, c := range []struct {
		name string
		dish *resolve.Recipe
		want []string
	}{
		// Blended 12:55 to 13:00, simmered from 12:15 and left from 12:25: the hands are free from then to 12:54, when the pot is taken off.
		{
			"while it simmers", recipe("Soup", step("Simmer", ring, work(10), leave(30)), step("Blend", work(5)), hot(10)),
			[]string{"12:40 to 12:50 Ana Wash up after Soup"},
		},
		// Carved from 12:50, in the oven from 10:50 to 12:50: the pans are begun within the hour, so by 11:50.
		{
			"within the hour", recipe("Roast", step("Roast", heat(150, 160), work(10), leave(120)), step("Carve", work(10)), hot(10)),
			[]string{"11:50 to 12:00 Ana Wash up after Roast"},
		},
		// A salad may stand: it is tossed 12:45 to 12:50, and the bowl washed up to the table.
		{
			"what is cold may stand", recipe("Salad", step("Toss", work(5)), &resolve.ServeHow{State: "cold"}),
			[]string{"12:50 to 13:00 Ana Wash up after Salad"},
		},
		// Five minutes are too short to wash up in: after the leeks are left for twenty, not after the sauce.
		{
			"long enough", recipe("Leeks", step("Boil", ring, work(5), leave(20)), step("Sauce", ring, work(5), leave(5)), step("Coat", work(5)), hot(10)),
			[]string{"12:35 to 12:45 Ana Wash up after Leeks"},
		},
		// Fried to the last from 12:50: the boards are washed when the greens are cut.
		{
			"hot to the last", recipe("Greens", chopped("greens", 15), step("Fry", ring, work(10)), hot(10)),
			[]string{"12:40 to 12:50 Ana Wash up the boards of Greens"},
		},
		{"nothing to wash before", recipe("Omelette", step("Fry", ring, work(10)), hot(10)), nil},
		{"nobody's hands", recipe("Beans", step("Soak", leave(60))), nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			line := newMeal(washUpMeal(each)).serve("Main", at(13, 0), c.dish).planned(t)
			require.Equal(t, c.want, sink(line))
			if c.want == nil { // it is not dropped
				require.Equal(t, []string{"13:05 to 13:15 Ana Wash up after " + c.dish.Name}, sinkAfter(line))
			}
			require.Empty(t, line.Note)
		})
	}
}

// Who is named does it: Jo, though Ana's hands are free as well.
func TestWashUpByName(t *testing.T) {
	stew := recipe("Stew", step("Stew", ring, work(10), leave(30)), hot(10))
	for _, name := range []string{"Ana", "Jo"} {
		k := washUpMeal(washUp(resolve.WashBefore, 20, 0, name))
		k.Cooks = []string{"Ana", "Jo"}
		line := newMeal(k).serve("Main", at(13, 0), stew).planned(t)
		require.Equal(t, []string{"12:40 to 13:00 " + name + " Wash up before serving"}, sink(line))
		require.Equal(t, "wash up 20 min, before serving, by "+name, job(line, t, "Wash up before serving").Asked)
	}
	// One who has no hours on the menu leaves it to whoever is there.
	k := washUpMeal(washUp(resolve.WashBefore, 20, 0, "Jo"))
	k.Cooks = []string{"Ana", "Jo"}
	line := newMeal(k, resolve.Hours{From: at(9, 0), To: at(14, 0), Cooks: []string{"ana"}}).serve("Main", at(13, 0), stew).planned(t)
	require.Equal(t, []string{"12:30 to 12:50 Ana Wash up before serving"}, sink(line))
}

// A dish that is paused overnight has two: one on the day before, while someone
// is there, and one on the day. Served 13:00: brought back 12:25 to 13:00, left
// from 12:30. The day before: cooled and covered as late as may be, by 20:00.
func TestWashUpOnTheDayBefore(t *testing.T) {
	lamb := recipe("Lamb",
		step("Braise", heat(150, 160), work(10), leave(90)),
		step("Cool", work(5), leave(60)),
		step("Cover", work(5)),
		pauseUpTo(24),
		step("Bring back", ifPaused, heat(150, 160), work(5), leave(30)),
		hot(10))
	k := washUpMeal(washUp(resolve.WashAfterDish, 10, 0, "Jo"))
	k.Cooks = []string{"Ana", "Jo"}
	m := newMeal(k,
		resolve.Hours{From: at(15, 0) - timeline.Day, To: at(20, 0) - timeline.Day, Cooks: []string{"ana"}},
		resolve.Hours{From: at(8, 30), To: at(15, 0)},
	).serve("Main", at(13, 0), lamb)
	m.Makings[0].Serving.Ahead = true
	line := m.planned(t)
	sink := sink(line)
	require.Len(t, sink, 2)
	require.Regexp(t, `^\d\d:\d\d to (19:\d\d|20:00) Ana Wash up after Lamb, first time$`, sink[0], "Jo is not there")
	require.Equal(t, "12:50 to 13:00 Jo Wash up after Lamb, second time", sink[1])
	first := job(line, t, "Wash up after Lamb, first time")
	require.Less(t, first.Start(), 0)
	require.GreaterOrEqual(t, first.Start(), job(line, t, "Cover").End())
	require.LessOrEqual(t, first.Start(), job(line, t, "Cover").End()+60)
}

// The boards are clear at 12:15: the carrots and the plums take Ana 11:45 to 12:15, the
// stew her hands to 12:30 and then thirty minutes of its own, up to 12:59, when it is
// taken off: 20 minutes of washing up end before that.
func TestWashUpBeforeServing(t *testing.T) {
	stew := recipe("Stew", chopped("carrots", 15), step("Stew", ring, work(10), leave(30)), hot(10))
	tart := recipe("Tart", chopped("plums", 15), step("Fill", work(10)), &resolve.ServeHow{State: "cold"})
	line := newMeal(washUpMeal(washUp(resolve.WashBefore, 20, 0))).serve("Main", at(13, 0), stew).serve("Pudding", at(14, 0), tart).planned(t)
	require.Equal(t, []string{"12:35 to 12:55 Ana Wash up before serving"}, sink(line))
	require.Equal(t, at(11, 45), min(job(line, t, "carrots").Start(), job(line, t, "plums").Start()))
	require.Equal(t, at(12, 15), max(job(line, t, "carrots").End(), job(line, t, "plums").End()), "the boards are clear")

	j := job(line, t, "Wash up before serving")
	require.Equal(t, 4, j.Slack)
	require.False(t, j.Critical, "no course waits for the sink")
	var why bytes.Buffer
	require.NoError(t, writeWhy(&why, line, j))
	require.Equal(t, "Wash up before serving\n"+
		"  asked for by   `wash up 20 min, before serving`\n"+
		"  when           Sun 12:35 to 12:55, 20 min\n"+
		"  who            Ana\n"+
		"  waits for      Prepare carrots (A), done 12:00\n"+
		"  slack          4 min: it could begin as late as 12:39, if what follows moves along\n"+
		"  then           Ana is wanted for step 1 of Stew (Stew) at 12:59\n"+
		"  critical chain no\n", why.String())
}

// Three hours of hands by 13:00 are more than two: with 15 minutes of washing
// up they begin at 9:45, and the washing up lies between two of the hours.
func TestWashUpEvery(t *testing.T) {
	bake := func(name string, hours int) *resolve.Recipe {
		var parts []any
		for n := range hours {
			parts = append(parts, step(fmt.Sprintf("%s %d", name, n+1), work(60)))
		}
		return recipe(name, parts...)
	}
	every := washUp(resolve.WashEvery, 15, 120)
	line := newMeal(washUpMeal(every)).serve("Main", at(13, 0), bake("Dough", 3)).planned(t)
	require.Equal(t, []string{"11:45 to 12:00 Ana Wash up, round 1"}, sink(line))
	require.Equal(t, at(9, 45), line.Start)

	line = newMeal(washUpMeal(every)).serve("Main", at(13, 0), bake("Dough", 2)).planned(t)
	require.Empty(t, sink(line), "two hours want none")

	line = newMeal(washUpMeal(every)).serve("Main", at(13, 0), bake("Dough", 5)).planned(t)
	require.Len(t, sink(line), 2, "300 minutes of work in three parts")
	require.Equal(t, at(7, 20), line.Start, "with a break of ten minutes")

	// An hour in which nobody works on a dish is a break.
	rest := recipe("Bread", step("Mix", work(90)), step("Prove", leave(120)), step("Bake", work(90)))
	line = newMeal(washUpMeal(every)).serve("Main", at(13, 0), rest).planned(t)
	require.Empty(t, sink(line))
}

// Each day has its own rounds: three hours the evening before and half an hour
// on the day are one round.
func TestWashUpEveryDayByDay(t *testing.T) {
	pie := recipe("Pie", step("Pick", work(60)), step("Chop", work(60)), step("Line", work(60)), pauseUpTo(24), step("Glaze", work(30)))
	m := newMeal(washUpMeal(washUp(resolve.WashEvery, 15, 120)),
		resolve.Hours{From: at(14, 0) - timeline.Day, To: at(20, 0) - timeline.Day},
		resolve.Hours{From: at(8, 30), To: at(15, 0)},
	).serve("Main", at(13, 0), pie)
	m.Makings[0].Serving.Ahead = true
	line := m.planned(t)
	require.Len(t, sink(line), 1)
	j := job(line, t, "Wash up, round 1")
	require.Less(t, j.End(), 0)
	require.Greater(t, j.Start(), job(line, t, "Pick").Start())
	require.Less(t, j.Start(), job(line, t, "Line").Start())
}

// The leeks are left for the ten minutes in which the pancakes are fried: to
// wash up then one of the two would have to wait hot. So it is left.
func TestHotFoodDoesNotWaitForTheSink(t *testing.T) {
	leeks := recipe("Leeks", step("Boil", ring, work(5), leave(10)), hot(10))
	pancakes := recipe("Pancakes", step("Fry", ring, work(10)), hot(10))
	line, diags := newMeal(washUpMeal(washUp(resolve.WashAfterDish, 10, 0))).serve("Main", at(13, 0), leeks, pancakes).plan(t)
	require.NotNil(t, line)
	audit(t, line)
	require.Empty(t, sink(line))
	require.Equal(t, []string{"13:05 to 13:15 Ana Wash up after Leeks", "13:15 to 13:25 Ana Wash up after Pancakes"}, sinkAfter(line))
	require.Zero(t, line.Late)
	require.Zero(t, line.Waiting)
	require.Equal(t, "So that no hot food waits for it, the washing up after Leeks is left until after serving. Nobody is free for a minute at 12:59 (take off the heat: Boil).", line.Note)
	found := diags.Sorted()
	require.Len(t, found, 1)
	require.Equal(t, "P109", found[0].Code)
	require.Equal(t, "the washing up after Leeks is left until after serving", found[0].Message)
	require.Contains(t, found[0].Help, "give it to one more cook, or make it shorter")

	two := washUpMeal(washUp(resolve.WashAfterDish, 10, 0))
	two.Cooks = []string{"Ana", "Jo", "Kit"}
	line = newMeal(two).serve("Main", at(13, 0), leeks, pancakes).planned(t)
	require.Len(t, sink(line), 1, "two more cooks: one fries, one washes, one takes the leeks off")
	require.Zero(t, line.Waiting)
}

// Half an hour of chopping and ten minutes of washing up do not go into half an
// hour: the finding names the washing up, and that it can wait.
func TestWashingUpInConflict(t *testing.T) {
	salad := recipe("Salad", step("Chop", work(30)), &resolve.ServeHow{State: "cold"})
	for _, c := range []struct {
		to   int
		code string
		says string
	}{
		{at(13, 0), "P202", "Salad and the washing up cannot all be done in time together"},
		{at(15, 0), "P201", "Main (Salad) is 10 min late: served at 13:10 instead of 13:00"},
	} {
		_, diags := newMeal(washUpMeal(washUp(resolve.WashAfterDish, 10, 0)), resolve.Hours{From: at(12, 30), To: c.to}).serve("Main", at(13, 0), salad).plan(t)
		found := diags.Sorted()
		require.Len(t, found, 1, c.code)
		require.Equal(t, c.code, found[0].Code)
		require.Equal(t, c.says, found[0].Message)
		require.Contains(t, found[0].Help, "leave the washing up until after: take out `wash up 10 min, after each dish`")
	}
}

func withTool(key string) clause {
	return func(s *resolve.Step) { s.Tools = append(s.Tools, key) }
}

// A blender that takes 3 min to wash, on the clock of five minutes: each turn
// of 5 min is followed by one washing, but for the last.
func TestToolsAreWashedBetweenDishes(t *testing.T) {
	kitchen := func(blenders int) *resolve.Kitchen {
		k := farmhouse()
		for range blenders {
			k.Tools = append(k.Tools, resolve.Tool{Name: "stick blender", Key: "stick blender", Washed: 3 * time.Minute})
		}
		return k
	}
	blend := func(name string) *resolve.Recipe {
		return recipe(name, step("Blend the "+name, work(5), withTool("stick blender")), &resolve.ServeHow{State: "cold"})
	}
	soup := recipe("Soup", step("Simmer", ring, work(5), leave(30)), step("Blend the soup", work(5), withTool("stick blender")), hot(10))

	// The soup is hot, so the dressing goes first: blended to 12:45, washed to 12:48, and the soup taken off at 12:54.
	line := newMeal(kitchen(1)).serve("Main", at(13, 0), soup, blend("Dressing")).planned(t)
	require.Equal(t, []string{"12:45 to 12:48 Ana Wash the stick blender"}, sink(line))
	require.Equal(t, at(12, 40), job(line, t, "Blend the Dressing").Start())
	require.Equal(t, at(12, 55), job(line, t, "Blend the soup").Start())
	require.Contains(t, titles(job(line, t, "Blend the soup").After), "Wash the stick blender")
	var why bytes.Buffer
	require.NoError(t, writeWhy(&why, line, job(line, t, "Wash the stick blender")))
	require.Contains(t, why.String(), "asked for by   `tools stick blender, washed in 3 min`")
	require.Contains(t, why.String(), "waits for      Blend the Dressing (B1), done 12:45")
	require.Contains(t, why.String(), "Ana is wanted for step 1 of Soup (Simmer) at 12:54", "to take it off")

	// Three turns and two washings: 12:35, 12:45, 12:55.
	line = newMeal(kitchen(1)).serve("Main", at(13, 0), blend("Dip"), blend("Dressing"), blend("Sauce")).planned(t)
	require.Equal(t, []string{"12:40 to 12:43 Ana Wash the stick blender after Dip", "12:50 to 12:53 Ana Wash the stick blender after Dressing"}, sink(line))
	require.Equal(t, at(12, 35), line.Start)

	// One dish that needs it twice keeps it, and two blenders want no washing.
	twice := recipe("Dip", step("Blend", work(5), withTool("stick blender")), step("Blend again", work(5), withTool("stick blender")), &resolve.ServeHow{State: "cold"})
	require.Empty(t, sink(newMeal(kitchen(1)).serve("Main", at(13, 0), twice).planned(t)))
	require.Empty(t, sink(newMeal(kitchen(2)).serve("Main", at(13, 0), blend("Dip"), blend("Dressing")).planned(t)))
	plain := kitchen(1)
	plain.Tools[0].Washed = 0
	require.Empty(t, sink(newMeal(plain).serve("Main", at(13, 0), blend("Dip"), blend("Dressing")).planned(t)))
}

// Chopped 12:20 to 12:50 and washed up until it is served; when chopping takes
// ten minutes longer, the salad is still on time and the bowl waits.
func TestLateMealLeavesTheSink(t *testing.T) {
	salad := recipe("Salad", step("Chop", work(30)), &resolve.ServeHow{State: "cold"})
	line := newMeal(washUpMeal(washUp(resolve.WashAfterDish, 10, 0))).serve("Main", at(13, 0), salad).planned(t)
	require.Equal(t, []string{"12:50 to 13:00 Ana Wash up after Salad"}, sink(line))
	r := Replan(context.Background(), line, job(line, t, "Chop"), 10)
	require.NotNil(t, r.Timeline)
	require.True(t, r.OnTime())
	require.Empty(t, sink(r.Timeline))
	require.Equal(t, []string{"the washing up that is not begun by then is left until after"}, r.Over)

	// Washing up that itself takes longer keeps nothing waiting either.
	r = Replan(context.Background(), line, job(line, t, "Wash up after Salad"), 5)
	require.NotNil(t, r)
}

// Whatever the meal, washing up keeps its rules or is said to be left.
func TestRandomSinks(t *testing.T) {
	plans, sinks := 0, 0
	rounds := effort.Rounds[uint64](8, 120)
	for seed := range rounds {
		c := chance{rand.New(rand.NewPCG(seed, 7))}
		m := c.meal()
		if m.Kitchen == nil {
			continue
		}
		var by []string
		if c.one(3) {
			by = []string{"Ana"}
		}
		if c.one(2) {
			m.Kitchen.WashUps = append(m.Kitchen.WashUps, washUp(resolve.WashAfterDish, 3+c.IntN(10), 0, by...))
		}
		if c.one(2) {
			m.Kitchen.WashUps = append(m.Kitchen.WashUps, washUp(resolve.WashBefore, 5+c.IntN(20), 0, by...))
		}
		if c.one(2) || len(m.Kitchen.WashUps) == 0 {
			m.Kitchen.WashUps = append(m.Kitchen.WashUps, washUp(resolve.WashEvery, 5+c.IntN(10), 30+c.IntN(60), by...))
		}
		if c.one(2) {
			for _, mk := range m.Makings {
				for _, s := range mk.Recipe.Steps {
					if c.one(3) {
						s.Tools = []string{"blender"}
					}
				}
			}
			m.Kitchen.Tools[0].Washed = time.Duration(1+c.IntN(6)) * time.Minute
		}
		diags := &diag.List{}
		line := Plan(context.Background(), m.Meal, timeline.Options{Steps: 200}, diags)
		if line == nil {
			require.True(t, diags.HasErrors(), "seed %d: no plan and no word", seed)
			continue
		}
		plans++
		sinks += len(sink(line))
		for _, f := range faults(line) {
			t.Errorf("seed %d: %s", seed, f)
		}
		for _, j := range line.Jobs {
			require.NoError(t, writeWhy(io.Discard, line, j))
			require.GreaterOrEqual(t, j.Slack, 0)
		}
		late := line.Jobs[c.IntN(len(line.Jobs))]
		if r := Replan(context.Background(), line, late, 1+c.IntN(30)); r != nil {
			require.NoError(t, writeLate(io.Discard, line, r))
		}
	}
	t.Logf("%d plans with %d washings-up", plans, sinks)
	require.Greater(t, plans, int(rounds)/2)
	require.Greater(t, sinks, int(rounds)/2)
}
