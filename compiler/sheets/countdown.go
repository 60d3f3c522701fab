package sheets

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"tamis/compiler/resolve"
	"tamis/compiler/timeline"
)

// countdown is the run sheet counted back from the first serving, day by day:
// for whoever does not know the hour yet, or has it moved. The clock is left to
// a pen. Each task says what is special about it.
func (b *builder) countdown() *Sheet {
	type event struct {
		at, order int
		row       Row
	}
	var events []event
	zero := b.zero()
	line := func(at, order int, mark, link, what, sub, special, length string, strong bool) {
		events = append(events, event{at, order, Row{Strong: strong, Cells: []Cell{
			say(timeline.ClockText(false, at-zero)),
			{},
			{Runs: linked(mark, link)},
			{Runs: plainRun(what), Sub: quiet(sub)},
			say(special), say(length),
			{},
		}}})
	}
	for _, j := range b.line.Jobs {
		mark, link, dish, what := "", "", "", capital(j.Title)
		if j.Making != nil {
			mark, link, dish = b.mark(j.Making), b.linkTo(j.Making), j.Making.Recipe.Name
		}
		if j.Step != nil {
			what = stepLine(j)
			dish = fmt.Sprintf("%s, step %d", dish, b.number(j))
		}
		line(j.Start(), 2, mark, link, what, dish, b.special(j), b.lengthWords(j), false)
		for _, t := range b.touches(j) {
			line(t.at, 1, mark, link, t.what, t.dish, "", "", false)
		}
	}
	for _, h := range b.line.Heats {
		if h.Preheat < h.Start {
			line(h.Preheat, 0, "", "", heatVerb(h)+" the "+lowerFirst(ovenName(h.Oven)), "", b.ovenHeat(h.Celsius, h.Fan), minutes(h.Start-h.Preheat), false)
		}
	}
	for _, s := range b.line.Servings {
		mark, link, special := "", "", ""
		if s.Making != nil {
			mark, link = b.mark(s.Making), b.linkTo(s.Making)
			if h := s.Making.Recipe.ServeHow; h != nil {
				special = h.State
				if h.Within != nil {
					special += ", within " + h.Within.String()
				}
			}
		}
		line(s.At, 1, mark, link, "Serve: "+s.Name, s.Course, special, "", true)
	}
	if len(events) == 0 {
		return nil
	}
	slices.SortStableFunc(events, func(x, y event) int { return cmp.Or(cmp.Compare(x.at, y.at), cmp.Compare(x.order, y.order)) })
	t := &Table{Columns: []Column{
		{Title: "Before", Kind: ClockColumn},
		{Title: "Clock", Kind: PencilColumn, Weight: 2},
		{Kind: MarkColumn},
		{Title: "Task", Kind: TextColumn, Weight: 5},
		{Title: "Special points", Kind: TextColumn, Weight: 4},
		{Title: "Takes", Kind: TextColumn, Weight: 2},
		{Title: "Done", Kind: TickColumn},
	}}
	day := 0
	for i, e := range events {
		if d := b.dayOf(e.at); i == 0 || d != day {
			day = d
			t.Groups = append(t.Groups, Group{Title: daysBefore(d), Note: b.countedDay(d)})
		}
		g := &t.Groups[len(t.Groups)-1]
		g.Rows = append(g.Rows, e.row)
	}
	first := "the first course"
	if s := b.line.Servings; len(s) > 0 && s[0].Course != "" {
		first = s[0].Course
	}
	return &Sheet{
		ID: b.id("countdown"), Kind: Countdown, Title: "Countdown",
		Facts:  []string{"T is when " + first + " is served; T−1:30 is an hour and a half before", "write the clock in when it is known"},
		Blocks: []Block{t},
	}
}

// zero is the minute of the first serving.
func (b *builder) zero() timeline.Minute {
	zero, found := 0, false
	for _, s := range b.line.Servings {
		if !found || s.At < zero {
			zero, found = s.At, true
		}
	}
	return zero
}

// countedDay is how a planner counts a day: "T−2 days".
func (b *builder) countedDay(d int) string {
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
func (b *builder) lengthWords(j *timeline.Job) string {
	work, left := 0, 0
	for _, p := range j.Phases {
		if p.Kind == resolve.Leave {
			left += p.End - p.Start
		} else {
			work += p.End - p.Start
		}
	}
	switch {
	case left == 0:
		return minutes(work)
	case work == 0:
		return minutes(left) + " alone"
	}
	return minutes(work) + ", then " + minutes(left)
}

// special is what must be minded at a job: where and how hot, what it must come
// to, how long it may wait after.
func (b *builder) special(j *timeline.Job) string {
	parts := []string{}
	if p := b.place(j); p != "" {
		parts = append(parts, p)
	}
	if j.Step != nil {
		s := j.Step.Step
		for _, c := range s.AST.Clauses {
			switch c.Key {
			case "core":
				parts = append(parts, "core "+c.Temp.Print())
			case "reach", "never above":
				parts = append(parts, c.Key+" "+c.Temp.Print())
			case "hold":
				if c.Spell != nil && c.Spell.Fixed != nil {
					parts = append(parts, "may wait "+c.Level+" up to "+c.Spell.Fixed.String())
				}
			case "caution":
				parts = append(parts, "mind: "+c.Text.Text)
			}
			if c.Spell != nil && c.Spell.Until.Text != "" {
				parts = append(parts, "until "+c.Spell.Until.Text)
			}
		}
		if s.Within != nil {
			parts = append(parts, "within "+minutes(int(*s.Within/time.Minute))+" of the step before")
		}
	}
	if j.Critical {
		parts = append(parts, "no time to spare")
	}
	return strings.Join(b.dashes(parts), " · ")
}
