package filming_test

import (
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"tamis/compiler/demand"
	"tamis/compiler/events"
	"tamis/compiler/filming"
	"tamis/compiler/load"
	"tamis/compiler/resolve"
	"tamis/compiler/timeline"
	"tamis/compiler/timeline/planner"
	"tamis/lang/diag"
)

// dayOf is the first day of the series of a text, with the plan of its copies.
func dayOf(t *testing.T, text string) *filming.Day {
	t.Helper()
	tree, err := load.FS(fstest.MapFS{"a.tamis": {Data: []byte(text)}}, ".", "", "")
	require.NoError(t, err)
	var diags diag.List
	m := resolve.Build(tree, &diags)
	meals := demand.Meals(m, demand.Options{}, &diags)
	s := demand.SeriesOf(m, meals, demand.Options{}, &diags)[0]
	require.False(t, diags.HasErrors(), "%v", diags.Sorted())
	alone := map[*demand.Making]*events.List{}
	for _, p := range s.Parts {
		for _, mk := range p.Shown {
			alone[mk] = events.Of(planner.Plan(t.Context(), &demand.Meal{Makings: []*demand.Making{mk}}, timeline.Options{Grid: 1}, &diags))
		}
	}
	d := filming.Of(s.Days()[0], alone)
	if meal := d.Meal(s); meal != nil {
		d.Planned(events.Of(planner.Plan(t.Context(), meal, timeline.Options{}, &diags)), alone)
	}
	return d
}

const pie = `series One evening
  by Nell
  part 1 Pie
    shows Pie
    COPIES
kitchen K
  cooks COOKS
  oven main
menu M
  covers 4
  at K
  course C
    Pie
larder
  units metric
dish Pie
  serves 4
  gather
    400 g    flour
    200 g    butter
    600 g    leeks, sliced   | work 10 min
  method
    - Rub the butter into the flour. | work 10 min
    - Fill with the leeks. | work 5 min
    - Bake. | oven 200 C | work 1 min | leave 40 min
    - Let it cool. | leave 20 min | makes cooled pie
    - Cut it. | work 2 min
  serve warm, within 1 h
`

func with(copies, cooks string) string {
	return strings.NewReplacer("COPIES", copies, "COOKS", cooks).Replace(pie)
}

// Minutes before the camera are those of hands; where it bakes the copy comes in, and what
// it has waited through is not shown. With a second cook a copy is ready when it is wanted,
// and made by who is not before the camera.
func TestACopyIsSwappedWhereOneWouldWait(t *testing.T) {
	for _, copies := range []string{"copies 1 of Pie, as cooled pie", "copies 1 of Pie"} {
		d := dayOf(t, with(copies, "Nell, Omar"))
		var at []events.Minutes
		for _, s := range d.Scenes {
			at = append(at, s.At)
		}
		require.Equal(t, []events.Minutes{0, 10, 15, 16, 16}, at)
		require.Equal(t, events.Minutes(18), d.Length)
		require.Len(t, d.Copies, 1)
		c := d.Copies[0]
		require.Same(t, d.Scenes[2], c.Scene, "after it went into the oven")
		require.Same(t, c, d.Scenes[2].Out)
		require.Same(t, c, d.Scenes[3].Past)
		require.Same(t, c, d.Scenes[4].In)
		require.Equal(t, events.Minutes(16), c.Ready)
		require.True(t, c.Known)
		require.LessOrEqual(t, c.Stands, c.Ready)
		require.LessOrEqual(t, c.Begin, c.Ready-86, "it takes 86 minutes at least")
		for _, e := range d.Plan.Each(events.Job) {
			for _, who := range e.Who {
				require.Equal(t, "Omar", who)
			}
		}
	}
}

// Who is alone has all copies ready before the camera starts. Each copy is one dish; a
// second of its kind is a spare.
func TestWhoIsAloneHasItReady(t *testing.T) {
	d := dayOf(t, with("copies 2 of Pie", "Nell"))
	require.Len(t, d.Copies, 2)
	for i, c := range d.Copies {
		require.Zero(t, c.Ready)
		require.LessOrEqual(t, c.Stands, c.Ready)
		require.Equal(t, i+1, c.Making.Copy)
		require.Equal(t, "1", c.Making.Factor.String())
		require.Equal(t, i > 0, c.Spare)
	}
	require.Equal(t, "copy 2 of Pie, finished", d.Copies[1].Name())
	require.Nil(t, dayOf(t, with("date 2027-03-04", "Nell")).Plan, "nothing is made beforehand")
}

// Whom a part is by is before the camera on its day, whoever the series is by; where all are,
// the copies stand ready when it starts.
func TestWhoShowsAPartMakesNoCopyMeanwhile(t *testing.T) {
	for _, c := range []struct{ by, made string }{{"Omar", "Nell"}, {"Nell", "Omar"}, {"Nell, Omar", ""}, {"Nell & Omar", ""}} {
		d := dayOf(t, with("by "+c.by+"\n    copies 1 of Pie", "Nell, Omar"))
		for _, e := range d.Plan.Each(events.Job) {
			for _, who := range e.Who {
				if c.made != "" {
					require.Equal(t, c.made, who, c.by)
				}
			}
		}
		require.Equal(t, c.made == "", d.Copies[0].Ready == 0, c.by)
	}
}

// Copies of one dish that are caught at two points are told apart, and neither is a spare; each
// has a tin of its own, whatever the kitchen has, or there would be no plan of them.
func TestCopiesOfTwoKindsAreToldApart(t *testing.T) {
	text := with("copies 1 of Pie, as cooled pie\n    copies 1 of Pie, as raw pie", "Nell, Omar")
	text = strings.Replace(text, "- Fill with the leeks. | work 5 min", "- Fill with the leeks. | in pie tin | work 5 min | makes raw pie", 1)
	text = strings.Replace(text, "- Bake. |", "- Bake. | in pie tin |", 1)
	text = strings.Replace(text, "- Let it cool. |", "- Let it cool. | in pie tin |", 1)
	text = strings.Replace(text, "  oven main\n", "  oven main\n  vessel pie tin, holds 3 litres\n", 1)
	d := dayOf(t, text)
	var names []string
	for _, c := range d.Copies {
		names = append(names, c.Name())
		require.False(t, c.Spare)
	}
	require.Equal(t, []string{"copy 1 of Pie, cooled pie", "copy 2 of Pie, raw pie"}, names)
	require.NotNil(t, d.Plan)
	// without a plan each is begun as long before it is wanted as it takes to be made so far
	alone := map[*demand.Making]*events.List{}
	for _, s := range d.Scenes {
		if alone[s.Dish] == nil {
			var diags diag.List
			alone[s.Dish] = events.Of(planner.Plan(t.Context(), &demand.Meal{Makings: []*demand.Making{s.Dish}}, timeline.Options{Grid: 1}, &diags))
		}
	}
	d.Planned(nil, alone)
	for i, minutes := range []events.Minutes{10 + 10 + 5 + 1 + 40 + 20, 10 + 10 + 5} {
		require.Equal(t, d.Copies[i].Ready-minutes, d.Copies[i].Begin)
	}
}

// What a dish draws on is shown before it, in whatever order it is written, and is shown once.
func TestABaseIsShownBeforeWhatDrawsOnIt(t *testing.T) {
	text := strings.Replace(with("shows Crust\n    shows Glaze", "Nell"), "    400 g    flour\n    200 g    butter\n", "    600 g    crust\n", 1)
	text = strings.Replace(text, "- Rub the butter into the flour. | work 10 min", "- Line the tin with the crust. | work 10 min", 1) + `base Crust
  makes 600 g
  gather
    400 g    flour
    200 g    butter
  method
    - Rub the butter into the flour. | work 12 min
base Glaze
  makes 100 ml
  gather
    2 eggs
  method
    - Beat the eggs. | work 2 min
`
	d := dayOf(t, text)
	var order []string
	for _, s := range d.Scenes {
		if name := s.Dish.Recipe.Name; len(order) == 0 || order[len(order)-1] != name {
			order = append(order, name)
		}
	}
	require.Equal(t, []string{"Crust", "Pie", "Glaze"}, order)
	require.Equal(t, events.Minutes(12), d.Scenes[1].At)
}

// A copy begins with the base that is made for it, which the paper of its plan has too.
func TestACopyBeginsWithItsBase(t *testing.T) {
	text := strings.Replace(with("copies 1 of Pie, as cooled pie", "Nell, Omar"), "    400 g    flour\n    200 g    butter\n", "    600 g    crust\n", 1)
	text = strings.Replace(text, "- Rub the butter into the flour. | work 10 min", "- Line the tin with the crust. | work 10 min", 1) + `base Crust
  makes 600 g
  gather
    400 g    flour
    200 g    butter
  method
    - Rub the butter into the flour. | work 12 min
    - Let it rest. | leave 30 min
`
	d := dayOf(t, text)
	first := events.Minutes(d.Plan.Each(events.Job)[0].At)
	require.Equal(t, first, d.Copies[0].Begin)
	require.LessOrEqual(t, d.Copies[0].Begin, d.Copies[0].Ready-12-30-10-5-1-40-20)

	alone := map[*demand.Making]*events.List{}
	var diags diag.List
	shown := d.Scenes[len(d.Scenes)-1].Dish
	alone[shown] = events.Of(planner.Plan(t.Context(), &demand.Meal{Makings: append(demand.DrawnOn(shown), shown)}, timeline.Options{Grid: 1}, &diags))
	d.Planned(nil, alone)
	require.LessOrEqual(t, d.Copies[0].Begin, d.Copies[0].Ready-12-30-10-5-1-40-20, "without a plan")
}
