package page

import (
	"strings"

	"tamis/compiler/sheets"
	"tamis/render/draw"
	"tamis/render/fonts"
)

// Labels are cut out and stuck on: a size of our own that fits both papers,
// three to a row on a sheet that lies on its side. Large type takes two.
const (
	labelW      = 80 * mm
	labelH      = 42 * mm
	labelWLarge = 120 * mm
	labelHLarge = 56 * mm
)

// labels sets the rows of a table as labels in a grid to be cut along its
// broken lines. Where the page, which has room of a height for them, could hold all of them
// again, it does, so that there is one for each tub. It returns nil for a table that is
// no list of labels, or whose words need more room than a label has.
func (t *typesetter) labels(b *sheets.Table, w, room float64) []*piece {
	const before = 12.0
	cw, h := labelW, labelH
	if t.opt.Large {
		cw, h = labelWLarge, labelHLarge
	}
	n := int(w / cw)
	if n == 0 || !labelled(b) {
		return nil
	}
	var cards []*piece
	for _, g := range b.Groups {
		for _, r := range g.Rows {
			c := t.label(b.Columns, r, cw)
			h = max(h, c.h)
			cards = append(cards, c)
		}
	}
	if h > 2.2*labelH || len(cards) == 0 {
		return nil
	}
	// what is written by hand stands at the foot of the label
	for _, c := range cards {
		for _, o := range c.heads {
			c.add(o.ops, 0, h-o.h)
		}
	}
	if each := len(cards); !t.opt.Paper.Card {
		for slots := n * int((room-before)/h); len(cards)+each <= slots; {
			for _, c := range cards[:each] {
				cards = append(cards, c.copy())
			}
		}
	}
	var out []*piece
	cut := []float64{4, 3}
	for i := 0; i < len(cards); i += n {
		row := cards[i:min(i+n, len(cards))]
		p := &piece{h: h}
		if i == 0 {
			p.before = before
		}
		right := cw * float64(len(row))
		for k, c := range row {
			p.add(c.ops, cw*float64(k), 0)
		}
		for k := range len(row) + 1 {
			p.ops = append(p.ops, &draw.Line{X1: cw * float64(k), X2: cw * float64(k), Y2: h, Width: hair, Dash: cut})
		}
		p.ops = append(p.ops,
			&draw.Line{X2: right, Width: hair, Dash: cut},
			&draw.Line{X2: right, Y1: h, Y2: h, Width: hair, Dash: cut})
		out = append(out, p)
	}
	return out
}

// labelled tells whether b is a list of labels: marks, words and fields to
// write in, without headings.
func labelled(b *sheets.Table) bool {
	words := false
	for _, c := range b.Columns {
		switch c.Kind {
		case sheets.TextColumn:
			words = true
		case sheets.MarkColumn, sheets.PencilColumn:
		default:
			return false
		}
	}
	for _, g := range b.Groups {
		if g.Title != "" || g.Note != "" {
			return false
		}
		for _, r := range g.Rows {
			if len(r.Cells) > len(b.Columns) {
				return false
			}
		}
	}
	return words
}

// label sets one label. Its heads are the fields for a pen, with h as their
// distance from the foot.
func (t *typesetter) label(cols []sheets.Column, r sheets.Row, w float64) *piece {
	const pad = 9.0
	p := &piece{}
	y, x := pad, pad
	inner := w - 2*pad
	named := false
	hang := 0.0 // where the mark ends
	write := func(to *piece, title string, y float64) {
		pa := t.clip([]span{{text: title, face: fonts.Sans, size: t.sz.small}}, inner*0.5)
		to.add(pa.ops(pad, y, 0), 0, 0)
		base := y + t.sz.small
		to.ops = append(to.ops, &draw.Line{X1: pad + pa.width() + 5, X2: w - pad, Y1: base, Y2: base, Width: hair, Dash: []float64{0.5, 2}})
	}
	foot := 0.0
	for i, c := range cols {
		var cell sheets.Cell
		if i < len(r.Cells) {
			cell = r.Cells[i]
		}
		empty := strings.TrimSpace(t.clean(sheets.Words(cell.Runs))) == "" && len(cell.Sub) == 0
		switch {
		case c.Kind == sheets.MarkColumn:
			ops, mw, mh := t.marksCell(sheets.Words(cell.Runs), inner*0.5, t.nextField())
			p.add(ops, x, y)
			if mw > 0 {
				x += mw + 6
			}
			hang = max(hang, y+mh)
			if mh > t.sz.body*1.6 {
				y, x = hang+2, pad
			}
			if len(cell.Sub) > 0 {
				pa := t.set(inner, leadTight, t.spans(cell.Sub, false, t.sz.small)...)
				p.add(pa.ops(pad, hang+2, t.nextField()), 0, 0)
				y, x = hang+2+pa.height()+2, pad
			}
		case c.Kind == sheets.PencilColumn && empty:
			foot += t.sz.small * 1.5
			q := &piece{}
			write(q, c.Title, 0)
			q.h = foot + pad - t.sz.small*0.35
			p.heads = append(p.heads, q)
		case empty && c.Title != "":
			y = max(y, hang) + 7
			write(p, c.Title, y)
			y += t.sz.small + 2
			x = pad
		default:
			if !named {
				// the name stands beside its mark
				spans := bold(t.spans(cell.Runs, false, t.sz.body))
				pa := t.set(pad+inner-x, leadTight, spans...)
				p.add(pa.ops(x, y, t.nextField()), 0, 0)
				y += max(pa.height(), t.sz.body)
				named = true
			} else {
				y = max(y, hang)
				pa := t.set(inner, leadTight, t.spans(cell.Runs, false, t.sz.small)...)
				p.add(pa.ops(pad, y+3, t.nextField()), 0, 0)
				y += 3 + pa.height()
				x = pad
			}
			if len(cell.Sub) > 0 {
				pa := t.set(pad+inner-x, leadTight, t.spans(cell.Sub, false, t.sz.small)...)
				p.add(pa.ops(x, y+2, t.nextField()), 0, 0)
				y += 2 + pa.height()
			}
			x = pad
		}
	}
	p.h = max(y, hang) + foot + 2 + pad*0.5
	if foot > 0 {
		p.h += 4
	}
	return p
}
