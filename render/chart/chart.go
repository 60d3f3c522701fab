// Package chart works out where the lanes, bars and words of a timeline stand.
// Paper and screen draw from the same places.
package chart

import (
	"fmt"
	"strings"

	"tamis/compiler/sheets"
	"tamis/render/draw"
	"tamis/render/fonts"
)

// Style is the size of things on a chart, in points.
type Style struct {
	Size  float64             // of letters
	Bar   float64             // height of a bar
	Steps int                 // how many rows of words below a bar; 4 when left empty
	Widen float64             // how much wider than measured letters may come out: 1 on paper
	Clean func(string) string // makes text fit to be set
	Fonts *fonts.Set          // the faces of paper; nil where the reader's own letters are used
}

// Cut is a stretch of a panel that is drawn by itself: minutes From to To,
// lanes First up to but not including Last.
type Cut struct {
	Panel       *sheets.Panel
	From, To    int
	First, Last int
	Part, Parts int // of the panel, from 1
}

// Again tells whether c shows more lanes of the stretch that the cut before it
// began.
func (c Cut) Again() bool { return c.First > 0 }

// Picture is a cut laid out, its top left corner at 0, 0.
type Picture struct {
	Ops  []draw.Op
	H    float64
	Left float64   // where From is
	End  float64   // where To is
	Bars int       // bars in view
	Bare int       // of those, how many have no letter
	Curt int       // of those, how many have only their letter and number
	Top  float64   // where the lanes begin
	Ends []float64 // where each lane ends
}

// Cuts parts a panel into stretches that are dense but readable at width w: as
// few as give every bar its letter, and most bars their words.
func Cuts(p *sheets.Panel, w float64, st Style) []Cut {
	cuts, _, _ := Fit(p, w, nil, []Style{st})
	return cuts
}

// Fit parts a panel as Cuts does and finds the style in which the parts serve
// best: each no taller than room says of its page, where room is nil for any
// height. Where all lanes of a stretch do not stand on a page, they go over
// more. Styles come with the best liked first. The cost counts pages: the lower
// the better, and tells that some part is too tall when it is above TooTall.
func Fit(p *sheets.Panel, w float64, room func(page int) float64, styles []Style) (best []Cut, st Style, cost float64) {
	return NewFitting(p, w, styles).Fit(room)
}

// Fitting is a panel that is fitted into one room or another. What was measured
// for one is not measured again for the next.
type Fitting struct {
	panel  *sheets.Panel
	w      float64
	styles []Style
	tried  map[trial]Picture
	widths widths
}

type trial struct {
	Cut
	style int
}

// NewFitting is a panel to be fitted in width w.
func NewFitting(p *sheets.Panel, w float64, styles []Style) *Fitting {
	return &Fitting{panel: p, w: w, styles: styles, tried: map[trial]Picture{}, widths: widths{}}
}

// measure is how a cut comes out in a style, without its marks.
func (f *Fitting) measure(c Cut, style int) Picture {
	t := trial{c, style}
	pic, ok := f.tried[t]
	if !ok {
		pic = lay(&picture{Cut: c, st: f.styles[style], w: f.w, bare: true, widths: f.widths})
		f.tried[t] = pic
	}
	return pic
}

// Fit finds the best style and cuts, as the function of that name does.
func (f *Fitting) Fit(room func(page int) float64) (best []Cut, st Style, cost float64) {
	from, to := bounds(f.panel)
	for n := 1; n <= 6 && (best == nil || float64(n) < cost); n++ {
		cuts := divide(f.panel, from, to, n)
		for k, s := range f.styles {
			c := 0.06 * float64(k)
			var bars, bare, curt int
			var all []Cut
			for i, cut := range cuts {
				if best != nil && c+float64(len(all)+len(cuts)-i)+2*float64(bare) >= cost-1e-9 {
					c = cost // it cannot come out better: the rest need not be measured
					break
				}
				pic := f.measure(cut, k)
				bars, bare, curt = bars+pic.Bars, bare+pic.Bare, curt+pic.Curt
				if room == nil {
					all = append(all, cut)
					continue
				}
				parts, over := byLanes(cut, pic, func(i int) float64 { return room(len(all) + i) })
				all = append(all, parts...)
				// lanes are read together: a stretch more is liked better than
				// one in two halves
				c += 0.6*float64(len(parts)-1) + TooTall*float64(over)
			}
			// a bar without its letter is worse than a page more; a few without
			// their words are not, for the run sheet has them
			c += float64(len(all)) + 2*float64(bare) + 4*max(0, float64(curt)/float64(max(bars, 1))-0.4)
			if best == nil || c < cost-1e-9 {
				best, st, cost = all, s, c
			}
		}
		if (to-from)/n <= 60 {
			break
		}
	}
	return best, st, cost
}

// TooTall is the cost of a part that does not stand in its room.
const TooTall = 100

// byLanes parts a stretch that is taller than its page: as many lanes on each
// as stand there. over counts the lanes that no page is tall enough for.
func byLanes(c Cut, pic Picture, room func(part int) float64) (parts []Cut, over int) {
	start := pic.Top
	part := c
	for i := range pic.Ends {
		end := pic.Ends[i]
		if i > part.First-c.First && pic.Top+end-start > room(len(parts)) {
			part.Last = c.First + i
			parts = append(parts, part)
			part.First = part.Last
			start = pic.Ends[i-1]
		}
		if i == part.First-c.First && pic.Top+end-start > room(len(parts)) {
			over++
		}
	}
	part.Last = c.Last
	return append(parts, part), over
}

// divide parts the minutes from..to into n stretches that meet at half hours,
// and leaves out those in which nothing happens.
func divide(p *sheets.Panel, from, to, n int) []Cut {
	step := (to - from + n - 1) / n
	step = max((step+29)/30*30, 30)
	var cuts []Cut
	for a := from; a < to; a += step {
		b := min(a+step, to)
		if n > 1 && !busy(p, a, b) {
			continue
		}
		cuts = append(cuts, Cut{Panel: p, From: a, To: b, Last: len(p.Lanes)})
	}
	for i := range cuts {
		cuts[i].Part, cuts[i].Parts = i+1, len(cuts)
	}
	return cuts
}

func busy(p *sheets.Panel, a, b int) bool {
	for _, l := range p.Lanes {
		for _, x := range l.Bars {
			if x.Start < b && x.End > a || x.Start >= a && x.Start < b {
				return true
			}
		}
	}
	for _, f := range p.Flags {
		if f.At >= a && f.At <= b {
			return true
		}
	}
	return false
}

// bounds is the stretch of time that a panel covers, at whole quarters of an
// hour, never empty and never longer than a fortnight.
func bounds(p *sheets.Panel) (from, to int) {
	from, to = p.Start, p.End
	if to <= from {
		first := true
		see := func(a, b int) {
			if first {
				from, to, first = a, b, false
			}
			from, to = min(from, a), max(to, b)
		}
		for _, l := range p.Lanes {
			for _, b := range l.Bars {
				see(b.Start, b.End)
			}
		}
		for _, f := range p.Flags {
			see(f.At, f.At)
		}
	}
	from = floor(from, 15)
	to = -floor(-to, 15)
	if to <= from {
		to = from + 60
	}
	return from, min(to, from+14*24*60)
}

func floor(n, step int) int {
	r := n % step
	if r < 0 {
		r += step
	}
	return n - r
}

// Clock writes minutes after midnight as 09:05.
func Clock(m int) string {
	m = ((m % 1440) + 1440) % 1440
	return fmt.Sprintf("%02d:%02d", m/60, m%60)
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
	scale  float64 // points a minute
	field  int
	top    []draw.Op // drawn last, above the grid
	ground []draw.Op // drawn first
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
		p.st.Steps = 4
	}
	if p.st.Clean == nil {
		p.st.Clean = func(s string) string { return s }
	}
	c, w, st := p.Cut, p.w, p.st
	p.left = p.names()
	p.limit = w
	p.right = w - st.Size*1.6
	p.scale = (p.right - p.left) / float64(max(c.To-c.From, 1))
	y := p.ticks(0)
	top := y
	y = p.flagBand(y)
	p.Top = y
	for _, l := range c.Panel.Lanes[c.First:c.Last] {
		if !p.bare {
			p.ground = append(p.ground, &draw.Line{Y1: y, X2: w, Y2: y, Width: 0.75})
		}
		y = p.lane(l, y)
		p.Ends = append(p.Ends, y)
	}
	if !p.bare {
		p.ground = append(p.ground, &draw.Line{Y1: y, X2: w, Y2: y, Width: 1.25})
		p.grid(top, y)
		p.Ops = append(append(p.ground, p.Ops...), p.top...)
	}
	p.H, p.Left, p.End = y, p.left, p.right
	return p.Picture
}

func (p *picture) x(minute int) float64 { return p.left + float64(minute-p.From)*p.scale }

func (p *picture) measure(f fonts.Face, s string) float64 {
	key := words{f, p.st.Size, s}
	w, ok := p.widths[key]
	if !ok {
		if p.st.Fonts != nil {
			w = p.st.Fonts.Width(f, s, p.st.Size)
		} else {
			w = f.Width(s, p.st.Size)
		}
		p.widths[key] = w
	}
	return w * p.st.Widen
}

// text puts words at x with their base line at y.
func (p *picture) text(x, y float64, f fonts.Face, s string, field int) {
	if p.bare {
		return
	}
	for _, w := range p.words(x, y, f, s, field) {
		p.top = append(p.top, w)
	}
}

// words is a line of text; on paper every letter in a face that has it.
func (p *picture) words(x, y float64, f fonts.Face, s string, field int) []*draw.Text {
	out := []*draw.Text{{X: x, Y: y, W: p.measure(f, s), Size: p.st.Size, Face: f, Str: s}}
	if p.st.Fonts != nil && !f.HasAll(s) {
		out = draw.Words(*p.st.Fonts, x, y, f, p.st.Size, s)
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

// names works out how wide the column of lane names is.
func (p *picture) names() float64 {
	w := p.st.Size * 3
	for _, l := range p.Panel.Lanes {
		for _, s := range strings.Fields(p.st.Clean(l.Name)) {
			w = max(w, p.measure(fonts.SansBold, s))
		}
		for _, s := range strings.Fields(p.st.Clean(l.Note)) {
			w = max(w, p.measure(fonts.Sans, s))
		}
		w = max(w, min(max(p.measure(fonts.SansBold, p.st.Clean(l.Name)), p.measure(fonts.Sans, p.st.Clean(l.Note))), p.w*0.11))
	}
	return min(w, p.w*0.16) + 8
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

// ticks writes the clock along the top.
func (p *picture) ticks(y float64) float64 {
	step := p.tickStep(p.measure(fonts.SansBold, p.Panel.Time(p.From)) * 1.35)
	h := p.st.Size * 1.5
	if p.bare {
		return y + h
	}
	for m := floor(p.From+step-1, step); m <= p.To; m += step {
		s := p.Panel.Time(m)
		w := p.measure(fonts.SansBold, s)
		x := min(p.x(m)-w/2, p.limit-w)
		p.text(x, y+p.st.Size*0.95, fonts.SansBold, s, 0)
	}
	return y + h
}

// tickStep is the least round number of minutes that is at least w wide.
func (p *picture) tickStep(w float64) int {
	for _, s := range []int{15, 30, 60, 120, 180, 360, 720, 1440} {
		if float64(s)*p.scale >= w {
			return s
		}
	}
	s := 1440
	for float64(s)*p.scale < w {
		s *= 2
	}
	return s
}

// grid draws the hours and, dotted, what lies between; and the servings.
func (p *picture) grid(top, bottom float64) {
	hour := p.tickStep(18)
	hour = max(hour, 60)
	fine := p.tickStep(15)
	var lines []draw.Op
	for m := floor(p.From+fine-1, fine); m <= p.To; m += fine {
		l := &draw.Line{X1: p.x(m), X2: p.x(m), Y1: top, Y2: bottom, Width: 0.5}
		if m%hour != 0 {
			l.Dash = []float64{0.5, 3}
		}
		lines = append(lines, l)
	}
	for _, f := range p.Panel.Flags {
		if f.At >= p.From && f.At <= p.To {
			lines = append(lines, &draw.Line{X1: p.x(f.At), X2: p.x(f.At), Y1: top, Y2: bottom, Width: 1.75})
		}
	}
	p.ground = append(lines, p.ground...)
}
