package build

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"tamis/compiler/buying"
	"tamis/compiler/demand"
	"tamis/compiler/events"
	"tamis/compiler/resolve"
	"tamis/compiler/sheets"
)

// handouts carries what the paper of a series needs besides a builder.
type handouts struct {
	*builder
	series   *demand.Series
	mealPlan *events.List            // of the meal it leads to; nil when there is none
	sheetOf  map[*demand.Part]string // ids
	alone    map[*demand.Making]*events.List
	feast    *demand.Part // what is made for the meal and in none of the parts; nil: nothing is
	wants    []*wanted
	shopOn   []time.Time // the days of shopping, in order
}

func newHandouts(of Paper, opt Options) *handouts {
	h := &handouts{
		builder: &builder{
			opt: opt, books: of.Books, caresOnce: true, ids: map[string]bool{}, links: map[*demand.Making]string{},
			notebook: map[*resolve.Recipe]sheets.Mark{}, pages: map[*resolve.Recipe]string{},
		},
		series: of.Series, mealPlan: of.Plan, alone: of.Alone, sheetOf: map[*demand.Part]string{},
	}
	h.doc = &sheets.Document{Title: of.Series.Of.Name, By: byOf(of.Series.Of.Credits), Language: "en-GB", Revision: opt.Revision}
	h.letters()
	h.copies = numbered(of.Series)
	h.headOfSeries()
	h.feast = feastOf(of.Series)
	return h
}

// Crew makes the paper of those who show a series, for the day: the whole at a glance, what
// to buy for each part with its copies, and for each day of filming a sheet with all that is
// wanted there. A recipe stands in the running order of its day, and nowhere else.
func Crew(of Paper, opt Options) *sheets.Document {
	s, h := of.Series, newHandouts(of, opt)
	h.doc.Title, h.doc.File = s.Of.Name+": for the crew", seriesFile(s.Of)+" crew"
	glance, buy := h.id("series"), h.id("to-buy")
	for _, d := range of.Days {
		if len(d.Scenes) == 0 && len(d.Copies) == 0 {
			continue
		}
		id := h.id("filming")
		for _, p := range d.Of.Parts {
			h.sheetOf[p] = id
			for _, m := range slices.Concat(p.Shown, p.StandIns) {
				h.builder.links[m] = id
				if h.pages[m.Recipe] == "" {
					h.pages[m.Recipe] = id
				}
			}
		}
	}
	h.add(h.glance(glance))
	h.add(h.toBuy(buy))
	for _, d := range of.Days {
		h.add(h.filmingDay(d))
	}
	for _, p := range s.Parts {
		h.use(p.Meal)
		h.doc.Figures = append(h.doc.Figures, h.figuresOf(p)...)
	}
	h.shownAsData(s.Parts...)
	return h.doc
}

// numbered tells the copies of one dish apart where a part has several: "1", "2–3". They are
// counted as they stand (demand.Part.Copies).
func numbered(s *demand.Series) map[*resolve.StandIn]string {
	out := map[*resolve.StandIn]string{}
	for _, p := range s.Parts {
		of := map[*resolve.Recipe]int{}
		for _, one := range p.Copies() {
			of[one.Recipe] = one.Copy
		}
		for _, one := range p.Copies() {
			switch in := one.StandIn; {
			case of[one.Recipe] == 1:
			case out[in] == "":
				out[in] = fmt.Sprint(one.Copy)
			default:
				first, _, _ := strings.Cut(out[in], "–")
				out[in] = fmt.Sprintf("%s–%d", first, one.Copy)
			}
		}
	}
	return out
}

// letters gives every dish the letter it has on the sheets of the meal, so that
// one letter means one dish in both; the others follow.
func (h *handouts) letters() {
	give := func(r *resolve.Recipe) {
		if _, ok := h.notebook[r]; !ok {
			k := sheets.Mark{Letter: letterNumber(len(h.doc.Dishes)), Name: r.Name, Base: r.Base}
			h.notebook[r] = k
			h.doc.Dishes = append(h.doc.Dishes, k)
		}
	}
	if h.series.Meal != nil {
		of := &builder{meal: h.series.Meal}
		for _, m := range of.inOrder() {
			give(m.Recipe)
		}
	}
	for _, p := range h.series.Parts {
		for _, m := range p.Meal.Makings {
			give(m.Recipe)
		}
	}
}

// headOfSeries fills in what stands at the top of every page.
func (h *handouts) headOfSeries() {
	var first, last *time.Time
	for _, p := range h.series.Parts {
		if d := p.Of.Date; d != nil {
			if first == nil || d.Before(*first) {
				first = d
			}
			if last == nil || d.After(*last) {
				last = d
			}
		}
	}
	switch {
	case first == nil:
	case first.Equal(*last):
		h.doc.When = longDate(*first)
	case first.Year() == last.Year():
		h.doc.When = first.Format("2 January") + " to " + last.Format("2 January 2006")
	default:
		h.doc.When = first.Format("2 January 2006") + " to " + last.Format("2 January 2006")
	}
	meal := h.series.Meal
	if meal == nil {
		return
	}
	of := &builder{doc: &sheets.Document{}, opt: h.opt}
	of.use(meal)
	of.head()
	h.doc.Covers, h.doc.Place = of.doc.Covers, of.doc.Place
	if h.doc.By == "" {
		h.doc.By = of.doc.By
	}
}

// glance is the whole series on a page or two: the parts in order, what each
// makes, where that goes and how it is kept until then.
func (h *handouts) glance(id string) *sheets.Sheet {
	s := &sheets.Sheet{ID: id, Kind: sheets.Overview, Title: "The series at a glance"}
	s.Facts = append(s.Facts, plural(len(h.series.Parts), "part", "parts"))
	if meal := h.series.Meal; meal != nil {
		fact := "leads to " + meal.Menu.Name
		if meal.Menu.Serve != nil {
			fact += ", " + longDate(*meal.Menu.Serve) + ", " + meal.Menu.Serve.Format("15:04")
		}
		s.Facts = append(s.Facts, fact)
	} else {
		s.Facts = append(s.Facts, "amounts as written")
	}
	for _, c := range credits(h.series.Of.Credits) {
		if c != "by "+h.doc.By { // the head says it
			s.Facts = append(s.Facts, c)
		}
	}
	s.Blocks = append(s.Blocks, h.pictures(h.series.Of.Name, h.series.Of.Pictures)...)
	t := &sheets.Table{Columns: []sheets.Column{
		{Kind: sheets.MarkColumn},
		{Title: "What", Kind: sheets.TextColumn, Weight: 4},
		{Title: "Made", Kind: sheets.TextColumn, Weight: 2},
		{Title: "Used", Kind: sheets.TextColumn, Weight: 4},
		{Title: "Kept until then", Kind: sheets.TextColumn, Weight: 3},
		{Title: "Page", Kind: sheets.PageColumn},
	}}
	for _, p := range h.series.Parts {
		h.use(p.Meal)
		g := sheets.Group{Title: partTitle(p), Note: dated(p)}
		for _, m := range p.Shown {
			g.Rows = append(g.Rows, h.madeRows(p, m)...)
		}
		for _, m := range p.StandIns {
			g.Rows = append(g.Rows, sheets.Row{Cells: []sheets.Cell{
				say(h.mark(m)),
				{Runs: []sheets.Run{{Text: m.Recipe.Name, Style: sheets.Thing, Link: h.linkTo(m)}}},
				say(fmt.Sprint(m.StandIn.Count)), say("stands ready, " + asWhat(m)),
				{},
				onPage(h.linkTo(m)),
			}})
		}
		if len(g.Rows) > 0 {
			t.Groups = append(t.Groups, g)
		}
	}
	if len(t.Groups) > 0 {
		s.Blocks = append(s.Blocks, t)
	}
	if h.hasStandIns() {
		fact := "* is a copy that stands ready"
		if len(h.copies) > 0 {
			fact += ", *2 the second of its dish"
		}
		s.Facts = append(s.Facts, fact)
	}
	if t := h.bare(); t != nil {
		s.Blocks = append(s.Blocks, t)
	}
	if c := h.caresOf(h.mealsShown()); c != nil {
		s.Blocks = append(s.Blocks, c)
	}
	return s
}

// mealsShown are the meals of the parts that make something.
func (h *handouts) mealsShown() (out []*demand.Meal) {
	for _, p := range h.series.Parts {
		if len(p.Meal.Makings) > 0 {
			out = append(out, p.Meal)
		}
	}
	return out
}

// bare names the parts that show nothing.
func (h *handouts) bare() sheets.Block {
	l := &sheets.List{}
	for _, p := range h.series.Parts {
		if len(p.Meal.Makings) == 0 {
			l.Items = append(l.Items, plainRun(sideBySide(partTitle(p), dated(p), "nothing is made")))
		}
	}
	if len(l.Items) == 0 {
		return nil
	}
	return l
}

func (h *handouts) hasStandIns() bool {
	return slices.ContainsFunc(h.series.Parts, func(p *demand.Part) bool { return len(p.StandIns) > 0 })
}

func partTitle(p *demand.Part) string {
	if p.Of.Number == 0 { // the meal
		return p.Of.Name + ", besides the parts"
	}
	return fmt.Sprintf("Part %d: %s", p.Of.Number, p.Of.Name)
}

func dated(p *demand.Part) string {
	if p.Of.Date == nil {
		return ""
	}
	return longDate(*p.Of.Date)
}

// asWhat says how far a stand-in is made.
func asWhat(m *demand.Making) string {
	if m.StandIn.Moment == nil {
		return "finished"
	}
	return "as " + m.StandIn.Moment.Name
}

// madeRows are a dish or base of a part with what becomes of it, and what its
// steps give besides.
func (h *handouts) madeRows(p *demand.Part, m *demand.Making) []sheets.Row {
	made := ""
	var own *demand.Supply
	var besides []*demand.Supply
	for _, s := range h.meal.Supplies {
		switch {
		case s.Making != m:
		case s.Product == nil:
			own = s
		case len(s.Draws) > 0:
			besides = append(besides, s)
		}
	}
	switch {
	case m.Portions.Sign() > 0:
		made = "for " + h.eaters(m)
	case own != nil && own.Made.Value.High.Sign() > 0:
		made = h.fig.Supply(own).Made.Text
	}
	used, kept := h.becomes(p, m, own)
	rows := []sheets.Row{{Cells: []sheets.Cell{
		{Runs: linked(h.mark(m), h.linkTo(m))},
		{Runs: []sheets.Run{{Text: m.Recipe.Name, Style: sheets.Thing, Link: h.linkTo(m)}}},
		say(made), say(used), say(kept), onPage(h.linkTo(m)),
	}}}
	for _, s := range besides {
		used, kept := h.becomes(p, m, s)
		rows = append(rows, sheets.Row{Cells: []sheets.Cell{
			{Runs: linked(h.mark(m), h.linkTo(m))},
			{Runs: []sheets.Run{{Text: s.Name, Style: sheets.Thing}}, Sub: quiet("from " + m.Recipe.Name)},
			say(h.fig.Supply(s).Made.Text), say(used), say(kept),
		}})
	}
	return rows
}

// becomes says where something goes, and how it is kept until then. s is nil
// for a dish.
func (h *handouts) becomes(p *demand.Part, m *demand.Making, s *demand.Supply) (used, kept string) {
	var parts, keeps []string
	carried := false
	for _, c := range h.series.Carries {
		if c.Making != m || c.Supply != s {
			continue
		}
		carried = true
		parts = append(parts, strings.TrimSpace(h.carriedAmount(c)+" "+h.usedIn(c)))
		if k := h.keptText(c); k != "" && !slices.Contains(keeps, k) {
			keeps = append(keeps, k)
		}
	}
	if s != nil {
		for i, d := range s.Draws {
			if slices.Contains(p.Meal.Makings, d.By.Making) {
				parts = append(parts, h.fig.Supply(s).Draws[i].Text+" "+h.named(d.By.Making))
			}
		}
		if left := h.fig.Supply(s).Left; left.Quantity.Value.High.Sign() > 0 && len(s.Draws) > 0 {
			parts = append(parts, left.Text+" left")
		}
	}
	meal := h.series.Meal
	if s == nil && !carried && m.Serving != nil && meal != nil {
		switch {
		case h.series.EatenWith(p.Of):
			parts = append(parts, meal.Menu.Name+", the same day")
		default:
			parts = append(parts, "eaten that day; made again for "+meal.Menu.Name)
		}
	}
	return strings.Join(parts, "; "), strings.Join(keeps, "; ")
}

func (h *handouts) carriedAmount(c *demand.Carry) string {
	if c.Amount == nil || c.Supply == nil {
		return ""
	}
	if c.By != nil {
		if f := h.fig.Line(c.By); f.Quantity.Same(*c.Amount) {
			return f.Text
		}
	}
	return h.fig.OfSupply(c.Supply, *c.Amount)
}

// goesTo is where something carried is used: "part 4, A Hummus".
func (h *handouts) goesTo(c *demand.Carry) string {
	where := ""
	switch {
	case c.To != nil:
		where = fmt.Sprintf("part %d", c.To.Of.Number)
	case h.series.Meal != nil:
		where = h.series.Meal.Menu.Name
	}
	if c.By != nil {
		where += ", " + h.named(c.By.Making)
	}
	return where
}

// usedIn is the same in a sentence: "10 oz in part 2, F Stew".
func (h *handouts) usedIn(c *demand.Carry) string {
	if c.To != nil {
		return "in " + h.goesTo(c)
	}
	return h.goesTo(c)
}

// keptText is how something carried is kept: "freezer, use by 2 December".
func (h *handouts) keptText(c *demand.Carry) string {
	if c.Keeps == nil {
		return ""
	}
	if by, ok := c.UseBy(); ok {
		return c.Keeps.Place + ", use by " + by.Format("2 January")
	}
	return c.Keeps.Place + ", " + c.Keeps.Time.String()
}

// toBuy is the shopping of every part, one group each.
func (h *handouts) toBuy(id string) *sheets.Sheet {
	t := &sheets.Table{Columns: shopColumns()}
	for _, p := range h.occasions() {
		h.use(p.Meal)
		list := h.listOf(p)
		g := sheets.Group{Title: partTitle(p), Note: sideBySide(append([]string{dated(p)}, costs(list)...)...)}
		for _, it := range list.Items {
			g.Rows = append(g.Rows, h.shopRow(it))
		}
		if len(g.Rows) > 0 {
			t.Groups = append(t.Groups, g)
		}
	}
	if len(t.Groups) == 0 {
		return nil
	}
	return &sheets.Sheet{
		ID: id, Kind: sheets.Crew, Title: "To buy, part by part",
		Facts:  []string{"for what is shown and what stands ready", "what an earlier part made is not bought again", "tap water is not listed"},
		Blocks: []sheets.Block{t},
	}
}

// listOf is what is bought for one part. What is in the house is not taken off:
// it would come off once for each part.
func (h *handouts) listOf(p *demand.Part) *buying.List {
	h.use(p.Meal)
	return buying.Build(h.fig, nil)
}

// costs says what a list comes to, and what has no price; nothing where most
// things have none, for the figure would be no guide.
func costs(list *buying.List) (out []string) {
	if 2*len(list.Unpriced) > len(list.Items) {
		return nil
	}
	for _, c := range list.Costs {
		text := "what is used costs " + money(c)
		if i := slices.IndexFunc(list.Till, func(o buying.Cost) bool { return o.Currency == c.Currency }); i >= 0 {
			text += "; at the till " + money(list.Till[i])
		}
		if n := len(list.Unpriced); n > 0 {
			text = fmt.Sprintf("prices are known for %d of %s: ", len(list.Items)-n, plural(len(list.Items), "thing", "things")) +
				strings.Replace(text, "what is used costs", "what is used of these costs", 1)
		}
		out = append(out, text)
	}
	return out
}

// figuresOf are the amounts of a part, as data.
func (h *handouts) figuresOf(p *demand.Part) []sheets.Figure {
	out := slices.DeleteFunc(h.figures(), func(f sheets.Figure) bool { return f.Of == "made" || f.Of == "drawn" || f.Of == "left" }) // the list of what goes on says them in its own way
	for i := range out {
		if out[i].Sheet == "" {
			out[i].Sheet = h.sheetOf[p]
		}
	}
	return out
}
