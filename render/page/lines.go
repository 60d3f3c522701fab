package page

import (
	"math"
	"strings"
	"unicode"
	"unicode/utf8"

	"tamis/render/draw"
	"tamis/render/fonts"
)

// span is a piece of a paragraph in one face and size.
type span struct {
	text  string
	face  fonts.Face
	size  float64
	link  string
	whole bool // not to be broken at its spaces
}

// part is a stretch of one line in one style.
type part struct {
	span
	x, w  float64
	glued bool // follows the part before without a space
	left  bool // runs to the left
}

// line is one line of a paragraph. gap tells that a space was lost where the
// line before ended.
type line struct {
	parts []part
	width float64
	gap   bool
}

// atom is what is never broken: a word, or an amount with its unit.
type atom struct {
	parts []part
	width float64
	space float64 // the width of the space before it, or the kerning when there is none
	gap   bool    // whether there is a space before it
}

// breakLines sets spans into lines no wider than width. It chooses the breaks
// for the paragraph as a whole: the sum of the squares of what is left over at
// the right is least, and a last line of one short word costs extra.
func (t *typesetter) breakLines(spans []span, width float64) []line {
	return t.keep(spans).in(width)
}

// breakAtoms breaks atoms, of which there is at least one, into lines.
func breakAtoms(atoms []atom, width float64) []line {
	n := len(atoms)
	total := -atoms[0].space
	for _, a := range atoms {
		total += a.space + a.width
	}
	if total <= width {
		return []line{join(atoms)}
	}
	best := make([]float64, n+1) // the least cost of setting atoms i and after
	next := make([]int, n)
	for i := n - 1; i >= 0; i-- {
		best[i] = -1
		w := 0.0
		for j := i; j < n; j++ {
			if j > i {
				w += atoms[j].space
			}
			w += atoms[j].width
			if w > width+0.01 && j > i {
				break
			}
			cost := best[j+1]
			slack := (width - w) / width
			switch {
			case j+1 < n:
				cost += slack*slack + 0.02
			case slack > 0.85 && i > 0:
				cost += 0.3
			}
			if best[i] < 0 || cost < best[i] {
				best[i], next[i] = cost, j+1
			}
		}
	}
	var lines []line
	for i := 0; i < n; i = next[i] {
		lines = append(lines, join(atoms[i:next[i]]))
	}
	return lines
}

// join puts atoms side by side, merging neighbours of one style.
func join(atoms []atom) line {
	l := line{gap: atoms[0].gap}
	x := 0.0
	var words []byte // of the last part
	seal := func() {
		if n := len(l.parts); n > 0 {
			p := &l.parts[n-1]
			p.text = string(words)
			p.w = p.face.Width(p.text, p.size)
		}
	}
	for i, a := range atoms {
		if i > 0 {
			x += a.space
		}
		for k, p := range a.parts {
			glued := k > 0 || !a.gap
			p.x, p.glued = x, glued
			if k == 0 && i == 0 {
				p.glued = !a.gap
			}
			// a borrowed face has a space of another width: it cannot span one
			spans := glued || math.Abs(p.face.Width(" ", p.size)-a.space) < 0.01
			if m := len(l.parts) - 1; m >= 0 && like(l.parts[m], p) && spans {
				if !glued {
					words = append(words, ' ')
				}
				words = append(words, p.text...)
			} else {
				seal()
				l.parts = append(l.parts, p)
				words = append(words[:0], p.text...)
			}
			x += p.w
		}
	}
	seal()
	l.width = x
	return l
}

func like(a, b part) bool {
	return a.face == b.face && a.size == b.size && a.link == b.link
}

// atoms is spans cut at the places where a line may end.
func (t *typesetter) atoms(spans ...span) []atom { return t.keep(spans).atoms }

// cutUp cuts spans at the places where a line may end.
func (t *typesetter) cutUp(spans []span) []atom {
	var out []atom
	cur := atom{}
	var word strings.Builder
	flush := func(s span) {
		if word.Len() > 0 {
			for _, p := range t.facesFor(s, word.String()) {
				cur.parts = append(cur.parts, p)
				cur.width += p.w
			}
			word.Reset()
		}
	}
	end := func() {
		if len(cur.parts) > 0 {
			out = append(out, cur)
			cur = atom{}
		}
	}
	for _, s := range spans {
		text := []rune(t.clean(s.text))
		for i, r := range text {
			if unicode.IsSpace(r) && r != '\u00a0' && r != '\u202f' && r != '\u2007' {
				if (s.whole || unitFollows(text, i)) && word.Len() > 0 && i+1 < len(text) {
					word.WriteRune('\u00a0')
					continue
				}
				flush(s)
				end()
				if len(out) > 0 {
					cur.gap, cur.space = true, s.face.Width(" ", s.size)
				}
				continue
			}
			word.WriteRune(r)
			if !s.whole && breakAfter(text, i) {
				flush(s)
				end()
			}
		}
		flush(s)
	}
	end()
	for i := range out {
		if i > 0 && !out[i].gap {
			out[i].space = kerning(out[i-1].parts[len(out[i-1].parts)-1], out[i].parts[0])
		}
	}
	return out
}

// kerning is how much b moves towards a when they stand on one line, negative
// when nearer.
func kerning(a, b part) float64 {
	if a.face != b.face || a.size != b.size {
		return 0
	}
	last, _ := utf8.DecodeLastRuneInString(a.text)
	first, _ := utf8.DecodeRuneInString(b.text)
	return float64(a.face.Kern(last, first)) * a.size / 1000
}

// unitFollows tells whether the blank at text[i] stands between a figure and a
// short word such as a unit, which should not be parted: "30 seconds", "70 °C".
func unitFollows(text []rune, i int) bool {
	if i == 0 || i+1 >= len(text) || !unicode.IsNumber(text[i-1]) || !unicode.IsLetter(text[i+1]) && text[i+1] != '°' {
		return false
	}
	for k := i + 1; k < len(text); k++ {
		if unicode.IsSpace(text[k]) {
			return k-i <= 9
		}
	}
	return len(text)-i <= 10
}

// breakAfter tells whether a line may end after text[i] without a space.
func breakAfter(text []rune, i int) bool {
	switch r := text[i]; {
	case betweenWide(text, i):
		return true
	case r == '-' || r == '/' || r == '‐':
		return i > 0 && i+1 < len(text) && unicode.IsLetter(text[i-1]) && unicode.IsLetter(text[i+1])
	case r == '—':
		return true
	}
	return false
}

// facesFor sets a word in the face of its span, or in another for characters
// which that one lacks.
func (t *typesetter) facesFor(s span, word string) []part {
	var out []part
	start := 0
	face := s.face
	add := func(to int) {
		if to > start {
			p := part{span: s, glued: true}
			p.text, p.face = word[start:to], face
			p.w = face.Width(p.text, s.size)
			out = append(out, p)
			start = to
		}
	}
	for i, r := range word {
		want := t.opt.Fonts.Face(s.face, r)
		if want != face {
			add(i)
			face = want
		}
	}
	add(len(word))
	return out
}

// split cuts atoms that are wider than a line: at a space of an amount if it
// has one, else between two characters.
func split(atoms []atom, width float64) []atom {
	if !wider(atoms, width) {
		return atoms
	}
	var out []atom
	for _, a := range atoms {
		for a.width > width {
			head, tail, ok := cut(a, width)
			if !ok {
				break
			}
			out = append(out, head)
			a = tail
		}
		out = append(out, a)
	}
	return out
}

// cut parts a into what fits within width, at least one character, and the rest.
func cut(a atom, width float64) (head, tail atom, ok bool) {
	head = atom{gap: a.gap, space: a.space}
	for k, p := range a.parts {
		if head.width+p.w <= width {
			head.parts = append(head.parts, p)
			head.width += p.w
			continue
		}
		w, at, space := 0.0, 0, 0
		last := rune(-1)
		for i, r := range p.text {
			d := p.face.Width(string(r), p.size)
			if last >= 0 {
				d += float64(p.face.Kern(last, r)) * p.size / 1000
			}
			last = r
			if head.width+w+d > width && (i > 0 || len(head.parts) > 0) {
				break
			}
			w += d
			at = i + len(string(r))
			if r == '\u00a0' {
				space = at
			}
		}
		if space > 0 && at < len(p.text) {
			at = space
		}
		h, r := p, p
		h.text, r.text = p.text[:at], p.text[at:]
		if t := strings.Trim(h.text, "\u00a0"); t != h.text && t != "" || strings.HasPrefix(r.text, "\u00a0") {
			h.text, r.text = strings.TrimRight(h.text, "\u00a0"), strings.TrimLeft(r.text, "\u00a0")
			tail.gap, tail.space = true, p.face.Width(" ", p.size)
		}
		h.w, r.w = p.face.Width(h.text, p.size), p.face.Width(r.text, p.size)
		if h.text != "" {
			head.parts = append(head.parts, h)
			head.width += h.w
		}
		if r.text != "" {
			tail.parts = append(tail.parts, r)
		}
		tail.parts = append(tail.parts, a.parts[k+1:]...)
		break
	}
	for _, p := range tail.parts {
		tail.width += p.w
	}
	return head, tail, len(head.parts) > 0 && len(tail.parts) > 0
}

// para is a paragraph broken into lines.
type para struct {
	lines   []line
	leading float64
	size    float64
	right   bool // lines end at x instead of beginning there
}

// set breaks spans to width. The leading is that of the largest span.
func (t *typesetter) set(width, lead float64, spans ...span) para {
	p := para{lines: t.breakLines(spans, width)}
	for _, s := range spans {
		p.size = max(p.size, s.size)
	}
	p.leading = p.size * lead
	return p
}

func (p para) height() float64 {
	if len(p.lines) == 0 {
		return 0
	}
	return float64(len(p.lines)-1)*p.leading + p.size*(fonts.Ascent+fonts.Descent)
}

func (p para) width() (w float64) {
	for _, l := range p.lines {
		w = max(w, l.width)
	}
	return w
}

// ops places p with its top left corner at x, y, as words of the given field.
func (p para) ops(x, y float64, field int) []draw.Op {
	var out []draw.Op
	base := y + p.size*fonts.Ascent
	lines, leftwards := turned(p.lines)
	whole := p.width()
	for i, l := range lines {
		from := x
		switch {
		case p.right:
			from -= l.width
		case leftwards:
			from += whole - l.width // its lines begin at the right
		}
		for k, q := range l.parts {
			glued := q.glued
			if k == 0 {
				glued = !l.gap && i > 0
			}
			out = append(out, &draw.Text{
				X: from + q.x, Y: base, W: q.w, Size: q.size, Face: q.face,
				Str: q.text, Link: q.link, Field: field, Glued: glued, Left: q.left,
			})
		}
		base += p.leading
	}
	return out
}
