package pdf

import (
	"github.com/go-pdf/fpdf"

	"tamis/render/page"
)

// booklet draws the pages two by two on sheets that lie on their side, in the
// order in which they are folded into one another.
func (d *drawer) booklet() {
	w, h := d.book.Folded.H, d.book.Folded.W
	for i, pair := range page.Sides(len(d.book.Pages)) {
		d.f.AddPageFormat("P", fpdf.SizeType{Wd: w, Ht: h})
		for half, n := range pair {
			if n > 0 {
				d.half(d.book.Pages[n-1], w, h, half == 1, i*2+half)
			}
		}
		if i%2 == 0 {
			d.fold(w, h)
		}
	}
}

// half draws one page on the left or right half of a sheet of w by h. One that
// lies on its side is turned, its head to the left, for a reader who turns
// the booklet clockwise (common practice, no source).
func (d *drawer) half(p *page.Page, w, h float64, right bool, turn int) {
	at := place{page: p, turned: p.W > p.H}
	pw, ph := p.W, p.H
	if at.turned {
		pw, ph = ph, pw
	}
	at.x, at.y = (w/2-pw)/2, (h-ph)/2
	if right {
		at.x += w / 2
	}
	// inside, the state of the pen is its own; fpdf writes a face only when it
	// believes that it has changed, so it is made to
	if d.first != "" {
		d.f.SetFont(d.first, "", 1+float64(turn%2))
	}
	d.f.TransformBegin()
	if at.turned {
		d.f.TransformTranslate(at.x, at.y+p.W)
		d.f.TransformRotate(90, 0, 0)
	} else {
		d.f.TransformTranslate(at.x, at.y)
	}
	d.marks(p)
	d.f.TransformEnd()
	for _, l := range p.Links {
		d.link(at.box(l.Box), l.To)
	}
}

// fold marks where the sheet is folded, at its edges only.
func (d *drawer) fold(w, h float64) {
	const from, to = 11.0, 24.0
	d.width, d.dashed = 0, false
	d.f.SetDrawColor(0, 0, 0)
	d.pen(0.5, []float64{2, 2})
	d.f.Line(w/2, from, w/2, to)
	d.f.Line(w/2, h-to, w/2, h-from)
}

// place is where a page stands on a sheet.
type place struct {
	page   *page.Page
	x, y   float64 // top left corner of the half that it takes
	turned bool
}

// box is where b, on the page, comes to lie on the sheet.
func (a place) box(b page.Box) page.Box {
	if a.turned {
		return page.Box{X: a.x + b.Y, Y: a.y + a.page.W - b.X - b.W, W: b.H, H: b.W}
	}
	return page.Box{X: a.x + b.X, Y: a.y + b.Y, W: b.W, H: b.H}
}

// side is the page of the file, from 0, that page n of the book is on.
func (d *drawer) side(n int) int {
	if d.book.Folded.W == 0 {
		return n
	}
	for i, pair := range page.Sides(len(d.book.Pages)) {
		if pair[0] == n+1 || pair[1] == n+1 {
			return i
		}
	}
	return 0
}

// depth is how far down the page of the file it is what stands y down page n of
// the book; 0 for the head of a page.
func (d *drawer) depth(n int, y float64) float64 {
	if d.book.Folded.W == 0 || y == 0 {
		return y
	}
	at := d.book.Pages[n]
	if at.W > at.H {
		return 0 // a turned page is shown whole
	}
	return (d.book.Folded.W-at.H)/2 + y
}
