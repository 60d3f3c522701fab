package chart

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler/sheets"
	"tamis/lang/effort"
	"tamis/render/draw"
	"tamis/render/fonts"
	"tamis/render/runes"
	"tamis/testdata/fixture"
)

var st = Style{Size: 11, Bar: 13, Clean: runes.Clean}

// panel is a day of two dishes. Hands are at work from ten to half past, and
// again for the last quarter before one; what stands between is left alone.
func panel() *sheets.Panel {
	return &sheets.Panel{
		Title: "Sunday 19 September", Start: 600, End: 780, Flags: []sheets.Flag{{At: 780, Label: "Main"}},
		Lanes: []sheets.Lane{
			{Letter: "B", Base: true, Name: "Stock", Rows: 1, Bars: []sheets.Bar{
				{Start: 600, End: 630, Kind: sheets.WorkBar, Letter: "B", Number: 1, Label: "Chop the bones", Short: "Chop", Who: "An"},
				{Start: 630, End: 765, Kind: sheets.LeaveBar, Letter: "B", Number: 1, Goes: true},
				{Start: 700, End: 702, Kind: sheets.WorkBar, Letter: "B", Number: 1, Who: "An"},
			}},
			{Letter: "A", Name: "Leek pie", Rows: 1, Bars: []sheets.Bar{
				{Start: 765, End: 780, Kind: sheets.WorkBar, Letter: "A", Number: 2, Label: "Bring to the table", Short: "Bring", Who: "Jo"},
			}},
		},
		Uses: []sheets.Use{
			{Name: "Oven", Bars: []sheets.Bar{{Start: 615, End: 630, Kind: sheets.HeatBar, Label: "200 °C"}, {Start: 630, End: 765, Kind: sheets.UseBar, Label: "200 °C"}}},
			{Name: "Rings", Bars: []sheets.Bar{{Start: 600, End: 765, Kind: sheets.FullBar, Label: "4"}}},
		},
	}
}

func texts(p Picture) (out []*draw.Text) {
	for _, o := range p.Ops {
		if t, ok := o.(*draw.Text); ok {
			out = append(out, t)
		}
	}
	return out
}

func find(t *testing.T, p Picture, words string) *draw.Text {
	t.Helper()
	for _, x := range texts(p) {
		if x.Str == words {
			return x
		}
	}
	require.Fail(t, "not drawn", words)
	return nil
}

// at is where a minute stands, worked out from the knots.
func at(p Picture, m int) float64 {
	for i, k := range p.Knots[1:] {
		if a := p.Knots[i]; m <= k.Minute {
			return a.X + (k.X-a.X)*float64(m-a.Minute)/float64(k.Minute-a.Minute)
		}
	}
	return p.Knots[len(p.Knots)-1].X
}

// Bars begin and end under their clock times, and initials stand in them.
func TestBarsStandWhereTheClockSays(t *testing.T) {
	pic := Lay(Whole(panel()), 700, st)
	require.Equal(t, 600, pic.Knots[0].Minute)
	require.Equal(t, 780, pic.Knots[len(pic.Knots)-1].Minute)
	clock := find(t, pic, "10:30")
	require.InDelta(t, at(pic, 630), clock.X+clock.W/2, 0.1)
	var bars []*draw.Rect
	for _, o := range pic.Ops {
		if r, ok := o.(*draw.Rect); ok && r.Fill && r.H == st.Bar {
			bars = append(bars, r)
		}
	}
	require.Len(t, bars, 3)
	for i, want := range [][2]int{{600, 630}, {700, 702}, {765, 780}} {
		require.InDelta(t, at(pic, want[0]), bars[i].X, 0.1)
		require.InDelta(t, at(pic, want[1]), bars[i].X+bars[i].W, 1)
	}
	an := find(t, pic, "An")
	require.True(t, an.White)
	require.True(t, an.X > bars[0].X && an.X+an.W < bars[0].X+bars[0].W && an.Y < bars[0].Y+bars[0].H && an.Y-an.Size*fonts.CapHeight > bars[0].Y, "initials stand in their bar")
	require.InDelta(t, at(pic, 600), find(t, pic, "1").X, 2, "the number stands below its bar")
	main := find(t, pic, "13:00 Main")
	require.LessOrEqual(t, main.X+main.W, 700.0)
}

// Where hands are at work an hour is wider than where none are; time never runs
// backwards, and a long night is hardly longer than a short one.
func TestTheAxisStretchesWithTheWork(t *testing.T) {
	pic := Lay(Whole(panel()), 700, st)
	worked, left := (at(pic, 630)-at(pic, 600))/30, (at(pic, 690)-at(pic, 640))/50
	require.Greater(t, worked, 2.5*left, "a minute of work and one without")
	for i, k := range pic.Knots[1:] {
		require.Greater(t, k.Minute, pic.Knots[i].Minute)
		require.Greater(t, k.X, pic.Knots[i].X)
	}
	long := func(hours int) float64 {
		p := &sheets.Panel{Start: 0, End: 60 * (hours + 2), Lanes: []sheets.Lane{{Name: "A", Bars: []sheets.Bar{
			{Start: 0, End: 60, Kind: sheets.WorkBar}, {Start: 60, End: 60 * (hours + 1), Kind: sheets.LeaveBar}, {Start: 60 * (hours + 1), End: 60 * (hours + 2), Kind: sheets.WorkBar},
		}}}}
		pic := Lay(Whole(p), 700, st)
		return at(pic, 60*(hours+1)) - at(pic, 60)
	}
	require.Less(t, long(12), 1.8*long(4))
	require.Greater(t, long(12), long(4))
}

// Of words that stand in a chart, none touches another, none leaves it, and no
// line crosses one.
func TestWordsNeverOverlapAndLeadersCrossNone(t *testing.T) {
	said, bars := 0, 0
	for seed := range effort.Rounds[uint64](40, 200) {
		for _, s := range fixture.Random(seed).Sheets {
			for _, b := range s.Blocks {
				c, ok := b.(*sheets.Chart)
				if !ok {
					continue
				}
				for i := range c.Panels {
					pic := Lay(Whole(&c.Panels[i]), 700, st)
					checkWords(t, pic, seed)
					bars += pic.Bars
					said += pic.Bars - pic.Mute
				}
			}
		}
	}
	require.Greater(t, bars, 200)
	require.Greater(t, float64(said), 0.25*float64(bars), "some bars have words")
}

func checkWords(t *testing.T, pic Picture, seed uint64) {
	t.Helper()
	words := texts(pic)
	for _, o := range pic.Ops {
		l, ok := o.(*draw.Line)
		if !ok || l.X1 != l.X2 || l.Width != 0.5 || l.Dash != nil || l.Y2 == pic.H {
			continue // not the line of a label
		}
		for _, a := range words {
			mid := a.Y - 0.3*a.Size
			crossed := l.X1 > a.X+1 && l.X1 < a.X+a.W-1 && mid > l.Y1 && mid < l.Y2
			require.False(t, crossed, "seed %d: a line at %.1f (%.1f to %.1f) crosses %q at %.1f to %.1f, %.1f", seed, l.X1, l.Y1, l.Y2, a.Str, a.X, a.X+a.W, a.Y)
		}
	}
	for i, a := range words {
		require.NotContains(t, a.Str, "…")
		require.GreaterOrEqual(t, a.X, -0.01, "seed %d: %q", seed, a.Str)
		require.LessOrEqual(t, a.X+a.W, 700.01, "seed %d: %q", seed, a.Str)
		require.LessOrEqual(t, a.Y, pic.H+0.01, "seed %d: %q", seed, a.Str)
		for _, b := range words[i+1:] {
			apart := a.X+a.W <= b.X+0.3 || b.X+b.W <= a.X+0.3 || a.Y <= b.Y-0.9*b.Size+0.3 || b.Y <= a.Y-0.9*a.Size+0.3
			require.True(t, apart, "seed %d: %q and %q", seed, a.Str, b.Str)
		}
	}
}

// Words that do not stand in full are fewer, whole, and never go with dots; the
// number stays longest.
func TestWordsGiveWay(t *testing.T) {
	p := &sheets.Panel{Start: 0, End: 60, Lanes: []sheets.Lane{{Letter: "A", Name: "Soup", Rows: 1}}}
	for i := range 12 {
		p.Lanes[0].Bars = append(p.Lanes[0].Bars, sheets.Bar{Start: i * 5, End: i*5 + 5, Kind: sheets.WorkBar, Number: i + 1, Label: "Stir in the cream", Short: "Stir"})
	}
	say := func(w float64, steps int) (full, short, numbers int) {
		s := st
		s.Steps = steps
		for _, x := range texts(Lay(Whole(p), w, s)) {
			switch {
			case x.Str == "Stir in the cream":
				full++
			case x.Str == "Stir":
				short++
			case x.Face == fonts.SansBold && !strings.ContainsAny(x.Str, ":AS"):
				numbers++
			}
		}
		return full, short, numbers
	}
	full, _, numbers := say(1600, 3)
	require.Equal(t, 12, full)
	require.Equal(t, 12, numbers)
	full, short, numbers := say(460, 1)
	require.Less(t, full, 4)
	require.Positive(t, short)
	require.Equal(t, 12, numbers, "every bar keeps its number")
	fullOfThree, _, _ := say(460, 3)
	require.Greater(t, fullOfThree, full, "more rows, more words")
}

// What dishes share: full is black with white words, heating is dotted, and what
// the oven is set to stands in its bar.
func TestUses(t *testing.T) {
	pic := Lay(Whole(panel()), 700, st)
	four := find(t, pic, "4")
	require.True(t, four.White)
	heat := find(t, pic, "200 °C")
	require.False(t, heat.White)
	require.True(t, heat.X > at(pic, 630) && heat.X+heat.W < at(pic, 765))
	require.Greater(t, four.Y, pic.Ends[len(pic.Ends)-1], "below the lanes")
	dotted := slices.ContainsFunc(pic.Ops, func(o draw.Op) bool {
		l, ok := o.(*draw.Line)
		return ok && l.Y1 == l.Y2 && l.Dash != nil && math.Abs(l.X1-at(pic, 615)) < 6
	})
	require.True(t, dotted, "an oven that heats up is dotted")
}

// A serving is a line that all lanes meet.
func TestServingsCrossAllLanes(t *testing.T) {
	p := panel()
	p.Flags = []sheets.Flag{{At: 765, Label: "First"}}
	pic := Lay(Whole(p), 700, st)
	for _, o := range pic.Ops {
		if l, ok := o.(*draw.Line); ok && l.Width == 2 && l.X1 == l.X2 {
			require.InDelta(t, at(pic, 765), l.X1, 0.1)
			require.LessOrEqual(t, l.Y1, pic.Top)
			require.GreaterOrEqual(t, l.Y2, pic.Ends[len(pic.Ends)-1])
			return
		}
	}
	require.Fail(t, "no line")
}

func TestKindsDifferByInk(t *testing.T) {
	seen := map[string]sheets.BarKind{}
	for _, k := range []sheets.BarKind{sheets.WorkBar, sheets.WatchBar, sheets.LeaveBar, sheets.HeatBar} {
		var b strings.Builder
		for _, o := range Sample(k, 40, 12) {
			fmt.Fprintf(&b, "%T%v ", o, o)
		}
		require.NotContains(t, seen, b.String(), "%s looks like %s", k, seen[b.String()])
		seen[b.String()] = k
	}
}

func TestOddPanelsDoNoHarm(t *testing.T) {
	for _, p := range []*sheets.Panel{
		{},
		{Start: 500, End: 100, Lanes: []sheets.Lane{{Bars: []sheets.Bar{{Start: 900, End: 300, Row: -4}}}}},
		{Start: -2000000000, End: 2000000000, Lanes: []sheets.Lane{{Rows: -1}}},
		{Start: 0, End: 60, Lanes: []sheets.Lane{{Name: strings.Repeat("x", 400), Bars: []sheets.Bar{{Start: 0, End: 1 << 40, Row: 1 << 30, Label: strings.Repeat("y ", 400)}}}}},
		{Start: 0, End: 60, Flags: []sheets.Flag{{At: 30, Label: strings.Repeat("é", 500)}, {At: 30}, {At: 90}}, Uses: []sheets.Use{{Name: strings.Repeat("z", 300), Bars: []sheets.Bar{{Start: 50, End: -9, Label: "q"}}}}},
	} {
		pic := Lay(Whole(p), 300, st)
		require.NotEmpty(t, pic.Ops)
		for _, page := range Fit([]sheets.Panel{*p, *p}, 300, 6, func(int) float64 { return 50 }, []Style{st}) {
			require.NotEmpty(t, page.Cuts)
		}
	}
}

func TestMeasuringAllowsForOtherFaces(t *testing.T) {
	wide := st
	wide.Widen = 1.16
	for _, x := range texts(Lay(Whole(panel()), 960, wide)) {
		require.InDelta(t, x.Face.Width(x.Str, x.Size)*1.16, x.W, x.Face.Width("0", 11), x.Str)
	}
}

// Servings close together stand side by side where one can hang to the left of
// its post; no post runs through the words of another.
func TestPennantsShareARow(t *testing.T) {
	p := &sheets.Panel{Start: 12 * 60, End: 15 * 60, Lanes: []sheets.Lane{{Name: "Ana", Rows: 1}}, Flags: []sheets.Flag{
		{At: 13 * 60, Label: "First"}, {At: 13*60 + 30, Label: "Main"}, {At: 14*60 + 45, Label: "Pudding"},
	}}
	pic := Lay(Whole(p), 520, st)
	var boxes []*draw.Rect
	for _, o := range pic.Ops {
		if r, ok := o.(*draw.Rect); ok && r.Fill {
			boxes = append(boxes, r)
		}
	}
	require.Len(t, boxes, 3)
	require.InDelta(t, boxes[0].Y, boxes[2].Y, 0.01, "the last hangs to the left of its post, in the first row")
	for i, a := range boxes {
		for _, b := range boxes[i+1:] {
			apart := a.X+a.W < b.X || b.X+b.W < a.X || a.Y+a.H < b.Y || b.Y+b.H < a.Y
			require.True(t, apart, "%+v and %+v", a, b)
		}
	}
}

// Days go on one page while they stand there; a day that none can hold is parted
// between its lanes, each once, and what they share stands below the last.
func TestDaysOnPages(t *testing.T) {
	two := []sheets.Panel{*panel(), *panel()}
	styles := []Style{st, {Size: 11, Bar: 11, Steps: 1}}
	h := Lay(Whole(&two[0]), 700, styles[1]).H + 6
	room := func(h float64) func(int) float64 { return func(int) float64 { return h } }

	pages := Fit(two, 700, 6, room(2*h+1), styles)
	require.Len(t, pages, 1)
	require.Len(t, pages[0].Cuts, 2)
	pages = Fit(two, 700, 6, room(2*h-1), styles)
	require.Len(t, pages, 2)
	pages = Fit(two, 700, 6, room(1000), styles)
	require.Equal(t, styles[0].Bar, pages[0].Style.Bar, "with room to spare, the style liked best")

	pages = Fit(two[:1], 700, 6, room(h-20), styles)
	require.Len(t, pages, 2)
	require.Equal(t, []int{0, 1, 1, 2}, []int{pages[0].Cuts[0].First, pages[0].Cuts[0].Last, pages[1].Cuts[0].First, pages[1].Cuts[0].Last})
	require.Equal(t, []int{1, 2, 2, 2}, []int{pages[0].Cuts[0].Part, pages[0].Cuts[0].Parts, pages[1].Cuts[0].Part, pages[1].Cuts[0].Parts})
	oven := func(c Cut) bool {
		return slices.ContainsFunc(texts(Lay(c, 700, st)), func(x *draw.Text) bool { return x.Str == "Oven" })
	}
	require.False(t, oven(pages[0].Cuts[0]))
	require.True(t, oven(pages[1].Cuts[0]))
}
