package timeline

import (
	"slices"

	"tamis/compiler/plan"
)

// Working hours when a menu does not give any, in minutes from midnight:
// common practice, no source.
const (
	dayOpens    = 6 * 60
	beforeOpens = 8 * 60
	beforeShuts = 21 * 60
	day         = 24 * 60

	// eveningOpens is when an evening's work begins that a cure proposes.
	eveningOpens = 17 * 60

	// early is how long before an early first serving the day begins at least.
	early = 2 * 60

	// lateness is how much later than planned a serving may be before there is
	// no plan at all.
	lateness = 4 * 60
)

// window is a spell of working hours in minutes, half open.
type window struct{ from, to int }

// windows are the hours in which a cook is there, in order and apart; nil with
// always true means that there is no clock. Key is the cook's folded name.
func (d *draft) windows(key string) []window {
	menu := d.meal.Menu
	var out []window
	if len(menu.Hours) == 0 {
		for n := d.daysBefore(); n > 0; n-- {
			out = append(out, window{beforeOpens - n*day, beforeShuts - n*day})
		}
		out = append(out, window{min(dayOpens, d.firstCourse().at-early), d.lastAt() + lateness})
	}
	for _, h := range menu.Hours {
		if len(h.Cooks) == 0 || slices.Contains(h.Cooks, key) {
			out = append(out, window{h.From, h.To})
		}
	}
	if d.set.evening {
		out = append(out, window{eveningOpens - day, beforeShuts - day})
	}
	if w := d.set.more; w.to > w.from {
		out = append(out, w)
	}
	out = joined(sortWindows(out))
	d.set.keep.over(out)
	for i := range out {
		if d.set.earlier > 0 && (out[i].from == d.set.opens || d.set.opens >= 0 && out[i].from >= 0) {
			out[i].from -= d.set.earlier
			break
		}
	}
	return joined(out)
}

func sortWindows(ws []window) []window {
	slices.SortFunc(ws, func(a, b window) int { return a.from - b.from })
	return ws
}

// joined makes one window of those that touch or overlap.
func joined(in []window) (out []window) {
	for _, w := range in {
		if n := len(out); n > 0 && w.from <= out[n-1].to {
			out[n-1].to = max(out[n-1].to, w.to)
			continue
		}
		out = append(out, w)
	}
	return out
}

// night is the time between the last working hours of the days before and the
// first of the serving day. ok is false when no day before has any.
func (d *draft) night() (from, to int, ok bool) {
	for _, w := range d.open {
		switch {
		case w.from < 0 && w.to <= dayOpens:
			from, ok = w.to, true
		case ok && to == 0:
			to = w.from
		}
	}
	return from, to, ok && to > from
}

// spells turns windows into the engine's time, shrunk to whole units.
func (d *draft) spells(ws []window) (out []plan.Span) {
	for _, w := range ws {
		s := plan.Span{From: max(0, ceilDiv(w.from-d.origin, d.grid)), To: floorDiv(w.to-d.origin, d.grid)}
		if s.To > s.From {
			out = append(out, s)
		}
	}
	return out
}

// daysBefore is how many days before the serving day count when the menu gives
// no hours.
func (d *draft) daysBefore() int {
	return d.needDays + d.set.moreDays
}

// ceilDiv and floorDiv divide towards plus and minus infinity; b > 0.
func ceilDiv(a, b int) int { return -floorDiv(-a, b) }

func floorDiv(a, b int) int {
	q := a / b
	if a%b != 0 && a < 0 {
		q--
	}
	return q
}
