package page

import (
	"slices"
	"strings"

	"tamis/compiler/sheets"
	"tamis/render/amount"
	"tamis/render/draw"
	"tamis/render/fonts"
)

// A leaf is handed out and taken home: one sheet of paper, both sides, set in two columns in
// the largest type that goes on it.

// leafScales are the sizes a leaf is tried at, as shares of 11.5 points. The last are for parts of
// many dishes: in the hand, at 40 cm, their x-height is still a fifth of a degree (DESIGN.md).
var leafScales = []float64{1.17, 1.13, 1.09, 1.04, 1, 0.96, 0.92, 0.88, 0.84, 0.8}

// leafWay is a way to set a leaf: its size, that of its pictures (0: without), and the air
// between its parts.
type leafWay struct{ k, picture, air float64 }

// LeafPages is how many pages so wide a leaf may have: two of a whole sheet, four where it is folded.
func LeafPages(w float64) int {
	if w < A4.W*0.8 {
		return 4
	}
	return 2
}

func (t *typesetter) leafSizes(k float64) sizes {
	if t.opt.Large {
		return large
	}
	z := sizes{
		masthead: 28, title: 28, again: 14, heading: 14.5 * k, sub: 12 * k,
		step: 11.5 * k, number: 16 * k, look: 11.5 * k, body: 11.5 * k, small: min(10, max(10*k, 8.5)), running: 9, chart: 11,
	}
	if t.tight() {
		z.masthead, z.title = 22, 22
	}
	return z
}

// fitLeaf lays a leaf out: as large as goes on its sheet of paper, its pictures smaller or
// left out before its letters are small; on one side, where that is only a little smaller
// and the other would be half empty.
func (t *typesetter) fitLeaf(i int) {
	t.notes = slices.Clip(t.notes)
	state := *t
	pages, started := len(t.book.Pages), len(t.book.Sheets)
	lay := func(w leafWay, whole bool) int {
		t.again(state, pages, started)
		t.sz, t.air, t.picture, t.tables = t.leafSizes(w.k), w.air*state.air, w.picture, map[*sheets.Table]*needs{}
		t.setLeaf(i, whole)
		t.sz, t.air, t.picture, t.tables = state.sz, state.air, state.picture, state.tables
		return len(t.book.Pages) - pages
	}
	// settle sets it for good: each list in one column, with less air if need be, where that
	// costs no page
	settle := func(w leafWay, pages int) {
		for _, air := range []float64{w.air, w.air / 2} {
			if lay(leafWay{w.k, w.picture, air}, true) <= pages {
				return
			}
		}
		lay(w, false)
	}
	scales := leafScales
	if t.opt.Large {
		scales = scales[:1]
	}
	var ways []leafWay
	for _, k := range scales {
		ways = append(ways, leafWay{k, 1, 0.5})
		if k <= 1 || t.opt.Large {
			ways = append(ways, leafWay{k, 0.62, 0.5}, leafWay{k, 0, 0.5})
		}
		if k < 0.9 {
			ways = append(ways, leafWay{k, 0, 0.25})
		}
	}
	best, least := ways[len(ways)-1], 1<<30
	for _, w := range ways {
		if n := lay(w, false); n < least {
			best, least = w, n
		}
		if least <= LeafPages(t.opt.Paper.W) {
			break
		}
	}
	if least > 1 && least <= LeafPages(t.opt.Paper.W) && t.ended < t.page().Area.Y+t.page().Area.H*0.45 {
		for _, w := range ways {
			if w.k < 0.96 {
				continue
			}
			if n := lay(w, false); n < least {
				settle(w, n)
				return
			}
		}
	}
	settle(best, least)
}

// setLeaf lays one leaf out: its head over the whole width, then two columns, then what must be
// minded. Where whole is set, no list of what is gathered is cut, nor parted from its title, that takes
// less than half a column, and no other list that takes less than a fifth.
func (t *typesetter) setLeaf(i int, whole bool) {
	s := &t.doc.Sheets[i]
	start := Start{ID: s.ID, Title: t.clean(s.Title), Page: len(t.book.Pages)}
	t.book.Sheets = append(t.book.Sheets, start)
	f := &flow{t: t, sheet: i, columns: 1}
	t.newPage(f)
	const gap = 20.0
	n := 1
	if f.frame.W/t.sz.step > 36 {
		n = 2
	}
	col := &flow{t: t, sheet: i, columns: n, colGap: gap, frame: f.frame}
	var last []*piece
	titled := 0 // where what stands below the last heading begins
	for k, b := range s.Blocks {
		switch b := b.(type) {
		case *sheets.Heading:
			titled = len(col.waiting)
			t.block(col, s, b)
		case *sheets.Masthead:
			f.add(t.leafHead(s, b, f.frame.W)...)
		case *sheets.Prose:
			if k == 1 { // the words to those who watch stand over both columns
				f.add(t.prose(b, f.frame.W)...)
				continue
			}
			usual := t.sz.step
			if usual < 11 { // where room is scarce, what is said of a dish stands back
				t.sz.step = t.sz.small
			}
			ps := t.prose(b, col.width())
			t.sz.step = usual
			if _, ok := s.Blocks[k-1].(*sheets.Heading); ok && len(ps) > 0 {
				ps[0].before = 0
			}
			col.add(ps...)
		case *sheets.Picture:
			if pc := t.pictureRow(col, b, t.rowHeight(col, b)*t.picture); t.picture > 0 && pc != nil {
				col.add(pc)
			}
		case *sheets.Table:
			ps := t.leafBeside(b, col.width())
			if _, ok := s.Blocks[k-1].(*sheets.Prose); ok && len(ps) > 0 {
				ps[0].before = t.sz.body * 0.4
			}
			if whole && tall(ps) < col.frame.H/2 {
				hold(ps)
			}
			col.add(ps...)
			if all := col.waiting[titled:]; whole && tall(all) < col.frame.H/2 { // with its title and its story
				hold(all)
			}
		case *sheets.List:
			t.block(col, s, b)
			if all := col.waiting[titled:]; whole && tall(all) < col.frame.H/5 {
				hold(all)
			}
		case *sheets.Cautions:
			last = append(last, t.leafCare(b, f.frame.W))
		default:
			t.block(col, s, b)
		}
	}
	f.flush()
	if n == 1 {
		f.add(col.waiting...)
	} else {
		if len(col.waiting) > 0 {
			col.waiting[0].before = t.sz.body
		}
		f.inColumns(n, gap, col.waiting, mayBeEmpty)
	}
	f.add(last...)
	f.flush()
	t.ended = f.y
	t.structure(start.Page, 0, t.clean(s.Title))
}

// hold keeps pieces together.
func hold(ps []*piece) {
	for _, p := range ps[:max(len(ps)-1, 0)] {
		p.glue = firm
	}
}

// leafHead is the head of a leaf: what it is a part of, its title, who and when, and the
// address to watch, with its code at the right and the picture of the series at the left.
func (t *typesetter) leafHead(s *sheets.Sheet, m *sheets.Masthead, w float64) []*piece {
	p := &piece{glue: weak}
	p.ops = append(p.ops, draw.Stripe(1, 0, 0, w, 7)...)
	top := 7 + 9.0
	side := 30 * mm
	if t.tight() && !t.opt.Large {
		side = 23 * mm
	}
	left, right, bottom := 0.0, w, top
	if m.Code != nil { // its own white is the distance to the words
		p.ops = append(p.ops, &draw.Picture{X: w - side, Y: top - 4, W: side, H: side, Of: m.Code, Tag: figure(m.Code)})
		right, bottom = w-side-6, top-4+side
	}
	if m.Picture != nil {
		pw, ph := boxOf(m.Picture, w*0.24, side)
		if c := t.captionHeight(m.Picture, pw); pw > 1 && ph > 1 && c < side { // with its words, which say whose it is, or not at all
			p.ops = append(p.ops, &draw.Picture{X: 0, Y: top, W: pw, H: ph, Of: m.Picture, Tag: figure(m.Picture)})
			if c := t.caption(m.Picture, pw); c != nil {
				p.add(c.ops(0, top+ph+4, t.nextField()), 0, 0)
			}
			left, bottom = pw+12, max(bottom, top+ph+c)
		}
	}
	y := top
	set := func(pa para, tag string, after float64) {
		ops := pa.ops(left, y, t.nextField())
		if tag != "" {
			draw.Mark(ops, &draw.Tag{Role: tag})
		}
		p.add(ops, 0, 0)
		y += pa.height() + after
	}
	above := t.set(right-left, leadTight, span{text: m.Series, face: fonts.SansBold, size: t.sz.sub}, span{text: ", " + strings.ReplaceAll(m.Part, " ", "\u00a0"), face: fonts.Sans, size: t.sz.sub})
	y += above.height() + 3
	set(t.set(right-left, 1.08, span{text: s.Title, face: fonts.SerifBold, size: t.sz.title}), "H1", 3)
	if len(s.Facts) > 0 {
		set(t.facts(s.Facts, right-left, fonts.Sans, t.sz.body), "", 2)
	}
	p.add(above.ops(left, top, t.nextField()), 0, 0) // it stands above, and is told after the title
	if m.Watch != "" {
		set(t.set(right-left, leadTight, span{text: "Watch it at ", face: fonts.Sans, size: t.sz.body}, span{text: m.Watch, face: fonts.SansBold, size: t.sz.body, link: m.Link}), "", 2)
	}
	p.h = max(y, bottom) + 5
	p.ops = append(p.ops, &draw.Line{Y1: p.h, X2: w, Y2: p.h, Width: rule})
	p.h += 2
	return []*piece{p}
}

// leafBeside is what is gathered in two columns side by side, where a line is long enough
// for both; all of it is one piece.
func (t *typesetter) leafBeside(b *sheets.Table, w float64) []*piece {
	const gap = 16.0
	if w < t.sz.body*28 {
		return t.leafList(b, w)
	}
	rows := t.leafList(b, (w-gap)/2)
	if len(rows) < 4 {
		return rows
	}
	all, p, y, x, foot := tall(rows), &piece{before: rows[0].before}, 0.0, 0.0, 0.0
	for i, r := range rows {
		if x == 0 && y+r.before+r.h > all/2+r.h/2 && (i == 0 || rows[i-1].glue == loose) {
			x, y = (w+gap)/2, 0
		}
		if y > 0 {
			y += r.before
		}
		p.add(r.ops, x, y)
		y += r.h
		foot = max(foot, y)
	}
	p.h = foot
	return []*piece{p}
}

// leafList is what is gathered: figures that end on one axis, the things behind them.
func (t *typesetter) leafList(b *sheets.Table, w float64) (out []*piece) {
	size := t.sz.body
	var fig, unit float64
	each := func(f func(r sheets.Row)) {
		for _, g := range b.Groups {
			for _, r := range g.Rows {
				f(r)
			}
		}
	}
	each(func(r sheets.Row) {
		a, u := amount.Split(t.clean(sheets.Words(r.Cells[0].Runs)))
		if fw, uw := fonts.SansBold.Width(a, size), fonts.Sans.Width(u, size); fw+uw < w*0.3 {
			fig, unit = max(fig, fw), max(unit, uw)
		}
	})
	axis, name := fig, fig+axisGap
	if unit > 0 {
		name += unit + 6
	}
	for _, g := range b.Groups {
		if g.Title != "" {
			pa := t.set(w, leadTight, span{text: g.Title, face: fonts.SansBold, size: t.sz.small})
			out = append(out, &piece{before: 4, h: pa.height(), ops: pa.ops(0, 0, t.nextField()), glue: firm})
		}
		for i, r := range g.Rows {
			p := &piece{before: 1.5, glue: pick(i+2 == len(g.Rows), firm, loose)}
			if i+1 == len(g.Rows) {
				p.glue = loose
			}
			y := 0.0
			a, u := amount.Split(t.clean(sheets.Words(r.Cells[0].Runs)))
			if fonts.SansBold.Width(a, size) <= axis+0.01 && fonts.Sans.Width(u, size) <= unit+0.01 {
				field := t.nextField()
				if a != "" {
					pa := t.set(1e6, 1, span{text: a, face: fonts.SansBold, size: size, whole: true})
					p.add(pa.ops(axis-pa.width(), 0, field), 0, 0)
				}
				if u != "" {
					p.add(t.set(1e6, 1, span{text: u, face: fonts.Sans, size: size, whole: true}).ops(axis+axisGap, 0, field), 0, 0)
				}
			} else {
				pa := t.set(w, leadTight, span{text: sheets.Words(r.Cells[0].Runs), face: fonts.SansBold, size: size})
				p.add(pa.ops(0, 0, t.nextField()), 0, 0)
				y = pa.height()
			}
			pa := t.set(w-name, leadTight, t.spans(r.Cells[1].Runs, false, size)...)
			p.add(pa.ops(name, y, t.nextField()), 0, 0)
			y += max(pa.height(), size)
			if len(r.Cells[1].Sub) > 0 {
				sub := t.set(w-name, leadTight, t.spans(r.Cells[1].Sub, false, t.sz.small)...)
				p.add(sub.ops(name, y, t.nextField()), 0, 0)
				y += sub.height()
			}
			p.h = y
			out = append(out, p)
		}
	}
	return out
}

// leafCare is what must be minded, in one run between two rules.
func (t *typesetter) leafCare(b *sheets.Cautions, w float64) *piece {
	size := t.sz.small
	p := &piece{before: size * 0.8, turn: "cautions"}
	spans := []span{{text: takeCare + ": ", face: fonts.SansBold, size: size}}
	for _, c := range b.Items {
		spans = append(spans, span{text: c.Text + " ", face: fonts.Sans, size: size})
	}
	x := size*1.16 + 6
	pa := t.set(w-x, 1.2, spans...)
	p.ops = append(p.ops, &draw.Line{X2: w, Width: rule})
	p.ops = append(p.ops, warning(0, 5, size*0.95)...)
	p.add(pa.ops(x, 4, t.nextField()), 0, 0)
	p.h = pa.height() + 8
	p.ops = append(p.ops, &draw.Line{X2: w, Y1: p.h, Y2: p.h, Width: hair})
	return p
}
