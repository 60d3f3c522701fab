package chart

import (
	"tamis/compiler/sheets"
	"tamis/render/draw"
)

// bar draws one bar by kind: the more the hands do, the more ink.
func (p *picture) bar(kind sheets.BarKind, x, y, w float64) {
	if p.bare {
		return
	}
	h := p.st.Bar
	frame := func(y, h, width float64) *draw.Rect {
		return &draw.Rect{X: x + width/2, Y: y + width/2, W: max(w-width, 0.5), H: h - width, Width: width, White: true}
	}
	switch kind {
	case sheets.WorkBar:
		p.Ops = append(p.Ops, &draw.Rect{X: x, Y: y, W: max(w-0.75, 1.25), H: h, Fill: true})
	case sheets.WatchBar:
		p.Ops = append(p.Ops, frame(y, h, 1))
		p.Ops = append(p.Ops, hatch(x, y, w, h, 4.2, 1.3)...)
	case sheets.HeatBar:
		p.Ops = append(p.Ops, frame(y, h, 0.75))
		p.Ops = append(p.Ops, dots(x, y, w, h)...)
	default: // what is left alone is thin
		p.Ops = append(p.Ops, frame(y+h*0.25, h*0.5, 0.9))
	}
}

// hatch is slanting lines cut off at the edges of a box.
func hatch(x, y, w, h, pitch, width float64) []draw.Op {
	var out []draw.Op
	for c := pitch; c < w+h; c += pitch {
		// the line runs from the left or bottom edge up to the right
		x1, y1, x2, y2 := c-h, h, c, 0.0
		if x1 < 0 {
			x1, y1 = 0, c
		}
		if x2 > w {
			x2, y2 = w, c-w
		}
		out = append(out, &draw.Line{X1: x + x1, Y1: y + y1, X2: x + x2, Y2: y + y2, Width: width})
		if len(out) > 400 {
			break
		}
	}
	return out
}

// dots fills a box with round dots, in rows as dashed lines of zero length
// would be.
func dots(x, y, w, h float64) []draw.Op {
	var out []draw.Op
	rows := max(1, int(h/4.2))
	for r := range rows {
		cy := y + h*(float64(r)+0.5)/float64(rows)
		from := x + 2.2
		if r%2 == 1 {
			from += 2
		}
		if from < x+w-1 {
			out = append(out, &draw.Line{X1: from, X2: x + w - 1, Y1: cy, Y2: cy, Width: 1.4, Dash: []float64{1.4, 2.6}})
		}
	}
	return out
}

// KeyItem is one kind of bar with what it stands for.
type KeyItem struct {
	Kind  sheets.BarKind
	Words string
}

// Key lists the kinds of bar that c shows, in order of attention.
func Key(c *sheets.Chart) []KeyItem {
	seen := map[sheets.BarKind]bool{}
	for _, p := range c.Panels {
		for _, l := range p.Lanes {
			for _, b := range l.Bars {
				seen[b.Kind] = true
			}
		}
		for _, u := range p.Uses {
			for _, b := range u.Bars {
				seen[b.Kind] = seen[b.Kind] || b.Kind == sheets.HeatBar
			}
		}
	}
	var out []KeyItem
	for _, k := range []KeyItem{
		{sheets.WorkBar, "hands-on"},
		{sheets.WatchBar, "watch"},
		{sheets.LeaveBar, "leave"},
		{sheets.HeatBar, "heating up"},
	} {
		if seen[k.Kind] {
			out = append(out, k)
		}
	}
	return out
}

// Sample draws a bar of the given kind, w wide and h high.
func Sample(kind sheets.BarKind, w, h float64) []draw.Op {
	p := &picture{st: Style{Bar: h}}
	p.bar(kind, 0, 0, w)
	return p.Ops
}
