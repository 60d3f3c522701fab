// Package chart draws the lanes of a plan as a chart of the neutral document: a
// panel a day, a lane for each cook, each oven, the rings, and what is left
// alone. Which bars there are, and in which rows, package events has said.
package chart

import (
	"slices"
	"strings"

	"tamis/compiler/events"
	"tamis/compiler/sheets"
)

// Of is the chart of a plan, or nil when nothing happens. title heads a day by
// its number from the serving day; letter is the mark of an event's dish.
func Of(l *events.List, title func(day int) string, letter func(*events.Event) string) *sheets.Chart {
	c := &sheets.Chart{Note: l.Bound}
	for _, d := range l.Days() {
		p := panel(l, l.Lanes(d), letter)
		p.Title = title(d)
		c.Panels = append(c.Panels, p)
	}
	if len(c.Panels) == 0 {
		return nil
	}
	return c
}

func panel(l *events.List, d events.Day, letter func(*events.Event) string) sheets.Panel {
	from := l.DayStart(d.Number)
	at := func(m events.Moment) int { return int(m.Since(from)) }
	p := sheets.Panel{Start: at(d.Start), End: at(d.End)}
	if !l.Clocked() {
		p.Counts, p.Zero = true, at(l.Zero)
	}
	for _, ln := range d.Lanes {
		lane := sheets.Lane{Name: ln.Name, Rows: ln.Rows}
		switch ln.Kind {
		case events.OvenLane:
			lane.Name = events.OvenName(ln.Name)
		case events.RingLane:
			lane.Name = "Rings"
		case events.AloneLane:
			lane.Name, lane.Note = "Left alone", "resting, chilling, proving"
		}
		for _, s := range ln.Strips {
			lane.Bars = append(lane.Bars, sheets.Bar{
				Start: at(s.Start), End: at(s.End), Kind: sheets.BarKind(s.Kind), Row: s.Row,
				Letter: letter(s.Event), Number: s.Event.Number, Label: label(s),
			})
		}
		p.Lanes = append(p.Lanes, lane)
	}
	for _, e := range d.Servings {
		if flag := (sheets.Flag{At: at(e.Start), Label: e.Course}); !slices.Contains(p.Flags, flag) {
			p.Flags = append(p.Flags, flag)
		}
	}
	return p
}

// label is a few words for a bar.
func label(s events.Strip) string {
	text := s.Event.Title
	switch {
	case s.Event.Text != "":
		return strings.TrimSuffix(s.Event.Text, ".")
	case s.Place != "":
		text += " (" + s.Place + ")"
	}
	if s.Event.Unsure {
		text += " ?"
	}
	return text
}
