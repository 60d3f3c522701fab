// Package pdf writes a document as PDF. Where things stand is decided by
// package page; this package only draws.
//
// Read this file first. tags.go says what a reader for the blind is told, rewrite.go does
// what the library cannot, and booklet.go puts two pages on a sheet.
package pdf

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/go-pdf/fpdf"

	"tamis/compiler/sheets"
	"tamis/render/bidi"
	"tamis/render/draw"
	"tamis/render/fonts"
	"tamis/render/page"
	"tamis/render/runes"
)

// Options say what is printed on.
type Options = page.Options

// The papers that sheets are most often printed on; page.Papers has them all.
var (
	A4     = page.A4
	Letter = page.Letter
)

// Write lays doc out and writes it as PDF. The same document and options give
// the same bytes. It fails only when w does.
func Write(w io.Writer, doc *sheets.Document, opt Options) error {
	_, err := Print(w, doc, opt)
	return err
}

// Print is Write, and returns the characters that no face has, in order of
// their codes. Each stands as □ on the page.
func Print(w io.Writer, doc *sheets.Document, opt Options) (missing []rune, err error) {
	book := page.Lay(doc, opt)
	return book.Missing, Draw(w, book)
}

// fixed stands for the time of making, so that bytes do not change by the clock.
var fixed = time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)

// Draw writes a document that has been laid out. Its list of missing
// characters is in book.Missing.
func Draw(w io.Writer, book *page.Book) error { return DrawContext(context.Background(), w, book) }

// DrawContext is Draw until ctx ends, which is looked at before each page and
// before anything is written; its error is then that of ctx.
func DrawContext(ctx context.Context, w io.Writer, book *page.Book) error {
	d := &drawer{book: book, f: fpdf.NewCustom(&fpdf.InitType{
		UnitStr: "pt", Size: fpdf.SizeType{Wd: page.A4.W, Ht: page.A4.H},
	})}
	if book.Folded.W == 0 { // else pages are turned on their side: drawn, not tagged
		d.tags = newTags(len(book.Pages))
	}
	d.start()
	if d.tags == nil {
		d.booklet()
	} else {
		for i, p := range book.Pages {
			if err := ctx.Err(); err != nil {
				return err
			}
			d.page(i, p)
		}
	}
	d.bookmarks()
	var plain bytes.Buffer
	err := d.f.Output(&plain)
	file := plain.Bytes()
	if err == nil && d.tags != nil {
		file, err = d.tags.tagged(file)
	}
	if stop := ctx.Err(); stop != nil {
		return stop
	}
	if err == nil {
		_, err = w.Write(file)
	}
	if err != nil {
		return fmt.Errorf("pdf: %w", err)
	}
	return nil
}

type drawer struct {
	f      *fpdf.Fpdf
	book   *page.Book
	links  map[string]int
	names  map[fonts.Face]string
	first  string         // the name of a face that is used; may be empty
	tags   *tags          // nil where nothing is tagged
	starts map[string]int // sheet -> the page it begins on, from 0

	// what is being drawn: a part, furniture, or nothing yet
	inPart    *part
	furniture bool
	now       int  // the page that is drawn
	spaced    bool // a space follows the run

	// the state of the pen, to write it only when it changes
	face   fonts.Face
	size   float64
	white  bool
	width  float64
	dash   []float64
	dashed bool // dash is what fpdf knows
}

func (d *drawer) start() {
	f := d.f
	f.SetCatalogSort(true)
	f.SetCreationDate(fixed)
	f.SetModificationDate(fixed)
	f.SetCompression(d.tags == nil) // else tagged does it
	f.SetTitle(text(d.book.Title), true)
	f.SetAuthor(text(d.book.Author), true)
	f.SetCreator("Tamis", true)
	f.SetProducer("Tamis", true)
	if lang := tag(d.book.Language); lang != "" {
		f.SetLang(lang)
	}
	f.SetAutoPageBreak(false, 0)
	f.SetMargins(0, 0, 0)
	f.SetCellMargin(0)
	d.embed()
	d.links, d.starts = map[string]int{}, map[string]int{}
	for _, s := range d.book.Sheets {
		if _, ok := d.links[s.ID]; !ok {
			d.links[s.ID] = f.AddLink()
			f.SetLink(d.links[s.ID], d.depth(s.Page, s.Y), d.side(s.Page)+1)
			d.starts[s.ID] = s.Page
		}
	}
}

// embed adds the faces that are used. Of a font of the writer's only the
// characters that are printed go in, in a file of our making.
func (d *drawer) embed() {
	used := map[fonts.Face]bool{}
	own := map[fonts.Face][]rune{}
	var order []fonts.Face // the writer's, as they come
	for _, p := range d.book.Pages {
		for _, o := range p.Ops {
			t, ok := o.(*draw.Text)
			if !ok || t.Str == "" {
				continue
			}
			if t.Face.Own() != nil {
				if !used[t.Face] {
					order = append(order, t.Face)
				}
				own[t.Face] = append(own[t.Face], []rune(bidi.Backwards(t.Str)+t.Str)...)
			}
			used[t.Face] = true
		}
	}
	d.names = map[fonts.Face]string{}
	for _, face := range fonts.All() {
		if used[face] {
			d.names[face] = face.Name()
			d.f.AddUTF8FontFromBytes(face.Name(), "", face.Data())
			d.first = face.Name()
		}
	}
	for i, face := range order {
		d.names[face] = fmt.Sprintf("own%d", i+1)
		d.f.AddUTF8FontFromBytes(d.names[face], "", face.Own().Subset(own[face]))
	}
}

// tag keeps only what a language tag may hold (BCP 47).
func tag(s string) string {
	return strings.Map(func(r rune) rune {
		if r == '-' || r >= '0' && r <= '9' || r >= 'A' && r <= 'Z' || r >= 'a' && r <= 'z' {
			return r
		}
		return -1
	}, s)
}

// text keeps what fpdf can take: no character above U+FFFF.
func text(s string) string {
	return strings.Map(func(r rune) rune {
		if r > 0xfffe {
			return runes.StandIn
		}
		return r
	}, runes.Clean(s))
}

func (d *drawer) page(n int, p *page.Page) {
	d.f.AddPageFormat("P", fpdf.SizeType{Wd: p.W, Ht: p.H})
	d.now = n
	d.marks(p)
}

// marks draws all that is on a page.
func (d *drawer) marks(p *page.Page) {
	d.size, d.width, d.dashed, d.white, d.inPart, d.furniture = 0, 0, false, false, nil, false
	d.f.SetTextColor(0, 0, 0)
	d.f.SetDrawColor(0, 0, 0)
	d.f.SetFillColor(0, 0, 0)
	for i, o := range p.Ops {
		t, ok := o.(*draw.Text)
		if ok && t.Str == "" {
			continue
		}
		d.spaced = ok && d.tags != nil && goesOn(t, p.Ops[i+1:])
		pic, isPicture := o.(*draw.Picture)
		switch {
		case ok && d.tags != nil && t.Tag != nil:
			d.begin(d.partOf(p, t))
		case isPicture && d.tags != nil && pic.Tag != nil:
			d.begin(d.tags.of(pic.Tag))
		default:
			d.begin(nil)
		}
		switch o := o.(type) {
		case *draw.Text:
			d.text(o)
		case *draw.Line:
			d.pen(o.Width, o.Dash)
			d.f.Line(o.X1, o.Y1, o.X2, o.Y2)
		case *draw.Rect:
			d.rect(o)
		case *draw.Poly:
			d.poly(o)
		case *draw.Picture:
			d.picture(o)
		}
	}
	d.end()
}

// link makes a place lead to an address or, with "#", to a sheet.
func (d *drawer) link(b page.Box, to string) {
	if id, ok := strings.CutPrefix(to, "#"); ok {
		if n, ok := d.links[id]; ok {
			d.f.Link(b.X, b.Y, b.W, b.H, n)
		}
	} else if to := address(to); to != "" {
		d.f.LinkString(b.X, b.Y, b.W, b.H, to)
	}
}

// goesOn tells whether the next run belongs to the same part after a space,
// such as the next line of a paragraph. The space, which nobody sees, keeps
// the words apart for those who hear them.
func goesOn(t *draw.Text, rest []draw.Op) bool {
	for _, o := range rest {
		if next, ok := o.(*draw.Text); ok && next.Str != "" {
			return t.Tag != nil && next.Tag == t.Tag && !next.Glued
		}
	}
	return false
}

// begin says that what follows belongs to a part, or is furniture when there
// is none; what was begun before ends.
func (d *drawer) begin(p *part) {
	if d.tags == nil {
		return
	}
	if p == nil && d.furniture || p != nil && p == d.inPart {
		return
	}
	d.end()
	if p == nil {
		d.f.RawWriteStr("/Artifact BMC")
		d.furniture = true
		return
	}
	d.f.RawWriteStr("/" + p.role + " <</MCID " + strconv.Itoa(d.tags.piece(d.now, p)) + ">> BDC")
	d.inPart = p
}

func (d *drawer) end() {
	if d.inPart != nil || d.furniture {
		d.f.RawWriteStr("EMC")
	}
	d.inPart, d.furniture = nil, false
}

// partOf is the part that a run of text belongs to: a link is one by itself.
func (d *drawer) partOf(p *page.Page, t *draw.Text) *part {
	whole := d.tags.of(t.Tag)
	act := ""
	if id, ok := strings.CutPrefix(t.Link, "#"); ok {
		if to, ok := d.starts[id]; ok {
			act = fmt.Sprintf("/Dest [%d 0 R /XYZ 0 %.2f null]", pageObject(to), d.book.Pages[to].H)
		}
	} else if to := address(t.Link); to != "" {
		act = "/A <</S /URI /URI (" + escaped(to) + ")>>"
	}
	if act == "" {
		return whole
	}
	top, bottom := t.Span()
	return d.tags.linked(whole, link{
		page: d.now, act: act, says: text(t.Str),
		rect: fmt.Sprintf("%.2f %.2f %.2f %.2f", t.X, p.H-bottom, t.X+t.W, p.H-top),
	})
}

// escaped writes an address, which is plain letters, as a string. ISO 32000-1,
// 7.3.4.2.
func escaped(s string) string {
	return strings.NewReplacer(`\`, `\\`, "(", `\(`, ")", `\)`).Replace(s)
}

// address lets through what a reader may follow: http, https and mailto.
// Readers give up on addresses longer than some two thousand characters.
func address(s string) string {
	if len(s) > 2000 {
		return ""
	}
	low := strings.ToLower(s)
	for _, p := range []string{"http://", "https://", "mailto:"} {
		if strings.HasPrefix(low, p) {
			return strings.Map(func(r rune) rune {
				if r <= ' ' || r > '~' {
					return -1
				}
				return r
			}, s)
		}
	}
	return ""
}

func (d *drawer) text(o *draw.Text) {
	if o.Str == "" {
		return
	}
	if o.Face != d.face || o.Size != d.size {
		d.f.SetFont(d.names[o.Face], "", o.Size)
		d.face, d.size = o.Face, o.Size
	}
	if o.White != d.white {
		c := 0
		if o.White {
			c = 255
		}
		d.f.SetTextColor(c, c, c)
		d.white = o.White
	}
	d.kerned(o)
	if o.Link != "" && address(o.Link) != "" {
		d.pen(0.5, nil)
		d.f.Line(o.X, o.Y+o.Size*0.14, o.X+o.W, o.Y+o.Size*0.14)
	}
}

// kerned draws a run, in pieces where two letters move together: fpdf knows
// only the widths of letters.
func (d *drawer) kerned(o *draw.Text) {
	if o.Left {
		// drawn from the left, it is still read from the right
		d.f.RawWriteStr("/Span <</ActualText " + text16(o.Str) + ">> BDC")
		d.f.Text(o.X, o.Y, bidi.Backwards(o.Str))
		d.f.RawWriteStr("EMC")
		return
	}
	x, from := o.X, 0
	last := rune(-1)
	for i, r := range o.Str {
		if last >= 0 {
			if k := o.Face.Kern(last, r); k != 0 {
				d.f.Text(x, o.Y, o.Str[from:i])
				x += o.Face.Width(o.Str[from:i], o.Size) + float64(k)*o.Size/1000
				from = i
			}
		}
		last = r
	}
	rest := o.Str[from:]
	if d.spaced && o.Face.Has(' ') {
		rest += " "
	}
	d.f.Text(x, o.Y, rest)
}

func (d *drawer) pen(width float64, dash []float64) {
	if width != d.width {
		d.f.SetLineWidth(width)
		d.width = width
	}
	if !d.dashed || !slices.Equal(dash, d.dash) {
		d.f.SetDashPattern(dash, 0)
		d.dash, d.dashed = dash, true
	}
}

func (d *drawer) rect(o *draw.Rect) {
	style := ""
	switch {
	case o.White:
		d.f.SetFillColor(255, 255, 255)
		style = "F"
	case o.Fill:
		d.f.SetFillColor(0, 0, 0)
		style = "F"
	}
	if o.Width > 0 {
		d.pen(o.Width, nil)
		style += "D"
	}
	if style == "" {
		return
	}
	if o.Round > 0 {
		d.round(o, min(o.Round, o.W/2, o.H/2), style)
		return
	}
	d.f.Rect(o.X, o.Y, o.W, o.H, style)
}

// round draws a box with round corners. fpdf's own saves the state of the pen
// and does not give it back, which a page that is turned would show.
func (d *drawer) round(o *draw.Rect, r float64, style string) {
	k := r * (1 - 4.0/3*(math.Sqrt2-1)) // of a quarter circle as a curve
	x, y, right, low := o.X, o.Y, o.X+o.W, o.Y+o.H
	d.f.MoveTo(x+r, y)
	d.f.LineTo(right-r, y)
	d.f.CurveBezierCubicTo(right-k, y, right, y+k, right, y+r)
	d.f.LineTo(right, low-r)
	d.f.CurveBezierCubicTo(right, low-k, right-k, low, right-r, low)
	d.f.LineTo(x+r, low)
	d.f.CurveBezierCubicTo(x+k, low, x, low-k, x, low-r)
	d.f.LineTo(x, y+r)
	d.f.CurveBezierCubicTo(x, y+k, x+k, y, x+r, y)
	d.f.ClosePath()
	d.f.DrawPath(style)
}

func (d *drawer) poly(o *draw.Poly) {
	if len(o.Points) < 2 {
		return
	}
	if !o.Fill {
		d.pen(o.Width, nil)
	} else {
		d.f.SetFillColor(0, 0, 0)
	}
	d.f.MoveTo(o.Points[0][0], o.Points[0][1])
	for _, q := range o.Points[1:] {
		d.f.LineTo(q[0], q[1])
	}
	if o.Fill {
		d.f.ClosePath()
		d.f.DrawPath("F")
	} else {
		d.f.DrawPath("D")
	}
}

// bookmarks lists the sheets and the headings in them.
func (d *drawer) bookmarks() {
	for _, s := range d.book.Sheets {
		d.f.SetPage(d.side(s.Page) + 1)
		d.f.Bookmark(orBlank(text(s.Title)), s.Level, d.depth(s.Page, s.Y))
		for _, p := range s.Parts {
			d.f.SetPage(d.side(p.Page) + 1)
			d.f.Bookmark(orBlank(text(p.Title)), s.Level+1, d.depth(p.Page, p.Y))
		}
	}
	d.f.SetPage(d.f.PageCount())
}

func orBlank(s string) string {
	if s == "" {
		return "–"
	}
	return s
}
