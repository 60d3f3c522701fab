// Package changes says what is otherwise for the cook between two states of a book: not
// which characters, but that the salt is 12 g instead of 10, that the roast takes five
// minutes longer, that a dish has another name.
//
// Read this file first: Between compares two results of the compiler. pair.go finds what
// in one state is what in the other, recipe.go compares two recipes, menu.go two meals
// and their plans, merge.go the four states of a merge.
package changes

import (
	"tamis/compiler"
	"tamis/compiler/resolve"
	"tamis/compiler/sheets"
)

// Group is what has changed about one thing, under its name as it is now.
type Group struct {
	Title string // "dish Slow lamb"
	Lines []string
}

// Between compares a book as it was with how it is. Both are compiled with plans; what
// was asked for is compared, in the order in which it stands now, and what is gone last.
func Between(was, now *compiler.Result) (out []Group) {
	add := func(title string, lines []string) {
		if len(lines) > 0 {
			out = append(out, Group{title, lines})
		}
	}
	pairs := recipes(was.Model, now.Model)
	for _, p := range meals(was, now) {
		switch {
		case p.was == nil:
			said := "is new"
			if dir := elsewhere(was.Model, p.now.Menu); dir != "" {
				said = "was in " + folder(dir) + ", is now in " + folder(p.now.Menu.Scope.Dir)
			}
			add("menu "+p.now.Menu.Name, []string{said})
		case p.now == nil:
			said := "is gone"
			if dir := elsewhere(now.Model, p.was.Menu); dir != "" {
				said = "was in " + folder(p.was.Menu.Scope.Dir) + ", is now in " + folder(dir)
			}
			add("menu "+p.was.Menu.Name, []string{said})
		default:
			add("menu "+p.now.Menu.Name, p.lines(was, now, pairs))
		}
	}
	for _, p := range pairs {
		switch {
		case p.was == nil:
			add(titleOf(p.now), []string{"is new"})
		case p.now == nil:
			add(titleOf(p.was), []string{"is gone"})
		default:
			add(titleOf(p.now), p.lines(was.Model, now.Model))
		}
	}
	return out
}

// elsewhere is the folder of a book in which a menu stands that nobody asked for there; empty:
// it has none.
func elsewhere(m *resolve.Model, of *resolve.Menu) string {
	for _, menu := range m.Menus {
		if !menu.Asked && menu.Name == of.Name {
			return menu.Scope.Dir
		}
	}
	return ""
}

// Document is the changes as a document, for a page.
func Document(groups []Group) *sheets.Document {
	s := sheets.Sheet{ID: "changes", Kind: sheets.Overview, Title: "What has changed"}
	for _, g := range groups {
		var paras []sheets.Para
		for _, l := range g.Lines {
			paras = append(paras, sheets.Para{Kind: sheets.Item, Runs: []sheets.Run{{Text: l}}})
		}
		s.Blocks = append(s.Blocks, &sheets.Heading{Text: g.Title}, &sheets.Prose{Paras: paras})
	}
	if len(groups) == 0 {
		s.Blocks = append(s.Blocks, &sheets.Prose{Paras: []sheets.Para{{Runs: []sheets.Run{{Text: "Nothing has changed for the cook."}}}}})
	}
	return &sheets.Document{Title: "What has changed", Language: "en-GB", Sheets: []sheets.Sheet{s}}
}
