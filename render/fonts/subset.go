package fonts

import (
	"encoding/binary"
	"math"
	"slices"

	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// Subset makes a TrueType file that holds the given characters of o and no
// others, whatever kind of outline its own file has. It is small, complete and
// the same for the same characters; hinting is left behind, which paper has no
// need of. Layout of the tables: OpenType 1.9, "The OpenType Font File".
func (o *Own) Subset(chars []rune) []byte {
	chars = slices.Clone(chars)
	slices.Sort(chars)
	chars = slices.Compact(chars)
	b := builder{em: o.em, box: [4]int{math.MaxInt16, math.MaxInt16, math.MinInt16, math.MinInt16}}
	b.add(0, nil, o.em/2) // .notdef
	o.mu.Lock()
	defer o.mu.Unlock()
	for _, r := range chars {
		if s, advance, ok := o.glyph(r); ok {
			b.add(r, contours(s, o.em), advance)
		}
	}
	return b.file(o.bold)
}

// point is a point of an outline; off ones draw the curve towards them.
type point struct {
	x, y int
	off  bool
}

// contours turns an outline into closed rings of lines and quadratic curves.
func contours(s sfnt.Segments, em int) (rings [][]point) {
	var ring []point
	seal := func() {
		if n := len(ring); n > 1 && ring[n-1] == ring[0] {
			ring = ring[:n-1]
		}
		if len(ring) > 1 {
			rings = append(rings, ring)
		}
		ring = nil
	}
	var pen [2]float64
	at := func(p fixed.Point26_6) [2]float64 { return [2]float64{float64(p.X) / 64, -float64(p.Y) / 64} }
	put := func(p [2]float64, off bool) {
		ring = append(ring, point{int(math.Round(p[0])), int(math.Round(p[1])), off})
	}
	for _, q := range s {
		a := [3][2]float64{at(q.Args[0]), at(q.Args[1]), at(q.Args[2])}
		switch q.Op {
		case sfnt.SegmentOpMoveTo:
			seal()
			put(a[0], false)
			pen = a[0]
		case sfnt.SegmentOpLineTo:
			put(a[0], false)
			pen = a[0]
		case sfnt.SegmentOpQuadTo:
			put(a[0], true)
			put(a[1], false)
			pen = a[1]
		case sfnt.SegmentOpCubeTo:
			for _, c := range quads(pen, a[0], a[1], a[2], float64(em)/4000) {
				put(c[0], true)
				put(c[1], false)
			}
			pen = a[2]
		}
	}
	seal()
	return rings
}

// quads draws a cubic curve as quadratic ones, each a control point and an
// end, no further than about tol from it. A cubic with third difference d lies
// within |d|·√3/36 of the quadratic through its middle; parts of 1/n of it
// within 1/n³ of that.
func quads(p0, p1, p2, p3 [2]float64, tol float64) (out [][2][2]float64) {
	d := math.Hypot(p3[0]-3*p2[0]+3*p1[0]-p0[0], p3[1]-3*p2[1]+3*p1[1]-p0[1]) * math.Sqrt(3) / 36
	n := min(max(int(math.Ceil(math.Cbrt(d/tol))), 1), 8)
	on := func(t float64) (p, slope [2]float64) {
		for i := range 2 {
			u := 1 - t
			p[i] = u*u*u*p0[i] + 3*u*u*t*p1[i] + 3*u*t*t*p2[i] + t*t*t*p3[i]
			slope[i] = 3 * (u*u*(p1[i]-p0[i]) + 2*u*t*(p2[i]-p1[i]) + t*t*(p3[i]-p2[i]))
		}
		return p, slope
	}
	h := 1 / float64(n)
	a, sa := on(0)
	for k := range n {
		b, sb := on(float64(k+1) * h)
		var c [2]float64
		for i := range 2 { // the mean of where the two tangents put the control point
			c[i] = (a[i]+b[i])/2 + h*(sa[i]-sb[i])/4
		}
		out = append(out, [2][2]float64{c, b})
		a, sa = b, sb
	}
	return out
}

// builder gathers glyphs and writes them as a font.
type builder struct {
	em                 int
	chars              []rune
	glyf               []byte
	loca               []byte
	hmtx               []byte
	box                [4]int // least x, y, greatest x, y
	maxPoints, maxRing int
	widest             int
}

func be16(b []byte, v ...int) []byte {
	for _, x := range v {
		b = binary.BigEndian.AppendUint16(b, uint16(x))
	}
	return b
}

func be32(b []byte, v ...int) []byte {
	for _, x := range v {
		b = binary.BigEndian.AppendUint32(b, uint32(x))
	}
	return b
}

// add appends a glyph. An outline that a glyph cannot hold is left blank.
func (b *builder) add(r rune, rings [][]point, advance int) {
	b.loca = be32(b.loca, len(b.glyf))
	b.chars = append(b.chars, r)
	n := 0
	box := [4]int{math.MaxInt16, math.MaxInt16, math.MinInt16, math.MinInt16}
	for _, ring := range rings {
		n += len(ring)
		for _, p := range ring {
			box = [4]int{min(box[0], p.x), min(box[1], p.y), max(box[2], p.x), max(box[3], p.y)}
		}
	}
	fits := n > 0 && n < 10000 && box[0] > -16000 && box[1] > -16000 && box[2] < 16000 && box[3] < 16000
	left := 0
	if fits {
		left = box[0]
		b.maxPoints, b.maxRing = max(b.maxPoints, n), max(b.maxRing, len(rings))
		b.box = [4]int{min(b.box[0], box[0]), min(b.box[1], box[1]), max(b.box[2], box[2]), max(b.box[3], box[3])}
		b.outline(rings, box)
	}
	b.hmtx = be16(b.hmtx, advance, left)
	b.widest = max(b.widest, advance)
}

// outline writes a simple glyph: OpenType, glyf.
func (b *builder) outline(rings [][]point, box [4]int) {
	b.glyf = be16(b.glyf, len(rings), box[0], box[1], box[2], box[3])
	end := -1
	for _, ring := range rings {
		end += len(ring)
		b.glyf = be16(b.glyf, end)
	}
	b.glyf = be16(b.glyf, 0) // no instructions
	var xs, ys []byte
	x, y := 0, 0
	delta := func(d, short, same int, out []byte) (int, []byte) {
		switch {
		case d == 0:
			return same, out
		case d > 0 && d < 256:
			return short | same, append(out, byte(d))
		case d < 0 && d > -256:
			return short, append(out, byte(-d))
		}
		return 0, be16(out, d)
	}
	for _, ring := range rings {
		for _, p := range ring {
			flag, more := 0, 0
			if !p.off {
				flag = 1
			}
			more, xs = delta(p.x-x, 2, 16, xs)
			flag |= more
			more, ys = delta(p.y-y, 4, 32, ys)
			b.glyf = append(b.glyf, byte(flag|more))
			x, y = p.x, p.y
		}
	}
	b.glyf = append(append(b.glyf, xs...), ys...)
	for len(b.glyf)%4 != 0 {
		b.glyf = append(b.glyf, 0)
	}
}

// cmap maps characters to glyphs, in runs: OpenType, cmap format 4.
func (b *builder) cmap() []byte {
	type run struct{ from, to, glyph int }
	var runs []run
	for g, r := range b.chars {
		if g == 0 {
			continue
		}
		if n := len(runs); n > 0 && runs[n-1].to+1 == int(r) {
			runs[n-1].to++
		} else {
			runs = append(runs, run{int(r), int(r), g})
		}
	}
	runs = append(runs, run{0xffff, 0xffff, 0})
	var ends, starts, deltas, offsets []byte
	for _, r := range runs {
		ends, starts, offsets = be16(ends, r.to), be16(starts, r.from), be16(offsets, 0)
		deltas = be16(deltas, r.glyph-r.from)
	}
	n := len(runs)
	span, steps := 1, 0
	for span*2 <= n {
		span, steps = span*2, steps+1
	}
	t := be16(nil, 0, 1, 3, 1)
	t = be32(t, 12)
	t = be16(t, 4, 16+8*n, 0, 2*n, 2*span, steps, 2*(n-span))
	t = append(append(t, ends...), 0, 0)
	return append(append(append(t, starts...), deltas...), offsets...)
}

// file puts the tables together.
func (b *builder) file(bold bool) []byte {
	n := len(b.chars)
	if b.maxPoints == 0 {
		b.box = [4]int{}
	}
	weight, style, selection := 400, 0, 0x40
	if bold {
		weight, style, selection = 700, 1, 0x20
	}
	up, down := b.em*4/5, b.em/5
	head := be32(nil, 0x00010000, 0x00010000, 0, 0x5f0f3cf5)
	head = be16(head, 3, b.em)
	head = be32(head, 0, 0, 0, 0) // made and changed: no clock
	head = be16(head, b.box[0], b.box[1], b.box[2], b.box[3], style, 8, 2, 1, 0)
	hhea := be32(nil, 0x00010000)
	hhea = be16(hhea, up, -down, 0, b.widest, b.box[0], 0, b.box[2], 1, 0, 0, 0, 0, 0, 0, 0, n)
	maxp := be32(nil, 0x00010000)
	maxp = be16(maxp, n, b.maxPoints, b.maxRing, 0, 0, 2, 0, 0, 0, 0, 0, 0, 0, 0)
	os2 := be16(nil, 4, b.em/2, weight, 5, 0)
	for range 10 {
		os2 = be16(os2, 0)
	}
	os2 = append(os2, make([]byte, 2+10+16+4)...) // family class, panose, ranges, vendor
	os2 = be16(os2, selection, int(b.first()), int(b.last()), up, -down, 0, up, down)
	os2 = be32(os2, 0, 0)
	os2 = be16(os2, b.em/2, b.em*7/10, 0, ' ', 0)
	post := be32(nil, 0x00030000, 0)
	post = be16(post, -b.em/10, b.em/20)
	post = be32(post, 0, 0, 0, 0, 0)
	tables := []struct {
		tag  string
		data []byte
	}{
		{"OS/2", os2},
		{"cmap", b.cmap()},
		{"glyf", b.glyf},
		{"head", head},
		{"hhea", hhea},
		{"hmtx", b.hmtx},
		{"loca", be32(b.loca, len(b.glyf))},
		{"maxp", maxp},
		{"name", be16(nil, 0, 0, 6)},
		{"post", post},
	}
	out := be32(nil, 0x00010000)
	out = be16(out, len(tables), 128, 3, len(tables)*16-128)
	at := 12 + 16*len(tables)
	var body []byte
	for _, t := range tables {
		sum := uint32(0)
		data := append(slices.Clone(t.data), make([]byte, (4-len(t.data)%4)%4)...)
		for i := 0; i < len(data); i += 4 {
			sum += binary.BigEndian.Uint32(data[i:])
		}
		out = append(out, t.tag...)
		out = be32(out, int(sum), at, len(t.data))
		at += len(data)
		body = append(body, data...)
	}
	return append(out, body...)
}

func (b *builder) first() rune { return b.chars[min(1, len(b.chars)-1)] }
func (b *builder) last() rune  { return b.chars[len(b.chars)-1] }
