package fonts

import (
	"encoding/binary"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"

	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// Own is a font file of the writer's, set where our faces lack a character.
// Pointers to one compare; opening a file twice gives two.
type Own struct {
	Name string // as its file says, "Noto Sans Hebrew"
	bold bool
	em   int // units of the em
	table
}

// MaxSize is the largest font file that is read, in bytes. The largest fonts
// of Chinese and Japanese that are in use have some 30 MB.
const MaxSize = 64 << 20

// Read opens the font file name. In a file of several fonts, such as a .ttc,
// one is picked by its number: "file.ttc#2". The error is for a cook to read.
func Read(name string) (*Own, error) {
	file, n := name, 0
	if at := strings.LastIndexByte(name, '#'); at > 0 {
		if k, err := strconv.Atoi(name[at+1:]); err == nil && k > 0 {
			file, n = name[:at], k
		}
	}
	info, err := os.Stat(file)
	if err != nil {
		return nil, fmt.Errorf("there is no font file %q: give its path, such as fonts/NotoSansHebrew-Regular.ttf", file)
	}
	if info.IsDir() {
		return nil, fmt.Errorf("%q is a folder: name one font file in it", file)
	}
	if info.Size() > MaxSize {
		return nil, fmt.Errorf("the font file %q has %d MB: no more than %d MB is read", file, info.Size()>>20, MaxSize>>20)
	}
	data, err := os.ReadFile(file)
	if err != nil {
		return nil, fmt.Errorf("the font file %q cannot be read: %w", file, err)
	}
	return Open(filepath.Base(file), data, n)
}

// Open reads font number n, counted from 1, of a file; 0 asks for the only
// one. file names it in messages.
func Open(file string, data []byte, n int) (o *Own, err error) {
	// the file comes from anywhere: what no check foresaw is a broken file too
	defer func() {
		if recover() != nil {
			o, err = nil, broken(file)
		}
	}()
	if len(data) >= 4 && (string(data[:4]) == "wOFF" || string(data[:4]) == "wOF2") {
		return nil, fmt.Errorf("the font %q is packed for the web: take its .ttf or .otf file", file)
	}
	all, err := sfnt.ParseCollection(data)
	if err != nil {
		return nil, broken(file)
	}
	switch count := all.NumFonts(); {
	case n == 0 && count > 1:
		return nil, fmt.Errorf("the file %q holds %d fonts: say which, such as %s#1 (%s)", file, count, file, listed(all, data))
	case n > count:
		return nil, fmt.Errorf("the file %q holds %s, so there is no number %d", file, plural(count, "font"), n)
	}
	o = &Own{}
	if o.font, err = one(all, data, max(n, 1)-1); err != nil {
		return nil, broken(file)
	}
	o.Name, _ = o.font.Name(&o.buf, sfnt.NameIDFull)
	if o.Name = strings.TrimSpace(strings.ToValidUTF8(o.Name, "")); o.Name == "" {
		o.Name = file
	}
	o.em = int(o.font.UnitsPerEm())
	if o.em < 16 || o.em > 16384 {
		return nil, broken(file) // OpenType, head: unitsPerEm
	}
	if os2 := rawTable(data, max(n, 1)-1, "OS/2"); len(os2) >= 10 {
		// OpenType, OS/2: usWeightClass at 4, fsType at 8. Restricted; no
		// subsetting; pictures only.
		o.bold = binary.BigEndian.Uint16(os2[4:]) >= 600
		if may := binary.BigEndian.Uint16(os2[8:]); may&0xf == 2 || may&0x300 != 0 {
			return nil, fmt.Errorf("the maker of the font %q (%s) does not allow parts of it to be put into a PDF: take another font", o.Name, file)
		}
	}
	if !o.drawsSomething() {
		return nil, fmt.Errorf("the font %q (%s) holds no outlines of letters, so it cannot be printed with: take a .ttf or .otf font", o.Name, file)
	}
	return o, nil
}

func broken(file string) error {
	return fmt.Errorf("%q is no font that can be read: take a TrueType or OpenType file (.ttf, .otf, .ttc)", file)
}

func plural(n int, word string) string {
	if n == 1 {
		return "1 " + word
	}
	return fmt.Sprintf("%d %ss", n, word)
}

// listed names the fonts of a collection, the first few.
func listed(all *sfnt.Collection, data []byte) string {
	var names []string
	var buf sfnt.Buffer
	for i := range min(all.NumFonts(), 6) {
		f, err := one(all, data, i)
		if err != nil {
			continue
		}
		if name, err := f.Name(&buf, sfnt.NameIDFull); err == nil {
			names = append(names, fmt.Sprintf("%d %s", i+1, name))
		}
	}
	return strings.Join(names, ", ")
}

// one is font i of a file. Some files have tables that do not begin at a
// multiple of four bytes, which the library will not read: they are put right.
func one(all *sfnt.Collection, data []byte, i int) (*sfnt.Font, error) {
	f, err := all.Font(i)
	if err == nil {
		return f, nil
	}
	dir := directory(data, i)
	if len(dir) == 0 {
		return nil, err
	}
	out := be32(nil, 0x00010000)
	out = be16(out, len(dir), 0, 0, 0)
	at := 12 + 16*len(dir)
	var body []byte
	for _, t := range dir {
		out = append(out, t.tag...)
		out = be32(out, 0, at+len(body), len(t.data))
		body = append(append(body, t.data...), make([]byte, (4-len(t.data)%4)%4)...)
		if len(body) > MaxSize {
			return nil, err
		}
	}
	return sfnt.Parse(append(out, body...))
}

type tagged struct {
	tag  string
	data []byte
}

// directory is the tables of font i of a file, as far as they lie in it.
// OpenType, "Organization of an OpenType Font".
func directory(data []byte, i int) (out []tagged) {
	u32 := func(at int) int {
		if at < 0 || at+4 > len(data) {
			return 0
		}
		return int(binary.BigEndian.Uint32(data[at:]))
	}
	base := 0
	if u32(0) == 0x74746366 { // "ttcf"
		base = u32(12 + 4*i)
	}
	for k := range u32(base+4) >> 16 {
		at := base + 12 + 16*k
		if at+16 > len(data) {
			break
		}
		if from, n := u32(at+8), u32(at+12); from+n <= len(data) {
			out = append(out, tagged{string(data[at : at+4]), data[from : from+n]})
		}
	}
	return out
}

// rawTable is a table of font i of a file, or nil.
func rawTable(data []byte, i int, tag string) []byte {
	for _, t := range directory(data, i) {
		if t.tag == tag {
			return t.data
		}
	}
	return nil
}

// drawsSomething tells whether any of the first glyphs has an outline; fonts
// of coloured pictures have none.
func (o *Own) drawsSomething() bool {
	for g := range min(o.font.NumGlyphs(), 400) {
		if s, err := o.font.LoadGlyph(&o.buf, sfnt.GlyphIndex(g), fixed.I(o.em), nil); err == nil && len(s) > 0 {
			return true
		}
	}
	return false
}

// Face is o as a face to measure and set with.
func (o *Own) Face() Face { return Face{own: o} }

// glyph is the outline of r in units of the em, good until the next call, and
// its advance. The caller holds the lock.
func (o *Own) glyph(r rune) (outline sfnt.Segments, advance int, ok bool) {
	defer func() {
		if recover() != nil {
			ok = false
		}
	}()
	g, err := o.font.GlyphIndex(&o.buf, r)
	if err != nil || g == 0 {
		return nil, 0, false
	}
	a, err := o.font.GlyphAdvance(&o.buf, g, fixed.I(o.em), font.HintingNone)
	if err != nil || a < 0 || a.Round() > 4*o.em {
		return nil, 0, false
	}
	s, err := o.font.LoadGlyph(&o.buf, g, fixed.I(o.em), nil)
	if err != nil {
		return nil, 0, false
	}
	return s, a.Round(), true
}
