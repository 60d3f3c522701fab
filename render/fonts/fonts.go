// Package fonts holds the typefaces that are printed with, and measures text
// in them. The files are the unmodified releases of Source Sans 3 and Source
// Serif 4 under the SIL Open Font License, whose texts lie beside them.
package fonts

import (
	_ "embed"
	"fmt"
	"sync"

	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// Face is one typeface in one weight and slope.
type Face int

// The faces. The sans speaks for the clock, figures, names and tables; the
// serif for the writer's sentences and the titles.
const (
	Sans Face = iota
	SansBold
	SansItalic
	Serif
	SerifBold
	SerifItalic
	faces
)

// Count is how many faces there are: they are numbered from 0.
const Count = int(faces)

//go:embed SourceSans3_400Regular.ttf
var sans []byte

//go:embed SourceSans3_700Bold.ttf
var sansBold []byte

//go:embed SourceSans3_400Regular_Italic.ttf
var sansItalic []byte

//go:embed SourceSerif4_400Regular.ttf
var serif []byte

//go:embed SourceSerif4_600SemiBold.ttf
var serifBold []byte

//go:embed SourceSerif4_400Regular_Italic.ttf
var serifItalic []byte

// Data returns the font file of f.
func (f Face) Data() []byte {
	return [...][]byte{sans, sansBold, sansItalic, serif, serifBold, serifItalic}[f]
}

// Name is a short name of f, unique among the faces.
func (f Face) Name() string {
	return [...]string{"sans", "sansbold", "sansitalic", "serif", "serifbold", "serifitalic"}[f]
}

// Other is the face of like weight in the other family, tried when f lacks a
// character.
func (f Face) Other() Face {
	return [...]Face{Serif, SerifBold, SerifItalic, Sans, SansBold, SansItalic}[f]
}

// Has tells whether f can draw r.
func (f Face) Has(r rune) bool { return f.advance(r) >= 0 }

// Width is the width of s in f at the given size, in the units of size.
// Characters that the face lacks count as half the size.
func (f Face) Width(s string, size float64) float64 {
	n := 0
	for _, r := range s {
		if a := f.advance(r); a >= 0 {
			n += a
		} else {
			n += 500
		}
	}
	return float64(n) * size / 1000
}

// Ascent and Descent are how far ordinary letters reach above and below the
// line, as shares of the size. They are set by eye for both families, tighter
// than the tables of the fonts, which leave room for stacked accents.
const (
	Ascent  = 0.76
	Descent = 0.24
)

// CapHeight is the height of a capital as a share of the size.
const CapHeight = 0.66

// table knows the advance of every character of one face, in thousandths of
// the size. Common letters are looked up when the face is first used, others
// as they are asked for.
type table struct {
	once   sync.Once
	common [0x250]int16 // -1: no glyph
	font   *sfnt.Font
	mu     sync.Mutex
	buf    sfnt.Buffer
	rest   map[rune]int16
}

var metrics [faces]table

// advance is the width of r, or -1 when the face has no glyph for it.
func (f Face) advance(r rune) int {
	t := &metrics[f]
	t.once.Do(func() {
		var err error
		if t.font, err = sfnt.Parse(f.Data()); err != nil {
			panic(fmt.Sprintf("fonts: the embedded face %s cannot be read: %v", f.Name(), err))
		}
		t.rest = map[rune]int16{}
		for c := range t.common {
			t.common[c] = t.look(rune(c))
		}
	})
	if r >= 0 && int(r) < len(t.common) {
		return int(t.common[r])
	}
	t.mu.Lock()
	defer t.mu.Unlock()
	v, ok := t.rest[r]
	if !ok {
		v = t.look(r)
		t.rest[r] = v
	}
	return int(v)
}

func (t *table) look(r rune) int16 {
	// fpdf keeps characters in two bytes: what lies beyond counts as missing
	if r >= 0xffff {
		return -1
	}
	g, err := t.font.GlyphIndex(&t.buf, r)
	if err != nil || g == 0 {
		return -1
	}
	a, err := t.font.GlyphAdvance(&t.buf, g, fixed.I(1000), font.HintingNone)
	if err != nil {
		return -1
	}
	return int16(a.Round())
}
