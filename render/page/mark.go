package page

import (
	"strings"
	"unicode"

	"tamis/render/draw"
	"tamis/render/fonts"
)

// mark draws the letter of a dish in its box, or of a base in its ring, with
// its stripe below, top left at x, y. side is the side of the box. It returns
// the width taken.
func (t *typesetter) mark(letter string, x, y, side float64, field int) ([]draw.Op, float64) {
	ops, w := t.plainMark(letter, x, y, side, field)
	if n, known := t.marks[letter]; known {
		ops = append(ops, draw.Stripe(n, x, y+side*1.1, w, side*0.27)...)
	}
	return ops, w
}

// plainMark is a mark without its stripe, for the lines of lists.
func (t *typesetter) plainMark(letter string, x, y, side float64, field int) ([]draw.Op, float64) {
	n, known := t.marks[letter]
	size := side * markLetter
	name := t.clip([]span{{text: letter, face: fonts.SansBold, size: size, whole: true}}, side*3) // letters are short; what is not is no letter
	tw := name.width()
	w := max(side, tw+side*0.4)
	line := max(0.8, side*0.06)
	var ops []draw.Op
	if known && t.doc.Dishes[n].Base {
		ops = append(ops, &draw.Rect{X: x + line/2, Y: y + line/2, W: w - line, H: side - line, Width: line, Round: (side - line) / 2})
	} else {
		ops = append(ops, &draw.Rect{X: x + line/2, Y: y + line/2, W: w - line, H: side - line, Width: line})
	}
	ops = append(ops, name.ops(x+(w-tw)/2, y+side/2+size*(fonts.CapHeight/2-fonts.Ascent), field)...)
	return ops, w
}

// markLetter is the size of the letter, in sides of its box: 13 points beside words of 13.
const markLetter = 0.84

// markTall is the height of a mark with its stripe, in sides of its box.
const markTall = 1.37

// markHeight is the height of a mark with its stripe.
func (t *typesetter) markHeight(letter string, side float64) float64 {
	if letter == "" {
		return 0
	}
	return side * markTall
}

// marksOf parts the text of a mark column: letters of dishes, each perhaps
// with the number of a step, and other words as they are.
func (t *typesetter) marksOf(s string) (tokens []markToken) {
	for _, w := range strings.FieldsFunc(s, func(r rune) bool { return r == ',' || unicode.IsSpace(r) }) {
		letter := strings.TrimRightFunc(w, unicode.IsDigit)
		if _, ok := t.marks[letter]; ok && letter != "" {
			tokens = append(tokens, markToken{letter: letter, rest: w[len(letter):]})
		} else {
			tokens = append(tokens, markToken{rest: w})
		}
	}
	return tokens
}

type markToken struct{ letter, rest string }

// marksCell sets the text of a mark column into a box of width w.
func (t *typesetter) marksCell(s string, w float64, field int) (ops []draw.Op, width, height float64) {
	size := t.sz.body
	side := size * 1.2
	// letters stand on the base line of the row's first line of words
	x, y := 0.0, size*fonts.Ascent-(side/2+side*markLetter*fonts.CapHeight/2)
	first := true
	for _, k := range t.marksOf(s) {
		var o []draw.Op
		need := 0.0
		if k.letter != "" {
			o, need = t.plainMark(k.letter, 0, 0, side, field)
		}
		below := 0.0
		if k.rest != "" {
			at := need
			if need > 0 {
				at += 2
			}
			pa := t.set(max(w, size), 1.2, span{text: k.rest, face: fonts.SansBold, size: size, whole: true})
			if need > 0 && at+pa.width() > w {
				// a very narrow column: the number goes under its letter
				at, below = 0, side*1.1
			}
			drop := below + side/2 + side*markLetter*fonts.CapHeight/2 - size*fonts.Ascent
			words := pa.ops(at, drop, field)
			if len(words) > 0 && k.letter != "" {
				words[0].(*draw.Text).Glued = true
			}
			o = append(o, words...)
			need = max(need, at+pa.width())
			below += max(pa.height()-size, 0)
		}
		if !first && x+need > w {
			x, y = 0, y+side*1.25
		}
		ops = append(ops, draw.MoveAll(o, x, y)...)
		width = max(width, x+need)
		x += need + size*0.55
		y += below
		first = false
	}
	if first {
		return nil, 0, 0
	}
	return ops, width, y + side
}
