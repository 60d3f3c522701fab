package resolve

import (
	"cmp"

	"tamis/lang/ast"
	"tamis/lang/quantity"
	"tamis/lang/source"
)

// Entry is what a writer's larder says of one ingredient. A fact is nil when it
// is not written; of two facts of one kind the first counts.
type Entry struct {
	Span   source.Span
	Name   string
	NameAt source.Span
	Asked  bool // stands in what the user asked for

	Piece    *PieceFact
	Yields   *quantity.Number // per cent of what is bought that goes in
	Buy      *Text            // the counter of the shop
	Price    *PriceFact
	Weighs   *WeighsFact
	Packs    *PacksFact
	Contains *ContainsFact
	SameAs   *Text
	Gives    []Given
	Keeps    *Keep // as it is bought
}

// over is an entry with the facts it has not itself from one further out.
func (e *Entry) over(out *Entry) *Entry {
	both := *e
	both.Piece, both.Yields, both.Buy, both.Price = cmp.Or(e.Piece, out.Piece), cmp.Or(e.Yields, out.Yields), cmp.Or(e.Buy, out.Buy), cmp.Or(e.Price, out.Price)
	both.Weighs, both.Packs, both.Contains, both.SameAs = cmp.Or(e.Weighs, out.Weighs), cmp.Or(e.Packs, out.Packs), cmp.Or(e.Contains, out.Contains), cmp.Or(e.SameAs, out.SameAs)
	both.Keeps = cmp.Or(e.Keeps, out.Keeps)
	if len(e.Gives) == 0 {
		both.Gives = out.Gives
	}
	return &both
}

// PieceFact is what one weighs: `piece 120 g trimmed`.
type PieceFact struct {
	Weight quantity.Measure
	State  string // "as sold", "trimmed"; empty when not said
}

// PriceFact is `price 2.40 EUR per kg`.
type PriceFact struct {
	Amount   quantity.Number
	Per      quantity.Measure // empty: each
	Currency string
}

// WeighsFact is `weighs 150 g per 250 ml`.
type WeighsFact struct{ Weight, Per quantity.Measure }

// PacksFact are the sizes it is sold in.
type PacksFact struct{ Sizes []quantity.Measure }

// ContainsFact is what can harm an allergic guest: `contains milk, wheat`.
type ContainsFact struct {
	Span       source.Span
	Substances []Text
}

// Given is one of the things an ingredient gives: 1 egg white.
type Given struct {
	Count quantity.Number
	Name  Text
}

// entry reads one entry of a larder.
func entry(x *ast.Entry) *Entry {
	e := &Entry{Span: x.Span, Name: x.Name.Text, NameAt: x.Name.Span}
	said := map[string]bool{}
	for _, f := range x.Facts {
		word := f.Base().Word
		if !said[word] {
			e.fact(f)
		}
		said[word] = true
		if g, ok := f.(*ast.Gives); ok {
			for _, g := range g.Given {
				e.Gives = append(e.Gives, Given{g.Count, nameText(g.Name)})
			}
		}
	}
	return e
}

func (e *Entry) fact(f ast.Fact) {
	switch f := f.(type) {
	case *ast.Piece:
		e.Piece = &PieceFact{f.Weight, f.State.Text}
	case *ast.Yield:
		e.Yields = &f.Percent
	case *ast.From:
		t := nameText(f.Seller.Name)
		e.Buy = &t
	case *ast.Price:
		e.Price = &PriceFact{f.Amount, f.Per, f.Money.Text}
	case *ast.Density:
		e.Weighs = &WeighsFact{f.Weight, f.Per}
	case *ast.Packs:
		e.Packs = &PacksFact{f.Sizes}
	case *ast.ShelfLife:
		k := Keep(f.Keep)
		e.Keeps = &k
	case *ast.Contains:
		e.Contains = &ContainsFact{f.Span, nameTexts(f.Names)}
	case *ast.Also:
		if f.Word == "same as" {
			t := nameText(f.Name)
			e.SameAs = &t
		}
	}
}
