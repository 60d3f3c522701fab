package page

import (
	"math"
	"slices"

	"tamis/compiler/sheets"
	"tamis/render/draw"
	"tamis/render/fonts"
)

// A board hangs on a wall: none of its words is smaller than the sentences of a
// table (13 points), its times are bold, and hairlines part the columns, so that
// the eye finds its own.
const (
	boardPad  = 2.6 // above and below the words of a row, where there is room
	boardGap  = 4.0 // beside the line between two columns
	boardLead = 1.12
)

// board is the rows of a board in the width w, a piece a row; a serving stays with
// the row before it.
func (t *typesetter) board(b *sheets.Board, w float64) []*piece {
	if len(b.Columns) == 0 && len(b.Rows) == 0 {
		return nil
	}
	rows := t.rows(b)
	l := t.bestColumns(b, rows, w)
	tag := &draw.Tag{Role: "Table", Cols: len(b.Columns) + 1}
	head := l.head(t, b, tag)
	again := head.copy()
	out := []*piece{head}
	for i, r := range rows {
		p := l.row(t, r, tag.Part("TR"), i == len(rows)-1)
		p.heads = []*piece{again}
		p.turn = r.At
		if r.Bar != "" && i > 0 { // what is served stands below what leads to it
			out[len(out)-1].glue = firm
		}
		out = append(out, p)
	}
	out[len(out)-1].glue = loose
	return out
}

// rows are those of a board, or the fewer.
func (t *typesetter) rows(b *sheets.Board) []sheets.BoardRow {
	if n := min(t.close, len(b.Close)); n > 0 {
		return b.Close[n-1]
	}
	return b.Rows
}

// lastShares are the widths tried for the last column, of what is by itself, to
// that of a cook.
var lastShares = []float64{0.66, 0.72, 0.78, 0.84, 0.92, 1, 0.6, 0.55}

// shifts are by how much a column of close rows is tried wider or narrower.
var shifts = []float64{1.06, 0.94, 1.14, 0.86, 1.25}

// bestColumns are those with which a board is least high: the last is tried in several
// widths, and where the rows are close each of the others too.
func (t *typesetter) bestColumns(b *sheets.Board, rows []sheets.BoardRow, w float64) *boardColumns {
	field := t.field
	height := func(shares []float64) (h float64) {
		l := t.boardColumns(b, w, shares)
		for i, r := range rows {
			h += l.row(t, r, &draw.Tag{}, i == len(rows)-1).h
		}
		t.field = field
		return h
	}
	best := slices.Repeat([]float64{1}, len(b.Columns))
	if len(best) < 2 {
		return t.boardColumns(b, w, best)
	}
	least := math.Inf(1)
	try := func(column int, share float64) {
		shares := slices.Clone(best)
		shares[column] = share
		if h := height(shares); h < least-0.5 {
			best, least = shares, h
		}
	}
	for _, share := range lastShares {
		try(len(best)-1, share)
	}
	if t.close > 0 {
		for range 2 {
			for i := range best {
				for _, by := range shifts {
					try(i, best[i]*by)
				}
			}
		}
	}
	return t.boardColumns(b, w, best)
}

// boardColumns is where the columns of a board begin, and how wide they are.
type boardColumns struct {
	full  float64
	x, w  []float64 // of the columns, without the time
	clock float64
	pad   float64
}

// boardColumns shares out the width.
func (t *typesetter) boardColumns(b *sheets.Board, w float64, shares []float64) *boardColumns {
	l := &boardColumns{full: w, pad: max(boardPad*t.air, 1)}
	for _, r := range b.Rows {
		l.clock = max(l.clock, fonts.SansBold.Width(t.clean(r.At), t.sz.body)+boardGap)
	}
	all := 0.0
	for _, share := range shares {
		all += share
	}
	x := l.clock + boardGap
	for _, share := range shares {
		cw := (w - l.clock - boardGap) * share / all
		l.x, l.w = append(l.x, x), append(l.w, cw-boardGap*2)
		x += cw
	}
	return l
}

// between draws the lines between the columns of a row of height h.
func (l *boardColumns) between(h float64) (out []draw.Op) {
	for _, x := range l.x {
		out = append(out, &draw.Line{X1: x - boardGap, X2: x - boardGap, Y2: h, Width: hair})
	}
	return out
}

func (l *boardColumns) head(t *typesetter, b *sheets.Board, tag *draw.Tag) *piece {
	p := &piece{before: 3, glue: firm}
	row := tag.Part("TR")
	h := 0.0
	for i, c := range b.Columns {
		pa := t.set(l.w[i], boardLead, span{text: c, face: fonts.SansBold, size: t.sz.sub})
		words := pa.ops(l.x[i], l.pad, t.nextField())
		draw.Mark(words, row.Cell("TH", i+2)).Scope = "Column"
		p.add(words, 0, 0)
		h = max(h, pa.height())
	}
	p.h = h + 2*l.pad
	p.ops = append(p.ops, l.between(p.h)...)
	p.ops = append(p.ops, &draw.Line{X2: l.full, Width: rule}, &draw.Line{Y1: p.h, X2: l.full, Y2: p.h, Width: rule})
	return p
}

// row is a moment, or a serving as white words on black.
func (l *boardColumns) row(t *typesetter, r sheets.BoardRow, tag *draw.Tag, last bool) *piece {
	p := &piece{}
	at := t.set(l.clock, boardLead, span{text: r.At, face: fonts.SansBold, size: t.sz.body})
	if r.Bar != "" {
		words := t.set(l.full-l.clock-2*boardGap, boardLead, span{text: r.Bar, face: fonts.SansBold, size: t.sz.body})
		p.h = max(at.height(), words.height()) + 2*l.pad
		p.ops = append(p.ops, &draw.Rect{W: l.full, H: p.h, Fill: true})
		said := append(at.ops(boardGap, l.pad, t.nextField()), words.ops(l.clock+boardGap, l.pad, t.nextField())...)
		for _, o := range said {
			if x, ok := o.(*draw.Text); ok {
				x.White = true
			}
		}
		draw.Mark(said, tag.Cell("TH", 0))
		p.add(said, 0, 0)
		return p
	}
	time := at.ops(0, l.pad, t.nextField())
	draw.Mark(time, tag.Cell("TH", 1)).Scope = "Row"
	p.add(time, 0, 0)
	h := at.height()
	for i, cell := range r.Cells {
		if i >= len(l.x) {
			break
		}
		y := l.pad
		var ops []draw.Op
		for k, post := range cell {
			if k > 0 {
				y += 2
			}
			o, ph := t.post(post, l.w[i])
			ops = append(ops, draw.MoveAll(o, l.x[i], y)...)
			y += ph
		}
		draw.Mark(ops, tag.Cell("TD", i+2))
		p.add(ops, 0, 0)
		h = max(h, y-l.pad)
	}
	p.h = h + 2*l.pad
	p.ops = append(p.ops, l.between(p.h)...)
	width := hair
	if last {
		width = rule
	}
	p.ops = append(p.ops, &draw.Line{Y1: p.h, X2: l.full, Y2: p.h, Width: width})
	return p
}

// post sets what somebody begins: its mark, a few words, and at the right edge
// when the hands are free again, on the last line if there is room.
func (t *typesetter) post(b sheets.Post, w float64) (ops []draw.Op, h float64) {
	size := t.sz.body
	x := 0.0
	if b.Mark != "" {
		mark, mw, mh := t.marksCell(b.Mark, w*0.6, t.nextField())
		ops = append(ops, mark...)
		x, h = mw+4, mh-size*0.2
	}
	spans := []span{{text: b.Words, face: fonts.Sans, size: size, link: b.Link}}
	if b.At != "" {
		spans = append([]span{{text: b.At + " ", face: fonts.SansBold, size: size}}, spans...)
	}
	words := t.set(w-x, boardLead, spans...)
	ops = append(ops, words.ops(x, 0, t.nextField())...)
	y := words.height()
	put := func(text string, face fonts.Face) {
		pa := t.set(w, boardLead, span{text: text, face: face, size: size, whole: face == fonts.SansBold})
		room := w - x - pa.width()
		if n := len(words.lines); len(pa.lines) == 1 && (n == 0 || room < words.lines[n-1].width+6) {
			y += size*(boardLead-1) + size
		} else if len(pa.lines) > 1 {
			y += size * boardLead
		}
		top := y - size*(fonts.Ascent+fonts.Descent)
		pa.right = true
		ops = append(ops, pa.ops(w, top, t.nextField())...)
		y += float64(len(pa.lines)-1) * pa.leading
	}
	if b.Until != "" {
		put("–"+b.Until, fonts.SansBold)
	}
	h = max(h, y)
	if b.Looks != "" {
		pa := t.set(w-x, boardLead, span{text: b.Looks, face: fonts.Sans, size: size})
		ops = append(ops, pa.ops(x, h+1, t.nextField())...)
		h += 1 + pa.height()
	}
	return ops, h
}
