package calendar_test

import (
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"tamis/compiler/sheets"
	"tamis/render/calendar"
)

// unfolded are the content lines of a calendar as RFC 5545, 3.1 puts them together again
// (from memory), and each written line is held to its 75 octets and to whole letters.
func unfolded(t *testing.T, text string) []string {
	require.True(t, strings.HasSuffix(text, "\r\n"))
	for _, l := range strings.Split(strings.TrimSuffix(text, "\r\n"), "\r\n") {
		require.LessOrEqual(t, len(l), 75, l)
		require.True(t, utf8.ValidString(l), "%q is cut within a letter", l)
		require.NotContains(t, l, "\n")
	}
	return strings.Split(strings.ReplaceAll(text, "\r\n ", ""), "\r\n")
}

func planned(events ...sheets.Event) *sheets.Document {
	return &sheets.Document{Title: "Supper; late, with Zoë", Events: events}
}

// In winter Berlin is an hour before UTC: 18:30 there is 17:30 for the calendar. A job ends
// for a cook when that cook's hands leave it, not when it is cooked.
func TestTimesAndHands(t *testing.T) {
	all, err := calendar.Of(planned(
		sheets.Event{Kind: "job", Start: "2027-01-22T18:30:00+01:00", End: "2027-01-22T19:30:00+01:00", Letter: "B", Step: 3, Dish: "Crêpes", Who: []string{"Ana"}, Words: "Bake: until brown, then rest", Phases: []sheets.Phase{
			{Kind: "work", Start: "2027-01-22T18:30:00+01:00", End: "2027-01-22T18:40:00+01:00", Who: []string{"Ana"}},
			{Kind: "leave", Start: "2027-01-22T18:40:00+01:00", End: "2027-01-22T19:30:00+01:00"},
		}},
		sheets.Event{Kind: "job", Start: "2027-01-22T18:35:00+01:00", End: "2027-01-22T18:36:00+01:00", Who: []string{"Jo"}, Words: "Lay the table", Phases: []sheets.Phase{{Kind: "work", Start: "2027-01-22T18:35:00+01:00", End: "2027-01-22T18:36:00+01:00", Who: []string{"Jo"}}}},
		sheets.Event{Kind: "serve", Start: "2027-01-22T19:30:00+01:00", End: "2027-01-22T19:30:00+01:00", Words: "Serve: Crêpes"},
	))
	require.NoError(t, err)
	require.Len(t, all, 2)
	require.Equal(t, "Ana", all[0].Cook)
	ana := unfolded(t, all[0].Text)
	require.Contains(t, ana, "DTSTART:20270122T173000Z")
	require.Contains(t, ana, "DTEND:20270122T174000Z")
	require.Contains(t, ana, "SUMMARY:B3 Bake: until brown\\, then rest")
	require.Contains(t, ana, "NAME:Supper\\; late\\, with Zoë\\, Ana")
	require.Contains(t, ana, "SUMMARY:Serve: Crêpes")
	require.NotContains(t, all[0].Text, "Lay the table", "that is Jo's")
	require.Equal(t, 2, strings.Count(all[0].Text, "BEGIN:VALARM"))
	require.Equal(t, 2, strings.Count(all[1].Text, "BEGIN:VEVENT"), "what goes to the table is everybody's")
}

// Where nobody names a zone, times float: no Z.
func TestFloating(t *testing.T) {
	all, err := calendar.Of(planned(sheets.Event{Kind: "job", Start: "2027-01-22T18:30:00", End: "2027-01-22T18:40:00", Who: []string{"Ana"}, Words: "Stir"}))
	require.NoError(t, err)
	require.Contains(t, unfolded(t, all[0].Text), "DTSTART:20270122T183000")
}

// Without a date there is no calendar, and it is said what is missing.
func TestNoDate(t *testing.T) {
	_, err := calendar.Of(planned(sheets.Event{Kind: "job", Start: "-PT30M", End: "-PT10M", Who: []string{"Ana"}, Words: "Stir"}))
	require.ErrorIs(t, err, calendar.ErrNoDate)
	_, err = calendar.Of(planned())
	require.ErrorIs(t, err, calendar.ErrNoDate)
}

// Long lines are folded, letters of several octets kept whole; two events that look alike
// are two.
func TestFolding(t *testing.T) {
	long := strings.Repeat("Zwetschgenknödel für die Gäste ", 12)
	same := sheets.Event{Kind: "job", Start: "2027-01-22T18:30:00Z", End: "2027-01-22T18:40:00Z", Who: []string{"Ana"}, Words: long}
	all, err := calendar.Of(planned(same, same))
	require.NoError(t, err)
	lines := unfolded(t, all[0].Text)
	require.Contains(t, lines, "SUMMARY:"+strings.TrimRight(long, " ")+strings.Repeat(" ", len(long)-len(strings.TrimRight(long, " "))))
	uids := map[string]bool{}
	for _, l := range lines {
		if strings.HasPrefix(l, "UID:") {
			uids[l] = true
		}
	}
	require.Len(t, uids, 2)
}
