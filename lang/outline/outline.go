// Package outline is a file as an editor shows it: the things in it, what can be
// folded away, and which words are words of the notation, names and figures.
//
// Read this file first; marks.go finds the words, folds.go the folds.
package outline

import (
	"tamis/lang/ast"
	"tamis/lang/source"
)

// Outline is what is shown of one file.
type Outline struct {
	Items []Item // its blocks, in order, with what stands in them
	Folds []Fold
	Marks []Mark // in order; none reaches into the next
}

// Kind is what an item is.
type Kind string

// The kinds of items.
const (
	Menu    Kind = "menu"
	Dish    Kind = "dish"
	Base    Kind = "base"
	Kitchen Kind = "kitchen"
	Larder  Kind = "larder"
	Series  Kind = "series"
	Book    Kind = "book"
	Course  Kind = "course"
	Serving Kind = "serving"
	Part    Kind = "part"
	Chapter Kind = "chapter"
	List    Kind = "list"   // gather, a list in it, an option
	Method  Kind = "method" // the steps
	Line    Kind = "line"   // something gathered, a fact of the larder
	Step    Kind = "step"
	Thing   Kind = "thing" // an oven, a vessel
)

// Item is a block, or a thing in one.
type Item struct {
	Kind   Kind
	Name   string
	Detail string      // beside its name: the amount of a line; may be empty
	Span   source.Span // all of it
	NameAt source.Span // within Span
	Kids   []Item
}

// Of is the outline of a file.
func Of(f *ast.File) *Outline {
	o := &Outline{}
	for _, b := range f.Blocks {
		if it, ok := item(b); ok {
			o.Items = append(o.Items, it)
		}
	}
	o.Folds = folds(f)
	o.Marks = marks(f)
	return o
}

// item is what a statement is in an outline; ok is false where it is nothing there.
func item(n ast.Node) (it Item, ok bool) {
	switch n := n.(type) {
	case *ast.Menu:
		it = named(Menu, n, n.Title, items(n.Items))
	case *ast.Recipe:
		it = named(Kind(n.Word()), n, n.Title, items(n.Items))
	case *ast.Kitchen:
		it = named(Kitchen, n, n.Title, items(n.Items))
	case *ast.Larder:
		it = named(Larder, n, ast.Name{}, items(n.Items))
	case *ast.Series:
		it = named(Series, n, n.Title, items(n.Items))
	case *ast.Book:
		it = named(Book, n, n.Title, items(n.Items))
	case *ast.Course:
		it = named(Course, n, n.Title, items(n.Servings))
	case *ast.Serving:
		it = named(Serving, n, n.Ref, nil)
	case *ast.Part:
		it = named(Part, n, n.Title, nil)
	case *ast.Chapter:
		it = named(Chapter, n, n.Title, nil)
	case *ast.Gather:
		it = named(List, n, ast.Name{}, items(n.Items))
		it.Name = "gather"
	case *ast.SubList:
		it = named(List, n, n.Name, items(n.Items))
	case *ast.Choice:
		it = named(List, n, ast.Name{}, items(n.Options))
		it.Name = "either"
	case *ast.Option:
		it = named(List, n, n.Label, items(n.Items))
	case *ast.Line:
		it = named(Line, n, n.Name, nil)
		it.Detail = n.AmountAt.Text
	case *ast.Entry:
		it = named(Line, n, n.Name, nil)
	case *ast.Method:
		it = named(Method, n, ast.Name{}, items(n.Items))
		it.Name = "method"
	case *ast.Step:
		it = Item{Kind: Step, Name: n.Prose.Text, Span: n.Span, NameAt: n.Span}
		if len(n.Lines) > 0 {
			it.NameAt = n.Lines[0].Span
		}
	case *ast.Pause:
		it = Item{Kind: Step, Name: "pause", Span: n.Span, NameAt: n.Span}
	case *ast.Oven:
		it = named(Thing, n, n.Title, nil)
	case *ast.Vessel:
		it = named(Thing, n, n.Title, nil)
	default:
		return it, false
	}
	if it.Name == "" {
		it.Name = string(it.Kind)
	}
	return it, true
}

// named is an item whose name stands in the text.
func named(k Kind, n ast.Node, name ast.Name, kids []Item) Item {
	it := Item{Kind: k, Name: name.Text, Span: n.Pos(), NameAt: name.Span, Kids: kids}
	if it.NameAt.IsZero() {
		at := n.Pos()
		it.NameAt = at.File.Span(at.Start, min(at.End, at.Start+len(n.Word())))
	}
	return it
}

func items[N ast.Node](list []N) (out []Item) {
	for _, n := range list {
		if it, ok := item(n); ok {
			out = append(out, it)
		}
	}
	return out
}
