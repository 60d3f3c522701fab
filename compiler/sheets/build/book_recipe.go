package build

import (
	"strings"

	"tamis/compiler/demand"
	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/compiler/sheets"
)

func capital(s string) string { return larder.Capital(s) }

// bookRecipe is a recipe as a book has it: its story, what is gathered, the method, and
// below it, smaller, what one may want to know of it.
func (b *builder) bookRecipe(meal *demand.Meal) *sheets.Sheet {
	b.use(meal)
	m := own(meal)
	r := m.Recipe
	b.links[m] = b.pages[r]
	s := &sheets.Sheet{ID: b.pages[r], Kind: sheets.Prep, Title: r.Name, Facts: b.brief(m)}
	if note := chosenOf(m); note != "" {
		s.Facts = append(s.Facts, note)
	}
	story := &sheets.Prose{Spare: b.opt.Card} // a card more is one more to look through
	if also := texts(r.Own.Notes.Also); len(also) > 0 {
		story.Paras = append(story.Paras, sheets.Para{Runs: quiet("also called " + strings.Join(also, ", "))})
	}
	if a := r.About; a != nil {
		story.Paras = append(story.Paras, Markdown(a.Text.Text)...)
	}
	for _, said := range r.Own.Notes.Said {
		story.Paras = append(story.Paras, sheets.Para{Kind: sheets.Quote, Runs: quiet("“" + said.Text + "”")})
	}
	if len(story.Paras) > 0 {
		s.Blocks = append(s.Blocks, story)
	}
	s.Blocks = append(s.Blocks, b.pictures(r.Name, r.Own.Pictures)...)
	if len(m.Lines) > 0 && b.opt.Card {
		s.Blocks = append(s.Blocks, b.runIn(m.Lines))
	} else if t := b.listOf(m.Lines); t != nil {
		s.Blocks = append(s.Blocks, t)
	}
	if st := b.method(m); st != nil {
		s.Blocks = append(s.Blocks, st)
	}
	s.Blocks = append(s.Blocks, b.others(m)...)
	if c := b.bookCautions(m); c != nil {
		s.Blocks = append(s.Blocks, c)
	}
	s.Blocks = append(s.Blocks, b.bookNotes(m)...)
	return s
}

// bookNotes are what stands at the foot of a recipe: what goes with it, what it uses and
// where it is used, when it was cooked, what was put right, and whom it is from.
func (b *builder) bookNotes(m *demand.Making) (blocks []sheets.Block) {
	r, refs := m.Recipe, b.volume.refs
	out, spare := &sheets.Prose{Small: true}, &sheets.Prose{Small: true, Spare: b.opt.Card}
	add := func(runs ...sheets.Run) { out.Paras = append(out.Paras, sheets.Para{Runs: runs}) }
	if names, to := refs.companions(r); len(names) > 0 {
		runs := []sheets.Run{{Text: "Goes with "}}
		for i, name := range names {
			if i > 0 {
				runs = append(runs, sheets.Run{Text: "; "})
			}
			if to[i] != nil {
				runs = append(runs, b.toPage(to[i])...)
			} else {
				runs = append(runs, sheets.Run{Text: name})
			}
		}
		spare.Paras = append(spare.Paras, sheets.Para{Runs: append(runs, sheets.Run{Text: "."})})
	}
	if list := texts(r.Own.Notes.Equipment); len(list) > 0 {
		add(sheets.Run{Text: "Equipment: " + strings.Join(list, ", ") + "."})
	}
	for _, ref := range []struct {
		head string
		to   []*resolve.Recipe
	}{{"Uses", refs.uses[r]}, {"Used in", refs.usedIn[r]}, {"Made like", refs.like[r]}, {"Made like it:", refs.alike[r]}} {
		if len(ref.to) > 0 {
			add(b.pagesOf(ref.head, ref.to)...)
		}
	}
	if left := b.leftOver(m); left != "" {
		add(sheets.Run{Text: left})
	}
	for _, c := range r.Own.Notes.Cooked {
		spare.Paras = append(spare.Paras, sheets.Para{Runs: quiet("Cooked " + longDay(c.Date) + who(c.Who) + ": " + sentence(c.Text.Text))})
	}
	for _, c := range r.Own.Notes.Corrected {
		add(sheets.Run{Text: "Corrected " + longDay(c.Date) + who(c.Who) + ": " + sentence(c.Text.Text)})
	}
	var from []string
	for i, line := range credits(r.Own.Credits) {
		if line = strings.TrimPrefix(line, "source: "); r.Own.Credits[i].Kind != resolve.Link {
			line = sentence(capital(line))
		}
		from = append(from, line)
	}
	if len(from) > 0 {
		add(quiet(strings.Join(from, " "))...)
	}
	for _, p := range []*sheets.Prose{out, spare} {
		if len(p.Paras) > 0 && b.opt.Card {
			p.Paras = []sheets.Para{runOn(p.Paras)}
		}
	}
	if !b.opt.Card { // in the order one asks for it
		out.Paras = append(out.Paras[:0:0], append(spare.Paras, out.Paras...)...)
		spare.Paras = nil
	}
	for _, p := range []*sheets.Prose{out, spare} {
		if len(p.Paras) > 0 {
			blocks = append(blocks, p)
		}
	}
	return blocks
}

// runOn makes one paragraph of several.
func runOn(paras []sheets.Para) (out sheets.Para) {
	for i, p := range paras {
		if i > 0 {
			out.Runs = append(out.Runs, sheets.Run{Text: " "})
		}
		out.Runs = append(out.Runs, p.Runs...)
	}
	return out
}

// sentence closes a text with a full stop if nothing closes it.
func sentence(s string) string {
	if s = strings.TrimSpace(s); s == "" || strings.ContainsAny(s[len(s)-1:], ".!?") {
		return s
	}
	return s + "."
}

// leftOver says what is left of what a recipe gives beside, and how long it keeps.
func (b *builder) leftOver(m *demand.Making) string {
	var out []string
	for _, s := range b.meal.Supplies {
		of := b.fig.Supply(s)
		if s.Making != m || s.Product == nil || of.Left.Quantity.Value.High.Sign() <= 0 {
			continue
		}
		text := "Gives " + of.Left.Text + " " + s.Name + " as well"
		if k := s.Keeps(); k != nil {
			text += ", which keeps " + k.String()
		}
		out = append(out, text+".")
	}
	return strings.Join(out, " ")
}

// bookCautions are the cautions of one recipe in few words; all of them stand with their
// sources at the head of the book.
func (b *builder) bookCautions(m *demand.Making) *sheets.Cautions {
	c := b.cautions(m)
	if c == nil {
		return nil
	}
	last := len(c.Items) - 1
	if last == 0 {
		return nil
	}
	c.Items[last].Text = "Read every label; local rules and makers’ instructions come first."
	if b.opt.Card {
		var all []string
		for _, it := range c.Items {
			all = append(all, it.Text)
		}
		c.Items = []sheets.Caution{{Text: strings.Join(all, " ")}}
	}
	return c
}
