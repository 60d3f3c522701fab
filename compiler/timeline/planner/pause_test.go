package planner

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler/timeline"
	"tamis/lang/diag"
)

const lamb = `dish Slow lamb
  serves 6
  gather
    2 kg     lamb
  method
    - Braise the lamb.
      | oven 150 C | work 10 min | leave 3 h
    - Cool it.
      | work 5 min | leave 1 h
    pause up to 1 day, fridge
    - Bring it back.
      | only after a pause | oven 150 C | work 5 min | leave 40 min | core 75 C
    - Slice.
      | work 10 min
  serve hot, within 15 min
`

func menuOf(hours, servings string) string {
	return `menu Lunch
  covers 6
  on the table 2027-09-19 13:00
  at Cottage
` + hours + `  course Main
` + servings
}

// Nobody decided: the dish goes straight through where that is on time, and is
// paused where it is not.
func TestThePlannerPauses(t *testing.T) {
	line := onTime(t, menuOf("  hours day before, 15:00 to 20:00\n  hours on the day, 08:00 to 14:00\n", "    Slow lamb\n")+lamb+cottage)
	require.Empty(t, line.Paused)
	require.Greater(t, line.Start, 0)

	line = onTime(t, menuOf("  hours day before, 15:00 to 20:00\n  hours on the day, 11:00 to 14:00\n", "    Slow lamb\n")+lamb+cottage)
	require.Len(t, line.Paused, 1)
	require.Equal(t, at(11, 0) > job(line, t, "Braise the lamb").Start(), true)
	require.Less(t, job(line, t, "Cool it").End(), at(20, 0)-timeline.Day+1, "someone is there to put it away")
	require.Equal(t, at(12, 0), job(line, t, "Bring it back").Start(), "45 min and 10 of slicing before one, and 5 to spare")
}

// `ahead` means the day before where there are hours on it; on the day itself,
// with a note, where there is no room the day before; `straight through` never
// pauses.
func TestAhead(t *testing.T) {
	line := onTime(t, menuOf("  hours day before, 15:00 to 20:00\n  hours on the day, 07:00 to 14:00\n", "    Slow lamb, ahead\n")+lamb+cottage)
	require.Less(t, job(line, t, "Cool it").Start(), 0)

	line = onTime(t, menuOf("  hours day before, 18:00 to 20:00\n  hours on the day, 06:00 to 14:00\n", "    Slow lamb, ahead\n")+lamb+cottage)
	require.Greater(t, job(line, t, "Braise the lamb").Start(), 0)
	require.Contains(t, line.Note, "Slow lamb cannot be done the day before")
	require.Len(t, line.Paused, 1)

	line = onTime(t, menuOf("", "    Slow lamb, ahead\n")+lamb+cottage)
	require.Less(t, job(line, t, "Cool it").Start(), 0, "without hours the day before counts")

	line = onTime(t, menuOf("  hours day before, 15:00 to 20:00\n  hours on the day, 07:00 to 14:00\n", "    Slow lamb, straight through\n")+lamb+cottage)
	require.Empty(t, line.Paused)
	for _, j := range line.Jobs {
		require.NotEqual(t, "Bring it back", j.Title)
	}
}

// What cannot be is said with a cure that was tried.
func TestCures(t *testing.T) {
	// Straight through there is no time; made ahead there would be.
	line, diags := planText(t, menuOf("  hours day before, 15:00 to 20:00\n  hours on the day, 11:00 to 14:00\n", "    Slow lamb, straight through\n")+lamb+cottage)
	require.Nil(t, line)
	d := only(t, diags)
	require.Equal(t, "P202", d.Code)
	require.Equal(t, diag.Error, d.Severity)
	require.Contains(t, d.Help, "make it ahead: `Slow lamb, ahead`")
	onTime(t, written(t, d, "make it ahead: `Slow lamb, ahead`"))

	// Two things on the only free ring at once.
	two := `dish Pilau
  serves 6
  gather
    400 g    rice
  method
    - Cook the rice.
      | 2 rings high | leave 20 min
  serve hot, within 5 min
dish Green bowl
  serves 6
  gather
    400 g    peas
  method
    - Boil the peas.
      | ring high | leave 10 min
  serve hot, within 5 min
`
	line, diags = planText(t, menuOf("", "    Pilau\n    Green bowl\n")+two+cottage)
	require.Nil(t, line)
	d = only(t, diags)
	require.Equal(t, "P202", d.Code)
	require.Contains(t, d.Message, "Pilau and Green bowl")
	require.Contains(t, d.Why, "2 rings")
	require.Contains(t, d.Help, "find one more ring")
}

// Hours too short on the one day there is: the evening before would do.
func TestCureOfAnEvening(t *testing.T) {
	text := menuOf("  hours on the day, 10:00 to 14:00\n", "    Posset\n") + `dish Posset
  serves 6
  keeps 2 days, fridge
  gather
    1 litre  cream
  method
    - Set the cream.
      | work 10 min | stand overnight, fridge
  serve cold
` + cottage
	line, diags := planText(t, text)
	require.Nil(t, line)
	d := only(t, diags)
	require.Equal(t, "P202", d.Code)
	require.Contains(t, d.Why, "the hours are 10:00 to 14:00")
	require.Contains(t, d.Help, "work on the evening before: `hours day before, 17:00 to 21:00`")
	onTime(t, written(t, d, "work on the evening before: `hours day before, 17:00 to 21:00`"))
}

func only(t *testing.T, diags *diag.List) diag.Diagnostic {
	t.Helper()
	all := diags.Sorted()
	require.Len(t, all, 1)
	return all[0]
}

// written is the text of a finding with one of its cures written into it.
func written(t *testing.T, d diag.Diagnostic, title string) string {
	t.Helper()
	i := slices.IndexFunc(d.Fixes, func(f diag.Fix) bool { return f.Title == title })
	require.GreaterOrEqual(t, i, 0, "%s is only said", title)
	d.Fixes = d.Fixes[i : i+1]
	for _, done := range diag.Apply([]diag.Diagnostic{d}, func(diag.Fix) bool { return true }) {
		return done.Text
	}
	return ""
}

// What does not go into the hours of the day before is no fault of theirs: by hand, 10 min of
// work and three and a half hours in the oven before the lamb is cooled want more than two hours. Ana, who has to begin it, is not there the day before.
func TestNotMadeInHoursThatAreTooShort(t *testing.T) {
	for hours, said := range map[string]bool{"18:00 to 20:00": false, "15:30 to 20:00": true} {
		line, _ := planText(t, menuOf("  hours day before, "+hours+", Jo\n  hours on the day, 09:30 to 15:00, Ana\n", "    Slow lamb\n")+strings.Replace(lamb, "work 10 min | leave 3 h", "work 10 min | by Ana | leave 3 h 30 min", 1)+
			strings.Replace(cottage, "cooks", "cooks Jo,", 1))
		require.NotNil(t, line, hours)
		require.Positive(t, line.Late, hours)
		require.Equal(t, said, strings.Contains(line.Note, "is not made the day before, though hands are idle then"), "%s: %s", hours, line.Note)
	}
}
