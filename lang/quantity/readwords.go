package quantity

import "strings"

// worded reads amounts that begin with a word: "a pinch salt", and the ones
// that should have been figures.
func (r *reader) worded(i int) (Amount, int) {
	e := r.wordEnd(i)
	if !r.atEnd(e) || e-i > 13 {
		if c := r.byteAt(e); c == '-' && !r.opt.Prose {
			if a, n, ok := r.spoken(i); ok { // twenty-five, one-half
				return a, n
			}
		}
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
	if r.opt.Prose {
		if string(w) == "a" || string(w) == "an" {
			return r.article(i, e, k)
		}
		return Amount{}, 0
	}
	if string(w) == "from" || string(w) == "between" {
		return r.fromTo(e)
	}
	if doubts[string(w)] {
		if a, n := r.about(i, e); n > 0 {
			return a, n
		}
	}
	for _, words := range roughly {
		if n := i + len(words); n < len(r.s) && strings.EqualFold(r.s[i:n], words) && r.blanks(n) > n {
			if a, n := r.about(i, n); n > 0 {
				return a, n
			}
		}
	}
	if r.numberName(i) {
		return Amount{}, 0
	}
	if a, n := r.filled(i, i, k); n > 0 {
		return a, n
	}
	if a, n := r.unmeasured(i); n > 0 {
		return a, n
	}
	if string(w) == "a" || string(w) == "an" {
		if a, n := r.article(i, e, k); n > 0 || len(r.probs) > 0 || r.byteAt(k) == '#' {
			return a, n
		}
	}
	if a, n, ok := r.spoken(i); ok {
		return a, n
	}
	if a, n := r.bareSized(i, k); n > 0 {
		return a, n
	}
	return r.bareUnit(i, e, k)
}

// filled reads "scant 1/2 cup of honey", "generous 100 g cheese", "heaping tablespoon": a
// word from w to the blanks at k says how the measure behind it is filled. i is where the
// amount begins, an article perhaps.
func (r *reader) filled(i, w, k int) (Amount, int) {
	word := strings.ToLower(r.s[w:r.wordEnd(w)])
	if !isFilling[word] || k >= len(r.s) {
		return Amount{}, 0
	}
	mark := len(r.probs)
	var a Amount
	var n int
	if r.startsNumber(k) {
		a, n = r.figures(k)
	} else if _, spoken := ReadSpoken(r.s[k:], r.opt); spoken > 0 {
		a, n = r.worded(k)
	}
	if n == 0 || a.Kind != Plain || len(a.Measure.Terms) != 1 || a.Measure.Terms[0].Unit == nil || len(r.probs) > mark {
		r.forget(mark)
		return Amount{}, 0
	}
	t := &a.Measure.Terms[0]
	if modifiable(t.Unit) && (word == "scant" || word == "heaped" || word == "level" || word == "rounded") && t.Modifier == "" {
		t.Modifier = word
		return a, n
	}
	r.hint(CodeAbout, i, k, "counted as "+a.Text(r.opt.DecimalComma)+", and `"+word+"` is not kept", "for a doubt write a range such as `180 to 220 g`")
	return a, n
}

// isFilling says how a measure is filled, before its number.
var isFilling = map[string]bool{"scant": true, "heaped": true, "level": true, "rounded": true, "heaping": true, "generous": true, "good": true, "bare": true, "full": true, "short": true}

// bare are units that hardly begin a name, and are read without a number: pinch salt.
var bare = map[string]bool{"pinch": true, "knob": true, "handful": true, "glug": true, "splash": true, "dash": true, "drizzle": true, "squeeze": true, "dollop": true}

// bareSized reads "small handful mint leaves" and "good pinch of cayenne" as one of them.
func (r *reader) bareSized(i, k int) (Amount, int) {
	mod, u := r.size(i)
	if mod == "" {
		if mod, u = strings.ToLower(r.s[i:r.wordEnd(i)]), k; !adjectives[mod] {
			return Amount{}, 0
		}
	}
	unit, one, end, ok := r.unit(u)
	if !ok || !one || unit.Dim != Word && unit.Dim != Vague || r.after(end) != aName {
		return Amount{}, 0
	}
	if _, of := r.word(r.blanks(end), "of"); !of && !bare[unit.Name] && unit.Name != "bunch" {
		return Amount{}, 0
	}
	return Amount{Kind: Plain, Measure: Measure{Terms: []Term{{Value: Exactly(Int(1)), Unit: unit, Modifier: mod}}}}, end
}

// fromTo reads the range behind "from" or "between": from 4 to 6 leeks.
func (r *reader) fromTo(e int) (Amount, int) {
	mark := len(r.probs)
	k := r.blanks(e)
	low, j, ok := r.rng(k)
	if and, is := r.word(r.blanks(j), "and"); ok && is && !low.IsRange() {
		if high, e, ok := r.rng(r.blanks(and)); ok && !high.IsRange() && low.High.Less(high.Low) {
			low.High, j = high.High, e
		}
	}
	if !ok {
		s, n := ReadSpoken(r.s[k:], r.opt)
		low, j = s.Value, k+n
	}
	if j > k && low.IsRange() {
		if a, n := r.afterNumber(k, low, j); n > 0 {
			return a, n
		}
	}
	r.forget(mark)
	return Amount{}, 0
}

// bareUnit reads "pinch of salt" as one pinch, and "pinch salt" where the word
// hardly begins a name.
func (r *reader) bareUnit(i, e, k int) (Amount, int) {
	u, one, end, ok := r.unit(i)
	if !ok || end != e || u.Dim != Word && u.Dim != Vague {
		return Amount{}, 0
	}
	if _, of := r.word(k, "of"); !of && !bare[u.Name] {
		return Amount{}, 0
	}
	if !one || r.after(e) != aName {
		return Amount{}, 0
	}
	return Amount{Kind: Plain, Measure: Measure{Terms: []Term{{Value: Exactly(Int(1)), Unit: u}}}}, e
}

// doubts are words before an amount that say it is not exact.
var doubts = map[string]bool{
	"about": true, "approx": true, "approximately": true, "around": true, "roughly": true, "circa": true, "ca": true, "say": true, "some": true,
	"nearly": true, "almost": true, "perhaps": true, "barely": true, "scarcely": true, "hardly": true, "just": true, "maybe": true,
}

// InDoubt tells whether a word in small letters says of the amount behind it that it is
// not exact: about, roughly, nearly.
func InDoubt(word string) bool { return doubts[word] }

// roughly are words of doubt before an amount.
var roughly = []string{
	"rather more than", "rather less than", "a little more than", "a little less than", "a little over", "a little under", "not quite", "nearly", "almost", "just over", "just under",
	"barely", "quite", "at least", "upwards of", "say about", "something like", "not more than", "up to",
}

// article reads "a" and "an" before a unit word or the size of a package.
func (r *reader) article(i, e, k int) (Amount, int) {
	if !r.opt.Prose && isFilling[strings.ToLower(r.s[k:r.wordEnd(k)])] { // a scant half cup
		if b := r.blanks(r.wordEnd(k)); b > k {
			if a, n := r.filled(i, k, b); n > 0 {
				return a, n
			}
		}
	}
	mod, u0 := r.size(k)
	if u, _, end, ok := r.unit(u0); ok && r.byteAt(u0) != '#' && spelledOut(u, r.s[u0:end]) && (mod == "" || modifiable(u)) {
		v := Exactly(Int(1))
		v, end = r.andAPart(v, end)
		v, end = r.orTwo(i, u, v, end)
		if r.after(end) != nothing {
			a := Amount{Kind: Plain, Measure: Measure{Terms: []Term{{Value: v, Unit: u, Modifier: mod}}}}
			if r.after(end) == aName {
				return a, end
			}
			if !r.opt.Prose {
				if p, n, ok := r.pair(i, a.Measure, end); ok {
					return p, n
				}
			}
			a, n, _ := r.joined(i, a, end)
			return a, n
		}
	}
	if r.opt.Prose || !isDigit(r.byteAt(k)) {
		return Amount{}, 0
	}
	if a, n, ok := r.weighing(Exactly(Int(1)), e); ok { // a 4-pound chicken
		return a, n
	}
	if v, j, ok := r.number(k); ok { // a 5 cm piece of ginger, a 2-inch piece
		if r.byteAt(j) == '-' {
			j++
		}
		if u, _, e, ok := r.unit(r.blanks(j)); ok {
			if t, e, ok := r.pieceOf(Term{Value: Exactly(v), Unit: u}, e); ok {
				return Amount{Kind: Plain, Measure: Measure{Terms: []Term{t}}}, e
			}
		}
	}
	if a, end, ok := r.bracketed(i, Exactly(Int(1)), e); ok {
		return a, end
	}
	mark := len(r.probs)
	if each, end, ok := r.measure(k); ok && sized(each) && each.Terms[0].Unit.Dim == Mass && r.after(end) == aName { // a 2 kg chicken
		return Amount{Kind: Packages, Count: Exactly(Int(1)), Each: each}, end
	}
	r.forget(mark)
	r.problem(CodeWords, i, k, "`"+r.s[i:e]+"` before a figure says nothing", "leave it out", "")
	return Amount{}, 0
}

// orTwo reads "or two", "or so" behind a unit that ends at end: a cup or two of stock.
func (r *reader) orTwo(i int, u *Unit, v Range, end int) (Range, int) {
	k := r.blanks(end)
	e, ok := r.word(k, "or")
	if !ok || r.opt.Prose || k == end {
		return v, end
	}
	b := r.blanks(e)
	word, n, ok := r.oneOf(b, "two", "so", "three")
	if !ok || r.after(n) != aName {
		return v, end
	}
	switch word {
	case "two":
		v.High = Int(2)
	case "three":
		v.High = Int(3)
	default:
		r.hint(CodeAbout, i, n, "counted as "+v.High.String()+" "+u.For(v)+", and `or so` is not kept", "for a doubt write a range such as `180 to 220 g`")
	}
	return v, n
}

// spelledOut tells words (clove, cup, litre) from abbreviations (g, tbsp).
func spelledOut(u *Unit, written string) bool {
	return u.Name != u.Plural && len(written) > 3 || u.Dim == Word || u.Dim == Vague || u.Dim == Batch || len(written) > 4
}

// about reads on behind a word of doubt from i to e: the amount itself is
// reckoned with.
func (r *reader) about(i, e int) (Amount, int) {
	k := r.blanks(e)
	mark := len(r.probs)
	var a Amount
	var n int
	if r.startsNumber(k) {
		a, n = r.figures(k)
	} else if _, spoken := ReadSpoken(r.s[k:], r.opt); spoken > 0 {
		a, n = r.worded(k)
	}
	if n == 0 {
		r.forget(mark)
		return Amount{}, 0
	}
	r.hint(CodeAbout, i, k, "counted as "+a.Text(r.opt.DecimalComma)+", and `"+r.s[i:e]+"` is not kept", "for a doubt write a range such as `180 to 220 g`")
	return a, n
}
