package quantity

import (
	"strconv"
	"strings"
)

// The most figures a number may have before and after its mark, and above and
// below a fraction's stroke. They keep every exact sum small; no kitchen needs
// more than 999 tonnes.
const (
	maxWhole   = 9
	maxDecimal = 6
	maxFrac    = 6
)

// ReadNumber reads a number at the start of text: 2, 0.5, 1/2, 1 1/2, ½, 1½,
// 1 ½. n is how many bytes it took, 0 if there is none.
func ReadNumber(text string, opt Options) (v Number, n int, problems []Problem) {
	r := reader{s: text, opt: opt}
	start := r.blanks(0)
	v, end, ok := r.number(start)
	if !ok {
		return Number{}, 0, r.probs
	}
	return v, end, r.probs
}

// ReadRange reads a number or a range at the start of text: 2-3, 2–3, 2 to 3.
func ReadRange(text string, opt Options) (v Range, n int, problems []Problem) {
	r := reader{s: text, opt: opt}
	v, end, ok := r.rng(r.blanks(0))
	if !ok {
		return Range{}, 0, r.probs
	}
	return v, end, r.probs
}

var vulgar = map[rune][2]int64{
	'½': {1, 2}, '⅓': {1, 3}, '⅔': {2, 3}, '¼': {1, 4}, '¾': {3, 4}, '⅕': {1, 5}, '⅖': {2, 5}, '⅗': {3, 5},
	'⅘': {4, 5}, '⅙': {1, 6}, '⅚': {5, 6}, '⅛': {1, 8}, '⅜': {3, 8}, '⅝': {5, 8}, '⅞': {7, 8},
}

func (r *reader) vulgarAt(i int) (Number, int, bool) {
	if b := r.byteAt(i); b != 0xC2 && b != 0xE2 {
		return Number{}, i, false
	}
	c, n := r.runeAt(i)
	f, ok := vulgar[c]
	if !ok {
		return Number{}, i, false
	}
	return Frac(f[0], f[1]), i + n, true
}

// startsNumber is a cheap test before number is tried.
func (r *reader) startsNumber(i int) bool {
	b := r.byteAt(i)
	return isDigit(b) || b == 0xC2 || b == 0xE2
}

// number reads one number at i. When what stands there looks like a number but
// cannot be one, it complains and is not ok.
func (r *reader) number(i int) (v Number, end int, ok bool) {
	if v, end, ok = r.vulgarAt(i); ok {
		return v, end, true
	}
	if r.byteAt(i) == '.' && isDigit(r.byteAt(i+1)) {
		return r.bareDecimal(i)
	}
	j := r.digits(i)
	if j == i || j-i > 1 && r.s[i] == '0' { // 00 is the name of a flour
		return Number{}, i, false
	}
	if j-i > maxWhole {
		r.tooLong(i, j)
		return Number{}, i, false
	}
	whole, _ := strconv.ParseInt(r.s[i:j], 10, 64)
	switch c := r.byteAt(j); {
	case (c == '.' || c == ',') && isDigit(r.byteAt(j+1)):
		return r.decimal(i, j, whole)
	case (c == '\'' || c == '_') && isDigit(r.byteAt(j+1)):
		return r.thousands(i, j)
	}
	if f, e, found, good := r.fraction(i); found {
		return f, e, good
	}
	if f, e, found := r.vulgarAt(j); found {
		return Int(whole).Add(f), e, true
	}
	k := r.blanks(j)
	if k > j {
		if f, e, found := r.vulgarAt(k); found {
			return Int(whole).Add(f), e, true
		}
		if isDigit(r.byteAt(k)) {
			mark := len(r.probs)
			f, e, found, good := r.fraction(k)
			if found && good && f.Less(Int(1)) && f.Sign() > 0 {
				return Int(whole).Add(f), e, true
			}
			r.forget(mark)
			if found {
				r.problem(CodeFraction, i, e, "`"+r.s[i:e]+"` is no number: the fraction after a whole number must be less than 1", "write the figure in another way, such as `2 1/2`", "")
				return Number{}, i, false
			}
		}
	}
	return Int(whole), j, true
}

// fraction reads a/b. found tells that figures, a stroke and figures stand
// there; good, that they make a fraction.
func (r *reader) fraction(i int) (v Number, end int, found, good bool) {
	j := r.digits(i)
	k := r.stroke(j)
	if j == i || k == j || !isDigit(r.byteAt(k)) {
		return Number{}, i, false, false
	}
	end = r.digits(k)
	one := end
	for n := r.stroke(end); n > end && isDigit(r.byteAt(n)); n = r.stroke(end) {
		end = r.digits(n)
	}
	if end > one { // 1/2/3 is a date or nothing
		return Number{}, end, true, false
	}
	if j-i > maxFrac || end-k > maxFrac {
		r.tooLong(i, end)
		return Number{}, end, true, false
	}
	if j-i > 1 && r.s[i] == '0' {
		return Number{}, i, true, false
	}
	a, _ := strconv.ParseInt(r.s[i:j], 10, 64)
	b, _ := strconv.ParseInt(r.s[k:end], 10, 64)
	if b == 0 {
		r.problem(CodeFraction, i, end, "`"+r.s[i:end]+"` divides by nothing", "", "")
		return Number{}, end, true, false
	}
	return Frac(a, b), end, true, true
}

// stroke is the position after a fraction's stroke at i, or i.
func (r *reader) stroke(i int) int {
	if r.byteAt(i) == '/' {
		return i + 1
	}
	if r.byteAt(i) == 0xE2 {
		if c, n := r.runeAt(i); c == '⁄' || c == '∕' {
			return i + n
		}
	}
	return i
}

// decimal reads 1.5 or 1,5: whole stands from i to the mark at j.
func (r *reader) decimal(i, j int, whole int64) (Number, int, bool) {
	k := r.digits(j + 1)
	if c := r.byteAt(k); (c == '.' || c == ',') && isDigit(r.byteAt(k+1)) {
		return r.thousands(i, j)
	}
	if r.stroke(k) > k && isDigit(r.byteAt(r.stroke(k))) { // 1.5/2
		return Number{}, i, false
	}
	places := k - j - 1
	if places > maxDecimal {
		r.tooLong(i, k)
		return Number{}, i, false
	}
	decimals, _ := strconv.ParseInt(r.s[j+1:k], 10, 64)
	ten := int64(1)
	for range places {
		ten *= 10
	}
	v := Int(whole).Add(Frac(decimals, ten))
	mark, other := byte('.'), "`decimal comma`"
	if r.opt.DecimalComma {
		mark, other = ',', "`decimal point`"
	}
	if r.s[j] == mark {
		return v, k, true
	}
	right := r.s[i:j] + string(mark) + r.s[j+1:k]
	if places == 3 && whole > 0 {
		all := r.s[i:j] + r.s[j+1:k]
		r.problem(CodeMark, i, k, "is `"+r.s[i:k]+"` "+all+" or "+right+"?", "write `"+all+"` without a mark between the thousands, or `"+right+"`", all)
		r.probs[len(r.probs)-1].Far = true
		return Int(whole*1000 + decimals), k, true
	}
	r.problem(CodeMark, i, k, "is `"+r.s[i:k]+"` meant as "+right+"?", "write `"+right+"`, or set "+other+" in the larder", right)
	return v, k, true
}

// thousands reads 1'000 or 1,234,567 only to complain of it.
func (r *reader) thousands(i, j int) (Number, int, bool) {
	all, k, groups := r.s[i:j], j, 0
	for c := r.byteAt(k); strings.IndexByte(".,'_", c) >= 0 && c != 0 && isDigit(r.byteAt(k+1)); c = r.byteAt(k) {
		e := r.digits(k + 1)
		if e-k-1 != 3 {
			groups = -1000
		}
		groups++
		if len(all) <= maxWhole {
			all += r.s[k+1 : e]
		}
		k = e
	}
	v, err := strconv.ParseInt(all, 10, 64)
	switch {
	case len(all) > maxWhole || err != nil:
		r.tooLong(i, k)
		return Number{}, i, false
	case groups < 0 || len(r.s[i:j]) > 3:
		r.problem(CodeMark, i, k, "`"+r.s[i:k]+"` is no number: it has more than one mark", "write it with one decimal mark and nothing between the thousands", "")
		return Number{}, i, false
	}
	r.problem(CodeMark, i, k, "nothing stands between the thousands of a number", "write `"+all+"`", all)
	return Int(v), k, true
}

// bareDecimal reads .5, which is easily taken for 5.
func (r *reader) bareDecimal(i int) (Number, int, bool) {
	k := r.digits(i + 1)
	if k-i-1 > maxDecimal {
		r.tooLong(i, k)
		return Number{}, i, false
	}
	if r.byteAt(k) == '.' || i > 0 && isDigit(r.s[i-1]) {
		return Number{}, i, false
	}
	ten := int64(1)
	for range k - i - 1 {
		ten *= 10
	}
	d, _ := strconv.ParseInt(r.s[i+1:k], 10, 64)
	mark := "."
	if r.opt.DecimalComma {
		mark = ","
	}
	right := "0" + mark + r.s[i+1:k]
	r.problem(CodeNoZero, i, k, "a point without a figure before it is easily overlooked", "write `"+right+"`", right)
	return Frac(d, ten), k, true
}

func (r *reader) tooLong(i, j int) {
	r.problem(CodeLong, i, j, "this number is longer than any kitchen needs", "write at most 9 figures before the mark and 6 after it", "")
}

// rng reads a number or a range at i. A range that is written wrongly is
// complained of and read as it was most likely meant.
func (r *reader) rng(i int) (v Range, end int, ok bool) {
	low, j, ok := r.number(i)
	if !ok {
		return Range{}, i, false
	}
	k, sign := r.rangeSign(j)
	if sign == "" {
		return Exactly(low), j, true
	}
	mark := len(r.probs)
	high, e, ok := r.number(k)
	if !ok || !r.rangeEnd(e) {
		r.forget(mark)
		return Exactly(low), j, true
	}
	switch {
	case low.Less(high):
		return Range{low, high}, e, true
	case sign == "-" && low.IsInt() && high.Less(Int(1)) && high.Sign() > 0:
		return Exactly(low.Add(high)), e, true
	case low.Equal(high):
		r.problem(CodeFalling, i, e, "both ends of this range are the same", "write `"+r.s[i:j]+"`", r.s[i:j])
		return Exactly(low), e, true
	}
	right := r.s[k:e] + " to " + r.s[i:j]
	r.problem(CodeFalling, i, e, "a range must rise, and `"+r.s[i:e]+"` falls", "write `"+right+"`", right)
	return Range{high, low}, e, true
}

// rangeEnd tells whether a range can end at i: not inside 2-3rd or 1-2-3.
func (r *reader) rangeEnd(i int) bool {
	c := r.byteAt(i)
	return !isDigit(c) && c != '-'
}

// rangeSign finds what joins two numbers at i. sign is "to" or "-" for the
// forms of the notation, else the sign as it was written.
func (r *reader) rangeSign(i int) (next int, sign string) {
	k := r.blanks(i)
	c, n := r.runeAt(k)
	switch c {
	case '-', '–', '‑', '‒':
		if k == i && r.startsNumber(k+n) {
			return k + n, "-"
		}
		fallthrough
	case '—', '−':
		next = r.blanks(k + n)
		// "2 -3" is no range; "2 - 3" and "2—3" are meant as one.
		if r.startsNumber(next) && (k == i) == (next == k+n) {
			return next, r.s[i:next]
		}
		return i, ""
	case 't', 'T', 'o', 'O':
		if w, j, ok := r.oneOf(k, "to", "or"); ok && k > i {
			next = r.blanks(j)
			if next > j && r.startsNumber(next) {
				return next, w
			}
		}
	}
	return i, ""
}
