package build

import (
	"slices"
	"strings"

	"tamis/compiler/demand"
	"tamis/compiler/resolve"
	"tamis/compiler/sheets"
)

// Notebook makes one document of a folder without a menu: a card for every
// recipe at its written size, a list of them by chapter, and what to buy for
// each. meals holds one meal for each recipe; books may say titles and
// chapters.
func Notebook(title string, meals []*demand.Meal, books []*resolve.Book, opt Options) *sheets.Document {
	doc := &sheets.Document{Title: title, Language: "en-GB", Revision: opt.Revision}
	b := &builder{
		doc: doc, opt: opt, books: books, caresOnce: true, ids: map[string]bool{}, links: map[*demand.Making]string{},
		notebook: map[*resolve.Recipe]sheets.Mark{}, pages: map[*resolve.Recipe]string{},
	}
	meals = inChapters(meals, books)
	contents := b.id("contents")
	shopping := b.id("shopping")
	for _, meal := range meals {
		m := own(meal)
		mark := sheets.Mark{Letter: letterNumber(len(doc.Dishes)), Name: m.Recipe.Name, Base: m.Recipe.Base}
		doc.Dishes = append(doc.Dishes, mark)
		b.notebook[m.Recipe] = mark
		b.pages[m.Recipe] = b.id("prep-" + m.Recipe.Name)
	}
	front := &sheets.Sheet{ID: contents, Kind: sheets.Overview, Title: "The recipes"}
	for _, book := range books {
		front.Facts = append(front.Facts, credits(book.Credits)...)
		front.Blocks = append(front.Blocks, b.pictures(book.Name, book.Pictures)...)
	}
	front.Blocks = append(front.Blocks, b.recipes(meals, books))
	if c := b.caresOf(meals); c != nil {
		front.Blocks = append(front.Blocks, c)
	}
	buy := &sheets.Table{Columns: []sheets.Column{{Kind: sheets.TickColumn}, {Title: "Buy", Kind: sheets.AmountColumn}, {Title: "What", Kind: sheets.TextColumn, Weight: 4}}}
	var preps []*sheets.Sheet
	for _, meal := range meals {
		m := own(meal)
		b.use(meal)
		b.links[m] = b.pages[m.Recipe]
		preps = append(preps, b.prep(m))
		doc.Recipes = append(doc.Recipes, b.recipe(m))
		if g := b.buyFor(m); g != nil {
			buy.Groups = append(buy.Groups, *g)
		}
	}
	if opt.Wants(sheets.Prep) || opt.Wants(sheets.Overview) {
		b.add(front)
	}
	if opt.Wants(sheets.Prep) {
		for _, p := range preps {
			b.add(p)
		}
	}
	// each recipe says what it gathers; the list by itself is for who asks for it
	if len(buy.Groups) > 0 && slices.Contains(opt.Kinds, sheets.Shopping) {
		b.add(&sheets.Sheet{ID: shopping, Kind: sheets.Shopping, Title: "What to buy, recipe by recipe", Facts: []string{"at written size; what another recipe here makes is not bought"}, Blocks: []sheets.Block{buy}})
	}
	return doc
}

// inChapters puts meals in the order the books' chapters name them; the rest
// follow.
func inChapters(meals []*demand.Meal, books []*resolve.Book) []*demand.Meal {
	out, placed := make([]*demand.Meal, 0, len(meals)), map[*demand.Meal]bool{}
	put := func(meal *demand.Meal) {
		if !placed[meal] {
			placed[meal] = true
			out = append(out, meal)
		}
	}
	eachPlaced(meals, books, func(_ string, meal *demand.Meal) { put(meal) })
	for _, meal := range meals {
		put(meal)
	}
	return out
}

// eachPlaced calls f for the meals of each chapter of the books, in their order, with
// the chapter's name.
func eachPlaced(meals []*demand.Meal, books []*resolve.Book, f func(chapter string, meal *demand.Meal)) {
	of := make(map[*resolve.Recipe][]*demand.Meal, len(meals))
	recipes := make([]*resolve.Recipe, 0, len(meals))
	for _, meal := range meals {
		r := own(meal).Recipe
		if of[r] == nil {
			recipes = append(recipes, r)
		}
		of[r] = append(of[r], meal)
	}
	for _, book := range books {
		placed := book.Placed(recipes)
		for _, c := range book.Chapters {
			for _, ref := range c.Names {
				for _, r := range placed(ref) {
					for _, meal := range of[r] {
						f(c.Name, meal)
					}
				}
			}
		}
	}
}

// own is the making of the recipe a meal is about: what it draws on stands
// before it.
func own(meal *demand.Meal) *demand.Making { return meal.Makings[len(meal.Makings)-1] }

func letterNumber(n int) string {
	s := ""
	for {
		s = string(rune('A'+n%26)) + s
		if n = n/26 - 1; n < 0 {
			return s
		}
	}
}

// recipes lists the recipes by chapter; those in none stand under their own
// heading.
func (b *builder) recipes(meals []*demand.Meal, books []*resolve.Book) *sheets.Table {
	t := &sheets.Table{Columns: []sheets.Column{{Kind: sheets.MarkColumn}, {Title: "Recipe", Kind: sheets.TextColumn, Weight: 4}, {Title: "Makes", Kind: sheets.TextColumn, Weight: 3}}}
	paged := !b.opt.Card && b.opt.Wants(sheets.Prep) // cards count by themselves
	if paged {
		t.Columns = append(t.Columns, sheets.Column{Title: "Page", Kind: sheets.PageColumn})
	}
	chapterOf, groups := map[*resolve.Recipe]string{}, map[string]int{}
	group := func(name string) int {
		i, ok := groups[name]
		if !ok {
			i = len(t.Groups)
			groups[name] = i
			t.Groups = append(t.Groups, sheets.Group{Title: name})
		}
		return i
	}
	for _, book := range books {
		for _, c := range book.Chapters {
			group(c.Name)
		}
	}
	eachPlaced(meals, books, func(chapter string, meal *demand.Meal) { chapterOf[own(meal).Recipe] = chapter })
	for _, meal := range meals {
		b.use(meal)
		m := own(meal)
		name := chapterOf[m.Recipe]
		if name == "" && len(t.Groups) > 0 {
			name = "In no chapter"
		}
		i := group(name)
		makes := ""
		if m.Portions.Sign() > 0 {
			makes = "serves " + m.Recipe.Serves.String()
		}
		if m.Recipe.Makes != nil {
			makes = strings.TrimPrefix(makes+", makes "+b.yield(m), ", ")
		}
		cells := []sheets.Cell{
			{Runs: []sheets.Run{{Text: b.mark(m)}}}, {Runs: []sheets.Run{{Text: m.Recipe.Name, Style: sheets.Thing, Link: b.linkTo(m)}}}, {Runs: []sheets.Run{{Text: makes}}},
		}
		if paged {
			cells = append(cells, onPage(b.linkTo(m)))
		}
		t.Groups[i].Rows = append(t.Groups[i].Rows, sheets.Row{Cells: cells})
	}
	t.Groups = slices.DeleteFunc(t.Groups, func(g sheets.Group) bool { return len(g.Rows) == 0 })
	return t
}

// onPage is the cell of the page where a sheet begins.
func onPage(link string) sheets.Cell { return sheets.Cell{Runs: []sheets.Run{{Link: link}}} }

// buyFor is what is bought for one recipe.
func (b *builder) buyFor(m *demand.Making) *sheets.Group {
	g := &sheets.Group{Title: m.Recipe.Name, Note: strings.Join(b.facts(m)[:min(1, len(b.facts(m)))], "")}
	for _, a := range m.Lines {
		if a.Source != nil || a.Line.Carried != "" || a.Line.Water {
			continue
		}
		g.Rows = append(g.Rows, b.buyRow(a, ""))
	}
	for _, o := range m.Others {
		for _, a := range optionLines(o) {
			if a.Line.From == nil && a.Line.Product == nil && a.Line.Carried == "" && !a.Line.Water {
				g.Rows = append(g.Rows, b.buyRow(a, "if "+o.Option.Label))
			}
		}
	}
	if len(g.Rows) == 0 {
		return nil
	}
	return g
}

func (b *builder) buyRow(a *demand.Amount, sub string) sheets.Row {
	return sheets.Row{Cells: []sheets.Cell{{}, {Runs: b.amountRuns(a)}, {Runs: []sheets.Run{{Text: b.nameOf(a), Style: sheets.Thing}}, Sub: quiet(sub)}}}
}
