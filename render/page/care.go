package page

import (
	"tamis/compiler/sheets"
	"tamis/render/draw"
	"tamis/render/fonts"
)

const takeCare = "Take care"

// cautions stand in a frame: side by side in small type where they are short
// enough to be read so, else one below the other.
func (t *typesetter) cautions(b *sheets.Cautions, w float64) []*piece {
	if len(b.Items) == 0 {
		return nil
	}
	before := t.field
	if p := t.careInOne(b, w); p != nil {
		return []*piece{p}
	}
	t.field = before
	if p := t.careBeside(b, w); p != nil {
		return []*piece{p}
	}
	t.field = before
	return t.careBelow(b, w)
}

// careInOne sets short cautions without sources one after the other in few lines, or
// returns nil where that is too much.
func (t *typesetter) careInOne(b *sheets.Cautions, w float64) *piece {
	size, pad := t.sz.small+0.5, 6*max(t.air, 0.7)
	if t.opt.Paper.Card {
		size, pad = t.sz.small, 3
	}
	var spans []span
	for i, c := range b.Items {
		if c.Source != "" {
			return nil
		}
		text := c.Text
		if i > 0 {
			text = " " + text
		}
		spans = append(spans, span{text: text, face: fonts.Sans, size: size})
	}
	head := size * 1.3
	title := t.set(1e6, leadTight, span{text: takeCare, face: fonts.SansBold, size: size})
	side := pad + head + 7 + title.width() + 10
	if w-side-pad < size*16 {
		return nil
	}
	pa := t.set(w-side-pad, 1.22, spans...)
	if len(pa.lines) > 5 {
		return nil
	}
	p := &piece{before: t.sz.body * 1.2 * t.air, turn: "cautions"}
	if t.opt.Paper.Card {
		p.before = 4
	}
	p.add(title.ops(pad+head+7, pad, 0), 0, 0)
	draw.Mark(p.ops, &draw.Tag{Role: "H2"})
	p.ops = append(p.ops, warning(pad, pad, size*0.95)...)
	p.add(pa.ops(side, pad, t.nextField()), 0, 0)
	p.h = max(pa.height(), size*1.2) + 2*pad
	p.ops = append(p.ops, frame(w, p.h)...)
	return p
}

// frame is the box round cautions.
func frame(w, h float64) []draw.Op {
	return []draw.Op{
		&draw.Line{X1: -rule / 2, X2: w + rule/2, Width: rule}, &draw.Line{X1: -rule / 2, X2: w + rule/2, Y1: h, Y2: h, Width: rule},
		&draw.Line{Y2: h, Width: rule}, &draw.Line{X1: w, X2: w, Y2: h, Width: rule},
	}
}

// careBeside sets the cautions in columns beside their title, or returns nil
// when the columns would be narrow or tall.
func (t *typesetter) careBeside(b *sheets.Cautions, w float64) *piece {
	size, pad, gap := t.sz.small, 9*max(t.air, 0.7), 16.0
	head := size * 1.3
	title := t.set(1e6, leadTight, span{text: takeCare, face: fonts.SansBold, size: size})
	side := pad + head + 7 + title.width() + gap
	room := w - side - pad
	n := min(len(b.Items), int((room+gap)/(size*16+gap)), 3)
	if n < 1 {
		return nil
	}
	cw := min((room-gap*float64(n-1))/float64(n), size*38)
	var paras []para
	for _, c := range b.Items {
		spans := []span{{text: c.Text, face: fonts.Sans, size: size}}
		if c.Source != "" {
			spans = append(spans, span{text: " " + c.Source, face: fonts.SansItalic, size: size})
		}
		paras = append(paras, t.set(cw, 1.22, spans...))
	}
	const most = 26 // lines
	all := 0.0
	for _, pa := range paras {
		all += pa.height()
	}
	if all > size*most*float64(n) {
		return nil
	}
	h, starts := columnsOf(paras, n, 5*t.air)
	if h > size*most || h > t.page().Area.H*0.6 {
		return nil
	}
	p := &piece{before: t.sz.body * 1.2 * t.air, turn: "cautions"}
	p.add(title.ops(pad+head+7, pad, 0), 0, 0)
	draw.Mark(p.ops, &draw.Tag{Role: "H2"})
	p.ops = append(p.ops, warning(pad, pad, size*0.95)...)
	y, col := 0.0, -1
	for i, pa := range paras {
		if col+1 < len(starts) && starts[col+1] == i {
			col, y = col+1, 0
		}
		p.add(pa.ops(side+float64(col)*(cw+gap), pad+y, t.nextField()), 0, 0)
		y += pa.height() + 5*t.air
	}
	p.h = max(h, size*1.2) + 2*pad
	p.ops = append(p.ops, frame(w, p.h)...)
	return p
}

// columnsOf parts paragraphs, in their order, over n columns of the least
// height. It returns that height and the first paragraph of each column.
func columnsOf(paras []para, n int, gap float64) (h float64, starts []int) {
	all := 0.0
	for _, p := range paras {
		all += p.height() + gap
	}
	for h = all / float64(n) * 0.7; ; h += 2 {
		starts = starts[:0]
		y, over := 0.0, false
		for i, p := range paras {
			if i == 0 || y+p.height() > h {
				starts, y = append(starts, i), 0
			}
			over = over || p.height() > h
			y += p.height() + gap
		}
		if len(starts) <= n && !over {
			return h, starts
		}
	}
}

// careBelow sets the cautions one below the other: together when they are few,
// else one may go over the page, where the frame stays open.
func (t *typesetter) careBelow(b *sheets.Cautions, w float64) []*piece {
	size, pad := t.sz.body, 9*t.air
	x := pad + size*1.16 + 8
	iw := min(w-x-pad, size*36)
	head := &piece{before: size * 1.4 * t.air, glue: firm, turn: "cautions"}
	title := t.set(w-x-pad, leadTight, span{text: takeCare, face: fonts.SansBold, size: size})
	head.add(title.ops(x, pad+size*0.08, 0), 0, 0)
	draw.Mark(head.ops, &draw.Tag{Role: "H2"})
	head.ops = append(head.ops, warning(pad, pad, size)...)
	head.ops = append(head.ops, &draw.Line{X1: -rule / 2, X2: w + rule/2, Width: rule})
	head.h = pad + title.height() + 4
	out := []*piece{head}
	for _, c := range b.Items {
		p := &piece{turn: "cautions"}
		pa := t.set(iw, 1.25, span{text: c.Text, face: fonts.Sans, size: size})
		p.add(pa.ops(x, 0, t.nextField()), 0, 0)
		p.h = pa.height()
		if c.Source != "" {
			src := t.set(iw, 1.2, span{text: c.Source, face: fonts.SansItalic, size: t.sz.small})
			p.add(src.ops(x, p.h+1.5, t.nextField()), 0, 0)
			p.h += src.height() + 1.5
		}
		p.h += 6 * t.air
		out = append(out, p)
	}
	last := out[len(out)-1]
	last.h += pad - 6*t.air
	total := 0.0
	for _, p := range out {
		total += p.h
		p.ops = append(p.ops, &draw.Line{Y2: p.h, Width: rule}, &draw.Line{X1: w, X2: w, Y2: p.h, Width: rule})
	}
	last.ops = append(last.ops, &draw.Line{X1: -rule / 2, X2: w + rule/2, Y1: last.h, Y2: last.h, Width: rule})
	if total < size*12 {
		for _, p := range out[:len(out)-1] {
			p.glue = firm
		}
	}
	return out
}

// warning is a drawn triangle, for those who do not read first.
func warning(x, y, size float64) []draw.Op {
	mid := x + size*0.58
	return []draw.Op{
		&draw.Poly{Width: 1.4, Points: [][2]float64{{x, y + size}, {mid, y}, {x + size*1.16, y + size}, {x, y + size}}},
		&draw.Line{X1: mid, X2: mid, Y1: y + size*0.36, Y2: y + size*0.64, Width: 1.4},
		&draw.Line{X1: mid, X2: mid, Y1: y + size*0.76, Y2: y + size*0.86, Width: 1.4},
	}
}
