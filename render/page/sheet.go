package page

import (
	"fmt"
	"slices"
	"strings"

	"tamis/compiler/sheets"
	"tamis/render/draw"
	"tamis/render/fonts"
)

const (
	lead      = 1.32 // line distance of sentences, as a share of the size
	leadTight = 1.2  // of names and figures
	hair      = 0.5
	rule      = 1.25
)

// hangs tells whether a sheet is looked up at on a wall.
func hangs(s *sheets.Sheet) bool { return s.Kind == sheets.Wall || s.Kind == sheets.Timeline }

func (t *typesetter) page() *Page { return t.book.Pages[len(t.book.Pages)-1] }

// newPage opens a page for the sheet of f and, after the first of a sheet,
// repeats its title.
func (t *typesetter) newPage(f *flow) {
	s := &t.doc.Sheets[f.sheet]
	paper := t.opt.Paper
	if hangs(s) {
		paper = paper.Hung()
	}
	p := &Page{W: paper.W, H: paper.H, Sheet: f.sheet}
	edge, binding := paper.edge, paper.binding
	if (hangs(s) || s.Kind == sheets.Leaf) && !paper.facing {
		binding = edge // it hangs or is handed out, and is not punched
	}
	top, left := edge, binding
	if s.Wide && p.H > p.W {
		p.W, p.H = p.H, p.W
		top, left = binding, edge
	}
	if t.boxed() {
		top -= tabRises
	}
	p.Area = Box{left, top, p.W - left - edge, p.H - top - edge}
	t.book.Pages = append(t.book.Pages, p)
	if t.verso() {
		// the fold is to the right, below a page on its side
		p.Area.X, p.Area.Y = edge, edge
	}

	head, foot := t.furniture()
	if p.headless = s.Kind == sheets.Leaf && t.book.Sheets[len(t.book.Sheets)-1].Page == len(t.book.Pages)-1 && !t.opt.Paper.Card; p.headless {
		head = 0
	}
	f.frame = Box{p.Area.X, p.Area.Y + head, p.Area.W, p.Area.H - head - foot}
	f.y, f.fresh, f.column = f.frame.Y, true, 0
	if f.columns == 0 {
		f.columns = 1
	}

	if st := t.book.Sheets[len(t.book.Sheets)-1]; st.Page < len(t.book.Pages)-1 && !t.untitled(s) {
		pc := t.titleAgain(s, f.frame.W)
		page := t.page()
		page.Ops = append(page.Ops, draw.MoveAll(pc.ops, f.frame.X, f.y)...)
		f.y += pc.h
		f.frame.H -= pc.h
		f.frame.Y += pc.h
	}
}

// untitled tells whether the later pages of s go without its title: on a card and in a book
// it stands in the running head, and each part of a chart has a heading of its own.
func (t *typesetter) untitled(s *sheets.Sheet) bool {
	return t.opt.Paper.Card || t.bound() || s.Kind == sheets.Timeline
}

// titleAgain is the small title of the later pages of a sheet.
func (t *typesetter) titleAgain(s *sheets.Sheet, w float64) *piece {
	p := &piece{}
	x := 0.0
	size := t.sz.again
	if s.Letter != "" {
		ops, mw := t.mark(s.Letter, 0, 0, size*1.25, 0)
		p.ops = append(p.ops, ops...)
		x = mw + 7
	}
	text := t.clip([]span{
		{text: s.Title, face: fonts.SerifBold, size: size},
		{text: ", continued", face: fonts.Sans, size: max(size*0.72, t.sz.running)},
	}, w-x)
	p.add(text.ops(x, size*0.12, 0), 0, 0)
	p.h = max(text.height(), size*1.65) + 8
	return p
}

// clip sets spans on one line, cut short with … when they do not fit.
func (t *typesetter) clip(spans []span, w float64) para {
	for i := range spans {
		if n := max(int(w), 0); len(spans[i].text) > n { // more bytes than points cannot fit
			spans[i].text = strings.ToValidUTF8(spans[i].text[:n], "")
		}
	}
	p := t.set(1e6, leadTight, spans...)
	if len(p.lines) == 0 || p.lines[0].width <= w {
		return p
	}
	// what is kept leaves room for the dots; in which face they come is all one
	const dots = "…"
	room := w
	for _, q := range p.lines[0].parts {
		room = min(room, w-q.face.Width(dots, q.size))
	}
	var first []part
	for _, q := range p.lines[0].parts {
		if q.x+q.w <= room {
			first = append(first, q)
			continue
		}
		text, x := "", q.x
		for _, r := range q.text {
			if x += q.face.Width(string(r), q.size); x > room {
				break
			}
			text += string(r)
		}
		if text != "" || len(first) == 0 {
			q.text = text
			first = append(first, q)
		}
		break
	}
	last := &first[len(first)-1]
	last.text = strings.TrimRight(last.text, " \u00a0")
	if !last.face.Has('…') { // a font of the writer's
		last.w = last.face.Width(last.text, last.size)
		end := part{span: span{face: fonts.Sans, size: last.size}, x: last.x + last.w, glued: true}
		first = append(first, end)
		last = &first[len(first)-1]
	}
	last.text += dots
	last.w = last.face.Width(last.text, last.size)
	p.lines = []line{{parts: first, width: last.x + last.w, gap: p.lines[0].gap}}
	return p
}

// fitSheet lays one sheet out.
func (t *typesetter) fitSheet(i int) {
	if t.doc.Sheets[i].Kind == sheets.Leaf && !t.opt.Paper.Card {
		t.fitLeaf(i)
		return
	}
	if pictured(&t.doc.Sheets[i]) && t.bound() && t.doc.Sheets[i].Kind == sheets.Prep {
		t.fitPlate(i)
		return
	}
	if pictured(&t.doc.Sheets[i]) {
		t.fitPictures(i)
		return
	}
	if t.doc.Sheets[i].Kind == sheets.Shopping {
		t.fitShopping(i)
		return
	}
	if spares(&t.doc.Sheets[i]) {
		t.fitSpare(i)
		return
	}
	t.fitAir(i, true)
}

// fitSpare lays a sheet out with its spare rows if they cost no page, else without.
func (t *typesetter) fitSpare(i int) {
	state := *t
	pages, started := len(t.book.Pages), len(t.book.Sheets)
	t.fitAir(i, true)
	if len(t.book.Pages)-pages == 1 {
		return // no sheet is less than a page
	}
	full, with := t.doc, t.tried(pages, started)
	t.again(state, pages, started)
	lean := *full
	lean.Sheets = slices.Clone(full.Sheets)
	lean.Sheets[i] = withoutSpare(full.Sheets[i])
	t.doc = &lean
	t.fitAir(i, true)
	t.doc = full
	if len(t.book.Pages)-pages == len(with.pages) {
		t.take(with, pages, started)
	}
}

func spares(s *sheets.Sheet) bool {
	return slices.ContainsFunc(s.Blocks, func(b sheets.Block) bool {
		if p, ok := b.(*sheets.Prose); ok {
			return p.Spare
		}
		tb, ok := b.(*sheets.Table)
		return ok && slices.ContainsFunc(tb.Groups, func(g sheets.Group) bool {
			return slices.ContainsFunc(g.Rows, func(r sheets.Row) bool { return r.Spare })
		})
	})
}

// withoutSpare is a sheet without its spare rows and prose.
func withoutSpare(s sheets.Sheet) sheets.Sheet {
	s.Blocks = slices.DeleteFunc(slices.Clone(s.Blocks), func(b sheets.Block) bool {
		p, ok := b.(*sheets.Prose)
		return ok && p.Spare
	})
	for k, b := range s.Blocks {
		tb, ok := b.(*sheets.Table)
		if !ok {
			continue
		}
		lean := *tb
		lean.Groups = slices.Clone(tb.Groups)
		for n, g := range lean.Groups {
			lean.Groups[n].Rows = slices.DeleteFunc(slices.Clone(g.Rows), func(r sheets.Row) bool { return r.Spare })
		}
		s.Blocks[k] = &lean
	}
	return s
}

// airs are the shares of the usual space between its parts that a sheet is set
// with to save a page.
var airs = []float64{1, 0.75, 0.5, 0.35}

// fit is how a sheet is set: its sizes of type, the air between its parts, and
// which of the fewer rows its boards have; 0: all.
type fit struct {
	sz    sizes
	air   float64
	close int
}

// fits are the ways to set s, from the usual to that which saves most: less
// air between the parts, then, for a list that is carried in the hand, smaller type.
func (t *typesetter) fits(s *sheets.Sheet) (out []fit) {
	all := []sizes{t.sz}
	if hangs(s) && t.opt.Paper.hung != nil { // seen from further off, where the day goes on a leaf so
		all = []sizes{t.sz.times(1.3), t.sz.times(1.15), t.sz}
	}
	if s.Kind == sheets.Shopping || s.Kind == sheets.Mise || s.Kind == sheets.Overview {
		all = append(all, t.inHand())
	}
	if t.bound() && (s.Kind == sheets.Prep || s.Kind == sheets.Contents) {
		all = append(all, t.closer())
		if s.Kind == sheets.Contents && !t.opt.Large { // names to look along, read one at a time
			z := t.closer()
			z.body = z.small
			all = append(all, z)
		}
	}
	spaces := airs
	if t.opt.Paper.Card { // set as tightly as can be already
		spaces = airs[:1]
		all = append(all, t.onFewerCards(s)...)
	}
	for _, z := range all {
		for _, air := range spaces {
			out = append(out, fit{sz: z, air: air * t.air})
		}
	}
	closest := 0
	for _, b := range s.Blocks {
		if board, ok := b.(*sheets.Board); ok {
			closest = max(closest, len(board.Close))
		}
	}
	usual := slices.Clone(out)
	for n := range closest {
		for _, how := range usual {
			how.close = n + 1
			out = append(out, how)
		}
	}
	return out
}

// onFewerCards are sizes for a card of a box that would have a few lines left over for another
// one: letters a twelfth smaller; a title that is longer than its card as small as it must be.
func (t *typesetter) onFewerCards(s *sheets.Sheet) (out []sizes) {
	if !t.boxed() {
		return nil
	}
	z := t.sz
	z.step, z.body, z.look, z.heading, z.number = z.step*11/12, z.body*11/12, z.look*11/12, z.heading*11/12, z.number*11/12
	if s.Kind == sheets.TitlePage {
		for _, size := range []float64{0.8, 0.65, 0.5} {
			y := z
			y.masthead = z.masthead * size
			out = append(out, y)
		}
		return out
	}
	return append(out, z)
}

// scrap is how much of a card is too little for a card of its own.
const scrap = 0.3

// leastOnCards are the smallest sizes on a card of a box.
func (t *typesetter) leastOnCards() sizes {
	z := t.sz
	z.step, z.body, z.look, z.heading, z.number, z.title = z.step*0.85, z.body*0.85, z.look*0.85, z.heading*0.85, z.number*0.85, z.title*0.85
	z.small = min(z.small, 9.2)
	return z
}

// inHand are the sizes of what is read in the hand or on the bench, not from an arm's
// length: somewhat smaller, but in large type and on cards.
func (t *typesetter) inHand() sizes {
	z := t.sz
	if !t.opt.Large && !t.opt.Paper.Card {
		z.title, z.sub, z.body, z.small = min(z.title, 26), 12.5, 11.5, 10
	}
	return z
}

// fitAir lays a sheet out; foot has pictures set below all else. Where somewhat
// less air between its parts, or smaller type in a list that is carried, saves a
// page, it is set so: a sheet that need not be turned is worth it. The tightest is
// tried first, for what that does not save, no other does: such a sheet is laid out
// twice and no more.
func (t *typesetter) fitAir(i int, foot bool) {
	t.notes = slices.Clip(t.notes) // what one try adds the next does not write over
	state := *t
	pages, started := len(t.book.Pages), len(t.book.Sheets)
	lay := func(how fit) try {
		t.again(state, pages, started)
		t.sz, t.air, t.close, t.tables = how.sz, how.air, how.close, map[*sheets.Table]*needs{}
		t.sheet(i, foot)
		t.sz, t.air, t.close, t.tables = state.sz, state.air, state.close, state.tables
		return t.tried(pages, started)
	}
	ways := t.fits(&t.doc.Sheets[i])
	usual := lay(ways[0])
	if n := len(usual.pages); n < 2 || n > 6 || len(ways) < 2 {
		return
	}
	last := len(ways) - 1
	best := lay(ways[last])
	if len(best.pages) >= len(usual.pages) {
		best = usual
	} else {
		for _, way := range ways[1:last] {
			if wider := lay(way); len(wider.pages) == len(best.pages) {
				best = wider
				break
			}
		}
	}
	// no side of a card for a line or two, and no second card for what can be on both sides of one
	if n := len(best.pages); t.boxed() && (n > 1 && t.filled(best.pages[n-1]) < scrap || n > 2) {
		if least := lay(fit{sz: t.leastOnCards(), air: t.air}); len(least.pages) < n {
			best = least
		}
	}
	t.take(best, pages, started)
}

// try is a way in which a sheet has been laid out: what came of it from some page on.
type try struct {
	after  typesetter
	pages  []*Page
	starts []Start
}

// tried keeps the pages from the one given on, so that another way can be tried.
func (t *typesetter) tried(pages, started int) try {
	return try{*t, slices.Clone(t.book.Pages[pages:]), slices.Clone(t.book.Sheets[started:])}
}

// take puts a way that was tried in the place of whatever was tried after it.
func (t *typesetter) take(x try, pages, started int) {
	*t = x.after
	t.book.Pages = append(t.book.Pages[:pages], x.pages...)
	t.book.Sheets = append(t.book.Sheets[:started], x.starts...)
}

// again goes back to where t was when the pages and sheets were as many as
// given.
func (t *typesetter) again(state typesetter, pages, started int) {
	*t = state
	t.book.Pages, t.book.Sheets = t.book.Pages[:pages], t.book.Sheets[:started]
}

// sheet lays one sheet out.
func (t *typesetter) sheet(i int, foot bool) {
	s := &t.doc.Sheets[i]
	start := Start{ID: s.ID, Title: t.clean(s.Title), Page: len(t.book.Pages)}
	f := &flow{t: t, sheet: i, columns: 1}
	from := 0 // the marks of the first page that are not of this sheet
	if t.below {
		start.Page--
		from = len(t.page().Ops)
		t.under(f)
		start.Y = f.y
		t.book.Sheets = append(t.book.Sheets, start)
	} else {
		t.book.Sheets = append(t.book.Sheets, start)
		t.newPage(f)
	}
	f.add(t.title(s, i, f.frame.W)...)
	before, after := s.Around()
	left := t.withPictures(f, s, before)
	if s.Contents {
		t.contents(f)
	}
	left = append(left, t.withPictures(f, s, after)...)
	f.flush()
	if foot {
		t.footPictures(f, left)
	}
	t.ended = f.y
	t.structure(start.Page, from, t.clean(s.Title))
}

// empty is the single page of a document without sheets.
func (t *typesetter) empty() {
	doc := *t.doc
	doc.Sheets = []sheets.Sheet{{ID: "empty", Title: t.doc.Title, Facts: []string{"Nothing to print."}}}
	t.doc = &doc
	t.sheet(0, false)
}

// title is the head of a sheet: mark, title, facts and the cloth stripe.
func (t *typesetter) title(s *sheets.Sheet, i int, w float64) []*piece {
	if t.bound() {
		return t.bookHead(s, w)
	}
	if t.boxed() && (s.Kind == sheets.Chapter || s.Kind == sheets.TitlePage) {
		return t.cardHead(s, w)
	}
	p := &piece{glue: weak}
	size, x := t.sz.title, 0.0
	drop, gap := 4.0, 4.0 // below the line of the running head; between things
	if t.opt.Paper.Card {
		drop, gap = 1, 2
	}
	if i == 0 && s.Kind == sheets.Overview {
		size = t.sz.masthead
	}
	if hangs(s) { // its rows need the room
		size, drop, gap = t.sz.heading*1.4, 2, 2
	}
	if s.Letter != "" {
		side := size * 1.05
		ops, mw := t.mark(s.Letter, 0, drop+2, side, t.nextField())
		p.ops = append(p.ops, ops...)
		x = mw + 12
	}
	name := t.set(w-x, 1.1, span{text: s.Title, face: fonts.SerifBold, size: size})
	words := name.ops(x, drop, t.nextField())
	draw.Mark(words, &draw.Tag{Role: "H1"})
	p.add(words, 0, 0)
	y := drop + name.height() + gap
	right := name.width()
	if len(s.Facts) > 0 {
		facts := t.facts(s.Facts, w-x, fonts.Sans, t.sz.body)
		if at := x + right + size; (t.opt.Paper.Card || hangs(s)) && len(facts.lines) == 1 && len(name.lines) == 1 && at+facts.width() <= w {
			// on a card and on a wall a short fact stands on the line of the title
			base := drop + size*fonts.Ascent
			p.add(facts.ops(at, base-t.sz.body*fonts.Ascent, t.nextField()), 0, 0)
			right = at + facts.width() - x
		} else {
			p.add(facts.ops(x, y, t.nextField()), 0, 0)
			y += facts.height() + gap
			right = max(right, facts.width())
		}
	}
	y = max(y, drop+t.markHeight(s.Letter, size*1.05)+gap)
	marks := Key(t.doc, s)
	if from := right + 40; s.Wide && len(marks) > 0 && x == 0 && from < w*0.45 {
		// a sheet on its side has more width than height: the key stands beside the title
		if k := t.key(marks, w-from, s.Kind == sheets.Wall); k.h < max(size*2.4, t.sz.small*5) {
			p.add(k.ops, from, drop+4)
			y = max(y, drop+k.h+2)
			marks = nil
		}
	}
	if from := x + right + 24; len(marks) > 0 && hangs(s) && from < w*0.85 {
		// one line of it goes behind the facts
		side := t.sz.body * 1.3
		if k := t.key(marks, w-from, true); k.h < 2*side && len(name.lines) == 1 && y < drop+name.height()+2*gap {
			p.add(k.ops, from, drop+size*fonts.Ascent-t.sz.body*fonts.Ascent-(side-t.sz.body)/2)
			marks = nil
		}
	}
	if n, ok := t.marks[s.Letter]; ok && s.Letter != "" {
		p.add(draw.Stripe(n, 0, 0, w, 6), 0, y+gap)
		y += gap + 6
	} else {
		p.ops = append(p.ops, &draw.Line{X1: 0, Y1: y + gap, X2: w, Y2: y + gap, Width: 2.5})
		y += gap + 2.5
	}
	p.h = y + gap
	out := []*piece{p}
	if i == 0 && s.Kind == sheets.Overview {
		out = append(out, t.masthead(w)...)
	}
	if len(marks) > 0 {
		out = append(out, t.key(marks, w, s.Kind == sheets.Wall))
	}
	out[len(out)-1].glue = weak
	return out
}

// roomLater is the height that is free on a later page of a sheet.
func (t *typesetter) roomLater(f *flow, s *sheets.Sheet) float64 {
	head, foot := t.furniture()
	h := t.page().Area.H - head - foot
	if t.untitled(s) {
		return h
	}
	return h - t.titleAgain(s, f.frame.W).h
}

// facts joins short facts with middle dots, as many to a line as fit. No dot
// stands at the end of a line. A fact breaks only when it is longer than one.
func (t *typesetter) facts(list []string, w float64, face fonts.Face, size float64) para {
	spans := make([]span, len(list))
	for i, s := range list {
		spans[i] = span{text: s, face: face, size: size}
	}
	return t.factsIn(spans, w)
}

// factsIn is facts of which each has its own face and size.
func (t *typesetter) factsIn(list []span, w float64) para {
	var all para
	var row []span
	x := 0.0
	flush := func() {
		if len(row) == 0 {
			return
		}
		pa := t.set(w, 1.25, row...)
		n := len(all.lines)
		all.lines = append(all.lines, pa.lines...)
		if n > 0 && len(pa.lines) > 0 {
			all.lines[n].gap = true
		}
		all.size, all.leading = max(all.size, pa.size), max(all.leading, pa.leading)
		row, x = nil, 0
	}
	for _, fact := range list {
		fact.whole = true
		dot := fact.face.Width(" · ", fact.size)
		need := fact.face.Width(t.clean(fact.text), fact.size)
		if len(row) > 0 && x+dot+need > w {
			flush()
		}
		if len(row) > 0 {
			row = append(row, span{text: " · ", face: fact.face, size: fact.size})
			x += dot
		}
		row = append(row, fact)
		x += need
	}
	flush()
	return all
}

// masthead says what the whole document is, on its first sheet.
func (t *typesetter) masthead(w float64) []*piece {
	list := t.doc.Facts()
	if len(list) == 0 {
		return nil
	}
	pa := t.facts(list, w, fonts.Sans, t.sz.sub)
	return []*piece{{h: pa.height() + 4, ops: pa.ops(0, 0, t.nextField()), glue: weak}}
}

// part notes a heading for the bookmarks.
func (t *typesetter) part(title string, y float64) {
	s := &t.book.Sheets[len(t.book.Sheets)-1]
	s.Parts = append(s.Parts, Part{Title: title, Page: len(t.book.Pages) - 1, Y: y})
}

// turnTo notes that the sheet goes on overleaf, and with what.
func (t *typesetter) turnTo(what string) {
	p := t.page()
	p.next, p.onward = t.clean(what), "Turn over"
	if t.verso() {
		p.onward = "Goes on opposite"
	}
}

// finish writes the running heads and feet, the page numbers of the contents
// and the boxes of the links, when all pages are known.
func (t *typesetter) finish() {
	for n, p := range t.book.Pages {
		switch {
		case t.bound():
			t.runningBook(p, n)
		case t.boxed():
			t.runningBox(p, t.pageOf(n))
		default:
			t.running(p, t.pageOf(n))
		}
	}
	at := map[string]int{}
	for _, s := range t.book.Sheets {
		at[s.ID] = s.Page + 1
	}
	for _, n := range t.notes {
		if at[n.id] == 0 {
			continue // it is not among the sheets
		}
		n.text.Str = fmt.Sprint(at[n.id])
		n.text.W = n.text.Face.Width(n.text.Str, n.text.Size)
		n.text.X -= n.text.W
	}
	for _, p := range t.book.Pages {
		for _, o := range p.Ops {
			if x, ok := o.(*draw.Text); ok && x.Link != "" {
				top, bottom := x.Span()
				p.Links = append(p.Links, LinkBox{Box{x.X, top, x.W, bottom - top}, x.Link})
			}
		}
	}
}

// pageOf is the number that page n of the book carries: cards are filed by
// their dish and count by themselves.
func (t *typesetter) pageOf(n int) string {
	pages := t.book.Pages
	if !t.opt.Paper.Card {
		return fmt.Sprintf("page %d of %d", n+1, len(pages))
	}
	first, last := n, n
	for first > 0 && pages[first-1].Sheet == pages[n].Sheet {
		first--
	}
	for last+1 < len(pages) && pages[last+1].Sheet == pages[n].Sheet {
		last++
	}
	return fmt.Sprintf("card %d of %d", n-first+1, last-first+1)
}

// pageNumber sets the number of the page where sheet #id begins, which ends at right on
// a base line. It is filled in at the end; until then it keeps its right edge in X.
func (t *typesetter) pageNumber(p *piece, link string, right, base float64) *draw.Text {
	no := &draw.Text{X: right, Y: base, Size: t.sz.body, Face: fonts.SansBold, Link: link}
	p.ops = append(p.ops, no)
	t.notes = append(t.notes, &pageNote{text: no, id: strings.TrimPrefix(link, "#")})
	return no
}

// contents lists the sheets with their pages, in two columns when they are
// many.
func (t *typesetter) contents(f *flow) {
	n := 0
	for _, s := range t.doc.Sheets {
		if !s.Contents {
			n++
		}
	}
	if n == 0 {
		return
	}
	f.add(t.heading("Sheets", "", f.width()))
	const gap = 26.0
	if n > 6 && f.columns == 1 {
		f.inColumns(2, gap, t.contentRows((f.width()-gap)/2), 0.5) // one looks for a page in one list
		return
	}
	f.add(t.contentRows(f.width())...)
}

// contentRows is a row for each sheet.
func (t *typesetter) contentRows(w float64) []*piece {
	var out []*piece
	size := t.sz.body
	list := &draw.Tag{Role: "L"}
	for _, s := range t.doc.Sheets {
		if s.Contents {
			continue
		}
		p := &piece{}
		x := 0.0
		if s.Letter != "" {
			ops, mw := t.mark(s.Letter, 0, 0.8, size*1.2, t.nextField())
			p.ops = append(p.ops, ops...)
			x = mw
		}
		x = max(x, size*1.2) + 7
		pa := t.set(w-x-size*2.2, leadTight, span{text: s.Title, face: fonts.Sans, size: size, link: "#" + s.ID})
		mark := p.ops
		p.add(pa.ops(x, 1.5, t.nextField()), 0, 0)
		listed(list, mark, p.ops)
		p.h = max(pa.height()+5, size*1.78)
		if t.opt.Paper.Card {
			out = append(out, p) // cards count by themselves: there is no number to give
			continue
		}
		tag := p.ops[len(p.ops)-1].(*draw.Text).Tag
		no := t.pageNumber(p, "#"+s.ID, w, pa.height()-size*fonts.Descent+1.5)
		no.Tag = tag
		last := 0.0
		if n := len(pa.lines); n > 0 {
			last = pa.lines[n-1].width
		}
		if from, to := x+last+6, w-size*1.6-4; to > from {
			p.ops = append(p.ops, &draw.Line{X1: from, X2: to, Y1: no.Y, Y2: no.Y, Width: 0.75, Dash: []float64{0.75, 3}})
		}
		out = append(out, p)
	}
	return out
}
