package fonts

import "unicode"

// Set is the fonts of the writer's, the ones to be tried first in front.
type Set []*Own

// Has tells whether any face can print r. What must be shaped cannot be
// printed whatever font there is.
func (s Set) Has(r rune) bool {
	if Sans.Has(r) || Serif.Has(r) {
		return true
	}
	_, ok := s.find(r, false)
	return ok && !Shaped(r)
}

// Face is f if it has r, else the face that r is set in instead.
func (s Set) Face(f Face, r rune) Face {
	if f.Has(r) {
		return f
	}
	if f.Other().Has(r) {
		return f.Other()
	}
	if own, ok := s.find(r, f.Bold()); ok {
		return own
	}
	return f.Other()
}

// find looks for r, in a font of the wished weight first.
func (s Set) find(r rune, bold bool) (Face, bool) {
	var found Face
	ok := false
	for _, o := range s {
		if f := o.Face(); f.Has(r) {
			if f.Bold() == bold {
				return f, true
			}
			if !ok {
				found, ok = f, true
			}
		}
	}
	return found, ok
}

// Width is the width of s when every character stands in a face that has it.
func (s Set) Width(f Face, text string, size float64) float64 {
	if len(s) == 0 {
		return f.Width(text, size)
	}
	w, from := 0.0, 0
	face := f
	for i, r := range text {
		if next := s.Face(f, r); next != face {
			w += face.Width(text[from:i], size)
			face, from = next, i
		}
	}
	return w + face.Width(text[from:], size)
}

// HasAll tells whether f has every character of s.
func (f Face) HasAll(s string) bool {
	for _, r := range s {
		if !f.Has(r) {
			return false
		}
	}
	return true
}

// Shaped tells whether letters of r's script change or move with their
// neighbours, which takes a shaping engine (Unicode Standard, chapters 9 and
// 12 to 16): Arabic joins, the scripts of India reorder.
func Shaped(r rune) bool {
	return r >= 0x600 && r < 0xfeff && unicode.In(r, unicode.Arabic, unicode.Syriac, unicode.Nko, unicode.Mandaic, unicode.Mongolian,
		unicode.Devanagari, unicode.Bengali, unicode.Gurmukhi, unicode.Gujarati, unicode.Oriya, unicode.Tamil, unicode.Telugu,
		unicode.Kannada, unicode.Malayalam, unicode.Sinhala, unicode.Khmer, unicode.Myanmar, unicode.Tibetan, unicode.Balinese, unicode.Javanese)
}
