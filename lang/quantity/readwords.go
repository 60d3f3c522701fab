package quantity

// worded reads amounts that begin with a word: "a pinch salt", and the ones
// that should have been figures.
func (r *reader) worded(i int) (Amount, int) {
	e := r.wordEnd(i)
	if !r.atEnd(e) || e-i > 13 {
		return Amount{}, 0
	}
	var buf [13]byte
	for k := i; k < e; k++ {
		c := r.s[k]
		if 'A' <= c && c <= 'Z' {
			c += 'a' - 'A'
		}
		buf[k-i] = c
	}
	w := buf[:e-i]
	k := r.blanks(e)
	if k == e {
		if (string(w) == "c" || string(w) == "ca") && r.byteAt(e) == '.' && !r.opt.Prose {
			return r.about(i, e+1)
		}
		return Amount{}, 0
	}
	if string(w) == "a" || string(w) == "an" {
		return r.article(i, e, k)
	}
	if r.opt.Prose {
		return Amount{}, 0
	}
	if abouts[string(w)] {
		return r.about(i, e)
	}
	if string(w) == "some" || string(w) == "several" || string(w) == "plenty" {
		r.problem(CodeWords, i, e, "`"+r.s[i:e]+"` is no amount", "write a figure, or the name alone with `| to taste`", "")
		return Amount{}, 0
	}
	if string(w) == "half" {
		return r.half(i, e, k)
	}
	if n, ok := numberWords[string(w)]; ok {
		return r.spelt(i, e, Int(n))
	}
	return r.bareUnit(i, e, k)
}

// bareUnit complains of "pinch of salt", and of "pinch salt" where the word
// hardly begins a name.
func (r *reader) bareUnit(i, e, k int) (Amount, int) {
	u, one, end, ok := r.unit(i)
	if !ok || end != e || u.Dim != Word && u.Dim != Vague && u.Dim != Batch {
		return Amount{}, 0
	}
	_, of := r.word(k, "of")
	switch u.Name {
	case "pinch", "knob", "handful", "glug", "splash":
	default:
		if !of {
			return Amount{}, 0
		}
	}
	if r.after(e) != aName {
		return Amount{}, 0
	}
	if !one {
		r.problem(CodeWords, i, e, "how many "+u.Plural+"?", "write a figure before `"+r.s[i:e]+"`", "")
		return Amount{}, 0
	}
	right := "1 " + u.Name
	r.problem(CodeWords, i, e, "how many "+u.Plural+"?", "write `"+right+"`, or put quotes round a name that begins so", right)
	return Amount{Kind: Plain, Measure: Measure{Terms: []Term{{Value: Exactly(Int(1)), Unit: u}}}}, e
}

var numberWords = map[string]int64{
	"two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9, "ten": 10,
	"eleven": 11, "twelve": 12, "twenty": 20, "one": 1,
}

var abouts = map[string]bool{
	"about": true, "approx": true, "approximately": true, "around": true, "roughly": true, "circa": true, "ca": true, "say": true,
}

// article reads "a" and "an": 1 before a unit word and nowhere else.
func (r *reader) article(i, e, k int) (Amount, int) {
	mod, u0 := r.size(k)
	if u, _, end, ok := r.unit(u0); ok && r.byteAt(u0) != '#' && spelledOut(u, r.s[u0:end]) && r.after(end) != nothing &&
		(mod == "" || modifiable(u)) {
		a := Amount{Kind: Plain, Measure: Measure{Terms: []Term{{Value: Exactly(Int(1)), Unit: u, Modifier: mod}}}}
		if r.after(end) == aName {
			return a, end
		}
		a, n, _ := r.joined(i, a, end)
		return a, n
	}
	if r.opt.Prose {
		return Amount{}, 0
	}
	if isDigit(r.byteAt(k)) {
		mark := len(r.probs)
		if m, end, ok := r.measure(k); ok && sized(m) {
			if u, _, ce, ok := r.unit(r.blanks(end)); ok && u.Packs {
				r.forget(mark)
				right := "1 x " + r.s[k:end] + " " + u.Name
				r.problem(CodePack, i, ce, "amounts are written in figures", "write `"+right+"`", right)
				return Amount{Kind: Packages, Count: Exactly(Int(1)), Each: m, Container: u}, ce
			}
		}
		r.forget(mark)
		r.problem(CodeWords, i, k, "`"+r.s[i:e]+"` before a figure says nothing", "leave it out", "")
		return Amount{}, 0
	}
	if t, end, ok := r.described(Exactly(Int(1)), i, k); ok {
		return Amount{Kind: Plain, Measure: Measure{Terms: []Term{t}}}, end
	}
	next := Fold(r.s[k:r.wordEnd(k)])
	switch next {
	case "dozen":
		return r.spelt(i, r.wordEnd(k), Int(12))
	case "couple":
		return r.spelt(i, r.wordEnd(k), Int(2))
	case "few", "little", "bit", "lot", "touch", "good", "generous", "third", "quarter", "half":
		r.problem(CodeWords, i, r.wordEnd(k), "`"+r.s[i:r.wordEnd(k)]+"` is no amount", "write a figure, or the name alone with `| to taste`", "")
		return Amount{}, 0
	case "":
		return Amount{}, 0
	}
	if r.nameAt(k) != aName {
		return Amount{}, 0
	}
	r.problem(CodeWords, i, e, "`"+r.s[i:e]+"` counts as 1 only before a unit such as pinch or clove", "write `1`", "1")
	return Amount{Kind: Plain, Measure: Measure{Terms: []Term{{Value: Exactly(Int(1))}}}}, e
}

// spelledOut tells words (clove, cup, litre) from abbreviations (g, tbsp).
func spelledOut(u *Unit, written string) bool {
	return u.Name != u.Plural && len(written) > 3 || u.Dim == Word || u.Dim == Vague || u.Dim == Batch || len(written) > 4
}

// half reads "half a lemon" and "half an onion".
func (r *reader) half(i, e, k int) (Amount, int) {
	w, j, ok := r.oneOf(k, "a", "an")
	if !ok {
		if _, _, _, ok := r.unit(k); ok { // half pint beer
			return r.spelt(i, e, Frac(1, 2))
		}
		return Amount{}, 0
	}
	if d, ok := r.word(r.blanks(j), "dozen"); ok && w == "a" {
		return r.spelt(i, d, Int(6))
	}
	return r.spelt(i, j, Frac(1, 2))
}

// spelt complains of a number in words from i to e and reads it as n.
func (r *reader) spelt(i, e int, n Number) (Amount, int) {
	k := r.blanks(e)
	if k == e || r.nameAt(k) == nothing {
		return Amount{}, 0
	}
	right := n.Text(false)
	r.problem(CodeWords, i, e, "amounts are written in figures", "write `"+right+"`, or put quotes round a name that begins so", right)
	v := Exactly(n)
	if t, end, ok := r.term(v, e); ok && r.after(end) == aName {
		return Amount{Kind: Plain, Measure: Measure{Terms: []Term{t}}}, end
	}
	return Amount{Kind: Plain, Measure: Measure{Terms: []Term{{Value: v}}}}, e
}

// about complains of a word of doubt from i to e before an amount.
func (r *reader) about(i, e int) (Amount, int) {
	k := r.blanks(e)
	if !r.startsNumber(k) {
		return Amount{}, 0
	}
	mark := len(r.probs)
	a, n := r.figures(k)
	if n == 0 {
		r.forget(mark)
		return Amount{}, 0
	}
	r.problem(CodeAbout, i, k, "the amount in a list is a figure, or a range", "leave out `"+r.s[i:e]+"`, or write such as `180 to 220 g`", "")
	return a, n
}
