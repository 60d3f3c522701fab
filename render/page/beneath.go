package page

import (
	"slices"

	"tamis/compiler/sheets"
)

// A short recipe begins below another where all of it fits on what is left of
// the page: a page for two lines is a page more to hang, to carry and to look
// through. None is parted for it. In a pack, where the letters tell the sheets
// apart, the next that fits is taken; where the pages are listed, the recipes keep
// that order.
//
// In the same way the cautions of the whole meal, which stand on the shopping
// list, stand below a recipe instead where that saves a page of the list.

const beneathGap = 24.0 // so that nobody takes the second for more of the first

// fitPrep lays out the sheet of a recipe, i, and below it those that fit there, which it
// notes in laid. Where none does, the recipe is set with less air if one does then.
func (t *typesetter) fitPrep(i int, laid []bool) {
	state := *t
	pages, started := len(t.book.Pages), len(t.book.Sheets)
	t.fitSheet(i)
	if t.opt.Paper.Card {
		return // cards are filed one by one
	}
	alone := t.fill(i, laid) == 0
	p := t.page()
	if !alone || len(t.book.Pages) > pages+1 || pictured(&t.doc.Sheets[i]) || p.Area.Y+p.Area.H-t.ended < p.Area.H*0.2 {
		t.fillCare()
		return
	}
	before := slices.Clone(laid)
	closer := func(air float64) int {
		t.again(state, pages, started)
		copy(laid, before)
		t.air = state.air * air
		t.sheet(i, true)
		t.air = state.air
		return t.fill(i, laid)
	}
	last := len(airs) - 1
	if n := closer(airs[last]); n == 0 {
		t.again(state, pages, started)
		t.fitSheet(i)
	} else if !slices.ContainsFunc(airs[1:last], func(air float64) bool { return closer(air) == n }) {
		closer(airs[last])
	}
	t.fillCare()
}

// fill sets what fits below sheet i, notes it in laid, and counts it.
func (t *typesetter) fill(i int, laid []bool) (n int) {
	above := &t.doc.Sheets[i]
	ordered := slices.ContainsFunc(t.doc.Sheets, listsPages)
	for j := i + 1; j < len(t.doc.Sheets) && !t.opt.Paper.facing; j++ { // in a bound book each recipe has its opening
		s := &t.doc.Sheets[j]
		if s.Kind != sheets.Prep {
			return n
		}
		if laid[j] || s.Wide != above.Wide || pictured(s) {
			continue
		}
		if laid[j] = t.beneath(j, func() { t.sheet(j, true) }); laid[j] {
			n++
		} else if ordered {
			return n
		}
	}
	return n
}

// fillCare sets the cautions of the meal, where they still wait, on what is left.
func (t *typesetter) fillCare() {
	if t.loose != nil {
		t.beneath(t.looseOf, t.looseCare)
	}
}

// listsPages tells whether a sheet says on which pages the others are.
func listsPages(s sheets.Sheet) bool {
	return s.Contents || slices.ContainsFunc(s.Blocks, func(b sheets.Block) bool {
		t, ok := b.(*sheets.Table)
		return ok && t != t.OffPaper()
	})
}

// beneath has lay set sheet i, or a part of it, on what is left of the last page, with as
// much air as there is room for, and tells whether it could. The tightest is tried
// first: what that does not do, no other does.
func (t *typesetter) beneath(i int, lay func()) bool {
	page := t.page()
	ops := len(page.Ops)
	t.notes = slices.Clip(t.notes)
	state, pages, started := *t, len(t.book.Pages), len(t.book.Sheets)
	try := func(air float64) bool {
		t.air, t.below = state.air*air, true
		lay()
		t.air, t.below = state.air, false
		return len(t.book.Pages) == pages
	}
	back := func() {
		t.again(state, pages, started)
		page.Ops, page.Turn, page.next, page.onward = page.Ops[:ops], false, "", ""
	}
	last := len(airs) - 1
	if !try(airs[last]) {
		back()
		return false
	}
	for _, air := range airs[:last] {
		back()
		if try(air) {
			page.Below = append(page.Below, Below{i, ops})
			return true
		}
	}
	back()
	try(airs[last])
	page.Below = append(page.Below, Below{i, ops})
	return true
}

// SheetOf is the sheet that op n of the page belongs to: the first, or one that stands
// below it.
func (p *Page) SheetOf(n int) int {
	sheet := p.Sheet
	for _, b := range p.Below {
		if n >= b.Op {
			sheet = b.Sheet
		}
	}
	return sheet
}

// under stands f below what the last page holds.
func (t *typesetter) under(f *flow) {
	p := t.page()
	head, foot := t.furniture()
	f.frame = Box{p.Area.X, p.Area.Y + head, p.Area.W, p.Area.H - head - foot}
	f.y, f.columns, f.column = t.ended+beneathGap, 1, 0
}

// fitShopping lays out the shopping list, sheet i. Where it has fewer pages without
// the cautions of the meal, they are left for the first page with room.
func (t *typesetter) fitShopping(i int) {
	state := *t
	pages, started := len(t.book.Pages), len(t.book.Sheets)
	t.fitAir(i, true)
	all := len(t.book.Pages) - pages
	blocks := t.doc.Sheets[i].Blocks
	if t.stay || all < 2 || len(blocks) == 0 || i+1 == len(t.doc.Sheets) || t.opt.Paper.Card {
		return
	}
	cares, ok := blocks[len(blocks)-1].(*sheets.Cautions)
	if !ok {
		return
	}
	t.again(state, pages, started)
	t.loose, t.looseOf = cares, i
	t.fitAir(i, true)
	if len(t.book.Pages)-pages == all {
		t.loose = nil
		t.again(state, pages, started)
		t.fitAir(i, true)
	}
}

// looseCare sets the cautions of the meal on what is left below a recipe.
func (t *typesetter) looseCare() {
	from := len(t.page().Ops)
	f := &flow{t: t, sheet: t.looseOf, columns: 1}
	t.under(f)
	page := len(t.book.Pages) - 1
	const title = "Cautions of the whole meal"
	head := t.heading(title, "", f.width())
	head.part = "" // no part of the recipe above
	f.add(head)
	sz := t.sz
	t.sz = t.inHand()
	f.add(t.cautions(t.loose, f.width())...)
	t.sz = sz
	f.flush()
	t.ended, t.loose = f.y, nil
	t.structure(page, from, title)
}
