package quantity

import (
	"strconv"
	"strings"
	"unicode"
)

// ReadAmount reads the longest amount at the start of text that still leaves
// a name behind it: "6 cloves garlic" is six cloves of garlic, "6 cloves" is
// six of the spice called cloves. n is how many bytes it took, without the
// `of` or the blanks after it; it is 0 when the text does not start with an
// amount. What is written wrongly but can be understood is read as meant and
// complained of. Where words say that no figure is meant, as in "a few sprigs
// of dill", the amount is none and n what stands before the name.
func ReadAmount(text string, opt Options) (a Amount, n int, problems []Problem) {
	r := reader{s: text, opt: opt}
	i := r.blanks(0)
	c := r.byteAt(i)
	if !opt.Prose {
		if a, n, ok := r.mistyped(i); ok {
			return a, n, r.probs
		}
	}
	switch {
	case isDigit(c), c == 0xC2, c == 0xE2, c == '.':
		a, n = r.figures(i)
	case c|0x20 >= 'a' && c|0x20 <= 'z':
		a, n = r.worded(i)
	case c == '~' && !opt.Prose:
		a, n = r.about(i, i+1)
	}
	if opt.Prose {
		for _, p := range r.probs {
			if !p.Ask {
				return Amount{}, 0, nil
			}
		}
		return a, n, nil
	}
	r.settle(n)
	return a, n, r.probs
}

// settle makes a question of each complaint that comes with what was most
// likely meant: that is read, and can be printed with the doubt beside it.
func (r *reader) settle(n int) {
	for i := range r.probs {
		if p := &r.probs[i]; n > 0 && p.Fix != "" && !p.Hint && !p.Far && p.Code != CodeTwoNumbers {
			p.Ask = true
		}
	}
}

// follows is what stands behind an amount.
type follows int

const (
	aName follows = iota
	nothing
	aNumber // another number: an error
	aSmall  // a word no name begins with: per, plus, to …
)

// after looks for a name at i, past `of` and a size word.
func (r *reader) after(i int) follows {
	k := r.blanks(i)
	if j, ok := r.word(k, "of"); ok && k > i {
		k = r.blanks(j)
		if k == j {
			return nothing
		}
	}
	if _, j := r.size(k); j > k && r.nameAt(j) == aName {
		return aName
	}
	return r.nameAt(k)
}

func (r *reader) nameAt(k int) follows {
	c, n := r.runeAt(k)
	switch c {
	case '"', '“', '”':
		return aName
	case '(':
		if e := strings.IndexByte(r.s[k:], ')'); e > 1 && !r.opt.Prose && (!strings.ContainsAny(r.s[k+1:k+e], "0123456789½¼¾(") || r.howLarge(k+1, k+e)) && r.blanks(k+e+1) > k+e+1 {
			return r.nameAt(r.blanks(k + e + 1)) // 1/4 cup (packed) brown sugar
		}
		return nothing
	case ',', '|', ')', ':', '\n', '\r', ';', '!', '?':
		return nothing
	case '.':
		if isDigit(r.byteAt(k + 1)) {
			return aNumber
		}
		return nothing
	case '-', '–', '—', '•', '*', '#', '×', '+', '=', '/', '%':
		return aSmall
	case 'x', 'X', 'p', 'P', 't', 'T', 'o', 'O', 'a', 'A':
		if _, _, ok := r.oneOf(k, "x", "per", "plus", "to", "of", "or", "and"); ok {
			return aSmall
		}
	}
	if n == 0 {
		return nothing
	}
	if r.startsNumber(k) && r.numberWord(k) {
		return aNumber
	}
	return aName
}

// howLarge tells whether a bracket from i to e says how long or thick a thing is, or of
// another amount: (3/4-inch-thick), (or 300 g).
func (r *reader) howLarge(i, e int) bool {
	if _, _, ok := r.oneOf(i, "or"); ok {
		return true
	}
	if k := r.doubt(i); k > i { // 12 (about 900 g) chicken thighs
		m, end, ok := r.measure(k)
		return ok && r.blanks(end) == e && sized(m)
	}
	_, j, ok := r.number(i)
	if !ok || j >= e {
		return false
	}
	if r.byteAt(j) == '-' {
		j++
	}
	end := r.blanks(j)
	for end < e && r.s[end]|0x20 >= 'a' && r.s[end]|0x20 <= 'z' {
		end++
	}
	u, ok := UnitNamed(r.s[r.blanks(j):end])
	return ok && u.Dim == Length
}

// numberWord tells whether a number of its own stands at k, alone or with a
// unit: "400 g", "400g", "1/2-inch"; not "70%", "00", "7grain", "5-spice".
func (r *reader) numberWord(k int) bool {
	mark := len(r.probs)
	if j := r.digits(k); r.s[k] == '0' && j == k+3 {
		// "1 000 g": not a number, but thousands if a unit follows.
		_, _, _, ok := r.unit(r.blanks(j))
		return ok
	}
	_, j, ok := r.number(k)
	if !ok {
		bad := len(r.probs) > mark // a monster, or 1/0
		r.forget(mark)
		return bad
	}
	r.forget(mark)
	c, n := r.runeAt(j)
	switch {
	case n == 0, isBlank(c), c == ',', c == '|', c == '(', c == '/', c == '×':
		return true
	case c == '-' || c == '–':
		return r.startsNumber(j+n) || !isDigit(r.byteAt(j-1)) || r.fractional(k, j)
	case c == '%':
		return false
	case c == '.':
		return !r.opt.Prose
	}
	if e, ok := r.times(j); ok && isDigit(r.byteAt(r.blanks(e))) {
		return true
	}
	u, _, _, ok := r.unit(j)
	return ok && u.Digits
}

func (r *reader) fractional(k, j int) bool {
	for ; k < j; k++ {
		if r.s[k] == '/' || r.s[k] >= 0x80 {
			return true
		}
	}
	return false
}

// figures reads an amount that begins with a number.
func (r *reader) figures(i int) (Amount, int) {
	v, j, ok := r.rng(i)
	if !ok || r.byteAt(j) == 'x' && r.numberName(i) { // 10x sugar
		return Amount{}, 0
	}
	if k := r.blanks(j); r.byteAt(k) == '%' {
		if v.IsRange() {
			return Amount{}, 0
		}
		return r.named(Amount{Kind: Percent, Percent: v.Low}, i, k+1)
	}
	if !v.IsRange() {
		j = r.ordinalTail(v.Low, j)
	}
	c, w := r.runeAt(j)
	switch {
	case w == 0 || isBlank(c):
	case c == '-' || c == '–':
		return r.hyphen(i, v, j)
	}
	return r.afterNumber(i, v, j)
}

// afterNumber reads on behind a number v that stands from i to j.
func (r *reader) afterNumber(i int, v Range, j int) (Amount, int) {
	j = r.partOfA(v, j)
	if more, e, ok := r.andAPiece(v, j); ok {
		v, j = more, e
	}
	c, w := r.runeAt(j)
	if a, end, ok := r.packages(i, v, j); ok {
		return a, end
	}
	if t, e, ok := r.fullUnit(v, j); ok && !r.opt.Prose && r.after(e) == aName {
		return Amount{Kind: Plain, Measure: Measure{Terms: []Term{t}}}, e
	}
	if a, end, ok := r.bracketed(i, v, j); ok {
		return a, end
	}
	mark := len(r.probs)
	if m, end, ok := r.measureFrom(i, v, j); ok {
		if a, n, ok := r.measured(i, m, j, end); ok {
			return a, n
		}
		r.forget(mark)
	}
	if w > 0 && inName(c) {
		if _, e, ok := r.vulgarAt(j); ok && !r.opt.Prose { // ½½ g
			r.ask(CodeTwoNumbers, i, e, "two fractions side by side", "write one number", "")
			t := Term{Value: v}
			if unit, ue, ok := r.term(v, e); ok {
				t, e = unit, ue
			}
			return Amount{Kind: Plain, Measure: Measure{Terms: []Term{t}}}, e
		}
		return Amount{}, 0 // 7grain, 3rd, 2:1
	}
	return r.counted(i, v, j)
}

// andAPiece reads "and a half" behind a whole number v that ends at j: 2 and a half cups.
func (r *reader) andAPiece(v Range, j int) (Range, int, bool) {
	k := r.blanks(j)
	e, ok := r.word(k, "and")
	if b := r.blanks(e); ok && k > j && b > e && !r.opt.Prose && !v.IsRange() && v.High.IsInt() {
		if s, n := ReadSpoken(r.s[b:], r.opt); n > 0 && s.Part && s.Value.High.Less(Int(1)) && r.after(b+n) == aName {
			return Exactly(v.High.Add(s.Value.High)), b + n, true
		}
	}
	return v, j, false
}

// partOfA is where the unit begins in "1/2 a pint" and "3/4 of a pound", behind
// the fraction v that ends at j; j in any other case.
func (r *reader) partOfA(v Range, j int) int {
	if r.opt.Prose || !v.High.Less(Int(1)) {
		return j
	}
	k := r.blanks(j)
	if e, ok := r.word(k, "of"); ok && k > j {
		k = r.blanks(e)
	}
	_, e, ok := r.oneOf(k, "a", "an", "one")
	if u := r.blanks(e); !ok || k == j || u == e || !r.sizedAt(u) && r.nameAt(u) != aName {
		return j
	}
	return e
}

// sizedAt tells whether a unit with a size stands at i.
func (r *reader) sizedAt(i int) bool {
	u, _, _, ok := r.unit(i)
	return ok && (u.Dim == Mass || u.Dim == Volume || u.Dim == Word)
}

// measured goes on after a measure that ended at end. ok is false when only
// the bare count can be meant ("6 cloves").
func (r *reader) measured(i int, m Measure, j, end int) (Amount, int, bool) {
	if a, n, ok := r.perHead(i, m, end); ok {
		return a, n, true
	}
	if a, n, ok := r.pair(i, m, end); ok {
		return a, n, true
	}
	if a, n, ok := r.onePack(i, m, end); ok {
		return a, n, true
	}
	if a, n, ok := r.less(i, m, end); ok && (r.after(n) == aName || r.opt.Alone) {
		return a, n, true
	}
	if t, e, ok := r.pieceOf(m.Terms[0], end); ok && len(m.Terms) == 1 && !r.opt.Prose { // 3 cm piece fresh ginger
		return Amount{Kind: Plain, Measure: Measure{Terms: []Term{t}}}, e, true
	}
	a := Amount{Kind: Plain, Measure: m}
	u := m.Terms[0].Unit
	switch r.after(end) {
	case aName:
		end = r.doubled(i, a, end)
		r.zero(i, end, m)
		r.each(end)
		return a, end, true
	case nothing:
		if r.opt.Alone || u.Dim != Word {
			n := r.lonely(a, i, end)
			return a, n, true
		}
		return a, 0, false
	case aNumber:
		return r.crowded(i, a, end)
	}
	return r.joined(i, a, end)
}

// counted goes on after a bare count from i to j.
func (r *reader) counted(i int, v Range, j int) (Amount, int) {
	bare := Measure{Terms: []Term{{Value: v}}}
	if a, n, ok := r.perHead(i, bare, j); ok {
		return a, n
	}
	a := Amount{Kind: Plain, Measure: bare}
	switch r.after(j) {
	case aName:
		if k := r.blanks(j); k > j && r.byteAt(k) == '0' && !r.opt.Prose { // 6 00 g; 00 alone is a flour
			if d := r.digits(k); d > k+1 && r.digits(i) == j {
				if _, _, ok := r.term(v, d); ok {
					right := r.s[i:j] + r.s[k:d]
					r.ask(CodeTyped, i, d, "a space stands among the figures", "write `"+right+"`", right)
					in := reader{s: right + r.s[d:], opt: r.opt}
					if b, n := in.figures(0); n > len(right) && len(in.probs) == 0 {
						return b, n - len(right) + d
					}
				}
			}
		}
		return r.strange(i, a, j)
	case nothing:
		return a, r.lonely(a, i, j)
	case aNumber:
		if m, end, ok := r.crowdedCount(i, v, j); ok {
			return m, end
		}
		return a, j
	}
	if b, n, ok := r.joined(i, a, j); ok {
		return b, n
	}
	return Amount{}, 0
}

// inName tells whether c, right behind a number, makes it part of a word.
func inName(c rune) bool {
	switch c {
	case '/', '\'', '’', '_', ':', '°', '&', '.':
		return true
	}
	return unicode.IsLetter(c) || unicode.IsNumber(c) || unicode.IsMark(c)
}

// lonely complains of an amount that nothing follows.
func (r *reader) lonely(a Amount, i, end int) int {
	if r.opt.Alone {
		r.zero(i, end, a.Measure)
		return end
	}
	r.problem(CodeNoName, i, end, "`"+r.s[i:end]+"` of what?", "write the name after the amount", "")
	return end
}

// named returns a if a name follows.
func (r *reader) named(a Amount, i, end int) (Amount, int) {
	switch r.after(end) {
	case aName:
	case nothing:
		return a, r.lonely(a, i, end)
	default:
		return Amount{}, 0
	}
	return a, end
}

// each complains of "1 tsp each cumin and coriander".
func (r *reader) each(end int) {
	k := r.blanks(end)
	if j, ok := r.word(k, "each"); ok && k > end && !r.opt.Alone && r.after(j) == aName {
		r.problem(CodeEach, k, j, "`each` makes several things of one line", "write a line for each of them", "")
	}
}

func (r *reader) zero(i, end int, m Measure) {
	if m.IsZero() {
		return
	}
	for _, t := range m.Terms {
		if !t.Value.High.IsZero() {
			return
		}
	}
	r.problem(CodeNothing, i, end, "this asks for nothing", "write an amount, or leave the line out", "")
}

// perHead reads "per cover" or "per 4 covers" after a measure or count, and
// the constant after `plus`.
func (r *reader) perHead(i int, m Measure, end int) (Amount, int, bool) {
	k := r.blanks(end)
	j, ok := r.word(k, "per")
	if !ok || k == end {
		return Amount{}, 0, false
	}
	k = r.blanks(j)
	a := Amount{Kind: PerHead, Measure: m, PerCovers: 1}
	if isDigit(r.byteAt(k)) {
		d := r.digits(k)
		covers, err := strconv.Atoi(r.s[k:min(d, k+7)])
		if err != nil || covers == 0 || d-k > 6 || r.s[k] == '0' {
			r.problem(CodePer, k, d, "the number of covers must be a figure from 1 to 999999", "write such as `per 4 covers`", "")
			covers = 1
		}
		a.PerCovers = covers
		k = r.blanks(d)
	}
	if _, e, ok := r.oneOf(k, "covers", "cover"); ok {
		end = e
	} else {
		e := r.wordEnd(k)
		what := r.s[k:e]
		switch Fold(what) {
		case "person", "persons", "people", "head", "heads", "guest", "guests", "portion", "portions", "serving", "servings":
			end = e
		default:
			r.problem(CodePer, j-3, max(e, j), "per what?", "write `per cover` or `per 4 covers`", "")
			return Amount{Kind: Plain, Measure: m}, end, true
		}
	}
	if plus, e, ok := r.constant(end); ok {
		a.Plus, end = plus, e
	}
	a, n := r.named(a, i, end)
	if n == 0 {
		return r.joined(i, Amount{Kind: PerHead, Measure: m, PerCovers: a.PerCovers}, end)
	}
	return a, n, true
}

// constant reads "plus 200 g" or "+ 1".
func (r *reader) constant(end int) (Measure, int, bool) {
	k := r.blanks(end)
	var j int
	if r.byteAt(k) == '+' {
		j = k + 1
	} else if e, ok := r.word(k, "plus"); ok && k > end {
		j = e
	} else {
		return Measure{}, end, false
	}
	k = r.blanks(j)
	if !r.startsNumber(k) {
		return Measure{}, end, false
	}
	mark := len(r.probs)
	v, e, ok := r.rng(k)
	if !ok {
		return Measure{}, end, false
	}
	if m, me, ok := r.measureFrom(k, v, e); ok {
		if r.after(me) == aName || r.opt.Alone || m.Terms[0].Unit.Dim != Word {
			return m, me, true
		}
		r.forget(mark)
	}
	return Measure{Terms: []Term{{Value: v}}}, e, true
}
