package figures

import "tamis/lang/quantity"

// What is bought is rounded up: it may be more than is needed and never less.

// Whole is how many whole ones so many take.
func Whole(n quantity.Number) int {
	whole, _ := n.Ceil().Int64()
	return int(whole)
}

// Carried is a quantity as it is carried home: nobody sells half a lemon, a quarter of a
// head or a third of a tin.
func Carried(q quantity.Quantity) quantity.Quantity {
	switch {
	case q.Packs != nil:
		p := *q.Packs
		p.Count = quantity.Range{Low: p.Count.Low.Ceil(), High: p.Count.High.Ceil()}
		q.Packs = &p
		q.Value = quantity.Range{Low: p.Count.Low.Mul(p.Each.Value.High), High: p.Count.High.Mul(p.Each.Value.High)}
	case q.Dim == quantity.None || q.Dim == quantity.Word:
		q.Value = quantity.Range{Low: q.Value.Low.Ceil(), High: q.Value.High.Ceil()}
	}
	return q
}

// Bought is a quantity that is bought, as it is printed.
func (s *Set) Bought(q quantity.Quantity, st quantity.Style) string {
	q = Carried(q)
	if text, ok := s.Packs(q, st); ok {
		return text
	}
	if weighedByGram(q, st) {
		up := q
		up.Value = quantity.Exactly(q.Value.High.Ceil())
		return exactly(up, st).Text
	}
	for percent := range int64(6) {
		more := q.Scale(quantity.Int(100 + percent).Div(quantity.Int(100)))
		if r := quantity.Round(more, st); !r.Value.High.Less(q.Value.High) {
			return more.Print(st)
		}
	}
	return exactly(q, st).Text
}

// weighedByGram tells whether a weight is so little that a sheet of what is to be bought
// says it to the gram: 66 g for parts that come to 65.5, not 67.
func weighedByGram(q quantity.Quantity, st quantity.Style) bool {
	v := q.Value.High
	metric := st.System != quantity.US && st.System != quantity.Imperial && (st.Unit == nil || st.Unit.InMetric())
	return metric && q.Dim == quantity.Mass && !q.Value.IsRange() && !v.Less(quantity.Int(10)) && v.Less(quantity.Int(100))
}
