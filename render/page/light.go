package page

import "tamis/render/draw"

// lighten takes ink out of a page: rules become thin, and what is filled
// becomes an outline, a bar of work with a line along its middle so that it is
// still told from one of waiting. No rule goes below half a point.
func lighten(p *Page) {
	thin := func(w float64) float64 {
		if w <= hair {
			return w
		}
		return max(hair, w*0.45)
	}
	white := false // words in the colour of the paper stand on the box before them
	for i := len(p.Ops) - 1; i >= 0; i-- {
		switch o := p.Ops[i].(type) {
		case *draw.Text:
			if o.White {
				o.White, white = false, true
			}
		case *draw.Picture:
			o.Grey = true
		case *draw.Line:
			o.Width = thin(o.Width)
		case *draw.Poly:
			if !o.Fill {
				o.Width = thin(o.Width)
			}
		case *draw.Rect:
			switch {
			case !o.Fill:
				o.Width = thin(o.Width)
			case white && o.H >= 7:
				*o = draw.Rect{X: o.X, Y: o.Y, W: o.W, H: o.H, Width: hair, White: true}
				white = false
			case o.H >= 7 && o.W > 3:
				box := &draw.Rect{X: o.X + 0.4, Y: o.Y + 0.4, W: o.W - 0.8, H: o.H - 0.8, Width: 0.8, White: true}
				line := &draw.Rect{X: o.X, Y: o.Y + o.H*0.36, W: o.W, H: o.H * 0.28, Fill: true}
				p.Ops[i] = box
				p.Ops = append(p.Ops[:i+1], append([]draw.Op{line}, p.Ops[i+1:]...)...)
				for k := range p.Below {
					if p.Below[k].Op > i {
						p.Below[k].Op++
					}
				}
			case o.W > 60 && o.H > 1.5:
				o.Y, o.H = o.Y+o.H*0.25, o.H*0.5
			}
		}
	}
}
