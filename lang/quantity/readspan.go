package quantity

import (
	"strconv"
	"strings"
	"time"
)

// Lengths of the units of time.
const (
	day  = 24 * time.Hour
	week = 7 * day
	// A month is counted as thirty days.
	month = 30 * day

	// longest is a bound for mistakes: nothing in a kitchen takes six years.
	longest = 6 * 365 * day
)

// OvernightLow and OvernightHigh are the ends of "overnight". Common practice,
// no source.
const (
	OvernightLow  = 8 * time.Hour
	OvernightHigh = 14 * time.Hour
)

var timeUnits = map[string]time.Duration{
	"s": time.Second, "sec": time.Second, "secs": time.Second, "second": time.Second, "seconds": time.Second,
	"min": time.Minute, "mins": time.Minute, "minute": time.Minute, "minutes": time.Minute,
	"h": time.Hour, "hr": time.Hour, "hrs": time.Hour, "hour": time.Hour, "hours": time.Hour,
	"day": day, "days": day, "week": week, "weeks": week, "month": month, "months": month,
	"year": 12 * month, "years": 12 * month, // 12 months, so that it is printed so
}

// ReadSpan reads a length of time at the start of text: 40 min, 35 to 40 min,
// 1 h 20 min, about 2 h, at least 2 h, overnight, 3 days to 8 weeks, 2 h, up
// to 1 day. n is how many bytes it took, 0 if there is none. A span is kept
// in whole seconds.
func ReadSpan(text string, opt Options) (v Span, n int, problems []Problem) {
	r := reader{s: text, opt: opt}
	v, end, ok := r.span(r.blanks(0))
	if !ok {
		return Span{}, 0, r.probs
	}
	return v, end, r.probs
}

func (r *reader) span(i int) (Span, int, bool) {
	if j, ok := r.word(i, "overnight"); ok {
		return Span{Low: OvernightLow, High: OvernightHigh, Overnight: true}, j, true
	}
	var s Span
	k := i
	if j, ok := r.word(i, "at"); ok {
		e, ok := r.word(r.blanks(j), "least")
		if !ok {
			return Span{}, i, false
		}
		s.AtLeast, k = true, r.blanks(e)
	} else if _, j, ok := r.oneOf(i, "about", "say"); ok {
		s.About, k = true, r.blanks(j)
	}
	if !r.startsNumber(k) && r.byteAt(k) != '.' {
		return Span{}, i, false
	}
	low, high, end, ok := r.times2(k)
	if !ok {
		return Span{}, i, false
	}
	s.Low, s.High = low, high
	if s.AtLeast {
		s.High = s.Low
		return s, end, true
	}
	return r.upTo(i, s, end)
}

// upTo reads ", up to 1 day" after a time.
func (r *reader) upTo(i int, s Span, end int) (Span, int, bool) {
	if r.byteAt(r.blanks(end)) != ',' {
		return s, end, true
	}
	j, ok := r.word(r.blanks(r.blanks(end)+1), "up")
	if !ok {
		return s, end, true
	}
	if j, ok = r.word(r.blanks(j), "to"); !ok {
		return s, end, true
	}
	mark := len(r.probs)
	_, most, e, ok := r.times2(r.blanks(j))
	if !ok {
		r.forget(mark)
		return s, end, true
	}
	if most <= s.High {
		r.problem(CodeSpanUpTo, i, e, "`up to` gives the longest time, and "+spanText(most)+" is not longer than "+spanText(s.High),
			"write the shorter time first: `2 h, up to 1 day`", "")
		return s, e, true
	}
	s.UpTo = most
	return s, e, true
}

// times2 reads one time or a range of times.
func (r *reader) times2(i int) (low, high time.Duration, end int, ok bool) {
	v, j, ok := r.rng(i)
	if !ok {
		return 0, 0, i, false
	}
	unit, e, ok := r.timeUnit(j)
	if !ok {
		return r.bareTime(i, v, j)
	}
	low, ok1 := spanOf(v.Low, unit)
	high, ok2 := spanOf(v.High, unit)
	if !ok1 || !ok2 {
		r.problem(CodeSpanLong, i, e, "this is longer than anything in a kitchen takes", "", "")
		return 0, 0, i, false
	}
	if !v.IsRange() {
		low, e, ok = r.moreTime(i, low, unit, e)
		high = low
		if !ok {
			return 0, 0, i, false
		}
		if h, he, found := r.laterTime(i, low, e); found {
			return min(low, h), max(low, h), he, true
		}
	}
	return low, high, e, true
}

// moreTime reads the smaller units of a compound: the 20 min of 1 h 20 min.
func (r *reader) moreTime(i int, sum, unit time.Duration, end int) (time.Duration, int, bool) {
	for {
		k := r.blanks(end)
		if !r.startsNumber(k) {
			return sum, end, true
		}
		mark := len(r.probs)
		v, j, ok := r.number(k)
		var next time.Duration
		e := j
		if ok {
			next, e, ok = r.timeUnit(j)
		}
		if !ok && unit == time.Hour && j > k && v.IsInt() && v.Less(Int(60)) && r.ends1h20(j) {
			// 1h20: minutes without their unit.
			min, _ := v.Int64()
			sum += time.Duration(min) * time.Minute
			r.problem(CodeSpanUnit, i, j, r.s[k:j]+" what?", "write `"+spanText(sum)+"`", spanText(sum))
			return sum, j, true
		}
		if !ok {
			r.forget(mark)
			return sum, end, true
		}
		d, ok := spanOf(v, next)
		if !ok || sum+d > longest {
			r.problem(CodeSpanLong, i, e, "this is longer than anything in a kitchen takes", "", "")
			return 0, i, false
		}
		sum += d
		if next >= unit {
			r.problem(CodeSpanOrder, i, e, "the longer unit comes first", "write `"+spanText(sum)+"`", spanText(sum))
		}
		unit, end = next, e
	}
}

// laterTime reads the second end of "3 days to 8 weeks".
func (r *reader) laterTime(i int, low time.Duration, end int) (time.Duration, int, bool) {
	k := r.blanks(end)
	c, n := r.runeAt(k)
	j, ok := r.word(k, "to")
	dash := c == '-' || c == '–'
	if dash {
		j, ok = k+n, true
	}
	if !ok || !dash && k == end {
		return 0, end, false
	}
	mark := len(r.probs)
	v, j, ok := r.number(r.blanks(j))
	if !ok {
		r.forget(mark)
		return 0, end, false
	}
	unit, e, ok := r.timeUnit(j)
	if !ok {
		r.forget(mark)
		return 0, end, false
	}
	high, ok := spanOf(v, unit)
	if !ok {
		r.problem(CodeSpanLong, i, e, "this is longer than anything in a kitchen takes", "", "")
		return low, e, true
	}
	if high, e, ok = r.moreTime(i, high, unit, e); !ok {
		return low, e, true
	}
	if high <= low {
		right := spanText(high) + " to " + spanText(low)
		r.problem(CodeSpanRises, i, e, "a range of times must rise", "write `"+right+"`", right)
	}
	return high, e, true
}

// bareTime complains of "leave 40".
func (r *reader) bareTime(i int, v Range, j int) (time.Duration, time.Duration, int, bool) {
	c, n := r.runeAt(j)
	if n > 0 && !isBlank(c) && c != ',' && c != '|' && c != ')' {
		return 0, 0, i, false
	}
	k := r.blanks(j)
	if w := r.wordEnd(k); w > k {
		if word := r.s[k:w]; word != "m" && word != "M" && word != "H" {
			return 0, 0, i, false
		}
		right := r.s[i:j] + " min"
		r.problem(CodeSpanUnit, i, w, "`"+r.s[k:w]+"` is no unit of time", "write `"+right+"`", right)
		d, ok1 := spanOf(v.Low, time.Minute)
		h, ok2 := spanOf(v.High, time.Minute)
		return d, h, w, ok1 && ok2
	}
	r.problem(CodeSpanUnit, i, j, r.s[i:j]+" what?", "write `"+r.s[i:j]+" min` or `"+r.s[i:j]+" h`", "")
	return 0, 0, i, false
}

// ends1h20 tells whether nothing follows that the figures could belong to.
func (r *reader) ends1h20(j int) bool {
	c, n := r.runeAt(r.blanks(j))
	return n == 0 || c == ',' || c == '|'
}

func (r *reader) timeUnit(j int) (time.Duration, int, bool) {
	k := r.blanks(j)
	e := r.wordEnd(k)
	if e == k || e-k > 8 {
		return 0, j, false
	}
	u, ok := timeUnits[r.s[k:e]]
	if !ok {
		u, ok = timeUnits[strings.ToLower(r.s[k:e])]
	}
	if !ok || !r.timeEnd(e) {
		return 0, j, false
	}
	if r.byteAt(e) == '.' && !r.opt.Prose && e+1 < len(r.s) {
		e++
	}
	return u, e, true
}

// timeEnd is atEnd, but figures may follow (1h20min).
func (r *reader) timeEnd(e int) bool { return isDigit(r.byteAt(e)) || r.atEnd(e) }

// spanOf is n units, to the nearest second.
func spanOf(n Number, unit time.Duration) (time.Duration, bool) {
	secs := n.Mul(Int(int64(unit / time.Second))).Add(Frac(1, 2)).Floor()
	v, ok := secs.Int64()
	if !ok || v > int64(longest/time.Second) {
		return 0, false
	}
	return time.Duration(v) * time.Second, true
}

// String is the formatter's text: "40 min", "35 to 40 min", "1 h 20 min",
// "about 2 h", "at least 2 h", "overnight", "2 h, up to 1 day".
func (s Span) String() string {
	if s.Overnight {
		return "overnight"
	}
	var b strings.Builder
	switch {
	case s.AtLeast:
		b.WriteString("at least ")
	case s.About:
		b.WriteString("about ")
	}
	b.WriteString(rangeText(s.Low, s.High))
	if s.UpTo > s.High {
		b.WriteString(", up to " + spanText(s.UpTo))
	}
	return b.String()
}

func rangeText(low, high time.Duration) string {
	if low == high {
		return spanText(low)
	}
	a, ua, oka := oneUnit(low)
	b, ub, okb := oneUnit(high)
	if oka && okb && ua == ub {
		return a + " to " + b + " " + plural(ua, high)
	}
	return spanText(low) + " to " + spanText(high)
}

// oneUnit is a span in a single unit, if spanText would write it so.
func oneUnit(d time.Duration) (figure string, unit time.Duration, ok bool) {
	switch {
	case d > 0 && d%month == 0 && d >= 2*month:
		unit = month
	case d > 0 && d%week == 0 && d >= 2*week:
		unit = week
	case d > 0 && d%day == 0:
		unit = day
	case d > 0 && d%time.Hour == 0 && d < 3*day:
		unit = time.Hour
	case d < time.Hour && d%time.Minute == 0:
		unit = time.Minute
	case d < time.Minute:
		unit = time.Second
	default:
		return "", 0, false
	}
	return strconv.FormatInt(int64(d/unit), 10), unit, true
}

func plural(unit, d time.Duration) string {
	many := d > unit
	switch unit {
	case month:
		return "months"
	case week:
		if many {
			return "weeks"
		}
		return "week"
	case day:
		if many {
			return "days"
		}
		return "day"
	case time.Hour:
		return "h"
	case time.Minute:
		return "min"
	}
	return "s"
}

// TimeText is a length of time in print, exact to the second: "40 min", "1 h 20 min",
// "59 h", "2 days", "3 days 12 h". It is the one way in which every message and
// page says how long something takes, and reads back as the same length. What is
// not longer than nothing is "0 min".
func TimeText(d time.Duration) string { return spanText(max(0, d)) }

// DayText says how far a day lies from another: "the day", "the day before", "3 days
// before", "2 days after". It is the one way in which messages and pages say it.
func DayText(n int) string {
	switch {
	case n == 0:
		return "the day"
	case n == -1:
		return "the day before"
	case n < 0:
		return strconv.Itoa(-n) + " days before"
	case n == 1:
		return "the day after"
	}
	return strconv.Itoa(n) + " days after"
}

// TimeRangeText is a range of lengths in print: "35 to 40 min", "20 min to 1 h 10 min";
// one length where both ends are the same.
func TimeRangeText(low, high time.Duration) string { return rangeText(max(0, low), max(0, high)) }

func spanText(d time.Duration) string {
	d = d.Round(time.Second)
	if n, u, ok := oneUnit(d); ok {
		return n + " " + plural(u, d)
	}
	var parts []string
	for _, u := range []time.Duration{day, time.Hour, time.Minute, time.Second} {
		if u == day && d < 3*day {
			continue
		}
		if n := d / u; n > 0 {
			parts = append(parts, strconv.FormatInt(int64(n), 10)+" "+plural(u, n*u))
			d -= n * u
		}
	}
	return strings.Join(parts, " ")
}
