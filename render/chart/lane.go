package chart

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"tamis/compiler/sheets"
	"tamis/render/draw"
	"tamis/render/fonts"
)

// lane draws one lane and returns where it ends.
func (p *picture) lane(l sheets.Lane, y float64) float64 {
	size := p.st.Size
	ny := y + size*0.35
	for _, s := range p.wrap(fonts.SansBold, l.Name, p.left-8) {
		p.text(0, ny+size*fonts.Ascent, fonts.SansBold, s, p.nextField())
		ny += size * 1.15
	}
	note := l.Note
	if !p.shows(l.Bars) && p.Part > 1 {
		note = "" // said on an earlier part
	}
	for _, s := range p.wrap(fonts.Sans, note, p.left-8) {
		p.text(0, ny+size*fonts.Ascent, fonts.Sans, s, p.nextField())
		ny += size * 1.15
	}
	rows := max(l.Rows, 1)
	for _, b := range l.Bars {
		rows = max(rows, min(b.Row+1, 64))
	}
	ry := y + 5
	for r := range rows {
		var bars []sheets.Bar
		for _, b := range l.Bars {
			if b.Row == r || b.Row < 0 && r == 0 || b.Row >= 64 && r == 63 {
				bars = append(bars, b)
			}
		}
		if r > 0 && !p.shows(bars) {
			continue // nothing to see: the room is better used
		}
		ry = p.row(bars, ry)
	}
	return max(ry+2, ny+size*0.3)
}

// shows tells whether any of bars is in view.
func (p *picture) shows(bars []sheets.Bar) bool {
	return slices.ContainsFunc(bars, p.inView)
}

func (p *picture) inView(b sheets.Bar) bool {
	from, to := min(b.Start, b.End), max(b.Start, b.End)
	return from < p.To && to >= p.From && (to > p.From || from == to)
}

// label is the words of a bar and where they go.
type label struct {
	x           float64 // left edge of bar and words
	code, words string
	cw, ww      float64
	level       int // rows below the bar; -1 when there is no room
	left        float64
	width       float64
}

// row draws the bars of one row of a lane with their words below, and returns
// where the row ends.
func (p *picture) row(bars []sheets.Bar, y float64) float64 {
	var labels []*label
	for _, b := range bars {
		from, to := min(b.Start, b.End), max(b.Start, b.End)
		if !p.inView(b) {
			continue
		}
		p.Bars++
		x := p.x(max(from, p.From))
		w := max(p.x(min(to, p.To))-x, 2)
		p.bar(b.Kind, x, y, w)
		l := &label{x: x, words: p.st.Clean(b.Label)}
		if b.Letter != "" {
			l.code = p.st.Clean(b.Letter)
			if b.Number > 0 {
				l.code += fmt.Sprint(b.Number)
			}
		}
		l.cw, l.ww = p.measure(fonts.SansBold, l.code), p.measure(fonts.Sans, l.words)
		if l.code != "" || l.words != "" {
			labels = append(labels, l)
		}
	}
	levels := p.stairs(labels)
	size := p.st.Size
	first := y + p.st.Bar + 1.5
	for _, l := range labels {
		if l.level < 0 {
			p.Bare++
			continue
		}
		ly := first + float64(l.level)*size*1.2
		if l.level > 0 && !p.bare {
			p.Ops = append(p.Ops, &draw.Line{X1: l.x + 0.5, X2: l.x + 0.5, Y1: y + p.st.Bar, Y2: ly + size*0.9, Width: 0.5})
		}
		if l.words == "" && l.ww > 0 {
			p.Curt++
		}
		if p.bare {
			continue
		}
		p.top = append(p.top, &draw.Rect{X: l.left, Y: ly, W: l.width, H: size * 1.1, White: true})
		at := l.left + 2
		field := p.nextField()
		if l.code != "" {
			p.text(at, ly+size*0.9, fonts.SansBold, l.code, field)
			at += l.cw + size*0.3
		}
		if l.words != "" {
			p.text(at, ly+size*0.9, fonts.Sans, l.words, field)
		}
	}
	return first + float64(levels)*size*1.2 + 2
}

// stairs gives every label a level below its bar, working from right to left:
// a label that would run into the next goes one step lower, so that its leader
// never crosses words. Labels for which the stair is too deep lose their
// words; those that still find no room are left out. It returns how many
// levels are used.
func (p *picture) stairs(labels []*label) int {
	slices.SortStableFunc(labels, func(a, b *label) int {
		switch {
		case a.x < b.x:
			return -1
		case a.x > b.x:
			return 1
		}
		return 0
	})
	levels := 0
	for i := len(labels) - 1; i >= 0; i-- {
		l := labels[i]
		full := 4 + l.cw
		if l.ww > 0 {
			full += l.ww
			if l.cw > 0 {
				full += p.st.Size * 0.3
			}
		}
		if p.fit(l, labels[i+1:], full) {
			levels = max(levels, l.level+1)
			continue
		}
		if l.ww > 0 {
			// fewer words before none
			if short := shorten(l.words, 14); short != l.words {
				w := p.measure(fonts.Sans, short)
				if p.fit(l, labels[i+1:], full-l.ww+w) {
					l.words, l.ww = short, w
					levels = max(levels, l.level+1)
					continue
				}
			}
		}
		if l.ww > 0 && l.cw > 0 && p.fit(l, labels[i+1:], 4+l.cw) {
			l.words = ""
			levels = max(levels, l.level+1)
			continue
		}
		l.level = -1
	}
	return levels
}

// shorten cuts s after the last word that ends within n characters, and says
// so with dots. A first word that is longer stays whole.
func shorten(s string, n int) string {
	if utf8.RuneCountInString(s) <= n {
		return s
	}
	out := ""
	for _, w := range strings.Fields(s) {
		next := strings.TrimSpace(out + " " + w)
		if out != "" && utf8.RuneCountInString(next) > n {
			break
		}
		out = next
	}
	return strings.TrimRight(out, ",.;:… ") + "…"
}

// fit tries a label of width w against those to its right.
func (p *picture) fit(l *label, right []*label, w float64) bool {
	left := l.x - 1
	if left+w > p.limit {
		if w > p.st.Size*8 || p.limit-w < p.left {
			return false
		}
		left = p.limit - w
	}
	level := 0
	for _, r := range right {
		if r.level >= level && r.left < left+w+3 {
			level = r.level + 1
		}
	}
	if level >= p.st.Steps {
		return false
	}
	l.level, l.left, l.width = level, left, w
	return true
}

// bar draws one bar by kind: the more the hands do, the more ink.
func (p *picture) bar(kind sheets.BarKind, x, y, w float64) {
	if p.bare {
		return
	}
	h := p.st.Bar
	frame := func(width float64) *draw.Rect {
		return &draw.Rect{X: x + width/2, Y: y + width/2, W: max(w-width, 0.5), H: h - width, Width: width, White: true}
	}
	switch kind {
	case sheets.WorkBar:
		p.Ops = append(p.Ops, &draw.Rect{X: x, Y: y, W: max(w-0.75, 1.25), H: h, Fill: true})
	case sheets.WatchBar:
		p.Ops = append(p.Ops, frame(1))
		p.Ops = append(p.Ops, hatch(x, y, w, h, 4.2, 1.3)...)
	case sheets.HeatBar:
		p.Ops = append(p.Ops, frame(0.75))
		p.Ops = append(p.Ops, dots(x, y, w, h)...)
	case sheets.WaitBar:
		m := y + h/2
		p.Ops = append(p.Ops, &draw.Line{X1: x, X2: x + w, Y1: m, Y2: m, Width: 1},
			&draw.Line{X1: x + 0.5, X2: x + 0.5, Y1: m - h*0.22, Y2: m + h*0.22, Width: 1},
			&draw.Line{X1: x + w - 0.5, X2: x + w - 0.5, Y1: m - h*0.22, Y2: m + h*0.22, Width: 1})
	default:
		p.Ops = append(p.Ops, frame(1))
	}
}

// hatch is slanting lines cut off at the edges of a box.
func hatch(x, y, w, h, pitch, width float64) []draw.Op {
	var out []draw.Op
	for c := pitch; c < w+h; c += pitch {
		// the line runs from the left or bottom edge up to the right
		x1, y1, x2, y2 := c-h, h, c, 0.0
		if x1 < 0 {
			x1, y1 = 0, c
		}
		if x2 > w {
			x2, y2 = w, c-w
		}
		out = append(out, &draw.Line{X1: x + x1, Y1: y + y1, X2: x + x2, Y2: y + y2, Width: width})
		if len(out) > 400 {
			break
		}
	}
	return out
}

// dots fills a box with round dots, in rows as dashed lines of zero length
// would be.
func dots(x, y, w, h float64) []draw.Op {
	var out []draw.Op
	rows := max(1, int(h/4.2))
	for r := range rows {
		cy := y + h*(float64(r)+0.5)/float64(rows)
		from := x + 2.2
		if r%2 == 1 {
			from += 2
		}
		if from < x+w-1 {
			out = append(out, &draw.Line{X1: from, X2: x + w - 1, Y1: cy, Y2: cy, Width: 1.4, Dash: []float64{1.4, 2.6}})
		}
	}
	return out
}

// KeyItem is one kind of bar with what it stands for.
type KeyItem struct {
	Kind  sheets.BarKind
	Words string
}

// Key lists the kinds of bar that c shows, in order of attention.
func Key(c *sheets.Chart) []KeyItem {
	seen := map[sheets.BarKind]bool{}
	for _, p := range c.Panels {
		for _, l := range p.Lanes {
			for _, b := range l.Bars {
				seen[b.Kind] = true
			}
		}
	}
	var out []KeyItem
	for _, k := range []KeyItem{
		{sheets.WorkBar, "hands-on"},
		{sheets.WatchBar, "watch"},
		{sheets.LeaveBar, "leave"},
		{sheets.HeatBar, "heating up"},
		{sheets.WaitBar, "hold"},
	} {
		if seen[k.Kind] {
			out = append(out, k)
		}
	}
	return out
}

// Sample draws a bar of the given kind, w wide and h high.
func Sample(kind sheets.BarKind, w, h float64) []draw.Op {
	p := &picture{st: Style{Bar: h}}
	p.bar(kind, 0, 0, w)
	return p.Ops
}
