package page

import (
	"slices"

	"tamis/compiler/sheets"
	"tamis/render/amount"
	"tamis/render/draw"
	"tamis/render/fonts"
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
	whole := t.folded(cols, b, f.width())
	after := t.field
	half := (f.width() - gap) / 2
	room := f.room() - tall(f.waiting)
	for _, fd := range folds(cols) {
		t.field = before
		if rows <= 3 || f.columns != 1 || b.Plain && cols[0].Kind != sheets.AmountColumn && (tall(whole) < room || strong(b)) || fd.count() > 1 || !t.suitsHalf(cols, b, half, fd) {
			continue
		}
		keep := 0 // a list of one or two groups has to be parted somewhere
		if len(b.Groups) > 3 {
			keep = []int{9, 4}[fd.count()]
		}
		parts := t.grid(cols, b, half, fd).pieces(b, keep)
		good := tall(parts) < 1.3*tall(whole)
		if fd.count() > 0 { // a column is easier to run down, but less to turn is worth it
			good = tall(whole) > room && tall(parts)/2 < 0.75*tall(whole)
		}
		if good {
			f.inColumns(2, gap, parts, mayBeEmpty)
			return
		}
	}
	t.field = after
	f.add(whole...)
}

// strong tells whether a table has rows that stand out.
func strong(b *sheets.Table) bool {
	return slices.ContainsFunc(b.Groups, func(g sheets.Group) bool {
		return slices.ContainsFunc(g.Rows, func(r sheets.Row) bool { return r.Strong })
	})
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
func (t *typesetter) suitsHalf(cols []sheets.Column, b *sheets.Table, w float64, fd fold) bool {
	ticks := false
	for _, c := range cols {
		ticks = ticks || c.Kind == sheets.TickColumn || b.Plain
		if c.Kind == sheets.PencilColumn {
			return false
		}
	}
	g := t.grid(cols, b, w, fd)
	if g.tight {
		return false
	}
	over, all := 0, 0
	for _, gr := range b.Groups {
		for _, r := range gr.Rows {
			for i, c := range r.Cells {
				if cols[i].Kind == sheets.TextColumn && !fd.has(i) {
					all++
					natural := t.cellWidth(c, cols[i])
					if natural > 1.9*g.w[i] || cols[i].Weight == 0 && natural > g.w[i]+1 {
						over++
					}
				}
			}
		}
	}
	return ticks && over*10 <= all
}

// pieces is the table as rows for the flow. Groups of up to keep rows stay
// together.
func (g *grid) pieces(b *sheets.Table, keep int) []*piece {
	head := &piece{before: g.t.sz.body * 0.9 * g.t.air, glue: firm}
	if !b.Plain {
		head = g.head()
	}
	out := []*piece{head}
	head = head.copy() // as it was before it is placed, to be set again
	first := true
	most := min(200, g.t.page().Area.H*0.35) // a head that is taller is not repeated
	for _, gr := range b.Groups {
		heads := []*piece{head}
		if head.h > most || b.Plain {
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
			if b.Plain && i == 0 && gr.Title == "" && !first {
				p.before = g.t.sz.body * 0.8 * g.t.air
			}
			if b.Plain && i == 0 && r.Strong && len(gr.Rows) > 1 {
				p.glue = firm // a chapter does not stand alone
			}
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
			if s := sheets.Words(c.Runs); s != "" {
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
	var under []item
	named := 3.0 // where the title of the main column ends
	row := g.tag.Part("TR")
	for i, c := range g.cols {
		if c.Title == "" {
			continue
		}
		if g.fold.has(i) {
			under = append(under, item{words: t.set(g.w[g.fold.main], 1.15, span{text: c.Title, face: fonts.Sans, size: t.sz.small}), field: t.nextField()})
			continue
		}
		pa := t.set(g.w[i], 1.15, span{text: c.Title, face: fonts.SansBold, size: t.sz.small})
		at := g.x[i]
		field := t.nextField()
		if c.Kind == sheets.ClockColumn || c.Kind == sheets.PageColumn {
			pa.right = true
			at += g.w[i]
		}
		words := pa.ops(at, 3, field)
		draw.Mark(words, row.Cell("TH", g.column(i))).Scope = "Column"
		p.add(words, 0, 0)
		y = max(y, pa.height()+6)
		if i == g.fold.main {
			named = 4 + pa.height()
		}
	}
	if len(under) > 0 {
		y = max(y, named+g.inline(p, under, named)+3)
		cellPart(p.ops, row.Cell("TD", g.tag.Cols))
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
	if !g.plain {
		p.ops = append(p.ops, &draw.Line{Y1: y, X2: g.full, Y2: y, Width: hair})
	}
	p.h = y
	if !again {
		cellPart(p.ops, g.tag.Part("TR").Cell("TH", 0)).Scope = "Row"
	}
	return p
}

// row is one row with the rule below it.
func (g *grid) row(r sheets.Row, last bool) *piece {
	t := g.t
	p := &piece{}
	pad := max(4.5*t.air, 3.4) // a mark reaches a little above its line
	if t.opt.Paper.Card && !slices.ContainsFunc(g.cols, func(c sheets.Column) bool { return c.Kind == sheets.MarkColumn }) {
		pad = 2.2
	}
	if g.plain {
		pad = 1.7
	}
	h, main := t.sz.body, 0.0
	row := g.tag.Part("TR")
	var under []item
	for i, c := range g.cols {
		var cell sheets.Cell
		if i < len(r.Cells) {
			cell = r.Cells[i]
		}
		if g.fold.has(i) {
			under = append(under, g.items(c, cell, r.Strong)...)
			continue
		}
		if i == g.fold.main && g.fold.count() > 0 {
			// the second line of the cell leads the line of what is folded
			sub := cell.Sub
			cell.Sub = nil
			main = g.cell(p, c, i, cell, r.Strong, pad)
			h = max(h, main)
			cellPart(p.ops, row.Cell("TD", g.column(i)))
			if len(sub) > 0 {
				under = append(under, item{words: t.set(g.w[i], leadTight, t.spans(sub, false, t.sz.small)...), field: t.nextField()})
			}
			continue
		}
		h = max(h, g.cell(p, c, i, cell, r.Strong, pad))
		cellPart(p.ops, row.Cell("TD", g.column(i)))
	}
	if len(under) == 1 && g.beside(p, row, under[0], r.Cells, pad) {
		under = nil
	}
	if len(under) > 0 {
		main = max(main, t.sz.body)
		h = max(h, main+2+g.inline(p, under, pad+main+2))
		cellPart(p.ops, row.Cell("TD", g.tag.Cols))
	}
	p.h = h + 2*pad
	for i, c := range g.cols {
		if g.fold.has(i) {
			continue
		}
		if c.Kind == sheets.PencilColumn && (i >= len(r.Cells) || sheets.Words(r.Cells[i].Runs) == "") {
			y := pad + t.sz.body
			p.ops = append(p.ops, &draw.Line{X1: g.x[i], X2: g.x[i] + g.w[i], Y1: y, Y2: y, Width: hair, Dash: []float64{0.5, 2}})
		}
	}
	if g.plain {
		g.leader(p, r.Cells, pad)
		return p
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

// leader is a row of dots from the words of a row to the number of its page.
func (g *grid) leader(p *piece, cells []sheets.Cell, pad float64) {
	n := len(g.cols) - 1
	if n < 1 || g.cols[n].Kind != sheets.PageColumn || len(cells) <= n {
		return
	}
	size := g.t.sz.body
	from, to, y := g.x[n-1]+g.t.cellWidth(cells[n-1], g.cols[n-1])+6, g.x[n]+g.w[n]-size*2, pad+size*fonts.Ascent
	if to-from > size {
		p.ops = append(p.ops, &draw.Line{X1: from, X2: to, Y1: y, Y2: y, Width: 0.75, Dash: []float64{0.75, 3}})
	}
}

// beside sets what is folded at the right of the main cell's words, where that is one
// line with room for it; false where it is not.
func (g *grid) beside(p *piece, row *draw.Tag, it item, cells []sheets.Cell, pad float64) bool {
	t, k := g.t, g.fold.main
	if it.pencil || len(it.title.lines) > 0 || len(it.words.lines) != 1 || k >= len(cells) {
		return false
	}
	main := t.cellWidth(cells[k], g.cols[k])
	if len(cells[k].Sub) > 0 || main+colGap+it.words.width() > g.w[k] {
		return false
	}
	p.add(it.words.ops(g.x[k]+g.w[k]-it.words.width(), pad+(t.sz.body-t.sz.small)*fonts.Ascent, it.field), 0, 0)
	cellPart(p.ops, row.Cell("TD", g.tag.Cols))
	return true
}

// column is which of the columns that are heard column i is; those that are folded
// are the last together.
func (g *grid) column(i int) int {
	n := 1
	for k := range i {
		if !g.fold.has(k) {
			n++
		}
	}
	return n
}

// cell sets one cell into the row p and returns its height.
func (g *grid) cell(p *piece, c sheets.Column, i int, cell sheets.Cell, strong bool, pad float64) float64 {
	t := g.t
	x, w, size := g.x[i], g.w[i], t.sz.body
	text := sheets.Words(cell.Runs)
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
	case c.Kind == sheets.PageColumn && len(cell.Runs) > 0:
		no := t.pageNumber(p, cell.Runs[0].Link, x+w, pad+size*fonts.Ascent)
		no.Field = t.nextField()
		if g.plain && !strong {
			no.Face = fonts.Sans
		}
		h = size
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
