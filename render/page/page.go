// Package page lays a document out on paper: it decides where every word, rule
// and box stands on which page. The result is plain data, so that tests can
// look for overlaps, and package pdf only has to draw it.
//
// Read this file first, then sheet.go, which sets sheet after sheet, and flow.go, which
// parts what is set over pages; lines.go breaks text into lines, and the other files each
// set one kind of block.
package page

import (
	"context"
	"slices"

	"tamis/compiler/sheets"
	"tamis/render/draw"
	"tamis/render/fonts"
	"tamis/render/runes"
)

// Options say what is printed on.
type Options struct {
	Paper Paper // A4 when left empty
	Large bool  // large type, 16 points and up
	Light bool  // thin rules and no filled shapes, to spare ink
	// Booklet asks for pages of half the paper, to be printed two by two and
	// folded. It says nothing on paper that is not folded (Paper.Half).
	Booklet bool
	Fonts   fonts.Set // the writer's own, for what our faces lack
}

// Book is a document laid out.
type Book struct {
	Title, Author, Language string
	Pages                   []*Page
	Missing                 []rune // characters that no face has, in order of their codes
	Sheets                  []Start
	Folded                  Paper // what the pages are folded from; empty when they are not
}

// Page is one side of paper. Area is the box that everything lies within.
type Page struct {
	W, H  float64
	Area  Box
	Ops   []draw.Op
	Links []LinkBox
	Sheet int     // index into the sheets of the document
	Turn  bool    // the sheet goes on overleaf
	next  string  // what it goes on with: "step 7"; may be empty
	Below []Below // what stands below the first sheet
	ruled bool    // of a book: to write on

	onward string // where it goes on: "Turn over"

	headless bool // it has a head of its own in place of the running one
}

// Below is a sheet, or a part of one, that begins below another on the same page.
type Below struct {
	Sheet int // index into the sheets of the document
	Op    int // of the page, its first
}

// Box is a place on a page.
type Box struct{ X, Y, W, H float64 }

// LinkBox is a place that leads to an address or, with "#", to a sheet.
type LinkBox struct {
	Box
	To string
}

// Start is where a sheet begins, for bookmarks and links. Parts are its headings.
type Start struct {
	ID, Title string
	Page      int     // index into Pages
	Y         float64 // how far down, where it begins below another; else 0
	Level     int     // of its bookmark: 1 for a recipe of a chapter
	Parts     []Part
}

// Part is a heading inside a sheet.
type Part struct {
	Title string
	Page  int
	Y     float64
}

// typesetter holds what the laying out of one document needs.
type typesetter struct {
	doc     *sheets.Document
	opt     Options
	sz      sizes
	marks   map[string]int // letter -> index into doc.Dishes
	field   int
	order   int              // of the parts of the document so far
	told    string           // the words of the chart that is being set, until they are used
	picture float64          // the share of their usual size that pictures are set at; 0: at the foot
	air     float64          // how much of the usual space stands between things
	close   int              // boards have the fewer rows
	ended   float64          // how far down the last page the last sheet goes
	below   bool             // the next stands below it
	loose   *sheets.Cautions // of the meal, taken from the shopping list: they want a page with room
	stay    bool             // the cautions of the meal stay on the shopping list
	looseOf int              // the sheet they are of
	missing map[rune]bool
	texts   map[span][]*kept // by their first span
	tables  map[*sheets.Table]*needs
	book    *Book
	notes   []*pageNote // page numbers to be filled in at the end

	at          map[string]int // of a book: the page of each sheet, from 1
	apart       bool           // of a recipe, the method begins a page
	wideNumbers bool           // all page numbers are as wide as the widest
}

// pageNote is a page number in the list of contents.
type pageNote struct {
	text *draw.Text
	id   string
}

// Lay lays doc out.
func Lay(doc *sheets.Document, opt Options) *Book {
	book, _ := LayContext(context.Background(), doc, opt) // it fails only when its context ends
	return book
}

// LayContext is Lay until ctx ends, which is looked at before each sheet; its
// error is then that of ctx.
func LayContext(ctx context.Context, doc *sheets.Document, opt Options) (*Book, error) {
	book, alone, err := lay(ctx, doc, opt, false)
	if alone { // no recipe has room for the cautions of the meal: they stay on their list
		book, _, err = lay(ctx, doc, opt, true)
	}
	return book, err
}

// lay lays doc out. alone tells that the cautions of the meal, taken from the shopping
// list, found no page with room; keep leaves them there.
func lay(ctx context.Context, doc *sheets.Document, opt Options, keep bool) (book *Book, alone bool, err error) {
	if opt.Paper.W <= 0 || opt.Paper.H <= 0 {
		opt.Paper = A4
	}
	var folded Paper
	if half, ok := opt.Paper.Half(); opt.Booklet && ok {
		folded, opt.Paper = opt.Paper, half
	}
	bound := doc.Bound && !opt.Paper.Card
	if bound {
		opt.Paper = opt.Paper.bound()
	}
	t := &typesetter{doc: doc, opt: opt, sz: sizesOf(opt), marks: map[string]int{}, missing: map[rune]bool{}, texts: map[span][]*kept{}, tables: map[*sheets.Table]*needs{}, air: 1, stay: keep}
	if opt.Paper.Card {
		t.air = 0.35 // every card saved is one less to look through
	}
	for i, d := range doc.Dishes {
		t.marks[d.Letter] = i
	}
	if bound {
		t.sz = sizesOfBook(opt)
	}
	t.book = &Book{Title: t.clean(doc.Title), Author: t.clean(doc.By), Language: doc.Language, Folded: folded}
	each := t.eachSheet
	if bound {
		each = t.bind
	}
	if err := each(ctx); err != nil {
		return nil, false, err
	}
	if t.loose != nil {
		return nil, true, nil
	}
	if len(doc.Sheets) == 0 {
		t.empty()
	}
	t.finish()
	if opt.Light {
		for _, p := range t.book.Pages {
			lighten(p)
		}
	}
	for r := range t.missing {
		t.book.Missing = append(t.book.Missing, r)
	}
	slices.Sort(t.book.Missing)
	return t.book, false, nil
}

// eachSheet lays out sheet after sheet.
func (t *typesetter) eachSheet(ctx context.Context) error {
	laid := make([]bool, len(t.doc.Sheets))
	for i := range t.doc.Sheets {
		if err := ctx.Err(); err != nil {
			return err
		}
		switch {
		case laid[i]:
		case t.doc.Sheets[i].Kind == sheets.Prep:
			t.fitPrep(i, laid)
		default:
			t.fitSheet(i)
		}
	}
	return nil
}

// clean makes s fit to be set, with a stand-in for what no face has.
func (t *typesetter) clean(s string) string {
	return runes.Replace(runes.Clean(s), t.opt.Fonts.Has, func(r rune) { t.missing[r] = true })
}

// nextField numbers the paragraphs and cells in the order they are read.
func (t *typesetter) nextField() int {
	t.field++
	return t.field
}
