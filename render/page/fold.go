package page

import (
	"tamis/compiler/sheets"
	"tamis/render/draw"
	"tamis/render/fonts"
)

// fold says which columns of a table have no place of their own: what they hold
// stands in small type below the main column, for want of width.
type fold struct {
	main   int // the column of words that the others stand below
	folded []bool
}

func (f fold) has(i int) bool { return i < len(f.folded) && f.folded[i] }

func (f fold) count() (n int) {
	for _, x := range f.folded {
		if x {
			n++
		}
	}
	return n
}

// open is cols without the weight of those that are folded.
func (f fold) open(cols []sheets.Column) []sheets.Column {
	if f.count() == 0 {
		return cols
	}
	out := append([]sheets.Column(nil), cols...)
	for i := range out {
		if f.has(i) {
			out[i].Weight = 0
		}
	}
	return out
}

// folds is the ways to fold cols, from none to all that may be: other words
// first, then clock times and amounts after the first, then what is written in.
func folds(cols []sheets.Column) []fold {
	out := []fold{{}}
	main := -1
	for i, c := range cols {
		if c.Kind == sheets.TextColumn && (main < 0 || cols[main].Weight == 0 && c.Weight > 0) {
			main = i // the first with a weight names the thing
		}
	}
	if main < 0 {
		return out
	}
	f := fold{main: main, folded: make([]bool, len(cols))}
	take := func(yes func(i int, c sheets.Column) bool) {
		next := fold{main: main, folded: append([]bool(nil), f.folded...)}
		for i, c := range cols {
			if i != main && yes(i, c) {
				next.folded[i] = true
			}
		}
		if next.count() > f.count() {
			f = next
			out = append(out, f)
		}
	}
	seen := map[sheets.ColumnKind]int{}
	nth := make([]int, len(cols))
	for i, c := range cols {
		nth[i] = seen[c.Kind]
		seen[c.Kind]++
	}
	take(func(_ int, c sheets.Column) bool { return c.Kind == sheets.TextColumn })
	take(func(i int, c sheets.Column) bool {
		return (c.Kind == sheets.ClockColumn || c.Kind == sheets.AmountColumn) && nth[i] > 0
	})
	take(func(_ int, c sheets.Column) bool { return c.Kind == sheets.PencilColumn })
	return out
}

// folded sets a table in the way that reads best: every column in its place
// where the words have room, else with as many folded as makes it shortest.
func (t *typesetter) folded(cols []sheets.Column, b *sheets.Table, w float64) []*piece {
	keep := 4
	if t.opt.Paper.Card {
		keep = 0
	}
	before, last := t.field, 0
	var best []*piece
	least := 0.0
	for n, f := range folds(cols) {
		t.field = before
		g := t.grid(cols, b, w, f)
		pieces := g.pieces(b, keep)
		if n == 0 && g.roomy() {
			return pieces
		}
		// a column is easier to run down than a line is to read, unless it is
		// so narrow that it is a ladder of single words
		h := tall(pieces) * []float64{1.15, 1.04, 1.15, 1.2}[n]
		if n == 0 || h < least {
			best, least, last = pieces, h, t.field
		}
	}
	t.field = last
	return best
}

// roomy tells whether the words of every column have room: a main column eight
// ems or what it needs, the others half of that.
func (g *grid) roomy() bool {
	if g.tight {
		return false
	}
	first := true
	for i, c := range g.cols {
		if c.Kind != sheets.TextColumn {
			continue
		}
		ems := 4.0
		if first && c.Weight > 0 {
			ems, first = 8, false
		}
		if g.w[i]+0.5 < min(g.cells[i], ems*g.t.sz.body) {
			return false
		}
	}
	return true
}

// item is something on a line below the main column: words, after the title of
// their column where that is needed to know what they are, or a rule to write on.
type item struct {
	title, words para
	field        int
	pencil       bool
}

// items is what a folded column says of one row.
func (g *grid) items(c sheets.Column, cell sheets.Cell, strong bool) []item {
	t, size := g.t, g.t.sz.small
	w := g.w[g.fold.main]
	var out []item
	text := sheets.Words(cell.Runs)
	title := func() para {
		return t.set(w, leadTight, span{text: c.Title, face: fonts.Sans, size: size})
	}
	switch {
	case text == "" && c.Kind == sheets.PencilColumn:
		out = append(out, item{title: title(), field: t.nextField(), pencil: true})
	case text == "":
	case c.Kind == sheets.TextColumn:
		spans := t.spans(cell.Runs, false, size)
		if strong {
			spans = bold(spans)
		}
		out = append(out, item{words: t.set(w, leadTight, spans...), field: t.nextField()})
	default:
		head := title()
		spans := bold(t.spans(cell.Runs, false, size))
		// a title and a long figure may need a line each
		out = append(out, item{title: head, words: t.set(w, leadTight, spans...), field: t.nextField()})
	}
	if len(cell.Sub) > 0 {
		out = append(out, item{words: t.set(w, leadTight, t.spans(cell.Sub, false, size)...), field: t.nextField()})
	}
	return out
}

// inline sets items from y down into p, side by side with middle dots where
// they fit, and returns the height taken.
func (g *grid) inline(p *piece, items []item, y float64) float64 {
	t, size := g.t, g.t.sz.small
	left, w := g.x[g.fold.main], g.w[g.fold.main]
	space := fonts.Sans.Width(" ", size)
	dot := fonts.Sans.Width(" · ", size)
	x, h, row := 0.0, 0.0, 0.0
	for _, it := range items {
		need := it.title.width()
		if need > 0 {
			need += space
		}
		if it.pencil {
			need += 70
		} else {
			need += it.words.width()
		}
		many := len(it.title.lines) > 1 || len(it.words.lines) > 1
		switch {
		case x > 0 && (x+dot+need > w || many):
			x, h = 0, h+row
			row = 0
		case x > 0:
			pa := t.set(1e6, leadTight, span{text: "·", face: fonts.Sans, size: size})
			p.add(pa.ops(left+x+space, y+h, 0), 0, 0)
			x += dot
		}
		if it.pencil {
			row = max(row, size*1.55)
		}
		p.add(it.title.ops(left+x, y+h, 0), 0, 0)
		tw, th := it.title.width(), it.title.height()
		if tw > 0 {
			tw += space
		}
		switch {
		case it.pencil:
			end := min(x+tw+max(70, w*0.4), w)
			if base := y + h + max(th, size); end > x+tw+10 {
				p.ops = append(p.ops, &draw.Line{X1: left + x + tw, X2: left + end, Y1: base, Y2: base, Width: hair, Dash: []float64{0.5, 2}})
			}
			x = end
		case tw > 0 && x+tw+it.words.width() > w:
			p.add(it.words.ops(left, y+h+th, it.field), 0, 0)
			th += it.words.height()
			x = w
		default:
			p.add(it.words.ops(left+x+tw, y+h, it.field), 0, 0)
			x += tw + it.words.width()
			th = max(th, it.words.height())
		}
		row = max(row, max(th, size)*1.06)
		if many {
			x = w
		}
	}
	return h + row
}
