package figures

import (
	"tamis/compiler/demand"
	"tamis/compiler/larder"
	"tamis/lang/quantity"
)

// Some things come whole: an egg, a tin, a bay leaf, a clove of garlic. Their
// figure is the nearest whole number, never none; where that is far enough from
// the true one to be tasted, the true one is said beside it, and what it weighs.

// matters is how far a whole number may be from the true one before that is
// said, and by how much the true one is what should go in. Common practice, no
// source.
var (
	matters = quantity.Frac(2, 100)
	tooFar  = quantity.Frac(10, 100)
)

func (s *Set) whole(a *demand.Amount, st quantity.Style) (Figure, bool) {
	q := *a.Quantity
	if p := q.Packs; p != nil {
		if text, ok := s.Packs(q, st); ok {
			return Figure{Text: text, Quantity: q, style: st}, true
		}
		if p.Count.IsRange() { // as many as a range can mean
			count := quantity.Range{Low: nearestWhole(p.Count.Low), High: p.Count.High.Ceil()}
			q.Value = quantity.Range{Low: p.Each.Value.High.Mul(count.Low), High: p.Each.Value.High.Mul(count.High)}
			q.Packs = &quantity.Packs{Count: count, Each: p.Each, Container: p.Container}
			f := Figure{Quantity: q, style: st}
			f.Text, _ = s.Packs(q, st)
			return f, true
		}
		n := nearestWhole(p.Count.High)
		all := p.Each.Scale(n)
		all.Packs = &quantity.Packs{Count: quantity.Exactly(n), Each: p.Each, Container: p.Container}
		f := Figure{Quantity: all, style: st}
		f.Text, _ = s.Packs(all, st)
		q.Packs = nil
		f.Note = s.trueNumber(p.Count.High, n, "weigh", q.Print(st))
		return f, true
	}
	if !wholeOnly(a.Line.Name, q) {
		return Figure{}, false
	}
	exact := q.Value
	q.Value = quantity.Range{Low: nearestWhole(q.Value.Low), High: nearestWhole(q.Value.High)}
	f := said(q, st)
	if q.Unit != nil && q.Unit.Packs && !exact.IsRange() {
		f.Note = s.trueNumber(exact.High, q.Value.High, "", "")
	} else if verb := eggs[itemName(a.Line.Name)]; verb != "" && !exact.IsRange() {
		weight := ""
		if grams, _, ok := a.Line.PieceGrams(); ok {
			weight = s.weighed(exact.High.Mul(grams), st)
		}
		f.Note = s.trueNumber(exact.High, q.Value.High, verb, weight)
	}
	return f, true
}

// trueNumber is said beside a whole number that stands for another.
func (s *Set) trueNumber(exact, n quantity.Number, verb, weight string) string {
	wrong := off(exact, n)
	if !exact.Mul(matters).Less(wrong) {
		return ""
	}
	if nearestPart(exact).Equal(n) {
		return "" // it would be the same number again
	}
	text := "or "
	if exact.Mul(tooFar).Less(wrong) {
		text = "use "
	}
	st := s.Style()
	st.Exact = true
	text += quantity.Pieces(nearestPart(exact)).Print(st)
	if weight != "" {
		text += ": " + verb + " " + weight
	}
	return text
}

// nearestPart is the nearest quarter or third; of less than a half, sixth or eighth too.
func nearestPart(n quantity.Number) quantity.Number {
	best := quantity.RoundTo(n, quantity.Frac(1, 4))
	for _, den := range []int64{3, 6, 8} {
		if part := quantity.RoundTo(n, quantity.Frac(1, den)); off(part, n).Less(off(best, n)) && (den == 3 || n.Less(quantity.Frac(1, 2))) {
			best = part
		}
	}
	return quantity.Max(best, quantity.Frac(1, 8))
}

func off(a, b quantity.Number) quantity.Number {
	if a.Less(b) {
		return b.Sub(a)
	}
	return a.Sub(b)
}

// weighed is a weight to the gram, or to the quarter of an ounce.
func (s *Set) weighed(grams quantity.Number, st quantity.Style) string {
	st.Unit, st.Modifier = nil, ""
	if st.System == quantity.US || st.System == quantity.Imperial {
		if q := quantity.Grams(grams); q.Measurable(st) {
			return q.Print(st)
		}
		return ""
	}
	st.Exact = true
	return quantity.Grams(quantity.RoundTo(grams, quantity.Int(1))).Print(st)
}

// eggs are eggs and their parts, and how a part of one is had.
var eggs = map[string]string{"egg": "beat and weigh", "quail's egg": "beat and weigh", "duck egg": "beat and weigh", "egg yolk": "weigh", "egg white": "weigh"}

func itemName(name string) string {
	if it, ok := larder.Builtin().Find(name); ok {
		return it.Name
	}
	return ""
}

// wholeOnly tells whether a count is of things nobody halves: eggs, tins, cloves,
// sprigs, leaves, and what stands in the spice rack. Common practice, no source.
func wholeOnly(name string, q quantity.Quantity) bool {
	switch q.Dim {
	case quantity.Word:
		switch q.Unit.Name {
		case "clove", "sprig", "leaf", "stalk", "sheet", "slice", "rasher":
			return true
		}
		return q.Unit.Packs // a tin whose size nobody said
	case quantity.None:
		it, ok := larder.Builtin().Find(name)
		return ok && (it.Counter == "spices" && !inParts[it.Name] || eggs[it.Name] != "")
	}
	return false
}

// inParts are whole spices of which a part goes in: a nutmeg is grated, a stick broken.
var inParts = map[string]bool{"nutmeg": true, "cinnamon stick": true, "tonka bean": true}

// nearestWhole is the whole number nearest to n, at least 1.
func nearestWhole(n quantity.Number) quantity.Number {
	return quantity.Max(quantity.Int(1), quantity.RoundTo(n, quantity.Int(1)))
}

// Need is how much of a line must be there: what is printed, or the true amount
// where a whole number stands for it and is less. It is nil without an amount.
func (s *Set) Need(a *demand.Amount) *quantity.Quantity {
	if a.Quantity == nil {
		return nil
	}
	q := s.Line(a).Quantity
	if q.Value.High.Less(a.Quantity.Value.High) && (q.Packs != nil || q.Unit != nil && q.Unit.Packs || eggs[itemName(a.Line.Name)] != "") {
		q = *a.Quantity
	}
	return &q
}
