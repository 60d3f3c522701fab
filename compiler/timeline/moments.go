package timeline

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"tamis/compiler/larder"
	"tamis/compiler/resolve"
)

// nextMinutes is how far WriteMoment looks ahead.
const nextMinutes = 30

// WriteMoment writes what should be happening at a moment: who does what, what
// is in which oven at what heat, on the rings, left alone or waiting, and what
// comes in the half hour after. The error is w's.
func WriteMoment(w io.Writer, t *Timeline, at Minute) error {
	var b strings.Builder
	b.WriteString(t.momentTitle(at) + "\n\n")
	var rows [][2]string
	add := func(name, text string) { rows = append(rows, [2]string{name, text}) }
	for _, c := range t.Cooks {
		add(c, t.doing(c, at))
	}
	for _, o := range t.ovens() {
		add(ovenWords(o), t.ovenAt(o, at))
	}
	list := func(name string, jobs []string) {
		for i, j := range jobs {
			if i > 0 {
				name = ""
			}
			add(name, j)
		}
	}
	list("rings", t.onRings(at))
	list("left alone", t.leftAlone(at))
	list("ready", t.waitingAt(at))
	wide := 0
	for _, r := range rows {
		wide = max(wide, len([]rune(r[0])))
	}
	for _, r := range rows {
		b.WriteString("  " + r[0] + strings.Repeat(" ", wide-len([]rune(r[0]))) + "  " + r[1] + "\n")
	}
	b.WriteString(t.comingUp(at))
	_, err := io.WriteString(w, b.String())
	return err
}

// momentTitle is the moment, with how long it is to the next course.
func (t *Timeline) momentTitle(at Minute) string {
	title := t.clock(at)
	if t.Clock {
		title = t.dayName(floorDiv(at, day)) + ", " + title
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
		return title + ": " + spanWords(s.Served-at) + " to " + what
	}
	return title + ": all is served"
}

// doing is what a cook does at a moment.
func (t *Timeline) doing(cook string, at Minute) string {
	var busy []string
	next := maxMinutes
	var nextJob *Job
	see := func(j *Job, from, to Minute, cooks []string, what string) {
		switch {
		case !slices.Contains(cooks, cook):
		case from <= at && at < to:
			busy = append(busy, fmt.Sprintf("%s, until %s", what, t.clock(to)))
		case from > at && from < next:
			next, nextJob = from, j
		}
	}
	for _, j := range t.Jobs {
		for _, p := range j.Phases {
			what := j.said()
			if p.Kind == resolve.Watch {
				what = "watches " + what
			}
			see(j, p.Start, p.End, p.Cooks, what)
		}
		for _, p := range j.Touches {
			what := "sees to " + j.said()
			if p.Swap {
				what = j.said()
			}
			if p.Text != "" {
				what = fmt.Sprintf("%s: %s", j.said(), p.Text)
			}
			see(j, p.Start, p.End, p.Cooks, what)
		}
	}
	switch in, back := t.isIn(cook, at); {
	case len(busy) > 0:
		return strings.Join(busy, "; ")
	case !in && back > at:
		return "not there until " + t.onDay(back, floorDiv(back, day) != floorDiv(at, day))
	case !in:
		return "gone for the day"
	case nextJob != nil && (floorDiv(next, day) == floorDiv(at, day) || !t.Clock):
		return fmt.Sprintf("free until %s, then %s", t.clock(next), nextJob.said())
	}
	return "free: nothing more to do"
}

// isIn tells whether a cook is there by the menu's hours; if not, when next.
func (t *Timeline) isIn(cook string, at Minute) (in bool, back Minute) {
	if !t.Clock || len(t.Meal.Menu.Hours) == 0 {
		return true, 0
	}
	for _, h := range sortWindows(t.from.draft.windows(larder.Fold(cook))) {
		if h.from <= at && at < h.to {
			return true, 0
		}
		if h.from > at {
			return false, h.from
		}
	}
	return false, at
}

// ovens lists the ovens the plan uses.
func (t *Timeline) ovens() (out []string) {
	for _, h := range t.Heats {
		if !slices.Contains(out, h.Oven) {
			out = append(out, h.Oven)
		}
	}
	slices.Sort(out)
	return out
}

// ovenAt is an oven's heat and what is in it.
func (t *Timeline) ovenAt(name string, at Minute) string {
	heat := "off"
	for _, h := range t.Heats {
		if h.Oven != name || at < h.Preheat || at >= h.End {
			continue
		}
		heat = t.setting(h)
		if at < h.Start {
			heat = "heating to " + heat + ", for " + t.clock(h.Start)
		}
	}
	var in []string
	for _, j := range t.Jobs {
		if from, to := j.inOven(); j.Oven == name && from <= at && at < to {
			in = append(in, fmt.Sprintf("%s, until %s", j.said(), t.onDay(to, floorDiv(to, day) != floorDiv(at, day))))
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
func (j *Job) inOven() (from, to Minute) {
	from = j.Start()
	for _, p := range j.Phases {
		if p.Kind != resolve.Work {
			return p.Start, j.End()
		}
	}
	return from, j.End()
}

func (t *Timeline) onRings(at Minute) (out []string) {
	for _, j := range t.Jobs {
		if j.Rings == 0 || at < j.Start() || at >= j.End() {
			continue
		}
		what := j.said()
		if l := j.level(); l != "" {
			what += ", " + l
		}
		if j.Vessel != "" {
			what += ", " + j.Vessel
		}
		out = append(out, fmt.Sprintf("%s, until %s", what, t.clock(j.End())))
	}
	return out
}

// leftAlone lists what rests, chills or soaks, in neither oven nor pan.
func (t *Timeline) leftAlone(at Minute) (out []string) {
	for _, j := range t.Jobs {
		if j.Oven != "" || j.Rings > 0 {
			continue
		}
		for _, p := range j.Phases {
			if p.Kind != resolve.Leave || at < p.Start || at >= p.End {
				continue
			}
			what := j.said()
			if p.Place != "" {
				what += ", " + p.Place
			}
			out = append(out, fmt.Sprintf("%s, until %s", what, t.onDay(p.End, floorDiv(p.End, day) != floorDiv(at, day))))
		}
	}
	return out
}

// waitingAt lists what is done and waits for its use.
func (t *Timeline) waitingAt(at Minute) (out []string) {
	for _, j := range t.Jobs {
		if to := j.End() + j.Waits; j.End() <= at && at < to {
			out = append(out, fmt.Sprintf("%s, wanted at %s", j.said(), t.onDay(to, floorDiv(to, day) != floorDiv(at, day))))
		}
	}
	return out
}

// comingUp is the part of the run sheet that comes next.
func (t *Timeline) comingUp(at Minute) string {
	var lines []entry
	for _, e := range t.entries() {
		if e.at > at && e.at <= at+nextMinutes {
			lines = append(lines, e)
		}
	}
	if len(lines) == 0 {
		for _, e := range t.entries() {
			if e.at > at {
				return fmt.Sprintf("\nNothing begins in the next %d minutes; the next is at %s.\n", nextMinutes, t.onDay(e.at, floorDiv(e.at, day) != floorDiv(at, day)))
			}
		}
		return "\nNothing comes after this.\n"
	}
	return fmt.Sprintf("\nIn the next %d minutes\n", nextMinutes) + strings.Join(rowsOf(lines), "")
}
