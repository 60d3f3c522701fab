package resolve

import "tamis/lang/quantity"

// Amounts that are told by the one before: "half a pound of sugar, the same of flour", "a pint
// of milk and half as much cream", "and then as much again". Where one thing went in before, in
// the same sentence, that is measured alike, there is one meaning; else it is asked about.

// asMuch takes of the thing that is named behind such words at word i, or of the same thing
// again. It gives the word behind, or 0.
func (sc *scanner) asMuch(i int) int {
	times, next, of := sc.timesAsMuch(i)
	if next == 0 || sc.perhaps(i) {
		return 0
	}
	if !of && times.Equal(one) && (sc.lower(next) == "again" || sc.lower(next) == "more") && !sc.words[next].stop && (next+1 >= len(sc.words) || sc.words[next+1].stop || fillerStops[sc.lower(next+1)] && sc.lower(next+1) != "of") {
		return sc.muchAgain(i, next+1)
	}
	k := next
	if sc.lower(k) == "of" {
		k++
	} else if of {
		return 0
	}
	if articles[sc.lower(k)] {
		k++
	}
	if k >= len(sc.words) || sc.words[k].stop {
		return 0
	}
	ms := sc.finder.at(sc.words, k, false)
	for n := k + 1; len(ms) == 0 && n < k+3 && n < len(sc.words) && !sc.words[n].stop && !fillerStops[sc.lower(n)]; n++ {
		ms = sc.finder.at(sc.words, n, false)
	}
	if len(ms) != 1 || ms[0].target.line == nil {
		return 0
	}
	l := ms[0].target.line
	if l.ToTaste || l.Quantity == nil || l.Quantity.Value.High.Sign() <= 0 || !of && (sc.lower(next-1) == "many") != (l.Quantity.Dim == quantity.None) {
		return 0
	}
	for n := k; n < len(sc.words) && !sc.words[n].stop; n++ { // as much butter as will fry them
		if w := sc.lower(n); w == "as" || w == "again" || w == "more" {
			return 0
		}
	}
	q := sc.saidBefore(i, l)
	if q == nil {
		return 0
	}
	share := q.Value.High.Mul(times).Div(l.Quantity.Value.High)
	if sc.story.left[l].Less(share) {
		return 0
	}
	w := wanted{share: &Share{Fraction: share}, start: sc.words[k].start}
	n := sc.nameAfter(next, &w)
	if n > 0 {
		sc.spend(i, n)
	}
	return n
}

// perhaps tells whether the sentence speaks before word i of what may not be so.
func (sc *scanner) perhaps(i int) bool {
	for k := i - 1; k >= 0 && !sc.words[k+1].opens; k-- {
		switch sc.lower(k) {
		case "if", "should", "unless", "perhaps", "when", "or":
			return true
		}
	}
	return false
}

// timesAsMuch reads "as much", "half as much", "twice the quantity of", "the same of": how many
// times the amount before, and the word behind; of, where "of" must follow. 0: there is none.
func (sc *scanner) timesAsMuch(i int) (times quantity.Number, next int, of bool) {
	times = one
	asMany := func(k int) bool { return sc.says(k, "as", "much") || sc.says(k, "as", "many") }
	switch w := sc.lower(i); {
	case sc.words[i].opens:
		return times, 0, false
	case asMany(i):
		return times, i + 2, false
	case w == "twice" || w == "double" || w == "half" || w == "thrice":
		times = map[string]quantity.Number{"twice": quantity.Int(2), "double": quantity.Int(2), "thrice": quantity.Int(3), "half": quantity.Frac(1, 2)}[w]
		if asMany(i + 1) {
			return times, i + 3, false
		}
		if n := sc.theMeasure(i + 1); n > 0 {
			return times, n, true
		}
		return times, 0, false
	case w == "the" || w == "a" || w == "an":
		switch sc.lower(i + 1) {
		case "same":
			if sc.lower(i+2) == "of" {
				return times, i + 2, true
			}
		case "like", "equal", "similar":
		default:
			w = ""
		}
		if w != "" && i+2 < len(sc.words) && alike[sc.words[i+2].key] && sc.words[i+2].key != "part" && sc.words[i+2].key != "proportion" && !sc.words[i+2].stop {
			return times, i + 3, true
		}
	}
	if s, n, ok := sc.spokenAt(i); ok && !s.Article && !s.Value.IsRange() {
		if !s.Part && n < len(sc.words) && sc.words[n].key == "time" && asMany(n+1) || s.Part && asMany(n) {
			if !s.Part {
				n++
			}
			return s.Value.High, n + 2, false
		}
		if m := sc.theMeasure(n); m > 0 {
			return s.Value.High, m, true
		}
	}
	return times, 0, false
}

// theMeasure is the word behind "the quantity", "that", where "of" follows; 0: there is none.
func (sc *scanner) theMeasure(i int) int {
	n := 0
	switch {
	case sc.lower(i) == "that":
		n = i + 1
	case (sc.lower(i) == "the" || sc.lower(i) == "that") && i+1 < len(sc.words) && alike[sc.words[i+1].key]:
		n = i + 2
	}
	if n == 0 || sc.lower(n) != "of" || sc.words[n].stop {
		return 0
	}
	return n
}

// lastMeasured is the one take of the sentence before word i that has an amount.
func (sc *scanner) lastMeasured(i int, fits func(*Take) bool) (found *Take) {
	first := i
	for first > 0 && !sc.words[first].opens {
		first--
	}
	from, here := sc.place(sc.words[first].start, sc.words[first].end).Start, sc.place(sc.words[i].start, sc.words[i].end).Start
	for n := range sc.takes {
		t := &sc.takes[n]
		if t.Line == nil || t.Refers || t.NameAt.Start < from || t.NameAt.Start > here || !fits(t) {
			continue
		}
		if found != nil && !sc.justNamed(i, t) {
			return nil
		}
		found = t
	}
	return found
}

// justNamed tells whether what is taken is named right before word i: "the salt and half as much".
func (sc *scanner) justNamed(i int, t *Take) bool {
	k := i - 1
	for k > 0 && (sc.lower(k) == "and" || sc.lower(k) == "with" || sc.lower(k) == "plus") {
		k--
	}
	return k >= 0 && sc.place(sc.words[k].start, sc.words[k].end).End == t.NameAt.End
}

// saidBefore is how much went in, earlier in the sentence, of the one other thing that is
// measured as line l is; nil: nobody can say.
func (sc *scanner) saidBefore(i int, l *Line) *quantity.Quantity {
	t := sc.lastMeasured(i, func(t *Take) bool {
		return t.Line != l && t.Line.Quantity != nil && t.Line.Quantity.Dim == l.Quantity.Dim && t.Line.Quantity.Unit == l.Quantity.Unit
	})
	if t == nil || t.Unmeasured || t.Each || t.Part.Sign() <= 0 || t.Line.Quantity.Value.IsRange() || t.Amount != nil && t.Amount.Dim != l.Quantity.Dim {
		return nil
	}
	q := t.Line.Quantity.Scale(t.Part)
	return &q
}

// muchAgain takes as much as before of the thing that went in just before.
func (sc *scanner) muchAgain(i, next int) int {
	t := sc.lastMeasured(i, func(t *Take) bool { return !t.Line.ToTaste })
	if t == nil || t.Unmeasured || t.Each || t.All || t.Part.Sign() <= 0 || sc.story.left[t.Line].Less(t.Part) {
		return 0
	}
	w := &wanted{share: &Share{Fraction: t.Part}, start: sc.words[i].start, figure: sc.words[i].start, end: sc.words[next-1].end}
	at := sc.place(sc.words[i].start, sc.words[next-1].end)
	sc.takeLine(t.Line, Take{Span: at, NameAt: at}, w, false)
	sc.spend(i, next)
	return next
}
