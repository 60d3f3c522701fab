// Package chart works out where the lanes, bars and words of the meal chart
// stand. Paper and screen draw from the same places.
//
// A lane is a dish, a panel a day. Time runs to the right, wide where hands are
// busy and narrow where they are not (axis.go); words are placed so that none
// touches another and no line crosses one (labels.go). Fit puts as many days on
// a page as stand there (fit.go). Read Lay first.
package chart

import (
	"slices"
	"strings"

	"tamis/compiler/sheets"
	"tamis/render/draw"
	"tamis/render/fonts"
)

// Style is the size of things on a chart, in points.
type Style struct {
	Size  float64             // of letters
	Least float64             // of the smallest, in the bars; as large as the others when left empty
	Bar   float64             // height of a bar
	Steps int                 // how many rows of words below a bar; 3 when left empty
	Title bool                // the name of the day stands beside the clock
	Widen float64             // how much wider than measured letters may come out: 1 on paper
	Clean func(string) string // makes text fit to be set
	Fonts *fonts.Set          // the faces of paper; nil where the reader's own letters are used
}

// Cut is the lanes First up to but not including Last of a panel, drawn by
// themselves. What the dishes share stands below the last of them.
type Cut struct {
	Panel       *sheets.Panel
	First, Last int
	Part, Parts int   // of the panel, from 1
	Steps       []int // rows of words below the bars of each of its lanes, where not as the style has it
}

// Whole is a panel with all its lanes.
func Whole(p *sheets.Panel) Cut { return Cut{Panel: p, Last: len(p.Lanes), Part: 1, Parts: 1} }

// Picture is a cut laid out, its top left corner at 0, 0.
type Picture struct {
	Ops   []draw.Op
	H     float64
	Knots []Knot    // where the minutes are; between two, time runs evenly
	Bars  int       // of the lanes
	Mute  int       // of those that have words, how many are without
	Top   float64   // where the lanes begin
	Ends  []float64 // where each lane ends
	Curt  []int     // of each lane, how much its words leave unsaid: 1 where fewer are set, 3 where none
}

// picture is a chart being laid out.
type picture struct {
	Cut
	Picture
	st     Style
	w      float64
	left   float64 // where time begins
	right  float64 // where time ends
	limit  float64 // what words may reach
	field  int
	top    []draw.Op // drawn last, above the grid
	ground []draw.Op // drawn first
	curt   int       // of the lane at hand
	bare   bool      // only measured: no marks are made
	widths widths
}

// widths is how wide words come out; what was measured before is not measured
// again.
type widths map[words]float64

type words struct {
	face fonts.Face
	size float64
	text string
}

// Lay lays a cut out in width w.
func Lay(c Cut, w float64, st Style) Picture {
	return lay(&picture{Cut: c, st: st, w: w, widths: widths{}})
}

func lay(p *picture) Picture {
	if p.st.Widen == 0 {
		p.st.Widen = 1
	}
	if p.st.Steps == 0 {
		p.st.Steps = mostSteps
	}
	if p.st.Clean == nil {
		p.st.Clean = func(s string) string { return s }
	}
	p.left = p.names()
	p.limit = p.w
	p.right = p.w - p.st.Size*1.6
	p.Knots = axis(p.Panel, p.left, p.right)
	y := p.ticks(0)
	p.title(y)
	top := y
	y = p.flagBand(y)
	p.Top = y
	steps := p.st.Steps
	for i, l := range p.Panel.Lanes[p.First:p.Last] {
		p.rule(y, 0.75)
		p.st.Steps = steps
		if i < len(p.Cut.Steps) {
			p.st.Steps = p.Cut.Steps[i]
		}
		p.curt = 0
		y = p.lane(l, y)
		p.Curt = append(p.Curt, p.curt)
		p.Ends = append(p.Ends, y)
	}
	p.rule(y, 1.25)
	bottom := y
	if p.Last == len(p.Panel.Lanes) {
		for _, u := range p.Panel.Uses {
			y = p.use(u, y)
		}
	}
	if !p.bare {
		p.posts(top, bottom)
		p.grid(top, y)
		p.Ops = append(append(p.ground, p.Ops...), p.top...)
	}
	p.H = y
	return p.Picture
}

// tickHalf is how far the first clock time reaches to the left of its moment.
func (p *picture) tickHalf() float64 {
	from, _ := bounds(p.Panel)
	return p.measure(fonts.SansBold, p.Panel.Time(from)) / 2
}

// title is the name of the day, at the left of the clock.
func (p *picture) title(y float64) {
	if !p.st.Title {
		return
	}
	text := p.st.Clean(p.Panel.Title)
	for text != "" && p.measure(fonts.SansBold, text) > p.left-p.tickHalf()-6 {
		text = text[:max(strings.LastIndex(text, " "), 0)]
	}
	if text != "" {
		p.text(0, y-p.st.Size*0.5, fonts.SansBold, text, p.nextField())
	}
}

// rule is a line across the chart.
func (p *picture) rule(y, width float64) {
	if !p.bare {
		p.ground = append(p.ground, &draw.Line{Y1: y, X2: p.w, Y2: y, Width: width})
	}
}

func (p *picture) measure(f fonts.Face, s string) float64 { return p.measureAt(f, s, p.st.Size) }

func (p *picture) measureAt(f fonts.Face, s string, size float64) float64 {
	key := words{f, size, s}
	w, ok := p.widths[key]
	if !ok {
		if p.st.Fonts != nil {
			w = p.st.Fonts.Width(f, s, size)
		} else {
			w = f.Width(s, size)
		}
		p.widths[key] = w
	}
	return w * p.st.Widen
}

// text puts words at x with their base line at y.
func (p *picture) text(x, y float64, f fonts.Face, s string, field int) []*draw.Text {
	if p.bare {
		return nil
	}
	out := p.words(x, y, f, s, p.st.Size, field)
	for _, w := range out {
		p.top = append(p.top, w)
	}
	return out
}

// words is a line of text; on paper every letter in a face that has it.
func (p *picture) words(x, y float64, f fonts.Face, s string, size float64, field int) []*draw.Text {
	out := []*draw.Text{{X: x, Y: y, W: p.measureAt(f, s, size), Size: size, Face: f, Str: s}}
	if p.st.Fonts != nil && !f.HasAll(s) {
		out = draw.Words(*p.st.Fonts, x, y, f, size, s)
	}
	for _, w := range out {
		w.Field = field
	}
	return out
}

func (p *picture) nextField() int {
	p.field++
	return p.field
}

// markSide is the side of the box with a dish's letter.
func (p *picture) markSide() float64 { return p.st.Size * 1.25 }

// names works out how wide the column of the dishes is.
func (p *picture) names() float64 {
	w := p.st.Size * 3
	for _, l := range p.Panel.Lanes {
		for _, s := range strings.Fields(p.st.Clean(l.Name)) {
			w = max(w, p.measure(fonts.SansBold, s))
		}
		w = max(w, min(p.measure(fonts.SansBold, p.st.Clean(l.Name)), p.w*0.14))
	}
	for _, u := range p.Panel.Uses {
		w = max(w, p.measure(fonts.SansBold, p.st.Clean(u.Name))-p.markSide()-4)
	}
	w = min(w, p.w*0.17) + p.markSide() + 4 + 8
	if p.st.Title {
		w = max(w, min(p.measure(fonts.SansBold, p.st.Clean(p.Panel.Title))+p.tickHalf()+8, p.w*0.24))
	}
	return w
}

// wrap breaks s into lines of at most w, words that are longer too.
func (p *picture) wrap(f fonts.Face, s string, w float64) []string {
	var lines []string
	cur := ""
	for _, word := range strings.Fields(p.st.Clean(s)) {
		next := word
		if cur != "" {
			next = cur + " " + word
		}
		if p.measure(f, next) <= w {
			cur = next
			continue
		}
		if cur != "" {
			lines = append(lines, cur)
		}
		for p.measure(f, word) > w {
			n := 0
			for i := range word {
				if i > 0 && p.measure(f, word[:i]) > w {
					break
				}
				n = i
			}
			if n == 0 {
				break
			}
			lines = append(lines, word[:n])
			word = word[n:]
		}
		cur = word
	}
	if cur != "" {
		lines = append(lines, cur)
	}
	return lines
}

// lane draws a dish and returns where its lane ends.
func (p *picture) lane(l sheets.Lane, y float64) float64 {
	size := p.st.Size
	ny := y + 3
	at := 0.0
	if l.Letter != "" {
		p.mark(p.st.Clean(l.Letter), l.Base, ny)
	}
	at = p.markSide() + 4
	base := ny + p.markSide()/2 + size*fonts.CapHeight/2
	for _, s := range p.wrap(fonts.SansBold, l.Name, p.left-at-6) {
		p.text(at, base, fonts.SansBold, s, p.nextField())
		base += size * 1.1
	}
	rows := min(max(l.Rows, 1), 64)
	for _, b := range l.Bars {
		rows = max(rows, min(b.Row+1, 64))
	}
	ry := y + 4
	for r := range rows {
		var bars []sheets.Bar
		for _, b := range l.Bars {
			if min(max(b.Row, 0), 63) == r {
				bars = append(bars, b)
			}
		}
		if r > 0 && len(bars) == 0 {
			continue
		}
		ry = p.row(bars, ry)
	}
	return max(ry+1, base-size*0.75, ny+p.markSide()+2)
}

// mark is the letter of a dish in its box, or of a base in its ring.
func (p *picture) mark(letter string, base bool, y float64) {
	if p.bare {
		return
	}
	side := p.markSide()
	w := max(side, p.measure(fonts.SansBold, letter)+4)
	box := &draw.Rect{X: 0.4, Y: y + 0.4, W: w - 0.8, H: side - 0.8, Width: 0.8}
	if base {
		box.Round = (side - 0.8) / 2
	}
	p.top = append(p.top, box)
	p.text((w-p.measure(fonts.SansBold, letter))/2, y+side/2+p.st.Size*fonts.CapHeight/2, fonts.SansBold, letter, p.nextField())
}

// row draws the bars of one row of a lane with their words below, and returns
// where the row ends.
func (p *picture) row(bars []sheets.Bar, y float64) float64 {
	bars = slices.Clone(bars)
	slices.SortStableFunc(bars, func(a, b sheets.Bar) int { // what is left alone lies below what hands do to it
		return ink(a.Kind) - ink(b.Kind)
	})
	var labels []*label
	var taken []stretch
	for _, b := range bars {
		p.Bars++
		x, w := p.span(b)
		p.bar(b.Kind, x, y, w)
		taken = append(taken, stretch{x, x + w})
		n := b.Number
		if b.Goes { // the bar before has the number
			n = 0
		}
		l := &label{x: x, end: x + w, code: number(n), long: p.st.Clean(b.Label), short: p.st.Clean(b.Short)}
		if who := p.st.Clean(b.Who); who != "" && !p.initials(b.Kind, who, x, y, w) && !b.Goes {
			l.who = who
		}
		if l.code+l.long != "" {
			labels = append(labels, l)
		}
	}
	levels := p.stairs(labels, taken)
	p.write(labels, y)
	if levels == 0 {
		return y + p.st.Bar + 3
	}
	return y + p.st.Bar + 1.5 + float64(levels)*p.st.Size*leadOfLabels + 1.5
}

// ink orders the kinds of bar by how much of it they have.
func ink(k sheets.BarKind) int {
	switch k {
	case sheets.LeaveBar, sheets.HeatBar:
		return 1
	case sheets.WatchBar:
		return 2
	}
	return 3
}

// span is where a bar begins, and how wide it is.
func (p *picture) span(b sheets.Bar) (x, w float64) {
	x = p.x(min(b.Start, b.End))
	return x, max(p.x(max(b.Start, b.End))-x, 2)
}

// initials sets who works in a bar, if there is room; what is watched gets a
// white ground for it.
func (p *picture) initials(kind sheets.BarKind, who string, x, y, w float64) bool {
	if kind != sheets.WorkBar && kind != sheets.WatchBar {
		return false
	}
	size := p.st.Size
	if p.st.Least > 0 {
		size = p.st.Least
	}
	need := p.measureAt(fonts.SansBold, who, size)
	if need+3 > w {
		return false
	}
	if p.bare {
		return true
	}
	at, base := x+(w-need)/2, y+p.st.Bar/2+size*fonts.CapHeight/2
	if kind == sheets.WatchBar {
		p.Ops = append(p.Ops, &draw.Rect{X: at - 1.5, Y: y + 1, W: need + 3, H: p.st.Bar - 2, White: true})
	}
	for _, t := range p.words(at, base, fonts.SansBold, who, size, p.nextField()) {
		t.White = kind == sheets.WorkBar
		p.top = append(p.top, t)
	}
	return true
}

// use draws what dishes share, and returns where it ends.
func (p *picture) use(u sheets.Use, y float64) float64 {
	size := p.st.Size
	h := size * 1.12
	base := y + 2 + h/2 + size*fonts.CapHeight/2
	if name := p.wrap(fonts.SansBold, u.Name, p.left-6); len(name) > 0 {
		p.text(0, base, fonts.SansBold, name[0], p.nextField())
	}
	for _, b := range u.Bars {
		x, w := p.span(b)
		if !p.bare {
			switch b.Kind {
			case sheets.HeatBar:
				p.Ops = append(p.Ops, &draw.Rect{X: x + 0.4, Y: y + 2.4, W: max(w-0.8, 0.5), H: h - 0.8, Width: 0.75, White: true})
				p.Ops = append(p.Ops, dots(x, y+2, w, h)...)
			case sheets.FullBar, sheets.BusyBar:
				p.Ops = append(p.Ops, &draw.Rect{X: x, Y: y + 2, W: max(w-0.5, 1), H: h, Fill: true})
			default:
				p.Ops = append(p.Ops, &draw.Rect{X: x + 0.4, Y: y + 2.4, W: max(w-0.8, 0.5), H: h - 0.8, Width: 0.75, White: true})
			}
		}
		text := p.st.Clean(b.Label)
		if text == "" || b.Kind == sheets.HeatBar {
			continue
		}
		for text != "" && p.measure(fonts.Sans, text)+4 > w { // fewer of the words, whole ones
			i := strings.LastIndex(text, " ")
			text = text[:max(i, 0)]
		}
		if text == "" {
			continue
		}
		for _, t := range p.text(x+(w-p.measure(fonts.Sans, text))/2, base, fonts.Sans, text, p.nextField()) {
			t.White = b.Kind == sheets.FullBar || b.Kind == sheets.BusyBar
		}
	}
	return y + h + 2
}
