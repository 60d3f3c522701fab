package problem

import (
	"slices"

	"tamis/compiler/plan"
	"tamis/compiler/timeline"
	"tamis/lang/quantity"
)

// Working hours when a menu does not give any, in minutes from midnight:
// common practice, no source.
const (
	DayOpens    = 6 * 60
	BeforeOpens = 8 * 60
	BeforeShuts = 21 * 60

	// eveningOpens is when an evening's work begins that a cure proposes.
	eveningOpens = 17 * 60

	// early is how long before an early first serving the day begins at least.
	early = 2 * 60

	// lateness is how much later than planned a serving may be before there is
	// no plan at all.
	lateness = 4 * 60
)

// Window is a spell of working hours in minutes, half open.
type Window struct{ From, To int }

// Windows are the hours in which a cook is there, in order and apart; nil with
// always true means that there is no clock. Key is the cook's folded name.
func (d *Draft) Windows(key string) []Window {
	menu := d.Meal.Menu
	var out []Window
	if len(menu.Hours) == 0 {
		for n := d.DaysBefore(); n > 0; n-- {
			out = append(out, d.byClock(BeforeOpens-n*timeline.Day, BeforeShuts-n*timeline.Day))
		}
		out = append(out, Window{min(DayOpens, d.FirstCourse().At-early), d.lastAt() + lateness})
	}
	for _, h := range menu.Hours {
		if len(h.Cooks) == 0 || slices.Contains(h.Cooks, key) {
			out = append(out, Window{h.From, h.To})
		}
	}
	if d.Set.Evening {
		out = append(out, d.byClock(eveningOpens-timeline.Day, BeforeShuts-timeline.Day))
	}
	if w := d.Set.More; w.To > w.From {
		out = append(out, w)
	}
	out = joined(sortWindows(out))
	d.Set.Keep.over(out)
	for i := range out {
		if d.Set.Earlier > 0 && (out[i].From == d.Set.Opens || d.Set.Opens >= 0 && out[i].From >= 0) {
			out[i].From -= d.Set.Earlier
			break
		}
	}
	return joined(out)
}

// workable are hours as work is planned in them: a day before ends a little sooner where
// that is the habit.
func (d *Draft) workable(ws []Window) []Window {
	if d.Set.Keep != nil {
		return ws
	}
	out := slices.Clone(ws)
	for i := range out {
		if w := &out[i]; d.dayBefore(*w) && d.Set.Habits.inTime(*w) {
			w.To -= EndsBefore
		}
	}
	return out
}

// SpareAfter is how long somebody is there still when the work as planned ends at some time:
// on a day before, that ends a little sooner than the hours.
func (d *Draft) SpareAfter(end timeline.Minute) int {
	for _, c := range d.Kit.Cooks {
		for _, w := range d.Windows(c.Key) {
			if shorter := d.workable([]Window{w})[0]; shorter.To < w.To && timeline.FloorDiv(shorter.To-d.Origin, d.Grid) == timeline.FloorDiv(end-d.Origin, d.Grid) {
				return w.To - shorter.To
			}
		}
	}
	return 0
}

func sortWindows(ws []Window) []Window {
	slices.SortFunc(ws, func(a, b Window) int { return a.From - b.From })
	return ws
}

// joined makes one window of those that touch or overlap.
func joined(in []Window) (out []Window) {
	for _, w := range in {
		if n := len(out); n > 0 && w.From <= out[n-1].To {
			out[n-1].To = max(out[n-1].To, w.To)
			continue
		}
		out = append(out, w)
	}
	return out
}

// Night is the time between the last working hours of the days before and the
// first of the serving day. ok is false when no day before has any.
func (d *Draft) Night() (from, to int, ok bool) {
	for _, w := range d.Open {
		switch {
		case w.From < 0 && w.To <= DayOpens:
			from, ok = w.To, true
		case ok && to == 0:
			to = w.From
		}
	}
	return from, to, ok && to > from
}

// spells turns windows into the engine's time, shrunk to whole units.
func (d *Draft) spells(ws []Window) (out []plan.Span) {
	for _, w := range ws {
		s := plan.Span{From: max(0, timeline.CeilDiv(w.From-d.Origin, d.Grid)), To: timeline.FloorDiv(w.To-d.Origin, d.Grid)}
		if s.To > s.From {
			out = append(out, s)
		}
	}
	return out
}

// byClock is a spell by what the clock shows.
func (d *Draft) byClock(from, to int) Window {
	if d.Meal.Menu == nil {
		return Window{from, to}
	}
	_, from, _ = d.Meal.Menu.Wall.Passed(from)
	to, _, _ = d.Meal.Menu.Wall.Passed(to)
	return Window{from, to}
}

// DaysBefore is how many days before the serving day count when the menu gives
// no hours.
func (d *Draft) DaysBefore() int {
	return d.needDays + d.Set.MoreDays
}

func (d *Draft) ClockText(m timeline.Minute) string {
	m = d.Meal.Shown(m)
	text := timeline.ClockText(d.Clock, m)
	if !d.Clock {
		return text
	}
	if n := timeline.FloorDiv(m, timeline.Day); n != 0 {
		return text + " " + quantity.DayText(int(n))
	}
	return text
}
