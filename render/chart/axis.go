package chart

import (
	"math"
	"slices"

	"tamis/compiler/sheets"
	"tamis/render/draw"
	"tamis/render/fonts"
)

// The axis stretches with the work: an hour in which nobody lifts a hand is
// narrow, the last half hour before a serving wide. Between two moments at
// which something begins or ends, time runs evenly.

// Knot is a minute of the panel and where it stands.
type Knot struct {
	Minute int
	X      float64
}

// How wide a stretch of time is, in minutes of work: quiet minutes count less,
// and long quiet ones hardly; what begins needs room for its words.
const (
	quiet     = 0.28 // of a minute without hands
	mostQuiet = 45   // after so many minutes, only their logarithm counts
	begins    = 5.0  // for each bar that begins
)

// axis is where the minutes of a panel stand between left and right.
func axis(p *sheets.Panel, left, right float64) []Knot {
	from, to := bounds(p)
	at := []int{from, to}
	starts := map[int]int{}
	see := func(m int) {
		if m > from && m < to {
			at = append(at, m)
		}
	}
	for _, l := range p.Lanes {
		for _, b := range l.Bars {
			see(b.Start)
			see(b.End)
			starts[max(min(b.Start, b.End), from)]++
		}
	}
	for _, f := range p.Flags {
		see(f.At)
	}
	slices.Sort(at)
	at = slices.Compact(at)
	weight := make([]float64, len(at)-1)
	all := 0.0
	for i := range weight {
		a, b := at[i], at[i+1]
		m := float64(b - a)
		if !busy(p, a, b) {
			if m > mostQuiet {
				m = mostQuiet + 10*math.Log2(m/mostQuiet)
			}
			m *= quiet
		}
		weight[i] = m + begins*float64(min(starts[a], 4))
		all += weight[i]
	}
	out := []Knot{{from, left}}
	x := left
	for i, w := range weight {
		x += w / all * (right - left)
		out = append(out, Knot{at[i+1], x})
	}
	out[len(out)-1].X = right
	return out
}

// busy tells whether hands are at work from a to b.
func busy(p *sheets.Panel, a, b int) bool {
	return slices.ContainsFunc(p.Lanes, func(l sheets.Lane) bool {
		return slices.ContainsFunc(l.Bars, func(x sheets.Bar) bool {
			return (x.Kind == sheets.WorkBar || x.Kind == sheets.WatchBar) && x.Start < b && x.End > a
		})
	})
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

// x is where a minute stands; what is before or after the panel, at its edge.
func (p *picture) x(minute int) float64 {
	k, known := slices.BinarySearchFunc(p.Knots, minute, func(k Knot, m int) int { return k.Minute - m })
	switch {
	case known:
		return p.Knots[k].X
	case k == 0:
		return p.Knots[0].X
	case k == len(p.Knots):
		return p.Knots[k-1].X
	}
	a, b := p.Knots[k-1], p.Knots[k]
	return a.X + (b.X-a.X)*float64(minute-a.Minute)/float64(b.Minute-a.Minute)
}

// from and to are the edges of the panel.
func (p *picture) from() int { return p.Knots[0].Minute }
func (p *picture) to() int   { return p.Knots[len(p.Knots)-1].Minute }

// ticks writes the clock along the top: the hours first, then halves and
// quarters where there is room between them.
func (p *picture) ticks(y float64) float64 {
	size := p.st.Size
	h := size * 1.45
	if p.bare {
		return y + h
	}
	type tick struct{ from, to float64 }
	var set []tick
	for _, step := range []int{1440, 360, 180, 60, 30, 15} {
		for m := floor(p.from()+step-1, step); m <= p.to(); m += step {
			s := p.Panel.Time(m)
			face := fonts.Sans
			if m%60 == 0 {
				face = fonts.SansBold
			}
			w := p.measure(face, s)
			x := min(p.x(m)-w/2, p.limit-w)
			gap := size * 0.45
			if slices.ContainsFunc(set, func(t tick) bool { return x < t.to+gap && t.from < x+w+gap }) {
				continue
			}
			set = append(set, tick{x, x + w})
			p.text(x, y+size*0.95, face, s, 0)
		}
	}
	return y + h
}

// grid draws the hours and, dotted, the quarters that do not stand too close.
func (p *picture) grid(top, bottom float64) {
	var lines []draw.Op
	var set []float64
	for _, step := range []int{60, 30, 15} {
		for m := floor(p.from()+step-1, step); m <= p.to(); m += step {
			x := p.x(m)
			if slices.ContainsFunc(set, func(o float64) bool { return math.Abs(o-x) < 7 }) {
				continue
			}
			set = append(set, x)
			l := &draw.Line{X1: x, X2: x, Y1: top, Y2: bottom, Width: 0.5}
			if m%60 != 0 {
				l.Dash = []float64{0.5, 3}
			}
			lines = append(lines, l)
		}
	}
	p.ground = append(lines, p.ground...)
}

// posts draws the servings: lines that all lanes meet.
func (p *picture) posts(top, bottom float64) {
	for _, f := range p.Panel.Flags {
		if f.At >= p.from() && f.At <= p.to() {
			p.ground = append([]draw.Op{&draw.Line{X1: p.x(f.At), X2: p.x(f.At), Y1: top, Y2: bottom, Width: 2}}, p.ground...)
		}
	}
}
