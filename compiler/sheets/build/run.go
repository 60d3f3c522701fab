package build

import (
	"fmt"
	"slices"
	"strings"

	"tamis/compiler/events"
	"tamis/compiler/sheets"
	"tamis/compiler/sheets/chart"
)

// chart is the combined timeline.
func (b *builder) chart() *sheets.Sheet {
	c := chart.Of(b.plan, b.dayTitle, b.markOf)
	if c == nil {
		return nil
	}
	s := &sheets.Sheet{ID: b.id("timeline"), Kind: sheets.Timeline, Title: "Timeline", Wide: true, Blocks: []sheets.Block{c}}
	switch {
	case b.opt.Wants(sheets.RunSheet):
		c.Text = "The run sheet says the same in words, in order of time."
		s.Facts = append(s.Facts, "the run sheet says the same in words")
	case b.opt.Wants(sheets.Wall):
		c.Text = "The sheets of each day say the same in words, in order of time."
	}
	if b.plan.Note != "" {
		s.Facts = append(s.Facts, b.plan.Note)
	}
	return s
}

// run is the run sheet: a row for each thing that somebody begins, in order of time. What
// comes of it without a decision stands in its row: when it is looked at, when it comes
// out, when its oven is turned off. A course is one row.
func (b *builder) run() *sheets.Sheet {
	t := &sheets.Table{Columns: []sheets.Column{
		{Title: "Time", Kind: sheets.ClockColumn},
		{Kind: sheets.MarkColumn},
		{Title: "What", Kind: sheets.TextColumn, Weight: 6},
		{Title: "Who", Kind: sheets.TextColumn, Weight: 1},
		{Title: "Where", Kind: sheets.TextColumn, Weight: 3},
		{Title: "Until", Kind: sheets.ClockColumn},
		{Title: "Done", Kind: sheets.TickColumn},
	}}
	var day days
	for _, r := range b.runRows() {
		e, until, where := r.Event, "", ""
		what, sub := b.runWords(e), b.ofDish(e)
		switch e.Kind {
		case events.Job:
			where, until = b.place(e), b.doneBy(e)
		case events.Touch:
			where = b.place(e)
		case events.Out:
			what, sub = what+": "+sub, ""
		case events.Heat:
			where = e.Where.Oven
			if e.Length() > 0 {
				until = b.plan.Clock(e.End)
			}
		case events.Off:
			where = e.Where.Oven
		case events.Serve:
			what, sub = "Serve: "+r.served(), e.Course
		}
		if day.turns(b.plan.Day(e.At)) {
			t.Groups = append(t.Groups, sheets.Group{Title: b.dayName(e.At)})
		}
		mark := b.markCell(e)
		if e.Kind == events.Serve {
			mark = b.courseMarks(r)
		}
		g := &t.Groups[len(t.Groups)-1]
		g.Rows = append(g.Rows, sheets.Row{Strong: e.Kind == events.Serve, Cells: []sheets.Cell{
			say(b.plan.Clock(e.At)), mark,
			{Runs: plainRun(what), Sub: quiet(sideBySide(append([]string{sub}, b.folded(r, b.plan.Clock)...)...))},
			say(strings.Join(r.who(), ", ")), say(where), say(until),
			{},
		}})
	}
	if len(t.Groups) == 0 {
		return nil
	}
	facts := []string{"in order of time"}
	if b.opt.Wants(sheets.Timeline) {
		facts[0] += "; the chart shows the same as bars"
	}
	if b.plan.Chain != "" {
		facts = append(facts, events.ChainMark+" the critical chain: "+b.plan.Chain)
	}
	return &sheets.Sheet{ID: b.id("run-sheet"), Kind: sheets.RunSheet, Title: "Run sheet", Facts: facts, Blocks: []sheets.Block{t}}
}

// runWords is what a row of the run sheet says is done; of knife work with its amount.
func (b *builder) runWords(e *events.Event) string {
	switch {
	case e.Kind == events.Heat:
		return e.Setting.Verb() + " the oven to " + e.Setting.Words
	case e.Kind == events.Off:
		return "Turn off the oven"
	case e.Kind == events.Job && e.Line != nil && e.Amount != nil:
		what := strings.TrimSpace(b.showLine(e.Line) + " " + b.nameOf(e.Line))
		if e.Cut != "" {
			what += ", " + e.Cut
		}
		return what
	}
	return e.Words
}

// runRow is an event with those that stand in its row.
type runRow struct {
	*events.Event
	with []*events.Event
}

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
	names := []string{r.Thing}
	for _, e := range r.with {
		names = append(names, e.Thing)
	}
	return strings.Join(names, ", ")
}

// who are the cooks of a row: of a course, of all of it.
func (r *runRow) who() []string {
	out := slices.Clone(r.Who)
	for _, e := range r.with {
		for _, w := range e.Who {
			if r.Kind == events.Serve && !slices.Contains(out, w) {
				out = append(out, w)
			}
		}
	}
	return out
}

// courseMarks are the letters of what a course brings to the table.
func (b *builder) courseMarks(r *runRow) sheets.Cell {
	marks := []string{b.markOf(r.Event)}
	for _, e := range r.with {
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

// days tells when a list in order of time comes to another day.
type days struct {
	day  int
	open bool
}

func (d *days) turns(to int) bool {
	turned := !d.open || d.day != to
	d.day, d.open = to, true
	return turned
}

// ofDish is the dish of an event, with the number of its step: "Pie, step 2".
func (b *builder) ofDish(e *events.Event) string {
	switch {
	case e.Dish == nil:
		return ""
	case e.Number > 0:
		return fmt.Sprintf("%s, step %d", e.Dish.Recipe.Name, e.Number)
	}
	return e.Dish.Recipe.Name
}

// doneBy is when a job is over: of what may be left longer, from when to when.
func (b *builder) doneBy(e *events.Event) string {
	text := b.over(e)
	if e.Unsure {
		text += "?"
	}
	return text
}

func (b *builder) over(e *events.Event) string {
	last := e.Last()
	soonest := last.Start.Add(last.Least)
	text := b.plan.ClockFrom(e.Start, e.End)
	switch {
	case last.Least <= 0 || soonest >= last.End:
	case last.Stretch > 0 && soonest.Add(last.Stretch) >= last.End && last.Stretch < 60: // it stands a little longer
	case last.End.Since(soonest) >= 60: // overnight: nobody stands by with a watch
		text = "from " + b.plan.ClockFrom(e.Start, soonest)
	default:
		text = b.plan.Clock(soonest) + " to " + text
	}
	if e.Critical {
		text = events.ChainMark + " " + text
	}
	return text
}
