package draw

import (
	"tamis/render/bidi"
	"tamis/render/fonts"
)

// Words sets one line of text from x on, every character in a face that has
// it, and in the order it is seen. The runs come in the order they are read.
func Words(set fonts.Set, x, y float64, f fonts.Face, size float64, s string) (out []*Text) {
	text := []rune(s)
	levels, _ := bidi.Levels(text)
	var at []int // the level of each run
	from := 0
	for i := range text {
		face := set.Face(f, text[from])
		if i+1 < len(text) && levels[i+1] == levels[i] && set.Face(f, text[i+1]) == face {
			continue
		}
		run := &Text{Y: y, Size: size, Face: face, Str: string(text[from : i+1]), Glued: from > 0, Left: levels[i]&1 == 1}
		run.W = face.Width(run.Str, size)
		out, at = append(out, run), append(at, levels[i])
		from = i + 1
	}
	for _, k := range bidi.Order(at) {
		out[k].X = x
		x += out[k].W
	}
	return out
}
