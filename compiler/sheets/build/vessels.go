package build

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"tamis/compiler/demand"
	"tamis/compiler/events"
	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/compiler/sheets"
)

// taken is a span of time in which a making keeps hold of something.
type taken struct {
	from, to events.Moment
	making   *demand.Making
	number   int    // of the step, as printed
	thing    string // "wide pan"; empty where it says nothing
	count    int
}

// gear is one kind of pot, tin or tool with all who want it.
type gear struct {
	name, holds string
	steps       []stepRef
	count       int // wanted by one step
	spans       []taken
}

// stepRef is a step of a making.
type stepRef struct {
	making *demand.Making
	number int
}

// vessels lists the pots, tins and tools the steps name: how many are wanted at
// once and when, what the kitchen has, and for which steps. The busiest moments
// of rings, ovens and pots stand above.
func (b *builder) vessels() *sheets.Sheet {
	list := b.gear()
	if len(list) == 0 {
		return nil
	}
	t := &sheets.Table{Columns: []sheets.Column{
		{Kind: sheets.TickColumn},
		{Title: "At once", Kind: sheets.AmountColumn},
		{Title: "What", Kind: sheets.TextColumn, Weight: 4},
		{Title: "Busiest", Kind: sheets.TextColumn, Weight: 4},
		{Title: "Dish and step", Kind: sheets.TextColumn, Weight: 3},
	}}
	g := sheets.Group{}
	for _, u := range list {
		n, when := u.count, ""
		if p := peakOf(u.spans); len(p) > 0 {
			n = countOfAll(p)
			if len(p) > 1 {
				when = b.span(p) + ": " + b.whose(p, false)
			}
		}
		g.Rows = append(g.Rows, sheets.Row{Cells: []sheets.Cell{
			{},
			{Runs: amountRun(fmt.Sprint(n))},
			{Runs: []sheets.Run{{Text: u.name, Style: sheets.Thing}}, Sub: quiet(b.stock(u, n))},
			say(when), say(b.stepList(u.steps)),
		}})
	}
	t.Groups = []sheets.Group{g}
	s := &sheets.Sheet{ID: b.id("vessels"), Kind: sheets.Vessels, Title: "Pots, tins and tools"}
	if busy := b.busiest(list); busy != nil {
		s.Facts = []string{"a pot counts from the step that fills it to the last step that names it"}
		s.Blocks = append(s.Blocks, &sheets.Heading{Text: "At the same moment", Note: "the busiest of each day"}, busy, &sheets.Heading{Text: "To have ready"})
	}
	s.Blocks = append(s.Blocks, t)
	return s
}

// gear gathers what the steps name, by name.
func (b *builder) gear() (list []*gear) {
	find := func(name, holds string) *gear {
		key := larder.Fold(name)
		i := slices.IndexFunc(list, func(u *gear) bool { return larder.Fold(u.name) == key })
		if i < 0 {
			i = len(list)
			list = append(list, &gear{name: name})
		}
		if list[i].holds == "" {
			list[i].holds = holds
		}
		return list[i]
	}
	for _, m := range b.inOrder() {
		number := 0
		for _, sr := range m.Reading.Steps {
			if b.plan.Skips(m, sr.Step) {
				continue
			}
			number++
			for _, c := range sr.Step.Margin {
				n, holds := 1, ""
				switch c := c.(type) {
				case *resolve.WithTool:
				case *resolve.InVessel:
					if c.Count > 0 {
						n = b.vesselCount(m, sr.Step, c)
					}
					holds = b.fig.Written(c.Holds, m.Recipe.System)
				case *resolve.Into:
					if !c.IntoVessels() {
						continue
					}
					n = Into(m, c)
				default:
					continue
				}
				u := find(c.Names().Text, holds)
				u.count = max(u.count, n)
				if ref := (stepRef{m, number}); !slices.Contains(u.steps, ref) {
					u.steps = append(u.steps, ref)
				}
				u.hold(b.heldFor(m, sr.Step, number, c, u.name, n))
			}
		}
	}
	slices.SortStableFunc(list, func(x, y *gear) int { return strings.Compare(larder.Fold(x.name), larder.Fold(y.name)) })
	return list
}

// hold notes spans; a pot that the step before of the same dish left full is
// still the same pot.
func (u *gear) hold(spans []taken, joins bool) {
	for _, s := range spans {
		if k := len(u.spans) - 1; joins && k >= 0 && u.spans[k].making == s.making && u.spans[k].count == s.count && len(spans) == 1 {
			u.spans[k].to = max(u.spans[k].to, s.to)
			continue
		}
		u.spans = append(u.spans, s)
	}
}

// heldFor is when a step has hold of what it names. What food is put into it
// keeps until the dish is done or paused; joins tells that the span goes on
// from the step before.
func (b *builder) heldFor(m *demand.Making, s *resolve.Step, number int, c resolve.Clause, thing string, n int) (out []taken, joins bool) {
	for _, e := range b.plan.Jobs(m, s) {
		out = append(out, taken{e.Start, e.End, m, number, thing, n})
	}
	switch c.(type) {
	case *resolve.InVessel:
		joins = !b.pausedBefore(m, s)
	case *resolve.Into:
		for _, e := range b.plan.JobsOf(m) {
			if e.Step != nil && b.sameStage(m, s, e.Step.Step) {
				for i := range out {
					out[i].to = max(out[i].to, e.End)
				}
			}
		}
		out = out[:min(1, len(out))] // all loads stand in the one set
	}
	return out, joins
}

// pausedBefore tells whether a pause that is taken stands right before the
// last step of the same vessel and this one: the pot was emptied then.
func (b *builder) pausedBefore(m *demand.Making, s *resolve.Step) bool {
	last := -1
	for _, sr := range m.Reading.Steps {
		if sr.Step.Index < s.Index && sr.Step.Vessel == s.Vessel && !b.plan.Skips(m, sr.Step) {
			last = sr.Step.Index
		}
	}
	if last < 0 {
		return true
	}
	return !b.sameStage(m, m.Recipe.Steps[last], s)
}

// sameStage tells whether no pause is taken between two steps.
func (b *builder) sameStage(m *demand.Making, x, y *resolve.Step) bool {
	for _, p := range m.Recipe.Pauses {
		if taken, known := b.plan.Paused(m, p); known && taken && (x.Index < p.After) != (y.Index < p.After) {
			return false
		}
	}
	return true
}

// stock says what the kitchen has of a thing, and when that is too little.
func (b *builder) stock(u *gear, n int) string {
	if k := b.meal.Kitchen; k != nil {
		for _, v := range k.Vessels {
			if v.Key == larder.Fold(u.name) {
				text := fmt.Sprintf("%d in the kitchen", v.Count)
				if n > v.Count {
					text += fmt.Sprintf(": %d more to find", n-v.Count)
				}
				if v.Holds != nil {
					text += ", holds " + b.holds(v.Key)
				}
				return text
			}
		}
	}
	if u.holds != "" {
		return "holds " + u.holds
	}
	return ""
}

// holds is what a vessel of the kitchen holds, as its writer put it.
func (b *builder) holds(key string) string {
	for _, v := range b.meal.Kitchen.Vessels {
		if v.Key == key {
			return b.fig.Written(v.Written, b.opt.Units)
		}
	}
	return ""
}

// peakOf is what is held at the moment when most is; the first such moment.
func peakOf(spans []taken) (out []taken) {
	most := 0
	starts := slices.Clone(spans)
	slices.SortStableFunc(starts, func(x, y taken) int { return cmp.Compare(x.from, y.from) })
	for _, s := range starts {
		var now []taken
		for _, o := range starts {
			if o.from <= s.from && o.to > s.from {
				now = append(now, o)
			}
		}
		if n := countOfAll(now); n > most {
			most, out = n, now
		}
	}
	return out
}

func countOfAll(spans []taken) (n int) {
	for _, s := range spans {
		n += s.count
	}
	return n
}

// span says how long all of these are held: "12:25–12:45", with its day if it
// is not the serving's.
func (b *builder) span(spans []taken) string {
	from, to := spans[0].from, spans[0].to
	for _, s := range spans {
		from, to = max(from, s.from), min(to, s.to)
	}
	return b.onDay(from) + "–" + b.plan.ClockFrom(from, to)
}

// whose says who holds: "B 7, C 2", with the thing if it is not said yet.
func (b *builder) whose(spans []taken, things bool) string {
	var out []string
	for _, s := range spans {
		text := fmt.Sprintf("%s %d", b.mark(s.making), s.number)
		if things && s.thing != "" {
			text += " " + s.thing
		}
		if s.count > 1 {
			text += fmt.Sprintf(" (takes %d)", s.count)
		}
		if !slices.Contains(out, text) {
			out = append(out, text)
		}
	}
	return strings.Join(out, ", ")
}

// stepList writes steps dish by dish: "B 1, 2, 6 · G 1".
func (b *builder) stepList(steps []stepRef) string {
	var out strings.Builder
	for i, s := range steps {
		switch {
		case i > 0 && steps[i-1].making == s.making:
			fmt.Fprintf(&out, ", %d", s.number)
		case i > 0:
			out.WriteString(" · ")
			fallthrough
		default:
			fmt.Fprintf(&out, "%s %d", b.mark(s.making), s.number)
		}
	}
	return out.String()
}

// busiest is a row for each day and resource of which several are held at once.
func (b *builder) busiest(list []*gear) *sheets.Table {
	if b.plan == nil {
		return nil
	}
	type resource struct {
		name  string
		have  int
		spans []taken
	}
	pots := resource{name: "Pots and tins"}
	for _, u := range list {
		for _, s := range u.spans {
			if s.count == 1 && !b.isTool(u.name) {
				pots.spans = append(pots.spans, s)
			}
		}
	}
	rings := resource{name: "Rings"}
	if b.meal.Kitchen != nil {
		rings.have = b.meal.Kitchen.Rings
	}
	all := []resource{}
	for _, oven := range b.plan.Ovens {
		r := resource{name: events.OvenName(oven) + ", shelves"}
		if k := b.meal.Kitchen; k != nil {
			for _, o := range k.Ovens {
				if o.Name == oven {
					r.have = o.Shelves
				}
			}
		}
		for _, e := range b.plan.Each(events.In) {
			if e.Where.Oven == oven {
				r.spans = append(r.spans, b.standing(e))
			}
		}
		all = append(all, r)
	}
	for _, e := range b.plan.Each(events.In) {
		if e.Where.Rings > 0 {
			rings.spans = append(rings.spans, b.standing(e))
		}
	}
	all = append([]resource{rings}, append(all, pots)...)
	t := &sheets.Table{Columns: []sheets.Column{
		{Title: "When", Kind: sheets.ClockColumn},
		{Title: "Of what", Kind: sheets.TextColumn, Weight: 3},
		{Title: "At once", Kind: sheets.TextColumn, Weight: 2},
		{Title: "Which", Kind: sheets.TextColumn, Weight: 7},
	}}
	for _, day := range b.plan.Days() {
		g := sheets.Group{Title: b.dayTitle(day)}
		for _, r := range all {
			var of []taken
			for _, s := range r.spans {
				if b.plan.Day(s.from) == day {
					of = append(of, s)
				}
			}
			p := peakOf(of)
			n := countOfAll(p)
			if n < 2 {
				continue
			}
			many := fmt.Sprint(n)
			if r.have > 0 {
				many += fmt.Sprintf(" of %d", r.have)
			}
			from, to := p[0].from, p[0].to
			for _, s := range p {
				from, to = max(from, s.from), min(to, s.to)
			}
			g.Rows = append(g.Rows, sheets.Row{Cells: []sheets.Cell{say(b.plan.Clock(from) + "–" + b.plan.ClockFrom(from, to)), say(r.name), {Runs: []sheets.Run{{Text: many, Style: sheets.Strong}}}, say(b.whose(p, true))}})
		}
		if len(g.Rows) > 0 {
			t.Groups = append(t.Groups, g)
		}
	}
	if len(t.Groups) == 0 {
		return nil
	}
	return t
}

// standing is how long something is in the oven or on the rings, and how many
// shelves or rings it takes.
func (b *builder) standing(in *events.Event) taken {
	return taken{in.Start, in.End, in.Dish, in.Number, b.vesselName(in.Where.Vessel), len(in.Where.Slots)}
}

// isTool tells whether a name is only ever a tool of the steps.
func (b *builder) isTool(name string) bool {
	key := larder.Fold(name)
	for _, m := range b.meal.Makings {
		for _, s := range m.Recipe.Steps {
			if s.Vessel == key {
				return false
			}
		}
	}
	return true
}
