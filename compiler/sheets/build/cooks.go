package build

import (
	"slices"
	"strings"

	"tamis/compiler/demand"
	"tamis/compiler/events"
	"tamis/compiler/sheets"
)

// cookSheets is the run sheet once more, a group for each cook and day: the
// paper each carries.
func (b *builder) cookSheets() *sheets.Sheet {
	t := &sheets.Table{Columns: []sheets.Column{
		{Title: "Time", Kind: sheets.ClockColumn},
		{Kind: sheets.MarkColumn},
		{Title: "What", Kind: sheets.TextColumn, Weight: 6},
		{Title: "Where", Kind: sheets.TextColumn, Weight: 3},
		{Title: "Hands free", Kind: sheets.ClockColumn},
		{Title: "Done", Kind: sheets.TickColumn},
	}}
	for _, name := range b.plan.Cooks {
		if b.opt.Cook != "" && !strings.EqualFold(b.opt.Cook, name) {
			continue
		}
		var day days
		for _, e := range b.plan.Events {
			if !slices.Contains(e.Who, name) || e.Swap || e.Kind == events.In { // a swap is in the row of its job
				continue
			}
			sub, free := b.ofDish(e), ""
			if e.Kind == events.Job {
				free = b.plan.Clock(e.HandsFree(name))
				if e.Dish != nil {
					sub = e.Dish.Recipe.Name
				}
			}
			if e.Kind == events.Serve {
				sub = e.Course
			}
			if day.turns(b.plan.Day(e.At)) {
				t.Groups = append(t.Groups, sheets.Group{Title: name, Note: b.dayName(e.At)})
			}
			g := &t.Groups[len(t.Groups)-1]
			g.Rows = append(g.Rows, sheets.Row{Cells: []sheets.Cell{
				say(b.plan.Clock(e.At)), b.markCell(e), {Runs: plainRun(b.jobWords(e)), Sub: quiet(sub)}, say(b.place(e)), say(free), {},
			}})
		}
	}
	if len(t.Groups) == 0 {
		return nil
	}
	s := &sheets.Sheet{ID: b.id("by-cook"), Kind: sheets.ByCook, Title: "Cook by cook", Facts: []string{"each cook’s own work, in order of time"}, Blocks: []sheets.Block{t}}
	if b.opt.Cook != "" {
		s.Title, s.Facts = t.Groups[0].Title, []string{"what you do, in order of time"}
	}
	return s
}

// worksAt tells whether a making is the work of the cook whose paper this is: all
// are where it is everybody's.
func (b *builder) worksAt(m *demand.Making) bool {
	return b.opt.Cook == "" || slices.ContainsFunc(b.plan.JobsOf(m), func(e *events.Event) bool {
		return slices.ContainsFunc(e.Who, func(who string) bool { return strings.EqualFold(who, b.opt.Cook) })
	})
}
