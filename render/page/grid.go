package page

import (
	"slices"

	"tamis/compiler/sheets"
	"tamis/render/amount"
	"tamis/render/draw"
	"tamis/render/fonts"
)

const (
	colGap  = 11.0
	axisGap = 3.5
)

// grid is a table with the places of its columns worked out.
type grid struct {
	t     *typesetter
	cols  []sheets.Column
	x, w  []float64
	axis  []float64 // of amount columns: where figures end, from the left of the column
	cells []float64 // the width of the widest cell of a column on one line
	full  float64
	tight bool // columns had to give up some of what they need
	fold  fold // columns without a place of their own
	plain bool // as in a book: no rules
	tag   *draw.Tag
}

// grid works out the columns of b in width w. Narrow columns get what they
// need, up to a third of the page, or somewhat more where they are few; the others share the rest by weight, but
// never less than their longest word. Columns that are folded get no place.
func (t *typesetter) grid(cols []sheets.Column, b *sheets.Table, w float64, fd fold) *grid {
	n := len(cols)
	m := t.needs(cols, b)
	wide, least, unit := slices.Clone(m.wide), slices.Clone(m.least), m.unit
	g := &grid{
		t: t, cols: cols, x: make([]float64, n), w: make([]float64, n), axis: slices.Clone(m.axis), full: w, fold: fd, plain: b.Plain,
		cells: m.cells, tag: &draw.Tag{Role: "Table", Cols: n - fd.count() + min(fd.count(), 1)},
	}
	for i := range cols {
		if fd.has(i) {
			wide[i], least[i], g.axis[i] = 0, 0, 0
		}
	}
	gaps := colGap * float64(n-1-fd.count())
	free, weights := w-gaps, 0
	narrow := w * 0.34
	if n-fd.count() <= 3 {
		narrow = w * 0.44 // few columns: "1½ cups + 2 tbsp" has room in half a page
	}
	for i, c := range cols {
		if fd.has(i) {
			continue
		}
		if c.Kind == sheets.AmountColumn {
			wide[i] = max(wide[i], g.axis[i]+axisGap+unit[i])
		}
		if c.Weight > 0 {
			weights += c.Weight
			continue
		}
		g.w[i] = min(wide[i]+1, narrow)
		free -= g.w[i]
	}
	if weights == 0 {
		// the last column of words takes what is left
		for i := n - 1; i >= 0; i-- {
			if cols[i].Kind == sheets.TextColumn && free > 0 && !fd.has(i) {
				g.w[i] += free
				break
			}
		}
	}
	rest := free
	share(fd.open(cols), g.w, wide, free)
	for i, c := range cols {
		if c.Weight > 0 && !fd.has(i) {
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
	total := gaps
	for _, cw := range g.w {
		total += cw
	}
	if total > w+0.01 {
		scale := max(0.05, (w-gaps)/(total-gaps))
		for i := range g.w {
			g.w[i] *= scale
		}
	}
	x := 0.0
	for i := range cols {
		g.x[i] = x
		if fd.has(i) {
			continue
		}
		x += g.w[i] + colGap
		if g.axis[i]+axisGap+unit[i] > g.w[i]+1 {
			g.axis[i] = -1
		}
	}
	return g
}

// needs is what the columns of a table need, whatever the width and whichever
// are folded.
type needs struct {
	cells []float64 // the width of the widest cell on one line
	wide  []float64 // of that or the title
	least []float64 // the width of the longest word
	axis  []float64 // of the widest figure of an amount
	unit  []float64 // of the widest unit
}

// needs measures a table, once.
func (t *typesetter) needs(cols []sheets.Column, b *sheets.Table) *needs {
	if m := t.tables[b]; m != nil {
		return m
	}
	n := len(cols)
	m := &needs{make([]float64, n), make([]float64, n), make([]float64, n), make([]float64, n), make([]float64, n)}
	for _, gr := range b.Groups {
		for _, r := range gr.Rows {
			for i, c := range r.Cells {
				m.cells[i] = max(m.cells[i], t.cellWidth(c, cols[i]))
				if cols[i].Kind == sheets.AmountColumn {
					fig, un := amount.Split(t.clean(sheets.Words(c.Runs)))
					m.axis[i] = max(m.axis[i], fonts.SansBold.Width(fig, t.sz.body))
					m.unit[i] = max(m.unit[i], t.unitFace(r.Strong).Width(un, t.sz.body))
				}
				for _, s := range t.spans(c.Runs, false, t.sz.body) {
					m.least[i] = max(m.least[i], t.longest(s))
				}
			}
		}
	}
	for i, c := range cols {
		head := span{text: c.Title, face: fonts.SansBold, size: t.sz.small}
		m.wide[i] = max(m.cells[i], t.set(1e6, leadTight, head).width())
		m.least[i] = max(m.least[i], t.longest(head))
		switch c.Kind {
		case sheets.TickColumn:
			m.wide[i] = max(m.wide[i], t.sz.body)
		case sheets.PageColumn:
			m.wide[i] = max(m.wide[i], fonts.SansBold.Width("000", t.sz.body))
		case sheets.PencilColumn:
			m.wide[i], m.least[i] = max(m.wide[i], 58), max(m.least[i], 46)
		}
	}
	t.tables[b] = m
	return m
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
	for _, a := range t.atoms(s) {
		w = max(w, a.width)
	}
	return w
}

// cellWidth is the width of a cell set on one line.
func (t *typesetter) cellWidth(c sheets.Cell, col sheets.Column) float64 {
	switch col.Kind {
	case sheets.MarkColumn:
		_, w, _ := t.marksCell(sheets.Words(c.Runs), 1e6, 0)
		return w
	case sheets.AmountColumn:
		w := t.set(1e6, leadTight, t.spans(c.Sub, false, t.sz.small)...).width()
		return max(w, fonts.SansBold.Width(t.clean(sheets.Words(c.Runs)), t.sz.body))
	}
	w := t.set(1e6, leadTight, bold(t.spans(c.Runs, false, t.sz.body))...).width()
	return max(w, t.set(1e6, leadTight, t.spans(c.Sub, false, t.sz.small)...).width())
}
