package page

import (
	"fmt"

	"tamis/compiler/sheets"
	"tamis/render/draw"
	"tamis/render/fonts"
)

// block adds one block of a sheet to the flow.
func (t *typesetter) block(f *flow, s *sheets.Sheet, b sheets.Block) {
	switch b := b.(type) {
	case *sheets.Heading:
		f.add(t.heading(b.Text, b.Note, f.width()))
	case *sheets.Prose:
		if b.Small {
			f.add(t.smallProse(b, f.width())...)
			break
		}
		f.add(t.prose(b, f.width())...)
	case *sheets.Table:
		if s.Kind == sheets.DateLabels {
			before := t.field
			if rows := t.labels(b, f.width(), f.room()-tall(f.waiting)); rows != nil {
				f.add(rows...)
				break
			}
			t.field = before
		}
		t.table(f, b)
	case *sheets.Steps:
		if t.apart {
			f.flush()
			if !f.fresh && len(t.book.Pages)-1 == t.book.Sheets[len(t.book.Sheets)-1].Page {
				f.turn(&piece{turn: "step 1"})
				f.fresh = true
			}
		}
		f.add(t.steps(b, f.width())...)
	case *sheets.Chart:
		t.chart(f, s, b)
	case *sheets.Board:
		f.add(t.board(b, f.width())...)
	case *sheets.Cautions:
		if t.doc.Bound {
			f.add(t.plainCares(b, f.width())...)
			break
		}
		f.add(t.cautions(b, f.width())...)
	case *sheets.Alphabet:
		t.alphabet(f, b)
	case *sheets.List:
		f.add(t.list(b, f.width())...)
	case *sheets.Masthead: // on a card, where the rest stands in the running head
		if b.Watch != "" {
			f.add(t.prose(&sheets.Prose{Paras: []sheets.Para{{Runs: []sheets.Run{{Text: b.Watch, Link: b.Link}}}}}, f.width())...)
		}
	}
}

// spans turns runs into spans: serif for sentences, sans for names in tables.
func (t *typesetter) spans(runs []sheets.Run, serif bool, size float64) []span {
	out := make([]span, 0, len(runs))
	for _, r := range runs {
		face := fonts.Sans
		if serif {
			face = fonts.Serif
		}
		s := span{text: r.Text, size: size, link: r.Link}
		if r.Page != "" {
			s.text = t.pageText(r)
		}
		switch r.Style {
		case sheets.Strong:
			face = pick(serif, fonts.SerifBold, fonts.SansBold)
		case sheets.Emph:
			face = pick(serif, fonts.SerifItalic, fonts.SansItalic)
		case sheets.Amount:
			s.whole = true
			face = pick(serif, fonts.SerifBold, fonts.SansBold)
		case sheets.Quiet:
			face = pick(serif, fonts.SerifItalic, fonts.SansItalic)
		}
		s.face = face
		out = append(out, s)
	}
	return out
}

func pick[T any](yes bool, a, b T) T {
	if yes {
		return a
	}
	return b
}

// bold makes the plain spans of a strong row bold.
func bold(spans []span) []span {
	for i := range spans {
		switch spans[i].face {
		case fonts.Sans, fonts.SansItalic:
			spans[i].face = fonts.SansBold
		case fonts.Serif, fonts.SerifItalic:
			spans[i].face = fonts.SerifBold
		}
	}
	return spans
}

// heading opens a part of a sheet; it stays with what follows.
func (t *typesetter) heading(text, note string, w float64) *piece {
	p := &piece{before: t.sz.heading * 1.1 * t.air, glue: firm, part: t.clean(text)}
	head := t.set(w, leadTight, span{text: text, face: fonts.SansBold, size: t.sz.heading})
	p.ops = head.ops(0, 0, t.nextField())
	draw.Mark(p.ops, &draw.Tag{Role: "H2"})
	p.h = head.height()
	if note != "" {
		n := t.set(w, leadTight, span{text: note, face: fonts.Sans, size: t.sz.body})
		last := 0.0
		if len(head.lines) > 0 {
			last = head.lines[len(head.lines)-1].width
		}
		if gap := t.sz.body * 0.9; len(n.lines) == 1 && last > 0 && last+gap+n.width() <= w {
			base := p.h - t.sz.heading*fonts.Descent
			p.add(n.ops(last+gap, base-t.sz.body*fonts.Ascent, t.nextField()), 0, 0)
		} else {
			p.add(n.ops(0, p.h+2, t.nextField()), 0, 0)
			p.h += 2 + n.height()
		}
	}
	p.h += t.sz.heading * 0.3 * t.air
	return p
}

// measure is the widest a sentence runs: some seventy letters.
func (t *typesetter) measure(w float64) float64 { return min(w, t.sz.step*32) }

// prose sets the writer's own words.
func (t *typesetter) prose(b *sheets.Prose, w float64) []*piece {
	w = t.measure(w)
	var out []*piece
	size := t.sz.step
	var list *draw.Tag // of the items that follow each other
	for i, q := range b.Paras {
		p := &piece{before: size * 0.55 * t.air}
		item := q.Kind == sheets.Item || q.Kind == sheets.Numbered
		if item && (i == 0 || b.Paras[i-1].Kind != q.Kind) {
			list = &draw.Tag{Role: "L"}
		}
		if i == 0 {
			p.before = size * 0.7
		}
		x := 0.0
		spans := t.spans(q.Runs, true, size)
		switch q.Kind {
		case sheets.Subhead:
			spans = bold(t.spans(q.Runs, false, t.sz.sub))
			p.glue, p.before = firm, size
		case sheets.Quote:
			x = size * 1.2
		case sheets.Item:
			x = size * 1.2
			p.add([]draw.Op{&draw.Rect{X: size * 0.45, Y: size*fonts.Ascent - size*0.36, W: size * 0.24, H: size * 0.24, Fill: true, Round: size * 0.12}}, 0, 0)
			p.before = size * 0.25
		case sheets.Numbered:
			no := t.set(1e6, lead, span{text: fmt.Sprintf("%d.", q.Number), face: fonts.SansBold, size: size})
			x = max(size*1.7, no.width()+5)
			p.add(no.ops(x-no.width()-5, 0, t.nextField()), 0, 0)
			p.before = size * 0.25
		}
		pa := t.set(w-x, lead, spans...)
		mark := p.ops
		p.add(pa.ops(x, 0, t.nextField()), 0, 0)
		switch {
		case item:
			listed(list, mark, p.ops)
		case q.Kind == sheets.Subhead:
			draw.Mark(p.ops, &draw.Tag{Role: "H3"})
		case q.Kind == sheets.Quote:
			draw.Mark(p.ops, &draw.Tag{Role: "BlockQuote"})
		}
		p.h = max(pa.height(), size)
		if q.Kind == sheets.Quote {
			p.ops = append(p.ops, &draw.Line{X1: size * 0.4, X2: size * 0.4, Y1: 0, Y2: p.h, Width: 1.5})
		}
		out = append(out, p)
	}
	return out
}

// list sets a plain list, with boxes to tick if it asks for them.
func (t *typesetter) list(b *sheets.List, w float64) []*piece {
	var out []*piece
	size := t.sz.body
	whole := &draw.Tag{Role: "L"}
	for _, item := range b.Items {
		p := &piece{before: size * 0.4 * t.air}
		x := size * 1.2
		if b.Tick {
			x = size*1.2 + 6
			p.ops = append(p.ops, t.box(0, 0))
		} else {
			p.ops = append(p.ops, &draw.Rect{X: size * 0.4, Y: size*fonts.Ascent - size*0.36, W: size * 0.24, H: size * 0.24, Fill: true, Round: size * 0.12})
		}
		pa := t.set(t.measure(w)-x, 1.25, t.spans(item, false, size)...)
		p.add(pa.ops(x, size*0.05, t.nextField()), 0, 0)
		listed(whole, nil, p.ops)
		p.h = max(pa.height(), size*1.1)
		out = append(out, p)
	}
	return out
}

// box is a box to tick, level with a line of the body size.
func (t *typesetter) box(x, y float64) draw.Op {
	side := t.sz.body * 0.95
	return &draw.Rect{X: x + 0.5, Y: y + 0.4, W: side, H: side, Width: 1}
}
