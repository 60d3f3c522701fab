package resolve

import (
	"path"
	"slices"
	"strings"

	"tamis/compiler/larder"
	"tamis/lang/ast"
	"tamis/lang/quantity"
	"tamis/lang/source"
)

// Book is a book of chapters with its house style.
type Book struct {
	Span     source.Span
	Name     string
	For      Text   // for whom it was made; may be empty
	About    Text   // Markdown; may be empty
	Dir      string // its folder, below the root of what was read
	Asked    bool   // stands in what the user asked for
	Practice Text
	Styles   []Text // what stands after `style`, line by line
	Chapters []Chapter
	Credits  []Credit
	Pictures []source.Span // its `picture` fields
}

// Chapter is `chapter Soups` with the names of its recipes.
type Chapter struct {
	Name  string
	About Text // Markdown; may be empty
	Names []Text
}

// Placed tells which of some recipes a name in a chapter is of: by their own name or
// another that they are called by, alone or with the folder below the book's, or from
// the root, before it. None: there is no such recipe in the book.
func (b *Book) Placed(recipes []*Recipe) func(ref Text) []*Recipe {
	by := make(map[string][]*Recipe, len(recipes))
	for _, r := range recipes {
		dir := ""
		if r.Scope != nil {
			dir = r.Scope.Dir
		}
		below, inside := below(dir, b.Dir)
		if !inside {
			continue
		}
		names := []string{r.Name}
		for _, o := range r.Own.Notes.Also {
			names = append(names, o.Text)
		}
		for _, n := range names {
			keys := []string{larder.Fold(n), larder.Fold(path.Join(below, n)), larder.Fold(path.Join(dir, n))}
			slices.Sort(keys)
			for _, k := range slices.Compact(keys) {
				by[k] = append(by[k], r)
			}
		}
	}
	return func(ref Text) []*Recipe { return by[larder.Fold(strings.Trim(ref.Text, "/ "))] }
}

// Holds tells whether a recipe lies in the folder of the book, or below it.
func (b *Book) Holds(r *Recipe) bool {
	if r.Scope == nil {
		return b.Dir == "" || b.Dir == "."
	}
	_, inside := below(r.Scope.Dir, b.Dir)
	return inside
}

// below is a folder as seen from another that it is or lies in.
func below(dir, of string) (string, bool) {
	if of == "" || of == "." || dir == of {
		return strings.TrimPrefix(strings.TrimPrefix(dir, of), "."), true
	}
	return strings.CutPrefix(dir, of+"/")
}

func book(x *ast.Book, dir string, asked bool) *Book {
	b := &Book{Span: x.Span, Name: x.Title.Text, Dir: dir, Asked: asked, Pictures: pictures(x.Items)}
	for _, it := range x.Items {
		switch it := it.(type) {
		case *ast.Style:
			b.Styles = append(b.Styles, Text(it.Text))
		case *ast.Chapter:
			c := Chapter{Name: it.Title.Text}
			if it.About != nil {
				c.About = Text(it.About.Text)
			}
			for _, ref := range it.Refs {
				c.Names = append(c.Names, nameText(ref.Ref))
			}
			b.Chapters = append(b.Chapters, c)
		case *ast.For:
			b.For = Text(it.Text)
		case *ast.About:
			b.About = Text(it.Text)
		case *ast.Common:
			switch it.Key {
			case "rules":
				if b.Practice.Span.IsZero() {
					b.Practice = Text(it.Text)
				}
			case "by", "source", "link", "licence":
				b.Credits = append(b.Credits, credit(it))
			}
		}
	}
	return b
}

// House is the house style of a book: the choices its `style` lines make. The
// zero House makes none.
type House struct {
	Range   string // "dash", "to"
	Units   string // "metric", "US", "imperial", "both"
	Divided string // "divided", "not divided"
	Preheat string // "always", "never"
	Credits bool   // every dish says where it comes from
	Terms   bool   // words of the trade are explained where they are used
	Lines   []Text // its `style` lines
}

type houseRule struct {
	text string
	set  func(*House)
}

// houseStyles is the closed list: what may stand after `style`, and what it
// sets.
var houseStyles = []houseRule{
	{"range dash", func(h *House) { h.Range = "dash" }},
	{"range to", func(h *House) { h.Range = "to" }},
	{"units metric", func(h *House) { h.Units = string(quantity.Metric) }},
	{"units US", func(h *House) { h.Units = string(quantity.US) }},
	{"units imperial", func(h *House) { h.Units = string(quantity.Imperial) }},
	{"units both", func(h *House) { h.Units = "both" }},
	{"divided", func(h *House) { h.Divided = "divided" }},
	{"not divided", func(h *House) { h.Divided = "not divided" }},
	{"preheat always", func(h *House) { h.Preheat = "always" }},
	{"preheat never", func(h *House) { h.Preheat = "never" }},
	{"credits", func(h *House) { h.Credits = true }},
	{"terms explained", func(h *House) { h.Terms = true }},
}

// HouseStyles are the rules that a book may set with `style`.
func HouseStyles() (out []string) {
	for _, s := range houseStyles {
		out = append(out, s.text)
	}
	return out
}

// HouseStyle finds a rule of the house style by what is written after `style`,
// in any case. The second result is the switch it belongs to: "range", "units".
func HouseStyle(text string) (rule, of string, ok bool) {
	words := strings.Join(strings.Fields(text), " ")
	for _, s := range houseStyles {
		if strings.EqualFold(s.text, words) {
			of, _, _ = strings.Cut(s.text, " ")
			if of == "not" {
				of = "divided"
			}
			return s.text, of, true
		}
	}
	return "", "", false
}

// House is the house style that holds where a place is: that of the books in
// its folder and in those it stands in. A line further down wins.
func (m *Model) House(at source.Span) (h House) {
	if at.File == nil {
		return h
	}
	dir := path.Dir(at.File.Name)
	for _, b := range m.Books {
		above := path.Dir(b.Span.File.Name)
		if above != "." && dir != above && !strings.HasPrefix(dir, above+"/") {
			continue
		}
		for _, s := range b.Styles {
			h.Lines = append(h.Lines, s)
			rule, _, known := HouseStyle(s.Text)
			if !known {
				continue
			}
			i := slices.IndexFunc(houseStyles, func(r houseRule) bool { return r.text == rule })
			houseStyles[i].set(&h)
		}
	}
	return h
}
