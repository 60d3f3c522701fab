package chart

import (
	"cmp"
	"slices"
	"strconv"

	"tamis/render/draw"
	"tamis/render/fonts"
)

// Words stand beside the bar they belong to, at its end, where no other bar is in
// their way; else below it, in the first row if they can, else further down at the
// end of a line. Placed from right to left, each goes in the highest row in which
// it touches no other words, its line crosses none, and it lies across no line of
// another. Where the stair is too deep it says less: fewer words, then its number
// only, then nothing: the wall sheet has them all.

// leadOfLabels is the height of a row of words, in sizes of their letters.
const leadOfLabels = 1.12

// label is the words of a bar and where they go.
type label struct {
	x, end      float64 // where its bar begins and ends
	who, code   string  // in bold, before the words
	long, short string
	words       string // those that are set
	level       int    // rows below the bar, or beside or nowhere
	left, width float64
}

// Places of words that stand in no row below their bar.
const (
	nowhere = -1 // there is no room
	beside  = -2 // at the end of the bar
)

func number(n int) string {
	if n <= 0 {
		return ""
	}
	return strconv.Itoa(n)
}

// head is what stands in bold before the words.
func (l *label) head() string {
	switch {
	case l.who == "":
		return l.code
	case l.code == "":
		return l.who
	}
	return l.who + " " + l.code
}

// stairs gives every label its place among the bars of its row, and returns how
// many rows below them are used.
func (p *picture) stairs(labels []*label, bars []stretch) (levels int) {
	slices.SortStableFunc(labels, func(a, b *label) int { return cmp.Compare(a.x, b.x) })
	var placed []*label
	for i, l := range slices.Backward(labels) {
		l.level = nowhere
		from := p.left
		if i > 0 { // the number of the bar before keeps its place
			before := labels[i-1]
			from = before.x + p.measure(fonts.SansBold, before.code) + 5
		}
		for _, try := range []struct{ who, words string }{{l.who, l.long}, {l.who, l.short}, {l.who, ""}, {"", ""}} {
			l.who, l.words = try.who, try.words
			if p.besides(l, placed, bars) || p.fit(l, placed, from) {
				break
			}
		}
		switch {
		case l.level == nowhere, l.words == "" && l.long != "":
			p.Mute++
			p.curt += 3
		case l.words != l.long:
			p.curt++
		}
		if l.level >= 0 {
			placed = append(placed, l)
			levels = max(levels, l.level+1)
		}
	}
	return levels
}

// stretch is how far a bar reaches.
type stretch struct{ from, to float64 }

// besides puts a label at the end of its bar, if nothing stands there: no bar
// (the words of another stand behind that other), and not the edge of the chart.
func (p *picture) besides(l *label, placed []*label, bars []stretch) bool {
	if !p.wide(l) || l.end+1.5+l.width > p.limit {
		return false
	}
	for _, o := range placed { // of a bar that ends at the same moment
		if o.level == beside && o.left < l.end+1.5+l.width+3 && l.end+1.5 < o.left+o.width+3 {
			return false
		}
	}
	for _, b := range bars {
		if b.to > l.end+0.5 && b.from < l.end+1.5+l.width+3 {
			return false
		}
	}
	l.level, l.left = beside, l.end+1.5
	return true
}

// fit finds the highest row for a label among those to its right. One that would
// leave the chart is moved to the left, not beyond from.
func (p *picture) fit(l *label, right []*label, from float64) bool {
	if !p.wide(l) {
		return false
	}
	l.left = l.x - 0.5
	if l.left+l.width > p.limit {
		if l.left = p.limit - l.width; l.left < min(from, l.x-0.5) {
			return false
		}
	}
	const gap = 3
	for level := range p.st.Steps {
		free := true
		for _, r := range right {
			switch touches := l.left < r.left+r.width+gap && r.left < l.left+l.width+gap; {
			case r.level == level && touches,
				r.level > level && l.left < r.x+1.5 && r.x < l.left+l.width+1, // it would lie across the line of another
				r.level < level && r.left < l.x+1.5 && l.x < r.left+r.width+1: // its line would cross words
				free = false
			}
		}
		if free {
			l.level = level
			return true
		}
	}
	return false
}

// wide measures a label; one that says nothing has no place.
func (p *picture) wide(l *label) bool {
	head := l.head()
	if head == "" && l.words == "" {
		return false
	}
	l.width = 3
	if head != "" {
		l.width += p.measure(fonts.SansBold, head)
	}
	if l.words != "" {
		l.width += p.measure(fonts.Sans, l.words)
		if head != "" {
			l.width += p.st.Size * 0.28
		}
	}
	return true
}

// write sets the labels of bars whose top is at y.
func (p *picture) write(labels []*label, y float64) {
	if p.bare {
		return
	}
	size := p.st.Size
	first := y + p.st.Bar + 1
	for _, l := range labels {
		if l.level == nowhere {
			continue
		}
		ly := y + (p.st.Bar-size*leadOfLabels)/2
		if l.level >= 0 {
			ly = first + float64(l.level)*size*leadOfLabels
		}
		if l.level > 0 {
			end := ly + size*0.8
			if l.left < l.x-1 { // it ends above words that it would run through
				end = ly + 1
			}
			p.Ops = append(p.Ops, &draw.Line{X1: l.x + 0.5, X2: l.x + 0.5, Y1: y + p.st.Bar, Y2: end, Width: 0.5})
		}
		at := l.left
		if l.level > 0 && l.left > l.x-1 {
			at += 2.5 // beside its line
		}
		// the grid does not run through words
		p.ground = append(p.ground, &draw.Rect{X: at - 0.5, Y: ly + 0.5, W: l.width - 1.5, H: size * 1.02, White: true})
		field := p.nextField()
		if head := l.head(); head != "" {
			p.text(at, ly+size*0.88, fonts.SansBold, head, field)
			at += p.measure(fonts.SansBold, head) + size*0.28
		}
		if l.words != "" {
			p.text(at, ly+size*0.88, fonts.Sans, l.words, field)
		}
	}
}
