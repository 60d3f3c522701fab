// Package fonts holds the typefaces that are printed with, and measures text
// in them. The files are the unmodified releases of Source Sans 3 and Source
// Serif 4 under the SIL Open Font License, whose texts lie beside them.
//
// Read this file first. own.go reads a font that the user names, set.go picks the one that
// has a letter, and subset.go takes out what a file needs of it.
package fonts

import (
	_ "embed"
	"fmt"
	"sync"
	"sync/atomic"

	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// Face is one typeface in one weight and slope: one of ours, or a font file of
// the writer's. Faces can be compared. The zero Face is Sans.
type Face struct {
	n   int
	own *Own
}

// The faces. The sans speaks for the clock, figures, names and tables; the
// serif for the writer's sentences and the titles.
var (
	Sans        = Face{n: 0}
	SansBold    = Face{n: 1}
	SansItalic  = Face{n: 2}
	Serif       = Face{n: 3}
	SerifBold   = Face{n: 4}
	SerifItalic = Face{n: 5}
)

const faces = 6

// All lists our own faces.
func All() []Face { return []Face{Sans, SansBold, SansItalic, Serif, SerifBold, SerifItalic} }

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

// Data returns the font file of one of our faces.
func (f Face) Data() []byte {
	return [...][]byte{sans, sansBold, sansItalic, serif, serifBold, serifItalic}[f.n]
}

// Own is the font of the writer's that f stands for, or nil.
func (f Face) Own() *Own { return f.own }

// Name is a short name of f, unique among our faces; of another font, its
// own name.
func (f Face) Name() string {
	if f.own != nil {
		return f.own.Name
	}
	return [...]string{"sans", "sansbold", "sansitalic", "serif", "serifbold", "serifitalic"}[f.n]
}

// Other is the face of like weight in the other family, tried when f lacks a
// character.
func (f Face) Other() Face {
	if f.own != nil {
		return f
	}
	return Face{n: (f.n + 3) % faces}
}

// Bold tells whether f is one of the heavy faces.
func (f Face) Bold() bool {
	if f.own != nil {
		return f.own.bold
	}
	return f.n%3 == 1
}

// Has tells whether f can draw r.
func (f Face) Has(r rune) bool { return f.advance(r) >= 0 }

// Width is the width of s in f at the given size, in the units of size, with
// neighbours drawn together as Kern says. Characters that the face lacks count
// as half the size.
func (f Face) Width(s string, size float64) float64 {
	n := 0
	last := rune(-1)
	for _, r := range s {
		if last >= 0 {
			n += f.Kern(last, r)
		}
		last = r
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

// known marks a kerning that was looked up.
const known = 1 << 16

// table knows the advance of every character of one face, in thousandths of
// the size. Common letters are looked up when the face is first used, others
// as they are asked for.
type table struct {
	once   sync.Once
	common [0x250]int16 // -1: no glyph
	font   *sfnt.Font
	pairs  [128 * 128]atomic.Int32 // kerning of plain letters, plus known; 0: not looked up

	mu   sync.Mutex
	buf  sfnt.Buffer
	rest map[rune]int16
	kern map[[2]rune]int16
}

var metrics [faces]table

func (f Face) table() *table {
	if f.own != nil {
		return &f.own.table
	}
	return &metrics[f.n]
}

// Kern is how much nearer, when negative, b is set after a than its width says,
// in thousandths of the size. Blanks and figures keep their places.
func (f Face) Kern(a, b rune) int {
	if !kerns(a) || !kerns(b) {
		return 0
	}
	if f.own != nil {
		return 0 // letters of one script that needs none, set as they come
	}
	t := f.table()
	f.advance(a) // makes sure that the face is read
	if a < 128 && b < 128 {
		p := &t.pairs[a*128+b]
		if v := p.Load(); v != 0 {
			return int(v) - known
		}
		t.mu.Lock()
		defer t.mu.Unlock()
		k := t.pair(a, b)
		p.Store(int32(k) + known)
		return int(k)
	}
	t.mu.Lock()
	defer t.mu.Unlock()
	k, ok := t.kern[[2]rune{a, b}]
	if !ok {
		k = t.pair(a, b)
		t.kern[[2]rune{a, b}] = k
	}
	return int(k)
}

// kerns tells whether r is a character that may move towards its neighbour.
func kerns(r rune) bool {
	return r > ' ' && r < 0xffff && r != '\u00a0' && r != '\u202f' && (r < '0' || r > '9')
}

// pair looks up a pair in the tables of the font. What cannot be seen counts
// as nothing.
func (t *table) pair(a, b rune) int16 {
	x, err1 := t.font.GlyphIndex(&t.buf, a)
	y, err2 := t.font.GlyphIndex(&t.buf, b)
	if err1 != nil || err2 != nil || x == 0 || y == 0 {
		return 0
	}
	k, err := t.font.Kern(&t.buf, x, y, fixed.I(1000), font.HintingNone)
	if n := k.Round(); err == nil && (n <= -8 || n >= 8) {
		return int16(n)
	}
	return 0
}

// advance is the width of r, or -1 when the face has no glyph for it.
func (f Face) advance(r rune) int {
	t := f.table()
	t.once.Do(func() {
		t.mu.Lock()
		defer t.mu.Unlock()
		var err error
		if f.own == nil {
			if t.font, err = sfnt.Parse(f.Data()); err != nil {
				panic(fmt.Sprintf("fonts: the embedded face %s cannot be read: %v", f.Name(), err))
			}
		}
		t.rest, t.kern = map[rune]int16{}, map[[2]rune]int16{}
		for c := range t.common {
			t.common[c] = f.look(rune(c))
		}
	})
	if r >= 0 && int(r) < len(t.common) {
		return int(t.common[r])
	}
	t.mu.Lock()
	defer t.mu.Unlock()
	v, ok := t.rest[r]
	if !ok {
		v = f.look(r)
		t.rest[r] = v
	}
	return int(v)
}

// look finds the advance of r in the font. The caller holds the lock.
func (f Face) look(r rune) int16 {
	// fpdf keeps characters in two bytes: what lies beyond counts as missing
	if r >= 0xffff {
		return -1
	}
	if f.own != nil {
		_, a, ok := f.own.glyph(r)
		if !ok {
			return -1
		}
		return int16((a*1000 + f.own.em/2) / f.own.em)
	}
	t := f.table()
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
