package compiler_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler/sheets"
)

const roast = `menu Roast
  covers 6
  on the table 2027-09-19 13:00
  at Home
  course Main
    Beef
kitchen Home
  cooks Ana
  oven main, 2 shelves
  rings 4
dish Beef
  serves 6
  gather
    2 kg beef joint
  method
    - Put the beef in the oven. | oven 150 C | work 10 min | leave 2 h
      at 30 min: Spoon off the fat. | work 2 min
      at half time: Turn it over. | work 3 min
`

// What is done while a step runs comes so long after the hands are free, not
// before its end; half time is half of the time it is left.
func TestMomentsCountFromWhereTheWorkEnds(t *testing.T) {
	m := compiled(t, tried{text: roast})
	for _, j := range m.Timelines[0].Jobs {
		if len(j.Touches) == 0 {
			continue
		}
		var at [][2]int
		for _, c := range j.Touches {
			at = append(at, [2]int{c.Start - j.Start(), c.End - j.Start()})
		}
		require.Equal(t, [][2]int{{40, 42}, {70, 73}}, at, "10 min of work, then 30 min and an hour of two")
		return
	}
	t.Fatal("no moments")
}

// The chart and the run sheet say when: the flag of the course, the bars of the
// cook and of the oven, the rows of each. By hand, back from 13:00: in the oven
// for two hours from 11:00, ten minutes of work before that, fifteen to heat it.
func TestChartAndRunSheetKeepTheClock(t *testing.T) {
	m := compiled(t, tried{text: roast})
	var panels []sheets.Panel
	for _, b := range m.sheets(sheets.Timeline)[0].Blocks {
		if c, ok := b.(*sheets.Chart); ok {
			panels = append(panels, c.Panels...)
		}
	}
	require.Len(t, panels, 1)
	p := panels[0]
	require.Equal(t, []sheets.Flag{{At: 13 * 60, Label: "Main"}}, p.Flags)
	bars := map[string][][2]int{}
	for _, l := range p.Lanes {
		for _, b := range l.Bars {
			bars[l.Name] = append(bars[l.Name], [2]int{b.Start, b.End})
		}
	}
	for _, u := range p.Uses {
		for _, b := range u.Bars {
			bars[u.Name] = append(bars[u.Name], [2]int{b.Start, b.End})
		}
	}
	require.Equal(t, map[string][][2]int{
		"Beef": {{650, 660}, {660, 780}, {690, 692}, {720, 723}},
		"Oven": {{645, 660}, {660, 780}},
	}, bars)
	said := m.words(sheets.RunSheet)
	for _, row := range []string{
		`10:45 Heat the oven to 150 C Ana main`, `10:50 A Put the beef in the oven Ana`, `11:30 A Spoon off the fat\. Ana`,
		`12:00 A Turn it over\. Ana`, `13:00 A Serve: Beef`,
	} {
		require.Regexp(t, row, said)
	}
}
