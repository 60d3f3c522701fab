package build

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"tamis/compiler/demand"
	"tamis/compiler/events"
	"tamis/compiler/sheets"
)

// brought is what earlier parts made for this one; on the day of the meal also
// what waits for it.
func (h *handouts) brought(p *demand.Part) *sheets.Table {
	g := sheets.Group{}
	for _, c := range h.series.Carries {
		if c.From == p || c.To != p && !h.series.Waits(c, p.Of) {
			continue
		}
		amount, to := "", ""
		if c.By != nil {
			amount = h.showLine(c.By)
			to = h.mark(c.By.Making) + " " + c.By.Making.Recipe.Name
		} else if h.series.Meal != nil {
			amount, to = h.wholeOf(c), "for "+h.series.Meal.Menu.Name
		}
		from := fmt.Sprintf("part %d", c.From.Of.Number)
		if c.From.Of.Date != nil {
			from += ", " + c.From.Of.Date.Format("2 January")
		}
		g.Rows = append(g.Rows, sheets.Row{Cells: []sheets.Cell{
			{},
			{Runs: amountRun(amount)},
			{Runs: []sheets.Run{{Text: c.Name(), Style: sheets.Thing}}, Sub: quiet(to)},
			say(from), say(h.keptText(c)),
		}})
	}
	return carryTable("Made in", 3, g)
}

// carryTable lists what goes from part to part: where from or what for, and how
// it is kept. nil: nothing does.
func carryTable(where string, weight int, g sheets.Group) *sheets.Table {
	if len(g.Rows) == 0 {
		return nil
	}
	return &sheets.Table{
		Columns: []sheets.Column{
			{Kind: sheets.TickColumn},
			{Title: "Amount", Kind: sheets.AmountColumn},
			{Title: "What", Kind: sheets.TextColumn, Weight: 7 - weight},
			{Title: where, Kind: sheets.TextColumn, Weight: weight},
			{Title: "Kept", Kind: sheets.TextColumn, Weight: 3},
		},
		Groups: []sheets.Group{g},
	}
}

func shopColumns() []sheets.Column {
	return []sheets.Column{
		{Kind: sheets.TickColumn}, {Title: "Buy", Kind: sheets.AmountColumn}, {Title: "What", Kind: sheets.TextColumn, Weight: 3}, {Title: "For", Kind: sheets.TextColumn, Weight: 2},
	}
}

// byClock is what the plan has on the day of a part, of the dishes it shows and
// those that earlier parts made for it, and what is done for them on the days
// before it. There is none without work on the day itself.
func (h *handouts) byClock(p *demand.Part) *sheets.Table {
	on, known := h.series.Eaten()
	if h.mealPlan == nil || !h.mealPlan.Clocked() || !known || p.Of.Date == nil {
		return nil
	}
	last := daysBetween(on, *p.Of.Date)
	first := h.firstDay(p, on)
	made := h.worked(p)
	shown := func(e *events.Event) (*demand.Making, bool) {
		if day := h.mealPlan.Day(e.At); e.Dish == nil || day < first || day > last {
			return nil, false
		}
		i := slices.IndexFunc(made, func(m *demand.Making) bool { return m.Recipe == e.Dish.Recipe })
		if i < 0 {
			return nil, false
		}
		return made[i], true
	}
	var baked []*events.Event
	onTheDay := false
	for _, e := range h.mealPlan.Each(events.Job) {
		if _, ok := shown(e); ok {
			onTheDay = onTheDay || h.mealPlan.Day(e.At) == last
			if e.Where.Oven != "" {
				baked = append(baked, e)
			}
		}
	}
	if !onTheDay {
		return nil
	}
	t := &sheets.Table{
		Columns: []sheets.Column{
			{Title: "Time", Kind: sheets.ClockColumn},
			{Kind: sheets.MarkColumn},
			{Title: "What", Kind: sheets.TextColumn, Weight: 5},
			{Title: "Who", Kind: sheets.TextColumn},
			{Title: "Where", Kind: sheets.TextColumn, Weight: 2},
			{Title: "How long", Kind: sheets.TextColumn, Weight: 1},
		},
	}
	var day days
	for _, e := range h.mealPlan.Events {
		var row sheets.Row
		m, ok := shown(e)
		switch {
		case e.Kind == events.Job && ok:
			row.Cells = []sheets.Cell{
				say(h.mealPlan.Clock(e.At)),
				{Runs: linked(h.mark(e.Dish), h.linkTo(m))},
				{Runs: plainRun(e.Words), Sub: quiet(h.ofDish(e))},
				say(strings.Join(e.Who, ", ")), say(h.place(e)), say(h.lengthOf(e)),
			}
		case e.Kind == events.Heat && slices.ContainsFunc(baked, func(j *events.Event) bool {
			return j.Where.Oven == e.Where.Oven && e.End <= j.Start && j.Start <= e.Setting.Until
		}):
			row.Cells = []sheets.Cell{
				say(h.mealPlan.Clock(e.At)), {}, say(e.Setting.Verb() + " the oven to " + e.Setting.Words), {}, say(e.Where.Oven), say(minutes(int(e.Length()))),
			}
		default:
			continue
		}
		if d := h.mealPlan.Day(e.At); day.turns(d) {
			t.Groups = append(t.Groups, sheets.Group{Title: longDate(on.AddDate(0, 0, d))})
		}
		g := &t.Groups[len(t.Groups)-1]
		g.Rows = append(g.Rows, row)
	}
	if len(t.Groups) == 1 {
		t.Groups[0].Title = "" // the day stands below the title of the sheet
	}
	return t
}

// firstDay is the day after the part before, counted from the day of the meal:
// what is done from there on is done for this part. A first part has only its
// own day, for nobody says how long before it the series begins.
func (h *handouts) firstDay(p *demand.Part, on time.Time) int {
	own := daysBetween(on, *p.Of.Date)
	first, found := 0, false
	for _, q := range h.series.Parts {
		if q.Of.Date == nil || !q.Of.Date.Before(*p.Of.Date) {
			continue
		}
		if d := daysBetween(on, *q.Of.Date) + 1; !found || d > first {
			first, found = d, true
		}
	}
	if !found {
		return own
	}
	return first
}

// daysBetween is how many days a date is after the day of the meal; below
// nothing before it.
func daysBetween(on, date time.Time) int { return int(math.Round(date.Sub(on).Hours() / 24)) }

// worked is what the presenter of a part has in hand: what it shows, and on the
// day of the meal also the dishes that wait for it.
func (h *handouts) worked(p *demand.Part) []*demand.Making {
	out := slices.Clone(p.Shown)
	for _, c := range h.series.Carries {
		if h.series.Waits(c, p.Of) && c.Supply == nil {
			out = append(out, c.Making)
		}
	}
	return out
}

// lengthOf is the whole length of a job, "1 h 30 min". Where it waits an hour or
// more longer than it must, that is not counted: "12 h 5 min or more".
func (h *handouts) lengthOf(e *events.Event) string {
	least := e.Length()
	for _, p := range e.Phases {
		if p.Stretch >= 60 {
			least -= p.Stretch
		}
	}
	if least < e.Length() {
		return h.dash(minutes(int(least))) + " or more"
	}
	return h.dash(minutes(int(least)))
}

// wholeOf says how much of a dish is carried: all of it, "for 10".
func (h *handouts) wholeOf(c *demand.Carry) string {
	if c.Supply != nil || c.Making.Portions.Sign() <= 0 {
		return ""
	}
	return "for " + h.eaters(c.Making)
}

// goesOn is what is made here and used later, or left, with how it is kept.
func (h *handouts) goesOn(p *demand.Part) *sheets.Table {
	g := sheets.Group{}
	row := func(amount, what, sub, to, kept string) {
		g.Rows = append(g.Rows, sheets.Row{Cells: []sheets.Cell{
			{},
			{Runs: amountRun(amount)},
			{Runs: []sheets.Run{{Text: what, Style: sheets.Thing}}, Sub: quiet(sub)},
			say(to), say(kept),
		}})
	}
	for _, c := range h.series.Carries {
		if c.From == p {
			row(cmp.Or(h.carriedAmount(c), h.wholeOf(c)), c.Name(), "", h.goesTo(c), h.keptText(c))
		}
	}
	for _, s := range p.Meal.Supplies {
		if left := h.fig.Supply(s).Left; left.Quantity.Value.High.Sign() > 0 && len(s.Draws) > 0 {
			kept := ""
			if k := s.Keeps(); k != nil {
				kept = "keeps " + k.String()
			}
			row(left.Text, s.Name, "from "+s.Making.Recipe.Name, "left over", kept)
		}
	}
	return carryTable("For", 4, g)
}
