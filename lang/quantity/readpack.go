package quantity

// packages reads "2 x 400 g tins" when the count from i to j is read.
func (r *reader) packages(i int, v Range, j int) (Amount, int, bool) {
	k, ok := r.times(r.blanks(j))
	if !ok {
		return Amount{}, 0, false
	}
	b := r.blanks(k)
	if !r.startsNumber(b) {
		// "2 x lemons": the sign has nothing to multiply.
		if b > k && !r.opt.Prose && r.nameAt(b) == aName {
			a := Amount{Kind: Plain, Measure: Measure{Terms: []Term{{Value: v}}}}
			r.zero(i, k, a.Measure)
			return a, k, true
		}
		return Amount{}, 0, false
	}
	mark := len(r.probs)
	if r.longs(b) && !r.opt.Prose { // 4 x 1-inch pork chops
		a := Amount{Kind: Plain, Measure: Measure{Terms: []Term{{Value: v}}}}
		r.zero(i, k, a.Measure)
		return a, k, true
	}
	each, end, ok := r.measure(b)
	if !ok || !sized(each) {
		r.forget(mark)
		r.problem(CodePack, i, k, "what stands after `x` must be the size of one package", "write such as `2 x 400 g tins`", "")
		return Amount{Kind: Plain, Measure: Measure{Terms: []Term{{Value: v}}}}, j, true
	}
	a := Amount{Kind: Packages, Count: v, Each: each}
	size := r.s[b:end]
	end = r.secondSize(i, v, j, each, size, end)
	u, one, e, ok := r.unit(r.blanks(end))
	if (!ok || u.Dim != Word) && r.after(end) == aName && !r.opt.Prose { // 4 x 150 g salmon fillets
		if _, se, is := r.oneOf(r.blanks(end), "spoon", "spoons", "spoonful", "spoonfuls", "measures", "measure", "pots", "pot", "blocks", "block", "bars", "bar", "tubes", "tube", "rounds", "slabs", "wedges", "cups", "pouches", "pouch", "cartons"); is && r.after(se) == aName { // 3 x 15 ml spoons oil
			end = se
		}
		return a, end, true
	}
	if !ok || u.Dim != Word {
		count := r.s[i:j]
		r.problem(CodePack, i, end, count+" packages of "+size+": tins, jars, packets?",
			"write such as `"+count+" x "+size+" packets`; for pieces of about "+size+" write the whole weight, or the count alone and the weight of a piece in the larder", "")
		return a, end, true
	}
	a.Container = u
	if one && Int(1).Less(v.High) {
		c := r.blanks(end)
		r.problem(CodePlural, c, e, "above 1 the unit is `"+u.Plural+"`, not `"+r.s[c:e]+"`", "write `"+u.Plural+"`", u.Plural)
	}
	switch r.after(e) {
	case aName:
	case nothing:
		return a, r.lonely(a, i, e), true
	case aNumber:
		return r.crowded(i, a, e)
	default:
		return r.joined(i, a, e)
	}
	return a, e, true
}

// longs tells whether a length that is joined to its name stands at i: 1-inch, 2.5cm-thick.
func (r *reader) longs(i int) bool {
	_, j, ok := r.number(i)
	if !ok {
		return false
	}
	if r.byteAt(j) == '-' {
		j++
	}
	end := j
	for end < len(r.s) && r.s[end]|0x20 >= 'a' && r.s[end]|0x20 <= 'z' {
		end++
	}
	u, ok := UnitNamed(r.s[j:end])
	return ok && u.Dim == Length && r.s[end-1] != ' '
}

// weighing reads "4-pound" or "3- to 4-pound" before a name, behind the count v that ends at
// j: so many pieces, each of that weight.
func (r *reader) weighing(v Range, j int) (Amount, int, bool) {
	k := r.blanks(j)
	if k == j || r.opt.Prose {
		return Amount{}, 0, false
	}
	each, e, ok := r.number(k)
	if !ok || r.byteAt(e) != '-' {
		return Amount{}, 0, false
	}
	size := Exactly(each)
	if to, b, is := r.oneOf(r.blanks(e+1), "to", "or"); is && to != "" && r.blanks(e+1) > e+1 {
		high, he, ok := r.number(r.blanks(b))
		if !ok || !each.Less(high) || r.byteAt(he) != '-' {
			return Amount{}, 0, false
		}
		size.High, e = high, he
	}
	u, _, end, ok := r.unit(e + 1)
	if !ok || u.Dim != Mass || r.after(end) != aName || r.blanks(end) == end {
		return Amount{}, 0, false
	}
	if next, _, _, is := r.unit(r.blanks(end)); is && next.Packs {
		return Amount{}, 0, false
	}
	return Amount{Kind: Packages, Count: v, Each: Measure{Terms: []Term{{Value: size, Unit: u}}}}, end, true
}

// secondSize complains of the second measure in "1 x 400 g (14 oz) tins" or
// "1 x 400g/14oz tins" and returns where it ends, or end if there is none.
func (r *reader) secondSize(i int, v Range, j int, each Measure, size string, end int) int {
	k := r.blanks(end)
	open := r.byteAt(k)
	if open != '(' && open != '/' {
		return end
	}
	mark := len(r.probs)
	other, e, ok := r.measure(r.blanks(k + 1))
	if open == '(' && ok {
		e = r.blanks(e)
		ok = r.byteAt(e) == ')'
		e++
	}
	r.forget(mark)
	if !ok || !sized(other) {
		return end
	}
	u, _, ue, ok := r.unit(r.blanks(e))
	if !ok || u.Dim != Word {
		return end
	}
	r.hint(CodePack, i, ue, "the size of packages is kept in one measure, `"+size+"`", "write `"+r.s[i:j]+" x "+size+" "+u.For(v)+"`")
	return e
}

// bracketed reads "2 (14 oz) cans", "2 14-oz cans" and "2 400 g tins", when the
// count from i to j is read.
func (r *reader) bracketed(i int, v Range, j int) (Amount, int, bool) {
	k := r.blanks(j)
	if k == j && r.byteAt(k) != '(' || r.byteAt(k) != '(' && !isDigit(r.byteAt(k)) {
		return Amount{}, 0, false
	}
	mark := len(r.probs)
	defer func() { r.probs = r.probs[:min(len(r.probs), mark+1)] }()
	b := k
	if r.byteAt(k) == '(' {
		b = r.blanks(k + 1)
	}
	size, end, ok := r.rng(b)
	if !ok {
		r.forget(mark)
		return Amount{}, 0, false
	}
	n := end
	if r.byteAt(end) == '-' {
		n++
	}
	if to, w, is := r.oneOf(r.blanks(n), "to", "or"); is && to != "" && n > end { // 12- to 14-pound
		if high, he, ok := r.number(r.blanks(w)); ok && size.High.Less(high) && r.byteAt(he) == '-' {
			size.High, end, n = high, he, he+1
		}
	}
	t, e, ok := r.term(size, n)
	if !ok && n == end+1 { // 14-ounce: a word may follow the dash
		if u, _, ue, found := r.unit(n); found {
			t, e, ok = Term{Value: size, Unit: u}, ue, true
		}
	}
	each := Measure{Terms: []Term{t}}
	r.forget(mark)
	if !ok || !sized(each) || t.Unit.Dim == Length {
		return Amount{}, 0, false
	}
	if b > k {
		e = r.blanks(e)
		if r.byteAt(e) != ')' {
			return Amount{}, 0, false
		}
		e++
	}
	u, _, ue, ok := r.unit(r.blanks(e))
	if !ok || u.Dim != Word || r.after(ue) != aName && !(r.opt.Alone && r.after(ue) == nothing) {
		if b > k && t.Unit.Dim == Mass && !r.opt.Prose && r.blanks(e) > e && r.nameAt(r.blanks(e)) == aName && (v.High.Equal(Int(1)) || n > end) { // 1 (3-lb) chicken
			return Amount{Kind: Packages, Count: v, Each: each}, e, true
		}
		return Amount{}, 0, false
	}
	return Amount{Kind: Packages, Count: v, Each: each, Container: u}, ue, true
}

// sized tells whether a measure has a weight, volume or length.
func sized(m Measure) bool {
	for _, t := range m.Terms {
		if t.Unit == nil {
			return false
		}
		if _, ok := t.Unit.order(); !ok {
			return false
		}
	}
	return len(m.Terms) > 0
}

// onePack complains of "400 g tin tomatoes", which says neither how many tins
// nor whether 400 g is all.
func (r *reader) onePack(i int, m Measure, end int) (Amount, int, bool) {
	k := r.blanks(end)
	u, one, e, ok := r.unit(k)
	if !ok || k == end || !u.Packs || !sized(m) || r.after(e) == aSmall && !r.opt.Alone {
		return Amount{}, 0, false
	}
	size := r.s[i:end]
	a := Amount{Kind: Packages, Count: Exactly(Int(1)), Each: m, Container: u}
	if one {
		right := "1 x " + size + " " + u.Name
		r.problem(CodePack, i, e, "one "+u.Name+" holding "+size+", or "+size+" in all?", "write `"+right+"`, or put quotes round the name if `"+u.Name+"` belongs to it", right)
	} else {
		r.problem(CodePack, i, e, "how many "+u.Plural+" of "+size+"?", "write `2 x "+size+" "+u.Plural+"`", "")
	}
	return a, e, true
}

// pair reads the brackets of "900 g (2 lb)".
func (r *reader) pair(i int, m Measure, end int) (Amount, int, bool) {
	k := r.blanks(end)
	if r.byteAt(k) == '/' {
		return r.slashed(i, m, end, k)
	}
	if r.byteAt(k) != '(' {
		return Amount{}, 0, false
	}
	mark := len(r.probs)
	also, j, ok := r.measure(r.doubt(r.blanks(k + 1)))
	j = r.blanks(j)
	if !ok || r.byteAt(j) != ')' || r.after(j+1) == aSmall {
		r.forget(mark)
		return Amount{}, 0, false
	}
	j++
	a := Amount{Kind: Paired, Measure: m, Also: also}
	first := m.Terms[0]
	if first.Unit.Dim == Word && sized(also) {
		many := Int(1).Less(first.Value.High)
		size := r.s[r.doubt(r.blanks(k+1)) : j-1]
		count := first.Value.String()
		switch {
		case many:
			a = Amount{Kind: Packages, Count: first.Value, Each: also, Container: first.Unit}
			right := count + " x " + size + " " + first.Unit.For(first.Value)
			r.problem(CodeEachOrAll, i, j, size+" each, or in all?", "write `"+right+"`, or only the whole weight", right)
		case first.Unit.Packs:
			a = Amount{Kind: Packages, Count: first.Value, Each: also, Container: first.Unit}
		}
		return a, j, true
	}
	if p := a.CheckPair(r.opt.System); p != nil && !r.opt.Prose {
		p.Start, p.End = i, j
		r.probs = append(r.probs, *p)
	}
	return r.behindPair(i, a, j)
}

func (r *reader) behindPair(i int, a Amount, j int) (Amount, int, bool) {
	switch r.after(j) {
	case aNumber:
		return r.crowded(i, a, j)
	case nothing:
		return a, r.lonely(a, i, j), true
	}
	return a, j, true
}

// slashed reads the second measure of "200g/7oz".
func (r *reader) slashed(i int, m Measure, end, k int) (Amount, int, bool) {
	mark := len(r.probs)
	also, j, ok := r.measure(r.blanks(k + 1))
	if !ok {
		r.forget(mark)
		return Amount{}, 0, false
	}
	a := Amount{Kind: Paired, Measure: m, Also: also}
	if p := a.CheckPair(r.opt.System); p != nil && !r.opt.Prose {
		p.Start, p.End = i, j
		r.probs = append(r.probs, *p)
	}
	return r.behindPair(i, a, j)
}

// doubt is where the measure begins in "(about 30 g)".
func (r *reader) doubt(i int) int {
	e := r.wordEnd(i)
	switch {
	case r.byteAt(i) == '~':
		return r.blanks(i + 1)
	case doubts[Fold(r.s[i:e])]:
		if r.byteAt(e) == '.' {
			e++
		}
		return r.blanks(e)
	}
	return i
}
