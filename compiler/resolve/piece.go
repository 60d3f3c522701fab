package resolve

import (
	"strings"

	"tamis/lang/quantity"
)

// PieceGrams is what one of a line's things weighs, in grams, and who says so:
// the writer's larder before the built-in one, by the size the line names. ok
// is false when it is not known. What the list itself says, `2 chickens (about
// 1.6 kg each)`, comes first.
func (l *Line) PieceGrams() (grams quantity.Number, from string, ok bool) {
	for _, said := range []string{l.Brackets.Text, l.Note.Text} {
		if g, ok := l.eachWeighs(said); ok {
			return g, "the list", true
		}
	}
	if e := l.Recipe.Scope.Entry(l.Key); e != nil && e.Piece != nil {
		if q, problem := e.Piece.Weight.Quantity(l.Recipe.System); problem == nil && q.Dim == quantity.Mass {
			return q.Value.High, "the larder", true
		}
	}
	if it := l.Item; it != nil {
		if p, ok := it.Piece("", l.Size, l.Recipe.Country()); ok {
			return p.Grams.Value, p.Grams.From(), true
		}
	}
	return quantity.Number{}, "", false
}

// eachWeighs reads what one weighs from the words beside an amount: "about 1.6 kg each".
func (l *Line) eachWeighs(said string) (quantity.Number, bool) {
	for _, each := range []string{" each", " apiece"} {
		before, _, ok := strings.Cut(said, each)
		if !ok {
			continue
		}
		words := strings.Fields(before)
		for n := min(len(words), 4); n > 0; n-- {
			text := strings.Join(words[len(words)-n:], " ")
			m, end, problems := quantity.ReadMeasure(text, quantity.Options{System: l.Recipe.System})
			if end != len(text) || len(problems) > 0 {
				continue
			}
			if q, problem := m.Quantity(l.Recipe.System); problem == nil && q.Dim == quantity.Mass && q.Value.High.Sign() > 0 {
				return q.Value.High, true
			}
		}
	}
	return quantity.Number{}, false
}

// Density is what a line's thing weighs in grams a millilitre, by the writer's larder or
// the built-in one; false where neither knows.
func (l *Line) Density() (quantity.Number, bool) {
	if e := l.Recipe.Scope.Entry(l.Key); e != nil && e.Weighs != nil {
		mass, p1 := e.Weighs.Weight.Quantity(l.Recipe.System)
		per, p2 := e.Weighs.Per.Quantity(l.Recipe.System)
		if p1 == nil && p2 == nil && mass.Dim == quantity.Mass && per.Dim == quantity.Volume && per.Value.High.Sign() > 0 {
			return mass.Value.High.Div(per.Value.High), true
		}
	}
	if l.Item == nil {
		return quantity.Number{}, false
	}
	d, ok := l.Item.Density(l.Note.Text)
	if !ok {
		return quantity.Number{}, false
	}
	return d.GPerML.Value, true
}
