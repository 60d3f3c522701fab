package page

import (
	"strings"

	"tamis/compiler/sheets"
	"tamis/render/draw"
	"tamis/render/fonts"
)

// A book on file cards stands in a box: a divider for each chapter, with a tab that is read
// when one looks along the upper edges, each further to the right than the one before, and
// at the same place of every card of that chapter a mark. A card says where it is filed,
// "Soups 3", and so does what speaks of it.

// boxed tells whether a book is set on cards.
func (t *typesetter) boxed() bool { return t.doc.Bound && t.opt.Paper.Card }

// tabRises is how far the tabs and marks of a box stand above what else is on its cards.
const tabRises = 7.0

// mostTabs is how many tabs stand side by side before they begin again at the left.
const mostTabs = 5

// tab is where the tab of a chapter stands, within an area: its left edge and its width.
func (t *typesetter) tab(chapter string, a Box) (x, w float64) {
	n := 0
	for _, s := range t.doc.Sheets {
		if s.Kind == sheets.Chapter {
			n++
		}
	}
	n = min(max(n, 2), mostTabs)
	w = a.W / float64(n)
	return a.X + float64(t.doc.ChapterNumber(chapter)%n)*w, w
}

// cardHead is what a divider or the first card of a box begins with.
func (t *typesetter) cardHead(s *sheets.Sheet, w float64) []*piece {
	if s.Kind == sheets.Chapter {
		return []*piece{{h: t.sz.heading * 0.9, glue: weak}} // its tab says the rest
	}
	p := &piece{glue: weak}
	y := t.opt.Paper.H * 0.2
	name := t.set(w, 1.1, span{text: s.Title, face: fonts.SerifBold, size: t.sz.masthead * 1.2})
	words := name.ops(0, y, t.nextField())
	draw.Mark(words, &draw.Tag{Role: "H1"})
	p.add(words, 0, 0)
	y += name.height() + 5
	p.add(draw.Stripe(0, 0, 0, w, 7), 0, y)
	y += 7
	for _, f := range s.Facts {
		pa := t.set(w, 1.2, span{text: f, face: fonts.SerifItalic, size: t.sz.heading})
		p.add(pa.ops(0, y+5, t.nextField()), 0, 0)
		y += 5 + pa.height()
	}
	p.h = y
	return []*piece{p}
}

// runningBox writes the head and the foot of a card of a box.
func (t *typesetter) runningBox(p *Page, number string) {
	s := &t.doc.Sheets[p.Sheet]
	size, a := t.sz.running, p.Area
	if s.Kind == sheets.TitlePage {
		return
	}
	t.runningFoot(p, number)
	y := a.Y + a.H - size*1.35
	p.Ops = append(p.Ops, &draw.Line{X1: a.X, Y1: y, X2: a.X + a.W, Y2: y, Width: hair})
	if s.Kind != sheets.Chapter {
		p.Area.Y += tabRises
		t.runningHead(p)
		p.Area.Y -= tabRises
		y := a.Y + tabRises + size*1.25
		p.Ops = append(p.Ops, &draw.Line{X1: a.X, Y1: y, X2: a.X + a.W, Y2: y, Width: hair})
		if s.Chapter != "" {
			x, w := t.tab(s.Chapter, a)
			p.Ops = append(p.Ops, &draw.Rect{X: x, Y: a.Y, W: min(w, 26), H: 4.5, Fill: true})
		}
		return
	}
	x, w := t.tab(s.Chapter, a)
	tall := size*2 + 7
	top := a.Y
	p.Ops = append(p.Ops,
		&draw.Rect{X: x, Y: top, W: w, H: tall, Fill: true},
		&draw.Line{X1: a.X, X2: a.X + a.W, Y1: top + tall, Y2: top + tall, Width: 2})
	face := t.sz.heading
	name := t.clip([]span{{text: s.Title, face: fonts.SansBold, size: face}}, w-10)
	for name.lines != nil && name.width() > w-10 && face > size {
		face--
		name = t.clip([]span{{text: s.Title, face: fonts.SansBold, size: face}}, w-10)
	}
	for _, o := range name.ops(x+5, top+(tall-face)/2-face*0.04, 0) {
		o.(*draw.Text).White = true
		p.Ops = append(p.Ops, o)
	}
}

// filed is where the card of a sheet stands in its box: "Soups 3".
func (t *typesetter) filed(link string) string {
	if s := t.doc.Sheet(strings.TrimPrefix(link, "#")); s != nil {
		return s.Filed
	}
	return ""
}
