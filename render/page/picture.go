package page

import (
	"math"

	"tamis/compiler/sheets"
	"tamis/render/draw"
	"tamis/render/fonts"
)

// A picture is a guest on the page: it stands where it is wished for, beside
// the words before it or in a row of its own, if the sheet has as many pages
// with it as without. Else it is made smaller; else it stands at the foot of
// the last page, as large as the room that is left; and only where there is no
// room, on a page after all that a cook must read.

// pictureSizes are the shares of its usual size that a picture is tried at.
var pictureSizes = []float64{1, 0.8, 0.62}

const (
	pictureDPI  = 150.0   // never set coarser: a small picture stays small
	leastHeight = 30 * mm // below, nothing is seen in it
	upright     = 1.6     // what is no wider for its height may stand beside words
)

// fitPictures lays out a sheet that has pictures.
func (t *typesetter) fitPictures(i int) {
	state := *t
	pages, started := len(t.book.Pages), len(t.book.Sheets)
	t.picture = 0
	t.fitAir(i, false)
	usual := len(t.book.Pages) - pages
	for _, size := range pictureSizes {
		t.again(state, pages, started)
		t.picture = size
		t.fitAir(i, false)
		if len(t.book.Pages)-pages <= usual {
			t.picture = 0
			return
		}
	}
	t.again(state, pages, started)
	t.picture = 0
	t.fitAir(i, true)
}

// withPictures adds the blocks of a sheet, with the pictures among them where
// they are wished for if they have a size; it returns those that are left.
func (t *typesetter) withPictures(f *flow, s *sheets.Sheet, blocks []sheets.Block) (left []*sheets.Picture) {
	for k := 0; k < len(blocks); k++ {
		if c, ok := blocks[k].(*sheets.Cautions); ok && c == t.loose {
			continue
		}
		if p, ok := blocks[k].(*sheets.Picture); ok {
			if pc := t.pictureRow(f, p, t.rowHeight(f, p)*t.picture); t.picture > 0 && pc != nil {
				f.add(pc)
			} else if t.picture == 0 {
				left = append(left, p)
			}
			continue
		}
		prose, ok := blocks[k].(*sheets.Prose)
		if ok && t.picture > 0 && k+1 < len(blocks) {
			if p, ok := blocks[k+1].(*sheets.Picture); ok {
				if pc := t.beside(f, prose, p); pc != nil {
					f.add(pc)
					k++
					continue
				}
			}
		}
		t.block(f, s, blocks[k])
	}
	return left
}

// footPictures sets pictures below everything else.
func (t *typesetter) footPictures(f *flow, list []*sheets.Picture) {
	for _, p := range list {
		gap := t.sz.heading
		most := min(f.room()-gap-t.captionHeight(p, f.width()), 90*mm)
		if natural := t.natural(p, f.width(), most); most < leastHeight || natural < leastHeight*0.6 {
			most = min(110*mm, f.frame.H*0.9)
		}
		if pc := t.pictureRow(f, p, most); pc != nil {
			f.add(pc)
			f.flush()
		}
	}
}

// rowHeight is how high a picture stands in a row of its own: lower if it is
// wide, and never more than two fifths of a page.
func (t *typesetter) rowHeight(f *flow, p *sheets.Picture) float64 {
	h := 60 * mm
	if broad(p) {
		h = 48 * mm
	}
	return min(h, f.frame.H*0.4)
}

func broad(p *sheets.Picture) bool { return float64(p.Width) > float64(p.Height)*upright }

// boxOf is the size of a picture in a box, in points.
func boxOf(p *sheets.Picture, w, h float64) (float64, float64) {
	if p.Width <= 0 || p.Height <= 0 || w <= 0 || h <= 0 {
		return 0, 0
	}
	pw, ph := float64(p.Width)*72/pictureDPI, float64(p.Height)*72/pictureDPI
	k := math.Min(1, math.Min(w/pw, h/ph))
	return pw * k, ph * k
}

func (t *typesetter) natural(p *sheets.Picture, w, h float64) float64 {
	_, ph := boxOf(p, w, h)
	return ph
}

// caption is the writer's words below a picture; nil without any.
func (t *typesetter) caption(p *sheets.Picture, w float64) *para {
	if p.Words == "" {
		return nil
	}
	pa := t.set(w, 1.25, span{text: p.Words, face: fonts.Sans, size: t.sz.small})
	return &pa
}

func (t *typesetter) captionHeight(p *sheets.Picture, w float64) float64 {
	if c := t.caption(p, w); c != nil {
		return c.height() + 4
	}
	return 0
}

// pictureRow is a picture with its words below it, at most h high itself; nil
// if there is nothing to be seen.
func (t *typesetter) pictureRow(f *flow, p *sheets.Picture, h float64) *piece {
	w, ph := boxOf(p, f.width(), h)
	if w < 1 || ph < 1 {
		return nil
	}
	pc := &piece{before: t.sz.heading * 0.9 * t.air, h: ph}
	pc.ops = append(pc.ops, &draw.Picture{W: w, H: ph, Of: p, Tag: figure(p)})
	if c := t.caption(p, t.measure(f.width())); c != nil {
		pc.add(c.ops(0, ph+4, t.nextField()), 0, 0)
		pc.h += 4 + c.height()
	}
	return pc
}

// beside sets a picture at the right edge, and the words it belongs to at its
// left; nil where the picture is too wide for that, or the words too long.
func (t *typesetter) beside(f *flow, prose *sheets.Prose, p *sheets.Picture) *piece {
	const gap = 18.0
	if broad(p) || t.tight() && !t.opt.Paper.Card {
		return nil
	}
	w, h := boxOf(p, f.width()*0.38, t.rowHeight(f, p)*t.picture)
	if w < 1 || h < 1 {
		return nil
	}
	field := t.field
	pc := &piece{before: t.sz.step * 0.7}
	y := 0.0
	for i, q := range t.prose(prose, f.width()-w-gap) {
		if i > 0 {
			y += q.before
		}
		pc.add(q.ops, 0, y)
		y += q.h
	}
	ph := h + t.captionHeight(p, w)
	if y > max(ph*1.6, 60) || y > f.frame.H*0.5 {
		t.field = field
		return nil
	}
	x := f.width() - w
	pc.ops = append(pc.ops, &draw.Picture{X: x, Y: 2, W: w, H: h, Of: p, Tag: figure(p)})
	if c := t.caption(p, w); c != nil {
		pc.add(c.ops(x, h+6, t.nextField()), 0, 0)
	}
	pc.h = max(y, ph+4)
	return pc
}

// pictured tells whether a sheet has pictures.
func pictured(s *sheets.Sheet) bool {
	for _, b := range s.Blocks {
		if _, ok := b.(*sheets.Picture); ok {
			return true
		}
	}
	return false
}

// figure tells those who hear the page what a picture shows.
func figure(p *sheets.Picture) *draw.Tag { return &draw.Tag{Role: "Figure", Alt: p.Alt} }
