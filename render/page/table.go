package page

import (
	"strings"

	"tamis/compiler/sheets"
	"tamis/render/amount"
	"tamis/render/draw"
	"tamis/render/fonts"
)

// grid is a table with the places of its columns worked out.
type grid struct {
	t     *typesetter
	cols  []sheets.Column
	x, w  []float64
	axis  []float64 // of amount columns: where figures end, from the left of the column
	full  float64
	tight bool // columns had to give up some of what they need
}

const (
	colGap  = 11.0
	axisGap = 3.5
)

// table sets a table into the flow, in two columns when it is a list to tick
// that reads better so.
func (t *typesetter) table(f *flow, b *sheets.Table) {
	cols := columns(b)
	if len(cols) == 0 {
		return
	}
	rows := 0
	for _, g := range b.Groups {
		rows += len(g.Rows)
	}
	const gap = 22.0
	before := t.field
	whole := t.grid(cols, b, f.width()).pieces(b, 4)
	if half := (f.width() - gap) / 2; rows > 3 && f.columns == 1 && t.suitsHalf(cols, b, half) {
		t.field = before
		keep := 0 // a list of one or two groups has to be parted somewhere
		if len(b.Groups) > 3 {
			keep = 9
		}
		if parts := t.grid(cols, b, half).pieces(b, keep); tall(parts) < 1.3*tall(whole) {
			f.inColumns(2, gap, parts)
			return
		}
	}
	f.add(whole...)
}

// tall is the height of pieces one below the other.
func tall(pieces []*piece) (h float64) {
	for _, p := range pieces {
		h += p.before + p.h
	}
	return h
}

// columns is the columns of b, with more for rows that have more cells.
func columns(b *sheets.Table) []sheets.Column {
	cols := append([]sheets.Column(nil), b.Columns...)
	for _, g := range b.Groups {
		for _, r := range g.Rows {
			for len(cols) < len(r.Cells) {
				cols = append(cols, sheets.Column{Weight: 1})
			}
		}
	}
	if len(cols) == 0 && len(b.Groups) > 0 {
		cols = append(cols, sheets.Column{Weight: 1}) // headings without rows
	}
	return cols
}

// suitsHalf tells whether a table is short-winded enough for half a page:
// boxes to tick, and few cells that run over two lines.
func (t *typesetter) suitsHalf(cols []sheets.Column, b *sheets.Table, w float64) bool {
	ticks := false
	for _, c := range cols {
		ticks = ticks || c.Kind == sheets.TickColumn
		if c.Kind == sheets.PencilColumn {
			return false
		}
	}
	g := t.grid(cols, b, w)
	if g.tight {
		return false
	}
	over, all := 0, 0
	for _, gr := range b.Groups {
		for _, r := range gr.Rows {
			for i, c := range r.Cells {
				if cols[i].Kind == sheets.TextColumn {
					all++
					if g.natural(c, cols[i]) > 1.9*g.w[i] || cols[i].Weight == 0 && g.natural(c, cols[i]) > g.w[i]+1 {
						over++
					}
				}
			}
		}
	}
	return ticks && over*10 <= all
}

// grid works out the columns of b in width w. Narrow columns get what they
// need, up to a third of the page; the others share the rest by weight, but
// never less than their longest word.
func (t *typesetter) grid(cols []sheets.Column, b *sheets.Table, w float64) *grid {
	n := len(cols)
	g := &grid{t: t, cols: cols, x: make([]float64, n), w: make([]float64, n), axis: make([]float64, n), full: w}
	unit := make([]float64, n)
	wide, least := make([]float64, n), make([]float64, n)
	for i, c := range cols {
		head := t.set(1e6, leadTight, span{text: c.Title, face: fonts.SansBold, size: t.sz.small})
		wide[i] = head.width()
		least[i] = t.longest(span{text: c.Title, face: fonts.SansBold, size: t.sz.small})
		switch c.Kind {
		case sheets.TickColumn:
			wide[i] = max(wide[i], t.sz.body)
		case sheets.PencilColumn:
			wide[i], least[i] = max(wide[i], 58), max(least[i], 46)
		}
	}
	for _, gr := range b.Groups {
		for _, r := range gr.Rows {
			for i, c := range r.Cells {
				wide[i] = max(wide[i], g.natural(c, cols[i]))
				if cols[i].Kind == sheets.AmountColumn {
					fig, un := amount.Split(t.clean(plain(c.Runs)))
					g.axis[i] = max(g.axis[i], fonts.SansBold.Width(fig, t.sz.body))
					unit[i] = max(unit[i], t.unitFace(r.Strong).Width(un, t.sz.body))
				}
				for _, s := range t.spans(c.Runs, false, t.sz.body) {
					least[i] = max(least[i], t.longest(s))
				}
			}
		}
	}
	free, weights := w-colGap*float64(n-1), 0
	for i, c := range cols {
		if c.Kind == sheets.AmountColumn {
			wide[i] = max(wide[i], g.axis[i]+axisGap+unit[i])
		}
		if c.Weight > 0 {
			weights += c.Weight
			continue
		}
		g.w[i] = min(wide[i]+1, w*0.34)
		free -= g.w[i]
	}
	if weights == 0 {
		// the last column of words takes what is left
		for i := n - 1; i >= 0; i-- {
			if cols[i].Kind == sheets.TextColumn && free > 0 {
				g.w[i] += free
				break
			}
		}
	}
	rest := free
	share(cols, g.w, wide, free)
	for i, c := range cols {
		if c.Weight > 0 {
			g.w[i] = max(g.w[i], min(least[i]+1, w*0.3), 30)
			rest -= g.w[i]
		}
	}
	// too much asked: take it from the widest until all fit
	g.tight = rest < -0.01
	for i := range cols {
		g.tight = g.tight || g.w[i] < least[i]
	}
	for over := -rest; over > 0.01 && weights > 0; {
		k := 0
		for i := range cols {
			if g.w[i] > g.w[k] {
				k = i
			}
		}
		d := min(over, g.w[k]*0.1+0.5)
		g.w[k] -= d
		over -= d
	}
	total := colGap * float64(n-1)
	for _, cw := range g.w {
		total += cw
	}
	if total > w+0.01 {
		scale := max(0.05, (w-colGap*float64(n-1))/(total-colGap*float64(n-1)))
		for i := range g.w {
			g.w[i] *= scale
		}
	}
	x := 0.0
	for i := range cols {
		g.x[i] = x
		x += g.w[i] + colGap
		if g.axis[i]+axisGap+unit[i] > g.w[i]+1 {
			g.axis[i] = -1
		}
	}
	return g
}

// share parts free among the columns with a weight: those that need less than
// their share get what they need, and what is left goes by weight.
func share(cols []sheets.Column, w, need []float64, free float64) {
	left, weights := free, 0
	done := make([]bool, len(cols))
	for i, c := range cols {
		if c.Weight > 0 {
			weights += c.Weight
			w[i] = 0
		} else {
			done[i] = true
		}
	}
	for again := true; again && weights > 0; {
		again = false
		for i, c := range cols {
			if !done[i] && need[i]+2 <= left*float64(c.Weight)/float64(weights) {
				w[i] = need[i] + 2
				left -= w[i]
				weights -= c.Weight
				done[i], again = true, true
			}
		}
	}
	if weights == 0 {
		for _, c := range cols {
			weights += max(c.Weight, 0)
		}
		clear(done)
	}
	for i, c := range cols {
		if !done[i] && c.Weight > 0 {
			w[i] += max(left, 0) * float64(c.Weight) / float64(max(weights, 1))
		}
	}
}

func (t *typesetter) unitFace(strong bool) fonts.Face {
	return pick(strong, fonts.SansBold, fonts.Sans)
}

// longest is the width of the longest word of s.
func (t *typesetter) longest(s span) (w float64) {
	for _, a := range t.atoms([]span{s}) {
		w = max(w, a.width)
	}
	return w
}

// plain is the words of runs without their styles.
func plain(runs []sheets.Run) string {
	if len(runs) == 1 {
		return runs[0].Text
	}
	var b strings.Builder
	for _, r := range runs {
		b.WriteString(r.Text)
	}
	return b.String()
}

// natural is the width of a cell set on one line.
func (g *grid) natural(c sheets.Cell, col sheets.Column) float64 {
	t := g.t
	switch col.Kind {
	case sheets.MarkColumn:
		_, w, _ := t.marksCell(plain(c.Runs), 1e6, 0)
		return w
	case sheets.AmountColumn:
		w := t.set(1e6, leadTight, t.spans(c.Sub, false, t.sz.small)...).width()
		return max(w, fonts.SansBold.Width(t.clean(plain(c.Runs)), t.sz.body))
	}
	w := t.set(1e6, leadTight, bold(t.spans(c.Runs, false, t.sz.body))...).width()
	return max(w, t.set(1e6, leadTight, t.spans(c.Sub, false, t.sz.small)...).width())
}

// pieces is the table as rows for the flow. Groups of up to keep rows stay
// together.
func (g *grid) pieces(b *sheets.Table, keep int) []*piece {
	head := g.head()
	out := []*piece{head}
	head = head.copy() // as it was before it is placed, to be set again
	first := true
	most := min(200, g.t.page().Area.H*0.35) // a head that is taller is not repeated
	for _, gr := range b.Groups {
		heads := []*piece{head}
		if head.h > most {
			heads = nil
		}
		if gr.Title != "" || gr.Note != "" {
			gp := g.group(gr, false)
			if first {
				gp.before = 0
			}
			gp.heads = heads
			gp.turn = gr.Title
			out = append(out, gp)
			if again := g.group(gr, true); again.h+head.h < most {
				again.before = 0
				heads = append(heads[:len(heads):len(heads)], again)
			}
		}
		for i, r := range gr.Rows {
			p := g.row(r, i == len(gr.Rows)-1)
			p.heads = heads
			p.turn = g.turn(gr, r)
			// two rows stay together at the end of a group
			if i < len(gr.Rows)-1 && len(gr.Rows) <= keep || i == len(gr.Rows)-2 && i > 0 {
				p.glue = firm
			}
			out = append(out, p)
		}
		first = false
	}
	out[len(out)-1].glue = loose
	return out
}

// turn is what a row is called in the hint to turn over: its time, or its
// group.
func (g *grid) turn(gr sheets.Group, r sheets.Row) string {
	for i, c := range r.Cells {
		if g.cols[i].Kind == sheets.ClockColumn {
			if s := plain(c.Runs); s != "" {
				return s
			}
		}
	}
	return gr.Title
}

// head is the row of column titles below the opening rule.
func (g *grid) head() *piece {
	t := g.t
	p := &piece{before: t.sz.body * 0.5 * t.air, glue: firm}
	p.ops = append(p.ops, &draw.Line{X2: g.full, Width: rule})
	y := 3.0
	for i, c := range g.cols {
		if c.Title == "" {
			continue
		}
		pa := t.set(g.w[i], 1.15, span{text: c.Title, face: fonts.SansBold, size: t.sz.small})
		at := g.x[i]
		field := t.nextField()
		if c.Kind == sheets.ClockColumn {
			pa.right = true
			at += g.w[i]
		}
		p.add(pa.ops(at, 3, field), 0, 0)
		y = max(y, pa.height()+6)
	}
	if y > 3 {
		p.ops = append(p.ops, &draw.Line{Y1: y, X2: g.full, Y2: y, Width: hair})
	}
	p.h = max(y, rule)
	return p
}

// group is the heading of a group of rows, or the same again on a later page.
func (g *grid) group(gr sheets.Group, again bool) *piece {
	t := g.t
	p := &piece{before: t.sz.body * 0.75 * t.air, glue: firm}
	field := func() int {
		if again {
			return 0
		}
		return t.nextField()
	}
	y, x := 4.0, 0.0
	if gr.Title != "" {
		spans := []span{{text: gr.Title, face: fonts.SansBold, size: t.sz.sub}}
		if again {
			spans = append(spans, span{text: ", continued", face: fonts.Sans, size: t.sz.small})
		}
		pa := t.set(g.full, leadTight, spans...)
		p.add(pa.ops(0, y, field()), 0, 0)
		y += pa.height()
		if n := len(pa.lines); n > 0 {
			x = pa.lines[n-1].width + 10
		}
	}
	if gr.Note != "" && !again {
		n := t.set(g.full, leadTight, span{text: gr.Note, face: fonts.Sans, size: t.sz.small})
		if len(n.lines) == 1 && x+n.width() <= g.full && x > 0 {
			p.add(n.ops(x, y-t.sz.sub*fonts.Descent-t.sz.small*fonts.Ascent, field()), 0, 0)
		} else {
			p.add(n.ops(0, y+1, field()), 0, 0)
			y += 1 + n.height()
		}
	}
	y += 3
	p.ops = append(p.ops, &draw.Line{Y1: y, X2: g.full, Y2: y, Width: hair})
	p.h = y
	return p
}

// row is one row with the rule below it.
func (g *grid) row(r sheets.Row, last bool) *piece {
	t := g.t
	p := &piece{}
	pad := max(4.5*t.air, 3.4) // a mark reaches a little above its line
	h := t.sz.body
	for i, c := range g.cols {
		var cell sheets.Cell
		if i < len(r.Cells) {
			cell = r.Cells[i]
		}
		h = max(h, g.cell(p, c, i, cell, r.Strong, pad))
	}
	p.h = h + 2*pad
	for i, c := range g.cols {
		if c.Kind == sheets.PencilColumn && (i >= len(r.Cells) || plain(r.Cells[i].Runs) == "") {
			y := pad + t.sz.body
			p.ops = append(p.ops, &draw.Line{X1: g.x[i], X2: g.x[i] + g.w[i], Y1: y, Y2: y, Width: hair, Dash: []float64{0.5, 2}})
		}
	}
	width := hair
	if last {
		width = rule
	}
	if r.Strong {
		width = 2
		p.ops = append(p.ops, &draw.Line{X2: g.full, Width: 2})
	}
	p.ops = append(p.ops, &draw.Line{Y1: p.h, X2: g.full, Y2: p.h, Width: width})
	return p
}

// cell sets one cell into the row p and returns its height.
func (g *grid) cell(p *piece, c sheets.Column, i int, cell sheets.Cell, strong bool, pad float64) float64 {
	t := g.t
	x, w, size := g.x[i], g.w[i], t.sz.body
	text := plain(cell.Runs)
	h := 0.0
	switch {
	case c.Kind == sheets.TickColumn:
		p.ops = append(p.ops, t.box(x, pad))
		if text == "" {
			h = size
			break
		}
		pa := t.set(max(w-size*1.4, 12), leadTight, t.spans(cell.Runs, false, size)...)
		p.add(pa.ops(x+size*1.4, pad, t.nextField()), 0, 0)
		h = pa.height()
	case c.Kind == sheets.MarkColumn:
		ops, _, mh := t.marksCell(text, w, t.nextField())
		p.add(ops, x, pad)
		h = mh
	case c.Kind == sheets.AmountColumn && g.axis[i] >= 0:
		fig, unit := amount.Split(t.clean(text))
		field := t.nextField()
		link := ""
		if len(cell.Runs) > 0 {
			link = cell.Runs[0].Link
		}
		if fig != "" {
			pa := t.set(1e6, leadTight, span{text: fig, face: fonts.SansBold, size: size, whole: true, link: link})
			p.add(pa.ops(x+g.axis[i]-pa.width(), pad, field), 0, 0)
		}
		if unit != "" {
			pa := t.set(1e6, leadTight, span{text: unit, face: t.unitFace(strong), size: size, whole: true, link: link})
			p.add(pa.ops(x+g.axis[i]+axisGap, pad, field), 0, 0)
		}
		h = size
	default:
		spans := t.spans(cell.Runs, false, size)
		if strong || c.Kind == sheets.ClockColumn || c.Kind == sheets.AmountColumn {
			spans = bold(spans)
		}
		pa := t.set(w, leadTight, spans...)
		at := x
		if c.Kind == sheets.ClockColumn {
			pa.right = true
			at += w
		}
		p.add(pa.ops(at, pad, t.nextField()), 0, 0)
		h = pa.height()
	}
	if len(cell.Sub) > 0 {
		pa := t.set(w, leadTight, t.spans(cell.Sub, false, t.sz.small)...)
		at := x
		if c.Kind == sheets.ClockColumn {
			pa.right = true
			at += w
		}
		p.add(pa.ops(at, pad+h+1, t.nextField()), 0, 0)
		h += 1 + pa.height()
	}
	return h
}
