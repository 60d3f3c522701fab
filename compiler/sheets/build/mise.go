package build

import (
	"slices"
	"strings"

	"tamis/compiler/demand"
	"tamis/compiler/events"
	"tamis/compiler/sheets"
)

// mise is the mise-en-place list: everything that is cut, washed, weighed or
// measured, one row for each thing and cut, however many dishes want it, with
// who wants how much, for which step and by when.
func (b *builder) mise() *sheets.Sheet {
	var cut, weigh, made []*entry
	put := func(list *[]*entry, key, name, note string, a *demand.Amount) {
		i := slices.IndexFunc(*list, func(e *entry) bool { return e.key == key && e.note == note })
		if i < 0 {
			i = len(*list)
			*list = append(*list, &entry{key: key, name: name, note: note})
		}
		e := (*list)[i]
		e.uses = append(e.uses, a)
	}
	for _, m := range b.inOrder() {
		for _, a := range m.Lines {
			l := a.Line
			note, name := lineNote(l), shortName(l.Name)
			switch {
			case a.Source != nil || l.Carried != "":
				put(&made, l.Key, name, note, a)
			case l.Note.Text != "" || len(l.Prep) > 0:
				put(&cut, l.Key, name, note, a)
			case l.Water:
			default:
				put(&weigh, l.Key, name, note, a)
			}
		}
	}
	t := &sheets.Table{Columns: []sheets.Column{
		{Kind: sheets.TickColumn},
		{Title: "Amount", Kind: sheets.AmountColumn},
		{Title: "What", Kind: sheets.TextColumn, Weight: 5},
		{Title: "For", Kind: sheets.TextColumn, Weight: 4},
	}}
	if b.plan != nil {
		t.Columns = append(t.Columns, sheets.Column{Title: "Wanted by", Kind: sheets.TextColumn, Weight: 2})
	}
	t.Columns = append(t.Columns, sheets.Column{Title: "In what, where", Kind: sheets.PencilColumn, Weight: 3})
	all := slices.Concat(cut, weigh)
	for _, part := range []struct {
		title string
		list  []*entry
	}{{"Wash, trim and cut", cut}, {"Weigh and measure", weigh}, {"Made here or carried over: set out", made}} {
		if len(part.list) == 0 {
			continue
		}
		slices.SortStableFunc(part.list, func(x, y *entry) int { return strings.Compare(x.key, y.key) })
		g := sheets.Group{Title: part.title}
		for _, e := range part.list {
			what := sheets.Cell{Runs: []sheets.Run{{Text: b.title(e), Style: sheets.Thing}}}
			if e.note != "" {
				what.Runs = append(what.Runs, sheets.Run{Text: ", " + e.note})
			}
			what.Sub = quiet(b.inAll(e, all))
			e.steps = map[*demand.Amount]int{}
			for _, a := range e.uses {
				e.steps[a] = b.takenBy(a)
			}
			cells := []sheets.Cell{{}, {Runs: amountRun(b.amount(e))}, what, {Runs: b.shares(e)}}
			if b.plan != nil {
				cells = append(cells, say(b.wantedBy(e)))
			}
			g.Rows = append(g.Rows, sheets.Row{Cells: append(cells, sheets.Cell{})})
		}
		t.Groups = append(t.Groups, g)
	}
	if len(t.Groups) == 0 {
		return nil
	}
	return &sheets.Sheet{
		ID: b.id("mise-en-place"), Kind: sheets.Mise, Title: "Mise-en-place",
		Facts:  []string{"each thing and cut once, for all dishes that want it; E1 is step 1 of E", "amounts as on the prep sheets: the shopping list adds what is trimmed off"},
		Blocks: []sheets.Block{t},
	}
}

// inAll is the whole of an ingredient that is wanted in several cuts, said
// beside the first of them.
func (b *builder) inAll(e *entry, all []*entry) string {
	sum := entry{key: e.key, name: e.name}
	first := true
	for _, o := range all {
		if o.key != e.key {
			continue
		}
		if first && o != e {
			return ""
		}
		first = false
		sum.uses = append(sum.uses, o.uses...)
	}
	total := b.amount(&sum)
	if len(sum.uses) == len(e.uses) || total == "" {
		return ""
	}
	return "in all, cut this way and others: " + total
}

// takenBy is the first step that takes a line, by its printed number; 0 for
// none.
func (b *builder) takenBy(a *demand.Amount) int {
	for _, sr := range a.Making.Reading.Steps {
		for _, t := range sr.Takes {
			if t.Line == a.Line && !t.Refers && !b.plan.Skips(a.Making, sr.Step) {
				return b.plan.Number(a.Making, sr.Step)
			}
		}
	}
	return 0
}

// wantedBy is when the first step that takes each share begins, each day once;
// what no step names is wanted at the serving.
func (b *builder) wantedBy(e *entry) string {
	first := map[int]events.Moment{}
	var days []int
	for _, a := range e.uses {
		at, ok := b.wanted(a)
		if !ok {
			continue
		}
		d := b.plan.Day(at)
		was, seen := first[d]
		if !seen {
			days = append(days, d)
		}
		if !seen || at < was {
			first[d] = at
		}
	}
	slices.Sort(days)
	var out []string
	for _, d := range days {
		out = append(out, b.onDay(first[d]))
	}
	return strings.Join(out, ", ")
}

func (b *builder) wanted(a *demand.Amount) (events.Moment, bool) {
	for _, sr := range a.Making.Reading.Steps {
		for _, t := range sr.Takes {
			if t.Line != a.Line || t.Refers || b.plan.Skips(a.Making, sr.Step) {
				continue
			}
			if job := b.plan.First(a.Making, sr.Step); job != nil {
				return job.Start, true
			}
		}
	}
	for _, e := range b.plan.Each(events.Serve) {
		if e.Dish == a.Making {
			return e.Start, true
		}
	}
	return 0, false
}
