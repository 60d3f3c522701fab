package events

import (
	"slices"
	"strings"

	"tamis/compiler/resolve"
)

// shiftEnds is how long nobody works between one shift and the next, in minutes: common
// practice, no source.
const shiftEnds = 6 * 60

// stint is a stretch of a cook's work.
type stint struct {
	who      string
	from, to Moment
}

// Calls are the call times, a line for each shift: when each cook is first wanted, in
// order, and of a shift before the last when its work is done. Work that goes on past
// midnight is of the day on which its shift began.
func (l *List) Calls() (out []string) {
	shifts := l.shifts()
	for i, shift := range shifts {
		var calls, called []string
		done := shift[0].to
		for _, s := range shift {
			if done = max(done, s.to); !slices.Contains(called, s.who) {
				called = append(called, s.who)
				calls = append(calls, s.who+" "+l.Clock(s.from))
			}
		}
		line := "Call times"
		if day := l.DayName(l.Day(shift[0].from)); len(shifts) > 1 && day != "" {
			line += ", " + day
		}
		line += ": " + strings.Join(calls, ", ")
		if i < len(shifts)-1 {
			line += "; done by " + l.ClockFrom(shift[0].from, done)
		}
		out = append(out, line+".")
	}
	return out
}

// shifts are the stints of each shift, in order: a new one begins on another day, when
// nobody has worked for long.
func (l *List) shifts() (out [][]stint) {
	all := l.stints()
	order := func(c string) int { return slices.Index(l.Cooks, c) }
	slices.SortStableFunc(all, func(a, b stint) int {
		if a.from != b.from {
			return int(a.from - b.from)
		}
		return order(a.who) - order(b.who)
	})
	var until Moment
	for _, s := range all {
		if n := len(out); n == 0 || l.Day(s.from) != l.Day(out[n-1][0].from) && s.from.Since(until) >= shiftEnds {
			out, until = append(out, nil), s.to
		}
		out[len(out)-1] = append(out[len(out)-1], s)
		until = max(until, s.to)
	}
	return out
}

func (l *List) stints() (out []stint) {
	add := func(who []string, from, to Moment) {
		for _, c := range who {
			out = append(out, stint{c, from, to})
		}
	}
	for _, e := range l.Events {
		switch e.Kind {
		case Job:
			for _, p := range e.Phases {
				if p.Kind != resolve.Leave {
					add(p.Who, p.Start, p.End)
				}
			}
		case Touch:
			add(e.Who, e.Start, e.End)
		case In, Out, Heat, Off, Serve:
			add(e.Who, e.Start, e.Start)
		}
	}
	return out
}
