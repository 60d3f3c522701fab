package load

import (
	"tamis/lang/ast"
	"tamis/lang/outline"
	"tamis/lang/source"
)

// Outline is what an editor shows of the text: its things, its folds, its colours.
func (f *File) Outline() *outline.Outline { return outline.Of(f.AST) }

// Block is one block as it was written, whatever it means: for findings about
// the text itself.
type Block struct {
	Span   source.Span
	Allows []Allow
	// Practices are its `rules` fields: whose rules the writer goes by.
	Practices []Field
}

// Allow is `allow CODE: reason`.
type Allow struct {
	Span source.Span
	Code string
}

// Field is a field of a block and what stands in it.
type Field struct {
	Span   source.Span
	Text   string
	TextAt source.Span
}

// Blocks are the blocks of a file, in order, those that did not read too.
func (f *File) Blocks() (out []Block) {
	for _, b := range f.AST.Blocks {
		block := Block{Span: b.Pos()}
		for _, c := range commons(b) {
			switch c.Key {
			case "allow":
				if c.Code != "" {
					block.Allows = append(block.Allows, Allow{c.Span, c.Code})
				}
			case "rules":
				block.Practices = append(block.Practices, Field{c.Span, c.Text.Text, c.Text.Span})
			}
		}
		out = append(out, block)
	}
	return out
}

// commons are the shared fields of a block; a part of a series has its own.
func commons(b ast.Block) []*ast.Common {
	switch x := b.(type) {
	case *ast.Recipe:
		return among(x.Items)
	case *ast.Menu:
		return among(x.Items)
	case *ast.Kitchen:
		return among(x.Items)
	case *ast.Series:
		return among(x.Items)
	case *ast.Book:
		return among(x.Items)
	}
	return nil
}

func among[T ast.Node](items []T) (out []*ast.Common) {
	for _, it := range items {
		if c, ok := any(it).(*ast.Common); ok {
			out = append(out, c)
		}
	}
	return out
}
