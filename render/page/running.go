package page

import (
	"tamis/compiler/sheets"
	"tamis/render/draw"
	"tamis/render/fonts"
)

// running writes the head and the foot of a page with its number.
func (t *typesetter) running(p *Page, number string) {
	size, a := t.sz.running, p.Area
	if !p.headless {
		t.runningHead(p)
		y := a.Y + size*1.25
		p.Ops = append(p.Ops, &draw.Line{X1: a.X, Y1: y, X2: a.X + a.W, Y2: y, Width: hair})
	}
	t.runningFoot(p, number)
	y := a.Y + a.H - size*1.35
	p.Ops = append(p.Ops, &draw.Line{X1: a.X, Y1: y, X2: a.X + a.W, Y2: y, Width: hair})
}

// runningHead says what the page belongs to: document, covers, time, and the
// sheet. Where there is no room for all, the sheet goes first, for its title
// stands below, then the end of the time. Covers are always whole.
func (t *typesetter) runningHead(p *Page) {
	size, a := t.sz.running, p.Area
	var title []span
	add := func(s string, f fonts.Face) {
		if s == "" {
			return
		}
		if len(title) > 0 {
			title = append(title, span{text: " · ", face: fonts.Sans, size: size})
		}
		title = append(title, span{text: s, face: f, size: size})
	}
	first, second := t.doc.Title, t.doc.Sheets[p.Sheet].Title
	for _, b := range p.Below {
		if s := t.doc.Sheets[b.Sheet]; s.Kind == sheets.Prep {
			second += " · " + s.Title
		}
	}
	if t.boxed() {
		second = t.doc.Sheets[p.Sheet].Filed
	}
	if t.opt.Paper.Card {
		// a card has no room for its title again: it stands in the running head
		add(t.doc.Sheets[p.Sheet].Letter, fonts.SansBold)
		first, second = second, first
	}
	sheet := t.clip([]span{{text: second, face: fonts.Sans, size: size}}, a.W*0.4)
	letter := t.set(1e6, leadTight, title...).width()
	rest := 0.0
	for _, s := range []string{t.doc.Covers, t.doc.When} {
		if s != "" {
			rest += t.opt.Fonts.Width(fonts.Sans, " · "+t.clean(s), size)
		}
	}
	whole := letter + t.opt.Fonts.Width(fonts.SansBold, t.clean(first), size) + rest
	if whole+size+14+sheet.width() > a.W && !t.untitled(&t.doc.Sheets[p.Sheet]) {
		sheet = para{}
	}
	room := a.W
	if len(sheet.lines) > 0 {
		room -= sheet.width() + 14
		p.Ops = append(p.Ops, sheet.ops(a.X+a.W-sheet.width(), a.Y, 0)...)
	}
	// a long name leaves room for the covers
	keep := room - letter - size
	if t.doc.Covers != "" {
		keep -= t.opt.Fonts.Width(fonts.Sans, " ·  · …"+t.clean(t.doc.Covers), size)
	}
	if pa := t.clip([]span{{text: first, face: fonts.SansBold, size: size}}, max(keep, size*3)); len(pa.lines) > 0 {
		first = ""
		for _, q := range pa.lines[0].parts {
			if first != "" && !q.glued {
				first += " "
			}
			first += q.text
		}
	}
	add(first, fonts.SansBold)
	add(t.doc.Covers, fonts.Sans)
	add(t.doc.When, fonts.Sans)
	p.Ops = append(p.Ops, t.clip(title, room).ops(a.X, a.Y, 0)...)
}

// runningFoot says the revision, where the sheet goes on, and the number. The
// number is always whole; the others use shorter words where they must.
func (t *typesetter) runningFoot(p *Page, number string) {
	size, a := t.sz.running, p.Area
	y := a.Y + a.H - size
	const gap = 14.0
	one := func(s string, f fonts.Face, w float64) para {
		if s == "" {
			return para{}
		}
		return t.clip([]span{{text: s, face: f, size: size}}, w)
	}
	no := one(number, fonts.SansBold, a.W*0.6)
	arrow := size*0.5 + 5
	var revs, hints []string
	if t.doc.Revision != "" {
		revs = []string{"Revision " + t.doc.Revision, "rev. " + t.doc.Revision, t.doc.Revision}
	} else {
		revs = []string{""}
	}
	hints = []string{""}
	if p.Turn {
		word := p.onward
		hints = []string{word}
		if p.next != "" {
			hints = []string{word + ": " + p.next, word}
		}
	}
	var rev, hint para
	fits := false
search:
	for _, h := range hints {
		for _, r := range revs {
			rev, hint = one(r, fonts.Sans, a.W*0.5), one(h, fonts.SansBold, a.W*0.5)
			need := no.width() + gap + rev.width()
			if h != "" {
				need += hint.width() + arrow + gap
			}
			if fits = need <= a.W; fits {
				break search
			}
		}
	}
	if !fits {
		room := max(a.W-no.width()-gap, 0)
		if p.Turn {
			hint = one(hints[len(hints)-1], fonts.SansBold, max(room*0.6-arrow, size))
			room -= hint.width() + arrow + gap
		}
		if rev = (para{}); room > size*2 {
			rev = one(revs[len(revs)-1], fonts.Sans, room)
		}
	}
	p.Ops = append(p.Ops, rev.ops(a.X, y, 0)...)
	p.Ops = append(p.Ops, no.ops(a.X+a.W-no.width(), y, 0)...)
	if len(hint.lines) == 0 {
		return
	}
	// in the middle of the page, or of what is free
	w := hint.width() + arrow
	low := a.X
	if len(rev.lines) > 0 {
		low += rev.width() + gap*0.8
	}
	high := a.X + a.W - no.width() - gap*0.8 - w
	x := max(min(a.X+(a.W-w)/2, high), low)
	p.Ops = append(p.Ops, hint.ops(x, y, 0)...)
	c := y + size*0.52
	x += hint.width()
	p.Ops = append(p.Ops, &draw.Poly{Fill: true, Points: [][2]float64{
		{x + 5, c - size*0.3}, {x + 5 + size*0.5, c}, {x + 5, c + size*0.3},
	}})
}

// verso tells whether the page being set is the left one of two that lie open. Those of a
// book are set as right ones, and moved when their place is known.
func (t *typesetter) verso() bool {
	return t.opt.Paper.facing && !t.bound() && len(t.book.Pages)%2 == 0
}

// bound tells whether a book is set.
func (t *typesetter) bound() bool { return t.doc.Bound && !t.opt.Paper.Card }
