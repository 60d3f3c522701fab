package build

import (
	"strings"

	"tamis/compiler/events"
	"tamis/compiler/sheets"
)

// happenings are the events of the plan as data; none without a plan.
func (b *builder) happenings() (out []sheets.Event) {
	if b.plan == nil {
		return nil
	}
	for _, e := range b.plan.Events {
		out = append(out, b.happening(e))
	}
	return out
}

func (b *builder) happening(e *events.Event) sheets.Event {
	at := b.plan.Stamp
	out := sheets.Event{
		Kind: string(e.Kind), Start: at(e.Start), End: at(e.End), Minute: int(b.plan.SinceServing(e.Start)), Minutes: int(e.Length()),
		Letter: b.markOf(e), Step: e.Number, Load: e.Load, Who: e.Who, Where: b.whereabouts(e.Where),
		Thing: e.Thing, Cut: e.Cut, Words: e.Words, Critical: e.Critical, Course: e.Course,
	}
	if e.Dish != nil {
		out.Dish = e.Dish.Recipe.Name
	}
	if e.Amount != nil {
		f := figure("line", *e.Amount, b.showLine(e.Line))
		f.Thing, f.Recipe = e.Thing, out.Dish
		out.Amount = &f
	}
	for _, p := range e.Phases {
		out.Phases = append(out.Phases, sheets.Phase{Kind: string(p.Kind), Start: at(p.Start), End: at(p.End), Who: p.Who, Place: p.Place})
	}
	if e.Kind == events.Heat {
		s := e.Setting
		out.Heat = &sheets.Setting{Celsius: s.Celsius, Fan: s.Fan, Turned: s.Turned, Until: at(s.Until), Words: s.Words}
	}
	return out
}

// whereabouts is a place as data.
func (b *builder) whereabouts(w events.Place) sheets.Where {
	out := sheets.Where{Oven: w.Oven, Level: strings.TrimSuffix(w.Level, "?"), Grill: w.Grill, Place: w.Room, Tools: w.Tools}
	if w.Vessel != "" {
		out.Vessel, out.Vessels = b.vesselName(w.Vessel), max(1, w.Vessels)
	}
	for _, s := range w.Slots {
		if w.Oven != "" {
			out.Shelves = append(out.Shelves, s+1)
		} else {
			out.Rings = append(out.Rings, s+1)
		}
	}
	return out
}
