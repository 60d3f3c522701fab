package planner

import (
	"testing"

	"tamis/compiler/timeline"
)

// Whatever is asked, there is an answer or a word of help, never a panic.
func FuzzAsk(f *testing.F) {
	for _, s := range []string{"B3", "Slow lamb 3", "T-0:40", "Sat 17:30", "B3 15 min", "day before 18:00", "9999999999 days before 1:00", "T", "t-", "3", " ", "é 1 1 h", "2027-02-30 12:00", "B3 0:00", "−0:40"} {
		f.Add(s)
	}
	apart := &timeline.Timeline{Servings: []*timeline.Serving{{At: 5}}, Jobs: []*timeline.Job{{Piece: timeline.Piece{Kind: timeline.TaskJob, Title: "Lay the table"}, Phases: []timeline.Phase{{End: 5}}}}}
	f.Fuzz(func(t *testing.T, text string) {
		if _, err := apart.Moment(text); err != nil && err.Error() == "" {
			t.Error("no word of help")
		}
		if j, err := apart.Find(text); (j == nil) == (err == nil) {
			t.Errorf("%q: %v, %v", text, j, err)
		}
		if j, by, err := apart.Delayed(text); err == nil && (j == nil || by < 1 || by > timeline.Day) {
			t.Errorf("%q: %v late by %d", text, j, by)
		}
	})
}
