package quantity

import "time"

// Wall is the clock on the wall of a kitchen, which is put forward in one night
// of the year and back in another. Minutes that pass are counted from the
// midnight that the clock would have shown before the meal if nobody had touched
// it; what it shows is counted from the midnight at which the day of the meal
// begins. In most plans the two are the same, and a nil Wall says so.
type Wall struct {
	zone  *time.Location
	serve time.Time // when the meal is, and
	at    int       // what the clock shows then
	y     int
	mon   time.Month
	d     int
}

// WallOf is the clock of a zone around a meal, whose date and time of day are
// those of serve, whatever its own zone. It is nil without a zone, and for an
// hour that the clock never shows.
func WallOf(serve time.Time, zone *time.Location) *Wall {
	if zone == nil {
		return nil
	}
	w := &Wall{zone: zone, at: serve.Hour()*60 + serve.Minute()}
	w.y, w.mon, w.d = serve.Date()
	first, _, ok := w.instants(w.at)
	if !ok {
		return nil
	}
	w.serve = first
	return w
}

// Shown is what the clock shows when so many minutes have passed.
func (w *Wall) Shown(m int) int {
	if w == nil {
		return m
	}
	return w.shown(w.Instant(m))
}

func (w *Wall) shown(t time.Time) int {
	y, mon, d := t.Date()
	days := time.Date(y, mon, d, 0, 0, 0, 0, time.UTC).Sub(time.Date(w.y, w.mon, w.d, 0, 0, 0, 0, time.UTC))
	return int(days/time.Minute) + t.Hour()*60 + t.Minute()
}

// Instant is the moment itself.
func (w *Wall) Instant(m int) time.Time {
	return w.serve.Add(time.Duration(m-w.at) * time.Minute).In(w.zone)
}

// Passed is how many minutes have passed when the clock shows a time; of one that
// it shows twice, both times. It is not ok for one that it never shows, and gives
// the moment at which the clock leaps over it.
func (w *Wall) Passed(shown int) (first, last int, ok bool) {
	if w == nil {
		return shown, shown, true
	}
	a, b, ok := w.instants(shown)
	since := func(t time.Time) int { return w.at + int(t.Sub(w.serve)/time.Minute) }
	return since(a), since(b), ok
}

// instants are the moments at which the clock shows a time: one, or two, or,
// not ok, the change that leaps over it.
func (w *Wall) instants(shown int) (first, last time.Time, ok bool) {
	plain := time.Date(w.y, w.mon, w.d, 0, shown, 0, 0, time.UTC)
	got := time.Date(w.y, w.mon, w.d, 0, shown, 0, 0, w.zone)
	begins, ends := got.ZoneBounds()
	if w.shown(got) != shown { // got is off by the leap, on one side of it or the other
		if ends.IsZero() || !begins.IsZero() && got.Sub(begins) < ends.Sub(got) {
			return begins, begins, false
		}
		return ends, ends, false
	}
	first, last = got, got
	see := func(beside time.Time) { // the same time by the offset on the other side of a change
		_, offset := beside.Zone()
		t := plain.Add(-time.Duration(offset) * time.Second).In(w.zone)
		if w.shown(t) != shown {
			return
		}
		if t.Before(first) {
			first = t
		}
		if t.After(last) {
			last = t
		}
	}
	if !begins.IsZero() {
		see(begins.Add(-time.Minute))
	}
	if !ends.IsZero() {
		see(ends)
	}
	return first, last, true
}

// Change is a moment at which the clock is put forward, or back: By is below 0.
type Change struct{ At, By int }

// Changes are those after from and not after to, in order; both are minutes that
// passed.
func (w *Wall) Changes(from, to int) (out []Change) {
	if w == nil {
		return nil
	}
	for t := w.Instant(from); len(out) < 100; {
		_, ends := t.ZoneBounds()
		at := w.at + int(ends.Sub(w.serve)/time.Minute)
		if ends.IsZero() || at > to {
			return out
		}
		if by := w.Shown(at) - w.Shown(at-1) - 1; by != 0 {
			out = append(out, Change{At: at, By: by})
		}
		t = ends
	}
	return out
}
