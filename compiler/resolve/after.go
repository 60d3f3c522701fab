package resolve

import (
	"slices"
	"strings"

	"tamis/lang/quantity"
)

// What stands behind a name and changes how much of it is meant: "the butter,
// less 2 tbsp", "one egg at a time", "a teaspoon of jam in each case".

// behind reads on from word i, the first behind a name that w speaks of, and
// gives what is then wanted and the word to go on from.
func (sc *scanner) behind(i int, w *wanted) (*wanted, int) {
	if n, is := sc.atATime(i); is {
		if w != nil && (w.amount != nil || w.share != nil && !w.share.Rest && !w.share.OfRest) {
			return &wanted{start: w.start, figure: w.figure, end: w.end, at: true, amount: w.amount}, n
		}
		if w != nil && w.number != nil {
			return &wanted{start: w.start, figure: w.figure, end: w.end, at: true}, n
		}
		return w, i
	}
	if w == nil && i < len(sc.words) && sc.words[i].stop && !sc.words[i].opens {
		if of, n, is := sc.amountAt(i); is && (of.share != nil || of.measured() && !of.article) && (sc.says(n, "of", "it") || sc.says(n, "of", "them")) && !sc.words[n].stop && (n+2 >= len(sc.words) || sc.words[n+2].stop) {
			return &of, n + 2 // the cream, about half of it,
		}
	}
	if w == nil {
		if of, n := sc.beside(i); of != nil {
			return of, n
		}
		if n := sc.bySight(i); n > i {
			return &wanted{unmeasured: true}, n
		}
		if sc.says(i, "by", "the") && !sc.words[i].stop { // by the spoonful if it is stiff
			for k := i + 2; k < len(sc.words) && !sc.words[k].stop; k++ {
				if sc.lower(k) == "if" || sc.lower(k) == "as" && sc.lower(k+1) == "needed" {
					return &wanted{unmeasured: true}, i
				}
			}
		}
		if n := sc.thatRemains(i); n > i {
			rest := &wanted{share: &Share{Rest: true}, rest: true}
			if _, next := sc.beside(n); next > n && sc.words[n].stop { // ", about 60 g,"
				n = next
			}
			return rest, n
		}
	}
	if w == nil || w.share == nil && w.amount == nil && w.number == nil && !w.unmeasured && w.but == nil {
		if but, n, is := sc.except(i); is {
			sc.ofWhich(i, n, but)
			out := &wanted{but: but, figure: but.start, end: but.end}
			if w != nil {
				out.start = w.start
			} else {
				out.start = but.start
			}
			return out, n
		}
	}
	if w != nil && w.number != nil && w.article { // a lemon and a half
		if f, n, is := sc.andAHalf(i); is && (n >= len(sc.words) || sc.words[n].stop || sc.lower(n) != "of") {
			v := quantity.Range{Low: w.number.Low.Add(f), High: w.number.High.Add(f)}
			more := *w
			more.number = &v
			return &more, n
		}
	}
	if w != nil && w.share != nil && !w.share.Rest && !w.share.OfRest && w.pieces == 0 { // a quarter of the yoghurt on each
		n, is := sc.forEach(i)
		if !is {
			n, is = sc.eachWith(w)
			k := sc.wordFrom(0, w.start) - 2 // sprinkle each layer with a sixth
			is = is && k > 0 && sc.lower(k-1) == "each" && (vessels[sc.words[k].key] || loadsOf[sc.words[k].key] || baked[sc.words[k].key] || heaps[sc.words[k].key])
		}
		if is {
			more := *w
			more.each, more.pieces = true, n
			return &more, i
		}
	}
	if w != nil && (w.number != nil && !w.number.IsRange() || w.amount != nil) && w.pieces == 0 && !w.every {
		if n, is := sc.forEach(i); is {
			more := *w
			more.each, more.pieces = true, n
			more.heads = n == 0 && (sc.lower(i) == "each" || sc.lower(i) == "apiece") && (i+1 >= len(sc.words) || sc.words[i+1].stop)
			return &more, i
		}
		if n, is := sc.toEach(w); is {
			more := *w
			more.each, more.of, more.pieces = true, !sc.eachVessel(w), n
			return &more, i
		}
		if n, is := sc.eachWith(w); is {
			more := *w
			more.each, more.pieces = true, n
			return &more, i
		}
	}
	return w, i
}

// thatRemains reads "that remains", "that is left" behind a name, and gives the word
// behind; i when there is none. What is left over is for no step.
func (sc *scanner) thatRemains(i int) int {
	if i >= len(sc.words) || sc.words[i].stop {
		return i
	}
	k := i
	if w := sc.lower(k); w == "that" || w == "which" {
		if k++; sc.lower(k) == "remains" || sc.lower(k) == "remain" {
			return k + 1
		}
		if sc.lower(k) != "is" && sc.lower(k) != "are" {
			return i
		}
		k++
	} else {
		return i
	}
	if sc.lower(k) != "left" || sc.lower(k+1) == "over" {
		return i
	}
	return k + 1
}

// beside reads an amount that stands behind the name at word i: "take of the
// flour one pound", "the stock (200 ml)", "the butter, 60 g,". It must have a unit
// and end there.
func (sc *scanner) beside(i int) (*wanted, int) {
	if i >= len(sc.words) || sc.words[i].opens && sc.text[sc.words[i-1].end] != ':' || sc.words[i].glue {
		return nil, i
	}
	bracket := sc.words[i].stop
	w, n, ok := sc.amountAt(i)
	if !ok || w.amount == nil || len(w.amount.Measure.Terms) == 0 || w.amount.Measure.Terms[0].Unit == nil || w.amount.Measure.Terms[0].Unit.Dim == quantity.Word || w.amount.Measure.Terms[0].Unit.Dim == quantity.Vague {
		return nil, i
	}
	if n < len(sc.words) && !sc.words[n].stop && sc.lower(n) != "and" && sc.lower(n) != "now" && sc.lower(n) != "first" && sc.lower(n) != "here" {
		return nil, i
	}
	if !bracket { // "take of the flour one pound"
		k := i - 1
		for k > 0 && !sc.words[k].opens && sc.lower(k) != "of" {
			k--
		}
		if sc.words[k].key != "take" && (k == 0 || sc.words[k-1].key != "take") {
			return nil, i
		}
	}
	return &w, n
}

// atATime reads "at a time", "one by one", "at once" behind a name.
func (sc *scanner) atATime(i int) (int, bool) {
	if sc.says(i, "at", "a", "time") && !sc.words[i].stop {
		return i + 3, true
	}
	return i, false
}

// except reads "less 2 tbsp", "but one", "except half a cup", "keeping six
// back" behind a name, past a comma.
func (sc *scanner) except(i int) (but *wanted, next int, ok bool) {
	if i >= len(sc.words) || sc.words[i].opens {
		return nil, i, false
	}
	n := i
	back := false
	switch {
	case sc.says(n, "all", "but"):
		n += 2
	case sc.says(n, "but", "for"), sc.says(n, "except", "for"), sc.says(n, "apart", "from"), sc.says(n, "aside", "from"):
		n += 2
	case sc.lower(n) == "excepting", sc.lower(n) == "barring", sc.lower(n) == "less", sc.lower(n) == "but", sc.lower(n) == "except", sc.lower(n) == "bar", sc.lower(n) == "save", sc.lower(n) == "minus":
		n++
	case (sc.lower(n) == "saving" || sc.lower(n) == "leaving" || sc.lower(n) == "keeping" || sc.lower(n) == "holding" || sc.lower(n) == "taking") && sc.lower(n+1) == "out":
		n += 2
	case sc.lower(n) == "keeping", sc.lower(n) == "holding":
		if n++; sc.lower(n) == "back" {
			n++
		} else {
			back = true
		}
	case sc.lower(n) == "reserving", sc.lower(n) == "saving":
		n++
	default:
		return nil, i, false
	}
	if sc.says(n, "than") {
		return nil, i, false
	}
	w, next, is := sc.amountAt(n)
	if !is || w.but != nil {
		return nil, i, false
	}
	if back {
		if !asides[sc.lower(next)] {
			return nil, i, false
		}
		next++
	}
	if sc.named(next) { // "less 2 tbsp oil", "but two eggs": another thing
		return nil, i, false
	}
	return &w, next, true
}

// ofWhich asks of what so much is kept back, where two things that are measured
// alike went in just before: "mash the potatoes with the cream, holding back 80 g".
func (sc *scanner) ofWhich(i, next int, but *wanted) {
	if but.amount == nil || but.unmeasured || len(sc.takes) == 0 || sc.says(next-2, "of", "it") || sc.lower(i) == "but" || sc.lower(i) == "less" || sc.lower(i) == "minus" || sc.lower(i) == "except" {
		return
	}
	last := sc.takes[len(sc.takes)-1]
	q := sc.silent(but.amount)
	if last.Line == nil || !last.All || last.Refers || q == nil || last.Line.Quantity == nil || last.Line.Quantity.Dim != q.Dim {
		return
	}
	for k := i - 1; k >= 0; k-- {
		if at := sc.place(sc.words[k].start, sc.words[k].end); at.Start < last.NameAt.Start {
			break
		}
		if sc.words[k].stop {
			return
		}
	}
	at := sc.place(but.start, but.end)
	sc.diags.Askf("U217", at, "%s of what", at.Text()).
		Because("it may be kept back of %s, or of what is named last, and is read as this", last.Line.Name).
		WithHelp("write `of the …` behind it")
}

// named tells whether a name begins at word i, past "of" and an article.
func (sc *scanner) named(i int) bool {
	if i < len(sc.words) && sc.lower(i) == "of" {
		i++
	}
	if i < len(sc.words) && articles[sc.lower(i)] {
		i++
	}
	if i >= len(sc.words) || sc.words[i].stop || sc.words[i].glue {
		return false
	}
	if len(sc.finder.at(sc.words, i, false)) > 0 {
		return true
	}
	if i == 0 || sc.lower(i-1) != "the" || i+1 < len(sc.words) && !sc.words[i+1].stop && !fillerStops[sc.lower(i+1)] {
		return false
	}
	for _, l := range sc.lines { // of the double
		if strings.HasPrefix(l.Key, sc.words[i].key+" ") {
			return true
		}
	}
	return false
}

// forEach looks for "in each of 24 cases", "on top of each", "each" in what
// follows the name, up to the next mark. n is how many there are; 0 when
// nobody can say.
func (sc *scanner) forEach(i int) (n int, ok bool) {
	if i+1 < len(sc.words) && sc.words[i].stop && !sc.words[i].opens && sc.words[i+1].stop && !sc.words[i+1].opens {
		i++ // 2 cups of the sauce, hot, in each
		if k := i; sc.lower(k+1) == "each" && eachBy[sc.lower(k)] {
			return sc.piecesIn(k + 2), true
		}
		return 0, false
	}
	for k := i; k < len(sc.words) && !sc.words[k].stop; k++ {
		switch sc.lower(k) {
		case "then", "and", "until", "or":
			return 0, false
		case "a", "an":
			if k == i && k+1 < len(sc.words) && (k+2 == len(sc.words) || sc.words[k+2].stop) && (baked[sc.words[k+1].key] || heaps[sc.words[k+1].key] || persons[sc.words[k+1].key] || sc.oneOfCounted(k+1)) { // 20 ml of ketchup a burger
				return sc.piecesIn(k + 1), true
			}
		case "apiece":
			return sc.piecesIn(k + 1), true
		case "each", "every":
			return sc.piecesIn(k + 1), true
		case "per":
			switch sc.lower(k + 1) {
			case "piece", "case", "jar", "tin", "pan", "loaf", "cake", "pie", "glass", "slice":
				return sc.piecesIn(k + 1), true
			}
			if k+1 < len(sc.words) && persons[sc.words[k+1].key] {
				return sc.piecesIn(k + 1), true
			}
			if u, n := sc.unitAt(k + 1); n > k+1 && u != nil && u.Dim != quantity.Length {
				return sc.piecesIn(k + 1), true
			}
			return 0, false
		case "to":
			if u, n := sc.unitAt(k + 2); sc.lower(k+1) == "the" && n > k+2 && (u.Dim == quantity.Mass || u.Dim == quantity.Volume) { // 1 oz of salt to the pound
				return sc.piecesIn(k + 2), true
			}
		}
	}
	return 0, false
}

// oneOfCounted tells whether the word at i names one of several things that are counted.
func (sc *scanner) oneOfCounted(i int) bool {
	return slices.ContainsFunc(sc.lines, func(l *Line) bool {
		return l.Quantity != nil && l.Quantity.Dim == quantity.None && slices.Contains(strings.Fields(l.Key), sc.words[i].key)
	})
}

// toEach looks for "to each pound of pulp", "into each of four jars", "to each person"
// before the amount in its sentence.
func (sc *scanner) toEach(w *wanted) (n int, ok bool) {
	i := sc.wordFrom(0, w.start)
	for k := i - 1; k > 0 && !sc.words[k].opens; k-- {
		if sc.lower(k) != "each" && sc.lower(k) != "every" {
			continue
		}
		first := k - 1 // the preposition
		if !beforeEach[sc.lower(first)] || sc.lower(k+1) == "time" || sc.lower(k+1) == "other" {
			return 0, false
		}
		leads := sc.words[first].opens || sc.words[first].stop || sc.lower(first-1) == "and" || sc.lower(first-1) == "then" // into each of four jars put
		if leads && sc.lower(k+1) == "of" || k+1 < i && (persons[sc.words[k+1].key] || leads && (vessels[sc.words[k+1].key] || loadsOf[sc.words[k+1].key] || heaps[sc.words[k+1].key] || baked[sc.words[k+1].key])) {
			return sc.piecesIn(k + 1), true
		}
		if _, un := sc.unitAt(k + 1); (leads || sc.lower(first) == "to" && i-k < 8) && (un > k+1 || sc.named(k+1)) {
			return sc.piecesIn(k + 1), true
		}
		return 0, false
	}
	return 0, false
}

// eachVessel tells whether "each tin", "each layer" stands in the sentence before the amount.
func (sc *scanner) eachVessel(w *wanted) bool {
	for k := sc.wordFrom(0, w.start) - 2; k > 0 && !sc.words[k].opens; k-- {
		if sc.lower(k) == "each" || sc.lower(k) == "every" {
			n := sc.words[k+1].key
			return vessels[n] || loadsOf[n] || heaps[n] || baked[n]
		}
	}
	return false
}

var (
	beforeEach = wordSet("to for with into in on over")
	persons    = wordSet("person guest head cover portion plate bowl child adult serving eater diner")
)

// eachWith looks for "each bun with" before the amount, and gives how many there are.
func (sc *scanner) eachWith(w *wanted) (n int, ok bool) {
	i := sc.wordFrom(0, w.start)
	if i == 0 || sc.lower(i-1) != "with" || sc.words[i].stop {
		return 0, false
	}
	for k := i - 2; k >= 0 && k >= i-8 && !sc.words[k+1].stop; k-- {
		if sc.lower(k) == "each" || sc.lower(k) == "every" {
			if sc.lower(k+1) == "time" || sc.lower(k+1) == "other" {
				return 0, false
			}
			return sc.piecesIn(k + 1), true
		}
	}
	return 0, false
}

// piecesIn is how many there are of what stands behind "each": said there, or
// known of the block. 0: nobody can say.
func (sc *scanner) piecesIn(i int) int {
	if sc.lower(i) == "of" {
		i++
		if sc.lower(i) == "the" || sc.lower(i) == "your" {
			i++
		}
		if s, _, ok := sc.spokenAt(i); ok && !s.Part && !s.Article {
			if n, whole := s.Value.High.Int64(); whole {
				sc.cases = i
				return int(n)
			}
		}
	}
	if u, n := sc.unitAt(i); n > i && u != nil && (u.Dim == quantity.Mass || u.Dim == quantity.Volume) {
		return sc.unitsOf(u, n)
	}
	if sc.lower(i) == "batch" || sc.lower(i) == "lot" { // in two batches, with 1 tbsp for each batch
		for k := i - 1; k > 0; k-- {
			if sc.words[k].key == "batch" || sc.words[k].key == "lot" || sc.words[k].key == "load" {
				if s, _, ok := sc.spokenAt(k - 1); ok && !s.Article {
					if n, whole := s.Value.High.Int64(); whole && !s.Value.IsRange() {
						return int(n)
					}
				}
			}
		}
		return 0
	}
	switch sc.lower(i) {
	case "person", "guest", "head", "cover", "eater", "diner", "serving", "portion", "plate", "bowl", "people", "guests":
		if s := sc.recipe.Serves; s != nil {
			if n, whole := s.High.Int64(); whole {
				return int(n)
			}
		}
		return 0
	case "side":
		return 0
	}
	if i < len(sc.words) && !sc.words[i].stop { // "on each steak": so many steaks are gathered
		if ms := sc.finder.at(sc.words, i, false); len(ms) == 1 && ms[0].target.line != nil {
			if q := ms[0].target.line.Quantity; q != nil && q.Dim == quantity.None {
				if n, whole := q.Value.High.Int64(); whole {
					return int(n)
				}
			}
		}
	}
	if n := sc.eachOfThose(i); n > 0 {
		return n
	}
	if n := sc.sharedInto(); n > 0 {
		return n
	}
	if m := sc.recipe.Makes; m != nil && m.Quantity.Dim == quantity.None {
		if n, whole := m.Quantity.Value.High.Int64(); whole {
			return int(n)
		}
	}
	return 0
}

// eachOfThose is how many were counted just before in the sentence, where "each" stands by
// itself, before word i: "core the apples, and fill each with a teaspoon of the sugar". 0: none.
func (sc *scanner) eachOfThose(i int) int {
	if i < len(sc.words) && !sc.words[i].stop && sc.lower(i) != "with" {
		return 0
	}
	from := sc.opening(i - 1)
	for b := from + 1; b+1 < i; b++ { // divide among four bowls, and top each with a spoonful
		s, n, ok := sc.spokenAt(b)
		if w := sc.lower(b - 1); ok && !s.Article && !s.Part && !s.Value.IsRange() && n < i && vessels[sc.words[n].key] && (w == "in" || w == "into" || w == "among" || w == "between") {
			if v, whole := s.Value.High.Int64(); whole {
				return int(v)
			}
		}
	}
	if len(sc.takes) == 0 {
		return 0
	}
	t := &sc.takes[len(sc.takes)-1]
	q := t.Line.counted()
	if q == nil || !t.All && t.Amount == nil || t.NameAt.Start < sc.place(sc.words[from].start, sc.words[from].end).Start {
		return 0
	}
	n, whole := q.Value.High.Mul(t.Part).Int64()
	if !whole {
		return 0
	}
	return int(n)
}

// counted is how much there is of a line of counted things; nil: it is not counted.
func (l *Line) counted() *quantity.Quantity {
	if l == nil || l.Quantity == nil || l.Quantity.Dim != quantity.None || l.Quantity.Value.IsRange() {
		return nil
	}
	return l.Quantity
}

// unitsOf is how many of a unit there are of what is named behind "of" at word n:
// "to each pound of the fruit", of which 3 lb are gathered. 0: nobody can say.
func (sc *scanner) unitsOf(u *quantity.Unit, n int) int {
	if sc.lower(n) != "of" { // to each quart, of six that are made
		size, ok := u.Base(sc.recipe.System)
		if y := sc.recipe.Makes; ok && y != nil && y.Quantity.Dim == u.Dim && !y.Quantity.Value.IsRange() {
			if n, whole := y.Quantity.Value.High.Div(size).Int64(); whole {
				return int(n)
			}
		}
		return 0
	}
	if n++; articles[sc.lower(n)] {
		n++
	}
	if n >= len(sc.words) || sc.words[n].stop {
		return 0
	}
	ms := sc.finder.at(sc.words, n, false)
	if len(ms) != 1 || ms[0].target.line == nil || ms[0].target.line.Quantity == nil {
		return 0
	}
	q := ms[0].target.line.Quantity
	size, ok := u.Base(sc.recipe.System)
	if !ok || q.Dim != u.Dim || size.Sign() <= 0 {
		return 0
	}
	if n, whole := q.Value.High.Div(size).Int64(); whole {
		return int(n)
	}
	return 0
}

// sharedInto is how many pieces the block is shared into, if one step says so.
func (sc *scanner) sharedInto() (n int) {
	for _, s := range sc.recipe.Steps {
		if s.Into != nil && s.Into.Count > 0 {
			if n > 0 && n != s.Into.Count {
				return 0
			}
			n = s.Into.Count
		}
	}
	return n
}

// several tells whether more than one gathered thing is named in the sentence before word i.
func (sc *scanner) several(i int) bool {
	n := 0
	for k := i - 1; k >= 0 && n < 2; k-- {
		if ms := sc.finder.at(sc.words, k, false); len(ms) > 0 && (ms[0].target.line != nil && !verbNow(sc.words, k) || ms[0].target.sub != nil) {
			n++
		}
		if sc.words[k].opens {
			break
		}
	}
	return n > 1
}

// ofEach looks ahead in the sentence for "two tablespoons of each", which
// speaks of all the names before it.
func (sc *scanner) ofEach(i int) (*wanted, int) {
	for k := i; k < len(sc.words) && !(sc.words[k].opens && k > i); k++ {
		if !sc.words[k].stop {
			continue
		}
		w, n, ok := sc.amountAt(k)
		if !ok {
			continue
		}
		if sc.says(n, "of", "each") && !sc.named(n+2) {
			return &w, k
		}
		if sc.says(n, "each") && !sc.named(n+1) && sc.several(k) && (n+1 >= len(sc.words) || sc.words[n+1].stop) {
			return &w, k
		}
	}
	return nil, 0
}
