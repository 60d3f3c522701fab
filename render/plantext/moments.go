package plantext

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"tamis/compiler/events"
)

// nextMinutes is how far WriteMoment looks ahead.
const nextMinutes = 30

// WriteMoment writes what should be happening at a moment: who does what, what
// is in which oven at what heat, on the rings, left alone or waiting, and what
// comes in the half hour after. The error is w's.
func WriteMoment(w io.Writer, l *events.List, at events.Moment) error {
	var b strings.Builder
	b.WriteString(momentTitle(l, at) + "\n\n")
	var rows [][2]string
	add := func(name, text string) { rows = append(rows, [2]string{name, text}) }
	for _, c := range l.Cooks {
		add(c, doing(l, c, at))
	}
	for _, o := range l.Ovens {
		add(strings.Join(events.Place{Oven: o}.Words(), ""), ovenAt(l, o, at))
	}
	list := func(name string, jobs []string) {
		for i, j := range jobs {
			if i > 0 {
				name = ""
			}
			add(name, j)
		}
	}
	list("rings", onRings(l, at))
	list("left alone", leftAlone(l, at))
	list("ready", waitingAt(l, at))
	wide := 0
	for _, r := range rows {
		wide = max(wide, len([]rune(r[0])))
	}
	for _, r := range rows {
		b.WriteString("  " + r[0] + strings.Repeat(" ", wide-len([]rune(r[0]))) + "  " + r[1] + "\n")
	}
	b.WriteString(comingUp(l, at))
	_, err := io.WriteString(w, b.String())
	return err
}

// momentTitle is the moment, with how long it is to the next course.
func momentTitle(l *events.List, at events.Moment) string {
	title := l.Clock(at)
	if l.Clocked() {
		title = l.DayName(l.Day(at)) + ", " + title
	}
	for _, s := range l.Each(events.Serve) {
		if s.Start < at {
			continue
		}
		what := s.Course
		if what == "" {
			what = "serving"
		}
		if s.Start == at {
			return title + ": " + what + " is served"
		}
		return title + ": " + s.Start.Since(at).Words() + " to " + what
	}
	return title + ": all is served"
}

// doing is what a cook does at a moment.
func doing(l *events.List, cook string, at events.Moment) string {
	var busy []string
	var next events.Moment
	nextWhat := ""
	see := func(then string, from, to events.Moment, cooks []string, what string) {
		switch {
		case !slices.Contains(cooks, cook):
		case from <= at && at < to:
			busy = append(busy, fmt.Sprintf("%s, until %s", what, l.Clock(to)))
		case from > at && (nextWhat == "" || from < next):
			next, nextWhat = from, then
		}
	}
	for _, e := range l.Events {
		for _, p := range e.Phases {
			what := e.Said()
			if p.Watched() {
				what = "watches " + what
			}
			see(e.Said(), p.Start, p.End, p.Who, what)
		}
		see(e.Said(), e.At, e.At.Add(1), e.PutBy, e.Said())
		switch {
		case e.Kind == events.Out:
			what := events.Small(e.Words) + ": " + e.Said()
			see(what, e.Start.Add(-1), e.Start, e.Who, what)
			continue
		case e.Kind != events.Touch || e.Then: // a phase of its job is done already
			continue
		}
		what := "sees to " + e.Said()
		switch {
		case e.Text != "":
			what = fmt.Sprintf("%s: %s", e.Said(), e.Text)
		case e.Swap:
			what = e.Said()
		}
		see(e.Said(), e.Start, e.End, e.Who, what)
	}
	switch in, back := isIn(l, cook, at); {
	case len(busy) > 0:
		return strings.Join(busy, "; ")
	case !in && back > at:
		return "not there until " + l.ClockFrom(at, back)
	case !in:
		return "gone for the day"
	case nextWhat != "" && (l.Day(next) == l.Day(at) || !l.Clocked()):
		return fmt.Sprintf("free until %s, then %s", l.Clock(next), nextWhat)
	}
	return "free: nothing more to do"
}

// isIn tells whether a cook is there by the menu's hours; if not, when next.
func isIn(l *events.List, cook string, at events.Moment) (in bool, back events.Moment) {
	if l.Hours == nil {
		return true, 0
	}
	for _, h := range l.Hours[cook] {
		if h.From <= at && at < h.To {
			return true, 0
		}
		if h.From > at {
			return false, h.From
		}
	}
	return false, at
}

// ovenAt is an oven's heat and what is in it.
func ovenAt(l *events.List, name string, at events.Moment) string {
	heat := "off"
	for _, h := range l.Each(events.Heat) {
		if h.Where.Oven != name || at < h.Start || at >= h.Setting.Until {
			continue
		}
		heat = h.Setting.Words
		if at < h.End {
			heat = "heating to " + heat + ", for " + l.Clock(h.End)
		}
	}
	var in []string
	for _, e := range l.Each(events.In) {
		if e.Where.Oven == name && e.Start <= at && at < e.End {
			in = append(in, fmt.Sprintf("%s, until %s", e.Said(), l.ClockFrom(at, e.End)))
		}
	}
	if len(in) == 0 {
		if heat == "off" {
			return "off"
		}
		return heat + ": empty"
	}
	return heat + ": " + strings.Join(in, "; ")
}

// onRings lists what stands on the rings.
func onRings(l *events.List, at events.Moment) (out []string) {
	for _, e := range l.Each(events.In) {
		if e.Where.Rings == 0 || at < e.Start || at >= e.End {
			continue
		}
		what := e.Said()
		if e.Where.Level != "" {
			what += ", " + e.Where.Level
		}
		if e.Where.Vessel != "" {
			what += ", " + e.Where.Vessel
		}
		out = append(out, fmt.Sprintf("%s, until %s", what, l.Clock(e.End)))
	}
	return out
}

// leftAlone lists what rests, chills or soaks, in neither oven nor pan.
func leftAlone(l *events.List, at events.Moment) (out []string) {
	for _, e := range l.Each(events.Job) {
		if e.Where.Oven != "" || e.Where.Rings > 0 {
			continue
		}
		for _, p := range e.Phases {
			if !p.Left() || at < p.Start || at >= p.End {
				continue
			}
			what := e.Said()
			if p.Place != "" {
				what += ", " + p.Place
			}
			out = append(out, fmt.Sprintf("%s, until %s", what, l.ClockFrom(at, p.End)))
		}
	}
	return out
}

// waitingAt lists what is done and waits for its use.
func waitingAt(l *events.List, at events.Moment) (out []string) {
	for _, e := range l.Each(events.Job) {
		if to := e.End.Add(e.Waits); e.End <= at && at < to {
			out = append(out, fmt.Sprintf("%s, wanted at %s", e.Said(), l.ClockFrom(at, to)))
		}
	}
	return out
}

// comingUp is the part of the run sheet that comes next.
func comingUp(l *events.List, at events.Moment) string {
	var lines []entry
	for _, e := range entries(l, 1) {
		if e.At > at {
			lines = append(lines, e)
		}
	}
	if len(lines) == 0 {
		return "\nNothing comes after this.\n"
	}
	soon := slices.IndexFunc(lines, func(e entry) bool { return e.At > at.Add(nextMinutes) })
	switch {
	case soon == 0:
		return fmt.Sprintf("\nNothing begins in the next %d minutes; the next is at %s.\n", nextMinutes, l.ClockFrom(at, lines[0].At))
	case soon > 0:
		lines = lines[:soon]
	}
	return fmt.Sprintf("\nIn the next %d minutes\n", nextMinutes) + strings.Join(rowsOf(lines), "")
}
