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
			add("menu "+p.now.Menu.Name, []string{"is new"})
		case p.now == nil:
			add("menu "+p.was.Menu.Name, []string{"is gone"})
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
