package build

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"tamis/compiler/demand"
	"tamis/compiler/events"
	"tamis/compiler/hazard"
	"tamis/compiler/larder"
	"tamis/compiler/practice"
	"tamis/compiler/resolve"
	"tamis/compiler/sheets"
	"tamis/lang/quantity"
)

// What waits hot is probed as it begins to wait and every half hour after: a
// school kitchens' manual asks for that (from memory). What waits long is not
// given more rows than a page has room for.
const (
	probeEvery = 30
	mostProbes = 8
)

// What is probed.
const (
	middle        = "Middle of the food"
	reheated      = "Reheated, in the middle"
	heldHot       = "Held hot"
	coolingBegins = "Cooling begins"
	coolingEnds   = "Cooling ends"
	fridge        = "Fridge"
)

// blank keeps a row to write on as high as its neighbours.
const blank = "\u00a0"

// probe is one line of the temperature log.
type probe struct {
	at     events.Moment
	timed  bool
	making *demand.Making // nil: the fridge
	what   string
	load   string // "load 1 of 2"; empty: there is one
	step   string
	target string
	by     string // who sets the target
}

// whole is what is probed, with its load.
func (p probe) whole() string {
	if p.load != "" {
		return p.what + ", " + p.load
	}
	return p.what
}

// temperatureLog is a sheet to fill in, by day and clock: what is probed when,
// what it should come to and who says so, with room for what was found.
func (b *builder) temperatureLog() *sheets.Sheet {
	choice := practice.OfMeal(b.books, b.meal)
	list, facts := b.allProbes(choice)
	if len(list) == 0 {
		return nil
	}
	unit := "°C"
	if larder.Practice(choice.Written) == "US" && b.opt.Units == quantity.NoSystem || b.opt.Units == quantity.US {
		unit = "°F"
	}
	t := &sheets.Table{Columns: []sheets.Column{
		{Title: "Planned", Kind: sheets.ClockColumn},
		{Kind: sheets.MarkColumn},
		{Title: "Probe, and what it should say", Kind: sheets.TextColumn, Weight: 8},
		{Title: "Time", Kind: sheets.PencilColumn, Weight: 2},
		{Title: unit, Kind: sheets.PencilColumn, Weight: 2},
		{Title: "Put right, initials", Kind: sheets.PencilColumn, Weight: 4},
	}}
	day, open := 0, false
	for _, p := range list {
		if d := b.plan.Day(p.at); !open || p.timed && d != day {
			day, open = d, true
			title := ""
			if p.timed {
				title = b.dayTitle(d)
			}
			t.Groups = append(t.Groups, sheets.Group{Title: title})
		}
		g := &t.Groups[len(t.Groups)-1]
		when, mark, link := "", "", ""
		if p.timed {
			when = b.plan.Clock(p.at)
		}
		if p.making != nil {
			mark, link = b.mark(p.making), b.linkTo(p.making)
		}
		g.Rows = append(g.Rows, sheets.Row{Cells: []sheets.Cell{
			say(when),
			{Runs: linked(mark, link)},
			{
				Runs: []sheets.Run{{Text: p.whole() + ": "}, {Text: p.target, Style: sheets.Strong}},
				Sub:  quiet(strings.Join(slices.DeleteFunc([]string{p.step, p.by}, func(s string) bool { return s == "" }), " · ")),
			},
			{},
			{},
			{},
		}})
	}
	more := sheets.Group{Title: "What else was probed"}
	for range 3 {
		row := sheets.Row{Cells: make([]sheets.Cell, len(t.Columns))}
		row.Cells[2] = sheets.Cell{Runs: plainRun(blank), Sub: quiet(blank)}
		more.Rows = append(more.Rows, row)
	}
	t.Groups = append(t.Groups, more)
	s := &sheets.Sheet{
		ID: b.id("temperatures"), Kind: sheets.TempLog, Title: "Temperature log",
		Facts:  []string{"fill in with a pen: the time, what the probe said, and what was done if it said otherwise"},
		Blocks: []sheets.Block{t},
	}
	if items := b.cautionsInDegrees(limits(choice, facts, nil)); len(items) > 0 {
		if whole := b.cautions(nil); b.caresOnce && whole != nil { // what stands in the pack is not said again
			items = slices.DeleteFunc(items, func(c sheets.Caution) bool {
				return slices.ContainsFunc(whole.Items, func(w sheets.Caution) bool { return strings.HasPrefix(w.Text, c.Text) }) // a letter may stand behind it
			})
		}
		last := "Where a recipe and the rules differ, the stricter figure counts. Local rules and qualified people come first."
		if choice.Practice == nil {
			last = "No rules are named: its figures are the strictest seen. " + last
		}
		s.Blocks = append(s.Blocks, &sheets.Cautions{Items: footnoted(append(items, sheets.Caution{Text: last}))})
	}
	return s
}

// allProbes are the lines of the log in order of time, and which limits of the
// practice they use.
func (b *builder) allProbes(choice practice.Choice) (list []probe, facts map[string]bool) {
	tracer := hazard.NewTracer()
	facts = map[string]bool{}
	for _, m := range b.inOrder() {
		tr := tracer.Reading(m.Reading)
		for _, st := range tr.Stages {
			if !b.plan.Skips(m, st.Step) {
				list = append(list, b.probes(m, tr, st, choice, facts)...)
			}
		}
	}
	list = append(list, b.fridges(choice, facts)...)
	for i := range list {
		list[i].target, list[i].by = b.inDegrees(list[i].target), b.inDegrees(list[i].by)
	}
	slices.SortStableFunc(list, func(x, y probe) int { return cmp.Compare(x.at, y.at) })
	return list, facts
}

// probes are the lines of the log that one step asks for. facts notes which
// limits of the practice were used.
func (b *builder) probes(m *demand.Making, tr *hazard.Trace, st *hazard.Stage, choice practice.Choice, facts map[string]bool) (out []probe) {
	s, name := st.Step, m.Recipe.Name
	jobs := b.plan.Jobs(m, s)
	step := ""
	if n := b.plan.Number(m, s); n > 0 {
		step = fmt.Sprintf("%s, step %d", name, n)
	}
	rules := choice.Written + " rules"
	if choice.Practice == nil {
		rules = "the strictest rules seen"
	}
	add := func(at events.Moment, timed bool, what, target, by string) {
		out = append(out, probe{at: at, timed: timed, making: m, what: what, step: step, target: target, by: by})
	}
	each := func(of func(e *events.Event) events.Moment, what, target, by string) {
		for _, j := range jobs {
			add(of(j), true, what, target, by)
			out[len(out)-1].load = j.LoadText()
		}
		if len(jobs) == 0 {
			add(0, false, what, target, by)
		}
	}
	end := func(e *events.Event) events.Moment { return e.End }
	cored := false
	for _, c := range s.Margin {
		switch c := c.(type) {
		case *resolve.Target:
			switch {
			case c.Word == resolve.WordCore:
				cored = true
				what := middle
				if st.Warms {
					what = reheated
				}
				target := "at least " + b.degrees(c.Temp)
				if c.For != nil {
					target += " for " + c.For.String()
				}
				each(end, what, target, "the recipe")
			case c.Word == resolve.WordNeverAbove:
				each(end, "Hottest it has been", "never above "+b.degrees(c.Temp), "the recipe")
			case !st.Cools:
				each((*events.Event).Worked, "Temperature of the food", b.degrees(c.Temp), "the recipe")
			}
		case *resolve.Hold:
			if c.State != "hot" {
				continue
			}
			target, by := "", "the recipe"
			if c.Temp != nil {
				target = c.Bound + " " + b.degrees(c.Temp)
			} else if l := choice.Rule("hot hold", "any").Hottest(); l != nil {
				target, by = l.Degrees()+" or above", rules
			}
			facts["hold"] = true
			if len(jobs) == 0 {
				add(0, false, heldHot, target, by)
			}
			for _, j := range jobs {
				for n := 0; n < mostProbes && (n == 0 || n*probeEvery < int(j.Waits)); n++ {
					add(j.End.Add(events.Minutes(n*probeEvery)), true, heldHot, target, by)
				}
			}
		}
	}
	if st.Warms && !cored && !b.probedLater(m, s) {
		if l := choice.Rule("reheat", "any", "held").Hottest(); l != nil {
			each(end, reheated, l.Core(), rules)
		}
	}
	facts["reheat"] = facts["reheat"] || st.Warms
	if st.Cooling() && (tr.GoesCold(st) || s.Reach != nil) {
		facts["cool"] = true
		b.coolings(jobs, s, choice, rules, add)
	}
	return out
}

// probedLater tells whether a later step of the same stage has its middle
// probed: what is put back in the pot and cooked on is probed once, then.
func (b *builder) probedLater(m *demand.Making, s *resolve.Step) bool {
	for _, sr := range m.Reading.Steps {
		if o := sr.Step; o.Index > s.Index && o.Core != nil && b.sameStage(m, s, o) && !b.plan.Skips(m, o) {
			return true
		}
	}
	return false
}

// coolings are the lines for what is cooled: as it begins, half-way where the
// rules have two stages, and as it ends.
func (b *builder) coolings(jobs []*events.Event, s *resolve.Step, choice practice.Choice, rules string, add func(at events.Moment, timed bool, what, target, by string)) {
	way, set := choice.Cooling()
	target, by := way, rules
	for _, c := range s.Margin {
		if c, ok := c.(*resolve.Target); ok && c.Word == resolve.WordReach {
			target, by = "down to "+b.degrees(c.Temp), "the recipe; "+rules+": "+way
		}
	}
	if len(jobs) == 0 {
		add(0, false, coolingBegins, "note the time", "")
		add(0, false, coolingEnds, target, by)
	}
	for _, j := range jobs {
		add(j.Start, true, coolingBegins, "note the time", "")
		if first := set[0]; len(set) > 1 {
			if at := j.Start.Add(events.Minutes(first.Time / time.Minute)); at < j.End {
				add(at, true, "Cooling, the first stage", first.Span()+" within "+first.Length(), rules)
			}
		}
		add(j.End, true, coolingEnds, target, by)
	}
}

// fridges are a look at the fridge on each day on which something is kept in it.
func (b *builder) fridges(choice practice.Choice, facts map[string]bool) (out []probe) {
	l := choice.Rule("cold hold", "any").Coldest()
	if b.plan == nil || l == nil {
		return nil
	}
	by := choice.Written + " rules"
	if choice.Practice == nil {
		by = "the strictest rules seen"
	}
	first := map[int]events.Moment{}
	see := func(at events.Moment) {
		d := b.plan.Day(at)
		if was, ok := first[d]; !ok || at < was {
			first[d] = at
		}
	}
	for _, j := range b.plan.Each(events.Job) {
		for _, ph := range j.Phases {
			if ph.Place != "fridge" {
				continue
			}
			see(ph.Start)
			for d := b.plan.Day(ph.Start) + 1; d <= b.plan.Day(ph.End); d++ {
				if at, ok := b.firstWork(d); ok && at <= ph.End {
					see(at)
				}
			}
		}
	}
	for _, k := range b.keptCold() {
		for d := b.plan.Day(k.from) + 1; d <= b.plan.Day(k.to); d++ {
			if at, ok := b.firstWork(d); ok && at <= k.to {
				see(at)
			}
		}
	}
	var days []int
	for d := range first {
		days = append(days, d)
	}
	slices.Sort(days)
	for _, d := range days {
		facts["cool"] = true
		out = append(out, probe{at: first[d], timed: true, what: fridge, step: "by its own thermometer", target: l.End() + " or below", by: by})
	}
	return out
}

// keptCold are the spans in which a base or a paused dish waits in the fridge.
func (b *builder) keptCold() (out []taken) {
	for _, s := range b.meal.Supplies {
		k := s.Making.Recipe.Keeps
		if s.Product != nil || k == nil || k.Place != "fridge" {
			continue
		}
		var from, to events.Moment
		for i, j := range b.plan.JobsOf(s.Making) {
			if i == 0 || j.End > from {
				from = j.End
			}
		}
		to = from
		for _, d := range s.Draws {
			at, _ := b.wanted(d.By)
			to = max(to, at)
		}
		out = append(out, taken{from: from, to: to})
	}
	for _, m := range b.inOrder() {
		for _, p := range m.Recipe.Pauses {
			if is, known := b.plan.Paused(m, p); !known || !is || p.Place != "fridge" {
				continue
			}
			span, before := taken{}, false
			for _, j := range b.plan.JobsOf(m) {
				switch {
				case j.Step == nil:
				case j.Step.Step.Index < p.After && (!before || j.End > span.from):
					span.from, before = j.End, true
				case j.Step.Step.Index >= p.After && (span.to == 0 || j.Start < span.to):
					span.to = j.Start
				}
			}
			if before {
				out = append(out, span)
			}
		}
	}
	return out
}

// firstWork is when the first hands are at work on a day.
func (b *builder) firstWork(day int) (events.Moment, bool) {
	for _, e := range b.plan.Each(events.Job) { // in order of time
		if len(e.Who) > 0 && b.plan.Day(e.Start) == day {
			return e.Start, true
		}
	}
	return 0, false
}
