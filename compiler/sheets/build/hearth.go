package build

import (
	"fmt"
	"slices"
	"strings"

	"tamis/compiler/events"
	"tamis/compiler/sheets"
)

// ovenDoor is the paper for the oven door and the wall above the hob: what goes
// in and out and on and off, at what heat, and when the heat is changed.
func (b *builder) ovenDoor() *sheets.Sheet {
	t := &sheets.Table{Columns: []sheets.Column{
		{Title: "In, on", Kind: sheets.ClockColumn},
		{Title: "Out, off", Kind: sheets.ClockColumn},
		{Kind: sheets.MarkColumn},
		{Title: "What", Kind: sheets.TextColumn, Weight: 5},
		{Title: "Heat, shelf", Kind: sheets.TextColumn, Weight: 4},
		{Title: "Vessel", Kind: sheets.TextColumn, Weight: 3},
		{Title: "Done", Kind: sheets.TickColumn},
	}}
	for _, oven := range b.plan.Ovens {
		var day days
		for _, e := range b.plan.Events {
			if e.Where.Oven != oven || !slices.Contains([]events.Kind{events.Heat, events.In, events.Off}, e.Kind) {
				continue
			}
			if day.turns(b.plan.Day(e.Start)) {
				t.Groups = append(t.Groups, sheets.Group{Title: events.OvenName(oven), Note: b.dayName(e.Start)})
			}
			g := &t.Groups[len(t.Groups)-1]
			if e.Kind == events.Heat {
				g.Rows = append(g.Rows, sheets.Row{Strong: true, Cells: []sheets.Cell{
					say(b.plan.Clock(e.Start)), {}, {}, say(e.Setting.Verb() + " the oven"), say(e.Setting.Words), {}, {},
				}})
				continue
			}
			if e.Kind == events.Off {
				g.Rows = append(g.Rows, sheets.Row{Strong: true, Cells: []sheets.Cell{{}, say(b.plan.Clock(e.Start)), {}, say("Turn off the oven"), {}, {}, {}}})
				continue
			}
			g.Rows = append(g.Rows, b.inRow(e, strings.TrimPrefix(b.ovenText(e.Step.Step, e.Where.Oven), "oven ")))
		}
	}
	t.Groups = append(t.Groups, b.ringPlan()...)
	if len(t.Groups) == 0 {
		return nil
	}
	return &sheets.Sheet{ID: b.id("oven-door"), Kind: sheets.OvenDoor, Title: "Oven and rings", Facts: []string{"hang it where the oven is opened"}, Blocks: []sheets.Block{t}}
}

// ringPlan is a group for each day of what stands on the rings.
func (b *builder) ringPlan() (out []sheets.Group) {
	var day days
	for _, e := range b.plan.Each(events.In) {
		if e.Where.Rings == 0 {
			continue
		}
		if d := b.plan.Day(e.Start); day.turns(d) {
			title := "Rings"
			if k := b.meal.Kitchen; k != nil && k.Rings > 0 {
				title = fmt.Sprintf("Rings, %d in all", k.Rings)
			}
			out = append(out, sheets.Group{Title: title, Note: b.dayTitle(d)})
		}
		heat := events.Place{Rings: e.Where.Rings, Level: e.Where.Level}.Words()
		g := &out[len(out)-1]
		g.Rows = append(g.Rows, b.inRow(e, strings.Join(heat, " ")))
	}
	return out
}

// inRow is a thing that goes in or on, with when it comes out or off.
func (b *builder) inRow(e *events.Event, heat string) sheets.Row {
	vessel := ""
	if e.Where.Vessel != "" {
		vessel = b.vesselText(e.Where)
	}
	return sheets.Row{Cells: []sheets.Cell{
		say(b.plan.Clock(e.Start)), say(b.plan.ClockFrom(e.Start, e.End)),
		b.markCell(e),
		{Runs: plainRun(e.Dish.Recipe.Name), Sub: quiet(e.Words)},
		say(heat), say(vessel),
		{},
	}}
}
