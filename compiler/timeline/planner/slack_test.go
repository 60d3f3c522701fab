package planner

import (
	"context"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"tamis/compiler/plan"
	"tamis/compiler/timeline"
	"tamis/compiler/timeline/answer"
	"tamis/compiler/timeline/problem"
	"tamis/lang/diag"
	"tamis/lang/effort"
)

// delayed asks the engine whether a meal can still be served when it should be
// if one job begins so many minutes later than planned, nothing else begins
// earlier, and nobody changes places. With order, who has what after whom stays
// as it is too. Slack is worked out back from the table along arcs; this asks
// by searching forward, and shares none of that.
func delayed(t *testing.T, r *answer.Result, j *problem.Job, by int, order bool) bool {
	t.Helper()
	p := r.Draft.P
	p.Activities = slices.Clone(p.Activities)
	p.Branches = slices.Clone(p.Branches)
	p.Dues = slices.Clone(p.Dues)
	p.Lags = slices.Clone(p.Lags)
	for i := range p.Branches {
		p.Branches[i].Preset, p.Branches[i].Fixed = r.Solution.Options[i], true
	}
	for i := range p.Dues {
		p.Dues[i].Hard = true
	}
	type window struct{ act, from, to, res int }
	var windows []window
	for i := range p.Activities {
		act, task := &p.Activities[i], r.Solution.Tasks[i]
		if !task.On {
			continue
		}
		act.Release = max(act.Release, task.Start)
		if i == j.Block.Act {
			act.Release = task.Start + by
		}
		mode := act.Modes[task.Mode]
		mode.Uses = slices.Clone(mode.Uses)
		for n := range mode.Uses {
			u := &mode.Uses[n]
			u.Of = []int{task.Members[n]}
			if u.State != nil { // and the heats as they are
				u.State = &plan.Range{Lo: task.Settings[n], Hi: task.Settings[n]}
			}
			from, to := u.From, u.To
			if to == 0 {
				to = mode.Duration
			}
			windows = append(windows, window{i, from, to, task.Members[n]})
		}
		act.Modes = []plan.Mode{mode}
	}
	for _, l := range r.Draft.Links { // no course waits for a habit
		if l.Why == problem.BoardsClear {
			for _, n := range l.Lags {
				p.Lags[n].Gap = -timeline.Day
			}
		}
	}
	for _, l := range r.Draft.Links { // what a job waits for stays where it is
		if l.To.Job.Block == j.Block && l.Max >= 0 && r.Counts(l) {
			p.Activities[l.From.Job.Block.Act].Deadline = r.Solution.Tasks[l.From.Job.Block.Act].End
		}
	}
	for _, a := range windows {
		for _, b := range windows {
			sa, sb := r.Solution.Tasks[a.act].Start, r.Solution.Tasks[b.act].Start
			if order && a.res == b.res && a.act != b.act && p.Resources[a.res].Capacity == 1 && sa+a.to <= sb+b.from {
				p.AtLeast(plan.StartOf(a.act), plan.StartOf(b.act), a.to-b.from, "")
			}
		}
	}
	out, err := plan.Solve(context.Background(), &p, plan.Budget{Steps: 2000, NoConflict: true})
	require.NoError(t, err)
	return out.Solution != nil && out.Solution.Score[plan.Lateness] == 0
}

// sharesOnlyOnes tells whether nothing there is several of is in use: then what
// follows what is plain.
func sharesOnlyOnes(r *answer.Result) bool {
	for res, hs := range r.Holds() {
		if len(hs) > 1 && r.Draft.P.Resources[res].Capacity > 1 {
			return false
		}
	}
	return true
}

// slackHolds checks each job's slack against the engine: that much is true, and
// a minute more is not.
func slackHolds(t *testing.T, line *timeline.Timeline) (kept, tight int) {
	t.Helper()
	r := answer.ResultOf(line)
	exact := sharesOnlyOnes(r)
	for _, b := range r.Blocks() {
		j := b.Jobs[0]
		require.True(t, delayed(t, r, j, r.Job(j).Slack, false), "%s of %s: %d min of slack", j.Title, line.Meal.Title, r.Job(j).Slack)
		kept++
		if exact && len(b.Jobs) == 1 && r.Job(j).Slack < timeline.Day {
			require.False(t, delayed(t, r, j, r.Job(j).Slack+1, true), "%s of %s: more than %d min of slack", j.Title, line.Meal.Title, r.Job(j).Slack)
			tight++
		}
	}
	return kept, tight
}

// Slack is right: on the examples, and on meals of chance, planned by the
// minute so that nothing is rounded.
func TestSlack(t *testing.T) {
	for _, dir := range []string{"harvest-lunch", "dumpling-supper", "bakery-morning"} {
		meals, _ := loaded(t, "../../../examples/"+dir)
		for _, m := range meals {
			if line := Plan(context.Background(), m, timeline.Options{Grid: 1, Known: &known}, nil); line != nil {
				kept, _ := slackHolds(t, line)
				require.Positive(t, kept)
			}
		}
	}
	kept, tight := 0, 0
	rounds := effort.Rounds[uint64](8, 40)
	for seed := range rounds {
		m := chance{rand.New(rand.NewPCG(seed, 7))}.meal()
		line := Plan(context.Background(), m.Meal, timeline.Options{Grid: 1, Steps: 200}, &diag.List{})
		if line == nil || line.Late > 0 {
			continue
		}
		a, b := slackHolds(t, line)
		kept, tight = kept+a, tight+b
	}
	require.Greater(t, kept, int(rounds)*5/2)
	require.Greater(t, tight, int(rounds)/2)
	t.Logf("%d jobs can be as late as that, %d of %d no later", kept, tight, kept)
}

// Worked by hand. One cook; the sauce takes 10 min and is wanted at 13:00, the
// salad takes 5 min and may be made any time before. The plan has the sauce
// last; the salad, done just before it, could not be later without making the
// sauce late.
func TestSlackByHand(t *testing.T) {
	sauce := recipe("Sauce", step("Whisk the sauce", ring, work(10)), hot(0))
	salad := recipe("Salad", step("Dress the salad", work(5)))
	line := newMeal(farmhouse()).serve("Main", at(13, 0), sauce, salad).planned(t)
	whisk, dress := job(line, t, "Whisk the sauce"), job(line, t, "Dress the salad")
	require.Equal(t, at(12, 50), whisk.Start())
	require.Equal(t, at(12, 45), dress.Start())
	require.Zero(t, whisk.Slack)
	require.Zero(t, dress.Slack)
	require.Equal(t, []string{"Main is served at 13:00"}, whisk.Holds)
	require.Equal(t, []string{"Ana is wanted for step 1 of Sauce (Whisk the sauce) at 12:50"}, dress.Holds)
	require.Equal(t, []string{"Dress the salad", "Whisk the sauce"}, titles(line.Chain))

	// With two cooks neither waits for the other.
	k := farmhouse()
	k.Cooks = append(k.Cooks, "Jo")
	line = newMeal(k).serve("Main", at(13, 0), sauce, salad).planned(t)
	dress = job(line, t, "Dress the salad")
	require.Equal(t, at(12, 55), dress.Start())
	require.Equal(t, []string{"Main is served at 13:00"}, dress.Holds)
	require.Equal(t, []string{"Whisk the sauce"}, titles(line.Chain), "the chain is the longer of the two")

	// A limit holds too: the pan must not stand for more than 10 min. The bake
	// that keeps Ana from 12:50 leaves the rest 5 min after the fry.
	fry := recipe("Rice", step("Fry the rice", ring, work(10), leave(20)), step("Fork it up", work(2)))
	line = newMeal(farmhouse()).serve("Main", at(13, 0), fry).planned(t)
	fork := job(line, t, "Fork it up")
	require.Equal(t, at(12, 55), fork.Start())
	require.Equal(t, 3, fork.Slack, "two minutes of work before one, begun on the clock of five")
}

// A hand-over that asks for several at once waits for all that have them: two
// rings of two cannot be taken before both are free.
func TestSlackOfSeveral(t *testing.T) {
	k := farmhouse()
	k.Rings, k.WaitHot, k.Cooks = 2, time.Hour, []string{"Ana", "Jo", "Sol"}
	pot := recipe("Pot", step("Boil the pot", ring, leave(30)))
	pot.Steps[0].Rings = 2
	short := recipe("Cream", step("Warm the cream", ring, leave(20)))
	m := newMeal(k).serve("Main", at(13, 0), pot, short)
	line := m.planned(t)
	cream, boil := job(line, t, "Warm the cream"), job(line, t, "Boil the pot")
	first, second := cream, boil
	if boil.Start() < cream.Start() {
		first, second = boil, cream
	}
	require.Equal(t, second.Start()-first.End(), first.Slack, "it has no room but up to when the other begins")
}

// What is served as it is finished is on the chain from its first step on.
func TestCriticalChain(t *testing.T) {
	meals, _ := loaded(t, "../../../examples/harvest-lunch")
	line := Plan(context.Background(), meals[0], timeline.Options{Known: &known}, nil)
	require.NotEmpty(t, line.Chain)
	for i, j := range line.Chain {
		require.True(t, j.Critical)
		require.Less(t, j.Slack, line.Grid, j.Title)
		if i > 0 {
			require.GreaterOrEqual(t, j.Start(), line.Chain[i-1].Start(), "in order of time")
		}
	}
	last := line.Chain[len(line.Chain)-1]
	require.True(t, slices.ContainsFunc(line.Servings, func(s *timeline.Serving) bool { return s.At-last.End() < line.Grid && s.At >= last.End() }), "it ends at a serving")
	marked := 0
	for _, j := range line.Jobs {
		if j.Critical {
			marked++
		}
	}
	require.Equal(t, len(line.Chain), marked)
}

// A day before ends a quarter of an hour before its hours: what keeps the last job from being
// later is said as it is.
func TestADayBeforeEndsSoonerByHabit(t *testing.T) {
	line := onTime(t, `kitchen K
  cooks A
  oven main, 2 shelves
menu M
  covers 12
  on the table 2027-05-02 13:00
  at K
  hours day before, 14:00 to 18:00
  hours on the day, 11:30 to 15:00
  course Main
    Pie
`+writtenDish("Pie", "    600 g parsnips, diced | work 20 min\n    300 g pastry\n", "hot, within 15 min",
		"Fill the pastry with the parsnips. | work 50 min | keeps 1 day, fridge", "Bake. | oven 180 C | work 5 min | leave 50 min"))
	fill := job(line, t, "Fill the pastry with the parsnips")
	require.Equal(t, at(17, 45)-timeline.Day, fill.End())
	require.Contains(t, fill.Holds, "the work of A ends at 17:45 the day before, 15 min before the hours do")
}
