package quantity

// Style says how quantities are rounded and printed for a cook. The zero Style
// prints metric, with plain fractions.
type Style struct {
	System System // how large cups and spoons are; without Unit, also what is printed
	Unit   *Unit  // the writer's own unit: spoons stay spoons, pounds stay pounds
	Glyphs bool   // ½ in print; 1/2 in text
	Comma  bool   // decimal comma
	Dash   bool   // 2–3; otherwise 2 to 3
	Exact  bool   // nothing is rounded: for what the writer wrote, and after Spread
	// Modifier stands before the writer's own unit while that is printed:
	// small, heaped.
	Modifier string

	// Tolerance and CountTolerance bound the error of rounding as a share of
	// the true value; 0 stands for the defaults below.
	Tolerance      Number
	CountTolerance Number
}

// How far a printed figure may be from the true one. Common practice, no
// source. Counts may be further off, since no two onions are alike.
var (
	DefaultTolerance      = Frac(3, 100)
	DefaultCountTolerance = Frac(10, 100)
)

// A few spoons or ounces may be further off, so that they stay what they are:
// nobody in a kitchen of spoons and cups measures 8 ml. Common practice, no
// source.
var (
	spoonTolerance = Frac(8, 100)
	mostSpooned    = Int(120) // ml, or g
	// Between two spoons there is none: 1/3 tsp is a full 1/4.
	fewSpoons = []Number{Frac(1, 8), Frac(1, 3)}
	// A jug is read less finely than a scale.
	jugTolerance = Frac(4, 100)
	// Few grams: a kitchen scale shows whole ones, a fine one halves.
	gramTolerance = []struct{ below, tol Number }{{Int(10), Frac(10, 100)}, {Int(20), Frac(5, 100)}}
)

func (st Style) tolerance(d Dimension) Number {
	if st.Exact {
		return Number{}
	}
	if d == None || d == Word {
		if !st.CountTolerance.IsZero() {
			return st.CountTolerance
		}
		return Max(DefaultCountTolerance, st.Tolerance)
	}
	if !st.Tolerance.IsZero() {
		return st.Tolerance
	}
	return DefaultTolerance
}

// figure is one end of a quantity as it is printed: a number of a unit, or at
// most two of them. value is what they come to in the base unit.
type figure struct {
	terms []Term
	value Number
}

// Round is the nearest quantity that can be weighed, measured or counted in a
// kitchen, never nothing unless it was, and within the style's tolerance.
// Only vague units are free of the tolerance: half of a pinch is a pinch.
func Round(q Quantity, st Style) Quantity {
	low, high := q.figures(st)
	q.Value = Range{Min(low.value, high.value), Max(low.value, high.value)}
	return q
}

// RoundTo is the multiple of step nearest to n; a half goes up. step must be
// above 0.
func RoundTo(n, step Number) Number {
	return n.Div(step).Add(Frac(1, 2)).Floor().Mul(step)
}

func (q Quantity) figures(st Style) (low, high figure) {
	high = q.figure(q.Value.High, st)
	if !q.Value.IsRange() {
		return high, high
	}
	low = q.figure(q.Value.Low, st)
	if low.value.IsZero() {
		low.terms = []Term{{Unit: high.terms[len(high.terms)-1].Unit}}
	}
	if l := ladderFor(q.Dim, st); l != nil && !low.alike(high) {
		if a, b, ok := l.both(q.Value, q.tolerance(q.Value.Low, st), q.tolerance(q.Value.High, st), st); ok {
			return a, b
		}
		if low.metric() != high.metric() { // one end is more than is spooned
			tol := st.tolerance(q.Dim)
			return metricFigure(q.Value.Low, q.Dim, tol, st), metricFigure(q.Value.High, q.Dim, tol, st)
		}
	}
	return low, high
}

func (f figure) metric() bool { return f.terms[0].Unit != nil && f.terms[0].Unit.metric }

// alike tells whether two figures are numbers of one unit.
func (f figure) alike(o figure) bool {
	return len(f.terms) == 1 && len(o.terms) == 1 && f.terms[0].Unit == o.terms[0].Unit
}

// tolerance is how far the figure of v may be off in the units of the writer.
func (q Quantity) tolerance(v Number, st Style) Number {
	tol := st.tolerance(q.Dim)
	if !st.Tolerance.IsZero() || st.Exact {
		return tol
	}
	switch {
	case v.Less(mostSpooned):
		return spoonTolerance
	case q.Dim == Volume:
		return jugTolerance
	}
	return tol
}

// figure chooses how v, one end of q, is printed.
func (q Quantity) figure(v Number, st Style) figure {
	if v.Sign() < 0 {
		f := q.figure(Int(0).Sub(v), st)
		f.value = Int(0).Sub(f.value)
		for i := range f.terms {
			f.terms[i].Value = f.terms[i].Value.Mul(Int(-1))
		}
		return f
	}
	tol := st.tolerance(q.Dim)
	switch q.Dim {
	case None, Word, Batch:
		return countFigure(v, q.Unit, tol, q.Dim != Batch)
	case Vague:
		return vagueFigure(v, q.Unit, st.Exact)
	}
	if l := ladderFor(q.Dim, st); l != nil && v.Sign() > 0 {
		return q.ofLadder(l, v, tol, st)
	}
	if st.Tolerance.IsZero() && !st.Exact && q.Dim != Length {
		tol = Max(tol, fewGrams(v))
	}
	return metricFigure(v, q.Dim, tol, st)
}

// fewGrams is how far a few grams may be off; 0 for more than a few.
func fewGrams(v Number) Number {
	for _, few := range gramTolerance {
		if v.Less(few.below) {
			return few.tol
		}
	}
	return Number{}
}

// ofLadder is a figure in the writer's kind of unit. It never leaves it: who
// has cups and ounces is not shown a gram.
func (q Quantity) ofLadder(l *ladder, v, tol Number, st Style) figure {
	if f, ok := q.onLadder(l, v, tol, st); ok {
		return f
	}
	if l.isPast(v) { // more than is spooned
		if up := ladders[ladderKey{Imperial, pint}]; st.System == Imperial && l != up {
			return q.ofLadder(up, v, tol, st)
		}
		return metricFigure(v, q.Dim, tol, st)
	}
	if st.Unit == peck || st.Unit == bushel { // less than an eighth of a peck
		st.Unit = pint
		return q.ofLadder(ladderFor(Volume, st), v, tol, st)
	}
	return l.nearest(v, q.tolerance(v, st))
}

// At is the style in which a quantity is really set: what is more than is spooned, and
// stands in pints and ounces, has its parts in them too.
func (st Style) At(q Quantity) Style {
	if l := ladderFor(q.Dim, st); l != nil && st.System == Imperial && l.isPast(q.Value.High) {
		st.Unit = pint
	}
	return st
}

// onLadder is the plainest figure that is near enough, if there is one.
func (q Quantity) onLadder(l *ladder, v, tol Number, st Style) (figure, bool) {
	tries := []Number{tol, q.tolerance(v, st)}
	if q.Dim == Volume && st.Tolerance.IsZero() && !st.Exact && v.Less(mostSpooned) {
		tries = append(tries[1:], fewSpoons...)
	}
	for i, t := range tries {
		if i > 0 && t.Equal(tries[i-1]) {
			continue
		}
		if f, ok := l.figure(v, t, st); ok {
			return f, true
		}
	}
	return figure{}, false
}

// Measurable tells whether a quantity is printed in the parts that measures come in,
// and not in hundredths of the least of them.
func (q Quantity) Measurable(st Style) bool {
	l := ladderFor(q.Dim, st)
	if l == nil || q.IsZero() {
		return true
	}
	for _, v := range []Number{q.Value.Low, q.Value.High} {
		if _, ok := q.onLadder(l, v, st.tolerance(q.Dim), st); !ok && v.Sign() > 0 && !l.isPast(v) {
			return false
		}
	}
	return true
}

// A rounding grid with the size below which it serves. Common practice, no
// source; above 10 kg continued in the same manner.
var metricGrid = []struct{ below, step Number }{
	{Int(10), Frac(1, 2)},
	{Int(50), Int(1)},
	{Int(250), Int(5)},
	{Int(1000), Int(10)},
	{Int(2500), Int(25)},
	{Int(10000), Int(50)},
	{Int(50000), Int(100)},
	{Int(1 << 40), Int(500)},
}

// Finer steps, for when the grid would be too far off.
var finer = []Number{Int(5), Int(1), Frac(1, 2), Frac(1, 10), Frac(1, 20), Frac(1, 100), Frac(1, 1000), Frac(1, 10000), Frac(1, 100000), Frac(1, 1000000)}

// metricFigure is v in g and kg, ml and litres, or mm and cm.
func metricFigure(v Number, d Dimension, tol Number, st Style) figure {
	r := v
	switch {
	case tol.Sign() <= 0 || v.Sign() <= 0:
	case d == Length:
		r = onRuler(v, tol)
	default:
		r = onGrid(v, tol)
	}
	return figure{[]Term{metricTerm(r, d, st)}, r}
}

// onRuler is a length as a cook measures one: of what is a centimetre and more, half a one
// is near enough where it is no more than an eighth off. Common practice, no source.
func onRuler(v, tol Number) Number {
	if r := RoundTo(v, Int(5)); !v.Less(Int(10)) && within(r, v, Frac(1, 8)) {
		return r
	}
	if r := RoundTo(v, Int(1)); v.Less(Int(10)) && within(r, v, Frac(1, 10)) {
		return r
	}
	return onGrid(v, tol)
}

func onGrid(v, tol Number) Number {
	step := Int(1)
	for _, g := range metricGrid {
		step = g.step
		if v.Less(g.below) {
			break
		}
	}
	if v.IsInt() && v.Div(step).Mul(Int(2)).IsInt() { // 375 g is as round as 380
		return v
	}
	if r := RoundTo(v, step); within(r, v, tol) {
		return r
	}
	least := leastStep(v)
	for _, s := range finer {
		if s.Less(step) {
			if r := RoundTo(v, s); within(r, v, tol) || s.Equal(least) && r.Sign() > 0 {
				return r
			}
		}
	}
	return v
}

// leastStep is the finest step that a kitchen's scale shows at v; 0 for what
// needs a finer one anyway.
func leastStep(v Number) Number {
	switch {
	case !v.Less(Int(10)):
		return Frac(1, 2)
	case !v.Less(Int(1)):
		return Frac(1, 10)
	}
	return Number{}
}

// within tells whether r is something, and as near to v as tol allows.
func within(r, v, tol Number) bool {
	d := r.Sub(v)
	if d.Sign() < 0 {
		d = v.Sub(r)
	}
	return r.Sign() > 0 && !v.Mul(tol).Less(d)
}

var (
	gram, kilogram    = MustUnit("g"), MustUnit("kg")
	millilitre, litre = MustUnit("ml"), MustUnit("litre")
	centilitre        = MustUnit("cl")
	decilitre         = MustUnit("dl")
	millimetre        = MustUnit("mm")
	centimetre        = MustUnit("cm")
)

// metricTerm picks the unit for a rounded value. Centilitres and decilitres
// stay where the writer has them and the figure is short.
func metricTerm(v Number, d Dimension, st Style) Term {
	in := func(u *Unit, size int64) Term { return Term{Value: Exactly(v.Div(Int(size))), Unit: u} }
	thousand := !v.Less(Int(1000))
	switch d {
	case Mass:
		if thousand {
			return in(kilogram, 1000)
		}
		return in(gram, 1)
	case Length:
		if st.Unit == millimetre && v.Less(Int(100)) || v.Less(Int(10)) {
			return in(millimetre, 1)
		}
		return in(centimetre, 10)
	}
	switch {
	case thousand:
		return in(litre, 1000)
	case st.Unit == decilitre && !v.Less(Int(50)) && (v.Div(Int(10)).IsInt() || v.Div(Int(25)).IsInt()):
		return in(decilitre, 100)
	case st.Unit == centilitre && !v.Less(Int(10)) && v.Div(Int(5)).IsInt():
		return in(centilitre, 10)
	}
	return in(millilitre, 1)
}

// countFigure is a number of pieces: whole, else halves, else thirds or
// quarters, else decimals. What is nearer than half the tolerance is preferred.
// parts says that they are things a cook can cut.
func countFigure(v Number, u *Unit, tol Number, parts bool) figure {
	of := func(n Number) figure { return figure{[]Term{{Value: Exactly(n), Unit: u}}, n} }
	if tol.IsZero() || v.Mul(Int(2)).IsInt() {
		return of(v)
	}
	third, quarter := RoundTo(v, Frac(1, 3)), RoundTo(v, Frac(1, 4))
	if miss(quarter, v).Less(miss(third, v)) {
		third = quarter
	}
	tries := []Number{RoundTo(v, Int(1)), RoundTo(v, Frac(1, 2)), third}
	for i, most := range []Number{tol.Div(Int(2)), tol} {
		if f, ok := fractionOfOne(v); i > 0 && ok && parts {
			return of(f)
		}
		for _, r := range tries {
			if within(r, v, most) {
				return of(r)
			}
		}
	}
	if r := RoundTo(v, Frac(1, 8)); parts && within(r, v, tol) { // between one and one and a quarter
		return of(r)
	}
	for _, s := range finer[3:] {
		if r := RoundTo(v, s); within(r, v, tol) {
			return of(r)
		}
	}
	return of(v)
}

// partsOfOne are the parts of one thing that a cook can cut: of a half a half,
// of a third a half. Common practice, no source.
var partsOfOne = []Number{
	Frac(1, 8), Frac(1, 6), Frac(1, 4), Frac(1, 3), Frac(3, 8), Frac(1, 2), Frac(5, 8), Frac(2, 3), Frac(3, 4), Int(1),
}

// fractionOfOne is the nearest part of one thing that a cook can cut. It may be
// a fifth off and more than the tolerance, as one onion is from another: nobody
// can use 0.45 of one. Common practice, no source. A tenth of a thing and less
// has no such part.
func fractionOfOne(v Number) (best Number, ok bool) {
	if !v.Less(Int(1)) {
		return best, false
	}
	for _, f := range partsOfOne {
		if best.IsZero() || miss(f, v).Less(miss(best, v)) {
			best = f
		}
	}
	return best, within(best, v, Frac(1, 5))
}

func miss(r, v Number) Number {
	if r.Less(v) {
		return v.Sub(r)
	}
	return r.Sub(v)
}

// vagueFigure is a whole number of pinches.
func vagueFigure(v Number, u *Unit, exact bool) figure {
	r := v
	if !exact && v.Sign() > 0 {
		r = Max(Int(1), RoundTo(v, Int(1)))
	}
	return figure{[]Term{{Value: Exactly(r), Unit: u}}, r}
}
