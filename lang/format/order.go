package format

import (
	"slices"

	"tamis/lang/ast"
	"tamis/lang/parse"
)

// Fields stand in the order of the notation's table; gathered lines, steps,
// courses, servings and parts stay as the writer put them. A block with a
// statement that was not read is not reordered.

func sorted[T ast.Node](items []T, rank func(T) int) []T {
	for _, it := range items {
		if _, ok := any(it).(*ast.Bad); ok {
			return items
		}
	}
	if slices.IsSortedFunc(items, func(a, b T) int { return rank(a) - rank(b) }) {
		return items
	}
	out := slices.Clone(items)
	slices.SortStableFunc(out, func(a, b T) int { return rank(a) - rank(b) })
	return out
}

func menuItems(items []ast.MenuItem) []ast.MenuItem {
	return sorted(items, func(it ast.MenuItem) int { return parse.Order(parse.InMenu, menuWord(it)) })
}

func menuWord(it ast.MenuItem) string {
	switch it := it.(type) {
	case *ast.Common:
		return it.Key
	case *ast.Covers:
		return "covers"
	case *ast.ServeAt:
		return "serve"
	case *ast.At:
		return "at"
	case *ast.Hours:
		return "hours"
	}
	return "course" // courses and tasks keep their order among themselves
}

func recipeItems(items []ast.RecipeItem) []ast.RecipeItem {
	return sorted(items, func(it ast.RecipeItem) int { return parse.Order(parse.InRecipe, recipeWord(it)) })
}

func recipeWord(it ast.RecipeItem) string {
	switch it := it.(type) {
	case *ast.Common:
		return it.Key
	case *ast.As:
		return "as"
	case *ast.Serves:
		return "serves"
	case *ast.Makes:
		return "makes"
	case *ast.Keeps:
		return "keeps"
	case *ast.Tested:
		return "tested"
	case *ast.Units:
		return "units"
	case *ast.WholeBatches:
		return "whole batches"
	case *ast.Takes:
		return "takes"
	case *ast.About:
		return "about"
	case *ast.Gather:
		return "gather"
	case *ast.Method:
		return "method"
	}
	return "serve"
}

func kitchenItems(items []ast.KitchenItem) []ast.KitchenItem {
	return sorted(items, func(it ast.KitchenItem) int { return parse.Order(parse.InKitchen, kitchenWord(it)) })
}

func kitchenWord(it ast.KitchenItem) string {
	switch it := it.(type) {
	case *ast.Common:
		return it.Key
	case *ast.Names:
		return it.Key
	case *ast.Oven:
		return "oven"
	case *ast.Rings:
		return "rings"
	case *ast.Vessel:
		return "vessel"
	case *ast.WashUp:
		return "wash up"
	case *ast.Waits:
		return "waits"
	}
	return "zone"
}

func larderItems(items []ast.LarderItem) []ast.LarderItem {
	return sorted(items, func(it ast.LarderItem) int {
		if s, ok := it.(*ast.Setting); ok {
			return parse.Order(parse.InLarder, s.Key)
		}
		return parse.Order(parse.InLarder, "")
	})
}

func seriesItems(items []ast.SeriesItem) []ast.SeriesItem {
	return sorted(items, func(it ast.SeriesItem) int {
		if c, ok := it.(*ast.Common); ok {
			return parse.Order(parse.InSeries, c.Key)
		}
		return parse.Order(parse.InSeries, "part")
	})
}

func partItems(items []ast.PartItem) []ast.PartItem {
	return sorted(items, func(it ast.PartItem) int {
		word := "stand-ins"
		switch it := it.(type) {
		case *ast.Common:
			word = it.Key
		case *ast.Shows:
			word = "shows"
		case *ast.PartDate:
			word = "date"
		}
		return parse.Order(parse.InPart, word)
	})
}

func bookItems(items []ast.BookItem) []ast.BookItem {
	return sorted(items, func(it ast.BookItem) int {
		word := "chapter"
		switch it := it.(type) {
		case *ast.Common:
			word = it.Key
		case *ast.Style:
			word = "style"
		}
		return parse.Order(parse.InBook, word)
	})
}

func sortedClauses(place parse.Place, clauses []*ast.Clause) []*ast.Clause {
	for _, c := range clauses {
		if c.Key == "bad" {
			return clauses
		}
	}
	out := slices.Clone(clauses)
	slices.SortStableFunc(out, func(a, b *ast.Clause) int {
		return parse.Order(place, a.Key) - parse.Order(place, b.Key)
	})
	return out
}

// Sort puts the fields and the clauses of a tree into the order in which File
// writes them. It changes nothing that the file means.
func Sort(f *ast.File) {
	ast.Walk(f, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.Menu:
			n.Items = menuItems(n.Items)
		case *ast.Recipe:
			n.Items = recipeItems(n.Items)
		case *ast.Kitchen:
			n.Items = kitchenItems(n.Items)
		case *ast.Larder:
			n.Items = larderItems(n.Items)
		case *ast.Series:
			n.Items = seriesItems(n.Items)
		case *ast.Part:
			n.Items = partItems(n.Items)
		case *ast.Book:
			n.Items = bookItems(n.Items)
		case *ast.Line:
			n.Clauses = sortedClauses(gathered, n.Clauses)
		case *ast.Step:
			n.Clauses = sortedClauses(step, n.Clauses)
		case *ast.Moment:
			n.Clauses = sortedClauses(step, n.Clauses)
		}
		return true
	})
}
