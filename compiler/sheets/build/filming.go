package build

import (
	"fmt"
	"slices"
	"strings"

	"tamis/compiler/demand"
	"tamis/compiler/events"
	"tamis/compiler/figures"
	"tamis/compiler/filming"
	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/compiler/sheets"
	"tamis/lang/quantity"
)

// camera writes minutes from the start of the camera: "T−1:20", "T+0:45".
func camera(n events.Minutes) string { return quantity.ClockText(false, int(n)) }

// filmingDay is a day before the camera: what must be there, when the copies are begun, and
// the running order with what stands on the bench and what is swapped.
func (h *handouts) filmingDay(d *filming.Day) *sheets.Sheet {
	if len(d.Scenes) == 0 && len(d.Copies) == 0 {
		return nil
	}
	var parts []string
	for _, p := range d.Of.Parts {
		parts = append(parts, partTitle(p))
	}
	title := "Filming: " + strings.Join(parts, ", ")
	if d.Of.Date != nil {
		title = "Filming, " + longDate(*d.Of.Date)
	}
	s := &sheets.Sheet{ID: h.id("filming"), Kind: sheets.Crew, Title: title, Facts: []string{"T is when the camera starts", "on camera " + minutes(int(d.Length))}}
	if d.Of.Date != nil {
		s.Facts = append(s.Facts, parts...)
	}
	add := func(title, note string, t *sheets.Table) {
		if t != nil {
			s.Blocks = append(s.Blocks, &sheets.Heading{Text: title, Note: note}, t)
		}
	}
	add("Copies that stand ready", "", h.copiesOf(d))
	add("Made earlier", "the copies, planned together; write the clock in when it is known", h.madeEarlier(d))
	add("Running order", "minutes are hands at work; a wait of 10 min and more is cut", h.running(d))
	add("Everything to have", "each portion by itself, for the camera and for every copy", h.haveAll(d))
	return s
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
		title := partTitle(s.Part) + ": " + s.Dish.Recipe.Name
		if n := len(t.Groups); n == 0 || t.Groups[n-1].Title != title {
			t.Groups = append(t.Groups, sheets.Group{Title: title, Note: strings.Join(once(texts(slices.Concat(s.Part.Of.Notes.Props, s.Dish.Recipe.Own.Notes.Props))), ", ")})
		}
		g := &t.Groups[len(t.Groups)-1]
		g.Rows = append(g.Rows, sheets.Row{Cells: []sheets.Cell{
			say(camera(s.At)), say(h.letter(s.Dish)), say(fmt.Sprint(s.Number)),
			{Runs: h.sentence(s)},
			say(h.bench(d, s)), say(lengthOr(s.Length)),
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

func lengthOr(n events.Minutes) string {
	if n == 0 {
		return ""
	}
	return minutes(int(n))
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

// haveAll counts what must be there: what is weighed and prepared, once for the camera and
// once for each copy, vessels and tools, props and equipment.
func (h *handouts) haveAll(d *filming.Day) *sheets.Table {
	t := &sheets.Table{Columns: []sheets.Column{
		{Kind: sheets.TickColumn},
		{Title: "Times", Kind: sheets.TextColumn},
		{Title: "Each", Kind: sheets.AmountColumn},
		{Title: "What", Kind: sheets.TextColumn, Weight: 4},
		{Title: "For", Kind: sheets.TextColumn, Weight: 3},
	}}
	vessels := map[string][]string{}
	var order []string
	holds := func(m *demand.Making, whose string) {
		for _, sr := range m.Reading.Steps {
			for _, c := range sr.Step.Margin {
				name := ""
				switch c := c.(type) {
				case *resolve.InVessel:
					name = c.Name.Text
				case *resolve.WithTool:
					name = c.Name.Text
				}
				if name == "" {
					continue
				}
				if vessels[name] == nil {
					order = append(order, name)
				}
				if !slices.Contains(vessels[name], whose) {
					vessels[name] = append(vessels[name], whose)
				}
			}
		}
	}
	for _, p := range d.Of.Parts {
		h.use(p.Meal)
		for _, m := range p.Shown {
			g := sheets.Group{Title: m.Recipe.Name, Note: partTitle(p)}
			holds(m, h.letter(m)+" on camera")
			for _, a := range m.Lines {
				g.Rows = append(g.Rows, h.weighed(d, p, m, a)...)
			}
			if len(g.Rows) > 0 {
				t.Groups = append(t.Groups, g)
			}
		}
	}
	for _, c := range d.Copies {
		holds(c.Making, fmt.Sprintf("copy %d of %s", c.Making.Copy, h.letter(c.Making)))
	}
	g := sheets.Group{Title: "Pots, tins and tools"}
	for _, name := range order {
		g.Rows = append(g.Rows, sheets.Row{Cells: []sheets.Cell{{}, say(fmt.Sprint(len(vessels[name]))), {}, say(figures.InNumber(name, quantity.Int(int64(len(vessels[name]))))), say(strings.Join(vessels[name], ", "))}})
	}
	if len(g.Rows) > 0 {
		t.Groups = append(t.Groups, g)
	}
	props := sheets.Group{Title: "Props and equipment"}
	prop := func(list []resolve.Text, whose string) {
		for _, n := range list {
			if i := slices.IndexFunc(props.Rows, func(r sheets.Row) bool { return larder.Fold(sheets.Words(r.Cells[3].Runs)) == larder.Fold(n.Text) }); i >= 0 {
				if cell := &props.Rows[i].Cells[4]; !strings.Contains(sheets.Words(cell.Runs), whose) {
					*cell = say(sheets.Words(cell.Runs) + ", " + whose)
				}
				continue
			}
			props.Rows = append(props.Rows, sheets.Row{Cells: []sheets.Cell{{}, say("1"), {}, say(n.Text), say(whose)}})
		}
	}
	of := h.series.Of
	prop(slices.Concat(of.Notes.Props, of.Notes.Equipment), of.Name)
	for _, p := range d.Of.Parts {
		prop(slices.Concat(p.Of.Notes.Props, p.Of.Notes.Equipment), fmt.Sprintf("part %d", p.Of.Number))
		for _, m := range p.Shown {
			prop(slices.Concat(m.Recipe.Own.Notes.Props, m.Recipe.Own.Notes.Equipment), h.named(m))
		}
	}
	if len(props.Rows) > 0 {
		t.Groups = append(t.Groups, props)
	}
	if len(t.Groups) == 0 {
		return nil
	}
	return t
}

// weighed are the rows of what is weighed: for the camera, and as often again as copies
// take as much; what another amount goes into has a row of its own.
func (h *handouts) weighed(d *filming.Day, p *demand.Part, m *demand.Making, a *demand.Amount) (out []sheets.Row) {
	type share struct {
		of    *demand.Amount
		whose []string
	}
	shares := []share{{a, []string{"camera"}}}
	for _, c := range d.Copies {
		of := c.Making.Of(a.Line)
		if c.Part != p || c.Making.Recipe != m.Recipe || of == nil {
			continue
		}
		name := fmt.Sprintf("copy %d", c.Making.Copy)
		if i := slices.IndexFunc(shares, func(s share) bool { return h.showLine(s.of) == h.showLine(of) }); i >= 0 {
			shares[i].whose = append(shares[i].whose, name)
		} else {
			shares = append(shares, share{of, []string{name}})
		}
	}
	for _, s := range shares {
		out = append(out, sheets.Row{Cells: []sheets.Cell{{}, say(fmt.Sprint(len(s.whose)) + " ×"), {Runs: h.amountRuns(s.of)}, h.lineCell(a), say(strings.Join(s.whose, ", "))}})
	}
	return out
}
