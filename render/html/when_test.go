package html

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestTimersAreSetToTheShorterTime(t *testing.T) {
	for fact, want := range map[string]int{
		"work 12 min":                             12,
		"leave 35 to 40 min":                      35,
		"leave 3 h 45 min to 4 h":                 225,
		"leave 3 h to 3 h 15 min":                 180,
		"stand 2 h to 2 h 3 min, fridge":          120,
		"rest about 15 min":                       15,
		"leave 50 min to 1 h":                     50,
		"watch 8 min, until brown":                8,
		"leave 14 min a load":                     14,
		"work 1 min every 10 min":                 0,
		"oven 220 °C for 20 min, then 160 °C":     0,
		"hold hot up to 20 min, above 63 °C":      0,
		"within 5 min":                            0,
		"stand 3 days to 4 days, cool place":      0,
		"leave 99999999999999999999 h":            0,
		"stand 8 h to 14 h, fridge":               480,
		"stand overnight, fridge":                 0,
		"work 6 min and 10 min a load":            0,
		"leave":                                   0,
		"watch 1 h to 1 h 15 min, until it coats": 60,
	} {
		require.Equal(t, want, timer(fact), fact)
	}
}

// Days of the week from the civil calendar: 31 December 2027 was a Friday
// and 1 January 2028 a Saturday (from memory, checked with cal).
func TestDaysAreDatedByTheirDayOfTheWeek(t *testing.T) {
	p := &printer{year: yearOf("Saturday 1 January 2028, 13:00")}
	require.Equal(t, "2028-01-01", p.day("Saturday 1 January"))
	require.Equal(t, "2027-12-31", p.day("Friday 31 December"), "the day before is of the year before")
	require.Empty(t, p.day("Monday 31 December"), "no such day near")
	require.Empty(t, p.day("The day before"))
	require.Empty(t, (&printer{}).day("Friday 31 December"), "a menu without a date")
	require.Equal(t, 0, yearOf("13:00"))
	require.Equal(t, 745, minuteOf("12:25"))
	require.Equal(t, -1, minuteOf("Sat 12:25"))
}
