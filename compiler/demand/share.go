package demand

import (
	"fmt"

	"tamis/lang/quantity"
)

// Shares: `half the bay milk`, `the rest of the bay milk` in the list of a dish.
// Such a line says nothing of how much is wanted, so the base is made over as
// often as the dish that takes the share, and further where the amounts that
// others draw ask for it.

// growForShares sets how often a base is made over where shares of it are
// drawn.
func (w *work) growForShares(b *Making) {
	part, any := quantity.Number{}, false
	for _, a := range w.draws[b] {
		if a.Line.Share != nil {
			part, any = part.Add(fractionOf(a)), true
		}
	}
	if !any {
		return
	}
	if len(b.Supply.Draws) == 0 {
		b.Factor = quantity.Number{}
	}
	if left := quantity.Int(1).Sub(part); left.Sign() > 0 {
		b.Factor = b.Factor.Div(left)
	}
	for _, a := range w.draws[b] {
		if a.Line.Share != nil {
			b.Factor = quantity.Max(b.Factor, a.Making.Factor)
		}
	}
}

// fractionOf is the written share of a line; 0 of one that takes the rest.
func fractionOf(a *Amount) quantity.Number {
	if a.Line.Share.Rest {
		return quantity.Number{}
	}
	return a.Line.Share.Fraction
}

// shareOut gives the lines that draw a share of a supply their amounts, the
// rest last. Kept is what the block keeps for itself.
func (w *work) shareOut(s *Supply, lines []*Amount, kept quantity.Quantity) {
	for _, rest := range []bool{false, true} {
		for _, a := range lines {
			if a.Line.Share == nil || a.Line.Product != s.Product || a.Line.Share.Rest != rest {
				continue
			}
			q := s.Made.Scale(fractionOf(a))
			if left, err := s.Made.Sub(s.Drawn); err == nil && rest {
				if q, err = left.Sub(kept); err != nil {
					continue
				}
			}
			q.Value.Low = q.Value.High
			if q.Value.High.Sign() <= 0 {
				w.nothingLeft(s, a)
				continue
			}
			what := a.Line.AmountText
			a.Quantity = &q
			a.How = []string{fmt.Sprintf("%s %s: %s of %s made", what, s.Name, say(q), say(s.Made))}
			s.Draws = append(s.Draws, Draw{By: a, Quantity: q})
			if sum, err := s.Drawn.Add(q); err == nil {
				s.Drawn = sum
			}
		}
	}
}

func (w *work) nothingLeft(s *Supply, a *Amount) {
	d := w.diags.Errorf("D111", a.Line.AmountAt.To(a.Line.NameAt), "nothing is left of %s", s.Name).
		Because("others take all of the %s that is made", say(s.Made))
	for _, dr := range s.Draws {
		d.See(dr.By.Line.Span, "%s for %s", say(dr.Quantity), dr.By.Making.Recipe.Name)
	}
	d.WithHelp("write the amount that is wanted, and as much more will be made").
		WithHelp("or write a larger `makes`, if the recipe gives more")
}
