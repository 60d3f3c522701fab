package events

import (
	"fmt"
	"strings"
	"time"

	"tamis/lang/quantity"
)

const dayMinutes = 24 * 60

// dayEnds is how long after the first serving a day ends where there is no
// clock: a meal and its clearing up. Common practice, no source.
const dayEnds = 6 * 60

// Clocked tells whether moments are times of day. Without a list they are: what
// a menu says of itself is.
func (l *List) Clocked() bool { return l == nil || l.clock }

// Day numbers the day a moment falls on, the serving's being 0.
func (l *List) Day(m Moment) int {
	if !l.Clocked() {
		return floorDiv(int(m-l.DayStart(0)), dayMinutes)
	}
	return floorDiv(l.shown(m), dayMinutes)
}

// shown is what the clock on the wall shows at a moment.
func (l *List) shown(m Moment) int {
	return l.wall().Shown(int(m))
}

// wall is the clock on the wall; nil where it is never changed.
func (l *List) wall() *quantity.Wall {
	if l == nil || !l.clock || l.meal == nil || l.meal.Menu == nil {
		return nil
	}
	return l.meal.Menu.Wall
}

// Changes are the moments of a day at which its clock is put forward or back, and
// by how much.
func (l *List) Changes(day int) []quantity.Change {
	return l.wall().Changes(int(l.DayStart(day)), int(l.DayStart(day+1)))
}

// DayStart is the first minute of a day.
func (l *List) DayStart(day int) Moment {
	if !l.Clocked() {
		return Moment((day-1)*dayMinutes + dayEnds)
	}
	first, _, _ := l.wall().Passed(day * dayMinutes)
	return Moment(first)
}

// Clock writes a moment as a time of day, "12:30"; without a clock, counted from
// the first serving, "T−0:30".
func (l *List) Clock(m Moment) string { return quantity.ClockText(l.Clocked(), l.shown(m)) }

// ClockBy is Clock in whole steps of some minutes, down to the last that has passed.
func (l *List) ClockBy(m Moment, step Minutes) string {
	if step <= 1 {
		return l.Clock(m)
	}
	return quantity.ClockText(l.Clocked(), floorDiv(l.shown(m), int(step))*int(step))
}

// KeptFrom is until when what is made at a moment keeps: hours and a few days by
// the time that passes, weeks by the calendar.
func (l *List) KeptFrom(m Moment, keeps time.Duration) Moment {
	n := int(keeps / time.Minute)
	if keeps < 7*24*time.Hour {
		return m.Add(Minutes(n))
	}
	first, _, _ := l.wall().Passed(l.shown(m) + n)
	return Moment(first)
}

// Counted writes a moment counted from the first serving, with a clock or
// without: "T−0:30".
func (l *List) Counted(m Moment) string { return quantity.ClockText(false, int(l.SinceServing(m))) }

// SinceServing is how long after the first serving a moment is.
func (l *List) SinceServing(m Moment) Minutes { return m.Since(l.Zero) }

// DayOf is a day in short, as seen from another: "Mon", and a week or more away
// with its date, "Mon 4 Oct". It is empty where nobody knows the date.
func (l *List) DayOf(day, from int) string {
	switch {
	case l.date == nil:
		return ""
	case day-from >= 7 || from-day >= 7:
		return l.date.AddDate(0, 0, day).Format("Mon 2 Jan")
	}
	return l.date.AddDate(0, 0, day).Format("Mon")
}

// DayName is a day in full, and how far it lies from the serving's: "Saturday 18
// September 2027, the day before". It is empty where nobody knows the date.
func (l *List) DayName(day int) string {
	if l.date == nil {
		return ""
	}
	name := l.date.AddDate(0, 0, day).Format("Monday 2 January 2006")
	if day == 0 {
		return name
	}
	return name + ", " + quantity.DayText(day)
}

// OnDay is a moment with its day: "Sat 18:30"; without a clock, as Clock writes it.
func (l *List) OnDay(m Moment) string { return l.onDay(m, 0) }

// ClockFrom is a moment as seen from another: with its day where that is
// another one.
func (l *List) ClockFrom(from, m Moment) string {
	if day := l.Day(from); day != l.Day(m) {
		return l.onDay(m, day)
	}
	return l.Clock(m)
}

func (l *List) onDay(m Moment, from int) string {
	if !l.clock {
		return l.Clock(m)
	}
	return strings.TrimSpace(l.DayOf(l.Day(m), from) + " " + l.Clock(m))
}

// Stamp is a moment for a machine. Where the date is known it is a time of RFC
// 3339, "2027-09-19T12:30:00+01:00", without the offset where no zone is; else
// it is counted from the first serving as a duration of ISO 8601, "-PT30M".
func (l *List) Stamp(m Moment) string {
	if l.date == nil || !l.clock {
		n := l.SinceServing(m)
		if n < 0 {
			return fmt.Sprintf("-PT%dM", -n)
		}
		return fmt.Sprintf("PT%dM", n)
	}
	if w := l.wall(); w != nil {
		return w.Instant(int(m)).Format(time.RFC3339)
	}
	y, mon, d := l.date.Date()
	return time.Date(y, mon, d, 0, int(m), 0, 0, time.UTC).Format("2006-01-02T15:04:05")
}

// ChangeWords says that the clock is put forward or back on a day: "at 02:00 the
// clocks go back 1 h"; empty on most days.
func (l *List) ChangeWords(day int) string {
	changes := l.Changes(day)
	if len(changes) == 0 {
		return ""
	}
	way, by := "forward", changes[0].By
	if by < 0 {
		way, by = "back", -by
	}
	before := l.shown(Moment(changes[0].At-1)) + 1
	return fmt.Sprintf("at %s the clocks go %s %s: the times below are by the clock", quantity.ClockText(true, before), way, Minutes(by).Words())
}

func floorDiv(a, b int) int {
	q := a / b
	if a%b != 0 && (a < 0) != (b < 0) {
		q--
	}
	return q
}
