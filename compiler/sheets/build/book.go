package build

import (
	"fmt"
	"slices"
	"strings"

	"tamis/compiler/demand"
	"tamis/compiler/resolve"
	"tamis/compiler/sheets"
)

// A book is read, given away and kept: it has a title page, a preface, contents, chapters
// and an index, says on what page a thing is made and where it is used, and leaves out what
// only a working kitchen needs, letters and boxes to tick.

// volume is what is known of a book while it is made.
type volume struct {
	book     *resolve.Book
	chapters []*chapter
	meals    map[*resolve.Recipe]*demand.Meal
	ids      map[*resolve.Recipe]string
	refs     *references
}

// chapter is a chapter with the recipes that stand in it.
type chapter struct {
	name    string
	id      string
	about   string
	recipes []*resolve.Recipe
}

// The chapters of what the writer has put in none: bases, which others draw on, stand
// together at the back.
const (
	otherDishes = "Other dishes"
	theBases    = "Bases"
)

// Book makes one document of a book: its recipes at their written size, in its chapters.
// meals holds one meal for each recipe, books the books they lie in, the first that was
// asked for being the one that is made.
func Book(meals []*demand.Meal, books []*resolve.Book, opt Options) *sheets.Document {
	b := &builder{
		opt: opt, books: books, caresOnce: true, ids: map[string]bool{}, links: map[*demand.Making]string{}, pages: map[*resolve.Recipe]string{},
	}
	v := &volume{book: books[slices.IndexFunc(books, func(x *resolve.Book) bool { return x.Asked })], meals: map[*resolve.Recipe]*demand.Meal{}}
	b.volume = v
	v.ids = b.pages
	for _, meal := range meals {
		v.meals[own(meal).Recipe] = meal
	}
	b.doc = &sheets.Document{Title: v.book.Name, By: byOf(v.book.Credits), For: v.book.For.Text, Bound: true, Language: "en-GB", Revision: opt.Revision}
	b.intoChapters(meals)
	v.refs = refer(v)

	b.add(b.titlePage())
	if opt.Card {
		b.add(b.alphabet())
	} else {
		b.add(b.imprint())
		b.add(b.preface())
		b.add(b.contents())
	}
	b.add(b.care(meals))
	for _, c := range v.chapters {
		b.add(b.opens(c))
		for i, r := range c.recipes {
			s := b.bookRecipe(v.meals[r])
			s.Chapter = c.name
			s.Filed = fmt.Sprintf("%s %d", c.name, i+1)
			b.add(s)
			b.doc.Recipes = append(b.doc.Recipes, b.recipe(own(v.meals[r])))
		}
	}
	if !opt.Card {
		b.add(b.alphabet())
	}
	return b.doc
}

// intoChapters puts every recipe into a chapter, and gives each its place in the document.
func (b *builder) intoChapters(meals []*demand.Meal) {
	v, placed := b.volume, map[*resolve.Recipe]bool{}
	find := func(name string) *chapter {
		i := slices.IndexFunc(v.chapters, func(c *chapter) bool { return c.name == name })
		if i < 0 {
			i = len(v.chapters)
			v.chapters = append(v.chapters, &chapter{name: name})
		}
		return v.chapters[i]
	}
	for _, c := range v.book.Chapters {
		find(c.Name).about = c.About.Text
	}
	eachPlaced(meals, []*resolve.Book{v.book}, func(name string, meal *demand.Meal) {
		r := own(meal).Recipe
		if placed[r] {
			return
		}
		placed[r] = true
		c := find(name)
		c.recipes = append(c.recipes, r)
	})
	for _, bases := range []bool{false, true} {
		for _, meal := range meals {
			r := own(meal).Recipe
			if placed[r] || r.Base != bases {
				continue
			}
			name := otherDishes
			switch {
			case r.Base:
				name = theBases
			case len(v.book.Chapters) == 0:
				name = "The recipes"
			}
			c := find(name)
			c.recipes = append(c.recipes, r)
		}
	}
	v.chapters = slices.DeleteFunc(v.chapters, func(c *chapter) bool { return len(c.recipes) == 0 && c.about == "" }) // words of a writer are not lost
	for _, c := range v.chapters {
		c.id = b.id("chapter-" + c.name)
		for _, r := range c.recipes {
			b.pages[r] = b.id("prep-" + r.Name)
		}
	}
}

// titlePage says what the book is called, by whom it is and for whom.
func (b *builder) titlePage() *sheets.Sheet {
	v := b.volume
	s := &sheets.Sheet{ID: b.id("title"), Kind: sheets.TitlePage, Title: v.book.Name}
	for _, c := range v.book.Credits {
		if c.Kind == resolve.By {
			s.Facts = append(s.Facts, "by "+c.Text.Text)
		}
	}
	if f := v.book.For.Text; f != "" {
		s.Facts = append(s.Facts, "for "+f)
	}
	s.Blocks = append(s.Blocks, b.pictures(v.book.Name, v.book.Pictures)...)
	return s
}

// imprint says whose the book is and how it is read.
func (b *builder) imprint() *sheets.Sheet {
	v := b.volume
	s := &sheets.Sheet{ID: b.id("imprint"), Kind: sheets.Imprint, Title: "How to read this book"}
	n := 0
	for _, c := range v.chapters {
		n += len(c.recipes)
	}
	runs := []sheets.Run{{Text: plural(n, "recipe", "recipes") + " in " + plural(len(v.chapters), "chapter", "chapters") + ", each at the size it was written for. "}}
	if len(v.refs.uses) > 0 {
		runs = append(runs, sheets.Run{
			Text: "A name that is a link leads to where that thing is made; “Used in” says where it goes. ",
			Page: "A page after a name is where that thing is made; “Used in” says where it goes. ",
		})
	}
	var text []string
	if b.anyDoubt() {
		text = append(text, "A question mark stands where nobody has confirmed a time or a heat yet.")
	}
	if b.anySaid() {
		text = append(text, "Words in quotation marks are the old ones, kept beside the amounts that we settled on.")
	}
	p := &sheets.Prose{Paras: []sheets.Para{{Runs: append(runs, plainRun(strings.Join(text, " "))...)}}}
	for _, line := range credits(v.book.Credits) {
		if !strings.HasPrefix(line, "by ") {
			p.Paras = append(p.Paras, sheets.Para{Runs: plainRun(capital(line) + ".")})
		}
	}
	if b.opt.Revision != "" {
		p.Paras = append(p.Paras, sheets.Para{Runs: plainRun("Revision " + b.opt.Revision + ".")})
	}
	s.Blocks = append(s.Blocks, p)
	return s
}

// care has the cautions of the whole book, with their sources: the recipes say theirs in few
// words.
func (b *builder) care(meals []*demand.Meal) *sheets.Sheet {
	c := b.caresOf(meals)
	if c == nil {
		c = &sheets.Cautions{Items: []sheets.Caution{{Text: "General cautions: local rules, makers’ instructions and qualified people come first."}}}
	}
	last := len(c.Items) - 1
	c.Items = append(c.Items[:last:last], sheets.Caution{Text: "What a recipe contains is said by what it lists: read every label for what makers add, and ask your guests."}, c.Items[last])
	return &sheets.Sheet{ID: b.id("care"), Kind: sheets.Care, Title: "Take care", Blocks: []sheets.Block{c}}
}

// anyDoubt tells whether some recipe has a time or a heat that nobody has confirmed.
func (b *builder) anyDoubt() bool {
	for r := range b.volume.meals {
		if len(r.Offers) > 0 {
			return true
		}
	}
	return false
}

// anySaid tells whether some recipe keeps the words of an old book.
func (b *builder) anySaid() bool {
	for r := range b.volume.meals {
		if len(r.Own.Notes.Said) > 0 || slices.ContainsFunc(r.Lines, func(l *resolve.Line) bool { return !l.Said.IsZero() }) ||
			slices.ContainsFunc(r.Steps, func(s *resolve.Step) bool { return !s.Said.IsZero() }) {
			return true
		}
	}
	return false
}

// preface is what the writer says of the whole; nil where that is nothing.
func (b *builder) preface() *sheets.Sheet {
	paras := Markdown(b.volume.book.About.Text)
	if len(paras) == 0 {
		return nil
	}
	return &sheets.Sheet{ID: b.id("preface"), Kind: sheets.Preface, Title: "Preface", Blocks: []sheets.Block{&sheets.Prose{Paras: paras}}}
}

// contents lists the chapters with their recipes.
func (b *builder) contents() *sheets.Sheet {
	v := b.volume
	t := pageTable()
	for _, c := range v.chapters {
		g := sheets.Group{Rows: []sheets.Row{{Strong: true, Cells: []sheets.Cell{{Runs: linked(c.name, "#"+c.id)}, onPage("#" + c.id)}}}}
		for _, r := range c.recipes {
			g.Rows = append(g.Rows, b.pageRow(r))
		}
		t.Groups = append(t.Groups, g)
	}
	s := &sheets.Sheet{ID: b.id("contents"), Kind: sheets.Contents, Title: "Contents", Blocks: []sheets.Block{t}}
	t.Groups = append(t.Groups, sheets.Group{Rows: []sheets.Row{{Strong: true, Cells: []sheets.Cell{{Runs: linked("Index", "#"+indexID)}, onPage("#" + indexID)}}}})
	return s
}

// indexID is the place of the index in the document.
const indexID = "index"

// pageTable is a list with pages.
func pageTable() *sheets.Table {
	return &sheets.Table{Plain: true, Columns: []sheets.Column{{Title: "Recipe", Kind: sheets.TextColumn, Weight: 4}, {Title: "Page", Kind: sheets.PageColumn}}}
}

// pageRow is a recipe with its page.
func (b *builder) pageRow(r *resolve.Recipe) sheets.Row {
	link := "#" + b.pages[r]
	return sheets.Row{Cells: []sheets.Cell{{Runs: []sheets.Run{{Text: r.Name, Style: sheets.Thing, Link: link}}}, onPage(link)}}
}

// opens is what opens a chapter: its name, what the writer says of it, and what stands in it.
func (b *builder) opens(c *chapter) *sheets.Sheet {
	s := &sheets.Sheet{ID: c.id, Kind: sheets.Chapter, Title: c.name, Chapter: c.name}
	if paras := Markdown(c.about); len(paras) > 0 {
		s.Blocks = append(s.Blocks, &sheets.Prose{Paras: paras})
	}
	t := pageTable()
	if b.opt.Card { // it is filed by its number
		t.Columns = []sheets.Column{{Kind: sheets.AmountColumn}, {Kind: sheets.TextColumn, Weight: 4}}
	}
	g := sheets.Group{}
	for i, r := range c.recipes {
		row := b.pageRow(r)
		if b.opt.Card {
			row.Cells = []sheets.Cell{say(fmt.Sprint(i + 1)), row.Cells[0]}
		}
		g.Rows = append(g.Rows, row)
	}
	if len(g.Rows) > 0 {
		t.Groups = append(t.Groups, g)
		s.Blocks = append(s.Blocks, t)
	}
	return s
}
