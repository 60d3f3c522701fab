package page

import "tamis/render/draw"

// stripe draws the cloth stripe of the n-th dish into the box at x, y.
func stripe(n int, x, y, w, h float64) []draw.Op {
	return draw.Stripe(n, x, y, w, h)
}
