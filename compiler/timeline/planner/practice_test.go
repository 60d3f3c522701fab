package planner

import (
	"context"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"tamis/compiler/timeline"
	"tamis/compiler/timeline/answer"
	"tamis/lang/effort"
)

// Small plans out of the kitchen, written in the notation and taken through
// every pass. All figures are common practice, no source; the minutes were
// worked out by hand.

// Potato quarters, 20 min from boiling, then 45 min in the oven beside 40 min
// of parsnips, both near 200 °C: one oven at one heat does for both.
func TestPotatoesAndParsnips(t *testing.T) {
	line := onTime(t, atOne+`Roast potatoes
    Roast parsnips
dish Roast potatoes
  serves 6
  gather
    1.5 kg   potatoes, quartered
    60 ml    oil
  method
    - Bring the potatoes to the boil.
      | ring high | work 2 min | leave until it boils, say 10 min
    - Boil gently.
      | ring medium | leave 20 min
    - Turn in the oil and roast.
      | oven 190 to 210 C | work 3 min | leave 45 min
  serve hot, within 10 min
dish Roast parsnips
  serves 6
  gather
    1 kg     parsnips
    60 ml    oil
  method
    - Turn the parsnips in the oil and roast.
      | oven 200 to 220 C | work 5 min | leave 40 min
  serve hot, within 10 min
`+cottage)
	boil, potatoes, parsnips := job(line, t, "Boil gently"), job(line, t, "Turn in the oil and roast"), job(line, t, "Turn the parsnips in the oil")
	require.Equal(t, at(13, 0), parsnips.End())
	require.Equal(t, at(12, 15), parsnips.Start())
	require.Equal(t, at(12, 10), potatoes.Start(), "3 min by Ana, who has the parsnips from 12:15")
	require.Equal(t, at(12, 58), potatoes.End())
	require.Equal(t, at(11, 50), boil.Start(), "20 min from the boil")
	require.Equal(t, at(11, 35), job(line, t, "Bring the potatoes to the boil").Start(), "12 min, and on the clock of five")
	require.Len(t, line.Heats, 1)
	require.GreaterOrEqual(t, line.Heats[0].Celsius, 200)
	require.LessOrEqual(t, line.Heats[0].Celsius, 210)
	require.Equal(t, []string{"main", "main"}, []string{potatoes.Oven, parsnips.Oven})
}

// With one shelf they cannot both be hot; the plan says so, and that a shelf
// would help.
func TestPotatoesAndParsnipsOnOneShelf(t *testing.T) {
	line, diags := planText(t, atOne+`Roast potatoes
    Roast parsnips
dish Roast potatoes
  serves 6
  gather
    1.5 kg   potatoes
  method
    - Roast the potatoes.
      | oven 190 to 210 C | leave 45 min
  serve hot, within 10 min
dish Roast parsnips
  serves 6
  gather
    1 kg     parsnips
  method
    - Roast the parsnips.
      | oven 200 to 220 C | leave 40 min
  serve hot, within 10 min
kitchen Cottage
  cooks Ana
  oven main, 1 shelf, preheat 15 min
larder
  units metric
`)
	require.Nil(t, line)
	all := diags.Sorted()
	require.Equal(t, "P202", all[0].Code)
	require.Contains(t, all[0].Help, "find room for one more shelf in the oven")
}

// A cream infuses 10 to 15 min on a low ring. The plan takes the longer; the
// ring is held, and the shorter is kept for the sheet.
func TestCreamInfuses(t *testing.T) {
	line := onTime(t, atOne+`Scented cream
dish Scented cream
  serves 6
  gather
    600 ml   cream
    1        bay leaf
  method
    - Warm the cream with the bay leaf and let it infuse.
      | ring low | work 2 min | leave 10 to 15 min
    - Strain the cream.
      | work 1 min
  serve hot, within 10 min
`+cottage)
	infuse, strain := job(line, t, "Warm the cream with the bay leaf"), job(line, t, "Strain the cream")
	require.Equal(t, 17, infuse.End()-infuse.Start())
	require.Equal(t, 10, infuse.Phases[1].Least)
	require.Equal(t, 1, infuse.Rings)
	require.Equal(t, "low", infuse.Step.Step.Level)
	require.Equal(t, at(12, 55), strain.Start())
	require.Equal(t, at(12, 35), infuse.Start())
	require.Equal(t, at(12, 52), infuse.End())
	require.NotNil(t, line.Odds)
	require.Equal(t, line.Odds.Runs, line.Odds.OnTime, "3 min of room take up what a range of 5 may miss")
}

// Made the night before: cooked and cooled while somebody is there, then into
// the fridge, and brought back on the day.
func TestMadeTheNightBefore(t *testing.T) {
	line := onTime(t, menuOf("  hours day before, 16:00 to 21:00\n  hours on the day, 10:00 to 14:00\n", "    Bean stew, ahead\n")+`dish Bean stew
  serves 6
  gather
    1 kg     cooked beans
    500 g    tomatoes
  method
    - Stew the beans with the tomatoes.
      | ring low | in stockpot | work 5 min | leave 1 h
    - Spread out to cool.
      | work 3 min | leave 1 h | room
    - Cover and put in the fridge.
      | work 2 min
    pause up to 2 days, fridge
    - Bring back to a boil, stirring.
      | only after a pause | ring medium | in stockpot | watch 20 min | core 75 C
  serve hot, within 10 min
`+cottage)
	stew, cool, cover, back := job(line, t, "Stew the beans with the tomatoes"), job(line, t, "Spread out to cool"), job(line, t, "Cover and put in the fridge"), job(line, t, "Bring back to a boil")
	for _, j := range []*timeline.Job{stew, cool, cover} {
		require.GreaterOrEqual(t, j.Start(), at(16, 0)-timeline.Day, j.Title)
		require.LessOrEqual(t, j.End(), at(21, 0)-timeline.Day, j.Title)
	}
	require.Equal(t, 63, cool.End()-cool.Start(), "it cools for an hour before the fridge")
	require.GreaterOrEqual(t, cover.Start(), cool.End())
	require.Equal(t, at(12, 35), back.Start())
	require.Equal(t, at(12, 55), back.End(), "5 min to spare")
	require.Len(t, line.Paused, 1)
}

// A time per weight of what is counted goes by what one weighs in the larder,
// and a time per piece of what is weighed likewise. By hand: 6 kohlrabi of 200 g
// are 1.2 kg, 12 times 100 g at 2 min; 900 g of leeks of 150 g are 6 at 3 min.
func TestTimesByWhatOneWeighs(t *testing.T) {
	line, diags := planText(t, atOne+`Salad
dish Salad
  serves 6
  gather
    6        kohlrabi | work 1 min per 300 g
    900 g    leeks
  method
    - Slice the kohlrabi.
      | work 2 min per 100 g kohlrabi
    - Slice the leeks.
      | work 3 min per leek
`+cottage+"  kohlrabi | piece 200 g\n  leek | piece 150 g\n")
	require.NotNil(t, line)
	audit(t, line)
	kohlrabi, leeks := job(line, t, "Slice the kohlrabi"), job(line, t, "Slice the leeks")
	require.Equal(t, 24, kohlrabi.End()-kohlrabi.Start())
	require.Equal(t, 18, leeks.End()-leeks.Start())
	prep := job(line, t, "kohlrabi")
	require.Equal(t, 4, prep.End()-prep.Start(), "1.2 kg are 4 times 300 g")
	var said []string
	for _, d := range diags.Sorted() {
		said = append(said, d.Code+" "+d.Message)
	}
	require.Contains(t, said, "P108 Salad: this time goes by kohlrabi, each counted as 200 g (the larder)")
	require.Contains(t, said, "P108 Salad: this time goes by leeks, each counted as 150 g (the larder)")
}

// What one of a thing weighs is said in the writer's own kind of units: 8 oz, and
// not 227 g.
func TestWhatOneWeighsInOunces(t *testing.T) {
	_, diags := planText(t, atOne+`Salad
dish Salad
  serves 6
  gather
    2 lb     leeks
  method
    - Slice the leeks.
      | work 3 min per leek
`+strings.Replace(cottage, "units metric", "units US", 1)+"  leek | piece 8 oz\n")
	var said []string
	for _, d := range diags.Sorted() {
		said = append(said, d.Code+" "+d.Message)
	}
	require.Contains(t, said, "P108 Salad: this time goes by leeks, each counted as 8 oz (the larder)")
}

// Every example, on each clock: on time, true to the audit, and on the clock
// wherever the plan says it keeps to it.
func TestExamplesOnEveryClock(t *testing.T) {
	folders, err := filepath.Glob("../../../examples/*")
	require.NoError(t, err)
	menus := 0
	for _, dir := range folders {
		if files, err := filepath.Glob(dir + "/*.tamis"); err != nil || len(files) == 0 {
			continue
		}
		meals, _ := loaded(t, dir)
		for _, m := range meals {
			if m.Menu == nil {
				continue
			}
			menus++
			grids := []int{5, []int{1, 10, 15}[menus%3]}
			if effort.Long() {
				grids = []int{1, 5, 10, 15}
			}
			for _, grid := range grids {
				line := Plan(context.Background(), m, timeline.Options{Grid: grid, Known: &known}, nil)
				require.NotNil(t, line, "%s by %d", dir, grid)
				require.Zero(t, line.Late, "%s by %d", dir, grid)
				audit(t, line)
				on, off := 0, 0
				for _, b := range answer.ResultOf(line).Blocks() {
					if (answer.ResultOf(line).Start(b.Jobs[0])-answer.ResultOf(line).Draft.FirstCourse().At)%grid == 0 {
						on++
					} else {
						off++
					}
				}
				t.Logf("%s by %d: %d on the clock, %d not", dir, grid, on, off)
				if line.Grid == grid {
					require.Zero(t, off)
				}
			}
		}
	}
	require.Greater(t, menus, 4)
}

// A late or impossible meal is answered in good time: the village hall with one
// ring, the lunch with one ring, everything for twice as many. The commands were
// measured at a third of a second and less.
func TestImpossibleMealsAreQuick(t *testing.T) {
	dirs := []string{"dumpling-supper", "harvest-lunch", "village-hall-curry"}
	for _, dir := range dirs[:effort.Rounds(2, 3)] {
		meals, _ := loaded(t, "../../../examples/"+dir)
		for _, m := range meals {
			if m.Kitchen == nil || m.Menu == nil {
				continue
			}
			few := *m.Kitchen
			few.Rings = 1
			less := *m
			less.Kitchen = &few
			effort.Within(t, 5*time.Second, dir, func() { Plan(context.Background(), &less, timeline.Options{}, nil) })
		}
	}
}
