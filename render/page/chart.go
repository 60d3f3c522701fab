package page

import (
	"fmt"

	"tamis/compiler/sheets"
	"tamis/render/chart"
	"tamis/render/draw"
	"tamis/render/fonts"
)

// chart sets the meal chart: as many days on a page as stand there, and once the
// key of the bars.
func (t *typesetter) chart(f *flow, s *sheets.Sheet, b *sheets.Chart) {
	w := f.width()
	t.told = t.clean(b.Text)
	f.add(t.barKey(b, w)...)
	first, later := f.room(), t.roomLater(f, s)
	for _, p := range f.waiting {
		first -= p.before + p.h
	}
	var styles []chart.Style
	for _, s := range []struct {
		size, bar float64
		steps     int
	}{{1.09, 1.2, 3}, {1, 1.2, 3}, {1, 1.15, 2}, {1, 1.1, 1}, {0.955, 1, 1}} { // 12, 11 and 10.5 points
		size := max(s.size*t.sz.chart, leastOnChart)
		if t.opt.Large {
			size = max(size, t.sz.chart)
		}
		styles = append(styles, chart.Style{Size: size, Least: t.leastInBars(size), Bar: s.bar * size, Steps: s.steps, Title: true, Clean: t.clean, Fonts: &t.opt.Fonts})
	}
	pages := chart.Fit(b.Panels, w, panelGap, func(page int) float64 {
		if page == 0 {
			return first
		}
		return later
	}, styles)
	for _, page := range pages {
		for i, c := range page.Cuts {
			p := t.panelPiece(c, chart.Lay(c, w, page.Style))
			if i < len(page.Cuts)-1 {
				p.glue = firm
			}
			f.add(p)
		}
	}
}

// leastOnChart is the size of the smallest letters of a chart that hangs: it is
// looked up from nearer than a wall sheet is read (DESIGN.md).
const leastOnChart = 10.5

// leastInBars is the size of the initials in bars.
func (t *typesetter) leastInBars(size float64) float64 {
	if t.opt.Large {
		return size
	}
	return max(leastOnChart, size*0.9)
}

// panelGap is the air above a day.
const panelGap = 6

// panelPiece is a day, or a part of one.
func (t *typesetter) panelPiece(c chart.Cut, pic chart.Picture) *piece {
	title := t.clean(c.Panel.Title)
	p := &piece{h: pic.H, before: panelGap, ops: pic.Ops, turn: title, part: title}
	shift := t.field
	for _, o := range pic.Ops {
		if x, ok := o.(*draw.Text); ok && x.Field > 0 {
			x.Field += shift
			t.field = max(t.field, x.Field)
		}
	}
	alt := "Timeline"
	if title != "" {
		alt += ", " + title
	}
	if c.Parts > 1 {
		alt += fmt.Sprintf(", part %d of %d", c.Part, c.Parts)
	}
	if t.told != "" {
		alt += ". " + t.told
		t.told = "" // once is enough
	}
	draw.Mark(pic.Ops, &draw.Tag{Role: "Figure", Alt: alt})
	return p
}

// barKey shows what each kind of bar stands for.
func (t *typesetter) barKey(b *sheets.Chart, w float64) []*piece {
	p := &piece{before: 6, glue: weak}
	list := &draw.Tag{Role: "L"}
	size := t.sz.small
	x, y := 0.0, 0.0
	place := func(words string, before float64, sample []draw.Op) {
		pa := t.set(w, leadTight, span{text: words, face: fonts.Sans, size: size, whole: sample != nil})
		need := before + pa.width()
		if x > 0 && x+need > w {
			x, y = 0, y+size*1.6
		}
		p.add(sample, x, y)
		said := pa.ops(x+before, 0, 0)
		listed(list, nil, said)
		p.add(said, 0, y)
		x += need + 18
		y += float64(len(pa.lines)-1) * pa.leading
	}
	for _, k := range chart.Key(b) {
		place(k.Words, 26+6, chart.Sample(k.Kind, 26, size))
	}
	if b.Note != "" {
		place(b.Note, 0, nil)
	}
	if x == 0 {
		return nil
	}
	p.h = y + size*1.3
	return []*piece{p}
}
