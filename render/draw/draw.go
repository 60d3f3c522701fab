// Package draw is the small vocabulary of marks that pages and charts are made
// of: text, lines, boxes and outlines at known places. Distances are in points
// from the top left corner, y running down. There is one ink, black, and the
// white of the paper.
//
// Read this file first: it has the marks. The others are shorter ways to draw several at
// once.
package draw

import "tamis/render/fonts"

// Op is *Text, *Line, *Rect, *Poly or *Picture.
type Op interface {
	// Move shifts the mark by dx and dy.
	Move(dx, dy float64)
	// Span is the top and the bottom of the mark.
	Span() (top, bottom float64)
}

// Text is one run of characters on one line in one face. X is its left edge,
// Y its base line, W its width.
type Text struct {
	X, Y, W, Size float64
	Face          fonts.Face
	Str           string
	White         bool   // paper-coloured, on a dark ground
	Link          string // an address, or "#sheet-id"
	Field         int    // runs of one paragraph or cell share a number; 0 is furniture of the page
	Glued         bool   // no space between this run and the run before it of the same field
	Tag           *Tag   // what it is part of, for those who hear the page; nil for furniture
	Left          bool   // runs to the left: the first character of Str stands at the right
}

// Line is a straight rule.
type Line struct {
	X1, Y1, X2, Y2, Width float64
	Dash                  []float64
}

// Rect is a box. Width 0 draws no outline.
type Rect struct {
	X, Y, W, H float64
	Width      float64
	Fill       bool // black
	White      bool // filled with paper, to clear what lies below
	Round      float64
}

// Poly is a row of points joined by lines, or a filled shape.
type Poly struct {
	Points [][2]float64
	Width  float64
	Fill   bool
}

// Move shifts the mark.
func (t *Text) Move(dx, dy float64) { t.X += dx; t.Y += dy }

// Move shifts the mark.
func (l *Line) Move(dx, dy float64) { l.X1 += dx; l.X2 += dx; l.Y1 += dy; l.Y2 += dy }

// Move shifts the mark.
func (r *Rect) Move(dx, dy float64) { r.X += dx; r.Y += dy }

// Move shifts the mark.
func (p *Poly) Move(dx, dy float64) {
	for i := range p.Points {
		p.Points[i][0] += dx
		p.Points[i][1] += dy
	}
}

// Span is the top and the bottom of the letters.
func (t *Text) Span() (top, bottom float64) {
	return t.Y - fonts.Ascent*t.Size, t.Y + fonts.Descent*t.Size
}

// Span is the top and the bottom of the rule.
func (l *Line) Span() (top, bottom float64) {
	return min(l.Y1, l.Y2), max(l.Y1, l.Y2)
}

// Span is the top and the bottom of the box.
func (r *Rect) Span() (top, bottom float64) { return r.Y, r.Y + r.H }

// Span is the top and the bottom of the shape.
func (p *Poly) Span() (top, bottom float64) {
	top, bottom = p.Points[0][1], p.Points[0][1]
	for _, q := range p.Points {
		top, bottom = min(top, q[1]), max(bottom, q[1])
	}
	return top, bottom
}

// MoveAll shifts every mark of ops and returns them.
func MoveAll(ops []Op, dx, dy float64) []Op {
	for _, o := range ops {
		o.Move(dx, dy)
	}
	return ops
}
