package sheets

import (
	"slices"
	"strings"

	"tamis/compiler/events"
	"tamis/compiler/larder"
)

// chart is the combined timeline, a panel a day, a lane for each cook, each
// oven, the rings, and what is left alone.
func (b *builder) chart() *Sheet {
	c := &Chart{Note: b.plan.Bound}
	for _, d := range b.plan.Days() {
		c.Panels = append(c.Panels, b.panel(b.plan.Lanes(d)))
	}
	if len(c.Panels) == 0 {
		return nil
	}
	if b.opt.Wants(RunSheet) {
		c.Text = "The run sheet says the same in words, in order of time."
	}
	s := &Sheet{ID: b.id("timeline"), Kind: Timeline, Title: "Timeline", Wide: true, Blocks: []Block{c}}
	if c.Text != "" {
		s.Facts = append(s.Facts, "the run sheet says the same in words")
	}
	if b.plan.Note != "" {
		s.Facts = append(s.Facts, b.plan.Note)
	}
	return s
}

func (b *builder) panel(d events.Day) Panel {
	from := b.plan.DayStart(d.Number)
	at := func(m events.Moment) int { return int(m.Since(from)) }
	p := Panel{Title: b.dayTitle(d.Number), Start: at(d.Start), End: at(d.End)}
	if !b.plan.Clocked() {
		p.Counts, p.Zero = true, at(b.plan.Zero)
	}
	for _, l := range d.Lanes {
		lane := Lane{Name: l.Name, Rows: l.Rows}
		switch l.Kind {
		case events.OvenLane:
			lane.Name = events.OvenName(l.Name)
		case events.RingLane:
			lane.Name = "Rings"
		case events.AloneLane:
			lane.Name, lane.Note = "Left alone", "resting, chilling, proving"
		}
		for _, s := range l.Strips {
			lane.Bars = append(lane.Bars, Bar{
				Start: at(s.Start), End: at(s.End), Kind: BarKind(s.Kind), Row: s.Row,
				Letter: b.markOf(s.Event), Number: s.Event.Number, Label: barLabel(s),
			})
		}
		p.Lanes = append(p.Lanes, lane)
	}
	for _, e := range d.Servings {
		if flag := (Flag{At: at(e.Start), Label: e.Course}); !slices.Contains(p.Flags, flag) {
			p.Flags = append(p.Flags, flag)
		}
	}
	return p
}

// barLabel is a few words for a bar.
func barLabel(s events.Strip) string {
	switch {
	case s.Event.Text != "":
		return strings.TrimSuffix(s.Event.Text, ".")
	case s.Place != "":
		return s.Event.Title + " (" + s.Place + ")"
	}
	return s.Event.Title
}

// markOf is the letter of an event's dish.
func (b *builder) markOf(e *events.Event) string {
	if e.Dish == nil {
		return ""
	}
	return b.mark(e.Dish)
}

// markCell is the letter of an event's dish, with a link to its sheet.
func (b *builder) markCell(e *events.Event) Cell {
	return Cell{Runs: linked(b.markOf(e), b.linkTo(e.Dish))}
}

// place says where a job is done: oven with heat, ring, fridge, vessel, tool.
func (b *builder) place(e *events.Event) string {
	var parts []string
	w := e.Where
	if e.Step != nil {
		s := e.Step.Step
		if len(s.Heats) > 0 {
			parts = append(parts, ovenText(s, w.Oven))
		}
		if s.Rings > 0 {
			parts = append(parts, strings.TrimSpace("ring "+w.Level))
		}
		if w.Grill {
			parts = append(parts, "grill")
		}
		if w.Room != "" && w.Room != "room" {
			parts = append(parts, w.Room)
		}
	}
	if w.Vessel != "" {
		parts = append(parts, b.vesselText(w))
	}
	parts = append(parts, w.Tools...)
	return strings.Join(parts, ", ")
}

func (b *builder) vesselName(key string) string {
	if k := b.meal.Kitchen; k != nil {
		for _, v := range k.Vessels {
			if v.Key == larder.Fold(key) {
				return v.Name
			}
		}
	}
	return key
}
