package page

import (
	"fmt"
	"strings"

	"tamis/compiler/sheets"
	"tamis/render/amount"
	"tamis/render/draw"
	"tamis/render/fonts"
)

// method is the grid of one method: where numbers, amounts, names and
// sentences stand.
type method struct {
	t         *typesetter
	full      float64
	side      float64 // width of the column of numbers and clocks
	clock     float64 // left edge of the clocks, beside the numbers
	takes     float64 // left edge of the things taken; < 0 when no step takes any
	axis      float64 // where figures end
	name      float64 // left edge of the names
	nameWidth float64
	text      float64 // left edge of the sentences
	stacked   bool    // sentences stand below the things taken, for want of width
	textWidth float64
}

// steps sets a method: every step is one piece, so that none is split.
func (t *typesetter) steps(b *sheets.Steps, w float64) []*piece {
	m := t.method(b, w)
	list := &draw.Tag{Role: "L"}
	var out []*piece
	for i, item := range b.Items {
		switch s := item.(type) {
		case *sheets.Step:
			ruled := i > 0
			if i > 0 {
				_, isBreak := b.Items[i-1].(*sheets.Break)
				ruled = !isBreak
			}
			p := m.step(s, ruled)
			if i == 0 {
				p.before = t.sz.body * 1.1 * t.air
			}
			item := list.Part("LI")
			draw.Mark(p.ops[p.number:p.number+1], item.Part("Lbl"))
			draw.MarkFields(p.ops, item.Part("LBody"), "P")
			out = append(out, p)
		case *sheets.Break:
			p := m.pause(s.Text)
			listed(list, nil, p.ops)
			out = append(out, p)
		}
	}
	return out
}

// method works out the grid from what the steps hold.
func (t *typesetter) method(b *sheets.Steps, w float64) *method {
	m := &method{t: t, full: w, takes: -1}
	size := t.sz.body
	var fig, unit, name, side, number, word float64
	any := false
	for _, item := range b.Items {
		s, ok := item.(*sheets.Step)
		if !ok {
			continue
		}
		side = max(side, t.longest(span{text: s.Clock, face: fonts.SansBold, size: size}),
			t.longest(span{text: s.Who, face: fonts.Sans, size: t.sz.small}))
		number = max(number, fonts.SansBold.Width(fmt.Sprint(s.Number), t.sz.number))
		for _, k := range s.Takes {
			any = true
			f, u := amount.Split(t.clean(k.Amount))
			if fw, uw := fonts.SansBold.Width(f, size), fonts.Sans.Width(u, size); fw+uw < w*0.16 {
				fig, unit = max(fig, fw), max(unit, uw)
			}
			word = max(word, t.longest(span{text: k.Name, face: fonts.Sans, size: size}))
			name = max(name, t.set(1e6, 1.2, span{text: k.Name, face: fonts.Sans, size: size}).width())
		}
	}
	m.clock = max(number, t.sz.number*0.55) + t.sz.number*0.25
	m.side = max(number, t.sz.number*0.8)
	if side > 0 {
		m.side = max(m.side, m.clock+min(side, max(w*0.22-m.clock, 24)))
	}
	gap := 12.0
	m.text = m.side + gap
	if any {
		m.takes = m.text
		m.axis = m.takes + fig
		m.name = m.axis
		if fig > 0 || unit > 0 {
			m.name = m.axis + axisGap
		}
		if unit > 0 {
			m.name += unit + 7
		} else if fig > 0 {
			m.name += 2
		}
		m.nameWidth = min(max(name, 40)+1, w*0.37-(m.name-m.takes))
		m.nameWidth = max(m.nameWidth, min(w*0.15, max(name, 40)+1), min(word+1, w*0.3))
		m.text = m.name + m.nameWidth + 16
		if w-m.text < t.sz.step*17 {
			m.stacked, m.text, m.nameWidth = true, m.takes, w-m.name
		}
	}
	m.textWidth = t.measure(w - m.text)
	return m
}

// step sets one step. All of it is one piece.
func (m *method) step(s *sheets.Step, ruled bool) *piece {
	t := m.t
	p := &piece{turn: fmt.Sprintf("step %d", s.Number)}
	y := 0.0
	if ruled && t.bound() {
		y = 3 * t.air
	} else if ruled {
		p.ops = append(p.ops, &draw.Line{Y1: 6 * t.air, X2: m.full, Y2: 6 * t.air, Width: hair})
		y = 6*t.air + max(8*t.air, 4.5)
	}
	top := y
	beside := m.sidebar(p, s, y)
	under := m.taken(p, s, y)
	bottom := max(beside, under)
	if m.stacked && len(s.Takes) > 0 {
		y = under + max(5*t.air, 3.5)
	}

	// sentences share the base line of the things taken; where nothing is taken,
	// they have that room too
	left, width := m.text, m.textWidth
	if len(s.Takes) == 0 && m.takes >= 0 {
		left, width = m.takes, t.measure(m.full-m.takes)
	}
	if s.When != "" {
		pa := t.set(width, leadTight, span{text: s.When, face: fonts.SansBold, size: t.sz.small})
		p.add(pa.ops(left, y, t.nextField()), 0, 0)
		y += pa.height() + 2.5
	}
	if facts := m.facts(s); len(facts) > 0 {
		pa := t.factsIn(facts, width)
		p.add(pa.ops(left, y, t.nextField()), 0, 0)
		y += pa.height() + 2
	}
	if len(s.Runs) > 0 {
		pa := t.set(width, lead, t.spans(s.Runs, true, t.sz.step)...)
		p.add(pa.ops(left, y, t.nextField()), 0, 0)
		y += pa.height()
	}
	for i, mo := range s.Moments {
		y += 6 * t.air
		from := y
		x := left + 11
		if mo.At != "" {
			pa := t.set(width-11, leadTight, span{text: mo.At, face: fonts.SansBold, size: t.sz.body})
			p.add(pa.ops(x, y, t.nextField()), 0, 0)
			y += pa.height() + 2
		}
		if len(mo.Runs) > 0 {
			pa := t.set(width-11, lead, t.spans(mo.Runs, true, t.sz.step)...)
			p.add(pa.ops(x, y, t.nextField()), 0, 0)
			y += pa.height()
		}
		y = m.margin(p, mo.Margin, x, y, width-11)
		// the thread that time runs down, with a knot where the moment is
		line := left + 2.5
		start := from + 2
		if i > 0 {
			start = from - 6
		}
		p.ops = append(p.ops,
			&draw.Line{X1: line, X2: line, Y1: start, Y2: y, Width: 1},
			&draw.Rect{X: line - 2.5, Y: from + t.sz.body*0.28, W: 5, H: 5, Fill: true, Round: 2.5})
	}
	p.h = max(bottom, y, top+t.sz.number) + 6*t.air
	return p
}

// sidebar sets number, clock and cook, and returns where they end.
func (m *method) sidebar(p *piece, s *sheets.Step, y float64) float64 {
	t := m.t
	no := fmt.Sprint(s.Number)
	size := t.sz.number
	// the number stands on the base line of the first sentence or hangs from
	// the same height: its cap height is level with the top of the letters
	base := y + t.sz.body*(fonts.Ascent-fonts.CapHeight) + size*fonts.CapHeight
	p.number = len(p.ops)
	p.ops = append(p.ops, &draw.Text{
		X: 0, Y: base, W: fonts.SansBold.Width(no, size), Size: size, Face: fonts.SansBold, Str: no, Field: t.nextField(),
	})
	// clock and cook stand beside the number, so that a short step is not made
	// tall by them
	w := m.side - m.clock
	if s.Clock != "" {
		pa := t.set(w, 1.1, span{text: s.Clock, face: fonts.SansBold, size: t.sz.body})
		p.add(pa.ops(m.clock, y, t.nextField()), 0, 0)
		y += pa.height() + 1
	}
	if s.Who != "" {
		pa := t.set(w, 1.1, span{text: s.Who, face: fonts.Sans, size: t.sz.small})
		p.add(pa.ops(m.clock, y, t.nextField()), 0, 0)
		y += pa.height()
	}
	return y
}

// taken sets what the step takes, and returns where it ends.
func (m *method) taken(p *piece, s *sheets.Step, y float64) float64 {
	t := m.t
	size := t.sz.body
	y += (t.sz.step - size) * fonts.Ascent
	for i, k := range s.Takes {
		if i > 0 {
			y += 4 * t.air
		}
		fig, unit := amount.Split(t.clean(k.Amount))
		fits := m.axis-m.takes+0.01 >= fonts.SansBold.Width(fig, size) &&
			m.name-m.axis-axisGap+0.01 >= fonts.Sans.Width(unit, size)
		if !fits {
			pa := t.set(m.name+m.nameWidth-m.takes, leadTight, span{text: k.Amount, face: fonts.SansBold, size: size})
			p.add(pa.ops(m.takes, y, t.nextField()), 0, 0)
			y += pa.height() + 1
		} else if k.Amount != "" {
			field := t.nextField()
			if fig != "" {
				pa := t.set(1e6, 1, span{text: fig, face: fonts.SansBold, size: size, whole: true})
				p.add(pa.ops(m.axis-pa.width(), y, field), 0, 0)
			}
			if unit != "" {
				pa := t.set(1e6, 1, span{text: unit, face: fonts.Sans, size: size, whole: true})
				p.add(pa.ops(m.axis+axisGap, y, field), 0, 0)
			}
		}
		pa := t.set(m.nameWidth, leadTight, span{text: k.Name, face: fonts.Sans, size: size, link: k.Link})
		p.add(pa.ops(m.name, y, t.nextField()), 0, 0)
		y += max(pa.height(), size)
		if k.Note != "" {
			note := strings.ReplaceAll(k.Note, " · ", "\u00a0· ") // no line begins with a dot
			pa := t.set(m.nameWidth, leadTight, span{text: note, face: fonts.SansItalic, size: t.sz.small})
			p.add(pa.ops(m.name, y+1, t.nextField()), 0, 0)
			y += pa.height() + 1
		}
	}
	return y
}

// facts are what the margin of a step says: large what is looked up for, smaller
// what else is to be known.
func (m *method) facts(s *sheets.Step) (out []span) {
	for _, f := range s.Look {
		out = append(out, span{text: f, face: fonts.SansBold, size: m.t.sz.look})
	}
	for _, f := range s.Margin {
		out = append(out, span{text: f, face: fonts.Sans, size: m.t.sz.body - 1})
	}
	return out
}

// margin sets the facts of a moment below its sentence.
func (m *method) margin(p *piece, facts []string, x, y, w float64) float64 {
	if len(facts) == 0 {
		return y
	}
	t := m.t
	pa := t.facts(facts, w, fonts.Sans, t.sz.small+1)
	p.add(pa.ops(x, y+4, t.nextField()), 0, 0)
	return y + 4 + pa.height()
}

// pause is a broken line across the method with its words on it.
func (m *method) pause(text string) *piece {
	t := m.t
	p := &piece{before: 8 * t.air, turn: text}
	pa := t.set(m.full*0.7, leadTight, span{text: text, face: fonts.SansBold, size: t.sz.body})
	x := m.side + 12
	p.add(pa.ops(x, 0, t.nextField()), 0, 0)
	p.h = max(pa.height(), t.sz.body)
	y := t.sz.body*fonts.Ascent - t.sz.body*0.25
	dash := []float64{4, 3}
	first := 0.0
	if len(pa.lines) > 0 {
		first = pa.width()
	}
	p.ops = append(p.ops,
		&draw.Line{X1: 0, X2: x - 7, Y1: y, Y2: y, Width: rule, Dash: dash},
		&draw.Line{X1: x + first + 7, X2: m.full, Y1: y, Y2: y, Width: rule, Dash: dash})
	p.h += 14 * t.air
	return p
}
