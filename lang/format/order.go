package format

import (
	"cmp"
	"slices"

	"tamis/lang/ast"
	"tamis/lang/parse"
)

// Fields stand in the order of the notation's table; gathered lines, steps,
// courses, servings and parts stay as the writer put them. A block with a
// statement that was not read is not reordered.

func sorted[T ast.Node](place parse.Place, items []T) []T {
	for _, it := range items {
		if _, ok := any(it).(*ast.Bad); ok {
			return items
		}
	}
	rank := func(it T) int { return parse.Order(place, orderWord(it)) }
	if slices.IsSortedFunc(items, func(a, b T) int { return rank(a) - rank(b) }) {
		return items
	}
	out := slices.Clone(items)
	slices.SortStableFunc(out, func(a, b T) int { return rank(a) - rank(b) })
	return out
}

// orderWord is the word by which a statement is put in order: courses and tasks
// keep their order among themselves.
func orderWord(n ast.Node) string {
	if _, ok := n.(*ast.Task); ok {
		return (*ast.Course)(nil).Word()
	}
	return n.Word()
}

func sortedClauses(place parse.Place, clauses []ast.Clause) []ast.Clause {
	for _, c := range clauses {
		if _, ok := c.(*ast.Unread); ok {
			return clauses
		}
	}
	out := slices.Clone(clauses)
	slices.SortStableFunc(out, func(a, b ast.Clause) int {
		return cmp.Or(parse.Order(place, a.Base().Word)-parse.Order(place, b.Base().Word), again(a)-again(b))
	})
	return out
}

// again is 1 for attention now and then, which stands after a time of the same word.
func again(c ast.Clause) int {
	if t, ok := c.(*ast.Timed); ok && t.Spell.Every != nil {
		return 1
	}
	return 0
}

// Sort puts the fields and the clauses of a tree into the order in which File
// writes them. It changes nothing that the file means.
func Sort(f *ast.File) {
	ast.Walk(f, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.Menu:
			n.Items = sorted(parse.InMenu, n.Items)
		case *ast.Recipe:
			n.Items = sorted(parse.InRecipe, n.Items)
		case *ast.Kitchen:
			n.Items = sorted(parse.InKitchen, n.Items)
		case *ast.Larder:
			n.Items = sorted(parse.InLarder, n.Items)
		case *ast.Series:
			n.Items = sorted(parse.InSeries, n.Items)
		case *ast.Part:
			n.Items = sorted(parse.InPart, n.Items)
		case *ast.Book:
			n.Items = sorted(parse.InBook, n.Items)
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
