package quantity

import "slices"

// Spread rounds the parts of a total so that they add up to what is printed of
// it: each is cut to a step, and what is left over goes, a step at a time, to
// those that were cut most (the method of the largest remainder). The step is the
// coarsest that keeps every part within the style's tolerance and that the
// style's measures can say. When the parts fall short of the total, what is
// missing counts as one more part. Print the parts with Total, so that they are
// not rounded twice. The parts must be of the total's kind; a Problem says which
// is not.
func Spread(total, printed Quantity, parts []Quantity, st Style) ([]Quantity, *Problem) {
	out := make([]Quantity, len(parts))
	lows, highs := make([]Number, len(parts)), make([]Number, len(parts))
	ranged := total.Value.IsRange()
	for i, p := range parts {
		if !p.Same(total) && !p.IsZero() {
			return nil, kinds(p, total, "added")
		}
		out[i], lows[i], highs[i] = p, p.Value.Low, p.Value.High
		ranged = ranged || p.Value.IsRange()
	}
	highs = spread(total, total.Value.High, printed.Value.High, highs, st)
	if ranged {
		lows = slices.Clone(spread(total, total.Value.Low, printed.Value.Low, lows, st))
		l := ladderFor(total.Dim, st)
		upright(lows, highs, func(v Number) bool { return l == nil || l.says([]Number{v}, st) })
	} else {
		lows = highs
	}
	for i := range out {
		out[i].Value = Range{Min(lows[i], highs[i]), Max(lows[i], highs[i])}
	}
	return out, nil
}

// upright sees that no share is more at its low end than at its high one, as can be when
// each end of a range is shared out for itself: what is too much goes to a share with room,
// if there is one to one whose low end can then be measured.
func upright(lows, highs []Number, measured func(Number) bool) {
	for i := range lows {
		over := lows[i].Sub(highs[i])
		if over.Sign() <= 0 {
			continue
		}
		to := -1
		for j := range lows {
			if more := lows[j].Add(over); j != i && !highs[j].Less(more) {
				if to < 0 || measured(more) {
					to = j
				}
				if measured(more) {
					break
				}
			}
		}
		if to >= 0 {
			lows[i], lows[to] = highs[i], lows[to].Add(over)
		}
	}
}

func spread(kind Quantity, total, target Number, parts []Number, st Style) []Number {
	n := len(parts)
	sum := Number{}
	for _, p := range parts {
		sum = sum.Add(p)
	}
	if n == 0 || sum.Sign() <= 0 || st.Exact {
		return parts
	}
	if sum.Less(total) {
		parts = append(slices.Clone(parts), total.Sub(sum))
		sum = total
	} else if total.Less(sum) {
		kind.Value = Exactly(sum)
		target = Round(kind, st).Value.High
	}
	tol := st.tolerance(kind.Dim)
	if l := ladderFor(kind.Dim, st); l == nil && (kind.Dim == Mass || kind.Dim == Volume) {
		target = weighable(target)
	}
	fair := exactShares(parts, sum, target)
	l := ladderFor(kind.Dim, st)
	var sayable, last []Number
	for _, step := range steps(kind, st) {
		if !target.Div(step).IsInt() {
			continue
		}
		got, ok := allot(parts, sum, target, step)
		if !ok {
			continue
		}
		if last == nil || !kind.allWithin(last, fair, tol, l) {
			last = got
		}
		if l != nil && !l.says(got[:n], st) {
			continue
		}
		if sayable = got; kind.allWithin(got, fair, tol, l) {
			break
		}
	}
	switch {
	case sayable != nil:
		return sayable[:n]
	case last != nil:
		return last[:n]
	}
	return fair[:n]
}

// weighable is a target that no scale shows, two thirds of a litre, as near as no cook can
// tell from it: the shares then come to that.
func weighable(v Number) Number {
	if v.Mul(Int(1000)).IsInt() || v.Less(Int(6)) {
		return v
	}
	for i := len(metricGrid) - 1; i >= 0; i-- {
		if s := metricGrid[i].step; !v.Less(s.Mul(Int(600))) {
			return RoundTo(v, s)
		}
	}
	return RoundTo(v, Frac(1, 100))
}

// says tells whether two measures at the most can say each of some numbers to
// the hair.
func (l *ladder) says(all []Number, st Style) bool {
	for _, v := range all {
		if v.Sign() <= 0 {
			continue
		}
		if _, ok := l.atLeast(v, Number{}, st, false); !ok {
			return false
		}
	}
	return true
}

// allot shares target out in steps by largest remainder. It is not ok when a
// part comes to nothing.
func allot(parts []Number, sum, target, step Number) ([]Number, bool) {
	got := make([]Number, len(parts))
	rest := make([]Number, len(parts))
	left := target
	for i, p := range parts {
		quota := p.Mul(target).Div(sum).Div(step)
		whole := quota.Floor()
		got[i] = whole.Mul(step)
		rest[i] = quota.Sub(whole)
		left = left.Sub(got[i])
	}
	order := make([]int, len(parts))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return rest[b].Cmp(rest[a]) })
	for _, i := range order {
		if left.Sign() <= 0 {
			break
		}
		got[i] = got[i].Add(step)
		left = left.Sub(step)
	}
	for i, p := range parts {
		if p.Sign() > 0 && got[i].Sign() <= 0 {
			return got, false
		}
	}
	return got, true
}

func (q Quantity) allWithin(got, parts []Number, tol Number, l *ladder) bool {
	for i, p := range parts {
		near := tol
		if l == nil && (q.Dim == Mass || q.Dim == Volume) {
			near = Max(near, fewGrams(p))
		}
		if p.Sign() > 0 && !within(got[i], p, near) {
			return false
		}
	}
	return true
}

// exactShares is the last resort: shares in proportion, not rounded.
func exactShares(parts []Number, sum, target Number) []Number {
	got := make([]Number, len(parts))
	for i, p := range parts {
		got[i] = p.Mul(target).Div(sum)
	}
	return got
}

// steps are what parts are cut to, coarsest first: on the ladder of the style,
// then in metric steps.
func steps(q Quantity, st Style) []Number {
	var out []Number
	switch q.Dim {
	case None, Word, Batch:
		return []Number{Int(1), Frac(1, 2), Frac(1, 4), Frac(1, 3), Frac(1, 8), Frac(1, 12), Frac(1, 10), Frac(1, 100)}
	case Vague:
		return []Number{Int(1), Frac(1, 2), Frac(1, 4)}
	}
	if l := ladderFor(q.Dim, st); l != nil {
		for _, r := range l.rungs {
			dens := r.steps(Number{})
			for _, d := range dens {
				out = append(out, r.size.Div(Int(d)))
			}
		}
		slices.SortFunc(out, func(a, b Number) int { return b.Cmp(a) })
	}
	for i := len(metricGrid) - 1; i >= 0; i-- {
		out = append(out, metricGrid[i].step)
	}
	return append(out, finer[3:7]...)
}
