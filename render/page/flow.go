package page

import "tamis/render/draw"

// glue holds a piece to the one after it.
type glue int

// Loose pieces may be parted. A firm hold breaks only where a page is too
// small for all, and a weak one, below the head of a sheet, before that.
const (
	loose glue = iota
	weak
	firm
)

// piece is something placed in the flow of a sheet: a paragraph, a row, a
// step. Its marks are relative to its top left corner.
type piece struct {
	h      float64
	ops    []draw.Op
	before float64  // space above, unless it stands at the top of a frame
	glue   glue     // how firmly it stays with the piece after it
	heads  []*piece // set again when the piece opens a page
	part   string   // the heading it carries, for bookmarks
	turn   string   // what it is called in the hint to turn over: "step 7"
	number int      // of a step: which of ops is its number
}

// add appends marks to the piece, moved by dx and dy.
func (p *piece) add(ops []draw.Op, dx, dy float64) {
	p.ops = append(p.ops, draw.MoveAll(ops, dx, dy)...)
}

// copy is p with marks of its own, as furniture, for heads that repeat.
func (p *piece) copy() *piece {
	q := *p
	q.ops = nil
	for _, o := range p.ops {
		switch o := o.(type) {
		case *draw.Text:
			c := *o
			c.Field, c.Tag = 0, nil
			q.ops = append(q.ops, &c)
		case *draw.Line:
			c := *o
			q.ops = append(q.ops, &c)
		case *draw.Rect:
			c := *o
			q.ops = append(q.ops, &c)
		case *draw.Picture:
			c := *o
			q.ops = append(q.ops, &c)
		case *draw.Poly:
			c := *o
			c.Points = append([][2]float64(nil), o.Points...)
			q.ops = append(q.ops, &c)
		}
	}
	return &q
}

// cut parts a piece that is taller than a page: marks that end above h stay,
// the rest moves to a second piece. Upright lines are cut in two; the words of a line
// stay together, whatever their sizes.
func (p *piece) cut(h float64) (head, tail *piece) {
	head = &piece{before: p.before, turn: p.turn, part: p.part, heads: p.heads}
	tail = &piece{glue: p.glue, turn: p.turn, heads: p.heads}
	top := -1.0
	type row struct {
		field int
		y     float64
	}
	ends := map[row]float64{}
	for _, o := range p.ops {
		if w, ok := o.(*draw.Text); ok {
			_, b := w.Span()
			ends[row{w.Field, w.Y}] = max(b, ends[row{w.Field, w.Y}])
		}
	}
	for _, o := range p.ops {
		a, b := o.Span()
		if w, ok := o.(*draw.Text); ok {
			b = ends[row{w.Field, w.Y}]
		}
		if l, ok := o.(*draw.Line); ok && a < h && b > h && l.X1 == l.X2 {
			up, down := *l, *l
			up.Y1, up.Y2, down.Y1, down.Y2 = a, h, h, b
			head.ops, tail.ops = append(head.ops, &up), append(tail.ops, &down)
			continue
		}
		if b <= h {
			head.ops = append(head.ops, o)
			head.h = max(head.h, b)
			continue
		}
		tail.ops = append(tail.ops, o)
		if _, ok := o.(*draw.Line); !ok && (top < 0 || a < top) {
			top = a
		}
	}
	if top < 0 {
		top = h
	}
	for _, o := range tail.ops {
		if l, ok := o.(*draw.Line); ok && l.X1 == l.X2 && l.Y1 == h {
			l.Y1 = top
		}
		o.Move(0, -top)
	}
	tail.h = p.h - top
	return head, tail
}

// flow places pieces one below the other in the frames of pages.
type flow struct {
	t       *typesetter
	sheet   int
	frame   Box     // what is free on the page, before anything was placed
	y       float64 // where the next piece goes
	fresh   bool    // nothing placed in the frame yet
	columns int
	column  int
	colGap  float64
	colTop  float64
	waiting []*piece
}

// add puts pieces in the queue: whether they stay together can only be seen
// when those that follow are known.
func (f *flow) add(pieces ...*piece) { f.waiting = append(f.waiting, pieces...) }

// flush places all that waits.
func (f *flow) flush() {
	f.place(f.waiting)
	f.waiting = nil
}

// width is the width of a column.
func (f *flow) width() float64 {
	return (f.frame.W - f.colGap*float64(f.columns-1)) / float64(f.columns)
}

func (f *flow) x() float64 { return f.frame.X + float64(f.column)*(f.width()+f.colGap) }

func (f *flow) room() float64 { return f.frame.Y + f.frame.H - f.y }

// place puts all pieces on pages, starting where the flow stands.
func (f *flow) place(pieces []*piece) {
	for i := 0; i < len(pieces); {
		j := i
		need := 0.0
		for {
			if j > i || !f.fresh {
				need += pieces[j].before
			}
			need += pieces[j].h
			if pieces[j].glue == loose || j+1 == len(pieces) {
				break
			}
			j++
		}
		if need > f.room()+0.01 {
			if k := lastWeak(pieces, i, j); f.fresh && k >= 0 {
				// the head of a sheet stands alone rather than part what follows
				j = k
			} else if p := pieces[i]; !f.fresh && j > i && need-p.before > f.frame.H && p.before+p.h <= f.room() {
				j = i // a heading stands at the foot of a page rather than alone on one
			} else if !f.fresh {
				f.next(pieces[i])
				if need > f.room()+0.01 {
					j = i
				}
			} else {
				j = i
			}
		}
		for _, p := range pieces[i : j+1] {
			f.put(p)
		}
		i = j + 1
	}
}

// lastWeak is the last of pieces[i:j] that is held only weakly, or -1.
func lastWeak(pieces []*piece, i, j int) int {
	for k := j - 1; k >= i; k-- {
		if pieces[k].glue == weak {
			return k
		}
	}
	return -1
}

// next goes on to the next column or page and sets the heads of p again.
func (f *flow) next(p *piece) {
	if f.column+1 < f.columns {
		f.column++
		f.y = f.colTop
	} else {
		f.turn(p)
	}
	f.fresh = true
	for _, h := range p.heads {
		f.drop(h.copy())
	}
}

// turn goes on to the next page, which p will open.
func (f *flow) turn(p *piece) {
	f.t.page().Turn = true
	f.t.turnTo(p.turn)
	f.t.newPage(f)
	f.column, f.colTop = 0, f.y
}

// put places one piece, cut if a whole page is too small for it.
func (f *flow) put(p *piece) {
	gap := p.before
	if f.fresh {
		gap = 0
	}
	if p.h+gap > f.room()+0.01 && !f.fresh && !f.vast(p) {
		f.next(p)
		gap = 0
	}
	for p.h > f.room()+0.01 {
		head, tail := p.cut(f.room())
		if len(head.ops) == 0 || len(tail.ops) == 0 {
			break
		}
		f.drop(head)
		f.next(tail)
		p = tail
	}
	f.drop(p)
}

// vast tells whether no page can hold p and a good part of it can stand here,
// so that its heading is not left alone.
func (f *flow) vast(p *piece) bool { return p.h > f.frame.H && f.room() > f.frame.H*0.5 }

// drop sets p where the flow stands.
func (f *flow) drop(p *piece) {
	if !f.fresh {
		f.y += p.before
	}
	page := f.t.page()
	page.Ops = append(page.Ops, draw.MoveAll(p.ops, f.x(), f.y)...)
	if p.part != "" {
		f.t.part(p.part, f.y)
	}
	f.y += p.h
	f.fresh = false
}

// mayBeEmpty is how much of a page may be left empty below, so that columns begin together.
const mayBeEmpty = 0.3

// inColumns sets pieces in n columns of equal height where they fit on one
// page, in full columns page by page where they do not. A heading that waits
// goes with them. Where they do not fit they begin on a new page if at most so much, as a
// share of it, is left empty on this one.
func (f *flow) inColumns(n int, gap float64, pieces []*piece, empty float64) {
	if len(pieces) == 0 {
		return
	}
	k := len(f.waiting)
	for k > 0 && f.waiting[k-1].glue == firm {
		k--
	}
	heads := f.waiting[k:]
	f.waiting = f.waiting[:k:k]
	f.flush()
	need := 0.0
	for _, h := range heads {
		need += h.before + h.h
	}
	h, whole := balance(pieces, n, f.frame.H-need)
	if !whole {
		h = min(120, f.frame.H*0.4)
	}
	if !f.fresh && need+pieces[0].before+h > f.room() && f.room() < f.frame.H*empty {
		f.next(append(heads, pieces...)[0])
	}
	f.place(heads)
	if !f.fresh {
		f.y += pieces[0].before
	}
	f.columns, f.colGap, f.column, f.colTop = n, gap, 0, f.y
	f.fresh = true
	for {
		if h, ok := balance(pieces, n, f.room()); ok {
			f.colTop = f.y
			full := f.frame
			f.frame.H = f.y - f.frame.Y + h
			pages := len(f.t.book.Pages)
			f.place(pieces)
			if len(f.t.book.Pages) == pages {
				f.frame, f.y = full, f.colTop+h
			} else {
				f.y = f.frame.Y + f.frame.H
			}
			break
		}
		k := fill(pieces, n, f.room())
		if k == 0 {
			f.place(pieces)
			f.y = f.frame.Y + f.frame.H
			break
		}
		f.place(pieces[:k])
		f.turn(pieces[k])
		f.fresh = true
		var rest []*piece
		for _, h := range pieces[k].heads {
			rest = append(rest, h.copy())
		}
		pieces = append(rest, pieces[k:]...)
	}
	f.columns, f.column, f.colGap, f.fresh = 1, 0, 0, false
}

// balance finds the least height in which pieces fill n columns, at most
// limit.
func balance(pieces []*piece, n int, limit float64) (h float64, ok bool) {
	for h = 40; h < limit; h += 6 {
		if fill(pieces, n, h) == len(pieces) {
			return h, true
		}
	}
	return limit, fill(pieces, n, limit) == len(pieces)
}

// fill counts the pieces that stand in n columns of height h when they are
// placed as place does.
func fill(pieces []*piece, n int, h float64) int {
	cols, y := 1, 0.0
	fresh := true
	for i := 0; i < len(pieces); {
		j, need := i, 0.0
		for {
			if j > i || !fresh {
				need += pieces[j].before
			}
			need += pieces[j].h
			if pieces[j].glue == loose || j+1 == len(pieces) {
				break
			}
			j++
		}
		if y+need > h+0.01 && !fresh {
			cols++
			y, need = 0, need-pieces[i].before
			for k, hd := range pieces[i].heads {
				y += hd.h
				if k > 0 {
					y += hd.before
				}
			}
			if len(pieces[i].heads) > 0 {
				y += pieces[i].before
			}
		}
		if y+need > h+0.01 || cols > n {
			return i
		}
		y += need
		fresh = false
		i = j + 1
	}
	return len(pieces)
}
