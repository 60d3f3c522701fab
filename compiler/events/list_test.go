package events_test

import (
	"context"
	"fmt"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"testing/fstest"
	"time"

	"github.com/stretchr/testify/require"

	"tamis/compiler"
	"tamis/compiler/demand"
	"tamis/compiler/events"
	"tamis/compiler/load"
	"tamis/compiler/resolve"
	"tamis/compiler/timeline"
	"tamis/lang/effort"
	"tamis/testdata/menus"
)

// plans are those of the examples and of menus of chance.
func plans(t *testing.T) map[string]*timeline.Timeline {
	t.Helper()
	out, err := planned()
	require.NoError(t, err)
	return out
}

// thenWork has hands busy again on what was left.
const thenWork = `menu Supper
  covers 4
  on the table 2027-05-02 19:00
  course Table
    Courgettes
dish Courgettes
  serves 4
  gather
    1 kg     courgettes
    15 g     mint leaves
  method
    - Grill the courgettes. | grill high | watch 8 min
    - Let them cool, then scatter with the mint. | leave 20 min | then work 2 min
  serve at room temperature
`

var planned = sync.OnceValues(func() (map[string]*timeline.Timeline, error) {
	out := map[string]*timeline.Timeline{}
	add := func(name string, tree *load.Tree) {
		r := compiler.Compile(context.Background(), tree, compiler.Options{PlanAll: true, NoPages: true})
		for i, line := range r.Timelines {
			if line != nil {
				out[fmt.Sprintf("%s %d", name, i)] = line
			}
		}
	}
	dirs, err := filepath.Glob("../../examples/*/README.md")
	if err != nil || len(dirs) < 5 {
		return nil, fmt.Errorf("%d examples: %w", len(dirs), err)
	}
	for i, d := range dirs {
		if i%2 == 0 && !effort.Long() { // each plan takes its time
			continue
		}
		tree, err := load.Path(filepath.Dir(d))
		if err != nil {
			return nil, err
		}
		add(filepath.Base(filepath.Dir(d)), tree)
	}
	then, err := load.FS(fstest.MapFS{"a.tamis": {Data: []byte(thenWork)}}, ".", "", "")
	if err != nil {
		return nil, err
	}
	add("then work", then)
	was := len(out)
	rounds := effort.Rounds[uint64](8, 20)
	for seed := range rounds {
		tree, err := load.FS(menus.ByChance(seed), ".", "", "")
		if err != nil {
			return nil, err
		}
		add(fmt.Sprint("seed ", seed), tree)
	}
	if n := len(out) - was; n < int(rounds)*3/5 {
		return nil, fmt.Errorf("of %d menus of chance only %d can be planned", rounds, n)
	}
	return out, nil
})

// fractions are set as printers set them.
var fractions = strings.NewReplacer("1/2", "½", "1/4", "¼", "3/4", "¾")

// What the plan has is in the list once, at the same minutes; and nothing else
// is.
func TestTheListIsThePlan(t *testing.T) {
	for name, line := range plans(t) {
		t.Run(name, func(t *testing.T) {
			l := events.Of(line)
			var want []string
			say := func(kind events.Kind, start, end int, thing string, who []string) {
				want = append(want, fmt.Sprintf("%s %d %d %s %v", kind, start, end, thing, who))
			}
			for _, j := range line.Jobs {
				say(events.Job, j.Start(), j.End(), fmt.Sprintf("%s %d/%d", fractions.Replace(j.Title), j.Number, j.Load), j.Cooks)
				for _, x := range j.Touches {
					say(events.Touch, x.Start, x.End, fmt.Sprintf("%s %d/%d", fractions.Replace(j.Title), j.Number, j.Load), x.Cooks)
				}
				for i, p := range j.Phases { // what is worked when a step has been watched or left
					if i > 0 && j.Step != nil && p.Kind == resolve.Work && j.Phases[i-1].Kind != resolve.Work {
						say(events.Touch, p.Start, p.End, fmt.Sprintf("%s %d/%d", fractions.Replace(j.Title), j.Number, j.Load), p.Cooks)
					}
				}
				in := func(at int) {
					var who []string
					for _, x := range j.Puts {
						if x.Put == timeline.PutIn {
							at, who = x.Start, x.Cooks
						}
					}
					say(events.In, at, j.End(), fmt.Sprintf("%s %d/%d", fractions.Replace(j.Title), j.Number, j.Load), who)
				}
				if j.Oven != "" {
					in(j.Phases[slices.IndexFunc(j.Phases, func(p timeline.Phase) bool { return p.Kind != resolve.Work })].Start)
				}
				if j.Rings > 0 {
					in(j.Start())
				}
			}
			for _, h := range line.Heats {
				say(events.Heat, h.Preheat, h.Start, fmt.Sprint(h.Oven, h.Celsius, h.Turned), h.By)
				if len(h.OffBy) > 0 {
					say(events.Off, h.Off, h.Off, h.Oven, h.OffBy)
				}
			}
			for _, s := range line.Servings {
				say(events.Serve, s.Served, s.Served, s.Name, s.By)
			}
			var have []string
			for _, e := range l.Events {
				thing := fmt.Sprintf("%s %d/%d", e.Title, e.Number, e.Load)
				switch e.Kind {
				case events.Heat:
					thing = fmt.Sprint(e.Where.Oven, e.Setting.Celsius, e.Setting.Turned)
				case events.Off:
					thing = e.Where.Oven
				case events.Serve:
					thing = e.Thing
				case events.Out: // a plan has no such thing: it is where a job ends
					require.InDelta(t, int(e.Of.End), int(e.Start), 4)
					require.Equal(t, resolve.Leave, e.Of.Last().Kind)
					continue
				}
				have = append(have, fmt.Sprintf("%s %d %d %s %v", e.Kind, e.Start, e.End, thing, e.Who))
			}
			require.ElementsMatch(t, want, have)
		})
	}
}

func TestEventsAreInOrder(t *testing.T) {
	kinds := []events.Kind{events.Out, events.Off, events.Heat, events.Touch, events.Serve, events.Job, events.In}
	for name, line := range plans(t) {
		all := events.Of(line).Events
		for i := 1; i < len(all); i++ {
			x, y := all[i-1], all[i]
			require.LessOrEqual(t, x.At, y.At, name)
			if x.At == y.At {
				require.LessOrEqual(t, slices.Index(kinds, x.Kind), slices.Index(kinds, y.Kind), "%s: %s before %s", name, x.Words, y.Words)
			}
		}
	}
}

// No two things stand on one shelf or ring at once, each has as many as it
// takes, and none is on one that the kitchen does not have.
func TestShelvesAndRings(t *testing.T) {
	together := 0
	for name, line := range plans(t) {
		l := events.Of(line)
		in := l.Each(events.In)
		for i, e := range in {
			want := e.Where.Rings
			if e.Where.Oven != "" {
				j := line.Jobs[slices.IndexFunc(line.Jobs, func(j *timeline.Job) bool {
					return j.Making == e.Dish && j.Step == e.Step && j.Load == e.Load
				})]
				want = max(1, j.Shelves)
			}
			require.Len(t, e.Where.Slots, want, "%s: %s", name, e.Words)
			for k, o := range in {
				if k == i || o.Where.Oven != e.Where.Oven || o.Start >= e.End || e.Start >= o.End {
					continue
				}
				together++
				for _, s := range e.Where.Slots {
					require.NotContains(t, o.Where.Slots, s, "%s: %s and %s", name, e.Words, o.Words)
				}
			}
			if line.Meal.Kitchen == nil {
				continue
			}
			for _, o := range line.Meal.Kitchen.Ovens {
				if o.Name == e.Where.Oven {
					require.Less(t, slices.Max(e.Where.Slots), o.Shelves, "%s: %s", name, e.Words)
				}
			}
			if n := line.Meal.Kitchen.Rings; n > 0 && e.Where.Rings > 0 {
				require.Less(t, slices.Max(e.Where.Slots), n, "%s: %s", name, e.Words)
			}
		}
	}
	require.Greater(t, together, 10)
}

// A step's number in the plan is its place among the steps that are made.
func TestNumbersAreThoseOfTheSheet(t *testing.T) {
	for name, line := range plans(t) {
		l := events.Of(line)
		for _, m := range line.Meal.Makings {
			n := 0
			for _, sr := range m.Reading.Steps {
				if l.Skips(m, sr.Step) {
					require.Zero(t, l.Number(m, sr.Step), name)
					require.Empty(t, l.Jobs(m, sr.Step), "%s: a step that falls away is planned", name)
					continue
				}
				n++
				require.Equal(t, n, l.Number(m, sr.Step), "%s: %s, %s", name, m.Recipe.Name, sr.Step.Line)
				require.NotEmpty(t, l.Jobs(m, sr.Step), "%s: %s, %s", name, m.Recipe.Name, sr.Step.Line)
			}
		}
	}
}

// Every phase of a job, and every touch, is in the lane of its dish once, with
// its cooks; in a row no hands overlap hands, nor what is left something else.
func TestLanesHoldThePlan(t *testing.T) {
	for name, line := range plans(t) {
		l := events.Of(line)
		var have, want []string
		say := func(list *[]string, dish *demand.Making, kind resolve.SpellKind, start int, title string, who []string) {
			letter := ""
			if dish != nil {
				letter = dish.Letter
			}
			*list = append(*list, fmt.Sprint(letter, " ", kind, " ", start, " ", title, " ", who))
		}
		for _, d := range l.Days() {
			day := l.Lanes(d)
			require.Less(t, day.Start, day.End, name)
			for _, lane := range day.Lanes {
				ends := map[[2]any]events.Moment{}
				touched := map[*events.Event]int{}
				for _, s := range lane.Strips {
					require.Less(t, s.Row, lane.Rows, name)
					require.Equal(t, lane.Dish, s.Event.Dish)
					say(&have, lane.Dish, resolve.SpellKind(s.Kind), int(s.Start), s.Event.Title, s.Who)
					require.True(t, day.Start <= s.Start && s.Start < s.End && s.End <= day.End, "%s: %s at %d to %d of %d to %d", name, s.Event.Words, s.Start, s.End, day.Start, day.End)
					if s.Event.Kind == events.Touch { // it lies on its job
						touched[s.Event.Of] = s.Row
						continue
					}
					key := [2]any{s.Row, s.Kind == events.LeaveStrip}
					if was, known := ends[key]; known {
						require.GreaterOrEqual(t, s.Start, was, "%s: two bars in one row: %s", name, s.Event.Words)
					}
					ends[key] = s.End
				}
				for _, s := range lane.Strips {
					if row, ok := touched[s.Event]; ok {
						require.Equal(t, row, s.Row, "%s: what is done to %s", name, s.Event.Words)
					}
				}
			}
			for _, u := range day.Uses {
				last := day.Start
				for _, s := range u.Spans {
					require.True(t, last <= s.From && s.From < s.To && s.To <= day.End, "%s: %s", name, u.Kind)
					last = s.To
				}
			}
		}
		for _, j := range line.Jobs {
			for _, p := range j.Phases {
				if p.End > p.Start {
					say(&want, j.Making, p.Kind, p.Start, fractions.Replace(j.Title), p.Cooks)
				}
			}
			for _, x := range j.Touches {
				say(&want, j.Making, resolve.Work, x.Start, fractions.Replace(j.Title), x.Cooks)
			}
		}
		require.ElementsMatch(t, want, have, name)
	}
}

// One pair of hands looks at a thing, puts it in or takes it out.
func TestALookHasOneCook(t *testing.T) {
	looks := 0
	for name, line := range plans(t) {
		for _, j := range line.Jobs {
			if j.Step != nil && j.Step.Step.Cooks > 1 {
				continue
			}
			for _, x := range slices.Concat(j.Touches, j.Puts) {
				require.LessOrEqual(t, len(x.Cooks), 1, "%s: %s at %d", name, j.Title, x.Start)
				looks++
			}
		}
	}
	require.Greater(t, looks, 60)
}

// Rings and hands, counted minute by minute from the plan: as many rings as the
// jobs have, full when there are no more, and free who is at nothing.
func TestUsesAreCounted(t *testing.T) {
	rings, hands, full := 0, 0, 0
	for name, line := range plans(t) {
		l := events.Of(line)
		for _, d := range l.Days() {
			day := l.Lanes(d)
			for _, u := range day.Uses {
				for m := day.Start; m < day.End; m++ {
					at := slices.IndexFunc(u.Spans, func(s events.Span) bool { return s.From <= m && m < s.To })
					switch u.Kind {
					case events.RingUse:
						n := 0
						for _, j := range line.Jobs {
							if j.Start() <= int(m) && int(m) < j.End() {
								n += j.Rings
							}
						}
						if at < 0 {
							require.Zero(t, n, "%s: rings at %s", name, l.Clock(m))
							continue
						}
						require.Equal(t, n, u.Spans[at].Count, "%s: rings at %s", name, l.Clock(m))
						require.Equal(t, line.Meal.Kitchen != nil && line.Meal.Kitchen.Rings == n && n > 0, u.Spans[at].Full, name)
						rings++
					case events.HandsUse:
						if at < 0 {
							continue
						}
						for _, c := range u.Spans[at].Free {
							require.False(t, busyAt(line, c, int(m)), "%s: %s at %s is at work", name, c, l.Clock(m))
						}
						if u.Spans[at].Full {
							full++
						}
						hands++
					}
				}
			}
		}
	}
	require.Greater(t, rings, 600)
	require.Greater(t, hands, 600)
	require.Greater(t, full, 100)
}

func busyAt(line *timeline.Timeline, cook string, m int) bool {
	for _, j := range line.Jobs {
		for _, p := range j.Phases {
			if p.Kind != resolve.Leave && p.Start <= m && m < p.End && slices.Contains(p.Cooks, cook) {
				return true
			}
		}
		for _, x := range slices.Concat(j.Touches, j.Puts) {
			if x.Start <= m && m < x.End && slices.Contains(x.Cooks, cook) {
				return true
			}
		}
	}
	return slices.ContainsFunc(line.Heats, func(h *timeline.Heat) bool {
		return h.Preheat == m && slices.Contains(h.By, cook) || h.Off == m && slices.Contains(h.OffBy, cook)
	}) || slices.ContainsFunc(line.Servings, func(s *timeline.Serving) bool { return s.Served == m && slices.Contains(s.By, cook) })
}

// A moment is stamped with the offset of its own day: the clocks go back in the
// night before this Sunday (Directive 2000/84/EC: on the last Sunday of October,
// at 01:00 UTC).
func TestStamps(t *testing.T) {
	text := `kitchen Hut
  cooks Ana
  rings 2%s
dish Broth
  serves 4
  gather
    1 kg    leeks
  method
    - Cook the leeks.
      | work 5 min
menu Supper
  covers 4%s
  at Hut
  course First
    Broth
`
	const london, dated = "\n  zone Europe/London", "\n  on the table 2027-10-31 19:00"
	for _, c := range []struct {
		zone, serve string
		at          events.Moment
		want        string
	}{
		{london, dated, -185, "2027-10-30T21:55:00+01:00"}, // the clocks go back at 02:00 that night: 22 h 5 min before 19:00
		{london, dated, 19 * 60, "2027-10-31T19:00:00Z"},
		{"\n  zone America/Chicago", dated, -185, "2027-10-30T20:55:00-05:00"},
		{"\n  zone Asia/Kolkata", dated, 24*60 + 5, "2027-11-01T00:05:00+05:30"},
		{"", dated, 19*60 - 5, "2027-10-31T18:55:00"},
		{london, "", -845, "-PT845M"},
		{"", "", 0, "PT0M"},
	} {
		l := listOf(t, fmt.Sprintf(text, c.zone, c.serve))
		last := l.Events[len(l.Events)-1]
		require.Equal(t, events.Serve, last.Kind)
		require.Equal(t, l.Zero, last.Start)
		require.Equal(t, c.want, l.Stamp(c.at))
		if c.zone != "" && c.serve != "" {
			_, err := time.Parse(time.RFC3339, c.want)
			require.NoError(t, err)
		}
	}
}

// What comes off the heat has a row for it, unless somebody begins the step that waits
// for it in that minute, or that step begins with taking it off: the leeks are done at
// 18:46, and seen to from 18:50.
func TestTakingOutIsNotLost(t *testing.T) {
	for next, want := range map[string]int{
		"Drain the leeks and dress them.":             1,
		"Stir the leeks and remove the stalks.":       1,
		"Dress the leeks with the oil. Turn out.":     1,
		"Take off the heat and dress the leeks.":      0,
		"Take the pan of leeks off the ring. Season.": 0,
	} {
		l := listOf(t, fmt.Sprintf(`kitchen Hut
  cooks Ana
  rings 2
dish Leeks
  serves 4
  gather
    1 kg    leeks
    oil
  method
    - Boil the leeks.
      | ring high | leave 21 min
    - %s
      | work 10 min
  serve hot, within 10 min
menu Supper
  covers 4
  on the table 2027-10-31 19:00
  at Hut
  course First
    Leeks
`, next))
		out := l.Each(events.Out)
		require.Len(t, out, want, next)
		for _, e := range out {
			require.Equal(t, "Leeks, Take off the ring", e.Dish.Recipe.Name+", "+e.Words)
			require.Equal(t, []string{"Ana"}, e.Who)
		}
	}
}

// Ovens are listed by name, whichever is used first.
func TestOvensByName(t *testing.T) {
	bake := func(dish, oven string) string {
		return "dish " + dish + "\n  serves 4\n  gather\n    1 kg " + dish + "\n  method\n    - Bake the " + dish + ".\n      | oven 180 C, in " + oven + " | leave 40 min\n  serve hot, within 10 min\n"
	}
	l := listOf(t, "kitchen Hut\n  cooks Ana\n  oven upper, 2 shelves, preheat 10 min\n  oven lower, 2 shelves, preheat 10 min\n"+bake("leeks", "upper")+bake("parsnips", "lower")+
		"menu Supper\n  covers 4\n  on the table 2027-10-31 19:00\n  at Hut\n  course First\n    leeks\n  course Main, 1 h after First\n    parsnips\n")
	require.Equal(t, []string{"lower", "upper"}, l.Ovens)
}
