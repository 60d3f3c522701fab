package page

import (
	"slices"
	"unicode"

	"tamis/render/bidi"
)

// turned puts the parts of lines where they are seen, for text that runs to
// the left in places; the parts stay in the order they are read. leftwards
// tells that the paragraph as a whole runs to the left.
func turned(lines []line) (out []line, leftwards bool) {
	if !slices.ContainsFunc(lines, func(l line) bool {
		return slices.ContainsFunc(l.parts, func(p part) bool { return p.face.Own() != nil && bidi.Mixed(p.text) })
	}) {
		return lines, false // our own faces have no letters that run to the left
	}
	var text []rune
	for i, l := range lines {
		for k, p := range l.parts {
			if !p.glued && (i > 0 || k > 0) {
				text = append(text, ' ')
			}
			text = append(text, []rune(p.text)...)
		}
	}
	levels, base := bidi.Levels(text)
	at := 0
	for i, l := range lines {
		out = append(out, turnedLine(l, levels, base, &at, i == 0))
	}
	return out, base == 1
}

// turnedLine cuts the parts of a line where the direction changes, and places
// them. at is the next character of the paragraph.
func turnedLine(l line, levels []int, base int, at *int, first bool) line {
	type item struct {
		w    float64
		part int // index into parts; -1 for a space between two
	}
	var items []item
	var order []int // the level of each item
	out := line{width: l.width, gap: l.gap}
	end := 0.0
	for k, p := range l.parts {
		if !p.glued && (!first || k > 0) {
			if k > 0 {
				items, order = append(items, item{p.x - end, -1}), append(order, levels[*at])
			}
			*at++
		}
		end = p.x + p.w
		runes := []rune(p.text)
		from := 0
		for i := range runes {
			level := levels[*at+i]
			if i+1 < len(runes) && levels[*at+i+1] == level {
				continue
			}
			q := p
			q.text = string(runes[from : i+1])
			q.w = q.face.Width(q.text, q.size)
			q.left = level&1 == 1
			q.glued = p.glued || from > 0
			items, order = append(items, item{q.w, len(out.parts)}), append(order, level)
			out.parts = append(out.parts, q)
			from = i + 1
		}
		*at += len(runes)
	}
	x := 0.0
	for _, i := range bidi.Order(order) {
		if k := items[i].part; k >= 0 {
			out.parts[k].x = x
		}
		x += items[i].w
	}
	return out
}

// wide tells whether r belongs to a script that is written without spaces.
func wide(r rune) bool {
	if r < '\u0e00' { // Thai is the first of them
		return false
	}
	return unicode.In(r, unicode.Han, unicode.Hiragana, unicode.Katakana, unicode.Thai, unicode.Lao, unicode.Bopomofo, unicode.Yi) ||
		r >= 0x3000 && r <= 0x303f || r >= 0xff01 && r <= 0xff60 || r == 'ー' || r == '・'
}

// What may not begin and what may not end a line: Requirements for Japanese
// Text Layout (W3C), 3.1.7 and 3.1.8, and the same marks of Chinese.
const (
	notFirst = "、。，．・：；？！」』）〕］｝〉》】〙〗’”ヽヾーァィゥェォッャュョヮヵヶぁぃぅぇぉっゃゅょゎゕゖゝゞ々〻‐゠–〜?!,.:;)]}%°…ะาำๅๆฯ"
	notLast  = "「『（〔［｛〈《【〘〖‘“([{¥$£€เแโใไ"
)

// betweenWide tells whether a line may end after text[i] because it, or the
// character that follows, belongs to a script without spaces.
func betweenWide(text []rune, i int) bool {
	if i+1 >= len(text) {
		return false
	}
	a, b := text[i], text[i+1]
	if !wide(a) && !wide(b) || unicode.IsSpace(b) || unicode.In(b, unicode.Mn, unicode.Mc) || b == '\u200d' {
		return false
	}
	return !slices.Contains([]rune(notFirst), b) && !slices.Contains([]rune(notLast), a)
}
