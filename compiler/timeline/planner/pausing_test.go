package planner

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler/timeline"
	"tamis/compiler/timeline/advice"
	"tamis/compiler/timeline/answer"
	"tamis/compiler/timeline/problem"
	"tamis/compiler/timeline/washing"
)

const gratin = `menu Supper
  covers 6
  on the table 2027-10-16 19:30
  at Cottage
  hours day before, 18:00 to 21:30
  hours on the day, 15:00 to 20:30
  course Supper
    Gratin HOW
dish Gratin
  serves 6
  gather
    1 kg     celeriac
  method
    - Slice the celeriac.
      | work 10 min
    - Bake until browned.
      | oven 190 C | leave 45 min
    - Cool on a rack in the draught.
      | only before a pause | work 1 min | leave 59 min | reach 8 C
    pause up to 1 day, fridge
    - Bring back under foil.
      | only after a pause | oven 190 C | leave 25 min | core 75 C
  serve hot, within 15 min
`

// Made the day before, it is cooled that evening and brought back; straight
// through, neither is done. By hand: done at 19:30 less nothing, 25 min to bring
// back; straight through 45 min to bake, and 5 to spare, for by sight it takes longer at times.
func TestCoolingOnlyForAPause(t *testing.T) {
	ahead := onTime(t, strings.Replace(gratin, " HOW", ", ahead", 1)+cottage)
	cool, back := job(ahead, t, "Cool on a rack in the draught"), job(ahead, t, "Bring back under foil")
	require.Less(t, cool.End(), 0, "the evening before")
	require.LessOrEqual(t, cool.Start()-job(ahead, t, "Bake until browned").End(), 10)
	require.Equal(t, at(19, 5), back.Start())

	straight := onTime(t, strings.Replace(gratin, " HOW", ", straight through", 1)+cottage)
	require.Equal(t, []string{"Slice the celeriac", "Bake until browned"}, titles(straight.Jobs))
	require.Equal(t, at(19, 25), job(straight, t, "Bake until browned").End())
}

// Left to the planner, and no reason to make it ahead: straight through, and no
// cooling.
func TestNoCoolingWhenNotPaused(t *testing.T) {
	line := onTime(t, strings.Replace(gratin, " HOW", "", 1)+cottage)
	require.Equal(t, []string{"Slice the celeriac", "Bake until browned"}, titles(line.Jobs))
}

// When the meal runs late, a pause that was not planned may be tried until what
// comes after it has been begun; with it the steps for a pause take place.
func TestPauseNotPlannedMayBeTried(t *testing.T) {
	line := onTime(t, strings.Replace(gratin, " HOW", "", 1)+cottage)
	at := func(now timeline.Minute) (*problem.Draft, []advice.Cure) {
		set := answer.ResultOf(line).Set
		set.Keep = answer.ResultOf(line).Keeping(now)
		d := washing.Translate(line.Meal, set, nil)
		return d, advice.Pausing(d, advice.Clash{})
	}
	bake := job(line, t, "Bake until browned")
	d, cures := at(bake.Start())
	require.Len(t, cures, 1)
	require.Equal(t, "pause after step 2 of Gratin (Bake until browned), up to 1 day in the fridge", cures[0].Text)
	set := d.Set
	cures[0].Change(&set)
	require.Equal(t, []bool{false}, d.Set.Keep.Pauses[d.Makings[0].M], "what is kept is as it was")
	var names []string
	for _, j := range washing.Translate(line.Meal, set, nil).Jobs {
		names = append(names, j.Title)
	}
	require.Equal(t, []string{"Slice the celeriac", "Bake until browned", "Cool on a rack in the draught", "Bring back under foil"}, names)

	straight := onTime(t, strings.Replace(gratin, " HOW", ", straight through", 1)+cottage)
	set = answer.ResultOf(straight).Set
	set.Keep = answer.ResultOf(straight).Keeping(bake.Start())
	require.Empty(t, advice.Pausing(washing.Translate(straight.Meal, set, nil), advice.Clash{}), "the menu will have it straight")
}
