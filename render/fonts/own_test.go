package fonts

import (
	"encoding/binary"
	"flag"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

var update = flag.Bool("update", false, "make the font of boxes in testdata/fixture anew")

// boxes is a font of our own for tests: letters of Hebrew and some of
// Japanese, Arabic and Thai, each a box. Those of Hebrew are 500 wide, all
// others 1000 of 1000.
func boxes(t testing.TB) []byte {
	t.Helper()
	b := builder{em: 1000, box: [4]int{math.MaxInt16, math.MaxInt16, math.MinInt16, math.MinInt16}}
	b.add(0, nil, 500)
	box := func(w, h int) [][]point {
		return [][]point{{{x: 50}, {x: 50, y: h}, {x: w - 50, y: h}, {x: w - 50}}}
	}
	for r := 'א'; r <= 'ת'; r++ {
		b.add(r, box(500, 500+int(r-'א')*8), 500)
	}
	for _, r := range "حصم" {
		b.add(r, box(1000, 700), 1000)
	}
	for _, r := range "、。「」あいうえおのはるれをタットルー一切四梨汁焼" {
		b.add(r, box(1000, 800), 1000)
	}
	require.True(t, slices.IsSorted(b.chars))
	return b.file(false)
}

func tiny(t testing.TB) *Own {
	o, err := Open("boxes.ttf", boxes(t), 0)
	require.NoError(t, err)
	return o
}

func TestFontOfBoxes(t *testing.T) {
	name := filepath.Join("..", "..", "testdata", "fixture", "boxes.ttf")
	if *update {
		require.NoError(t, os.WriteFile(name, boxes(t), 0o644))
	}
	data, err := os.ReadFile(name)
	require.NoError(t, err)
	require.True(t, string(data) == string(boxes(t)), "go test ./render/fonts -update")
}

func TestOwnFontFillsWhatOursLack(t *testing.T) {
	o := tiny(t)
	set := Set{o}
	require.Equal(t, o.Face(), set.Face(Sans, 'ש'))
	require.Equal(t, Sans, set.Face(Sans, 'a'), "ours come first")
	require.InDelta(t, 5, o.Face().Width("ש", 10), 1e-9)
	require.InDelta(t, 5+Sans.Width(" 1", 10), set.Width(Sans, "ש 1", 10), 1e-9)
	require.True(t, set.Has('梨'))
	require.False(t, set.Has('酱'))
	require.True(t, o.Face().Has('ح'))
	require.False(t, set.Has('ح'), "it must join its neighbours, which is not done")
	require.False(t, Set{}.Has('ש'))
}

func TestBoldLettersAreTakenFromABoldFont(t *testing.T) {
	thin, thick := tiny(t), tiny(t)
	thick.bold = true
	set := Set{thin, thick}
	require.Equal(t, thick.Face(), set.Face(SansBold, '梨'))
	require.Equal(t, thin.Face(), set.Face(Serif, '梨'))
	require.Equal(t, thin.Face(), Set{thin}.Face(SansBold, '梨'), "what there is")
}

// A subset draws the same letters as the file it was made from: here of our
// own face, whose outlines are known to be right.
func TestSubsetKeepsOutlinesAndWidths(t *testing.T) {
	o, err := Open("sans.ttf", sans, 0)
	require.NoError(t, err)
	require.Equal(t, "Source Sans 3", o.Name[:13])
	chars := []rune("½éaЖΩ!a")
	data := o.Subset(chars)
	require.Equal(t, data, o.Subset(chars), "the same bytes")
	require.Less(t, len(data), 8000)
	got, err := sfnt.Parse(data)
	require.NoError(t, err)
	require.Equal(t, 7, got.NumGlyphs(), "one for each character and the one for none")
	want, err := sfnt.Parse(sans)
	require.NoError(t, err)
	var b sfnt.Buffer
	ppem := fixed.I(int(want.UnitsPerEm()))
	for _, r := range chars {
		g, err := got.GlyphIndex(&b, r)
		require.NoError(t, err)
		require.NotZero(t, g, "%c", r)
		w, err := want.GlyphIndex(&b, r)
		require.NoError(t, err)
		gb, ga, err := got.GlyphBounds(&b, g, ppem, font.HintingNone)
		require.NoError(t, err)
		wb, wa, err := want.GlyphBounds(&b, w, ppem, font.HintingNone)
		require.NoError(t, err)
		require.Equal(t, wa, ga, "%c", r)
		require.Equal(t, wb, gb, "%c", r)
		gs, err := got.LoadGlyph(&b, g, ppem, nil)
		require.NoError(t, err)
		n := len(gs)
		ws, err := want.LoadGlyph(&b, w, ppem, nil)
		require.NoError(t, err)
		require.Equal(t, len(ws), n, "as many lines and curves in %c", r)
	}
	x, err := got.GlyphIndex(&b, 'b')
	require.NoError(t, err)
	require.Zero(t, x, "no other letter")
}

// The curves of an OpenType font with cubic outlines are drawn as quadratic
// ones, nowhere further away than a quarter of a thousandth of the letter.
func TestCubicCurves(t *testing.T) {
	p := [4][2]float64{{0, 0}, {0, 552}, {448, 1000}, {1000, 1000}} // a quarter of a circle
	parts := quads(p[0], p[1], p[2], p[3], 0.25)
	require.LessOrEqual(t, len(parts), 8)
	from := p[0]
	for _, q := range parts {
		for s := range 20 {
			u := float64(s) / 20
			x := (1-u)*(1-u)*from[0] + 2*u*(1-u)*q[0][0] + u*u*q[1][0]
			y := (1-u)*(1-u)*from[1] + 2*u*(1-u)*q[0][1] + u*u*q[1][1]
			require.InDelta(t, 1000, math.Hypot(x-1000, y), 1, "the four-point circle is itself off by 0.3")
		}
		from = q[1]
	}
	require.Equal(t, p[3], from)
	rings := contours(sfnt.Segments{
		{Op: sfnt.SegmentOpMoveTo, Args: [3]fixed.Point26_6{fixed.P(0, 0)}},
		{Op: sfnt.SegmentOpCubeTo, Args: [3]fixed.Point26_6{fixed.P(0, -552), fixed.P(448, -1000), fixed.P(1000, -1000)}},
		{Op: sfnt.SegmentOpLineTo, Args: [3]fixed.Point26_6{fixed.P(0, 0)}},
	}, 1000)
	require.Len(t, rings, 1)
	require.Equal(t, point{x: 1000, y: 1000}, rings[0][len(rings[0])-1], "y runs up, and the ring closes by itself")
}

func TestFontsThatCannotBeUsedSayWhy(t *testing.T) {
	os2 := func(change func([]byte)) []byte {
		data := boxes(t)
		change(rawTable(data, 0, "OS/2"))
		return data
	}
	two := be32([]byte("ttcf"), 0x00010000, 2, 20, 20)
	moved := append([]byte(nil), boxes(t)...)
	for k := range int(binary.BigEndian.Uint16(moved[4:])) {
		at := 12 + 16*k + 8
		binary.BigEndian.PutUint32(moved[at:], binary.BigEndian.Uint32(moved[at:])+20)
	}
	two = append(two, moved...)
	for _, c := range []struct {
		data []byte
		n    int
		want string
	}{
		{nil, 0, "no font that can be read"},
		{[]byte("Notes about lamb, of no use as a font."), 0, "no font that can be read"},
		{boxes(t)[:400], 0, "no font that can be read"},
		{append([]byte("wOF2"), boxes(t)...), 0, "packed for the web"},
		{os2(func(b []byte) { b[9] = 2 }), 0, "does not allow"},
		{os2(func(b []byte) { b[8] = 1 }), 0, "does not allow"},
		{boxes(t), 2, "holds 1 font, so there is no number 2"},
		{two, 0, "holds 2 fonts: say which, such as x.ttf#1"},
		{two, 3, "holds 2 fonts, so there is no number 3"},
	} {
		_, err := Open("x.ttf", c.data, c.n)
		require.ErrorContains(t, err, c.want)
	}
	o, err := Open("x.ttf", two, 2)
	require.NoError(t, err)
	require.True(t, o.Face().Has('ש'))
	o, err = Open("x.ttf", os2(func(b []byte) { binary.BigEndian.PutUint16(b[4:], 700) }), 0)
	require.NoError(t, err)
	require.True(t, o.Face().Bold())

	dir := t.TempDir()
	_, err = Read(dir)
	require.ErrorContains(t, err, "is a folder")
	_, err = Read(filepath.Join(dir, "none.ttf"))
	require.ErrorContains(t, err, "there is no font file")
	big := filepath.Join(dir, "big.ttf")
	require.NoError(t, os.WriteFile(big, boxes(t), 0o644))
	require.NoError(t, os.Truncate(big, MaxSize+1))
	_, err = Read(big)
	require.ErrorContains(t, err, "no more than 64 MB")
	good := filepath.Join(dir, "a#b.ttf")
	require.NoError(t, os.WriteFile(good, boxes(t), 0o644))
	_, err = Read(good + "#1")
	require.NoError(t, err)
}

// Tables that do not begin at a multiple of four bytes: fonts in use have them.
func TestTablesOutOfStep(t *testing.T) {
	data := boxes(t)
	shifted := append(append(append([]byte(nil), data[:12+160]...), 0), data[12+160:]...)
	for k := range 10 {
		at := 12 + 16*k + 8
		binary.BigEndian.PutUint32(shifted[at:], binary.BigEndian.Uint32(shifted[at:])+1)
	}
	o, err := Open("x.ttf", shifted, 0)
	require.NoError(t, err)
	require.True(t, o.Face().Has('ש'))
}

func TestDamagedFontsNeverPanic(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 2))
	whole := tiny(t).Subset([]rune("שלום梨"))
	for n := range 3000 {
		data := append([]byte(nil), whole...)
		for range 1 + r.IntN(6) {
			data[r.IntN(len(data))] = byte(r.IntN(256))
		}
		if n%5 == 0 {
			data = data[:r.IntN(len(data))]
		}
		use(t, data)
	}
}

// use does with a font all that is done with one.
func use(t testing.TB, data []byte) {
	o, err := Open("x.ttf", data, 0)
	if err != nil {
		require.Nil(t, o)
		return
	}
	o.Face().Width("שלום梨 a", 12)
	out := o.Subset([]rune("שלום梨 a"))
	_, err = sfnt.Parse(out)
	require.NoError(t, err, "what goes into the PDF is whole")
}

func FuzzOpen(f *testing.F) {
	f.Add(boxes(f))
	f.Add([]byte("ttcf\x00\x01\x00\x00\x00\x00\x00\x02"))
	f.Fuzz(func(t *testing.T, data []byte) { use(t, data) })
}
