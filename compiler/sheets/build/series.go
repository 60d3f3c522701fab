package build

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"tamis/compiler/buying"
	"tamis/compiler/demand"
	"tamis/compiler/events"
	"tamis/compiler/figures"
	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/compiler/sheets"
)

// Whole makes the document of a series: its parts with their leaves, what is bought on
// which day, the run-up to the meal it leads to and that meal's day as a chart. Copies
// that stand ready are the crew's, and not in it.
func Whole(of Paper, opt Options) *sheets.Document {
	of.Series = of.Series.Watched
	h := newHandouts(of, opt)
	h.doc.File, h.unmarked = seriesFile(of.Series.Of), true
	h.shopping()
	h.add(h.index())
	h.add(h.shopByDay())
	h.add(h.shopByPart())
	h.add(h.runUp())
	h.add(h.lastDay())
	h.shownAsData(of.Series.Parts...)
	return h.doc
}

// shownAsData gives the document every recipe that its parts show as data.
func (b *builder) shownAsData(parts ...*demand.Part) {
	for _, p := range parts {
		b.use(p.Meal)
		b.asData(p.Shown...)
	}
}

// index is the parts in order, what each makes, where that goes and how it is kept, with
// the leaf of each, on a screen.
func (h *handouts) index() *sheets.Sheet {
	s := &sheets.Sheet{ID: h.id("index"), Kind: sheets.Series, Title: h.series.Of.Name}
	s.Facts = append(s.Facts, plural(len(h.series.Parts), "part", "parts"))
	if meal := h.series.Meal; meal != nil {
		fact := "leads to " + meal.Menu.Name
		if meal.Menu.Serve != nil {
			fact += ", " + longDate(*meal.Menu.Serve) + ", " + meal.Menu.Serve.Format("15:04")
		}
		s.Facts = append(s.Facts, fact)
	}
	if h.doc.Place != "" {
		s.Facts = append(s.Facts, h.doc.Place)
	}
	s.Facts = append(s.Facts, credits(h.series.Of.Credits)...)
	if paras := Markdown(h.series.Of.Notes.About.Text); len(paras) > 0 {
		s.Blocks = append(s.Blocks, &sheets.Prose{Paras: paras})
	}
	s.Blocks = append(s.Blocks, h.pictures(h.series.Of.Name, h.series.Of.Pictures)...)
	if n := h.notes(&resolve.Notes{Equipment: h.series.Of.Notes.Equipment, Corrected: h.series.Of.Notes.Corrected}); n != nil {
		s.Blocks = append(s.Blocks, n)
	}
	t := &sheets.Table{Columns: []sheets.Column{
		{Title: "What", Kind: sheets.TextColumn, Weight: 4},
		{Title: "Made", Kind: sheets.TextColumn, Weight: 2},
		{Title: "Used", Kind: sheets.TextColumn, Weight: 4},
		{Title: "Kept until then", Kind: sheets.TextColumn, Weight: 3},
	}}
	for _, p := range h.series.Parts {
		h.use(p.Meal)
		g := sheets.Group{Title: partTitle(p), Note: dated(p)}
		if len(p.Shown) == 0 {
			g.Rows = append(g.Rows, sheets.Row{Cells: []sheets.Cell{say("nothing is made"), {}, {}, {}}})
		}
		for _, m := range p.Shown {
			for _, r := range h.madeRows(p, m) {
				what := r.Cells[1]
				what.Runs = slices.Clone(what.Runs)
				what.Runs[0].Link = "doc:" + leafFile(h.series.Of, p.Of)
				g.Rows = append(g.Rows, sheets.Row{Cells: append([]sheets.Cell{what}, r.Cells[2:5]...)})
			}
		}
		t.Groups = append(t.Groups, g)
	}
	s.Blocks = append(s.Blocks, t)
	return s
}

// wanted is a thing to buy for a part, and the days from the meal's on which it is used.
type wanted struct {
	part *demand.Part
	item *buying.Item
	use  time.Time // the first day on which a step or a preparation takes it
	last time.Time
	buy  time.Time
}

// shopping works out what is bought for the parts of a series and on
// which day: of what keeps, on the first day of shopping from which it keeps until it is
// used, else on the last before. Without a date for every part that buys anything there
// are no days.
func (h *handouts) shopping() {
	h.wants, h.shopOn = nil, nil
	dates := true
	for _, p := range h.occasions() {
		for _, it := range h.boughtFor(p).Items {
			w := &wanted{part: p, item: it}
			if p.Of.Date == nil {
				dates = false
			} else {
				w.use, w.last = h.usedFor(p, it)
			}
			h.wants = append(h.wants, w)
		}
	}
	if !dates {
		return
	}
	add := func(d time.Time) {
		if !slices.ContainsFunc(h.shopOn, d.Equal) {
			h.shopOn = append(h.shopOn, d)
		}
	}
	if h.series.Meal != nil {
		for _, d := range h.series.Meal.Menu.Shop {
			add(d)
		}
	}
	for _, p := range h.occasions() {
		first, any := time.Time{}, false
		for _, w := range h.wants {
			if w.part == p && (!any || w.use.Before(first)) {
				first, any = w.use, true
			}
		}
		if any && !slices.ContainsFunc(h.shopOn, func(d time.Time) bool { return d.Before(first) && first.Sub(d) <= 48*time.Hour }) {
			add(first.AddDate(0, 0, -1))
		}
	}
	slices.SortFunc(h.shopOn, time.Time.Compare)
	inOneGo(h.wants, h.shopOn)
}

// window is the first and the last day on which a thing may be bought: not before it keeps
// until it is used, and not after it is first used.
func (w *wanted) window(days []time.Time) (first, last time.Time) {
	first, last = days[0], days[0]
	keeps, found := w.item.Keeps(), false
	for _, d := range days {
		if d.After(w.use) {
			break
		}
		last = d
		if !found && (w.item.Cupboard || keeps == 0 || int(w.last.Sub(d)/(24*time.Hour)) <= keeps) {
			first, found = d, true
		}
	}
	if !found {
		first = last
	}
	return first, last
}

// inOneGo gives each thing its day: as early as it keeps, and on one day for as many parts as
// can be, so that what the first leaves of a box is not bought again.
func inOneGo(wants []*wanted, days []time.Time) {
	of := map[string][]*wanted{}
	for _, w := range wants {
		of[w.item.Key] = append(of[w.item.Key], w)
	}
	for _, list := range of {
		for len(list) > 0 {
			day := time.Time{}
			for _, w := range list {
				if first, _ := w.window(days); first.After(day) {
					day = first
				}
			}
			rest := list[:0:0]
			for _, w := range list {
				if _, last := w.window(days); last.Before(day) {
					rest = append(rest, w)
				} else {
					w.buy = day
				}
			}
			list = rest
		}
	}
}

// usedFor is the first and last day on which a thing is used for a part: on the day of the part,
// or on the days before it that the plan of the meal, or how long its dish takes by itself, asks for.
func (h *handouts) usedFor(p *demand.Part, it *buying.Item) (first, last time.Time) {
	day := *p.Of.Date
	first, last = day, day
	on, known := h.series.Eaten()
	for i, u := range it.Uses {
		from, to := day, day
		if served := servedLine(h.series.Meal, u.Amount); served != nil && known && h.mealPlan != nil && h.mealPlan.Clocked() {
			of := &builder{meal: h.series.Meal, plan: h.mealPlan}
			a, b := of.usedOn(served)
			low, high := h.firstDay(p, on), daysBetween(on, day)
			from, to = on.AddDate(0, 0, max(low, min(a, high))), on.AddDate(0, 0, max(low, min(b, high)))
		} else if !h.waitsForMeal(p, u.Amount.Making) {
			from = day.AddDate(0, 0, -h.daysAhead(u.Amount.Making))
		}
		if i == 0 {
			first, last = from, to
			continue
		}
		if from.Before(first) {
			first = from
		}
		if to.After(last) {
			last = to
		}
	}
	return first, last
}

// servedLine is the line of a part's dish as the meal itself makes it; nil where it does not.
func servedLine(meal *demand.Meal, a *demand.Amount) *demand.Amount {
	if meal == nil {
		return nil
	}
	for _, m := range meal.Makings {
		if m.Recipe == a.Making.Recipe {
			return m.Of(a.Line)
		}
	}
	return nil
}

// waitsForMeal tells whether a dish of a part is made there and kept for the meal.
func (h *handouts) waitsForMeal(p *demand.Part, m *demand.Making) bool {
	return slices.ContainsFunc(h.series.Carries, func(c *demand.Carry) bool {
		return c.From == p && c.To == nil && c.Supply == nil && c.Making.Recipe == m.Recipe
	})
}

// daysAhead is how many days before it is eaten a dish is begun, by its plan alone: what
// takes longer than a long day's cooking began the day before.
func (h *handouts) daysAhead(m *demand.Making) int {
	const day = 10 * 60
	for of, plan := range h.alone {
		if of.Recipe != m.Recipe || m.Recipe.Base {
			continue
		}
		jobs := plan.JobsOf(of)
		if len(jobs) == 0 {
			return 0
		}
		if before := -int(jobs[0].Start); before > day {
			return (before - day + 24*60 - 1) / (24 * 60)
		}
	}
	return 0
}

// boughtFor is what is bought for a part by itself.
func (h *handouts) boughtFor(p *demand.Part) *buying.List {
	return h.listOfLines(p.Meal, func(a *demand.Amount) bool { return !h.forFeast(p, a.Making) })
}

// listOfLines is what is bought for some of the lines of meals.
func (h *handouts) listOfLines(meal *demand.Meal, keep func(*demand.Amount) bool) *buying.List {
	some := *meal
	some.Makings = nil
	for _, m := range meal.Makings {
		part := *m
		part.Lines = nil
		for _, a := range m.Lines {
			if keep(a) {
				part.Lines = append(part.Lines, a)
			}
		}
		some.Makings = append(some.Makings, &part)
	}
	return buying.Build(figures.Of(&some, figures.Options{Units: h.opt.Units, Dash: h.opt.Dash}), nil)
}

// shopByDay is what is bought on each day, for whichever part.
func (h *handouts) shopByDay() *sheets.Sheet {
	if len(h.shopOn) == 0 {
		return nil
	}
	t := &sheets.Table{Columns: shopColumns()}
	all := &demand.Meal{}
	for _, p := range h.occasions() {
		all.Makings = append(all.Makings, p.Meal.Makings...)
		all.Supplies = append(all.Supplies, p.Meal.Supplies...)
	}
	h.fig = figures.Of(all, figures.Options{Units: h.opt.Units, Dash: h.opt.Dash})
	for _, day := range h.shopOn {
		on := map[*demand.Amount]*demand.Part{}
		for _, w := range h.wants {
			if w.buy.Equal(day) {
				for _, u := range w.item.Uses {
					on[u.Amount] = w.part
				}
			}
		}
		list := h.listOfLines(all, func(a *demand.Amount) bool { return on[a] != nil })
		for _, it := range list.Items {
			row := h.shopRow(it)
			row.Cells[3] = sheets.Cell{Runs: h.partsOf(it, on)}
			g := atCounter(t, it, longDate(day))
			g.Rows = append(g.Rows, row)
		}
	}
	if len(t.Groups) == 0 {
		return nil
	}
	facts := []string{}
	for i, d := range h.shopOn {
		day := d.Format("Monday 2 January")
		if i == 0 {
			day = "shop on " + day
		}
		facts = append(facts, day)
	}
	return &sheets.Sheet{
		ID: h.id("shopping"), Kind: sheets.Shopping, Title: "Shopping, day by day",
		Facts:  append(facts, "what keeps is bought first, what does not near its use", "what an earlier part made is not bought again"),
		Blocks: []sheets.Block{t},
	}
}

// partsOf says for which parts a thing is bought, and how much for each.
func (h *handouts) partsOf(it *buying.Item, on map[*demand.Amount]*demand.Part) (out []sheets.Run) {
	for _, p := range h.occasions() {
		var uses []*demand.Amount
		for _, u := range it.Uses {
			if on[u.Amount] == p {
				uses = append(uses, u.Amount)
			}
		}
		if len(uses) == 0 {
			continue
		}
		if len(out) > 0 {
			out = append(out, sheets.Run{Text: " · "})
		}
		if p == h.feast {
			out = append(out, sheets.Run{Text: p.Of.Name, Style: sheets.Strong})
		} else {
			out = append(out, sheets.Run{Text: fmt.Sprintf("part\u00a0%d", p.Of.Number), Style: sheets.Strong, Link: "doc:" + leafFile(h.series.Of, p.Of)})
		}
		if len(uses) == len(it.Uses) || it.Parts { // whole for its parts: what the parts take does not add up to it
			continue
		}
		var sums []string
		for _, f := range h.fig.Sum(uses) {
			sums = append(sums, f.Text)
		}
		if text := figures.Join(sums); text != "" {
			out = append(out, sheets.Run{Text: ":\u00a0" + text}) // "part 4: 1"
		}
	}
	return out
}

// shopByPart is the same part by part, with the day for each thing.
func (h *handouts) shopByPart() *sheets.Sheet {
	t := &sheets.Table{Columns: shopColumns()}
	if len(h.shopOn) > 0 {
		t.Columns = append(t.Columns, sheets.Column{Title: "On", Kind: sheets.TextColumn, Weight: 1})
	}
	for _, p := range h.occasions() {
		h.use(p.Meal)
		g := sheets.Group{Title: partTitle(p), Note: dated(p)}
		for _, w := range h.wants {
			if w.part != p {
				continue
			}
			row := h.shopRow(w.item)
			if len(h.shopOn) > 0 {
				row.Cells = append(row.Cells, say(w.buy.Format("Mon 2 Jan")))
			}
			g.Rows = append(g.Rows, row)
		}
		if len(g.Rows) > 0 {
			t.Groups = append(t.Groups, g)
		}
	}
	if len(t.Groups) == 0 {
		return nil
	}
	return &sheets.Sheet{
		ID: h.id("by-part"), Kind: sheets.Shopping, Title: "Shopping, part by part",
		Facts:  []string{"what an earlier part made is not bought again", "tap water is not listed"},
		Blocks: []sheets.Block{t},
	}
}

// runUp counts the days to the meal: shopping, parts, what the plan has on the days before,
// and by when what is left of a part has to be used.
func (h *handouts) runUp() *sheets.Sheet {
	on, known := h.series.Eaten()
	if !known {
		return nil
	}
	type entry struct {
		day   time.Time
		order int
		row   sheets.Row
	}
	var list []entry
	add := func(day time.Time, order int, what []sheets.Run, sub, note string) {
		list = append(list, entry{day, order, sheets.Row{Cells: []sheets.Cell{{}, {Runs: what, Sub: quiet(sub)}, say(note)}}})
	}
	for _, d := range h.shopOn {
		parts, feast, n := []string{}, false, 0
		for _, w := range h.wants {
			if w.buy.Equal(d) {
				n++
				if w.part == h.feast {
					feast = true
				} else if no := fmt.Sprint(w.part.Of.Number); !slices.Contains(parts, no) {
					parts = append(parts, no)
				}
			}
		}
		var whom []string
		switch len(parts) {
		case 0:
		case 1:
			whom = append(whom, "part "+parts[0])
		default:
			whom = append(whom, "parts "+strings.Join(parts, ", "))
		}
		if feast {
			whom = append(whom, h.feast.Of.Name)
		}
		if n > 0 {
			add(d, 0, []sheets.Run{{Text: "Shop", Style: sheets.Strong}, {Text: ": " + plural(n, "thing", "things")}}, "", "for "+strings.Join(whom, "; "))
		}
	}
	for _, p := range h.series.Parts {
		if p.Of.Date == nil {
			continue
		}
		var names []string
		for _, m := range p.Shown {
			names = append(names, m.Recipe.Name)
		}
		add(*p.Of.Date, 2, []sheets.Run{{Text: partTitle(p), Style: sheets.Strong, Link: "doc:" + leafFile(h.series.Of, p.Of)}}, strings.Join(names, ", "), "")
	}
	for _, p := range h.series.Parts {
		h.use(p.Meal)
		for _, s := range p.Meal.Supplies {
			by, ok := p.UseBy(s.Keeps())
			left := h.fig.Supply(s).Left
			if !ok || len(s.Draws) == 0 || left.Quantity.Value.High.Sign() <= 0 {
				continue // what is used up needs no last day
			}
			add(by, 3, plainRun("Use by today: "+left.Text+" "+larder.Small(s.Name)), fmt.Sprintf("left of part %d", p.Of.Number), "")
		}
	}
	if h.mealPlan != nil && h.mealPlan.Clocked() {
		of := &builder{meal: h.series.Meal, plan: h.mealPlan, opt: h.opt}
		of.use(h.series.Meal)
		first := map[int]bool{}
		for _, e := range h.mealPlan.Events {
			d := h.mealPlan.Day(e.At)
			switch {
			case d < 0 && e.Kind == events.Job:
				add(on.AddDate(0, 0, d), 4, []sheets.Run{{Text: h.mealPlan.Clock(e.At) + " ", Style: sheets.Strong}, {Text: e.Words}}, of.ofDish(e), strings.Join(e.Who, ", "))
			case d == 0 && e.Kind == events.Job && !first[d]:
				first[d] = true
				add(on, 4, []sheets.Run{{Text: h.mealPlan.Clock(e.At) + " ", Style: sheets.Strong}, {Text: "Work begins"}}, e.Words, strings.Join(e.Who, ", "))
			case d == 0 && e.Kind == events.Serve:
				add(on, 5, []sheets.Run{{Text: h.mealPlan.Clock(e.At) + " ", Style: sheets.Strong}, {Text: e.Thing}}, e.Course, "")
			}
		}
	}
	slices.SortStableFunc(list, func(x, y entry) int { return cmp.Or(x.day.Compare(y.day), cmp.Compare(x.order, y.order)) })
	t := &sheets.Table{Columns: []sheets.Column{{Kind: sheets.TickColumn}, {Title: "What", Kind: sheets.TextColumn, Weight: 6}, {Title: "Who, what for", Kind: sheets.TextColumn, Weight: 2}}}
	for _, e := range list {
		title := e.day.Format("Monday 2 January")
		if n := len(t.Groups); n == 0 || t.Groups[n-1].Title != title {
			t.Groups = append(t.Groups, sheets.Group{Title: title, Note: countedDay(daysBetween(on, e.day))})
		}
		g := &t.Groups[len(t.Groups)-1]
		g.Rows = append(g.Rows, e.row)
	}
	if len(t.Groups) == 0 {
		return nil
	}
	return &sheets.Sheet{ID: h.id("run-up"), Kind: sheets.Series, Title: "Countdown to " + h.series.Meal.Menu.Name, Facts: []string{"T is " + longDate(on)}, Blocks: []sheets.Block{t}}
}

// lastDay is the chart of the day of the meal, all its dishes on one axis.
func (h *handouts) lastDay() *sheets.Sheet {
	if h.mealPlan == nil || !h.mealPlan.Clocked() {
		return nil
	}
	b := &builder{opt: h.opt, plan: h.mealPlan, doc: h.doc, ids: h.ids, notebook: h.notebook, links: map[*demand.Making]string{}}
	b.use(h.series.Meal)
	s := b.chart()
	if s == nil {
		return nil
	}
	s.Title, s.Facts = "The last day", nil
	if b.plan.Note != "" {
		s.Facts = append(s.Facts, b.plan.Note)
	}
	c := s.Blocks[0].(*sheets.Chart)
	c.Text = "The countdown says when work begins and what is served when."
	c.Panels = slices.DeleteFunc(c.Panels, func(p sheets.Panel) bool { return p.Title != b.dayTitle(0) })
	if len(c.Panels) == 0 {
		return nil
	}
	return s
}

// Together has each of the documents of a series know the others.
func Together(docs []*sheets.Document) {
	if len(docs) < 2 {
		return
	}
	var all []sheets.Beside
	for _, d := range docs {
		title := d.Title
		if len(d.Sheets) > 0 && d.Sheets[0].Kind == sheets.Leaf {
			part, _, _ := strings.Cut(d.Sheets[0].Blocks[0].(*sheets.Masthead).Part, " of ")
			title = larder.Capital(part) + ": " + d.Sheets[0].Title
		}
		all = append(all, sheets.Beside{File: d.File, Title: title})
	}
	for _, d := range docs {
		d.Folder = slices.Clone(all)
	}
}
