package page

import (
	"fmt"

	"tamis/compiler/sheets"
	"tamis/render/chart"
	"tamis/render/draw"
	"tamis/render/fonts"
)

// chart sets a timeline: each panel, cut where it would be too dense, with a
// heading; and once the key of the bars.
func (t *typesetter) chart(f *flow, b *sheets.Chart) {
	w := f.width()
	f.place(t.barKey(b, w))
	for i := range b.Panels {
		t.panel(f, &b.Panels[i], w)
	}
}

// panel sets one day, with bars as tall as lets its tallest cut stand on one
// page, up to a comfortable height.
func (t *typesetter) panel(f *flow, p *sheets.Panel, w float64) {
	room := f.frame.H - t.sz.heading*2.4 - 10
	st := chart.Style{Size: t.sz.chart, Clean: t.clean}
	var cuts []chart.Cut
	var pics []chart.Picture
	for _, st.Bar = range []float64{17, 14, 11, 9} {
		cuts = chart.Cuts(p, w, st)
		pics = pics[:0]
		tall := 0.0
		for _, c := range cuts {
			pics = append(pics, chart.Lay(c, w, st))
			tall = max(tall, pics[len(pics)-1].H)
		}
		if tall <= room {
			break
		}
	}
	for i, c := range cuts {
		if pics[i].H <= room || c.Last-c.First < 2 {
			f.place(t.panelPieces(c, pics[i], w))
			continue
		}
		// still taller than a page: some lanes on each
		for first := c.First; first < c.Last; {
			last := first + 1
			part := c
			part.First, part.Last = first, last
			pic := chart.Lay(part, w, st)
			for last < c.Last {
				part.Last = last + 1
				next := chart.Lay(part, w, st)
				if next.H > room {
					break
				}
				pic = next
				last++
			}
			part.Last = last
			f.place(t.panelPieces(part, pic, w))
			first = last
		}
	}
}

// panelPieces is one picture under its heading.
func (t *typesetter) panelPieces(c chart.Cut, pic chart.Picture, w float64) []*piece {
	note := ""
	if c.Parts > 1 {
		note = fmt.Sprintf("%s to %s, part %d of %d", chart.Clock(c.From), chart.Clock(c.To), c.Part, c.Parts)
	}
	var head *piece
	if c.Panel.Title != "" || note != "" {
		head = t.heading(c.Panel.Title, note, w)
	}
	body := &piece{h: pic.H + 4, before: 4, turn: t.clean(c.Panel.Title)}
	shift := t.field
	for _, o := range pic.Ops {
		if x, ok := o.(*draw.Text); ok && x.Field > 0 {
			x.Field += shift
			t.field = max(t.field, x.Field)
		}
	}
	body.ops = pic.Ops
	if head == nil {
		return []*piece{body}
	}
	return []*piece{head, body}
}

// barKey shows what each kind of bar stands for.
func (t *typesetter) barKey(b *sheets.Chart, w float64) []*piece {
	p := &piece{before: 6, glue: true}
	size := t.sz.small
	x, y := 0.0, 0.0
	for _, k := range chart.Key(b) {
		pa := t.set(w, leadTight, span{text: k.Words, face: fonts.Sans, size: size, whole: true})
		need := 26 + 6 + pa.width()
		if x > 0 && x+need > w {
			x, y = 0, y+size*1.6
		}
		p.add(chart.Sample(k.Kind, 26, size), x, y)
		p.add(pa.ops(x+32, 0, 0), 0, y)
		x += need + 18
	}
	if x == 0 {
		return nil
	}
	p.h = y + size*1.3
	return []*piece{p}
}
