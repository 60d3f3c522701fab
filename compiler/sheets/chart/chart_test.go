package chart

import (
	"context"
	"fmt"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"tamis/compiler/demand"
	"tamis/compiler/events"
	"tamis/compiler/load"
	"tamis/compiler/resolve"
	"tamis/compiler/sheets"
	"tamis/compiler/timeline"
	"tamis/compiler/timeline/planner"
	"tamis/lang/diag"
)

// planned is what happens by the plan of a text with one menu.
func planned(t *testing.T, text string) *events.List {
	t.Helper()
	tree, err := load.FS(fstest.MapFS{"menu.tamis": {Data: []byte(text)}}, ".", "", "")
	require.NoError(t, err)
	found := &diag.List{}
	meals := demand.Meals(resolve.Build(tree, found), demand.Options{}, found)
	line := planner.Plan(context.Background(), meals[0], timeline.Options{}, found)
	require.False(t, found.HasErrors(), "%v", found.Sorted())
	return events.Of(line)
}

const pie = `kitchen Hut
  cooks Ana
  oven main, 1 shelf, preheat 15 min
  rings 2
dish Pie
  serves 4
  gather
    1 kg    leeks, sliced | work 5 min
  method
    - Soften the leeks.
      | ring low | work 10 min
    - Bake until gold.
      | oven 200 C | work 5 min | leave 40 min
      at half time: Turn it. | work 2 min
  serve hot, within 5 min
menu Supper
  covers 4%s
  at Hut
  course Main
    Pie
`

// said is a bar in a line.
func said(b sheets.Bar) string {
	return strings.TrimSpace(fmt.Sprintf("%d-%d %s %s%d row %d %s: %s", b.Start, b.End, b.Kind, b.Letter, b.Number, b.Row, b.Who, b.Label))
}

// The chart of one pie, worked out by hand: served at seven, it comes out of the
// oven then, went in at 18:20, was begun at 18:15; the leeks before that. The
// oven takes a quarter of an hour to heat, and half time is 18:40.
func TestChartOfAPie(t *testing.T) {
	l := planned(t, fmt.Sprintf(pie, "\n  on the table 2027-09-19 19:00"))
	c := Of(l, func(int) string { return "Sunday" }, func(e *events.Event) string {
		if e.Dish == nil {
			return ""
		}
		return e.Dish.Letter
	})
	require.Len(t, c.Panels, 1)
	p := c.Panels[0]
	require.Equal(t, "Sunday", p.Title)
	require.Equal(t, []sheets.Flag{{At: 19 * 60, Label: "Main"}}, p.Flags)
	require.Equal(t, 17*60+45, p.Start, "the oven is lit before the knife is taken up, at 17:59")
	require.Equal(t, 19*60, p.End)
	bars := map[string][]string{}
	for _, lane := range p.Lanes {
		for _, b := range lane.Bars {
			bars[lane.Name] = append(bars[lane.Name], said(b))
		}
	}
	for _, u := range p.Uses {
		for _, b := range u.Bars {
			bars[u.Name] = append(bars[u.Name], said(b))
		}
	}
	require.Equal(t, map[string][]string{
		"Pie": {
			"1080-1085 work A0 row 0 An: leeks, sliced", "1085-1095 work A1 row 0 An: Soften the leeks",
			"1095-1100 work A2 row 0 An: Bake until gold", "1100-1140 leave A2 row 0 :", "1120-1122 work A2 row 0 An: Turn it",
		},
		"Oven":  {"1079-1100 heat 0 row 0 : 200 °C", "1100-1140 use 0 row 0 : 200 °C"},
		"Rings": {"1085-1095 use 0 row 0 : 1"},
	}, bars)
}

// Without a date the panel counts from the first serving.
func TestChartWithoutAClock(t *testing.T) {
	l := planned(t, fmt.Sprintf(pie, ""))
	c := Of(l, func(day int) string { return fmt.Sprint(day) }, func(*events.Event) string { return "" })
	require.Len(t, c.Panels, 1)
	p := c.Panels[0]
	require.Equal(t, "0", p.Title)
	require.True(t, p.Counts)
	require.Len(t, p.Flags, 1)
	require.Equal(t, "T", p.Time(p.Flags[0].At))
	require.Equal(t, "T−1:00", p.Time(p.Lanes[0].Bars[0].Start))
}

// One letter is a dish; cooks are told apart by two, or by more where they must.
func TestInitials(t *testing.T) {
	require.Equal(t, map[string]string{"Ana": "Ana", "Anders": "And", "Jo": "Jo", "Bea": "Be", "B": "B"}, initials([]string{"Ana", "Anders", "Jo", "Bea", "B"}))
}
