package chart

import (
	"strings"

	"tamis/render/draw"
	"tamis/render/fonts"
)

// pennant is the flag of a serving, to the right of its post or to its left.
type pennant struct {
	row        int
	x, w, post float64
	text       string
}

// flagBand draws the pennants of the servings in view, one above another
// where they would touch, and returns where the band ends.
func (p *picture) flagBand(y float64) float64 {
	h := p.st.Size * 1.6
	var all []pennant
	rows := 0
	for _, f := range p.Panel.Flags {
		if f.At < p.from() || f.At > p.to() {
			continue
		}
		text := p.Panel.Time(f.At)
		if l := p.st.Clean(f.Label); l != "" {
			text += " " + strings.ToValidUTF8(l[:min(len(l), 200)], "")
		}
		post := p.x(f.At)
		w := p.measure(fonts.SansBold, text) + p.st.Size*0.8
		for w > p.limit-p.left && strings.Contains(text, " ") { // whole words
			text = text[:strings.LastIndex(text, " ")]
			w = p.measure(fonts.SansBold, text) + p.st.Size*0.8
		}
		n := p.hoist(pennant{w: w, post: post, text: text}, all, rows)
		rows = max(rows, n.row+1)
		all = append(all, n)
	}
	end := y + float64(rows)*h
	if p.bare {
		return end
	}
	for _, f := range all {
		fy := y + float64(f.row)*h
		p.top = append(p.top, &draw.Rect{X: f.x, Y: fy, W: f.w, H: h - 3, Fill: true})
		for _, w := range p.words(f.x+p.st.Size*0.4, fy+(h-3)/2+p.st.Size*fonts.CapHeight/2, fonts.SansBold, f.text, p.st.Size, p.nextField()) {
			w.White = true
			p.top = append(p.top, w)
		}
		p.top = append(p.top, &draw.Line{X1: f.post, X2: f.post, Y1: fy, Y2: end, Width: 1.75})
	}
	return end
}

// hoist finds the highest row in which n touches no other pennant and no post
// runs through one: to the right of its post if it can be, else to the left.
func (p *picture) hoist(n pennant, all []pennant, rows int) pennant {
	clash := func(n pennant) bool {
		for _, o := range all {
			switch {
			case o.row == n.row && n.x < o.x+o.w+4 && o.x < n.x+n.w+4:
				return true
			case o.row < n.row && o.post > n.x+1 && o.post < n.x+n.w-1:
				return true // its post comes down through n
			case o.row > n.row && n.post > o.x+1 && n.post < o.x+o.w-1:
				return true
			}
		}
		return false
	}
	for n.row = 0; n.row < rows; n.row++ {
		for _, x := range []float64{n.post, n.post - n.w} {
			if n.x = x; x >= p.left && x+n.w <= p.limit && !clash(n) {
				return n
			}
		}
	}
	if n.x = n.post; n.x+n.w > p.limit {
		n.x = max(n.post-n.w, 0)
	}
	return n
}
