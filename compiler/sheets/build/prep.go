package build

import (
	"fmt"
	"slices"
	"strings"

	"tamis/compiler/demand"
	"tamis/compiler/events"
	"tamis/compiler/resolve"
	"tamis/compiler/sheets"
	"tamis/lang/quantity"
)

// prep is the sheet of one dish or base: what is gathered, scaled, and the
// method with what each step takes beside it.
func (b *builder) prep(m *demand.Making) *sheets.Sheet {
	s := &sheets.Sheet{ID: b.links[m], Kind: sheets.Prep, Title: m.Recipe.Name, Letter: b.mark(m), Facts: b.facts(m)}
	if a := m.Recipe.About; a != nil {
		if paras := Markdown(a.Text.Text); len(paras) > 0 {
			s.Blocks = append(s.Blocks, &sheets.Prose{Paras: paras})
		}
	}
	if p := b.notes(&m.Recipe.Own.Notes); p != nil {
		s.Blocks = append(s.Blocks, p)
	}
	s.Blocks = append(s.Blocks, b.pictures(m.Recipe.Name, m.Recipe.Own.Pictures)...)
	st := b.method(m)
	lines, heading, note := m.Lines, "Gather", chosenOf(m)
	if st != nil && b.carried {
		lines, heading = b.besides(m), "Gather besides"
		if len(lines) == 0 && note != "" {
			s.Facts = append(s.Facts, note)
		}
	}
	listed := len(lines) > 0 && !b.opt.Card
	if len(lines) > 0 && b.opt.Card {
		s.Blocks = append(s.Blocks, b.runIn(lines))
		if note != "" {
			s.Facts = append(s.Facts, note)
		}
	}
	if listed {
		s.Blocks = append(s.Blocks, &sheets.Heading{Text: heading, Note: note}, b.listOf(lines))
	}
	if st != nil {
		s.Blocks = append(s.Blocks, st)
	}
	s.Blocks = append(s.Blocks, b.others(m)...)
	if l := b.afterwards(m); l != nil {
		s.Blocks = append(s.Blocks, l)
	}
	if c := b.cautions(m); c != nil {
		s.Blocks = append(s.Blocks, c)
	}
	return s
}

// runIn is a list of lines one after the other, for a card: a paragraph for each
// sub-list.
func (b *builder) runIn(lines []*demand.Amount) *sheets.Prose {
	out := &sheets.Prose{}
	for _, g := range b.listOf(lines).Groups {
		p := sheets.Para{}
		if g.Title != "" {
			p.Runs = append(p.Runs, sheets.Run{Text: g.Title + ": "})
		}
		for i, r := range g.Rows {
			if i > 0 {
				p.Runs = append(p.Runs, sheets.Run{Text: " · "})
			}
			amount, what := r.Cells[1], r.Cells[2]
			p.Runs = append(p.Runs, amount.Runs...)
			if len(amount.Runs) > 0 {
				p.Runs = append(p.Runs, sheets.Run{Text: " "})
			}
			p.Runs = append(p.Runs, what.Runs...)
			if len(what.Sub) > 0 {
				p.Runs = append(p.Runs, sheets.Run{Text: " (" + sheets.Words(what.Sub) + ")"})
			}
		}
		out.Paras = append(out.Paras, p)
	}
	return out
}

// facts are the short facts under a dish's title.
func (b *builder) facts(m *demand.Making) []string {
	return append(b.brief(m), credits(m.Recipe.Own.Credits)...)
}

// brief are the facts without whom it is from.
func (b *builder) brief(m *demand.Making) (out []string) {
	r := m.Recipe
	word := "for "
	if b.volume != nil { // nobody is at the table of a book
		word = "serves "
	}
	out = b.sizes(m, word)
	if s := m.Serving; s != nil {
		out = append(out, s.Course.Name)
		for _, c := range r.Choices {
			if o := s.Chosen[c]; o != nil {
				note := o.Label
				if !s.Stated[c] {
					note += " (nothing was chosen)"
				}
				out = append(out, note)
			}
		}
		if s.KeepFor.Text != "" {
			out = append(out, fmt.Sprintf("cooked for %d, served to %d, the remains for %s", s.CookFor, s.Covers, s.KeepFor.Text))
		}
	}
	if work, whole := b.lengths(m); whole > 0 {
		out = append(out, "hands-on "+minutes(work), "start to finish "+minutes(whole))
	} else if t := r.Takes; t != nil {
		fact := "takes " + b.dash(t.Total.String())
		if t.Work != nil {
			fact += ", " + t.Work.String() + " of it hands-on"
		}
		out = append(out, fact)
	}
	if h := r.ServeHow; h != nil {
		out = append(out, serveHow(h))
	}
	if k := r.Keeps; k != nil {
		out = append(out, "keeps "+k.String())
	}
	return out
}

// sizes are how many a thing is for, or serves, and how much it makes.
func (b *builder) sizes(m *demand.Making, word string) (out []string) {
	r := m.Recipe
	if m.Portions.Sign() > 0 {
		fact := word + b.eaters(m)
		if len(r.ServesEach.Terms) > 0 {
			fact += ", " + b.fig.Written(r.ServesEach, r.System) + " each"
		}
		out = append(out, fact)
	}
	if r.Makes != nil {
		out = append(out, "makes "+b.yield(m))
	}
	return out
}

// serveHow is how a dish is served: "serve hot within 10 min".
func serveHow(h *resolve.ServeHow) string {
	fact := "serve " + h.State
	if h.Within != nil {
		fact += " within " + h.Within.String()
	}
	return fact
}

// credits are whom a recipe, book, series or part names: who wrote it, what it is
// from, and where more is to be read.
func credits(list []resolve.Credit) (out []string) {
	for _, c := range list {
		text := c.Text.Text
		switch c.Kind {
		case resolve.By:
			text = "by " + text
		case resolve.FromSource:
			text = "source: " + text
		case resolve.Licence:
			text = "licence: " + text
		case resolve.Link:
			_, text, _ = strings.Cut(text, "://")
			if text == "" {
				text = c.Text.Text
			}
		}
		out = append(out, text)
	}
	return out
}

// byOf is who wrote it; empty when nobody says.
func byOf(list []resolve.Credit) string {
	for _, c := range list {
		if c.Kind == resolve.By {
			return c.Text.Text
		}
	}
	return ""
}

// yield is what a recipe makes at this size: "24 rolls, 60 g each".
func (b *builder) yield(m *demand.Making) string {
	r := m.Recipe
	y := r.Makes
	text := strings.TrimSpace(y.Near + " " + b.fig.Yield(m))
	if y.What != "" {
		text += " " + y.What
	}
	if y.Each != nil {
		text += ", " + b.fig.Print(*y.Each, nil, r.System)
		if !oneOf(b.fig.Yield(m)) { // one loaf has nothing to be told from
			text += " each"
		}
	}
	return text
}

// oneOf tells whether a yield is one thing: "1", "1 loaf".
func oneOf(yield string) bool { return yield == "1" || strings.HasPrefix(yield, "1 ") }

// lengths are the hands-on minutes and the minutes from first to last job of a
// making, preparation included; 0 without a plan.
func (b *builder) lengths(m *demand.Making) (work, whole int) {
	jobs := b.plan.JobsOf(m)
	if len(jobs) == 0 {
		return 0, 0
	}
	last := jobs[0].End
	for _, e := range jobs {
		work += int(e.Hands())
		last = max(last, e.End)
	}
	return work, int(last.Since(jobs[0].Start))
}

// besides are the lines that no step takes: what is for serving, for the most part.
func (b *builder) besides(m *demand.Making) (out []*demand.Amount) {
	for _, a := range m.Lines {
		if b.firstTakes(m, a.Line) == nil {
			out = append(out, a)
		}
	}
	return out
}

// listOf is a list of lines, scaled, in groups by sub-list.
func (b *builder) listOf(lines []*demand.Amount) *sheets.Table {
	t := &sheets.Table{Columns: []sheets.Column{
		{Kind: sheets.TickColumn}, {Kind: sheets.AmountColumn}, {Kind: sheets.TextColumn, Weight: 3}, // it says itself what it is
	}}
	from := 0
	if b.volume != nil && !b.opt.Card { // a book is not ticked
		t.Plain, t.Columns, from = true, t.Columns[1:], 1
	}
	group := func(name string) *sheets.Group {
		for i := range t.Groups {
			if t.Groups[i].Title == name {
				return &t.Groups[i]
			}
		}
		t.Groups = append(t.Groups, sheets.Group{Title: name})
		return &t.Groups[len(t.Groups)-1]
	}
	for _, a := range lines {
		name := ""
		if a.Line.Sub != nil {
			name = "For the " + a.Line.Sub.Name
			if a.Line.Serving {
				name = "For serving"
			}
		}
		g := group(name)
		g.Rows = append(g.Rows, sheets.Row{Cells: []sheets.Cell{{}, {Runs: b.amountRuns(a)}, b.lineCell(a)}[from:]})
	}
	if len(t.Groups) == 0 {
		return nil
	}
	return t
}

func (b *builder) amountRuns(a *demand.Amount) []sheets.Run {
	text := b.showLine(a)
	if text == "" {
		return nil
	}
	return []sheets.Run{{Text: text, Style: sheets.Amount}}
}

// lineCell is a line's name with its note, and below it where it comes from.
func (b *builder) lineCell(a *demand.Amount) sheets.Cell {
	c := sheets.Cell{Runs: []sheets.Run{{Text: b.nameOf(a), Style: sheets.Thing, Link: b.linkTo(a.Source)}}}
	if b.volume != nil && c.Runs[0].Link != "" {
		c.Runs = append(c.Runs, sheets.Run{Link: c.Runs[0].Link, Page: ", p. #"})
	}
	if note := b.lineNote(a); note != "" {
		c.Runs = append(c.Runs, sheets.Run{Text: ", " + note})
	}
	if sub := b.lineSays(a); len(sub) > 0 {
		c.Sub = []sheets.Run{{Text: strings.Join(sub, " · "), Style: sheets.Quiet}}
	}
	return c
}

// lineSays is what is said of a line beside its amount and name: what it weighs or
// comes to, where it is from, what may be taken instead.
func (b *builder) lineSays(a *demand.Amount) (sub []string) {
	l := a.Line
	if note := b.fig.Line(a).Note; note != "" {
		sub = append(sub, note)
	}
	switch {
	case a.Source != nil && b.volume != nil: // its page stands behind it
		if l.Product != nil {
			sub = append(sub, "from "+a.Source.Recipe.Name)
		}
	case a.Source != nil:
		from := "made here"
		if l.Product != nil {
			from = "from " + a.Source.Recipe.Name
		}
		if mark := b.mark(a.Source); mark != "" && !b.unmarked {
			from += ", sheet " + mark
		}
		sub = append(sub, from)
	}
	if l.Carried != "" {
		sub = append(sub, l.Carried)
	}
	if l.Said.Text != "" {
		sub = append(sub, "“"+l.Said.Text+"”")
	}
	for _, i := range l.Instead {
		sub = append(sub, "or instead "+b.insteadText(a, i))
	}
	return sub
}

func (b *builder) linkTo(m *demand.Making) string {
	if m == nil {
		return ""
	}
	id := b.links[m]
	if id == "" {
		id = b.pages[m.Recipe]
	}
	if id == "" {
		return ""
	}
	return "#" + id
}

// lineNote is what the writer put after the name: bracket, note, and the flags
// of the margin that a cook must see.
func (b *builder) lineNote(a *demand.Amount) string {
	l := a.Line
	var parts []string
	if t := b.fig.Brackets(a); t != "" {
		parts = append(parts, t)
	}
	if t := b.fig.Note(l); t != "" {
		parts = append(parts, t)
	}
	if l.ToTaste {
		parts = append(parts, "to taste")
	}
	if l.Optional {
		parts = append(parts, "optional")
	}
	return strings.Join(parts, ", ")
}

// method is the steps that are there, numbered, with pauses as breaks.
func (b *builder) method(m *demand.Making) *sheets.Steps {
	out := &sheets.Steps{}
	pauses := m.Recipe.Pauses
	number := 0
	for _, sr := range m.Reading.Steps {
		for len(pauses) > 0 && pauses[0].After <= sr.Step.Index {
			out.Items = append(out.Items, &sheets.Break{Text: b.pauseText(m, pauses[0])})
			pauses = pauses[1:]
		}
		if b.plan.Skips(m, sr.Step) {
			continue
		}
		number++
		out.Items = append(out.Items, b.step(m, sr, number))
	}
	if number == 0 {
		return nil
	}
	return out
}

func (b *builder) pauseText(m *demand.Making, p *resolve.Pause) string {
	taken, known := b.plan.Paused(m, p)
	up := p.Keep.Time.String()
	switch {
	case !known:
		return "May wait here up to " + up + ", " + p.Place
	case taken:
		return "Pause: keep " + p.Keep.Where() + ", up to " + up
	}
	return "No pause this time: carry on (it could wait up to " + up + ", " + p.Place + ")"
}

func (b *builder) step(m *demand.Making, sr *resolve.StepReading, number int) *sheets.Step {
	s := sr.Step
	look, margin := b.margin(m, s)
	st := &sheets.Step{Number: number, When: b.whenText(m, s), Takes: b.besideStep(m, sr), Look: b.dashes(look), Runs: b.fig.Prose(m, sr.Step.Lines, sr), Margin: b.dashes(append(margin, b.minds(m, s)...))}
	if !s.Said.IsZero() {
		st.Margin = append(st.Margin, "“"+s.Said.Text+"”")
	}
	job := b.plan.First(m, s)
	var touches []*events.Event // in the writer's order
	if job != nil {
		st.Clock = b.onDay(job.At)
		st.Who = strings.Join(job.Who, ", ")
		touches = b.plan.Touches(job)
	}
	for _, mo := range s.Moments {
		at := slices.IndexFunc(touches, func(e *events.Event) bool { return e.Moment == mo })
		if at < 0 {
			st.Moments = append(st.Moments, b.moment(m, sr, mo, nil))
			continue
		}
		st.Moments = append(st.Moments, b.moment(m, sr, mo, touches[at]))
		touches = slices.Delete(touches, at, at+1)
	}
	return st
}

// besideStep is what stands beside the sentence of a step of what it takes: in a book only
// what the sentence does not say.
func (b *builder) besideStep(m *demand.Making, sr *resolve.StepReading) []sheets.Take {
	takes := b.takes(m, sr)
	if b.volume == nil {
		return takes
	}
	return slices.DeleteFunc(takes, func(k sheets.Take) bool {
		return !slices.ContainsFunc(sr.Takes, func(t resolve.Take) bool {
			return t.ByMargin && (t.Line != nil && m.Of(t.Line) != nil && b.nameOf(m.Of(t.Line)) == k.Name || t.Product != nil && t.Product.Name == k.Name)
		})
	})
}

func (b *builder) whenText(m *demand.Making, s *resolve.Step) string {
	var parts []string
	if s.Meanwhile {
		parts = append(parts, "meanwhile")
	}
	if s.OnlyIfNeeded {
		parts = append(parts, "only if needed")
	}
	for _, c := range s.If {
		if !c.Paused {
			continue
		}
		if _, known := b.plan.Paused(m, m.Recipe.Pauses[max(0, c.Pause-1)]); known {
			continue
		}
		word := "only after a pause"
		if c.Pause > s.Pause {
			word = "if it is to be kept"
		}
		if c.Unless {
			word = strings.Replace(word, "if", "unless", 1)
		}
		parts = append(parts, word)
	}
	return strings.Join(parts, ", ")
}

// workedBefore tells whether an earlier step has worked on all of a thing made here: raw
// dumplings that were boiled are raw no more, and what is shared out is not the raw ones.
func workedBefore(m *demand.Making, sr *resolve.StepReading, p *resolve.Product) bool {
	return slices.ContainsFunc(m.Reading.Steps, func(o *resolve.StepReading) bool {
		return o.Step.Index < sr.Step.Index && slices.ContainsFunc(o.Takes, func(t resolve.Take) bool {
			return t.Product == p && t.Amount == nil && !t.Rest && !t.Unmeasured && (t.Part.Sign() == 0 || t.Part.Equal(quantity.Int(1)))
		})
	})
}

// takes is what a step uses, one line each, scaled.
//
// Where a list stands above, a step says only what part of a line it takes; where none
// does, the first step that takes a line says what else is to be known of it.
func (b *builder) takes(m *demand.Making, sr *resolve.StepReading) (out []sheets.Take) {
	for i := range sr.Takes {
		t := &sr.Takes[i]
		if t.Refers {
			continue
		}
		if p := t.Product; p != nil {
			take := sheets.Take{Name: p.Name}
			take.Amount = b.fig.Take(m, t).Text
			if t.Rest {
				take.Note = "the rest"
			}
			if !slices.ContainsFunc(out, func(o sheets.Take) bool { return o.Name == take.Name }) && (take.Amount != "" || t.Rest || !workedBefore(m, sr, p)) {
				out = append(out, take)
			}
			continue
		}
		a := m.Of(t.Line)
		if a == nil {
			continue
		}
		take := sheets.Take{Name: b.nameOf(a), Link: b.linkTo(a.Source)}
		switch {
		case t.AfterSome && !t.Line.ToTaste:
		case t.Unmeasured && !t.Line.ToTaste:
			take.Amount = "some"
		case t.Line.ToTaste:
			take.Note = "to taste"
		case t.All && t.Part.Equal(quantity.Int(1)):
			take.Amount, take.Note = b.showLine(a), b.lineNote(a)
			if t.Amount != nil && a.Quantity != nil && !t.Amount.Same(*a.Quantity) {
				take.Amount = b.fig.Take(m, t).Text
			}
		case a.Quantity != nil:
			take.Amount = b.fig.Take(m, t).Text
		default:
			take.Amount = shareWord(t)
		}
		if t.Rest {
			take.Note = "the rest"
		}
		if !b.carried && !t.Rest && (t.Line.ToTaste || take.Amount == b.showLine(a)) {
			continue // the list above has said it
		}
		if b.carried && b.firstTakes(m, t.Line) == sr {
			note := take.Note
			if note == "" && !t.Line.ToTaste { // of a share, how the whole is cut
				note = b.lineNote(a)
			}
			if whole := b.showLine(a); whole != "" && whole != take.Amount {
				note = sideBySide(note, whole+" in all") // more of it is taken later
			}
			take.Note = sideBySide(append([]string{note}, b.lineSays(a)...)...)
		}
		out = append(out, take)
	}
	return out
}

// firstTakes is the first step that takes a line; nil where none does.
func (b *builder) firstTakes(m *demand.Making, l *resolve.Line) *resolve.StepReading {
	for _, sr := range m.Reading.Steps {
		if !b.plan.Skips(m, sr.Step) && slices.ContainsFunc(sr.Takes, func(t resolve.Take) bool { return t.Line == l && !t.Refers }) {
			return sr
		}
	}
	return nil
}

// shareWord says a share of something without an amount.
func shareWord(t *resolve.Take) string {
	if t.All {
		return "the rest"
	}
	return t.Part.String()
}

// moment is something to do during a step, with when the plan has it; planned is
// nil without a plan.
func (b *builder) moment(m *demand.Making, sr *resolve.StepReading, mo *resolve.Moment, planned *events.Event) sheets.Moment {
	out := sheets.Moment{At: mo.When(), Runs: b.fig.Prose(m, mo.Lines, sr)}
	if planned != nil && b.plan.Clocked() {
		out.At += ", " + b.plan.Clock(planned.Start)
	}
	for _, c := range mo.Margin {
		switch c := c.(type) {
		case *resolve.Spell:
			if c.Kind != resolve.Leave && c.Fixed != nil {
				out.Margin = append(out.Margin, onPaper(c.Kind)+" "+c.Fixed.String())
			}
		case *resolve.Made:
			text := string(c.Word) + " "
			if p := c.Product; p != nil && p.Quantity != nil {
				text += b.fig.OfStep(m, p) + " "
			}
			out.Margin = append(out.Margin, text+c.Name.Text)
		}
	}
	out.Margin = b.dashes(out.Margin)
	return out
}

// afterwards says what is left over and what happens to it.
func (b *builder) afterwards(m *demand.Making) *sheets.List {
	out := &sheets.List{}
	for _, s := range b.meal.Supplies {
		if s.Making != m {
			continue
		}
		of := b.fig.Supply(s)
		for i, d := range s.Draws {
			out.Items = append(out.Items, []sheets.Run{
				{Text: of.Draws[i].Text, Style: sheets.Amount},
				{Text: " " + s.Name + " for " + b.mark(d.By.Making) + " " + d.By.Making.Recipe.Name},
			})
		}
		if of.Left.Quantity.Value.High.Sign() > 0 {
			text := " " + s.Name + " left over"
			if len(s.Draws) > 1 { // what all of the above come to
				text += " when " + of.Drawn.Text + " are taken"
			}
			if k := s.Keeps(); k != nil {
				text += ": keeps " + k.String()
			}
			if by := b.useBy(s); by != "" {
				text += ", use by " + by
			}
			out.Items = append(out.Items, []sheets.Run{{Text: of.Left.Text, Style: sheets.Amount}, {Text: text}})
		}
	}
	if len(out.Items) == 0 {
		return nil
	}
	return out
}
