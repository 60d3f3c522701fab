// Package format writes the tree of a file back as text, in the one layout the
// notation has.
//
// The layout of a line depends on that line alone, never on its neighbours, so
// that one changed amount is one changed line in a version control system.
// Prose is not touched. Text with errors comes back as it was.
//
// Read this file first, then recipe.go and fields.go, which write what stands in a block;
// clause.go writes a clause, and order.go puts the fields of a block in order.
package format

import (
	"slices"
	"strings"
	"unicode/utf8"

	"tamis/lang/ast"
	"tamis/lang/diag"
	"tamis/lang/parse"
	"tamis/lang/quantity"
	"tamis/lang/source"
)

const (
	indent      = "  "
	amountWidth = 8  // an amount in a list is padded to this
	marginAt    = 47 // columns before the bar of a gathered line
	lineWidth   = 88 // the longest margin line
)

// Source formats a file. When it has errors its text comes back unchanged.
func Source(src *source.File) (string, []diag.Diagnostic) {
	return SourceWith(src, quantity.Options{})
}

// SourceWith is Source for a file of a folder whose settings are known.
func SourceWith(src *source.File, opt quantity.Options) (string, []diag.Diagnostic) {
	var list diag.List
	tree := parse.FileWith(src, opt, &list)
	if list.HasErrors() {
		return src.Text, list.Sorted()
	}
	return File(tree), list.Sorted()
}

// Text lays out a text; ok is false where it has errors, and it comes back unchanged.
func Text(text string, opt quantity.Options) (laid string, ok bool) {
	laid, found := SourceWith(source.New("", text), opt)
	return laid, !slices.ContainsFunc(found, func(d diag.Diagnostic) bool { return d.Severity == diag.Error })
}

// File writes a tree. It must have been read without errors; statements of a
// newer notation are written as they were.
func File(f *ast.File) string {
	p := &printer{comma: f.Comma}
	p.comments("", f.Head)
	if f.Notation > 0 {
		p.line("", "notation "+itoa(f.Notation))
	}
	for _, b := range f.Blocks {
		p.gap()
		p.block(b)
	}
	if len(f.Trailing) > 0 {
		p.gap()
		p.comments("", f.Trailing)
	}
	return p.b.String()
}

// Margin writes the clauses of a step's margin on one line, in their order and
// without the first bar: "ring low | leave 40 min".
func Margin(clauses []ast.Clause) string {
	p := &printer{}
	return strings.TrimPrefix(p.margin(step, clauses), "| ")
}

type printer struct {
	b     strings.Builder
	comma bool
	fresh bool // no blank line may come here: the block has just begun
}

// line writes a whole line.
func (p *printer) line(in, text string) {
	p.b.WriteString(in)
	p.b.WriteString(text)
	p.b.WriteByte('\n')
	p.fresh = false
}

// gap puts a blank line between blocks.
func (p *printer) gap() {
	if p.b.Len() > 0 {
		p.b.WriteByte('\n')
	}
}

// above writes what stands above a statement: a blank line of the writer's,
// except at the head of a block, and comments.
func (p *printer) above(in string, m *ast.Meta) {
	if m.Gap && !p.fresh && in != "" {
		p.b.WriteByte('\n')
	}
	p.comments(in, m.Comments)
}

func (p *printer) comments(in string, list []ast.Comment) {
	for _, c := range list {
		text := "#"
		if c.Text != "" {
			text += " " + c.Text
		}
		p.line(in, text)
	}
}

// head writes a line that begins a block, and says that the block has begun.
func (p *printer) head(in string, m *ast.Meta, text string) {
	p.above(in, m)
	p.line(in, text)
	p.fresh = true
}

// field writes a statement of one line.
func (p *printer) field(in string, m *ast.Meta, text string) {
	p.above(in, m)
	if m.Offered {
		text += " ?"
	}
	p.line(in, text)
}

// bad writes a statement of a newer notation as it was.
func (p *printer) bad(in string, n *ast.Bad) {
	p.above(in, &n.Meta)
	p.line(in, strings.ReplaceAll(n.Text, "\r\n", "\n"))
}

func (p *printer) block(b ast.Block) {
	switch b := b.(type) {
	case *ast.Menu:
		p.head("", &b.Meta, "menu "+title(b.Title))
		for _, it := range sorted(parse.InMenu, b.Items) {
			p.menuItem(it)
		}
	case *ast.Recipe:
		word := "dish "
		if b.IsBase {
			word = "base "
		}
		p.head("", &b.Meta, word+title(b.Title))
		for _, it := range sorted(parse.InRecipe, b.Items) {
			p.recipeItem(it)
		}
	case *ast.Kitchen:
		p.head("", &b.Meta, "kitchen "+title(b.Title))
		for _, it := range sorted(parse.InKitchen, b.Items) {
			p.kitchenItem(it)
		}
	case *ast.Larder:
		p.head("", &b.Meta, "larder")
		for _, it := range sorted(parse.InLarder, b.Items) {
			p.larderItem(it)
		}
	case *ast.Series:
		p.head("", &b.Meta, "series "+title(b.Title))
		for _, it := range sorted(parse.InSeries, b.Items) {
			p.seriesItem(it)
		}
	case *ast.Book:
		p.head("", &b.Meta, "book "+title(b.Title))
		for _, it := range sorted(parse.InBook, b.Items) {
			p.bookItem(it)
		}
	case *ast.Bad:
		p.bad("", b)
	}
}

func (p *printer) common(c *ast.Common) {
	text := c.Key + " "
	if c.Key == "allow" {
		text += c.Code + ": "
	}
	p.field(indent, &c.Meta, text+c.Text.Text)
}

// wide is how many columns a text takes, combining marks apart.
func wide(text string) int { return utf8.RuneCountInString(text) }
