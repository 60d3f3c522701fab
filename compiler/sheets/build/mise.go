package build

import (
	"cmp"
	"slices"
	"strings"

	"tamis/compiler/demand"
	"tamis/compiler/events"
	"tamis/compiler/sheets"
)

// tray is one thing to have ready for one step: weighed, cut or set out, with a box
// to tick of its own.
type tray struct {
	of   *demand.Amount
	part int           // of what kind of work it is
	by   events.Moment // when it is wanted
	day  int           // on which it is got ready
	cook string        // who gets it ready; empty when the plan does not say
}

// the kinds of work of a mise-en-place list without a plan
var miseParts = []string{"Wash, trim and cut", "Weigh and measure", "Made here or carried over: set out"}

// mise is the mise-en-place list: everything that is cut, washed, weighed or
// measured, a row and a box for each. With a plan it goes by day, by who gets it
// ready, and by when it is wanted; without, by the kind of work.
func (b *builder) mise() *sheets.Sheet {
	var list []*tray
	for _, m := range b.inOrder() {
		for _, a := range m.Lines {
			l := a.Line
			t := &tray{of: a, part: 1}
			switch {
			case a.Source != nil || l.Carried != "":
				t.part = 2
			case l.Note.Text != "" || len(l.Prep) > 0:
				t.part = 0
			case l.Water:
				continue
			}
			b.planTray(t)
			list = append(list, t)
		}
	}
	if len(list) == 0 {
		return nil
	}
	t := &sheets.Table{Columns: []sheets.Column{
		{Kind: sheets.TickColumn},
		{Title: "Amount", Kind: sheets.AmountColumn},
		{Title: "What", Kind: sheets.TextColumn, Weight: 3},
		{Title: "For", Kind: sheets.TextColumn, Weight: 2},
	}}
	facts := []string{"a box for each thing of each step; the letter is the dish, the number its step", "the shopping list adds what is trimmed off"}
	if b.plan == nil {
		slices.SortStableFunc(list, func(x, y *tray) int {
			return cmp.Or(cmp.Compare(x.part, y.part), strings.Compare(x.of.Line.Key, y.of.Line.Key))
		})
	} else {
		facts[0] = "by day, by who gets it ready, by when it is wanted: dish, step and the time of the step"
		order := func(cook string) int { return slices.Index(b.plan.Cooks, cook) }
		slices.SortStableFunc(list, func(x, y *tray) int {
			return cmp.Or(cmp.Compare(x.day, y.day), cmp.Compare(order(x.cook), order(y.cook)), cmp.Compare(x.by, y.by), cmp.Compare(x.part, y.part))
		})
	}
	for _, x := range list {
		g := sheets.Group{Title: miseParts[x.part]}
		if b.plan != nil {
			g.Title = sideBySide(b.dayTitle(x.day), x.cook)
		}
		if n := len(t.Groups); n == 0 || t.Groups[n-1].Title != g.Title {
			t.Groups = append(t.Groups, g)
		}
		last := &t.Groups[len(t.Groups)-1]
		last.Rows = append(last.Rows, b.trayRow(x))
	}
	return &sheets.Sheet{ID: b.id("mise-en-place"), Kind: sheets.Mise, Title: "Mise-en-place", Facts: facts, Blocks: []sheets.Block{t}}
}

// planTray says by whom, on which day and by when a thing is got ready: what is cut by
// who cuts it, all else by who wants it first.
func (b *builder) planTray(t *tray) {
	if b.plan == nil {
		return
	}
	var who []string
	t.by, who = b.wanted(t.of)
	t.day = b.plan.Day(t.by)
	for _, e := range b.plan.Each(events.Job) {
		if e.Line == t.of {
			who, t.day = e.Who, b.plan.Day(e.Start)
			break
		}
	}
	if len(who) > 0 {
		t.cook = who[0]
	}
}

func (b *builder) trayRow(x *tray) sheets.Row {
	a := x.of
	e := &entry{key: a.Line.Key, name: shortName(a.Line.Name), uses: []*demand.Amount{a}, steps: map[*demand.Amount]int{a: b.takenBy(a)}}
	what := sheets.Cell{Runs: []sheets.Run{{Text: b.title(e), Style: sheets.Thing}}}
	if note := b.lineNote(a); note != "" {
		what.Runs = append(what.Runs, sheets.Run{Text: ", " + note})
	}
	if note := b.fig.Line(a).Note; note != "" { // a whole one stands for a part of it
		what.Sub = quiet(note)
	}
	wanted := sheets.Cell{Runs: b.shares(e)}
	if b.plan != nil {
		by := b.plan.Clock(x.by)
		if b.plan.Day(x.by) != x.day {
			by = b.onDay(x.by)
		}
		wanted.Runs = append(wanted.Runs, sheets.Run{Text: " " + by})
	}
	return sheets.Row{Cells: []sheets.Cell{{}, {Runs: amountRun(b.amount(e))}, what, wanted}}
}

// takenBy is the first step that takes a line, by its printed number; 0 for
// none.
func (b *builder) takenBy(a *demand.Amount) int {
	if sr := b.firstTakes(a.Making, a.Line); sr != nil {
		return b.plan.Number(a.Making, sr.Step)
	}
	return 0
}

// wanted is when the first step that takes a line begins, and who does it; what no
// step takes is wanted at the serving, else at the end of what the plan has of it.
func (b *builder) wanted(a *demand.Amount) (by events.Moment, who []string) {
	if sr := b.firstTakes(a.Making, a.Line); sr != nil {
		if job := b.plan.First(a.Making, sr.Step); job != nil {
			return job.Start, job.Who
		}
	}
	for _, e := range b.plan.Each(events.Serve) {
		if e.Dish == a.Making {
			return e.Start, e.Who
		}
	}
	for i, e := range b.plan.JobsOf(a.Making) {
		if i == 0 || e.End > by {
			by, who = e.End, e.Who
		}
	}
	return by, who
}
