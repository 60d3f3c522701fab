package build

import (
	"slices"
	"strings"

	"tamis/compiler/events"
	"tamis/compiler/sheets"
)

// The rows of the run sheet and of the countdown: what somebody begins, with what comes
// of it folded in.

// runWords is what a row of the run sheet says is done; of knife work with its amount.
func (b *builder) runWords(e *events.Event) string {
	switch {
	case e.Kind == events.Heat:
		return e.Setting.Verb() + " the oven to " + e.Setting.Words
	case e.Kind == events.Off:
		return "Turn off the oven"
	}
	return b.jobWords(e)
}

// jobWords is what is done, of knife work with its amount.
func (b *builder) jobWords(e *events.Event) string {
	if e.Line == nil || e.Amount == nil {
		return e.Words
	}
	what := b.cutThing(e)
	if e.Cut != "" {
		what += ", " + e.Cut
	}
	return what
}

// cutThing is how much of what is cut: "600 g onions".
func (b *builder) cutThing(e *events.Event) string {
	return strings.TrimSpace(b.showLine(e.Line) + " " + b.nameOf(e.Line))
}

// runRow is an event with those that stand in its row.
type runRow struct {
	*events.Event
	with []*events.Event
}

// all are the events of a row.
func (r *runRow) all() []*events.Event { return append([]*events.Event{r.Event}, r.with...) }

// runRows are the rows of the run sheet.
func (b *builder) runRows() (out []*runRow) {
	byJob := map[*events.Event]*runRow{}
	last := map[string]*runRow{} // the row of what an oven had last
	for _, e := range b.plan.Events {
		job := byJob[e.Of]
		if job != nil && b.plan.Day(job.At) != b.plan.Day(e.At) {
			job = nil // who reads the next day's rows must find it there
		}
		off := last[e.Where.Oven]
		if off != nil && b.plan.Day(off.At) != b.plan.Day(e.At) {
			off = nil
		}
		switch {
		case e.Kind == events.In || e.Swap: // the row of its job says it
			continue
		case e.Kind == events.Touch && e.Text == "" && !e.Then && job != nil,
			e.Kind == events.Out && job != nil:
			job.with = append(job.with, e)
			if e.Kind == events.Out {
				last[e.Where.Oven] = job
			}
			continue
		case e.Kind == events.Off && off != nil:
			off.with = append(off.with, e)
			continue
		case e.Kind == events.Serve && len(out) > 0:
			if r := out[len(out)-1]; r.Kind == events.Serve && r.Start == e.Start && r.Course == e.Course {
				r.with = append(r.with, e)
				continue
			}
		}
		r := &runRow{Event: e}
		if e.Kind == events.Job {
			byJob[e] = r
		}
		out = append(out, r)
	}
	return out
}

// served names what a course brings to the table.
func (r *runRow) served() string {
	var names []string
	for _, e := range r.all() {
		names = append(names, e.Thing)
	}
	return strings.Join(names, ", ")
}

// who are the cooks of a row: of a course, those of all its dishes.
func (r *runRow) who() (out []string) {
	if r.Kind != events.Serve {
		return r.Who
	}
	for _, e := range r.all() {
		for _, w := range e.Who {
			if !slices.Contains(out, w) {
				out = append(out, w)
			}
		}
	}
	return out
}

// rowMark is the letter of a row's dish; of a course, those of all its dishes.
func (b *builder) rowMark(r *runRow) sheets.Cell {
	if r.Kind != events.Serve {
		return b.markCell(r.Event)
	}
	var marks []string
	for _, e := range r.all() {
		marks = append(marks, b.markOf(e))
	}
	return say(strings.TrimSpace(strings.Join(marks, " ")))
}

// folded says what else happens to what a row begins: "look 14:25, 15:10", "out 16:40
// Jo", "oven off 16:45 Ana". Who looks is named where it is not who began.
func (b *builder) folded(r *runRow, clock func(events.Moment) string) (out []string) {
	if r.Kind == events.Serve {
		return nil
	}
	by := func(e *events.Event) string {
		if slices.Equal(e.Who, r.Who) {
			return ""
		}
		return strings.Join(e.Who, ", ")
	}
	var looks []events.Moment
	whose := ""
	flush := func() {
		if len(looks) > 0 {
			out = append(out, strings.TrimSpace("look "+looksText(looks, clock)+" "+whose))
		}
		looks = nil
	}
	for _, e := range r.with {
		switch e.Kind {
		case events.Touch:
			if by(e) != whose {
				flush()
			}
			looks, whose = append(looks, e.Start), by(e)
		case events.Out:
			flush()
			word := "out"
			if e.Where.Oven == "" {
				word = "off the ring"
			}
			out = append(out, strings.TrimSpace(word+" "+clock(e.Start)+" "+strings.Join(e.Who, ", ")))
		case events.Off:
			flush()
			out = append(out, strings.TrimSpace("oven off "+clock(e.Start)+" "+strings.Join(e.Who, ", ")))
		}
	}
	flush()
	return out
}
