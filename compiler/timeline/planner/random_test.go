package planner

import (
	"context"
	"fmt"
	"io"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"tamis/compiler/demand"
	"tamis/compiler/events"
	"tamis/compiler/resolve"
	"tamis/compiler/timeline"
	"tamis/compiler/timeline/answer"
	"tamis/lang/diag"
	"tamis/lang/effort"
	"tamis/lang/quantity"
	"tamis/render/plantext"
)

// chance makes meals of all the notation can say about time.
type chance struct{ *rand.Rand }

func (c chance) one(n int) bool { return c.IntN(n) == 0 }

func (c chance) kitchen() *resolve.Kitchen {
	k := farmhouse()
	if c.one(3) {
		k.Cooks = []string{"Ana", "Jo"}
	}
	k.Rings = 1 + c.IntN(4)
	if c.one(3) {
		k.Ovens = append(k.Ovens, resolve.Oven{Name: "small", Key: "small", Shelves: 1, Fan: true, Preheat: 10 * time.Minute})
	}
	k.Tools = []resolve.Tool{{Name: "blender", Key: "blender"}}
	k.Vessels = []resolve.Vessel{{Name: "pot", Key: "pot", Count: 1 + c.IntN(2)}}
	return k
}

func (c chance) step(n int) *resolve.Step {
	var cs []clause
	if c.one(8) {
		cs = append(cs, func(*resolve.Step) {})
	} else {
		cs = append(cs, work(1+c.IntN(15)))
	}
	if c.one(4) {
		cs = append(cs, watch(1+c.IntN(10)))
	}
	if c.one(2) {
		low := 5 + c.IntN(50)
		cs = append(cs, leaveRange(low, low+c.IntN(10)))
	} else if c.one(5) {
		cs = append(cs, upTo(20+c.IntN(60), 200+c.IntN(300)))
	}
	switch c.IntN(4) {
	case 0:
		cs = append(cs, ring)
	case 1:
		t := 140 + 10*c.IntN(9)
		cs = append(cs, heat(t, t+10*c.IntN(3)), leave(10+c.IntN(40)))
	}
	s := step(fmt.Sprintf("step %d", n), cs...)
	if len(s.Heats) > 0 { // each kind of phase at most once
		last := s.Phases[len(s.Phases)-1]
		s.Phases = []resolve.Spell{spell(resolve.Work, 1+c.IntN(9), 9), last}
	}
	switch {
	case n > 0 && c.one(6):
		s.Meanwhile = true
	case n > 0 && c.one(12):
		s.AnyTime = true
	}
	if c.one(8) {
		s.Tools = []string{"blender"}
	}
	if c.one(5) {
		s.Vessel = "pot"
	}
	if c.one(10) {
		s.Hold = &resolve.Hold{State: "hot", UpTo: span(40, 40)}
	}
	return s
}

func (c chance) recipe(name string) *resolve.Recipe {
	var parts []any
	for n := range 1 + c.IntN(6) {
		if n > 1 && c.one(8) {
			parts = append(parts, pauseUpTo(20), step("back", ifPaused, ring, work(5), leave(10)))
		}
		parts = append(parts, c.step(n))
	}
	for i := range c.IntN(4) {
		l := &resolve.Line{Name: fmt.Sprintf("thing %d", i), Key: fmt.Sprintf("thing %d", i)}
		if c.one(2) {
			l.Prep = []resolve.Spell{spell(resolve.Work, 1, 1+c.IntN(12))}
		} else if c.one(4) {
			l.Prep = []resolve.Spell{spell(resolve.Work, 2, 2), spell(resolve.Leave, 60, 60)}
		}
		parts = append(parts, l)
	}
	if c.one(2) {
		parts = append(parts, hot(10+c.IntN(20)))
	}
	r := recipe(name, parts...)
	for i, s := range r.Steps { // the first step of a stage has nothing to run beside
		if i == 0 || s.Pause != r.Steps[i-1].Pause || len(r.Steps[i-1].If) > 0 {
			s.Meanwhile = false
		}
	}
	return r
}

func (c chance) meal() *meal {
	var hours []resolve.Hours
	if c.one(2) {
		hours = append(hours, resolve.Hours{From: at(16, 0) - timeline.Day, To: at(21, 0) - timeline.Day}, resolve.Hours{From: at(7, 0), To: at(15, 0)})
	}
	m := newMeal(c.kitchen(), hours...)
	if c.one(6) {
		m.Kitchen, m.Menu.Kitchen = nil, nil
	}
	if c.one(5) {
		m.Menu.Serve, m.Menu.Hours = nil, nil
	}
	var base *demand.Making
	if c.one(2) {
		r := c.recipe("base")
		if c.one(2) {
			r.Keeps = &resolve.Keep{Time: *span(24*60, 48*60), Place: "fridge"}
		}
		base = m.make(r, nil)
	}
	first := at(13, 0)
	if m.Menu.Serve == nil {
		first = 0
	}
	for n := range 1 + c.IntN(2) {
		var rs []*resolve.Recipe
		for k := range 1 + c.IntN(2) {
			rs = append(rs, c.recipe(fmt.Sprintf("dish %d.%d", n, k)))
		}
		m.serve(fmt.Sprintf("course %d", n), first+n*(20+c.IntN(30)), rs...)
	}
	for _, mk := range m.Makings {
		if mk.Serving != nil && c.one(6) {
			mk.Serving.Ahead = len(mk.Recipe.Pauses) > 0
		}
		for i, a := range mk.Lines {
			if len(mk.Reading.Steps) == 0 {
				continue
			}
			user := mk.Reading.Steps[c.IntN(len(mk.Reading.Steps))]
			user.Takes = append(user.Takes, resolve.Take{Line: a.Line, All: true, Part: quantity.Int(1)})
			if i == 0 && base != nil && mk != base {
				a.Source = base
			}
		}
	}
	return m
}

// Whatever a meal asks, the planner answers: with a plan that the audit passes
// or with a finding that says why there is none.
func TestRandomMeals(t *testing.T) {
	plans, late, none := 0, 0, 0
	rounds := effort.Rounds[uint64](16, 150)
	for seed := range rounds {
		m := chance{rand.New(rand.NewPCG(seed, 1))}.meal()
		diags := &diag.List{}
		line := Plan(context.Background(), m.Meal, timeline.Options{Steps: 200}, diags)
		switch {
		case line == nil:
			none++
			require.True(t, diags.HasErrors(), "seed %d: no plan and no word", seed)
		case line.Late > 0:
			late++
			require.True(t, diags.HasErrors(), "seed %d: late and no word", seed)
		}
		if line == nil {
			continue
		}
		plans++
		for _, f := range faults(line) {
			t.Errorf("seed %d: %s", seed, f)
		}
		require.NotEmpty(t, plantext.RunSheet(events.Of(line), 1))
		for _, j := range line.Jobs {
			require.NoError(t, writeWhy(io.Discard, line, j))
			require.GreaterOrEqual(t, j.Slack, 0)
		}
	}
	t.Logf("%d plans, %d of them late, %d without one", plans, late, none)
	require.Greater(t, plans, int(rounds)*2/3)
}

// Whatever the clock, every limit is kept: meals of chance by 1, 5, 10 and 15
// min. Jobs are off the clock only where the plan says that it left it.
func TestRandomMealsOnEveryClock(t *testing.T) {
	plans, off := 0, 0
	rounds := effort.Rounds[uint64](4, 30)
	for seed := range rounds {
		for _, grid := range []int{1, 5, 10, 15} {
			m := chance{rand.New(rand.NewPCG(seed, 5))}.meal()
			line := Plan(context.Background(), m.Meal, timeline.Options{Steps: 200, Grid: grid}, &diag.List{})
			if line == nil {
				continue
			}
			plans++
			for _, f := range faults(line) {
				t.Errorf("seed %d by %d: %s", seed, grid, f)
			}
			first := answer.ResultOf(line).Draft.FirstCourse().At
			for _, b := range answer.ResultOf(line).Blocks() {
				if at := answer.ResultOf(line).Start(b.Jobs[0]); (at-first)%grid != 0 {
					off++
					require.Less(t, line.Grid, grid, "seed %d: %s is off a clock of %d that the plan says it keeps", seed, b.Jobs[0].Title, grid)
				}
			}
		}
	}
	t.Logf("%d plans, %d beginnings off the clock", plans, off)
	require.Greater(t, plans, int(rounds)*5/2)
}
