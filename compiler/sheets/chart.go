package sheets

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/compiler/timeline"
)

const dayMinutes = 24 * 60

// chart is the combined timeline, a panel a day, a lane for each cook, each
// oven, the rings, and what is left alone.
func (b *builder) chart() *Sheet {
	c := &Chart{Note: b.line.BoundWords()}
	for _, d := range b.days() {
		c.Panels = append(c.Panels, b.panel(d))
	}
	if len(c.Panels) == 0 {
		return nil
	}
	if b.opt.Wants(RunSheet) {
		c.Text = "The run sheet says the same in words, in order of time."
	}
	s := &Sheet{ID: b.id("timeline"), Kind: Timeline, Title: "Timeline", Wide: true, Blocks: []Block{c}}
	if c.Text != "" {
		s.Facts = append(s.Facts, "the run sheet says the same in words")
	}
	if b.line.Note != "" {
		s.Facts = append(s.Facts, b.line.Note)
	}
	return s
}

// days are the days on which a job starts, in order, as numbers from the
// serving day.
func (b *builder) days() (out []int) {
	for _, j := range b.line.Jobs {
		out = append(out, b.dayOf(j.Start()))
	}
	for _, s := range b.line.Servings {
		out = append(out, b.dayOf(s.At))
	}
	slices.Sort(out)
	return slices.Compact(out)
}

func (b *builder) panel(day int) Panel {
	p := Panel{Title: b.dayTitle(day)}
	from, to := b.dayStart(day), b.dayStart(day+1)
	if !b.line.Clock {
		p.Counts, p.Zero = true, -from
	}
	first, last := to, from
	see := func(s, e int) {
		first, last = min(first, s), max(last, e)
	}
	var ovens, cooks []Lane
	for _, name := range b.cooks() {
		l := Lane{Name: name, Rows: 1}
		for _, j := range b.line.Jobs {
			for _, t := range j.Touches {
				if slices.Contains(t.Cooks, name) && t.Start >= from && t.Start < to {
					bar := b.bar(j, t.Start-from, max(t.End, t.Start+1)-from, WorkBar)
					if t.Text != "" {
						bar.Label = strings.TrimSuffix(t.Text, ".")
					}
					l.Bars = append(l.Bars, bar)
					see(t.Start, t.End)
				}
			}
			if !slices.Contains(j.Cooks, name) {
				continue
			}
			for _, ph := range j.Phases {
				if ph.Kind != resolve.Leave && ph.End > ph.Start && ph.Start >= from && ph.Start < to {
					l.Bars = append(l.Bars, b.bar(j, ph.Start-from, ph.End-from, BarKind(ph.Kind)))
					see(ph.Start, ph.End)
				}
			}
		}
		if len(l.Bars) > 0 {
			spread(&l)
			cooks = append(cooks, l)
		}
	}
	for _, name := range b.ovens() {
		l := Lane{Name: ovenName(name), Rows: 1}
		for _, h := range b.line.Heats {
			if h.Oven == name && h.Preheat >= from && h.Preheat < to {
				if h.Start > h.Preheat {
					l.Bars = append(l.Bars, Bar{Start: h.Preheat - from, End: h.Start - from, Kind: HeatBar, Label: lowerFirst(heatVerb(h)) + " to " + b.ovenHeat(h.Celsius, h.Fan)})
				}
				see(h.Preheat, h.Start)
			}
		}
		for _, j := range b.line.Jobs {
			if j.Oven == name && j.Step != nil {
				for _, ph := range j.Phases {
					if ph.Kind != resolve.Work && ph.Start >= from && ph.Start < to {
						l.Bars = append(l.Bars, b.bar(j, ph.Start-from, ph.End-from, BarKind(ph.Kind)))
						see(ph.Start, min(ph.End, to))
					}
				}
			}
		}
		if len(l.Bars) > 0 {
			spread(&l)
			ovens = append(ovens, l)
		}
	}
	rings := Lane{Name: "Rings", Rows: 1}
	alone := Lane{Name: "Left alone", Note: "resting, chilling, proving", Rows: 1}
	for _, j := range b.line.Jobs {
		if j.Start() < from || j.Start() >= to {
			continue
		}
		if j.Rings > 0 {
			for range j.Rings {
				rings.Bars = append(rings.Bars, b.bar(j, j.Start()-from, j.End()-from, lastKind(j)))
			}
			see(j.Start(), min(j.End(), to))
			continue
		}
		if j.Oven != "" {
			continue
		}
		for _, ph := range j.Phases {
			if ph.Kind == resolve.Leave && ph.End > ph.Start {
				bar := b.bar(j, ph.Start-from, min(ph.End-from, dayMinutes), LeaveBar)
				if ph.Place != "" {
					bar.Label += " (" + ph.Place + ")"
				}
				alone.Bars = append(alone.Bars, bar)
				see(ph.Start, ph.Start)
			}
		}
	}
	for _, s := range b.line.Servings {
		if s.At >= from && s.At < to {
			flag := Flag{At: s.At - from, Label: s.Course}
			if !slices.Contains(p.Flags, flag) {
				p.Flags = append(p.Flags, flag)
			}
			see(s.At, s.At)
		}
	}
	p.Lanes = append(cooks, ovens...)
	for _, l := range []Lane{rings, alone} {
		if len(l.Bars) > 0 {
			spread(&l)
			p.Lanes = append(p.Lanes, l)
		}
	}
	p.Start, p.End = (first-from)/15*15, (last-from+14)/15*15
	if p.End <= p.Start {
		p.End = p.Start + 60
	}
	for i := range p.Lanes { // what goes on overnight ends at the edge
		for k := range p.Lanes[i].Bars {
			p.Lanes[i].Bars[k].End = min(p.Lanes[i].Bars[k].End, p.End)
		}
	}
	return p
}

// ovenName is an oven's name as it stands alone: "Main oven".
func ovenName(name string) string {
	if strings.HasSuffix(strings.ToLower(name), "oven") {
		return capital(name)
	}
	return capital(name) + " oven"
}

func lastKind(j *timeline.Job) BarKind {
	kind := WorkBar
	longest := 0
	for _, ph := range j.Phases {
		if n := ph.End - ph.Start; n > longest {
			longest, kind = n, BarKind(ph.Kind)
		}
	}
	return kind
}

func (b *builder) bar(j *timeline.Job, start, end int, kind BarKind) Bar {
	bar := Bar{Start: start, End: end, Kind: kind, Label: j.Title}
	if j.Making != nil {
		bar.Letter = b.mark(j.Making)
		if j.Step != nil {
			bar.Number = b.number(j)
		}
	}
	return bar
}

// number is the step's number as the prep sheet prints it.
func (b *builder) number(j *timeline.Job) int {
	n := 0
	for _, sr := range j.Making.Reading.Steps {
		if b.skipped(j.Making, sr.Step) {
			continue
		}
		n++
		if sr == j.Step || sr.Step == j.Step.Step {
			return n
		}
	}
	return 0
}

// spread gives overlapping bars of a lane rows of their own.
func spread(l *Lane) {
	slices.SortStableFunc(l.Bars, func(x, y Bar) int {
		return cmp.Or(cmp.Compare(x.Start, y.Start), cmp.Compare(y.End, x.End), cmp.Compare(x.Letter, y.Letter), cmp.Compare(x.Number, y.Number))
	})
	var ends []int
	for i := range l.Bars {
		row := slices.IndexFunc(ends, func(e int) bool { return e <= l.Bars[i].Start })
		if row < 0 {
			row = len(ends)
			ends = append(ends, 0)
		}
		ends[row] = l.Bars[i].End
		l.Bars[i].Row = row
	}
	l.Rows = max(1, len(ends))
}

// cooks are those who have a job, in the kitchen's order.
func (b *builder) cooks() (out []string) {
	if b.meal.Kitchen != nil {
		out = slices.Clone(b.meal.Kitchen.Cooks)
	}
	for _, j := range b.line.Jobs {
		for _, c := range j.Cooks {
			if !slices.Contains(out, c) {
				out = append(out, c)
			}
		}
	}
	return out
}

func (b *builder) ovens() (out []string) {
	for _, j := range b.line.Jobs {
		if j.Oven != "" && !slices.Contains(out, j.Oven) {
			out = append(out, j.Oven)
		}
	}
	slices.Sort(out)
	return out
}

// run is the run sheet: the same in order of time, one line for each thing
// that somebody must do or know.
func (b *builder) run() *Sheet {
	type event struct {
		at    int
		order int // at one moment: out of the oven, then serving, then new jobs
		row   Row
	}
	var events []event
	cell := func(text string, style Style) Cell {
		if text == "" {
			return Cell{}
		}
		return Cell{Runs: []Run{{Text: text, Style: style}}}
	}
	line := func(at int, letter, link string, what, sub, who, where, until string) Row {
		w := cell(what, Plain)
		if sub != "" {
			w.Sub = []Run{{Text: sub, Style: Quiet}}
		}
		mark := Cell{}
		if letter != "" {
			mark.Runs = []Run{{Text: letter, Link: link}}
		}
		return Row{Cells: []Cell{cell(b.clock(at), Plain), mark, w, cell(who, Plain), cell(where, Plain), cell(until, Plain), {}}}
	}
	for _, j := range b.line.Jobs {
		letter, link, dish := "", "", ""
		if j.Making != nil {
			letter, link, dish = b.mark(j.Making), b.linkTo(j.Making), j.Making.Recipe.Name
			if n := 0; j.Step != nil {
				if n = b.number(j); n > 0 {
					dish += fmt.Sprintf(", step %d", n)
				}
			}
		}
		last := j.Phases[len(j.Phases)-1]
		until := b.onDayFrom(j.Start(), j.End())
		switch least := last.Least; {
		case least <= 0 || least >= last.End-last.Start:
		case last.Stretch > 0 && least+last.Stretch >= last.End-last.Start && last.Stretch < 60: // it stands a little longer
		case last.End-last.Start-least >= 60: // overnight: nobody stands by with a watch
			until = "from " + b.onDayFrom(j.Start(), last.Start+least)
		default:
			until = b.clock(last.Start+least) + " to " + until
		}
		what := j.Title
		if j.Step != nil {
			what = stepLine(j)
		}
		if j.Critical {
			until = timeline.ChainMark + " " + until
		}
		row := line(j.Start(), letter, link, capital(what), dish, strings.Join(j.Cooks, ", "), b.place(j), until)
		events = append(events, event{j.Start(), 3, row})
		if last.Kind == resolve.Leave && (j.Oven != "" || j.Rings > 0) && len(j.Phases) > 0 && last.End-last.Start >= 5 && !b.staysOn(j) {
			from := "off the ring"
			if j.Oven != "" {
				from = "out of the oven"
			}
			events = append(events, event{j.End(), 1, line(j.End(), letter, link, capital(from)+": "+dish, "", "", "", "")})
		}
	}
	for _, j := range b.line.Jobs {
		for _, t := range b.touches(j) {
			events = append(events, event{t.at, 2, line(t.at, b.mark(j.Making), b.linkTo(j.Making), t.what, t.dish, t.who, b.place(j), "")})
		}
	}
	for _, h := range b.line.Heats {
		if h.Preheat < h.Start {
			what := heatVerb(h) + " the oven to " + b.ovenHeat(h.Celsius, h.Fan)
			events = append(events, event{h.Preheat, 2, line(h.Preheat, "", "", what, "", "", h.Oven, b.clock(h.Start))})
		}
	}
	for _, s := range b.line.Servings {
		letter, link := "", ""
		if s.Making != nil {
			letter, link = b.mark(s.Making), b.linkTo(s.Making)
		}
		r := line(s.At, letter, link, "Serve: "+s.Name, s.Course, "", "", "")
		r.Strong = true
		events = append(events, event{s.At, 2, r})
	}
	slices.SortStableFunc(events, func(x, y event) int { return cmp.Or(cmp.Compare(x.at, y.at), cmp.Compare(x.order, y.order)) })
	t := &Table{Columns: []Column{
		{Title: "Time", Kind: ClockColumn},
		{Kind: MarkColumn},
		{Title: "What", Kind: TextColumn, Weight: 6},
		{Title: "Who", Kind: TextColumn, Weight: 1},
		{Title: "Where", Kind: TextColumn, Weight: 3},
		{Title: "Until", Kind: ClockColumn},
		{Title: "Done", Kind: TickColumn},
	}}
	day := 0
	for i, e := range events {
		if d := b.dayOf(e.at); i == 0 || d != day {
			day = d
			t.Groups = append(t.Groups, Group{Title: b.dayName(e.at)})
		}
		g := &t.Groups[len(t.Groups)-1]
		g.Rows = append(g.Rows, e.row)
	}
	if len(t.Groups) == 0 {
		return nil
	}
	facts := []string{"in order of time"}
	if b.opt.Wants(Timeline) {
		facts[0] += "; the chart shows the same as bars"
	}
	if len(b.line.Chain) > 0 {
		facts = append(facts, timeline.ChainMark+" the critical chain: "+b.line.ChainWords())
	}
	return &Sheet{ID: b.id("run-sheet"), Kind: RunSheet, Title: "Run sheet", Facts: facts, Blocks: []Block{t}}
}

// staysOn tells whether what a job leaves stays where it is: the dish goes on at
// once in the same vessel, on the ring or in the oven.
func (b *builder) staysOn(j *timeline.Job) bool {
	return slices.ContainsFunc(b.line.Jobs, func(o *timeline.Job) bool {
		return o.Making == j.Making && o.Step != j.Step && o.Vessel == j.Vessel && o.Oven == j.Oven && (o.Rings > 0) == (j.Rings > 0) &&
			o.Start() >= j.End() && o.Start() <= j.End()+2
	})
}

// onDayFrom writes an end time, with its day if it is another one than the start's.
func (b *builder) onDayFrom(start, end int) string {
	if b.dayOf(start) == b.dayOf(end) {
		return b.clock(end)
	}
	if b.meal.Menu != nil && b.meal.Menu.Serve != nil {
		return b.line.DayOf(floorDiv(end, dayMinutes), floorDiv(start, dayMinutes)) + " " + b.clock(end)
	}
	return b.clock(end)
}

// place says where a job is done: oven with heat, ring, fridge, vessel, tool.
func (b *builder) place(j *timeline.Job) string {
	var parts []string
	if j.Step != nil {
		s := j.Step.Step
		if len(s.Heats) > 0 {
			parts = append(parts, ovenText(s, j))
		}
		if s.Rings > 0 {
			parts = append(parts, strings.TrimSpace("ring "+s.Level))
		}
		if s.Grill {
			parts = append(parts, "grill")
		}
		if s.Place != "" && s.Place != "room" {
			parts = append(parts, s.Place)
		}
	}
	if j.Vessel != "" {
		parts = append(parts, b.vesselText(j))
	}
	parts = append(parts, j.Tools...)
	return strings.Join(parts, ", ")
}

func (b *builder) vesselName(key string) string {
	if k := b.meal.Kitchen; k != nil {
		for _, v := range k.Vessels {
			if v.Key == larder.Fold(key) {
				return v.Name
			}
		}
	}
	return key
}
