package quantity

// ReadMeasure reads a measure at the start of text: 250 g, 1 to 2 tbsp,
// 2 lb 10 oz, 1 cup plus 2 tbsp. n is how many bytes it took, 0 if there is
// none. No name need follow.
func ReadMeasure(text string, opt Options) (m Measure, n int, problems []Problem) {
	r := reader{s: text, opt: opt}
	m, end, ok := r.measure(r.blanks(0))
	if !ok {
		return Measure{}, 0, r.probs
	}
	return m, end, r.probs
}

// ReadUnit reads a unit word alone, as after "per": "kg", "clove".
func ReadUnit(text string, opt Options) (u *Unit, n int) {
	r := reader{s: text, opt: opt}
	u, _, end, ok := r.unit(r.blanks(0))
	if !ok {
		return nil, 0
	}
	return u, end
}

// maxTerms is more terms than any sum of measures needs.
const maxTerms = 12

// measure reads Range Unit and the smaller terms after it.
func (r *reader) measure(i int) (Measure, int, bool) {
	v, j, ok := r.rng(i)
	if !ok {
		return Measure{}, i, false
	}
	return r.measureFrom(i, v, j)
}

// measureFrom is measure when the first number, from i to j, is already read.
func (r *reader) measureFrom(i int, v Range, j int) (Measure, int, bool) {
	first, end, ok := r.term(v, j)
	if !ok {
		return Measure{}, i, false
	}
	first.Value, end = r.andAPart(first.Value, end)
	if first.Unit != nil && first.Value.Low.Equal(Int(1)) && !first.Value.IsRange() {
		first.Value, end = r.orTwo(i, first.Unit, first.Value, end)
	}
	m := Measure{Terms: []Term{first}}
	for {
		next, e, ok := r.another(m.Terms[len(m.Terms)-1], end)
		if !ok || len(m.Terms) == maxTerms {
			return m, end, true
		}
		m.Terms = append(m.Terms, next)
		end = e
	}
}

// term reads the unit at j after the number v.
func (r *reader) term(v Range, j int) (Term, int, bool) {
	k := r.blanks(j)
	if f, e, ok := r.halves(k); ok && k > j { // three half-pints
		v, j, k = v.Mul(f), e-1, r.blanks(e)
	}
	w, u0 := r.size(k)
	if w != "" && k == j {
		return Term{}, j, false
	}
	u, one, end, ok := r.unit(u0)
	if !ok || k == j && !u.Digits || w != "" && !modifiable(u) {
		return Term{}, j, false
	}
	if _, _, piece := r.oneOf(r.blanks(end), "piece", "pieces", "length", "lengths", "knob", "stick", "sticks"); piece && u.Dim == Length {
		one = false // 2 inch piece
	}
	if one && Int(1).Less(v.High) {
		have := r.s[u0:end]
		r.problem(CodePlural, u0, end, "above 1 the unit is `"+u.Plural+"`, not `"+have+"`",
			"write `"+u.Plural+"`, or put quotes round the name if `"+have+"` belongs to it", u.Plural)
	}
	return Term{Value: v, Unit: u, Modifier: w}, end, true
}

// halves reads "half" and "quarter" before a unit of which there are several;
// end is where the unit begins.
func (r *reader) halves(i int) (f Number, end int, ok bool) {
	e := r.wordEnd(i)
	d := partNames[Fold(r.s[i:e])]
	if c := r.byteAt(e); d == 0 || c != '-' && c != ' ' {
		return Number{}, i, false
	}
	u, _, _, is := r.unit(e + 1)
	if !is || u.Dim != Mass && u.Dim != Volume {
		return Number{}, i, false
	}
	return Frac(1, d), e + 1, true
}

// modifiable tells whether a unit can be heaped, level, large or small.
func modifiable(u *Unit) bool { return u.Dim != Mass && u.Dim != Length && !u.metric }

// another reads a further term of a compound: of the same dimension, smaller
// than the one before, with or without `plus`.
func (r *reader) another(last Term, end int) (Term, int, bool) {
	rank, ok := last.Unit.order()
	if !ok {
		return Term{}, end, false
	}
	k := r.blanks(end)
	plus := false
	if r.byteAt(k) == '+' {
		k, plus = r.blanks(k+1), true
	} else if j, ok := r.word(k, "plus"); ok && k > end {
		k, plus = r.blanks(j), true
	}
	if !r.startsNumber(k) {
		return Term{}, end, false
	}
	mark := len(r.probs)
	v, j, ok := r.rng(k) // 2-1/2 qt
	if ok && !v.IsRange() {
		t, e, ok := r.term(v, j)
		if ok && t.Unit.Dim == last.Unit.Dim {
			if size, _ := t.Unit.order(); size.Less(rank) || plus && size.Equal(rank) {
				return t, e, true
			}
		}
		if ok && plus {
			// Not a sum that can be made: the caller meets `plus` where a
			// name should be and says so.
			r.forget(mark)
			return Term{}, end, false
		}
	}
	r.forget(mark)
	return Term{}, end, false
}
