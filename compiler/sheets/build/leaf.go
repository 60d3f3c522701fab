package build

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"
	"unicode/utf8"

	"tamis/compiler/demand"
	"tamis/compiler/events"
	"tamis/compiler/figures"
	"tamis/compiler/filming"
	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/compiler/sheets"
	"tamis/lang/quantity"
)

// A leaf is what those who watch a part of a series are handed: one sheet of paper with all
// they need to cook it at home, at the written size. Nothing on it is the crew's.

// Paper is what is printed of a series.
type Paper struct {
	Series *demand.Series
	Plan   *events.List // of the meal it leads to; nil: there is none
	// Alone is the plan of one dish by itself, of Series.Home, on a clock that counts to its
	// serving; nil where there is none.
	Alone map[*demand.Making]*events.List
	Days  []*filming.Day // on which it is shown; for the crew
	Books []*resolve.Book
}

// leaves carries what the leaves of a series need besides a builder.
type leaves struct {
	*builder
	Paper
}

// Leaves makes a document of one leaf for each part of a series.
func Leaves(of Paper, opt Options) (out []*sheets.Document) {
	for _, p := range of.Series.Home.Parts {
		l := &leaves{builder: &builder{
			opt: opt, books: of.Books, caresOnce: true, unmarked: true, ids: map[string]bool{}, links: map[*demand.Making]string{},
			notebook: map[*resolve.Recipe]sheets.Mark{}, pages: map[*resolve.Recipe]string{},
		}, Paper: of}
		l.doc = &sheets.Document{Title: fmt.Sprintf("%s, part %d", of.Series.Of.Name, p.Of.Number), File: leafFile(of.Series.Of, p.Of), By: byOf(slices.Concat(p.Of.Credits, of.Series.Of.Credits)), Language: "en-GB", Revision: opt.Revision}
		l.doc.When = dated(p)
		l.use(p.Meal)
		l.add(l.leaf(p))
		l.doc.Figures = slices.DeleteFunc(l.figures(), func(f sheets.Figure) bool { return f.Of != "line" })
		for i := range l.doc.Figures {
			l.doc.Figures[i].Sheet = "leaf"
		}
		l.shownAsData(p)
		out = append(out, l.doc)
	}
	return out
}

// leafFile is what the file of a leaf is called after.
func leafFile(s *resolve.Series, p *resolve.Part) string {
	return fmt.Sprintf("%s %d %s", seriesFile(s), p.Number, p.Name)
}

// longestSeries is how many letters of the name of a series stand before those of a part in
// the name of a file, which is cut when it is long: the parts must stay told from each other.
const longestSeries = 40

// seriesFile is what the files of a series are called after: whole words.
func seriesFile(s *resolve.Series) string {
	words, out := strings.Fields(s.Name), ""
	for _, w := range words {
		if out != "" && utf8.RuneCountInString(out+" "+w) > longestSeries {
			break
		}
		out = strings.TrimSpace(out + " " + w)
	}
	if r := []rune(out); len(r) > longestSeries {
		out = string(r[:longestSeries])
	}
	return out
}

// leaf is the sheet of one part.
func (l *leaves) leaf(p *demand.Part) *sheets.Sheet {
	s := &sheets.Sheet{ID: l.id("leaf"), Kind: sheets.Leaf, Title: p.Of.Name}
	if by := byOf(slices.Concat(p.Of.Credits, l.Series.Of.Credits)); by != "" {
		s.Facts = append(s.Facts, "with "+by)
	}
	if d := dated(p); d != "" {
		s.Facts = append(s.Facts, d)
	}
	for _, c := range slices.Concat(p.Of.Credits, l.Series.Of.Credits) {
		if c.Kind == resolve.FromSource || c.Kind == resolve.Licence {
			s.Facts = append(s.Facts, credits([]resolve.Credit{c})...)
		}
	}
	s.Blocks = append(s.Blocks, l.masthead(p))
	add := func(bs ...sheets.Block) { s.Blocks = append(s.Blocks, bs...) }
	if paras := Markdown(p.Of.Notes.About.Text); len(paras) > 0 {
		add(&sheets.Prose{Paras: paras})
	}
	if n := l.notes(&resolve.Notes{Said: p.Of.Notes.Said}); n != nil {
		add(n)
	}
	add(l.leafPictures(p)...)
	list := func(title string, items [][]sheets.Run) {
		if len(items) > 0 {
			add(&sheets.Heading{Text: title}, &sheets.List{Items: items})
		}
	}
	list("What you make", l.makes(p))
	list("From an earlier part", l.fromBefore(p))
	list("What to buy", l.buys())
	if e := l.equipment(p); len(e) > 0 {
		list("What you need", [][]sheets.Run{plainRun(larder.Capital(strings.Join(e, ", ")) + ".")})
	}
	list("Ahead of time", l.ahead(p))
	for _, m := range p.Shown {
		add(l.recipe(m)...)
	}
	keep := "Keep for a later part"
	if all := l.Series.Of.Parts; p.Of == all[len(all)-1] {
		keep = "What is left"
	}
	list(keep, l.keepFor(p))
	list("Corrections", l.corrections(p))
	if c := l.cautions(nil); c != nil {
		var texts []string
		for _, i := range c.Items {
			texts = append(texts, i.Text)
		}
		add(&sheets.Cautions{Items: []sheets.Caution{{Text: strings.Join(texts, " ")}}})
	}
	return s
}

// masthead is what the leaf is a part of, and where that is to be watched.
func (l *leaves) masthead(p *demand.Part) *sheets.Masthead {
	of := l.Series.Of
	m := &sheets.Masthead{Series: of.Name, Part: fmt.Sprintf("part %d", p.Of.Number)}
	if n := len(of.Parts); n > 1 {
		m.Part += fmt.Sprintf(" of %d", n)
	}
	for _, c := range slices.Concat(p.Of.Credits, of.Credits) {
		if c.Kind == resolve.Link {
			m.Link, m.Watch = c.Text.Text, credits([]resolve.Credit{c})[0]
			m.Code = codeOf(m.Link)
			break
		}
	}
	for _, b := range l.pictures(of.Name, of.Pictures) {
		m.Picture = b.(*sheets.Picture)
		break
	}
	return m
}

// leafPictures are the pictures of a part, else one of what it shows.
func (l *leaves) leafPictures(p *demand.Part) []sheets.Block {
	if own := l.pictures(p.Of.Name, p.Of.Pictures); len(own) > 0 {
		return own
	}
	for _, m := range p.Shown {
		if own := l.pictures(m.Recipe.Name, m.Recipe.Own.Pictures); len(own) > 0 {
			return own[:1]
		}
	}
	return nil
}

// makes says of each thing of a part how much it is and how long it takes.
func (l *leaves) makes(p *demand.Part) (out [][]sheets.Run) {
	for _, m := range p.Shown {
		facts := l.sizes(m, "serves ")
		if work, whole := byItself(l.Alone[m], m); whole > 0 {
			facts = append(facts, "hands-on "+unbroken(minutes(work)), unbroken(minutes(whole))+" in all")
		} else if t := m.Recipe.Takes; t != nil {
			facts = append(facts, "takes "+l.dash(t.Total.String()))
		}
		text := ""
		if len(facts) > 0 {
			text = ": " + strings.Join(facts, ", ")
		}
		out = append(out, []sheets.Run{{Text: m.Recipe.Name, Style: sheets.Strong}, {Text: text}})
	}
	return out
}

// byItself is how long hands are at a thing that is made by itself, and how long it takes in all. A
// time in which a plan has nothing to do for it, and nothing of it stands or cooks, is not of it.
func byItself(plan *events.List, m *demand.Making) (work, whole int) {
	jobs := slices.SortedStableFunc(slices.Values(plan.JobsOf(m)), func(x, y *events.Event) int { return cmp.Compare(x.Start, y.Start) })
	for i, e := range jobs {
		work += int(e.Hands())
		from := e.Start
		for _, before := range jobs[:i] {
			from = max(from, before.End)
		}
		whole += max(int(e.End.Since(from)), 0)
	}
	return work, whole
}

// unbroken is a length of time that stands on one line.
func unbroken(s string) string { return strings.ReplaceAll(s, " ", "\u00a0") }

// fromBefore is what earlier parts made for this one.
func (l *leaves) fromBefore(p *demand.Part) (out [][]sheets.Run) {
	for _, c := range l.Series.Home.Carries {
		if c.To == p {
			here := *c
			here.Keeps = nil // how it is kept was said where it was made
			out = append(out, l.carried(l.showLine(c.By), &here, fmt.Sprintf("from part %d, for %s", c.From.Of.Number, c.By.Making.Recipe.Name)))
		}
	}
	for _, c := range l.Series.Carries {
		if c.Supply != nil || !l.Series.Waits(c, p.Of) {
			continue
		}
		out = append(out, l.carried("", c, fmt.Sprintf("which you made in part %d, for today", c.From.Of.Number)))
	}
	return out
}

// carried is something that comes from another part: "26 oz soft chickpeas, from part 1".
func (l *leaves) carried(amount string, c *demand.Carry, where string) []sheets.Run {
	var out []sheets.Run
	if amount != "" {
		out = append(out, sheets.Run{Text: amount, Style: sheets.Amount}, sheets.Run{Text: " "})
	}
	text := ", " + where
	if c.Keeps != nil {
		text += "; keeps " + c.Keeps.String()
	}
	name := c.Name()
	if amount != "" {
		name = larder.Small(name)
	}
	return append(out, sheets.Run{Text: name, Style: sheets.Thing}, sheets.Run{Text: text})
}

// kept is one thing that is kept, and what for: each thing stands once, with how long it keeps.
type kept struct {
	name  string
	keeps string
	uses  [][]sheets.Run
}

// keepFor is what later parts want of this one, and what is left over.
func (l *leaves) keepFor(p *demand.Part) (out [][]sheets.Run) {
	var things []*kept
	var short [][]sheets.Run
	add := func(name string, keeps *resolve.Keep, amount, what string) {
		k := &kept{name: name}
		if keeps != nil {
			k.keeps = keeps.String()
		}
		if i := slices.IndexFunc(things, func(t *kept) bool { return t.name == k.name && t.keeps == k.keeps }); i >= 0 {
			k = things[i]
		} else {
			things = append(things, k)
		}
		use := plainRun(what)
		if amount != "" {
			use = append([]sheets.Run{{Text: amount, Style: sheets.Amount}, {Text: " "}}, use...)
		}
		k.uses = append(k.uses, use)
	}
	for _, c := range l.Series.Home.Carries {
		if c.From == p && c.To != nil {
			add(c.Name(), c.Keeps, l.homeAmount(p, c), fmt.Sprintf("for %s in part %d", c.By.Making.Recipe.Name, c.To.Of.Number))
		}
	}
	for _, c := range l.Series.Carries {
		if c.From.Of == p.Of && c.To == nil && c.Supply == nil {
			add(c.Name(), c.Keeps, "", "for "+l.Series.Meal.Menu.Name+l.partOn())
		}
	}
	for _, s := range p.Meal.Supplies {
		if left := l.fig.Supply(s).Left; left.Quantity.Value.High.Sign() > 0 && len(s.Draws) > 0 {
			add(s.Name, s.Keeps(), left.Text, "left over")
		}
		if s.Left.Value.High.Sign() < 0 {
			times, _ := s.Drawn.Value.High.Div(s.Made.Value.Low).Ceil().Int64()
			short = append(short, plainRun(fmt.Sprintf("This makes less %s than the later parts take: make it %d times for all of them.", larder.Small(s.Name), times)))
		}
	}
	for _, k := range things {
		runs := []sheets.Run{{Text: larder.Capital(k.name), Style: sheets.Strong}, {Text: ": "}}
		if len(k.uses) == 1 && len(k.uses[0]) == 1 {
			runs[1].Text = ", "
		}
		for i, u := range k.uses {
			if i > 0 {
				runs = append(runs, sheets.Run{Text: ", "})
			}
			runs = append(runs, u...)
		}
		if k.keeps != "" {
			runs = append(runs, sheets.Run{Text: "; keeps " + k.keeps})
		}
		out = append(out, runs)
	}
	return append(out, short...)
}

// homeAmount is how much of what a part makes goes into a later one, as that one has it.
func (l *leaves) homeAmount(p *demand.Part, c *demand.Carry) string {
	l.use(c.To.Meal)
	defer l.use(p.Meal)
	return l.showLine(c.By)
}

// partOn says in which part the meal of the series is eaten.
func (l *leaves) partOn() string {
	for _, p := range l.Series.Parts {
		if l.Series.EatenWith(p.Of) {
			return fmt.Sprintf(", part %d", p.Of.Number)
		}
	}
	return ""
}

// buys is what is bought, in one run for each counter.
func (l *leaves) buys() (out [][]sheets.Run) {
	last := ""
	for _, it := range l.buying().Items {
		title := larder.Capital(it.Counter)
		if it.Cupboard {
			title = "From the cupboard"
		}
		if title != last {
			out = append(out, []sheets.Run{{Text: title + ": ", Style: sheets.Strong}})
		}
		runs := &out[len(out)-1]
		if title == last {
			*runs = append(*runs, sheets.Run{Text: "; "})
		}
		last = title
		row := l.shopRow(it)
		amount, what := strings.TrimSpace(sheets.Words(row.Cells[1].Runs)+" "+sheets.Words(row.Cells[1].Sub)), sheets.Words(row.Cells[2].Runs)
		if p := it.Packs; p != nil && p.Each.Dim == quantity.None && strings.Contains(amount, " of ") {
			what = figures.InNumber(what, p.Each.Value.High)
		}
		text := strings.TrimSpace(amount + " " + what)
		if it.Packs != nil {
			text += " (" + l.dash(it.Needed()) + ")"
		} else if it.Pieces > 0 {
			text += fmt.Sprintf(" (about %d)", it.Pieces)
		}
		*runs = append(*runs, sheets.Run{Text: text})
	}
	return out
}

// equipment is what must be there, each thing once: what the writer names, then the vessels
// and tools of the steps. "24 skewers" of the series are also the 12 of a dish, and "stockpot"
// in a step is the large stockpot of the list.
func (l *leaves) equipment(p *demand.Part) (out []string) {
	var list []*thing
	add := func(n *thing, same func(have *thing) bool) {
		if i := slices.IndexFunc(list, same); i < 0 {
			list = append(list, n)
		} else {
			list[i].atLeast(n.count)
		}
	}
	named := slices.Concat(p.Of.Notes.Equipment, l.Series.Of.Notes.Equipment)
	for _, m := range p.Shown {
		named = append(named, m.Recipe.Own.Notes.Equipment...)
	}
	for _, text := range named {
		n := readThing(text.Text)
		add(n, n.same)
	}
	written := len(list)
	for _, u := range l.gear() {
		n := readThing(u.name)
		if n.count = u.count; n.count == 1 {
			n.count = 0
		}
		add(n, func(have *thing) bool {
			return have.same(n) || slices.Contains(list[:written], have) && have.covers(n)
		})
	}
	for _, n := range list {
		number, name := n.said()
		out = append(out, strings.TrimSpace(number+" "+name))
	}
	return out
}

// longWait is from when on a wait is one that has to be thought of before.
const longWait = 4 * time.Hour

// ahead is what has to be begun long before, and what may be done so.
func (l *leaves) ahead(p *demand.Part) (out [][]sheets.Run) {
	var of *demand.Making
	say := func(m *demand.Making, format string, args ...any) {
		text := fmt.Sprintf(format, args...)
		if of == m { // a dish stands once
			out[len(out)-1] = append(out[len(out)-1], sheets.Run{Text: " " + text})
			return
		}
		of = m
		runs := plainRun(text)
		if len(p.Shown) > 1 {
			runs = append([]sheets.Run{{Text: m.Recipe.Name + ": ", Style: sheets.Strong}}, runs...)
		}
		out = append(out, runs)
	}
	for _, m := range p.Shown {
		pauses, last := m.Recipe.Pauses, ""
		paused := func(before, number int) {
			for len(pauses) > 0 && pauses[0].After <= before {
				last = pauses[0].Keep.Time.String() + ", " + pauses[0].Keep.Where()
				say(m, "After step %d it may wait up to %s.", number, last)
				pauses = pauses[1:]
			}
		}
		for i, sr := range m.Reading.Steps {
			paused(sr.Step.Index, i)
			for _, sp := range sr.Step.Phases {
				if sp.Kind != resolve.Leave || sp.Fixed == nil || max(sp.Fixed.High, sp.Fixed.UpTo) < longWait {
					continue
				}
				say(m, "Step %d waits %s%s.", i+1, l.dash(spellText(&sp)), prefixed(", ", resolve.InThe(sp.Place)))
			}
		}
		paused(len(m.Recipe.Steps), len(m.Reading.Steps))
		if k := m.Recipe.Keeps; k != nil {
			if how := k.Time.String() + ", " + k.Where(); how != last {
				say(m, "It keeps %s.", how)
			}
		}
	}
	return out
}

// recipe is one dish or base: what it gathers, and how it is made.
func (l *leaves) recipe(m *demand.Making) (out []sheets.Block) {
	r := m.Recipe
	note := slices.DeleteFunc(credits(r.Own.Credits), func(s string) bool { return s == "by "+l.doc.By })
	if h := r.ServeHow; h != nil {
		note = append(note, serveHow(h))
	}
	if also := texts(r.Own.Notes.Also); len(also) > 0 {
		note = append(note, "also called "+strings.Join(also, ", "))
	}
	if with := texts(r.Own.Notes.GoesWith); len(with) > 0 {
		note = append(note, "goes with "+strings.Join(with, ", "))
	}
	out = append(out, &sheets.Heading{Text: r.Name, Note: sideBySide(append(note, chosenOf(m))...)})
	if a := r.About; a != nil {
		if paras := Markdown(a.Text.Text); len(paras) > 0 {
			out = append(out, &sheets.Prose{Paras: paras})
		}
	}
	n := r.Own.Notes
	n.Corrected, n.Equipment, n.Props, n.Cooked, n.Also, n.GoesWith = nil, nil, nil, nil, nil, nil
	if p := l.notes(&n); p != nil {
		out = append(out, p)
	}
	if len(m.Lines) > 0 {
		t := l.listOf(m.Lines)
		for g := range t.Groups {
			if g > 0 && t.Groups[g].Title == "" {
				t.Groups[g].Title = "And besides" // else it would stand as if it were of the list above
			}
			for k := range t.Groups[g].Rows {
				cells := t.Groups[g].Rows[k].Cells[1:]
				if sub := cells[1].Sub; len(sub) > 0 {
					cells[1].Runs, cells[1].Sub = append(cells[1].Runs, sheets.Run{Text: " (" + sheets.Words(sub) + ")", Style: sheets.Quiet}), nil
				}
				t.Groups[g].Rows[k].Cells = cells
			}
		}
		t.Columns = t.Columns[1:]
		out = append(out, t)
	}
	if st := l.method(m); st != nil {
		for _, i := range st.Items {
			if s, ok := i.(*sheets.Step); ok {
				s.Margin, s.Takes = append(unsaid(s), s.Margin...), nil
			}
		}
		out = append(out, st)
	}
	return append(out, l.others(m)...)
}

// unsaid are the shares that a step takes and its sentence gives no amount for, in words.
func unsaid(s *sheets.Step) (out []string) {
	words := sheets.Words(s.Runs)
	for _, m := range s.Moments {
		words += " " + sheets.Words(m.Runs)
	}
	for _, t := range s.Takes {
		if t.Amount != "" && strings.Contains(words, t.Amount) {
			continue
		}
		text := strings.TrimSpace(t.Amount + " " + t.Name)
		if t.Note != "" {
			text += ", " + t.Note
		}
		out = append(out, text)
	}
	return out
}

// corrections are what was put right after a leaf was printed, with whose it is.
func (l *leaves) corrections(p *demand.Part) (out [][]sheets.Run) {
	add := func(of string, list []resolve.Record) {
		for _, c := range list {
			text := ", " + longDay(c.Date) + who(c.Who) + ": " + c.Text.Text
			out = append(out, []sheets.Run{{Text: of, Style: sheets.Strong}, {Text: text}})
		}
	}
	for _, m := range p.Shown {
		add(m.Recipe.Name, m.Recipe.Own.Notes.Corrected)
	}
	add("This part", p.Of.Notes.Corrected)
	add(l.Series.Of.Name, l.Series.Of.Notes.Corrected)
	if len(out) > 0 && l.opt.Revision != "" {
		out = append(out, plainRun("All of them are in this leaf, revision "+l.opt.Revision+"."))
	}
	return out
}
