package build

import (
	"fmt"
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
		g := &t.Groups[len(t.Groups)-1]
		g.Rows = append(g.Rows, sheets.Row{Strong: e.Kind == events.Serve, Cells: []sheets.Cell{
			say(b.plan.Clock(e.At)), b.rowMark(r),
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
