package draw

// Stripes is how many cloth stripes there are; after them they begin again.
const Stripes = 12

// Stripe draws cloth stripe n, the woven border that stands for a dish, into
// the box at x, y of width w and height h. Stripes differ in build, not in
// shade, so that they survive a bad printer.
func Stripe(n int, x, y, w, h float64) []Op {
	if n < 0 {
		n = -n
	}
	bar := func(from, to float64) Op {
		return &Rect{X: x, Y: y + h*from, W: w, H: h * (to - from), Fill: true}
	}
	// repeat draws cells of about the given width along the stripe
	repeat := func(pitch float64, cell func(x, p float64) []Op) (out []Op) {
		k := max(1, int(w/pitch+0.5))
		p := w / float64(k)
		for i := range k {
			out = append(out, cell(x+float64(i)*p, p)...)
		}
		return out
	}
	block := func(bx, by, bw, bh float64) Op { return &Rect{X: bx, Y: by, W: bw, H: bh, Fill: true} }
	shape := func(pts ...[2]float64) []Op { return []Op{&Poly{Fill: true, Points: pts}} }
	switch n % Stripes {
	case 0: // one broad
		return []Op{bar(0.1, 0.9)}
	case 1: // two
		return []Op{bar(0, 0.32), bar(0.68, 1)}
	case 2: // dashes
		return repeat(h*1.6, func(cx, p float64) []Op { return []Op{block(cx+p*0.14, y+h*0.2, p*0.72, h*0.6)} })
	case 3: // twill
		return repeat(h*0.9, func(cx, p float64) []Op {
			return shape([2]float64{cx, y + h}, [2]float64{cx + p*0.5, y}, [2]float64{cx + p, y}, [2]float64{cx + p*0.5, y + h})
		})
	case 4: // three fine
		return []Op{bar(0, 0.18), bar(0.41, 0.59), bar(0.82, 1)}
	case 5: // checks
		return repeat(h, func(cx, p float64) []Op {
			return []Op{block(cx, y, p/2, h/2), block(cx+p/2, y+h/2, p/2, h/2)}
		})
	case 6: // broad and fine
		return []Op{bar(0, 0.55), bar(0.8, 1)}
	case 7: // lozenges
		return repeat(h*1.3, func(cx, p float64) []Op {
			return shape([2]float64{cx + p*0.08, y + h/2}, [2]float64{cx + p/2, y}, [2]float64{cx + p*0.92, y + h/2}, [2]float64{cx + p/2, y + h})
		})
	case 8: // ladder
		return repeat(h*0.62, func(cx, p float64) []Op { return []Op{block(cx+p*0.28, y, p*0.44, h)} })
	case 9: // dashes between fine lines
		return append(repeat(h*1.3, func(cx, p float64) []Op { return []Op{block(cx+p*0.2, y+h*0.34, p*0.6, h*0.32)} }),
			bar(0, 0.14), bar(0.86, 1))
	case 10: // teeth
		return repeat(h*1.1, func(cx, p float64) []Op {
			return shape([2]float64{cx, y + h}, [2]float64{cx + p/2, y}, [2]float64{cx + p, y + h})
		})
	default: // fine and dots
		return append(repeat(h*0.9, func(cx, p float64) []Op { return []Op{block(cx+p*0.22, y+h*0.45, p*0.56, h*0.55)} }), bar(0, 0.2))
	}
}
