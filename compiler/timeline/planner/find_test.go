package planner

import (
	"bytes"
	"context"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler/events"
	"tamis/compiler/timeline"
	"tamis/render/plantext"
)

func lunch(t *testing.T) *timeline.Timeline {
	t.Helper()
	meals, _ := loaded(t, "../../../examples/harvest-lunch")
	line := Plan(context.Background(), meals[0], timeline.Options{Known: &known}, nil)
	require.NotNil(t, line)
	return line
}

// A step goes by its letter and number, its dish and number, or its words.
func TestFind(t *testing.T) {
	line := lunch(t)
	for text, want := range map[string]string{
		"B3":                     "B3",
		"b 3":                    "B3",
		"Slow lamb 3":            "B3",
		"slow lamb, step 3":      "B3",
		"fork in the almonds":    "C5",
		"Cover tightly":          "B3",
		"heap":                   "B8",
		"Barley pilaf: dressing": "",
		"Lay the table":          "",
	} {
		j, err := line.Find(text)
		switch {
		case text == "Lay the table":
			require.NoError(t, err)
			require.Equal(t, timeline.TaskJob, j.Kind)
		case want == "":
			require.ErrorContains(t, err, "could be `C3` (Whisk the dressing) or `C6`", text)
		default:
			require.NoError(t, err, text)
			require.Equal(t, want, j.Mark(), text)
		}
	}
	for text, want := range map[string]string{
		"":                        "which step?",
		"Slow lmb 3":              `no dish is called "slow lmb": did you mean ` + "`B3`",
		"Slow lamb 30":            "Slow lamb has 8 steps, so there is no step 30 in it",
		"B0":                      "Slow lamb has 8 steps, so there is no step 0 in it",
		"Z9":                      `no step is called "Z9"`,
		"xyzzy":                   "by its first words",
		"99999999999999999999999": "no step is called",
	} {
		_, err := line.Find(text)
		require.ErrorContains(t, err, want)
	}
	names := line.StepNames()
	require.Equal(t, [2]string{"A1", "Toss the cucumbers with the salt in a colander and leave them to weep, Cucumber soup"}, names[0])
}

// Moments are read as a cook says them. The lunch is on a Sunday, its first
// course at 13:00.
func TestMoment(t *testing.T) {
	line := lunch(t)
	for text, want := range map[string]timeline.Minute{
		"12:30":                 at(12, 30),
		"9:05":                  at(9, 5),
		"12.30":                 at(12, 30),
		"Sat 17:30":             at(17, 30) - timeline.Day,
		"saturday, 17:30":       at(17, 30) - timeline.Day,
		"Sun 17:30":             at(17, 30),
		"Mon 17:30":             at(17, 30) - 6*timeline.Day,
		"day before 18:00":      at(18, 0) - timeline.Day,
		"the day before, 18:00": at(18, 0) - timeline.Day,
		"18:00 the day before":  at(18, 0) - timeline.Day,
		"2 days before 9:00":    at(9, 0) - 2*timeline.Day,
		"on the day 9:00":       at(9, 0),
		"2027-09-18 18:00":      at(18, 0) - timeline.Day,
		"2027-09-20 01:00":      at(25, 0),
		"T":                     at(13, 0),
		"T-0:40":                at(12, 20),
		"T−40 min":              at(12, 20),
		"T - 1 h 10 min":        at(11, 50),
		"t+0:15":                at(13, 15),
	} {
		m, err := line.Moment(text)
		require.NoError(t, err, text)
		require.Equal(t, want, m, text)
	}
	for text, want := range map[string]string{
		"":                                      "when is",
		"half one":                              "Write `12:30`",
		"25:00":                                 "there is no 25:00 on a clock of 24 hours",
		"12:75":                                 "there is no 12:75",
		"Xyz 12:00":                             "when is",
		"T-soon":                                "when is",
		"2027-13-40 9:00":                       "when is",
		"99999999999999999999 days before 9:00": "when is",
	} {
		_, err := line.Moment(text)
		require.ErrorContains(t, err, want, text)
	}
	apart, _ := planText(t, "menu Supper\n  covers 4\n  course Main\n    Leeks\ndish Leeks\n  serves 4\n  gather\n    800 g    leeks\n  method\n    - Cook the leeks.\n      | ring low | work 3 min | leave 15 min\n")
	m, err := apart.Moment("T-0:10")
	require.NoError(t, err)
	require.Equal(t, -10, m)
	_, err = apart.Moment("12:30")
	require.ErrorContains(t, err, "write `T-0:40`")
}

// What is happening at a moment: worked out by hand. Served at 13:00, the roast
// goes in at 12:00 (heated from 11:45) and the peas on the ring at 12:45.
func TestWriteMoment(t *testing.T) {
	roast := recipe("Roast", step("Roast the joint", heat(180, 180), leave(60)), hot(0))
	peas := recipe("Peas", step("Simmer the peas", ring, leave(10)), step("Toss the peas", work(5)), hot(0))
	line := newMeal(farmhouse()).serve("Main", at(13, 0), roast, peas).planned(t)
	show := func(m timeline.Minute) string {
		var b bytes.Buffer
		require.NoError(t, plantext.WriteMoment(&b, events.Of(line), events.Moment(m)))
		return b.String()
	}
	require.Equal(t, `Sunday 19 September 2027, 12:50: 10 min to Main

  Ana        free until 12:55, then Toss the peas (B2)
  main oven  180 °C: Roast the joint (A1), until 13:00
  rings      Simmer the peas (B1), low, until 12:55

In the next 30 minutes
  12:55  to 13:00  Ana  B2  Toss the peas
  13:00                 A1  Roast the joint: take out of the oven
  13:00            Ana  A   Serve Roast
  13:00            Ana  B   Serve Peas
  13:01            Ana      Turn off the main oven
`, show(at(12, 50)))
	require.Contains(t, show(at(11, 50)), "main oven  heating to 180 °C, for 12:00: empty")
	require.Contains(t, show(at(12, 57)), "Ana        Toss the peas (B2), until 13:00")
	require.Contains(t, show(at(9, 0)), "Nothing begins in the next 30 minutes; the next is at 11:45.")
	require.Contains(t, show(at(13, 0)), "13:00: Main is served")
	require.Contains(t, show(at(15, 0)), "Nothing comes after this.")
}
