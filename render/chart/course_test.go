package chart

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler/sheets"
)

// A day of more than twelve lanes is parted where a course ends, but on A3; one that
// is too tall for a page too, if that takes no page more.
func TestADayIsPartedAtACourse(t *testing.T) {
	day := func(courses ...int) *sheets.Panel {
		p := &sheets.Panel{Start: 0, End: 60}
		for c, n := range courses {
			for range n {
				k := len(p.Lanes)
				p.Lanes = append(p.Lanes, sheets.Lane{
					Letter: string(rune('A' + k)), Name: "Dish", Course: fmt.Sprint(c), Rows: 1,
					Bars: []sheets.Bar{{Start: 4 * k, End: 4*k + 4, Kind: sheets.WorkBar, Number: 1, Label: "Stir"}},
				})
			}
		}
		p.Lanes = append(p.Lanes, sheets.Lane{Name: "Tasks", Rows: 1}) // of no course
		return p
	}
	ends := func(p *sheets.Panel, w, h float64) (out []int) {
		for _, page := range Fit([]sheets.Panel{*p}, w, 6, func(int) float64 { return h }, []Style{st}) {
			require.Len(t, page.Cuts, 1)
			out = append(out, page.Cuts[0].Last)
		}
		return out
	}
	require.Equal(t, []int{12}, ends(day(5, 6), 760, 2000), "twelve lanes are one page")
	require.Equal(t, []int{9, 14}, ends(day(3, 6, 4), 760, 2000), "thirteen are two, whole courses on each")
	require.Equal(t, []int{14}, ends(day(3, 6, 4), 1150, 2000), "and one on A3")
	require.Equal(t, []int{14}, ends(day(13), 760, 2000), "one course has no end to part it at")
	require.Equal(t, []int{6, 13}, ends(day(3, 3, 3, 3), 760, 2000), "not nine lanes and then four")
	seven := Lay(Whole(day(3, 4)), 760, st).H
	require.Equal(t, []int{3, 8}, ends(day(3, 4), 760, seven-5), "too tall for a page")
}
