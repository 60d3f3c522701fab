package page

import "tamis/render/draw"

// structure gives every text of a sheet, from mark op of a page on, a place in the
// structure of the document, in the order it is read: what no block has claimed
// is a paragraph.
func (t *typesetter) structure(page, op int, title string) {
	sheet := &draw.Tag{Role: "Sect", Alt: title}
	for i, p := range t.book.Pages[page:] {
		ops := p.Ops
		if i == 0 {
			ops = ops[op:]
		}
		draw.MarkFields(ops, sheet, "P")
		for _, o := range ops {
			for g := tagOf(o); g != nil && g != sheet; g = g.Above {
				if g.Order == 0 {
					t.order++
					g.Order = t.order
				}
				if g.Above == nil {
					g.Above = sheet
				}
			}
		}
	}
	t.order++
	sheet.Order = t.order
}

// cellPart makes ops a cell; its second line is a paragraph of its own.
func cellPart(ops []draw.Op, cell *draw.Tag) *draw.Tag {
	draw.MarkFields(ops, cell, "P")
	return draw.Mark(ops, cell)
}

// listed makes ops an item of list: the text of mark is what it is told by, a
// number or a letter.
func listed(list *draw.Tag, mark, body []draw.Op) {
	item := list.Part("LI")
	if len(mark) > 0 {
		draw.Mark(mark, item.Part("Lbl"))
	}
	draw.Mark(body, item.Part("LBody"))
}

// tagOf is the part that a mark belongs to, or nil.
func tagOf(o draw.Op) *draw.Tag {
	switch o := o.(type) {
	case *draw.Text:
		return o.Tag
	case *draw.Picture:
		return o.Tag
	}
	return nil
}
