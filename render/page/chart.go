package page

import (
	"fmt"
	"strings"

	"tamis/compiler/sheets"
	"tamis/render/chart"
	"tamis/render/draw"
	"tamis/render/fonts"
)

// chart sets a timeline: each panel, cut where it would be too dense, with a
// heading; and once the key of the bars.
func (t *typesetter) chart(f *flow, s *sheets.Sheet, b *sheets.Chart) {
	w := f.width()
	t.told = t.clean(b.Text)
	f.add(t.barKey(b, w)...)
	first, later := f.room(), t.roomLater(f, s)
	for _, p := range f.waiting {
		first -= p.before + p.h
	}
	for i := range b.Panels {
		if i > 0 {
			first = 0
		}
		t.panel(f, &b.Panels[i], w, first, later)
	}
}

// panel sets one day, in the style that tells most on the fewest pages. first
// is what is left of the page that the chart begins on, later what a page has.
func (t *typesetter) panel(f *flow, p *sheets.Panel, w, first, later float64) {
	head := t.heading(p.Title, "12:00 to 12:00, part 1 of 1", w)
	room := later - head.h - 8
	fitting := t.fitting(p, w)
	cuts, st, cost := fitting.Fit(func(int) float64 { return room })
	if first -= head.h + head.before + 8; first > t.sz.chart*6 {
		// beginning on the first page saves one, and leaves none with a title alone
		c, s, k := fitting.Fit(func(i int) float64 {
			if i == 0 {
				return first
			}
			return room
		})
		if k < cost+2.1 {
			cuts, st, cost = c, s, k
		}
	}
	for _, c := range cuts {
		f.add(t.panelPieces(c, chart.Lay(c, w, st), w)...)
	}
}

// fitting is a panel to be fitted in width w; what a sheet laid out before has
// measured of it is known.
func (t *typesetter) fitting(p *sheets.Panel, w float64) *chart.Fitting {
	key := fitted{p, w}
	if f := t.charts[key]; f != nil {
		return f
	}
	var styles []chart.Style
	for _, s := range []struct {
		bar   float64
		steps int
	}{{18, 6}, {14, 6}, {14, 4}, {11, 4}, {11, 3}, {9, 2}} {
		styles = append(styles, chart.Style{Size: t.sz.chart, Bar: s.bar, Steps: s.steps, Clean: t.clean, Fonts: &t.opt.Fonts})
	}
	f := chart.NewFitting(p, w, styles)
	t.charts[key] = f
	return f
}

type fitted struct {
	panel *sheets.Panel
	w     float64
}

// panelPieces is one picture under its heading.
func (t *typesetter) panelPieces(c chart.Cut, pic chart.Picture, w float64) []*piece {
	note := ""
	if c.Parts > 1 {
		note = fmt.Sprintf("%s to %s, part %d of %d", c.Panel.Time(c.From), c.Panel.Time(c.To), c.Part, c.Parts)
	}
	if c.Again() {
		note = strings.TrimPrefix(note+", continued", ", ")
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
	alt := "Timeline"
	for _, s := range []string{t.clean(c.Panel.Title), note} {
		if s != "" {
			alt += ", " + s
		}
	}
	if t.told != "" {
		alt += ". " + t.told
		t.told = "" // once is enough
	}
	draw.Mark(body.ops, &draw.Tag{Role: "Figure", Alt: alt})
	if head == nil {
		return []*piece{body}
	}
	return []*piece{head, body}
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
