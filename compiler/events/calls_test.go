package events

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"tamis/compiler/resolve"
)

func working(who string, from, to Moment) *Event {
	return &Event{Kind: Job, Phases: []Phase{{Kind: resolve.Work, Start: from, End: to, Who: []string{who}}}}
}

// Call times are in order of time, with a clock or counted from the serving, and work past
// midnight is of the shift in which it was begun.
func TestCallTimes(t *testing.T) {
	date := time.Date(2027, 5, 2, 20, 0, 0, 0, time.UTC)
	l := &List{Cooks: []string{"Ana", "Bea", "Cyd"}, clock: true, date: &date, Events: []*Event{
		working("Bea", -4*60, -3*60), working("Ana", -3*60, -60), working("Bea", -60, 40),
		working("Cyd", 9*60, 10*60), working("Ana", 18*60, 20*60), working("Bea", 23*60, 25*60),
	}}
	require.Equal(t, []string{
		"Call times, Saturday 1 May 2027, the day before: Bea 20:00, Ana 21:00; done by Sun 00:40.",
		"Call times, Sunday 2 May 2027: Cyd 09:00, Ana 18:00, Bea 23:00.",
	}, l.Calls())

	counted := &List{Cooks: []string{"Ana", "Bea", "Cyd"}, Events: []*Event{
		working("Ana", -30, -10), working("Bea", -90, -60), working("Cyd", -600, -300),
	}}
	require.Equal(t, []string{"Call times: Cyd T−10:00, Bea T−1:30, Ana T−0:30."}, counted.Calls())
}
