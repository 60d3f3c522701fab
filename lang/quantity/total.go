package quantity

// Printed is what Print prints, and what it comes to: Round's quantity.
func (q Quantity) Printed(st Style) (string, Quantity) {
	low, high := q.figures(st)
	r := q
	r.Value = Range{Min(low.value, high.value), Max(low.value, high.value)}
	return st.between(low, high), r
}

// totalTolerances are how much more than the true sum a total may say, where two
// measures cannot say it to the hair: the least that serves is taken.
var totalTolerances = []Number{{}, Frac(1, 400), Frac(1, 100), Frac(2, 100), Frac(4, 100), Frac(8, 100), Frac(1, 8)}

// coarse is more than a total should say too much, while there is another way.
var coarse = Frac(2, 100)

// Total prints a sum of printed figures, and says what the print comes to. It is
// the sum exactly where the style's measures, at most two of them, can say it;
// else as little more as they can.
func (q Quantity) Total(st Style) (string, Quantity) {
	low := q.totalFigure(q.Value.Low, st)
	high := low
	if q.Value.IsRange() {
		high = q.totalFigure(q.Value.High, st)
	}
	r := q
	r.Value = Range{Min(low.value, high.value), Max(low.value, high.value)}
	return st.between(low, high), r
}

func (q Quantity) totalFigure(v Number, st Style) figure {
	if v.Sign() <= 0 {
		return q.figure(v, st)
	}
	exact := st
	exact.Exact = true
	l := ladderFor(q.Dim, st)
	if l != nil && l.isPast(v) { // more than is spooned: as figure says it
		if l = nil; st.System == Imperial {
			l = ladders[ladderKey{Imperial, pint}]
		}
	}
	if l == nil {
		switch q.Dim {
		case Mass, Volume, Length:
			if up := ceilTo(v, totalStep(v)); !up.Equal(v) { // a sum over ounces and grams
				v = up
			}
			return metricFigure(v, q.Dim, Number{}, exact)
		}
		return q.figure(v, exact)
	}
	for i, tol := range totalTolerances {
		if f, ok := l.atLeast(v, tol, st, false); ok {
			return f
		}
		if tol.Equal(coarse) { // eight cups and three quarters before half a cup too much
			for _, near := range totalTolerances[:i+1] {
				if f, ok := l.atLeast(v, near, st, true); ok {
					return f
				}
			}
		}
		if last := l.rungs[len(l.rungs)-1]; i == 0 && last.unit == ounce && v.Less(last.size.Mul(Int(4))) && v.Div(last.size).Mul(Int(20)).IsInt() {
			return last.decimals(v, Frac(1, 20))
		}
	}
	least := l.rungs[len(l.rungs)-1]
	for _, step := range []Number{Frac(1, 20), Frac(1, 100), Frac(1, 1000)} {
		if f := least.decimals(v, step); !v.Mul(Frac(9, 8)).Less(f.value) {
			return f
		}
	}
	return least.decimals(v, Frac(1, 1_000_000))
}

// decimals is v in steps of a unit, not less.
func (r rung) decimals(v, step Number) figure {
	n := ceilTo(v.Div(r.size), step)
	return figure{[]Term{{Value: Exactly(n), Unit: r.unit}}, n.Mul(r.size)}
}

// totalStep is how finely a metric total is said.
func totalStep(v Number) Number {
	switch {
	case v.Less(Int(1)):
		return Frac(1, 100)
	case v.Less(Int(10)): // its parts may be quarters of a gram
		return Frac(1, 20)
	}
	return Frac(1, 10)
}

func ceilTo(v, step Number) Number { return v.Div(step).Ceil().Mul(step) }

// atLeast is the plainest figure that is not below v, nor above it by more than
// tol. stretched lets each measure be used for half as much again.
func (l *ladder) atLeast(v, tol Number, st Style, stretched bool) (figure, bool) {
	middle := v.Mul(Int(1).Add(tol.Div(Int(2))))
	near := tol.Div(Int(2).Add(tol)) // of the middle: from there up to v and tol, and down to v
	s := search{v: middle, tol: near, v64: middle.Float(), t64: tol.Float()*0.505 + 1e-9, own: st.Unit, total: true, stretched: stretched}
	l.search(&s)
	return s.best, s.found && !s.best.value.Less(v)
}
