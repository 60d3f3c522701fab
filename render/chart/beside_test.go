package chart

import (
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler/sheets"
	"tamis/render/draw"
)

// Words stand at the end of their bar where nothing follows within their length,
// which costs the lane no row; below it where something does.
func TestWordsStandBeside(t *testing.T) {
	lane := func(second int) Picture {
		return Lay(Whole(&sheets.Panel{Start: 0, End: 240, Lanes: []sheets.Lane{{Letter: "A", Name: "Soup", Rows: 1, Bars: []sheets.Bar{
			{Start: 30, End: 60, Kind: sheets.WorkBar, Number: 1, Label: "Simmer the leeks"},
			{Start: second, End: second + 20, Kind: sheets.WorkBar, Number: 2, Label: "Blend"},
		}}}}), 700, st)
	}
	at := func(pic Picture, s string) *draw.Text {
		for _, x := range texts(pic) {
			if x.Str == s {
				return x
			}
		}
		t.Fatalf("%q is not on the chart", s)
		return nil
	}
	far, near := lane(200), lane(65)
	end := func(pic Picture, n int) float64 { // where the nth bar of work ends
		var to []float64
		for _, o := range pic.Ops {
			if r, ok := o.(*draw.Rect); ok && r.Fill {
				to = append(to, r.X+r.W)
			}
		}
		return to[n]
	}
	require.Greater(t, at(far, "Simmer the leeks").X, end(far, 0))
	require.Less(t, at(far, "Simmer the leeks").Y, far.Top+4+st.Bar, "at the height of the bar")
	require.Greater(t, at(near, "Simmer the leeks").Y, near.Top+4+st.Bar, "below it")
	require.Less(t, at(near, "Blend").Y, near.Top+4+st.Bar)
	require.InDelta(t, near.H, far.H+st.Size*leadOfLabels+3, 3, "a row of words more")
}

// What room a page has left goes to the lanes whose words say least, and no more
// than there is.
func TestRoomLeftIsForWords(t *testing.T) {
	lane := func(name string, n int) sheets.Lane {
		l := sheets.Lane{Letter: name[:1], Name: name, Rows: 1}
		for i := range n {
			l.Bars = append(l.Bars, sheets.Bar{Start: i * 10, End: i*10 + 9, Kind: sheets.WorkBar, Number: i + 1, Label: "Stir in the cream", Short: "Stir"})
		}
		return l
	}
	p := sheets.Panel{Start: 0, End: 60, Lanes: []sheets.Lane{lane("Apples", 1), lane("Soup", 6)}}
	low := []Style{{Size: 11, Bar: 11, Steps: 1}}
	least := Lay(Whole(&p), 300, low[0])
	fit := func(room float64) (Page, Picture) {
		pages := Fit([]sheets.Panel{p}, 300, 6, func(int) float64 { return room }, low)
		require.Len(t, pages, 1)
		pic := Lay(pages[0].Cuts[0], 300, pages[0].Style)
		require.LessOrEqual(t, pic.H+6, room)
		return pages[0], pic
	}
	tight, _ := fit(least.H + 7)
	require.Empty(t, tight.Cuts[0].Steps)
	one, pic := fit(least.H + 7 + 11*leadOfLabels)
	require.Equal(t, []int{1, 2}, one.Cuts[0].Steps, "the soup has more to say")
	require.Less(t, pic.Curt[1], least.Curt[1])
	all, more := fit(1000)
	require.Equal(t, []int{1, 3}, all.Cuts[0].Steps, "apples are said in full already")
	require.Less(t, more.Curt[1], pic.Curt[1])
}
