package plantext

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"tamis/compiler/resolve"
	"tamis/compiler/timeline"
)

// nextMinutes is how far WriteMoment looks ahead.
const nextMinutes = 30

// WriteMoment writes what should be happening at a moment: who does what, what
// is in which oven at what heat, on the rings, left alone or waiting, and what
// comes in the half hour after. The error is w's.
func WriteMoment(w io.Writer, t *timeline.Timeline, at timeline.Minute) error {
	var b strings.Builder
	b.WriteString(momentTitle(t, at) + "\n\n")
	var rows [][2]string
	add := func(name, text string) { rows = append(rows, [2]string{name, text}) }
	for _, c := range t.Cooks {
		add(c, doing(t, c, at))
	}
	for _, o := range ovens(t) {
		add(timeline.OvenWords(o), ovenAt(t, o, at))
	}
	list := func(name string, jobs []string) {
		for i, j := range jobs {
			if i > 0 {
				name = ""
			}
			add(name, j)
		}
	}
	list("rings", onRings(t, at))
	list("left alone", leftAlone(t, at))
	list("ready", waitingAt(t, at))
	wide := 0
	for _, r := range rows {
		wide = max(wide, len([]rune(r[0])))
	}
	for _, r := range rows {
		b.WriteString("  " + r[0] + strings.Repeat(" ", wide-len([]rune(r[0]))) + "  " + r[1] + "\n")
	}
	b.WriteString(comingUp(t, at))
	_, err := io.WriteString(w, b.String())
	return err
}

// momentTitle is the moment, with how long it is to the next course.
func momentTitle(t *timeline.Timeline, at timeline.Minute) string {
	title := t.TimeText(at)
	if t.Clock {
		title = t.DayName(timeline.FloorDiv(at, timeline.Day)) + ", " + title
	}
	for _, s := range t.Servings {
		if s.Served < at {
			continue
		}
		what := s.Course
		if what == "" {
			what = "serving"
		}
		if s.Served == at {
			return title + ": " + what + " is served"
		}
		return title + ": " + timeline.SpanWords(s.Served-at) + " to " + what
	}
	return title + ": all is served"
}

// doing is what a cook does at a moment.
func doing(t *timeline.Timeline, cook string, at timeline.Minute) string {
	var busy []string
	next := timeline.MaxMinutes
	var nextJob *timeline.Job
	see := func(j *timeline.Job, from, to timeline.Minute, cooks []string, what string) {
		switch {
		case !slices.Contains(cooks, cook):
		case from <= at && at < to:
			busy = append(busy, fmt.Sprintf("%s, until %s", what, t.TimeText(to)))
		case from > at && from < next:
			next, nextJob = from, j
		}
	}
	for _, j := range t.Jobs {
		for _, p := range j.Phases {
			what := j.Said()
			if p.Kind == resolve.Watch {
				what = "watches " + what
			}
			see(j, p.Start, p.End, p.Cooks, what)
		}
		for _, p := range j.Touches {
			what := "sees to " + j.Said()
			if p.Swap {
				what = j.Said()
			}
			if p.Text != "" {
				what = fmt.Sprintf("%s: %s", j.Said(), p.Text)
			}
			see(j, p.Start, p.End, p.Cooks, what)
		}
	}
	switch in, back := isIn(t, cook, at); {
	case len(busy) > 0:
		return strings.Join(busy, "; ")
	case !in && back > at:
		return "not there until " + t.OnDay(back, timeline.FloorDiv(back, timeline.Day) != timeline.FloorDiv(at, timeline.Day))
	case !in:
		return "gone for the day"
	case nextJob != nil && (timeline.FloorDiv(next, timeline.Day) == timeline.FloorDiv(at, timeline.Day) || !t.Clock):
		return fmt.Sprintf("free until %s, then %s", t.TimeText(next), nextJob.Said())
	}
	return "free: nothing more to do"
}

// isIn tells whether a cook is there by the menu's hours; if not, when next.
func isIn(t *timeline.Timeline, cook string, at timeline.Minute) (in bool, back timeline.Minute) {
	if t.Hours == nil {
		return true, 0
	}
	for _, h := range t.Hours[cook] {
		if h.From <= at && at < h.To {
			return true, 0
		}
		if h.From > at {
			return false, h.From
		}
	}
	return false, at
}

// ovens lists the ovens the plan uses.
func ovens(t *timeline.Timeline) (out []string) {
	for _, h := range t.Heats {
		if !slices.Contains(out, h.Oven) {
			out = append(out, h.Oven)
		}
	}
	slices.Sort(out)
	return out
}

// ovenAt is an oven's heat and what is in it.
func ovenAt(t *timeline.Timeline, name string, at timeline.Minute) string {
	heat := "off"
	for _, h := range t.Heats {
		if h.Oven != name || at < h.Preheat || at >= h.End {
			continue
		}
		heat = t.Setting(h)
		if at < h.Start {
			heat = "heating to " + heat + ", for " + t.TimeText(h.Start)
		}
	}
	var in []string
	for _, j := range t.Jobs {
		if from, to := inOven(j); j.Oven == name && from <= at && at < to {
			in = append(in, fmt.Sprintf("%s, until %s", j.Said(), t.OnDay(to, timeline.FloorDiv(to, timeline.Day) != timeline.FloorDiv(at, timeline.Day))))
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

// inOven is when a job is in its oven: from the end of its work.
func inOven(j *timeline.Job) (from, to timeline.Minute) {
	from = j.Start()
	for _, p := range j.Phases {
		if p.Kind != resolve.Work {
			return p.Start, j.End()
		}
	}
	return from, j.End()
}

func onRings(t *timeline.Timeline, at timeline.Minute) (out []string) {
	for _, j := range t.Jobs {
		if j.Rings == 0 || at < j.Start() || at >= j.End() {
			continue
		}
		what := j.Said()
		if l := j.Level(); l != "" {
			what += ", " + l
		}
		if j.Vessel != "" {
			what += ", " + j.Vessel
		}
		out = append(out, fmt.Sprintf("%s, until %s", what, t.TimeText(j.End())))
	}
	return out
}

// leftAlone lists what rests, chills or soaks, in neither oven nor pan.
func leftAlone(t *timeline.Timeline, at timeline.Minute) (out []string) {
	for _, j := range t.Jobs {
		if j.Oven != "" || j.Rings > 0 {
			continue
		}
		for _, p := range j.Phases {
			if p.Kind != resolve.Leave || at < p.Start || at >= p.End {
				continue
			}
			what := j.Said()
			if p.Place != "" {
				what += ", " + p.Place
			}
			out = append(out, fmt.Sprintf("%s, until %s", what, t.OnDay(p.End, timeline.FloorDiv(p.End, timeline.Day) != timeline.FloorDiv(at, timeline.Day))))
		}
	}
	return out
}

// waitingAt lists what is done and waits for its use.
func waitingAt(t *timeline.Timeline, at timeline.Minute) (out []string) {
	for _, j := range t.Jobs {
		if to := j.End() + j.Waits; j.End() <= at && at < to {
			out = append(out, fmt.Sprintf("%s, wanted at %s", j.Said(), t.OnDay(to, timeline.FloorDiv(to, timeline.Day) != timeline.FloorDiv(at, timeline.Day))))
		}
	}
	return out
}

// comingUp is the part of the run sheet that comes next.
func comingUp(t *timeline.Timeline, at timeline.Minute) string {
	var lines []entry
	for _, e := range entries(t) {
		if e.at > at && e.at <= at+nextMinutes {
			lines = append(lines, e)
		}
	}
	if len(lines) == 0 {
		for _, e := range entries(t) {
			if e.at > at {
				return fmt.Sprintf("\nNothing begins in the next %d minutes; the next is at %s.\n", nextMinutes, t.OnDay(e.at, timeline.FloorDiv(e.at, timeline.Day) != timeline.FloorDiv(at, timeline.Day)))
			}
		}
		return "\nNothing comes after this.\n"
	}
	return fmt.Sprintf("\nIn the next %d minutes\n", nextMinutes) + strings.Join(rowsOf(lines), "")
}
