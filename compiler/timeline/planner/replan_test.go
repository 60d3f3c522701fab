package planner

import (
	"bytes"
	"context"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler/timeline"
	"tamis/compiler/timeline/answer"
	"tamis/lang/diag"
	"tamis/lang/effort"
)

// replanned plans the rest again and checks what must hold whatever the delay:
// what was begun before goes on as it was, and nothing begins before the moment.
func replanned(t *testing.T, line *timeline.Timeline, late *timeline.Job, by int) *timeline.Replanned {
	t.Helper()
	r := Replan(context.Background(), line, late, by)
	require.NotNil(t, r)
	if r.Timeline == nil {
		require.NotEmpty(t, r.Why)
		return r
	}
	require.Equal(t, late.End()+by, r.Now+by)
	require.GreaterOrEqual(t, r.Job.End(), late.End()+by, "the late job is as late as that")
	was := map[string]*timeline.Job{}
	name := func(j *timeline.Job) string {
		if j.Making == nil {
			return j.Title
		}
		if j.Line != nil {
			return j.Making.Letter + " prepare " + j.Line.Line.Name + j.Title
		}
		return j.Mark() + j.Title
	}
	for _, j := range line.Jobs {
		was[name(j)] = j
	}
	require.Len(t, r.Jobs, len(line.Jobs))
	for _, j := range r.Jobs {
		o := was[name(j)]
		require.NotNil(t, o, name(j))
		if begun := begun(line, o); begun < r.Now {
			if o.Kind != timeline.PrepJob { // of several done in one go, those after a late one move
				require.Equal(t, o.Start(), j.Start(), "%s was begun", j.Title)
			}
			continue
		}
		require.GreaterOrEqual(t, j.Start(), r.Now, j.Title)
	}
	if len(r.Over) == 0 {
		audit(t, r.Timeline)
	}
	return r
}

// begun is when the work of which a job is part begins.
func begun(t *timeline.Timeline, j *timeline.Job) timeline.Minute {
	for _, o := range answer.ResultOf(t).Draft.Jobs {
		if answer.ResultOf(t).On(o) && answer.ResultOf(t).Job(o) == j {
			return answer.ResultOf(t).Job(o.Block.Jobs[0]).Start()
		}
	}
	return j.Start()
}

// Worked by hand: the roast comes out at 12:35, rests 15 min at least and 10
// more at most, and is carved from 12:50 for 13:00.
func TestReplan(t *testing.T) {
	k := farmhouse()
	k.Cooks = []string{"Ana", "Jo"}
	roast := recipe("Roast", step("Roast the joint", heat(180, 180), leave(60)), step("Rest the joint", leave(15)), step("Carve the joint", work(10)), hot(10))
	peas := recipe("Peas", step("Boil the peas", ring, work(10)), hot(10))
	line := newMeal(k).serve("Main", at(13, 0), roast, peas).planned(t)
	joint := job(line, t, "Roast the joint")
	require.Equal(t, at(11, 35), joint.Start())
	require.Equal(t, at(12, 50), job(line, t, "Carve the joint").Start())

	// Five minutes late: rested and carved five minutes later, 5 min late to
	// the table; nobody can carve before it has rested.
	r := replanned(t, line, joint, 5)
	require.Equal(t, at(12, 35), r.Now)
	require.Equal(t, at(12, 40), job(r.Timeline, t, "Rest the joint").Start())
	require.Equal(t, at(12, 55), job(r.Timeline, t, "Carve the joint").Start())
	require.False(t, r.OnTime())
	require.Equal(t, at(13, 5), r.Servings[0].Served)
	require.Contains(t, r.Why, "waits for")
	var b bytes.Buffer
	require.NoError(t, writeLate(&b, line, r))
	require.Contains(t, b.String(), `Roast the joint (A1) ends at 12:40 instead of 12:35, 5 min late.
Main is 5 min late: 13:05 instead of 13:00.
`)
	require.Contains(t, b.String(), "Carve the joint · was 12:50")
	require.Contains(t, b.String(), "What would mend it: serve what is left 5 min later.")
	require.Contains(t, b.String(), "Tried, and still 5 min late: find one more ring;")

	// The peas have nobody waiting but the table. Ten minutes late they make it
	// ten minutes late; the joint, not yet carved, is carved later.
	r = replanned(t, line, job(line, t, "Boil the peas"), 10)
	require.Equal(t, at(13, 10), r.Servings[1].Served)
}

// With room before the table a delay is taken up by it: what comes after moves
// along, nothing else does. By hand: the soup is done at 12:40 and kept to
// 13:00 within its limit; 12 min later it is done at 12:52.
func TestReplanTakenUp(t *testing.T) {
	soup := recipe("Soup", step("Simmer the soup", ring, work(5), leave(20)), step("Blend the soup", work(5)), hot(30))
	bread := recipe("Bread", step("Slice the bread", work(25)))
	line := newMeal(farmhouse()).serve("Main", at(13, 0), soup, bread).planned(t)
	simmer, blend := job(line, t, "Simmer the soup"), job(line, t, "Blend the soup")
	slice := job(line, t, "Slice the bread")
	require.Equal(t, at(12, 55), blend.Start())
	require.Equal(t, at(12, 30), simmer.Start())
	require.Equal(t, at(12, 5), slice.Start(), "before, for Ana has the soup from 12:30")
	r := replanned(t, line, slice, 3)
	require.Equal(t, at(12, 33), job(r.Timeline, t, "Simmer the soup").Start(), "Ana is late for it")
	require.Equal(t, at(13, 3), r.Servings[0].Served, "it takes 30 min")
	require.Contains(t, r.Cures, "find one more cook")
}

// One shelf: the pie bakes from 12:10, the tart from 12:40. Ten minutes late, the
// tart is ten minutes late; with a shelf more it need not wait.
func TestReplanCures(t *testing.T) {
	k := farmhouse()
	k.Ovens[0].Shelves = 1
	pie := recipe("Pie", step("Bake the pie", heat(180, 200), leave(30)), hot(60))
	tart := recipe("Tart", step("Bake the tart", heat(180, 200), leave(20)), hot(5))
	line := newMeal(k).serve("Main", at(13, 0), pie, tart).planned(t)
	first := job(line, t, "Bake the pie")
	require.Equal(t, at(12, 10), first.Start())
	require.Equal(t, at(12, 40), job(line, t, "Bake the tart").Start())
	r := replanned(t, line, first, 10)
	require.Equal(t, at(12, 50), job(r.Timeline, t, "Bake the tart").Start())
	require.Equal(t, at(13, 10), r.Servings[0].Served)
	require.Equal(t, []string{"find room for one more shelf in the oven", "find a second oven", "serve what is left 10 min later"}, r.Cures)
	require.Contains(t, r.Why, "one main oven with one shelf")
}

// A delay is read with its step.
func TestDelayed(t *testing.T) {
	line := lunch(t)
	for text, want := range map[string]int{
		"Slow lamb 3 15 min":    15,
		"B3 0:15":               15,
		"B3 by 1 h 20 min":      80,
		"B3, 15 min late":       15,
		"cover tightly 2 hours": 120,
	} {
		j, by, err := line.Delayed(text)
		require.NoError(t, err, text)
		require.Equal(t, want, by, text)
		require.Equal(t, "B3", j.Mark(), text)
	}
	for text, want := range map[string]string{
		"B3":         "how late? Write the step and the time: `B3 15 min`",
		"15 min":     "how late?",
		"B3 15":      "how late?",
		"B3 3 days":  "Say from 1 min to 24 h",
		"Q7 15 min":  `no step is called "Q7"`,
		"B3 0 min":   "how late?",
		"B3 -15 min": "",
	} {
		_, _, err := line.Delayed(text)
		require.ErrorContains(t, err, want, text)
	}
}

// Delays of every size for jobs of the lunch and of meals of chance.
func TestReplanAnything(t *testing.T) {
	line := lunch(t)
	onTime, late := 0, 0
	for i, j := range line.Jobs {
		if i%effort.Rounds(8, 4) != 0 {
			continue
		}
		if r := replanned(t, line, j, 7); r.OnTime() {
			onTime++
		} else {
			late++
		}
	}
	require.Greater(t, onTime, late)
	for seed := range effort.Rounds[uint64](5, 60) {
		c := chance{rand.New(rand.NewPCG(seed, 3))}
		line := Plan(context.Background(), c.meal().Meal, timeline.Options{Steps: 200}, &diag.List{})
		if line == nil || line.Late > 0 || len(line.Jobs) == 0 {
			continue
		}
		r := replanned(t, line, line.Jobs[c.IntN(len(line.Jobs))], 1+c.IntN(60))
		var b bytes.Buffer
		require.NoError(t, writeLate(&b, line, r))
		require.NotEmpty(t, b.String())
	}
}
