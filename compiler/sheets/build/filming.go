package build

import (
	"fmt"
	"slices"
	"strings"

	"tamis/compiler/demand"
	"tamis/compiler/events"
	"tamis/compiler/filming"
	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/compiler/sheets"
	"tamis/lang/quantity"
)

// camera writes minutes from the start of the camera: "T−1:20", "T+0:45".
func camera(n events.Minutes) string { return quantity.ClockText(false, int(n)) }

// filmingDay is a day before the camera: what is said, what is brought, when the copies are
// begun, the running order with what stands on the bench and what is swapped, all that must
// be there, and what goes on from here.
func (h *handouts) filmingDay(d *filming.Day) *sheets.Sheet {
	if len(d.Scenes) == 0 && len(d.Copies) == 0 {
		return nil
	}
	parts := d.Of.Parts
	s := &sheets.Sheet{ID: h.sheetOf[parts[0]], Kind: sheets.Crew}
	var titles []string
	for _, p := range parts {
		titles = append(titles, partTitle(p))
	}
	s.Title = "Filming: " + strings.Join(titles, ", ")
	if d.Of.Date != nil {
		s.Title = "Filming, " + longDate(*d.Of.Date)
		s.Facts = append(s.Facts, titles...)
	}
	for _, p := range parts {
		s.Facts = append(s.Facts, h.creditsOf(p)...)
	}
	s.Facts = append(once(s.Facts), "T is when the camera starts", "on camera "+minutes(int(d.Length)))
	add := func(title, note string, t *sheets.Table) {
		if t != nil {
			s.Blocks = append(s.Blocks, &sheets.Heading{Text: title, Note: note}, t)
		}
	}
	for _, p := range parts {
		if len(parts) > 1 {
			s.Blocks = append(s.Blocks, &sheets.Heading{Text: partTitle(p)})
		}
		s.Blocks = append(s.Blocks, h.said(p)...)
	}
	for _, p := range parts {
		h.use(p.Meal)
		add("Brought from an earlier part", "", h.brought(p))
	}
	add("Copies that stand ready", "", h.copiesOf(d))
	add("Made earlier", "the copies, planned together; write the clock in when it is known", h.madeEarlier(d))
	add("Running order", "minutes are hands at work; a wait of 10 min and more is cut", h.running(d))
	for _, p := range parts {
		h.use(p.Meal)
		if t := h.byClock(p); t != nil {
			add("Order of work", "from the plan of "+h.series.Meal.Menu.Name, t)
		}
	}
	note := "each portion by itself"
	if len(d.Copies) > 0 {
		note += ", for the camera and for every copy"
	}
	add("Everything to have", note, h.haveAll(d))
	for _, p := range parts {
		h.use(p.Meal)
		add("What goes on from here", "", h.goesOn(p))
	}
	if c := h.cautionsOfDay(parts); c != nil { // with their sources they stand once, at a glance
		for i := range c.Items {
			c.Items[i].Source = ""
		}
		s.Blocks = append(s.Blocks, c)
	}
	return s
}

// said is what is said to those who watch a part, and what is noted of it; what must be there
// is counted elsewhere.
func (h *handouts) said(p *demand.Part) (out []sheets.Block) {
	if paras := Markdown(p.Of.Notes.About.Text); len(paras) > 0 {
		out = append(out, &sheets.Prose{Paras: paras})
	}
	n := p.Of.Notes
	n.Props, n.Equipment = nil, nil
	if b := h.notes(&n); b != nil {
		out = append(out, b)
	}
	return append(out, h.pictures(p.Of.Name, p.Of.Pictures)...)
}

// creditsOf are who shows a part and where it is to be watched: of the series only what the
// part does not say itself.
func (h *handouts) creditsOf(p *demand.Part) []string {
	of := slices.Clone(p.Of.Credits)
	for _, c := range h.series.Of.Credits {
		if c.Kind == resolve.FromSource || !slices.ContainsFunc(p.Of.Credits, func(o resolve.Credit) bool { return o.Kind == c.Kind }) {
			of = append(of, c)
		}
	}
	return credits(of)
}

// cautionsOfDay are the cautions of several parts, each once.
func (h *handouts) cautionsOfDay(parts []*demand.Part) *sheets.Cautions {
	var all *sheets.Cautions
	for _, p := range parts {
		h.use(p.Meal)
		c := h.cautions(nil)
		switch {
		case c == nil:
		case all == nil:
			all = c
		default:
			for _, it := range c.Items {
				if !slices.ContainsFunc(all.Items, func(o sheets.Caution) bool { return o.Text == it.Text }) {
					all.Items = append(all.Items, it)
				}
			}
		}
	}
	return all
}

// copiesOf lists each copy by itself: by when it is ready, when it is begun, and where it is used.
func (h *handouts) copiesOf(d *filming.Day) *sheets.Table {
	g := sheets.Group{}
	for _, c := range d.Copies {
		begin, use := "", "its dish is not shown"
		if c.Known {
			begin = camera(c.Begin)
		}
		if c.Scene != nil {
			use = fmt.Sprintf("after %s, step %d", c.Scene.Dish.Recipe.Name, c.Scene.Number)
		}
		if c.Spare {
			use = "spare"
		}
		ready := say(camera(c.Ready))
		if c.Stands > c.Ready {
			ready.Sub = quiet("not before " + camera(c.Stands))
		}
		g.Rows = append(g.Rows, sheets.Row{Cells: []sheets.Cell{
			{}, say(h.letter(c.Making)), say(larder.Capital(c.Name())), say(begin), ready, say(use),
		}})
	}
	if len(g.Rows) == 0 {
		return nil
	}
	return &sheets.Table{Columns: []sheets.Column{
		{Kind: sheets.TickColumn},
		{Kind: sheets.MarkColumn},
		{Title: "Copy", Kind: sheets.TextColumn, Weight: 4},
		{Title: "Begin", Kind: sheets.ClockColumn},
		{Title: "Ready by", Kind: sheets.ClockColumn},
		{Title: "Swapped in", Kind: sheets.TextColumn, Weight: 3},
	}, Groups: []sheets.Group{g}}
}

// letter is the letter of a recipe, whichever copy of it is meant.
func (h *handouts) letter(m *demand.Making) string { return h.notebook[m.Recipe].Letter }

// madeEarlier is the plan of the copies, in order of time.
func (h *handouts) madeEarlier(d *filming.Day) *sheets.Table {
	if d.Plan == nil {
		return nil
	}
	g := sheets.Group{}
	b := &builder{opt: h.opt, plan: d.Plan, notebook: h.notebook, doc: h.doc}
	b.use(d.Of.Parts[0].Meal)
	for _, e := range d.Plan.Events {
		var row []sheets.Cell
		switch e.Kind {
		case events.Job:
			of := ""
			if e.Dish != nil {
				of = h.whose(d, e)
			}
			row = []sheets.Cell{{Runs: plainRun(e.Words), Sub: quiet(of)}, say(strings.Join(e.Who, ", ")), say(b.place(e)), say(minutes(int(e.Length())))}
		case events.Heat:
			row = []sheets.Cell{say(e.Setting.Verb() + " the " + larder.Small(events.OvenName(e.Where.Oven)) + " to " + e.Setting.Words), {}, {}, say(minutes(int(e.Length())))}
		case events.Serve:
			row = []sheets.Cell{{Runs: []sheets.Run{{Text: larder.Capital(e.Course) + ": ready", Style: sheets.Strong}}}, {}, {}, {}}
		default:
			continue
		}
		mark := sheets.Cell{}
		if e.Dish != nil {
			mark = say(h.letter(e.Dish))
		}
		g.Rows = append(g.Rows, sheets.Row{Strong: e.Kind == events.Serve, Cells: append([]sheets.Cell{say(camera(events.Minutes(e.At))), {}, mark}, row...)})
	}
	return &sheets.Table{Columns: []sheets.Column{
		{Title: "Before", Kind: sheets.ClockColumn},
		{Title: "Clock", Kind: sheets.PencilColumn},
		{Kind: sheets.MarkColumn},
		{Title: "What", Kind: sheets.TextColumn, Weight: 5},
		{Title: "Who", Kind: sheets.TextColumn, Weight: 1},
		{Title: "Where", Kind: sheets.TextColumn, Weight: 2},
		{Title: "How long", Kind: sheets.TextColumn, Weight: 1},
	}, Groups: []sheets.Group{g}}
}

// whose says of which copy a job is, and which step.
func (h *handouts) whose(d *filming.Day, e *events.Event) string {
	out := e.Dish.Recipe.Name
	for _, c := range d.Copies {
		if c.Making == e.Dish {
			out = fmt.Sprintf("copy %d of %s %s", c.Making.Copy, h.letter(e.Dish), e.Dish.Recipe.Name)
		}
	}
	if e.Number > 0 {
		out += fmt.Sprintf(", step %d", e.Number)
	}
	return out
}

// running is the running order: step by step before the camera.
func (h *handouts) running(d *filming.Day) *sheets.Table {
	t := &sheets.Table{Columns: []sheets.Column{
		{Title: "At", Kind: sheets.ClockColumn},
		{Kind: sheets.MarkColumn},
		{Title: "Step", Kind: sheets.TextColumn},
		{Title: "What", Kind: sheets.TextColumn, Weight: 5},
		{Title: "On the bench", Kind: sheets.TextColumn, Weight: 4},
		{Title: "Hands", Kind: sheets.TextColumn, Weight: 1},
		{Title: "Then", Kind: sheets.TextColumn, Weight: 3},
	}}
	for _, s := range d.Scenes {
		h.use(s.Part.Meal)
		title := s.Dish.Recipe.Name
		if len(d.Of.Parts) > 1 {
			title = partTitle(s.Part) + ": " + title
		}
		if n := len(t.Groups); n == 0 || t.Groups[n-1].Title != title {
			t.Groups = append(t.Groups, sheets.Group{Title: title, Note: h.noteOf(s)})
		}
		g := &t.Groups[len(t.Groups)-1]
		g.Rows = append(g.Rows, sheets.Row{Cells: []sheets.Cell{
			say(camera(s.At)), say(h.letter(s.Dish)), say(fmt.Sprint(s.Number)),
			{Runs: h.sentence(s)},
			say(h.bench(d, s)), say(h.handsOf(s)),
			{Runs: h.cue(s)},
		}})
	}
	if len(t.Groups) == 0 {
		return nil
	}
	return t
}

// sentence is all that a step says, with its moments.
func (h *handouts) sentence(s *filming.Scene) []sheets.Run {
	out := h.fig.Prose(s.Dish, s.Step.Step.Lines, s.Step)
	for _, m := range s.Step.Step.Moments {
		out = append(append(out, sheets.Run{Text: " " + larder.Capital(m.When()) + ": "}), h.fig.Prose(s.Dish, m.Lines, s.Step)...)
	}
	return out
}

// once is a list without what stands in it before.
func once(list []string) (out []string) {
	for _, s := range list {
		if !slices.Contains(out, s) {
			out = append(out, s)
		}
	}
	return out
}

// noteOf is whom a dish is from, and how much of it is made.
func (h *handouts) noteOf(s *filming.Scene) string {
	here := h.creditsOf(s.Part)
	of := slices.DeleteFunc(credits(s.Dish.Recipe.Own.Credits), func(c string) bool { return slices.Contains(here, c) })
	for _, c := range s.Dish.Recipe.Own.Notes.Corrected {
		of = append(of, "corrected "+longDay(c.Date)+": "+c.Text.Text)
	}
	return sideBySide(append(h.sizes(s.Dish, "for "), of...)...)
}

// handsOf says at which heat a step is, in what, and how long hands are at work.
func (h *handouts) handsOf(s *filming.Scene) string {
	step := s.Step.Step
	times := h.times(step, nil)
	look, rest := h.margin(s.Dish, step)
	out := append(slices.DeleteFunc(look, func(t string) bool { return slices.Contains(times, t) }), rest...)
	if s.Length > 0 {
		out = append(out, minutes(int(s.Length)))
	}
	return sideBySide(h.dashes(out)...)
}

// bench is what stands ready for a step: a copy or what the step before left, and what goes in.
func (h *handouts) bench(d *filming.Day, s *filming.Scene) string {
	var parts []string
	switch {
	case s.In != nil:
		parts = append(parts, s.In.Name())
	case s.Past != nil:
		return "not shown: done in " + s.Past.Name()
	case s.Number > 1 && !s.Step.Step.Meanwhile:
		parts = append(parts, "what step "+fmt.Sprint(s.Number-1)+" left")
	}
	for i := range s.Step.Takes {
		t := &s.Step.Takes[i]
		if t.Refers || t.Line == nil || s.Dish.Of(t.Line) == nil {
			continue
		}
		a := s.Dish.Of(t.Line)
		text := strings.TrimSpace(h.fig.Take(s.Dish, t).Text + " " + h.nameOf(a))
		if note := h.lineNote(a); note != "" {
			text += ", " + note
		}
		if t.Line.Carried != "" {
			text += ", " + t.Line.Carried
		}
		parts = append(parts, text)
	}
	return strings.Join(parts, "; ")
}

// cue is what happens when a step is over: the swap, or the wait that is cut.
func (h *handouts) cue(s *filming.Scene) (out []sheets.Run) {
	if c := s.Out; c != nil {
		out = append(out, sheets.Run{Text: "Swap: " + c.Name(), Style: sheets.Strong})
		if s.Waits > 0 {
			out = append(out, sheets.Run{Text: ", in place of " + minutes(int(s.Waits))})
		}
		return out
	}
	if s.Waits > 0 && s.Past == nil {
		return plainRun("cut: " + minutes(int(s.Waits)) + ", no copy")
	}
	return nil
}
