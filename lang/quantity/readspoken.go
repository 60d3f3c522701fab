package quantity

import "strings"

// spoken reads an amount whose number is said in words: two onions, half a
// pound of lard, three quarters of a cup of milk, two 400 g tins.
func (r *reader) spoken(i int) (Amount, int, bool) {
	s, n := ReadSpoken(r.s[i:], r.opt)
	bare := false // a fraction with neither "a", "of" nor a unit
	if n == 0 {
		if s, n = r.barePart(i); n == 0 {
			return Amount{}, 0, false
		}
		bare = true
	}
	j := i + n
	if c := r.byteAt(j); c == '-' { // half-cup is an amount, seven-hour a name
		t, e, ok := r.hyphened(s, j)
		if !ok {
			return Amount{}, 0, true
		}
		return Amount{Kind: Plain, Measure: Measure{Terms: []Term{t}}}, e, true
	}
	k := r.blanks(j)
	if k == j && !r.opt.Alone {
		return Amount{}, 0, true
	}
	said := j
	if s.Part { // half a pound, a quarter of one cabbage
		e, of := r.word(k, "of")
		if of {
			k = r.blanks(e)
			j = e
		}
		if _, e, ok := r.oneOf(k, "a", "an", "one"); ok && r.blanks(e) > e {
			j, of = e, true
		}
		bare = bare && !of
	} else if e, ok := r.word(k, "of"); ok { // a couple of sprigs
		if _, _, ok := r.term(s.Value, e); ok {
			j = e
		}
	}
	mark := len(r.probs)
	if _, e, ok := r.term(s.Value, j); (bare || s.Ordinal && j == said) && !r.measures(j) && (!ok || r.after(e) != aName) {
		r.forget(mark)
		if r.nameAt(r.blanks(j)) == aName {
			part := s.Value.String()
			r.ask(CodeWords, i, j, "`"+r.s[i:j]+"` may be "+part+", or part of the name", "write `"+part+"`, or put quotes round the name", part)
		}
		return Amount{}, 0, true
	}
	r.forget(mark)
	if s.Article && r.nameAt(r.blanks(j)) != aName {
		return Amount{}, 0, true
	}
	a, end := r.afterNumber(i, s.Value, j)
	return a, end, true
}

// barePart reads "quarter pound", and "quarter cabbage", of which a question
// must be asked.
func (r *reader) barePart(i int) (Spoken, int) {
	w := speech{r}
	word, e := w.said(i)
	switch word {
	case "quarter", "third":
		return Spoken{Value: Exactly(Frac(1, partNames[word])), Part: true}, e - i
	}
	return Spoken{}, 0
}

// hyphened reads the unit of "half-cup" behind the hyphen at j.
func (r *reader) hyphened(s Spoken, j int) (Term, int, bool) {
	for _, a := range [...]string{"-a-", "-an-"} { // half-a-pint
		if strings.HasPrefix(strings.ToLower(r.s[j:min(len(r.s), j+4)]), a) {
			j += len(a) - 1
		}
	}
	u, _, e, ok := r.unit(j + 1)
	if !ok || !s.Part || u.Dim != Volume && u.Dim != Mass || r.after(e) != aName {
		return Term{}, j, false
	}
	return Term{Value: s.Value, Unit: u}, e, true
}

// measures tells whether a unit that only sentences have follows.
func (r *reader) measures(j int) bool {
	_, _, ok := r.fullUnit(Range{}, j)
	return ok
}

// fullUnit reads a unit that sentences have and lists did not: cupfuls.
func (r *reader) fullUnit(v Range, j int) (Term, int, bool) {
	k := r.blanks(j)
	if k == j {
		return Term{}, j, false
	}
	size, k := r.size(k)
	if _, _, _, ok := r.unit(k); ok {
		return Term{}, j, false
	}
	u, n := ReadSpokenUnit(r.s[k:], r.opt)
	return Term{Value: v, Unit: u, Modifier: size}, k + n, u != nil
}

// andAPart adds the "and a half" behind a unit that ends at end.
func (r *reader) andAPart(v Range, end int) (Range, int) {
	k := r.blanks(end)
	j, ok := r.word(k, "and")
	if !ok || k == end || v.IsRange() || !v.Low.IsInt() || r.opt.Prose {
		return v, end
	}
	k = r.blanks(j)
	s, n := ReadSpoken(r.s[k:], r.opt)
	if n == 0 || !s.Part || k == j {
		return v, end
	}
	e := k + n
	if _, _, ok := r.term(s.Value, e); ok || r.after(e) != aName && !r.opt.Alone || r.partOfA(s.Value, e) > e { // and 1/2 a pint
		return v, end
	}
	return Exactly(v.Low.Add(s.Value.Low)), e
}

// less takes from a measure of one term that ends at end what is said behind
// it: 1 cup less 2 tbsp. ok is false when nothing is.
func (r *reader) less(i int, m Measure, end int) (a Amount, e int, ok bool) {
	k := r.blanks(end)
	_, j, ok := r.oneOf(k, "less", "minus")
	if !ok || k == end || r.opt.Prose || len(m.Terms) != 1 || m.Terms[0].Value.IsRange() {
		return Amount{}, end, false
	}
	mark := len(r.probs)
	off, e, ok := r.measure(r.blanks(j))
	if !ok || len(off.Terms) != 1 || off.Terms[0].Value.IsRange() || !sized(m) || !sized(off) || m.Terms[0].Unit.Dim != off.Terms[0].Unit.Dim {
		r.forget(mark)
		return Amount{}, end, false
	}
	t := m.Terms[0]
	whole, p1 := Of(t.Value.Low, t.Unit, r.opt.System)
	part, p2 := Of(off.Terms[0].Value.Low, off.Terms[0].Unit, r.opt.System)
	a = Amount{Kind: Plain, Measure: m}
	if p1 != nil || p2 != nil || !part.Value.Low.Less(whole.Value.Low) {
		r.problem(CodePlus, i, e, "`"+r.s[i:e]+"` cannot be worked out", "write what is left, in one unit", "")
		return a, e, true
	}
	left := whole.Value.Low.Sub(part.Value.Low)
	for _, u := range []*Unit{t.Unit, off.Terms[0].Unit, MustUnit(map[Dimension]string{Mass: "g", Volume: "ml", Length: "mm"}[t.Unit.Dim])} {
		size, _ := Of(Int(1), u, r.opt.System)
		v := left.Div(size.Value.Low)
		if u.metric || v.Mul(Int(8)).IsInt() || v.Mul(Int(3)).IsInt() {
			a.Measure = Measure{Terms: []Term{{Value: Exactly(v), Unit: u}}}
			break
		}
	}
	return a, e, true
}

// mistyped asks about a figure at i with a letter in it, as in 6OO g, l00 g
// and O.5 kg, and reads what was meant.
func (r *reader) mistyped(i int) (Amount, int, bool) {
	e, letters, figures := i, 0, 0
	meant := make([]byte, 0, 12)
	for ; e < len(r.s) && e-i < 12; e++ {
		switch c := r.s[e]; c {
		case 'O', 'o':
			meant = append(meant, '0')
			letters++
		case 'l', 'I':
			meant = append(meant, '1')
			letters++
		case '.', ',', '/':
			meant = append(meant, c)
		default:
			if !isDigit(c) {
				goto end
			}
			meant = append(meant, c)
			figures++
		}
	}
end:
	last := r.byteAt(max(e-1, 0))
	alone := figures == 0 && letters == 1 && e-i == 1 && r.s[i] != 'o' && !r.opt.Prose && r.aUnitAndAName(e) // l kg sugar
	if letters == 0 || figures == 0 && !alone || last == '.' || last == ',' || last == '/' {
		return Amount{}, 0, false
	}
	// 5l of milk is five litres, and 7Il is no figure that anyone types.
	if d := r.digits(i); d > i {
		if u, _, _, ok := r.unit(d); ok && u.Digits {
			return Amount{}, 0, false
		}
	}
	closed := r.blanks(e) > e
	if u, _, _, ok := r.unit(e); ok && u.Digits {
		closed = true
	}
	if !closed {
		return Amount{}, 0, false
	}
	right := string(meant)
	in := reader{s: right + r.s[e:], opt: r.opt}
	a, n := in.figures(0)
	if n < len(right) || len(in.probs) > 0 || !in.startsNumber(0) || r.opt.DecimalComma != (last == ',') && last == ',' {
		return Amount{}, 0, false
	}
	r.ask(CodeTyped, i, e, "a letter stands among the figures of `"+r.s[i:e]+"`", "write `"+right+"`, or put quotes round a name that begins so", right)
	return a, n - len(right) + e, true
}

// aUnitAndAName tells whether a space, a unit of weight or volume and the name stand at i.
func (r *reader) aUnitAndAName(i int) bool {
	k := r.blanks(i)
	u, _, e, ok := r.unit(k)
	return k > i && ok && (u.Dim == Mass || u.Dim == Volume) && r.blanks(e) > e && r.after(e) == aName
}

// doubled asks about a second unit behind a measure, 600 g g leeks, and gives where the amount
// ends: behind the same unit again.
func (r *reader) doubled(i int, a Amount, end int) int {
	k := r.blanks(end)
	u, _, e, ok := r.unit(k)
	again := ok && len(a.Measure.Terms) > 0 && a.Measure.Terms[len(a.Measure.Terms)-1].Unit == u                                               // 2 tbsp tbsp oil
	if !ok || r.opt.Prose || u.Dim != Mass && u.Dim != Volume || !again && (!u.Digits || e-k > 3) || r.after(e) != aName || r.blanks(e) == e { // 250 g pound cake
		return end
	}
	right := a.Text(r.opt.DecimalComma)
	r.ask(CodeTyped, i, e, "two units stand after this figure", "write `"+right+"`, or put quotes round the name", right)
	if again {
		return e
	}
	return end
}
