package draw

import "tamis/compiler/sheets"

// Picture is a picture in a box; Grey prints it without colour.
type Picture struct {
	X, Y, W, H float64
	Of         *sheets.Picture
	Grey       bool
	Tag        *Tag // a Figure, with what it shows
}

// Move shifts the picture.
func (p *Picture) Move(dx, dy float64) { p.X += dx; p.Y += dy }

// Span is the top and the bottom of the picture.
func (p *Picture) Span() (top, bottom float64) { return p.Y, p.Y + p.H }
