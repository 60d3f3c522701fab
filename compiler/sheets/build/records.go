package build

import (
	"fmt"
	"slices"
	"strings"

	"tamis/compiler/demand"
	"tamis/compiler/events"
	"tamis/compiler/hazard"
	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/compiler/sheets"
)

// allergenTable is a grid: a row for each dish, a column for each allergen that is in any
// of them by what is listed, or that a label may name. It never says that a thing is
// absent: an empty field is no promise.
func (b *builder) allergenTable() *sheets.Sheet {
	shown := hazard.AllergenList(b.practice())
	var dishes []allergenRow
	add := func(m *demand.Making, course, chosen string) {
		dishes = append(dishes, allergenRow{making: m, name: m.Recipe.Name, course: course, said: chosen, list: shown, found: hazard.AllergensOf(shown, b.thingsOf(m))})
	}
	if menu := b.meal.Menu; menu != nil {
		for _, c := range menu.Courses {
			for _, s := range c.Servings {
				if m := b.makingOf(s); m != nil {
					add(m, c.Name, b.chosen(s))
					continue
				}
				row := allergenRow{name: s.Name, course: c.Name, said: sideBySide(sold(s), "read the label of "+s.Name)}
				if s.ToWrite {
					row.said = "not written yet: ask the cook"
				}
				dishes = append(dishes, row)
			}
		}
	} else {
		for _, m := range b.inOrder() {
			if m.Supply == nil {
				add(m, "", "")
			}
		}
	}
	if len(dishes) == 0 {
		return nil
	}
	var names []string
	for _, d := range dishes {
		for _, n := range slices.Concat(d.found.Contains, d.mayHold()) {
			if !slices.Contains(names, n) {
				names = append(names, n)
			}
		}
	}
	slices.Sort(names)
	t := &sheets.Table{Columns: []sheets.Column{{Kind: sheets.MarkColumn}, {Title: "Dish", Kind: sheets.TextColumn, Weight: 5}}}
	for _, n := range names {
		t.Columns = append(t.Columns, sheets.Column{Title: larder.Capital(n), Kind: sheets.TextColumn})
	}
	t.Columns = append(t.Columns, sheets.Column{Title: "Checked by", Kind: sheets.PencilColumn, Weight: 2})
	for _, d := range dishes {
		if n := len(t.Groups); n == 0 || t.Groups[n-1].Title != d.course {
			t.Groups = append(t.Groups, sheets.Group{Title: d.course})
		}
		g := &t.Groups[len(t.Groups)-1]
		g.Rows = append(g.Rows, b.allergensOf(d, names))
	}
	return &sheets.Sheet{
		ID: b.id("allergens"), Kind: sheets.Allergens, Title: "Allergens", Wide: len(names) > 6,
		Facts: []string{fmt.Sprintf("by the %s list of allergens; bases included", shown), "“milk: label” is what its maker may add", "an empty field is no promise: read labels and ask your guests"},
		Blocks: []sheets.Block{t, &sheets.Cautions{Items: []sheets.Caution{{
			Text: "Worked out from the ingredients as written. What a maker adds, what is swapped in the kitchen and what is carried over on hands and boards is not known here. Who serves people with allergies answers to local rules and to qualified advice.",
		}}}},
	}
}

// allergenRow is a dish of the grid; making is nil for what is bought.
type allergenRow struct {
	list               string // of the practice
	making             *demand.Making
	name, course, said string
	found              hazard.Allergens
}

// mayHold are the allergens that only a label can tell.
func (d *allergenRow) mayHold() (out []string) {
	for _, l := range d.found.Labels {
		out = append(out, l.May...)
	}
	return out
}

// allergensOf is the row of a dish: each allergen by its name under its own, so that no
// finger has to run up to the head of the column.
func (b *builder) allergensOf(d allergenRow, names []string) sheets.Row {
	said := []string{d.said}
	if labels := d.found.LabelNames(); len(labels) > 0 {
		said = append(said, "read the label of "+strings.Join(labels, ", "))
	}
	if len(d.found.Unknown) > 0 {
		said = append(said, "not known to the larder: "+strings.Join(d.found.Unknown, "; "))
	}
	if d.making != nil {
		said = append(said, swapped(d.making, d.list, d.found)...)
	}
	name := sheets.Cell{Runs: []sheets.Run{{Text: d.name, Style: sheets.Thing}}, Sub: quiet(sideBySide(said...))}
	mark := sheets.Cell{}
	if d.making != nil {
		mark.Runs = linked(b.mark(d.making), b.linkTo(d.making))
	}
	row := sheets.Row{Cells: []sheets.Cell{mark, name}}
	may := d.mayHold()
	for _, n := range names {
		c := sheets.Cell{}
		switch {
		case slices.Contains(d.found.Contains, n):
			c.Runs = []sheets.Run{{Text: n, Style: sheets.Strong}}
		case slices.Contains(may, n):
			c.Runs = []sheets.Run{{Text: n + ": label", Style: sheets.Quiet}}
		}
		row.Cells = append(row.Cells, c)
	}
	row.Cells = append(row.Cells, sheets.Cell{})
	return row
}

// chosen says what a serving chooses: "with almonds".
func (b *builder) chosen(s *resolve.Serving) string {
	var out []string
	for _, c := range s.Recipe.Choices {
		if o := s.Chosen[c]; o != nil {
			out = append(out, o.Label)
		}
	}
	return strings.Join(out, ", ")
}

// labels are date labels for everything that is kept: bases, pauses and what
// is left over.
func (b *builder) labels() *sheets.Sheet {
	t := &sheets.Table{Columns: []sheets.Column{
		{Kind: sheets.MarkColumn},
		{Title: "What", Kind: sheets.TextColumn, Weight: 4},
		{Title: "Made", Kind: sheets.TextColumn, Weight: 2},
		{Title: "Use by", Kind: sheets.TextColumn, Weight: 2},
		{Title: "Contains", Kind: sheets.TextColumn, Weight: 4},
		{Title: "Initials", Kind: sheets.PencilColumn, Weight: 2},
	}}
	g := sheets.Group{}
	add := func(m *demand.Making, name, amount, place string, made, until events.Moment, known bool) {
		row := sheets.Row{Cells: make([]sheets.Cell, 6)}
		row.Cells[0] = say(b.mark(m))
		row.Cells[1] = sheets.Cell{Runs: []sheets.Run{{Text: name, Style: sheets.Thing}}, Sub: quiet(sideBySide(amount, place))}
		if known {
			row.Cells[2] = sheets.Cell{Runs: plainRun(prefixed("made ", b.labelDate(made)))}
			row.Cells[3] = sheets.Cell{Runs: []sheets.Run{{Text: prefixed("use by ", b.labelDate(until)), Style: sheets.Strong}}}
		}
		a := hazard.AllergensOf(hazard.AllergenList(b.practice()), b.thingsOf(m))
		row.Cells[4] = sheets.Cell{Runs: plainRun(prefixed("contains ", strings.Join(a.Contains, ", "))), Sub: quiet(notListed(a))}
		g.Rows = append(g.Rows, row)
	}
	for _, s := range b.meal.Supplies {
		if s.Product != nil && s.Left.Value.High.Sign() <= 0 && s.Keeps() == nil {
			continue
		}
		made, known := b.doneAt(s.Making)
		until, keeps := b.until(s.Making, map[*demand.Making]bool{})
		place := ""
		if k := s.Making.Recipe.Keeps; k != nil {
			place = k.Place
		}
		add(s.Making, s.Name, b.fig.Supply(s).Made.Text, place, made, until, known && keeps)
	}
	for _, m := range b.inOrder() {
		pauses := false
		for _, p := range m.Recipe.Pauses {
			if taken, known := b.plan.Paused(m, p); known && taken {
				made := b.beforePause(m, p.After)
				add(m, m.Recipe.Name, "for "+b.eaters(m), p.Place, made, b.plan.KeptFrom(made, p.UpTo), true)
				pauses = true
			}
		}
		if j := b.overNight(m); j != nil && m.Supply == nil && !pauses {
			made, until, known := b.stands(m, j)
			add(m, m.Recipe.Name, "for "+b.eaters(m), j.Last().Place, made, until, known)
		}
	}
	if len(g.Rows) == 0 {
		return nil
	}
	t.Groups = []sheets.Group{g}
	return &sheets.Sheet{
		ID: b.id("labels"), Kind: sheets.DateLabels, Title: "Date labels", Wide: true,
		Facts: []string{"cut along the lines; a mixture goes by its earliest part; an empty field is for a pen; one for each tub"}, Blocks: []sheets.Block{t},
	}
}

// overNight is the last step of a making that leaves it over night in the fridge,
// the freezer or the larder; nil when none does, or without a clock.
func (b *builder) overNight(m *demand.Making) (last *events.Event) {
	if b.plan == nil || !b.plan.Clocked() {
		return nil
	}
	for _, j := range b.plan.JobsOf(m) {
		p := j.Last()
		kept := p.Place == "fridge" || p.Place == "freezer" || p.Place == "cool place"
		if j.Step != nil && p.Kind == resolve.Leave && kept && b.plan.Day(p.Start) < b.plan.Day(p.End) {
			last = j
		}
	}
	return last
}

// stands is since when a dish stands, and until when it may, by its `keeps` or
// by what its step allows; known tells whether either says so.
func (b *builder) stands(m *demand.Making, j *events.Event) (made, until events.Moment, known bool) {
	made = j.Last().Start
	if k := m.Recipe.Keeps; k != nil {
		return made, b.plan.KeptFrom(made, max(k.Time.High, k.Time.UpTo)), true
	}
	phases := j.Step.Step.Phases
	if f := phases[len(phases)-1].Fixed; f != nil && f.UpTo > 0 {
		return made, b.plan.KeptFrom(made, f.UpTo), true
	}
	return made, made, false
}

// prefixed says what a text is, since a strip loses its column's head.
func prefixed(prefix, text string) string {
	if text == "" {
		return ""
	}
	return prefix + text
}

// sideBySide puts what is not empty side by side.
func sideBySide(parts ...string) string {
	return strings.Join(slices.DeleteFunc(parts, func(s string) bool { return s == "" }), " · ")
}

// labelDate writes a moment for a label: "Sat 18 Sep 16:30".
func (b *builder) labelDate(m events.Moment) string {
	if b.meal.Menu == nil || b.meal.Menu.Serve == nil {
		return ""
	}
	return b.meal.Menu.Serve.AddDate(0, 0, b.plan.Day(m)).Format("Mon 2 Jan ") + b.plan.Clock(m)
}

// doneAt is when a making counts as made: when it last left the heat, since a
// night in the fridge is part of its keeping; uncooked, when its last job ends.
func (b *builder) doneAt(m *demand.Making) (events.Moment, bool) {
	return b.madeAt(m, func(*events.Event) bool { return true })
}

// beforePause is the same of the work before a pause: what waits cold has been
// keeping since it left the heat.
func (b *builder) beforePause(m *demand.Making, after int) events.Moment {
	made, _ := b.madeAt(m, func(j *events.Event) bool { return j.Step != nil && j.Step.Step.Index < after })
	return made
}

// madeAt is when the last of these jobs that used heat ends; if none did, when
// the last of them ends.
func (b *builder) madeAt(m *demand.Making, counts func(*events.Event) bool) (last events.Moment, found bool) {
	if b.plan == nil || !b.plan.Clocked() {
		return 0, false
	}
	hot := false
	for _, j := range b.plan.JobsOf(m) {
		if !counts(j) {
			continue
		}
		heated := j.Where.Oven != "" || j.Where.Rings > 0 || j.Where.Grill
		if hot && !heated {
			continue
		}
		if heated && !hot || !found || j.End > last {
			last, found = j.End, true
		}
		hot = hot || heated
	}
	return last, found
}

// useBy is the day by which what is left of a base must be used; empty where
// the plan or the recipe does not say.
func (b *builder) useBy(s *demand.Supply) string {
	if s.Product != nil || b.plan == nil {
		return ""
	}
	u, ok := b.until(s.Making, map[*demand.Making]bool{})
	if !ok {
		return ""
	}
	return b.labelDate(u)
}

// until is when a base must be used up: by its own `keeps`, and no later than
// any base it was made with (the earliest part rules).
func (b *builder) until(m *demand.Making, seen map[*demand.Making]bool) (events.Moment, bool) {
	if seen[m] {
		return 0, false
	}
	seen[m] = true
	done, ok := b.doneAt(m)
	k := m.Recipe.Keeps
	if !ok || k == nil {
		return 0, false
	}
	keep := max(k.Time.High, k.Time.UpTo)
	until := b.plan.KeptFrom(done, keep)
	for _, a := range m.Lines {
		if a.Source == nil || a.Source == m {
			continue
		}
		if u, ok := b.until(a.Source, seen); ok && u < until {
			until = u
		}
	}
	return until, true
}
