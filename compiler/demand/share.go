package demand

import (
	"fmt"

	"tamis/compiler/resolve"
	"tamis/lang/quantity"
)

// Shares: `half the bay milk`, `the rest of the bay milk` in the list of a dish.
// Such a line says nothing of how much is wanted, so the base is made over as
// often as the dish that takes the share, and further where the amounts that
// others draw ask for it. A dish that is made several times has its share once,
// parted among its makings.

// growForShares sets how often a base is made over where shares of it are
// drawn.
func (w *work) growForShares(b *Making) {
	makings := timesMade(w.draws[b])
	if len(makings) == 0 {
		return
	}
	part := quantity.Number{}
	for l := range makings {
		part = part.Add(fractionOf(l))
	}
	if len(b.Supply.Draws) == 0 {
		b.Factor = quantity.Number{}
	}
	if left := quantity.Int(1).Sub(part); left.Sign() > 0 {
		b.Factor = b.Factor.Div(left)
	}
	for _, n := range makings {
		b.Factor = quantity.Max(b.Factor, n)
	}
}

// timesMade is, for each line that draws a share, how often its dish is made in
// all.
func timesMade(lines []*Amount) map[*resolve.Line]quantity.Number {
	sum := map[*resolve.Line]quantity.Number{}
	for _, a := range lines {
		if a.Line.Share != nil {
			sum[a.Line] = sum[a.Line].Add(a.Making.Factor)
		}
	}
	return sum
}

// fractionOf is the written share of a line; 0 of one that takes the rest.
func fractionOf(l *resolve.Line) quantity.Number {
	if l.Share.Rest {
		return quantity.Number{}
	}
	return l.Share.Fraction
}

// shareOut gives the lines that draw a share of a supply their amounts, the
// rest last. Kept is what the block keeps for itself.
func (w *work) shareOut(s *Supply, lines []*Amount, kept quantity.Quantity) {
	makings, rests := timesMade(lines), map[*resolve.Line]quantity.Quantity{}
	for _, rest := range []bool{false, true} {
		for _, a := range lines {
			if a.Line.Share == nil || a.Line.Product != s.Product || a.Line.Share.Rest != rest {
				continue
			}
			q := s.Made.Scale(fractionOf(a.Line))
			if left, err := s.Made.Sub(s.Drawn); err == nil && rest {
				if was, again := rests[a.Line]; again {
					q = was
				} else if q, err = left.Sub(kept); err != nil {
					continue
				}
				rests[a.Line] = q
			}
			if all := makings[a.Line]; all.Sign() > 0 {
				q = q.Scale(a.Making.Factor.Div(all))
			}
			q.Value.Low = q.Value.High
			if q.Value.High.Sign() <= 0 {
				w.nothingLeft(s, a)
				continue
			}
			what := a.Line.AmountText
			a.Quantity = &q
			a.How = []string{fmt.Sprintf("%s %s: %s of %s made", what, s.Name, s.Say(q), s.Say(s.Made))}
			s.Draws = append(s.Draws, Draw{By: a, Quantity: q})
			if sum, err := s.Drawn.Add(q); err == nil {
				s.Drawn = sum
			}
		}
	}
}

func (w *work) nothingLeft(s *Supply, a *Amount) {
	d := w.diags.Errorf("D111", a.Line.AmountAt.To(a.Line.NameAt), "nothing is left of %s", s.Name).
		Because("others take all of the %s that is made", s.Say(s.Made))
	for _, dr := range s.Draws {
		d.See(dr.By.Line.Span, "%s for %s", s.Say(dr.Quantity), dr.By.Making.Recipe.Name)
	}
	d.WithHelp("write the amount that is wanted, and as much more will be made").
		WithHelp("or write a larger `makes`, if the recipe gives more")
}
