package quantity

import (
	"slices"
	"strconv"
	"strings"
)

// What follows reads amounts that are written wrongly, to say so in a way
// that helps and to go on with what was most likely meant.

// crowded complains of a second number after an amount from i to end.
func (r *reader) crowded(i int, a Amount, end int) (Amount, int, bool) {
	k := r.blanks(end)
	mark := len(r.probs)
	second, e, ok := r.measure(k)
	r.forget(mark)
	same := ok && len(a.Measure.Terms) > 0 && len(second.Terms) == 1 && a.Measure.Terms[len(a.Measure.Terms)-1].Unit == second.Terms[0].Unit // 200 g 300 g: which
	if ok && !same && sameDim(a.Measure, second) && a.Kind == Plain {
		sum, right := r.falling(a.Measure, second)
		r.problem(CodePlus, i, e, "the larger unit comes first", "write `"+right+"`", right)
		return Amount{Kind: Plain, Measure: sum}, e, true
	}
	if !ok {
		_, e, _ = r.number(k)
		r.forget(mark)
	}
	r.problem(CodeTwoNumbers, i, max(e, k+1), "two amounts side by side", "write one of them, or put the second in brackets: `900 g (2 lb)`", "")
	return a, end, true
}

func sameDim(a, b Measure) bool {
	return len(a.Terms) > 0 && len(b.Terms) > 0 && a.Terms[0].Unit != nil && b.Terms[0].Unit != nil &&
		sized(a) && sized(b) && a.Terms[0].Unit.Dim == b.Terms[0].Unit.Dim
}

// falling joins two measures of one dimension, the larger units first, and
// writes the sum.
func (r *reader) falling(a, b Measure) (Measure, string) {
	sum := Measure{Terms: append(slices.Clone(a.Terms), b.Terms...)}
	slices.SortStableFunc(sum.Terms, func(x, y Term) int {
		xs, _ := x.Unit.order()
		ys, _ := y.Unit.order()
		return ys.Cmp(xs)
	})
	return sum, sum.text(r.opt.DecimalComma)
}

// crowdedCount complains of a number after a bare count: 2 400 g tins,
// 1 000 g, 2 1/2-inch.
func (r *reader) crowdedCount(i int, v Range, j int) (Amount, int, bool) {
	k := r.blanks(j)
	mark := len(r.probs)
	size, end, ok := r.measure(k)
	r.forget(mark)
	count := r.s[i:j]
	if !ok {
		_, e, ok := r.number(k)
		r.forget(mark)
		if !ok {
			e = max(r.digits(k), k+1)
		}
		help, fix := "write one number", ""
		if all, ok := r.grouped(i, j, k, e); ok {
			r.problem(CodeTwoNumbers, i, e, "nothing stands between the thousands of a number", "write `"+all+"`", all)
			whole, _ := strconv.ParseInt(all, 10, 64)
			v = Exactly(Int(whole))
			t := Term{Value: v}
			if unit, ue, ok := r.term(v, e); ok {
				t, e = unit, ue
			}
			return Amount{Kind: Plain, Measure: Measure{Terms: []Term{t}}}, e, true
		}
		r.problem(CodeTwoNumbers, i, e, "two numbers side by side", help, fix)
		return Amount{}, 0, false
	}
	if u, _, e, ok := r.unit(r.blanks(end)); ok && u.Dim == Word {
		right := count + " x " + r.s[k:end] + " " + u.For(v)
		r.problem(CodeTwoNumbers, i, e, "two numbers side by side", "write `"+right+"`", right)
		return Amount{Kind: Packages, Count: v, Each: size, Container: u}, e, true
	}
	help, fix := "write `"+count+" x "+r.s[k:end]+" packets`, or the whole weight", ""
	if all, ok := r.grouped(i, j, k, r.digits(k)); ok {
		right := all + r.s[r.digits(k):end]
		help, fix = "write `"+right+"`, or `"+count+" x "+r.s[k:end]+" packets`", right
	}
	r.problem(CodeTwoNumbers, i, end, "two numbers side by side", help, fix)
	return Amount{Kind: Packages, Count: v, Each: size}, end, true
}

// grouped joins "2 400" when it may be a number with a blank between its
// thousands.
func (r *reader) grouped(i, j, k, e int) (string, bool) {
	if e-k != 3 || j-i > 3 || r.digits(i) != j || r.digits(k) != e {
		return "", false
	}
	return r.s[i:j] + r.s[k:e], true
}

// hyphen reads on after a number that a dash without blank follows: 5-spice is
// a name, 1 1/2-inch an error.
func (r *reader) hyphen(i int, v Range, j int) (Amount, int) {
	_, n := r.runeAt(j)
	mark := len(r.probs)
	u, _, e, ok := r.unit(j + n)
	hasSize := ok && (u.Dim == Mass || u.Dim == Volume || u.Dim == Length)
	if !hasSize && !r.fractional(i, j) && v.Low.IsInt() {
		r.forget(mark)
		return Amount{}, 0
	}
	if !ok {
		r.problem(CodeHyphen, i, j+n, "a figure with a fraction cannot begin a name", "put quotes round the name", "")
		return Amount{}, 0
	}
	if (u.Dim == Mass || u.Dim == Volume) && r.after(e) == aName && (r.fractional(i, j) || r.isOf(e)) { // 1/2-lb. of currants
		return Amount{Kind: Plain, Measure: Measure{Terms: []Term{{Value: v, Unit: u}}}}, e
	}
	if t, e, ok := r.pieceOf(Term{Value: v, Unit: u}, e); ok { // 2-inch piece of ginger
		return Amount{Kind: Plain, Measure: Measure{Terms: []Term{t}}}, e
	}
	right := r.s[i:j] + " " + r.s[j+n:e]
	if u.Name != u.Plural {
		right = r.s[i:j] + " " + u.For(v)
	}
	text := "two numbers side by side"
	code := CodeTwoNumbers
	if r.blanks(r.digits(i)) == r.digits(i) { // 2-inch, 1/2-inch: one number
		text, code = "there is no dash between a figure and its unit", CodeHyphen
	}
	help := "write `" + right + "`"
	if code == CodeTwoNumbers {
		help += ", or `1 x` before a single piece of that size"
	}
	p := Problem{Start: i, End: e, Code: code, Message: text, Help: help + ", or put quotes round a name that begins with a figure", Fix: right}
	p.Ask = code == CodeHyphen && v.Low.IsInt()
	r.probs = append(r.probs, p)
	if p.Ask {
		return Amount{}, 0
	}
	return Amount{Kind: Plain, Measure: Measure{Terms: []Term{{Value: v, Unit: u}}}}, e
}

// twoUnits is "500 g to 1 kg" in the smaller of its units.
func (r *reader) twoUnits(low, high Measure) (Term, bool) {
	if len(low.Terms) != 1 || len(high.Terms) != 1 || low.Terms[0].Value.IsRange() || high.Terms[0].Value.IsRange() {
		return Term{}, false
	}
	a, b := low.Terms[0], high.Terms[0]
	one, p1 := Of(Int(1), a.Unit, r.opt.System)
	other, p2 := Of(Int(1), b.Unit, r.opt.System)
	if p1 != nil || p2 != nil {
		return Term{}, false
	}
	from, to := a.Value.Low.Mul(one.Value.Low), b.Value.Low.Mul(other.Value.Low)
	if !from.Less(to) {
		return Term{}, false
	}
	t, size := a, one.Value.Low
	if other.Value.Low.Less(size) {
		t, size = b, other.Value.Low
	}
	t.Value = Range{from.Div(size), to.Div(size)}
	return t, true
}

// pieceOf is where the name begins behind the "piece of" that follows a length
// which ends at i.
func (r *reader) pieceOf(t Term, i int) (Term, int, bool) {
	k := r.blanks(i)
	_, e, ok := r.oneOf(k, "piece", "pieces", "length", "lengths", "knob")
	if !ok || t.Unit.Dim != Length || k == i || r.after(e) != aName {
		return t, i, false
	}
	return t, e, true
}

// isOf tells whether "of" stands behind i.
func (r *reader) isOf(i int) bool {
	_, ok := r.word(r.blanks(i), "of")
	return ok
}

// joined complains of a small word after an amount where a name should be.
func (r *reader) joined(i int, a Amount, end int) (Amount, int, bool) {
	k := r.blanks(end)
	if k == end && (r.byteAt(k) != '+' && r.byteAt(k) != '-' && r.byteAt(k) < 0x80) && r.byteAt(k) != '/' && r.byteAt(k) != '*' {
		return Amount{}, 0, false
	}
	c, n := r.runeAt(k)
	after := r.blanks(k + n)
	word := strings.ToLower(r.s[k:r.wordEnd(k)])
	if word != "" {
		after = r.blanks(r.wordEnd(k))
	}
	mark := len(r.probs)
	second, e, ok := r.measure(after)
	if v, j, is := r.number(after); !ok && is && word == "and" { // and 1/2 a pint
		second, e, ok = r.measureFrom(after, Exactly(v), r.partOfA(Exactly(v), j))
	}
	r.forget(mark)
	switch {
	case c == '+' || word == "plus" || word == "and":
		if ok {
			if sameDim(a.Measure, second) && a.Kind == Plain {
				sum, _ := r.falling(a.Measure, second)
				return Amount{Kind: Plain, Measure: sum}, e, true
			}
			r.problem(CodePlus, i, e, "`"+r.s[i:end]+"` and `"+r.s[after:e]+"` cannot be added: one of them is not the smaller unit of the same kind",
				"write the larger unit first, or make it two lines", "")
			return a, e, true
		}
		r.problem(CodePlus, i, after, "`"+r.s[k:k+max(n, len(word))]+"` joins two measures, and there is none after it", "write the name after the amount, and what more is needed after a comma", "")
		return a, end, true
	case (word == "to" || word == "or" || c == '-' || c == '–' || c == '—') && ok && sameDim(a.Measure, second) && a.Kind == Plain:
		if low, high := a.Measure, second; len(low.Terms) == 1 && len(high.Terms) == 1 && low.Terms[0].Unit == high.Terms[0].Unit &&
			!low.Terms[0].Value.IsRange() && !high.Terms[0].Value.IsRange() && low.Terms[0].Value.Low.Less(high.Terms[0].Value.Low) {
			t := high.Terms[0]
			t.Value = Range{low.Terms[0].Value.Low, high.Terms[0].Value.Low}
			return Amount{Kind: Plain, Measure: Measure{Terms: []Term{t}}}, e, true
		}
		if t, ok := r.twoUnits(a.Measure, second); ok {
			return Amount{Kind: Plain, Measure: Measure{Terms: []Term{t}}}, e, true
		}
		r.problem(CodeUnitTwice, i, e, "the two ends of this range have different units, or it falls", "give both ends in one unit: `200 to 250 g`", "")
		return a, e, true
	}
	r.problem(CodeNoName, i, max(after, end), "`"+r.s[i:end]+"` of what? A name does not begin with `"+r.s[k:k+max(n, len(word))]+"`",
		"write the name after the amount, in quotes if it begins so", "")
	return a, end, true
}
