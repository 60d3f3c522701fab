package build

import (
	"strings"

	"tamis/compiler/events"
	"tamis/compiler/larder"
	"tamis/compiler/sheets"
)

// markOf is the letter of an event's dish.
func (b *builder) markOf(e *events.Event) string {
	if e.Dish == nil {
		return ""
	}
	return b.mark(e.Dish)
}

// markCell is the letter of an event's dish, with a link to its sheet.
func (b *builder) markCell(e *events.Event) sheets.Cell {
	return sheets.Cell{Runs: linked(b.markOf(e), b.linkTo(e.Dish))}
}

// place says where a job is done: oven with heat, ring, fridge, vessel, tool.
func (b *builder) place(e *events.Event) string {
	var parts []string
	w := e.Where
	if e.Step != nil && !e.Then { // it has come off its fire
		s := e.Step.Step
		if len(s.Heats) > 0 {
			parts = append(parts, b.ovenText(s, w.Oven))
			if s.FireOffered() {
				parts[len(parts)-1] += "?"
			}
		}
		if s.Rings > 0 {
			parts = append(parts, strings.TrimSpace("ring "+w.Level))
		}
		if w.Grill {
			grill := "grill"
			if s.FireOffered() {
				grill += "?"
			}
			parts = append(parts, grill)
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
