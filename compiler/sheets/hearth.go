package sheets

import (
	"fmt"
	"slices"
	"strings"

	"tamis/compiler/timeline"
)

// ovenDoor is the paper for the oven door and the wall above the hob: what goes
// in and out and on and off, at what heat, and when the heat is changed.
func (b *builder) ovenDoor() *Sheet {
	t := &Table{Columns: []Column{
		{Title: "In, on", Kind: ClockColumn},
		{Title: "Out, off", Kind: ClockColumn},
		{Kind: MarkColumn},
		{Title: "What", Kind: TextColumn, Weight: 5},
		{Title: "Heat, shelf", Kind: TextColumn, Weight: 4},
		{Title: "Vessel", Kind: TextColumn, Weight: 3},
		{Title: "Done", Kind: TickColumn},
	}}
	type event struct {
		at, order int
		row       Row
	}
	for _, oven := range b.ovens() {
		var events []event
		for _, h := range b.line.Heats {
			if h.Oven == oven && h.Preheat < h.Start {
				events = append(events, event{h.Preheat, 0, Row{Strong: true, Cells: []Cell{
					say(b.clock(h.Preheat)), {}, {}, say(heatVerb(h) + " the oven"), say(b.ovenHeat(h.Celsius, h.Fan)), {}, {},
				}}})
			}
		}
		for _, j := range b.line.Jobs {
			if j.Oven != oven || j.Step == nil {
				continue
			}
			in := intoOven(j)
			heat := strings.TrimPrefix(ovenText(j.Step.Step, j), "oven ")
			vessel := ""
			if j.Vessel != "" {
				vessel = b.vesselText(j)
			}
			events = append(events, event{in, 1, Row{Cells: []Cell{
				say(b.clock(in)), say(b.onDayFrom(in, j.End())),
				{Runs: linked(b.mark(j.Making), b.linkTo(j.Making))},
				{Runs: plainRun(j.Making.Recipe.Name), Sub: quiet(stepLine(j))},
				say(heat), say(vessel),
				{},
			}}})
		}
		slices.SortStableFunc(events, func(x, y event) int { return (x.at-y.at)*2 + x.order - y.order })
		day, open := 0, false
		for _, e := range events {
			if d := b.dayOf(e.at); !open || d != day {
				day, open = d, true
				t.Groups = append(t.Groups, Group{Title: ovenName(oven), Note: b.dayName(e.at)})
			}
			g := &t.Groups[len(t.Groups)-1]
			g.Rows = append(g.Rows, e.row)
		}
	}
	t.Groups = append(t.Groups, b.ringPlan()...)
	if len(t.Groups) == 0 {
		return nil
	}
	return &Sheet{ID: b.id("oven-door"), Kind: OvenDoor, Title: "Oven and rings", Facts: []string{"hang it where the oven is opened"}, Blocks: []Block{t}}
}

// ringPlan is a group for each day of what stands on the rings.
func (b *builder) ringPlan() (out []Group) {
	day, open := 0, false
	for _, j := range b.line.Jobs { // they are in order of time
		if j.Rings == 0 || j.Step == nil {
			continue
		}
		if d := b.dayOf(j.Start()); !open || d != day {
			day, open = d, true
			title := "Rings"
			if k := b.meal.Kitchen; k != nil && k.Rings > 0 {
				title = fmt.Sprintf("Rings, %d in all", k.Rings)
			}
			out = append(out, Group{Title: title, Note: b.dayTitle(d)})
		}
		heat := strings.TrimSpace("ring " + j.Step.Step.Level)
		if j.Rings > 1 {
			heat = strings.TrimSpace(fmt.Sprintf("%d rings %s", j.Rings, j.Step.Step.Level))
		}
		vessel := ""
		if j.Vessel != "" {
			vessel = b.vesselText(j)
		}
		g := &out[len(out)-1]
		g.Rows = append(g.Rows, Row{Cells: []Cell{
			say(b.clock(j.Start())), say(b.onDayFrom(j.Start(), j.End())),
			{Runs: linked(b.mark(j.Making), b.linkTo(j.Making))},
			{Runs: plainRun(j.Making.Recipe.Name), Sub: quiet(stepLine(j))},
			say(heat), say(vessel),
			{},
		}})
	}
	return out
}

// heatVerb says what is done to an oven: one that is hot is turned, up or down.
func heatVerb(h *timeline.Heat) string {
	if h.Turned {
		return "Turn"
	}
	return "Heat"
}
