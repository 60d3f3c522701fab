package build

import (
	"strings"
	"time"

	"tamis/compiler/events"
	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/compiler/sheets"
)

// countdown is the run sheet counted back from the first serving, day by day:
// for whoever does not know the hour yet, or has it moved. The clock is left to
// a pen. Each task says what is special about it.
func (b *builder) countdown() *sheets.Sheet {
	t := &sheets.Table{Columns: []sheets.Column{
		{Title: "Before", Kind: sheets.ClockColumn},
		{Title: "Clock", Kind: sheets.PencilColumn, Weight: 2},
		{Kind: sheets.MarkColumn},
		{Title: "Task", Kind: sheets.TextColumn, Weight: 5},
		{Title: "Special points", Kind: sheets.TextColumn, Weight: 4},
		{Title: "Takes", Kind: sheets.TextColumn, Weight: 2},
		{Title: "Done", Kind: sheets.TickColumn},
	}}
	var day days
	for _, r := range b.runRows() {
		e := r.Event
		what, sub, special, length := b.runWords(e), b.ofDish(e), "", ""
		switch {
		case e.Kind == events.Out: // it says itself where it is taken from
			what, sub = what+": "+sub, ""
		case e.Kind == events.Job:
			special, length = b.special(e), lengthWords(e)
		case e.Kind == events.Heat:
			what, special = e.Setting.Verb()+" the "+larder.Small(events.OvenName(e.Where.Oven)), e.Setting.Words
			if e.Length() > 0 {
				length = minutes(int(e.Length()))
			}
		case e.Kind == events.Off:
			what = "Turn off the " + larder.Small(events.OvenName(e.Where.Oven))
		case e.Kind == events.Serve:
			what, sub, special = "Serve: "+r.served(), e.Course, b.servedHow(r)
		}
		if d := b.plan.Day(e.At); day.turns(d) {
			t.Groups = append(t.Groups, sheets.Group{Title: daysBefore(d), Note: countedDay(d)})
		}
		g := &t.Groups[len(t.Groups)-1]
		g.Rows = append(g.Rows, sheets.Row{Strong: e.Kind == events.Serve, Cells: []sheets.Cell{
			say(b.plan.Counted(e.At)), {}, b.rowMark(r), {Runs: plainRun(what), Sub: quiet(sideBySide(append([]string{sub}, b.folded(r, b.plan.Counted)...)...))}, say(special), say(length), {},
		}})
	}
	if len(t.Groups) == 0 {
		return nil
	}
	first := "the first course"
	if s := b.plan.Each(events.Serve); len(s) > 0 && s[0].Course != "" {
		first = s[0].Course
	}
	return &sheets.Sheet{
		ID: b.id("countdown"), Kind: sheets.Countdown, Title: "Countdown",
		Facts:  []string{"T is when " + first + " is served; T−1:30 is an hour and a half before", "write the clock in when it is known"},
		Blocks: []sheets.Block{t},
	}
}

// servedHow is how the dishes of a course go to the table: of several, each by its letter.
func (b *builder) servedHow(r *runRow) string {
	if len(r.with) == 0 {
		return served(r.Event)
	}
	var out []string
	for _, e := range r.all() {
		if how := served(e); how != "" {
			out = append(out, strings.TrimSpace(b.markOf(e)+" "+how))
		}
	}
	return strings.Join(out, "; ")
}

// served is how a dish goes to the table: "hot, within 10 min".
func served(e *events.Event) string {
	if e.Dish == nil || e.Dish.Recipe.ServeHow == nil {
		return ""
	}
	h := e.Dish.Recipe.ServeHow
	if h.Within != nil {
		return h.State + ", within " + h.Within.String()
	}
	return h.State
}

// countedDay is how a planner counts a day: "T−2 days".
func countedDay(d int) string {
	switch {
	case d == 0:
		return ""
	case d < 0:
		return "T−" + plural(-d, "day", "days")
	}
	return "T+" + plural(d, "day", "days")
}

// lengthWords says how long hands are wanted and how long it takes by itself, in the
// order in which that comes: "10 min", "5 min, then 45 min", "45 min alone, then 5 min".
func lengthWords(e *events.Event) string {
	var parts []string
	var length events.Minutes
	for i, p := range e.Phases {
		length += p.Length()
		if i+1 < len(e.Phases) && e.Phases[i+1].Left() == p.Left() {
			continue
		}
		text := minutes(int(length))
		if p.Left() {
			text += " alone"
		}
		if length > 0 {
			parts = append(parts, text)
		}
		length = 0
	}
	if len(parts) == 2 { // after hands it goes without saying
		parts[1] = strings.TrimSuffix(parts[1], " alone")
	}
	return strings.Join(parts, ", then ")
}

// special is what must be minded at a job: where and how hot, what it must come
// to, how long it may wait after.
func (b *builder) special(e *events.Event) string {
	parts := []string{}
	if p := b.place(e); p != "" {
		parts = append(parts, p)
	}
	if e.Step != nil {
		s := e.Step.Step
		for _, c := range s.Margin {
			switch c := c.(type) {
			case *resolve.Target:
				parts = append(parts, string(c.Word)+" "+b.degrees(c.Temp))
			case *resolve.Hold:
				if c.UpTo != nil {
					parts = append(parts, "hold "+c.State+" up to "+c.UpTo.String())
				}
			case *resolve.Caution:
				parts = append(parts, "mind: "+c.Text.Text)
			case *resolve.Spell:
				if !c.Until.IsZero() {
					parts = append(parts, "until "+c.Until.Text)
				}
			}
		}
		if s.Within != nil {
			parts = append(parts, "within "+minutes(int(*s.Within/time.Minute))+" of the step before")
		}
	}
	if e.Critical {
		parts = append(parts, "no time to spare")
	}
	return strings.Join(b.dashes(parts), " · ")
}
