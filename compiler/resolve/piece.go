package resolve

import (
	"tamis/compiler/larder"
	"tamis/lang/quantity"
)

// PieceGrams is what one of a line's things weighs, in grams, and who says so:
// the writer's larder before the built-in one, by the size the line names. ok
// is false when it is not known.
func (l *Line) PieceGrams() (grams quantity.Number, from string, ok bool) {
	if e := l.Recipe.Scope.Entry(l.Key); e != nil && e.Piece != nil {
		if q, problem := e.Piece.Weight.Quantity(l.Recipe.System); problem == nil && q.Dim == quantity.Mass {
			return q.Value.High, "the larder", true
		}
	}
	if it, ok := larder.Builtin().Find(l.Name); ok {
		if p, ok := it.PieceGrams(l.Size); ok {
			return p.Grams.Value, p.Grams.From(), true
		}
	}
	return quantity.Number{}, "", false
}
