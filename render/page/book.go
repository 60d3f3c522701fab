package page

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"tamis/compiler/sheets"
	"tamis/render/draw"
	"tamis/render/fonts"
)

// A book is bound: left and right pages face each other, a chapter opens on the right, and
// a recipe that takes two pages begins on the left, so that nobody turns over with wet
// hands. Where that would leave a page empty it is ruled, for what came of it.
//
// Every sheet is set by itself, as on a right page; then bind chooses which stand together
// and where; then the numbers are known, and the index is set. What says a number within its
// words is set again until the numbers stay as they are.

// leaf is a sheet that has been set by itself.
type leaf struct {
	sheet int
	pages []*Page
	start Start
	ended float64 // how far down its last page it goes
}

// bound gives paper the margins of a book.
func (p Paper) bound() Paper {
	p.facing = true
	switch {
	case p.W < A4.W*0.8:
		p.binding, p.edge = 17*mm, 13*mm
	default:
		p.binding, p.edge = 26*mm, 20*mm
	}
	return p
}

// The sizes of a book: it is read in the hand or on the bench, so its words are somewhat
// smaller than those of a sheet on the wall.
var (
	folio = sizes{
		masthead: 44, title: 28, again: 15, heading: 15, sub: 13.5,
		step: 13.5, number: 20, look: 13, body: 13, small: 11, running: 10, chart: 10.5,
	}
	octavo = sizes{
		masthead: 31, title: 21, again: 12, heading: 12.5, sub: 11.5,
		step: 11, number: 16, look: 10.5, body: 10.5, small: 9.5, running: 9, chart: 10,
	}
)

// sizesOfBook are the type sizes of a book.
func sizesOfBook(opt Options) sizes {
	switch {
	case opt.Large:
		return large
	case opt.Paper.W < A4.W*0.8:
		return octavo
	}
	return folio
}

// closer are sizes for a recipe of a book that would have a few lines left over.
func (t *typesetter) closer() sizes {
	z := t.sz
	if !t.opt.Large {
		z.step, z.body, z.look, z.small = z.step*0.95, z.body*0.95, z.look*0.95, z.small*0.95
	}
	return z
}

// mostPasses is how often a book is set before its page numbers are given the width of the
// widest, which ends any to and fro.
const mostPasses = 4

// bind lays a book out.
func (t *typesetter) bind(ctx context.Context) error {
	t.at = map[string]int{}
	for i, s := range t.doc.Sheets {
		t.at[s.ID] = i + 1 // a guess, of as many figures as most have
	}
	for pass := 0; ; pass++ {
		t.book.Pages, t.book.Sheets, t.notes, t.field, t.order = nil, nil, nil, 0, 0
		t.wideNumbers = pass >= mostPasses
		var leaves []leaf
		for i, s := range t.doc.Sheets {
			if err := ctx.Err(); err != nil {
				return err
			}
			if s.Kind != sheets.Index {
				leaves = append(leaves, t.leaf(i))
			}
		}
		t.assemble(leaves)
		now := map[string]int{}
		for _, s := range t.book.Sheets {
			now[s.ID] = s.Page + 1
		}
		same := true
		for id, n := range now {
			same = same && t.at[id] == n
		}
		for i, s := range t.doc.Sheets {
			if s.Kind == sheets.Index { // it comes last, so it moves nothing
				now[s.ID] = len(t.book.Pages) + 1
				same = same && t.at[s.ID] == now[s.ID]
				t.at = now
				if same || t.wideNumbers {
					t.append(t.leaf(i))
				}
			}
		}
		t.at = now
		if same || t.wideNumbers {
			return nil
		}
	}
}

// leaf sets sheet i by itself.
func (t *typesetter) leaf(i int) leaf {
	pages, started := len(t.book.Pages), len(t.book.Sheets)
	t.fitSheet(i)
	if n := len(t.book.Pages) - pages; n > 1 && t.doc.Sheets[i].Kind == sheets.Prep && !pictured(&t.doc.Sheets[i]) {
		t.spread(i, pages, started, n)
	}
	l := leaf{sheet: i, pages: slices.Clone(t.book.Pages[pages:]), start: t.book.Sheets[started], ended: t.ended}
	l.start.Page -= pages
	l.start.Parts = slices.Clone(l.start.Parts)
	for k := range l.start.Parts {
		l.start.Parts[k].Page -= pages
	}
	if t.doc.Sheets[i].Kind == sheets.Prep {
		l.start.Level = 1
	}
	t.book.Pages, t.book.Sheets = t.book.Pages[:pages], t.book.Sheets[:started]
	return l
}

// spread sets a recipe of n pages anew with its method on a page of its own, where that
// takes no page more and leaves none nearly empty: what is gathered faces what is done.
func (t *typesetter) spread(i, pages, started, n int) {
	with := t.tried(pages, started)
	t.again(*t, pages, started)
	t.apart = true
	t.fitSheet(i)
	t.apart = false
	full := true
	for _, p := range t.book.Pages[pages:] {
		full = full && t.filled(p) > 0.4
	}
	if len(t.book.Pages)-pages == n && (full || t.filled(with.pages[n-1]) < 0.3) {
		return
	}
	t.take(with, pages, started)
}

// fitPlate lays out a recipe of a book that has pictures: on one page where they can be
// seen there, else on two that face each other, the method on the second.
func (t *typesetter) fitPlate(i int) {
	state := *t
	pages, started := len(t.book.Pages), len(t.book.Sheets)
	lay := func(size float64, apart bool) int {
		t.again(state, pages, started)
		t.picture, t.apart = size, apart
		t.fitAir(i, false)
		t.picture, t.apart = 0, false
		return len(t.book.Pages) - pages
	}
	for _, size := range pictureSizes {
		if lay(size, false) == 1 {
			return
		}
	}
	n := lay(1, false)
	if lay(1, true) > n {
		lay(1, false)
	}
}

// filled is how much of a page of a book has words on it, from 0 to 1.
func (t *typesetter) filled(p *Page) float64 {
	low := t.top(p)
	for _, o := range p.Ops {
		_, b := o.Span()
		low = max(low, b)
	}
	return (low - t.top(p)) / (t.bottom(p) - t.top(p))
}

// bottom is where the words of a page end at the latest.
func (t *typesetter) bottom(p *Page) float64 {
	_, foot := t.furniture()
	return p.Area.Y + p.Area.H - foot
}

// append adds the pages of a leaf to the book.
func (t *typesetter) append(l leaf) {
	from := len(t.book.Pages)
	for _, p := range l.pages {
		if len(t.book.Pages)%2 == 1 { // a left page: its wide margin is at the right
			dx := t.opt.Paper.edge - t.opt.Paper.binding
			draw.MoveAll(p.Ops, dx, 0)
			p.Area.X += dx
		}
		t.book.Pages = append(t.book.Pages, p)
	}
	t.begin(l.start, from, 0)
}

// begin notes where a sheet begins, on page from or those after it, dy further down.
func (t *typesetter) begin(s Start, from int, dy float64) {
	s.Page += from
	if dy != 0 {
		s.Y += dy
	}
	for k := range s.Parts {
		s.Parts[k].Page += from
		s.Parts[k].Y += dy
	}
	t.book.Sheets = append(t.book.Sheets, s)
}

// assemble puts leaves into the order of the book, on the sides of paper they want.
func (t *typesetter) assemble(leaves []leaf) {
	kind := func(l leaf) sheets.Kind { return t.doc.Sheets[l.sheet].Kind }
	leaves = t.front(leaves)
	for i := 0; i < len(leaves); {
		k := kind(leaves[i])
		if k == sheets.Chapter && len(t.book.Pages)%2 == 1 {
			t.rule()
		}
		if k != sheets.Prep {
			t.append(leaves[i])
			i++
			continue
		}
		j := i
		for j < len(leaves) && kind(leaves[j]) == sheets.Prep {
			j++
		}
		t.chapter(leaves[i:j])
		i = j
	}
}

// front places the pages before the first chapter, and returns what follows them. The
// cautions have a page of their own where that saves an empty one, else they stand behind
// the title page too; what stands there stands at its foot.
func (t *typesetter) front(leaves []leaf) []leaf {
	n, imprint, care := 0, -1, -1
	sides := 0
	for n < len(leaves) && t.doc.Sheets[leaves[n].sheet].Kind != sheets.Chapter {
		switch t.doc.Sheets[leaves[n].sheet].Kind {
		case sheets.Imprint:
			imprint = n
		case sheets.Care:
			care = n
		}
		sides += len(leaves[n].pages)
		n++
	}
	for i, l := range leaves[:n] {
		both := imprint >= 0 && care >= 0 && sides%2 == 1 && t.stand([]leaf{leaves[imprint], leaves[care]})
		group := []leaf{l}
		switch {
		case i == care && both:
			continue
		case i == imprint && both:
			group = append(group, leaves[care])
		}
		if len(l.pages) > 1 {
			t.append(l)
			continue
		}
		ended := t.together(group)
		if i == imprint {
			p := l.pages[0]
			draw.MoveAll(p.Ops, 0, max(t.bottom(p)-ended, 0))
		}
	}
	return leaves[n:]
}

// What a page more costs, and one that is left to write on.
const (
	costPage  = 10
	costRuled = 14
	costShort = 1 // a recipe that does not stand alone on its page
)

// chapter places the recipes of a chapter in their order: with the fewest pages, and
// fewer of them empty.
func (t *typesetter) chapter(leaves []leaf) {
	n := len(leaves)
	type choice struct {
		cost  int
		count int  // how many recipes stand on the next page; 0: it has several pages
		ruled bool // a page to write on comes first
	}
	// best[i][left] is the cheapest way to go on with recipe i where the next page is
	// a left one, or a right one
	best := make([][2]choice, n+1)
	best[n] = [2]choice{{cost: costRuled}, {}} // the next chapter opens on the right
	if len(leaves) > 0 && leaves[n-1].sheet+1 < len(t.doc.Sheets) && t.doc.Sheets[leaves[n-1].sheet+1].Kind != sheets.Chapter {
		best[n] = [2]choice{}
	}
	const left, right = 0, 1
	for i := n - 1; i >= 0; i-- {
		for side := range 2 {
			c := choice{cost: -1}
			add := func(d choice) {
				if c.cost < 0 || d.cost < c.cost {
					c = d
				}
			}
			pages := len(leaves[i].pages)
			if pages > 1 {
				d := choice{cost: costPage * pages}
				begins := side
				if side == right {
					d.ruled, begins, d.cost = true, left, d.cost+costRuled
				}
				d.cost += best[i+1][(begins+pages)%2].cost
				add(d)
			} else {
				for count := 1; i+count <= n && t.stand(leaves[i:i+count]); count++ {
					add(choice{cost: costPage + costShort*(count-1) + best[i+count][1-side].cost, count: count})
				}
			}
			best[i][side] = c
		}
	}
	for i := 0; i < n; {
		side := right
		if len(t.book.Pages)%2 == 1 {
			side = left
		}
		c := best[i][side]
		if c.ruled {
			t.rule()
		}
		if c.count == 0 {
			t.append(leaves[i])
			i++
			continue
		}
		t.together(leaves[i : i+c.count])
		i += c.count
	}
}

// stand tells whether leaves stand on one page, one below the other.
func (t *typesetter) stand(leaves []leaf) bool {
	y := 0.0
	for i, l := range leaves {
		if len(l.pages) != 1 {
			return false
		}
		if y += l.ended - t.top(l.pages[0]); i > 0 {
			y += apart * t.sz.step
		}
	}
	p := leaves[0].pages[0]
	return len(leaves) == 1 || y <= t.bottom(p)-t.top(p)
}

// apart is how far recipes on one page stand apart, in sizes of their words.
const apart = 3.2

// top is where the words of a page begin.
func (t *typesetter) top(p *Page) float64 {
	head, _ := t.furniture()
	return p.Area.Y + head
}

// together puts leaves that have a page each on one, and returns where the last ends.
func (t *typesetter) together(leaves []leaf) (ended float64) {
	first := leaves[0].pages[0]
	ended = leaves[0].ended
	var moved []float64
	for _, l := range leaves[1:] {
		p := l.pages[0]
		dy := ended + apart*t.sz.step - t.top(p)
		first.Below = append(first.Below, Below{l.sheet, len(first.Ops)})
		first.Ops = append(first.Ops, draw.MoveAll(p.Ops, 0, dy)...)
		ended = l.ended + dy
		moved = append(moved, dy)
	}
	at := len(t.book.Pages)
	t.append(leaves[0])
	for i, l := range leaves[1:] {
		if l.start.Y == 0 {
			l.start.Y = t.top(first)
		}
		t.begin(l.start, at, moved[i])
	}
	return ended
}

// rule adds a page to write on.
func (t *typesetter) rule() {
	paper := t.opt.Paper
	p := &Page{W: paper.W, H: paper.H, Area: Box{paper.binding, paper.edge, paper.W - paper.binding - paper.edge, paper.H - 2*paper.edge}, ruled: true}
	if n := len(t.book.Pages); n > 0 {
		p.Sheet = t.book.Pages[n-1].Sheet
		if below := t.book.Pages[n-1].Below; len(below) > 0 {
			p.Sheet = below[len(below)-1].Sheet
		}
	}
	size := t.sz.small
	words := t.clip([]span{{text: "When, for whom, and what came of it", face: fonts.SansItalic, size: size}}, p.Area.W)
	y := t.top(p)
	p.Ops = append(p.Ops, words.ops(p.Area.X, y, 0)...)
	for y += size * 1.6; y+size*2.4 < t.bottom(p); {
		y += size * 2.4
		p.Ops = append(p.Ops, &draw.Line{X1: p.Area.X, X2: p.Area.X + p.Area.W, Y1: y, Y2: y, Width: hair, Dash: []float64{0.5, 2}})
	}
	t.append(leaf{pages: []*Page{p}, start: Start{ID: "-"}})
	t.book.Sheets = t.book.Sheets[:len(t.book.Sheets)-1]
}

// bookHead is what a sheet of a book begins with.
func (t *typesetter) bookHead(s *sheets.Sheet, w float64) []*piece {
	p := &piece{glue: weak}
	y := 0.0
	line := func(text string, face fonts.Face, size, before float64, tag string) {
		pa := t.set(w, 1.12, span{text: text, face: face, size: size})
		ops := pa.ops(0, y+before, t.nextField())
		if tag != "" {
			draw.Mark(ops, &draw.Tag{Role: tag})
		}
		p.add(ops, 0, 0)
		y += before + pa.height()
	}
	frame := t.page().Area.H
	switch s.Kind {
	case sheets.TitlePage:
		y = frame * 0.2
		line(s.Title, fonts.SerifBold, t.sz.masthead, 0, "H1")
		p.add(draw.Stripe(0, 0, 0, w, t.sz.step*0.8), 0, y+t.sz.step)
		y += t.sz.step * 2.2
		for _, f := range s.Facts {
			line(f, fonts.SerifItalic, t.sz.sub*1.25, t.sz.step*0.5, "")
		}
		y += t.sz.step
	case sheets.Chapter:
		y = frame * 0.14
		line(s.Title, fonts.SerifBold, t.sz.masthead, 0, "H1")
		p.add(draw.Stripe(t.doc.ChapterNumber(s.Chapter), 0, 0, w, t.sz.step*0.8), 0, y+t.sz.step*0.8)
		y += t.sz.step * 2.2
	case sheets.Imprint, sheets.Care:
		line(s.Title, fonts.SansBold, t.sz.body, 0, "H1")
		y += t.sz.small * 0.3
	case sheets.Prep:
		line(s.Title, fonts.SerifBold, t.sz.title, 0, "H1")
		if len(s.Facts) > 0 {
			facts := t.facts(s.Facts, w, fonts.Sans, t.sz.small)
			p.add(facts.ops(0, y+2, t.nextField()), 0, 0)
			y += 2 + facts.height()
		}
		p.add(draw.Stripe(t.doc.ChapterNumber(s.Chapter), 0, 0, w, 4), 0, y+4)
		y += 4 + 4 + t.sz.step*0.35
	default:
		line(s.Title, fonts.SerifBold, t.sz.title*1.1, 0, "H1")
		p.ops = append(p.ops, &draw.Line{X1: 0, Y1: y + 4, X2: w, Y2: y + 4, Width: rule})
		y += 4 + t.sz.step*0.6
	}
	p.h = y
	return []*piece{p}
}

// pageText is what a run says on paper of the page that it leads to.
func (t *typesetter) pageText(r sheets.Run) string {
	if t.opt.Paper.Card {
		return strings.ReplaceAll(strings.ReplaceAll(r.Page, "p. ", ""), "#", t.filed(r.Link))
	}
	n := fmt.Sprint(t.at[strings.TrimPrefix(r.Link, "#")])
	if t.wideNumbers {
		for len(n) < 4 {
			n = "\u2007" + n
		}
	}
	return strings.ReplaceAll(strings.ReplaceAll(r.Page, "p. ", "p.\u00a0"), "#", n)
}

// alphabet is the index: a letter, and the entries below it, those of one page once.
func (t *typesetter) alphabet(f *flow, b *sheets.Alphabet) {
	n, gap := 2, t.sz.body*1.6
	if f.width() > 400 && !t.opt.Large {
		n = 3
	}
	if t.opt.Large {
		n = 1
	}
	w := (f.width() - gap*float64(n-1)) / float64(n)
	list := &draw.Tag{Role: "L"}
	var out []*piece
	for i, l := range b.Letters {
		if t.boxed() { // an index card has no room for heads
			for k, e := range l.Entries {
				p := t.entry(e, w)
				if p.before = 0; k == 0 && i > 0 {
					p.before = t.sz.small * 0.5
				}
				listed(list, nil, p.ops)
				out = append(out, p)
			}
			continue
		}
		head := &piece{before: t.sz.small * 1.1, glue: firm}
		pa := t.set(w, leadTight, span{text: l.Letter, face: fonts.SerifBold, size: t.sz.sub})
		head.ops = pa.ops(0, 0, t.nextField())
		head.h = pa.height() + 1
		listed(list, nil, head.ops)
		out = append(out, head)
		for _, e := range l.Entries {
			p := t.entry(e, w)
			listed(list, nil, p.ops)
			out = append(out, p)
		}
	}
	f.inColumns(n, gap, out, mayBeEmpty)
}

// entry is one entry of the index.
func (t *typesetter) entry(e sheets.Entry, w float64) *piece {
	size := t.sz.small
	spans := []span{{text: e.Name, face: fonts.Sans, size: size}}
	type place struct {
		page   int
		strong bool
		link   string
	}
	var at []place
	for _, r := range e.At {
		if t.boxed() {
			text := t.filed(r.Link)
			if len(spans) > 1 {
				text = ", " + text
			} else {
				text = "  " + text
			}
			spans = append(spans, span{text: text, face: pick(r.Style == sheets.Strong, fonts.SansBold, fonts.Sans), size: size, link: r.Link})
			continue
		}
		n := t.at[strings.TrimPrefix(r.Link, "#")]
		if i := slices.IndexFunc(at, func(p place) bool { return p.page == n }); i >= 0 {
			if r.Style == sheets.Strong {
				at[i].strong, at[i].link = true, r.Link
			}
			continue
		}
		at = append(at, place{n, r.Style == sheets.Strong, r.Link})
	}
	slices.SortFunc(at, func(a, b place) int { return a.page - b.page })
	for i, p := range at {
		if i == 0 {
			spans = append(spans, span{text: "  ", face: fonts.Sans, size: size})
		} else {
			spans = append(spans, span{text: ", ", face: fonts.Sans, size: size})
		}
		spans = append(spans, span{text: fmt.Sprint(p.page), face: pick(p.strong, fonts.SansBold, fonts.Sans), size: size, link: p.link})
	}
	if e.Note != "" {
		spans = append(spans, span{text: " " + e.Note, face: fonts.SansItalic, size: size})
	}
	const hang = 9.0
	pa := t.set(w-hang, 1.25, spans...)
	p := &piece{before: size * 0.14, h: pa.height()}
	ops := pa.ops(0, 0, t.nextField())
	for _, o := range ops {
		if x, ok := o.(*draw.Text); ok && len(pa.lines) > 1 && x.Y > size*1.3 {
			x.X += hang
		}
	}
	p.ops = ops
	return p
}

// plainCares sets cautions as a book has them: small, beside the sign, without a frame.
func (t *typesetter) plainCares(b *sheets.Cautions, w float64) []*piece {
	size := t.sz.small
	x := size * 1.9
	var out []*piece
	list := &draw.Tag{Role: "L"}
	for i, c := range b.Items {
		spans := []span{{text: c.Text, face: fonts.Sans, size: size}}
		if c.Source != "" {
			spans = append(spans, span{text: " " + c.Source + ".", face: fonts.SansItalic, size: size})
		}
		pa := t.set(min(w-x, size*44), 1.25, spans...)
		p := &piece{before: size * 0.35 * t.air, h: pa.height()}
		if i == 0 {
			p.before = size * 1.3 * t.air
			p.ops = append(p.ops, warning(0, size*0.06, size*0.95)...)
		}
		words := pa.ops(x, 0, t.nextField())
		listed(list, nil, words)
		p.add(words, 0, 0)
		out = append(out, p)
	}
	if n := len(out); n > 2 {
		out[n-2].glue = firm // the last does not stand alone
	}
	return out
}

// smallProse is prose that is read last.
func (t *typesetter) smallProse(b *sheets.Prose, w float64) []*piece {
	size := t.sz.small
	var out []*piece
	for i, q := range b.Paras {
		pa := t.set(min(w, size*44), 1.28, t.spans(q.Runs, false, size)...)
		p := &piece{before: size * 0.3 * t.air, h: pa.height(), ops: pa.ops(0, 0, t.nextField())}
		if i == 0 {
			p.before = size * 1.1 * t.air
		}
		out = append(out, p)
	}
	return out
}

// runningBook writes the head and the foot of a page of a book: the chapter on the left, the
// recipe on the right, the number at the outer edge.
func (t *typesetter) runningBook(p *Page, n int) {
	s := &t.doc.Sheets[p.Sheet]
	size, a := t.sz.running, p.Area
	if s.Kind == sheets.TitlePage && !p.ruled {
		return
	}
	isLeft := n%2 == 1
	edge := func(pa para, y float64) {
		x := a.X
		if !isLeft {
			x += a.W - pa.width()
		}
		p.Ops = append(p.Ops, pa.ops(x, y, 0)...)
	}
	foot := a.Y + a.H - size
	edge(t.clip([]span{{text: fmt.Sprint(n + 1), face: fonts.SansBold, size: size}}, a.W), foot)
	if p.Turn && !isLeft && s.Kind == sheets.Prep {
		hint := t.clip([]span{{text: "goes on overleaf", face: fonts.Sans, size: size}}, a.W/2)
		p.Ops = append(p.Ops, hint.ops(a.X, foot, 0)...)
	}
	if s.Kind == sheets.Chapter && !p.ruled || s.Kind == sheets.Imprint || s.Kind == sheets.Care {
		return
	}
	head := s.Title
	switch {
	case s.Kind == sheets.Prep && isLeft:
		head = s.Chapter
	case s.Kind == sheets.Prep:
		for _, b := range p.Below {
			head += " · " + t.doc.Sheets[b.Sheet].Title
		}
	case isLeft:
		head = t.doc.Title
	}
	edge(t.clip([]span{{text: head, face: fonts.Sans, size: size}}, a.W), a.Y)
	y := a.Y + size*1.25
	p.Ops = append(p.Ops, &draw.Line{X1: a.X, Y1: y, X2: a.X + a.W, Y2: y, Width: hair})
}
