package quantity

import (
	"testing"
	"time"
	_ "time/tzdata"

	"github.com/stretchr/testify/require"
)

// The nights in which clocks are changed, as zdump prints them of the tz database
// (seen: zdump -v, tzdata of Debian): the last moment of the old offset and the
// first of the new one, both by the clock.
func TestClocksAreChanged(t *testing.T) {
	for _, c := range []struct {
		zone, serve string
		at          string // the first moment after the change, in UTC
		by          int
	}{
		{"Europe/London", "2027-03-28 13:00", "2027-03-28 01:00", 60},
		{"Europe/London", "2027-10-31 13:00", "2027-10-31 01:00", -60},
		{"America/New_York", "2027-03-14 12:00", "2027-03-14 07:00", 60},
		{"America/New_York", "2027-11-07 12:00", "2027-11-07 06:00", -60},
		{"Australia/Lord_Howe", "2027-04-04 12:00", "2027-04-03 15:00", -30},
		{"Australia/Lord_Howe", "2027-10-03 12:00", "2027-10-02 15:30", 30},
		{"Pacific/Apia", "2011-12-31 12:00", "2011-12-30 10:00", 24 * 60}, // a day that was left out
		{"America/St_Johns", "2027-03-14 12:00", "2027-03-14 05:30", 60},
	} {
		zone, err := time.LoadLocation(c.zone)
		require.NoError(t, err)
		serve, _ := time.Parse("2006-01-02 15:04", c.serve)
		want, _ := time.Parse("2006-01-02 15:04", c.at)
		w := WallOf(serve, zone)
		at := serve.Hour()*60 + serve.Minute()
		got := w.Changes(at-24*60, at)
		require.Len(t, got, 1, c)
		require.Equal(t, want, w.Instant(got[0].At).UTC(), c)
		require.Equal(t, c.by, got[0].By, c)
	}
	kolkata, _ := time.LoadLocation("Asia/Kolkata")
	require.Empty(t, WallOf(time.Date(2027, 10, 31, 13, 0, 0, 0, time.UTC), kolkata).Changes(-7*24*60, 0))
}

// Minute by minute through such nights: what the clock shows is what the zone
// says of the moment, and each time that is shown is found again; what is skipped
// is not found, what comes twice is found twice.
func TestShownAndPassed(t *testing.T) {
	for _, c := range []struct{ zone, serve string }{
		{"Europe/London", "2027-03-28 13:00"},
		{"Europe/London", "2027-10-31 13:00"},
		{"Europe/London", "2027-10-31 00:30"},
		{"America/Chicago", "2027-03-14 12:00"},
		{"Australia/Lord_Howe", "2027-04-04 12:00"},
		{"Pacific/Apia", "2011-12-31 12:00"},
		{"Asia/Kolkata", "2027-10-31 13:00"},
	} {
		zone, err := time.LoadLocation(c.zone)
		require.NoError(t, err)
		serve, _ := time.Parse("2006-01-02 15:04", c.serve)
		w := WallOf(serve, zone)
		midnight := time.Date(serve.Year(), serve.Month(), serve.Day(), 0, 0, 0, 0, time.UTC)
		times := map[int][]int{}
		for m := -40 * 60; m < 30*60; m++ {
			text := w.Instant(m).Format("2006-01-02 15:04")
			wall, _ := time.Parse("2006-01-02 15:04", text)
			shown := int(wall.Sub(midnight) / time.Minute)
			require.Equal(t, shown, w.Shown(m), text)
			times[shown] = append(times[shown], m)
		}
		require.Equal(t, serve.Hour()*60+serve.Minute(), w.Shown(serve.Hour()*60+serve.Minute()))
		for shown := -14 * 60; shown < 28*60; shown++ {
			first, last, ok := w.Passed(shown)
			all := times[shown]
			require.Equal(t, len(all) > 0, ok, "%s: %d", c, shown)
			if ok {
				require.Equal(t, []int{all[0], all[len(all)-1]}, []int{first, last}, "%s: %d", c, shown)
			}
		}
	}
	require.Equal(t, 5, (*Wall)(nil).Shown(5))
}
