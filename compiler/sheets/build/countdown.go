package build

import (
	"strings"
	"time"

	"tamis/compiler/events"
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
	for _, e := range b.plan.Events {
		what, sub, special, length := e.Words, b.ofDish(e), "", ""
		switch {
		case e.Kind == events.In || e.Kind == events.Out || e.Swap: // the row of its job says it
			continue
		case e.Kind == events.Job:
			special, length = b.special(e), b.lengthWords(e)
		case e.Kind == events.Heat:
			what, special = e.Setting.Verb()+" the "+events.LowerFirst(events.OvenName(e.Where.Oven)), e.Setting.Words
			if e.Length() > 0 {
				length = minutes(int(e.Length()))
			}
		case e.Kind == events.Serve:
			sub, special = e.Course, served(e)
		}
		if d := b.plan.Day(e.At); day.turns(d) {
			t.Groups = append(t.Groups, sheets.Group{Title: daysBefore(d), Note: countedDay(d)})
		}
		g := &t.Groups[len(t.Groups)-1]
		g.Rows = append(g.Rows, sheets.Row{Strong: e.Kind == events.Serve, Cells: []sheets.Cell{
			say(b.plan.Counted(e.At)), {}, b.markCell(e), {Runs: plainRun(what), Sub: quiet(sub)}, say(special), say(length), {},
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

// lengthWords says how long hands are wanted, and how long it then takes by
// itself: "10 min", "5 min, then 45 min".
func (b *builder) lengthWords(e *events.Event) string {
	work, left := int(e.Hands()), int(e.Alone())
	switch {
	case left == 0:
		return minutes(work)
	case work == 0:
		return minutes(left) + " alone"
	case e.Last().Kind == resolve.Work:
		var parts []string
		for _, p := range e.Phases {
			text := minutes(int(p.Length()))
			if p.Kind == resolve.Leave {
				text += " alone"
			}
			parts = append(parts, text)
		}
		return strings.Join(parts, ", then ")
	}
	return minutes(work) + ", then " + minutes(left)
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
