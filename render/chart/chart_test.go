package chart

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler/sheets"
	"tamis/render/draw"
	"tamis/render/runes"
	"tamis/testdata/fixture"
)

var st = Style{Size: 11, Bar: 16, Clean: runes.Clean}

func saturday() *sheets.Panel {
	for _, s := range fixture.Supper().Sheets {
		if s.Kind == sheets.Timeline {
			return &s.Blocks[0].(*sheets.Chart).Panels[1]
		}
	}
	return nil
}

func texts(p Picture) (out []*draw.Text) {
	for _, o := range p.Ops {
		if t, ok := o.(*draw.Text); ok {
			out = append(out, t)
		}
	}
	return out
}

func TestBarsStandWhereTheClockSays(t *testing.T) {
	p := &sheets.Panel{Start: 600, End: 720, Lanes: []sheets.Lane{{Name: "Ines", Rows: 1, Bars: []sheets.Bar{
		{Start: 630, End: 660, Kind: sheets.WorkBar, Letter: "A", Number: 1},
	}}}}
	pic := Lay(Cut{Panel: p, From: 600, To: 720, Last: 1}, 700, st)
	at := map[string]float64{}
	for _, x := range texts(pic) {
		at[x.Str] = x.X + x.W/2
	}
	var bar *draw.Rect
	for _, o := range pic.Ops {
		if r, ok := o.(*draw.Rect); ok && r.Fill {
			bar = r
		}
	}
	require.NotNil(t, bar)
	require.InDelta(t, at["10:30"], bar.X, 0.1, "the bar begins under its clock time")
	require.InDelta(t, at["11:00"], bar.X+bar.W, 1, "and ends under its clock time")
}

func TestEveryBarHasItsLetter(t *testing.T) {
	p := saturday()
	for _, width := range []float64{420, 520, 760, 1000} {
		var all []string
		for _, c := range Cuts(p, width, st) {
			pic := Lay(c, width, st)
			require.Zero(t, pic.Bare, "width %.0f", width)
			for _, x := range texts(pic) {
				all = append(all, x.Str)
			}
		}
		for _, l := range p.Lanes {
			for _, b := range l.Bars {
				if b.Letter != "" {
					code := b.Letter
					if b.Number > 0 {
						code += fmt.Sprint(b.Number)
					}
					require.Contains(t, all, code, "width %.0f", width)
				}
			}
		}
		for _, f := range p.Flags {
			require.Contains(t, all, Clock(f.At)+" "+f.Label)
		}
	}
}

func TestADenseDayIsParted(t *testing.T) {
	p := saturday()
	require.Len(t, Cuts(p, 900, st), 1)
	cuts := Cuts(p, 250, st)
	require.Greater(t, len(cuts), 1)
	for i, c := range cuts {
		require.Equal(t, i+1, c.Part)
		require.Zero(t, c.From%15)
		if i > 0 {
			require.GreaterOrEqual(t, c.From, cuts[i-1].To, "parts do not overlap")
		}
	}
	require.Equal(t, p.Start, cuts[0].From)
	require.Equal(t, p.End, cuts[len(cuts)-1].To)
}

func TestWordsNeverOverlapAndLeadersCrossNone(t *testing.T) {
	for seed := range uint64(60) {
		for _, s := range fixture.Random(seed).Sheets {
			for _, b := range s.Blocks {
				c, ok := b.(*sheets.Chart)
				if !ok {
					continue
				}
				for i := range c.Panels {
					for _, cut := range Cuts(&c.Panels[i], 700, st) {
						checkWords(t, Lay(cut, 700, st), seed)
					}
				}
			}
		}
	}
}

func checkWords(t *testing.T, pic Picture, seed uint64) {
	t.Helper()
	words := texts(pic)
	pushed := map[int]bool{} // labels moved back from the edge of the paper
	for _, a := range words {
		if a.X+a.W > 695 {
			pushed[a.Field] = true
		}
	}
	for _, o := range pic.Ops {
		l, ok := o.(*draw.Line)
		if !ok || l.X1 != l.X2 || l.Width != 0.5 || l.Dash != nil || l.Y2 == pic.H {
			continue // not a leader
		}
		for _, a := range words {
			if pushed[a.Field] {
				continue
			}
			mid := a.Y - 0.3*a.Size
			crossed := l.X1 > a.X+1 && l.X1 < a.X+a.W-1 && mid > l.Y1 && mid < l.Y2
			require.False(t, crossed, "seed %d: a leader at %.1f (%.1f to %.1f) crosses %q at %.1f to %.1f, %.1f", seed, l.X1, l.Y1, l.Y2, a.Str, a.X, a.X+a.W, a.Y)
		}
	}
	for i, a := range words {
		require.GreaterOrEqual(t, a.X, -0.01, "seed %d: %q", seed, a.Str)
		require.LessOrEqual(t, a.X+a.W, 700.01, "seed %d: %q", seed, a.Str)
		for _, b := range words[i+1:] {
			apart := a.X+a.W <= b.X+0.3 || b.X+b.W <= a.X+0.3 || a.Y <= b.Y-0.9*b.Size+0.3 || b.Y <= a.Y-0.9*a.Size+0.3
			require.True(t, apart, "seed %d: %q and %q", seed, a.Str, b.Str)
		}
	}
}

func TestKindsDifferByInk(t *testing.T) {
	seen := map[string]sheets.BarKind{}
	for _, k := range []sheets.BarKind{sheets.WorkBar, sheets.WatchBar, sheets.LeaveBar, sheets.HeatBar, sheets.WaitBar} {
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
		{Start: 0, End: 60, Flags: []sheets.Flag{{At: 30, Label: strings.Repeat("é", 500)}, {At: 30}, {At: 90}}},
	} {
		for _, c := range Cuts(p, 300, st) {
			pic := Lay(c, 300, st)
			require.NotEmpty(t, pic.Ops)
		}
	}
}

func TestClock(t *testing.T) {
	require.Equal(t, "09:05", Clock(545))
	require.Equal(t, "01:00", Clock(25*60))
	require.Equal(t, "23:30", Clock(-30))
}

func TestMeasuringAllowsForOtherFaces(t *testing.T) {
	wide := st
	wide.Widen = 1.16
	w := Lay(Cut{Panel: saturday(), From: 720, To: 1230, Last: 4}, 960, wide)
	for _, x := range texts(w) {
		require.InDelta(t, x.Face.Width(x.Str, 11)*1.16, x.W, x.Face.Width("0", 11), x.Str)
	}
}

func TestShorten(t *testing.T) {
	require.Equal(t, "lay the trout", shorten("lay the trout", 14))
	require.Equal(t, "Cover tightly…", shorten("Cover tightly, and cook in the oven…", 14))
	require.Equal(t, "Wassermelonenschnitze…", shorten("Wassermelonenschnitze braten", 14), "a first word stays whole")
}

// Servings close together stand side by side where one can hang to the left of
// its post; no post runs through the words of another.
func TestPennantsShareARow(t *testing.T) {
	p := &sheets.Panel{Start: 12 * 60, End: 15 * 60, Lanes: []sheets.Lane{{Name: "Ana", Rows: 1}}, Flags: []sheets.Flag{
		{At: 13 * 60, Label: "First"}, {At: 13*60 + 30, Label: "Main"}, {At: 14*60 + 45, Label: "Pudding"},
	}}
	pic := Lay(Cut{Panel: p, From: p.Start, To: p.End, Last: 1, Part: 1, Parts: 1}, 480, st)
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

// Rows in which nothing happens take no room, and every lane is on one of the
// parts.
func TestLanesGoOverMorePages(t *testing.T) {
	p := saturday()
	room := 150.0
	cuts, s, cost := Fit(p, 520, func(int) float64 { return room }, []Style{{Size: 11, Bar: 11, Steps: 3}})
	require.Less(t, cost, float64(TooTall))
	seen := map[[2]int]bool{}
	for _, c := range cuts {
		require.LessOrEqual(t, Lay(c, 520, s).H, room)
		for l := c.First; l < c.Last; l++ {
			key := [2]int{c.Part, l}
			require.False(t, seen[key], "a lane is drawn once a part")
			seen[key] = true
		}
	}
	require.Len(t, seen, cuts[0].Parts*len(p.Lanes))
}
