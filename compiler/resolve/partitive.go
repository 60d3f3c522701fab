package resolve

import (
	"strings"

	"tamis/lang/quantity"
)

// Amounts that do not stand right before the name they are of: "four lumps of the
// sugar", "1 well heaped tablespoon of the flour", "3 very large brown eggs", "thin it
// with the milk, about 300 ml in all". A name behind such a figure is never taken whole.

// madeOfAll are things that all of what is named goes into: a paste of the flour.
var madeOfAll = wordSet("mixture mix paste dough batter puree purée sauce syrup custard gravy mash stock salad dressing marinade stuffing filling bed border ring wall well crust lattice mound pile heap blend total way quantity weight measure kind sort choice selection bowl dish pan pot plate tray basin layer course row circle fan side middle centre center top bottom edge end rim surface inside outside")

// partly are parts of what grows, of which the rest is for something else.
var partly = wordSet("stalk stem root top tail frond green tip outside inside heart crumb crust")

// grows are those of them that are called behind the name: basil stalks.
var grows = wordSet("stalk stem root frond")

// putIn tells whether the verb that leads up to word i puts in or cuts up what follows.
func (sc *scanner) putIn(i int) bool {
	for k := i - 1; k >= 0; k-- {
		if w := sc.words[k].key; putsIn[w] || w == "chop" || w == "fry" || w == "use" || w == "fold" || w == "keep" || w == "tie" || w == "pound" {
			return true
		} else if sc.words[k].opens || sc.words[k].stop || readies[w] {
			return false
		}
	}
	return false
}

// partOfName reads "four or five lumps of the sugar", "a lime-sized ball of the tamarind"
// before the bare name at word i: so much of it as nobody can weigh. With a unit among the
// words, "1 well heaped tablespoon of", it is that amount. Nil: there is no such phrase.
func (sc *scanner) partOfName(i int) *wanted {
	k := i - 1
	for k > 0 && !sc.words[k+1].stop && articles[sc.lower(k)] {
		k--
	}
	if k < 2 || sc.lower(k) != "of" || sc.words[k].stop || sc.words[k+1].stop || sc.words[i].stop {
		return nil
	}
	noun := sc.words[k-1].key
	for a := k - 2; partly[noun] && a >= max(k-3, 1); a-- { // the stalks of the coriander, the thick top of the milk
		if articles[sc.lower(a)] && !sc.words[a+1].stop && sc.putIn(a) {
			return &wanted{unmeasured: true, start: sc.words[a].start}
		}
	}
	if isPart(noun) || partNamed[noun] != "" || madeOfAll[noun] || vessels[noun] {
		return nil
	}
	loose := func() *wanted { // a unit whose number is not understood
		if u, n := sc.unitAt(k - 1); n == k && (u.Dim == quantity.Mass || u.Dim == quantity.Volume) && strings.HasSuffix(sc.lower(k-1), "s") {
			sc.unsure(k-1, k)
			return &wanted{unmeasured: true, start: sc.words[k-1].start}
		}
		return nil
	}
	for j := k - 2; j >= 0 && j >= k-6 && !sc.words[j+1].stop; j-- {
		s, next, ok := sc.spokenAt(j)
		for b := j - 1; ok && b >= max(j-3, 0) && !sc.words[b+1].stop; b-- { // four or five
			if longer, end, is := sc.spokenAt(b); is && end == next {
				s, j = longer, b
			}
		}
		if ok && s.Article { // half a block of, a quarter of a block of
			b := j
			if b > 0 && sc.lower(b-1) == "of" {
				b--
			}
			for e := b - 1; e >= max(b-3, 0) && !sc.words[e+1].stop; e-- {
				if share, end, is := sc.spokenAt(e); is && share.Part && end == b {
					s, j = share, e
				}
			}
		}
		switch {
		case timeWords[sc.words[j].key]:
			return nil
		case ok && next < k && !sc.spent[j] && !timeWords[sc.words[next].key]:
			return sc.piecesOf(i, j, next, k, s)
		case ok || fillerStops[sc.lower(j)] || len(sc.finder.at(sc.words, j, false)) > 0:
			return loose()
		}
	}
	return loose()
}

// partOfAnother tells whether the word at i, the end of the name of line l, is said of a part of
// another thing that is gathered: the peel of two oranges, where candied peel is gathered.
func (sc *scanner) partOfAnother(i int, l *Line) bool {
	if l == nil || sc.lower(i+1) != "of" || sc.words[i+1].stop || !isPart(sc.words[i].key) && partNamed[sc.words[i].key] == "" && !partly[sc.words[i].key] {
		return false
	}
	for k := i + 2; k < i+6 && k < len(sc.words) && !sc.words[k].stop; k++ {
		for _, m := range sc.finder.at(sc.words, k, false) {
			if m.target.line != nil && m.target.line != l {
				return !strings.HasSuffix(m.target.line.Key, sc.words[i].key) && !strings.HasPrefix(l.Key, sc.words[k].key+" ")
			}
			if m.target.line == l {
				return false // the whites of eggs, of egg whites
			}
		}
		if strings.HasPrefix(l.Key, sc.words[k].key+" ") {
			return false
		}
	}
	return false
}

// piecesOf is how much of the name at word i is meant by a number from word j to next, and
// the noun before the "of" at word k.
func (sc *scanner) piecesOf(i, j, next, k int, s quantity.Spoken) *wanted {
	w := &wanted{start: sc.words[j].start, figure: sc.words[j].start, end: sc.words[k-1].end}
	for u := next; u < k; u++ {
		if unit, n := sc.unitAt(u); n == k && unit.Dim != quantity.Length && unit.Dim != quantity.Batch { // 1 well heaped tablespoon of
			sc.spend(j, k)
			if s.Part || unit.Dim != quantity.Vague {
				w.amount = plain(s.Value, unit)
				return w
			}
		}
	}
	sc.spend(j, next)
	if s.Part { // half a block of the tofu
		sc.unsure(j, k)
	} else if !s.Article {
		kind := FigureScaled
		if _, each := sc.forEach(i + 1); each {
			kind = FigureEach
		}
		sc.found = append(sc.found, Figure{At: sc.place(sc.words[j].start, sc.words[next-1].end), Kind: kind, Quantity: pieces(s)})
	}
	return &wanted{unmeasured: true, start: w.start}
}

// pieces is a bare number of a sentence, a range where it is one.
func pieces(s quantity.Spoken) quantity.Quantity {
	q := quantity.Pieces(s.Value.High)
	q.Value = s.Value
	return q
}

// farBefore reads a number or an amount that stands before the bare name of n words at
// word i with more than two other words between: "3 very large brown eggs". Nil: there is none.
func (sc *scanner) farBefore(i, n int) *wanted {
	if end := i + n; end < len(sc.words) && !sc.words[end].stop && !fillerStops[sc.lower(end)] {
		return nil // eggs of something: egg rolls
	}
	for j := i - 1; j >= 0 && j >= i-7 && !sc.words[j+1].stop; j-- {
		word := sc.lower(j)
		if fillerStops[word] && word != "a" && word != "an" || timeWords[sc.words[j].key] || vessels[sc.words[j].key] || sc.spent[j] || isPart(sc.words[j].key) || sc.sealed(j) {
			return nil
		}
		s, _, ok := sc.spokenAt(j)
		if !ok || s.Article {
			continue
		}
		w, next, ok := sc.amountAt(j)
		if ok && unitOf(w.amount) == nil && j > 0 && !sc.words[j].stop && (standing[sc.lower(j-1)] && !sc.particle(j-1) || placeNext[sc.words[j-1].key]) || sc.yields(j) {
			return nil
		}
		if !ok || !w.measured() && w.share == nil || next > i-2 {
			return nil
		}
		if u, n := sc.unitAt(next); n > next && (u.Dim == quantity.Length || u.Dim == quantity.Batch) {
			return nil
		}
		sc.spend(j, next)
		return &w
	}
	return nil
}

// particle tells whether the word at k belongs to the verb before it: "stir in 3 eggs".
func (sc *scanner) particle(k int) bool {
	return k > 0 && (verbNow(sc.words, k-1) || putsIn[sc.words[k-1].key])
}

// sealed tells whether the word at j opens a clause of its own: a verb that puts in or readies.
func (sc *scanner) sealed(j int) bool {
	return putsIn[sc.words[j].key] || readies[sc.words[j].key] || strings.HasSuffix(sc.lower(j), "ing")
}

// standing are words before a number that make it a size, a place or a share of the
// work: in two, by half, each one.
var standing = wordSet("in into by at to for of from on between among after within than under over with the all these those both each every this that which any no not until till above below per and-a")

// aloneBefore are words that may follow a number which stands for a thing: "one raw", "two whole".
var aloneBefore = wordSet("raw whole fine coarse plain dry hot cold warm apart aside separately back out off up down under around round across raw before after while whilst if when without very quite again instead first last now only chunky crisp thick thin soft firm")

// standsAlone tells whether the number from word i to next stands for a thing by itself, no
// noun behind it: "grate the other third raw", "toss one with the leaves".
func (sc *scanner) standsAlone(i, next int) bool {
	if i > 0 && !sc.words[i].stop {
		before := sc.lower(i - 1)
		if standing[before] || placeNext[sc.words[i-1].key] {
			return false
		}
		if sc.lower(next-1) == "one" && i > 1 && (articles[sc.lower(i-2)] || sc.lower(i-2) == "a" || sc.lower(i-2) == "an") { // a smaller one
			return false
		}
	}
	if next >= len(sc.words) || sc.words[next].stop {
		return true
	}
	word := sc.lower(next)
	return word != "of" && word != "a" && word != "an" && word != "the" && fillerStops[word] || aloneBefore[word] || strings.HasSuffix(word, "ly")
}

// loose asks about a number or a share that stands for something by itself, where the last
// thing that the step took cannot be what it is of. What is left, kept or saved by it is for later.
func (sc *scanner) loose(i, next int, s quantity.Spoken) {
	enumerated := i > 0 && sc.lower(i-1) == "and" && next < len(sc.words) && !sc.words[next].stop && strings.HasSuffix(sc.lower(next), "ed") && !s.Part
	if !enumerated && !sc.standsAlone(i, next) || sc.says(next, "at", "a", "time") || sc.says(next, "after", "another") || sc.says(next, "by", "one") || sc.eachBehind(next) {
		return
	}
	if k := i - 1; k >= 0 && !sc.words[i].stop {
		for k > 0 && !sc.words[k].stop && (articles[sc.lower(k)] || sc.lower(k) == "other" || sc.lower(k) == "last" || asides[sc.lower(k)]) {
			k--
		}
		switch sc.words[k].key {
		case "keep", "save", "reserve", "leave", "hold", "set":
			return
		}
	}
	here := sc.place(sc.words[i].start, sc.words[i].end).Start
	var last *Take
	for k := range sc.takes {
		if t := &sc.takes[k]; t.Line != nil && t.Span.Start < here && (last == nil || t.Span.Start > last.Span.Start) && (s.Part || t.Line.Quantity != nil && (t.Line.Quantity.Dim == quantity.None || t.Line.Quantity.Dim == quantity.Word)) {
			last = t
		}
	}
	switch {
	case enumerated && last != nil && !last.All && !last.Refers && sc.story.left[last.Line].Sign() > 0: // two sticks of it in cubes and one grated
	case last == nil || last.All || last.Refers || last.Unmeasured || s.Part && sc.comesToOne(i):
		return
	case !s.Part && last.Amount != nil && !last.Amount.Value.High.Less(s.Value.High): // take four, boil two
		return
	case !s.Part && last.Amount == nil && last.Line.Quantity != nil && !last.Line.Quantity.Value.High.Mul(last.Part).Less(s.Value.High):
		return
	case s.Part && last.Amount != nil && last.Amount.Dim != quantity.None: // 200 ml of it; boil down by half
		return
	}
	at := sc.place(sc.words[i].start, sc.words[next-1].end)
	sc.diags.Askf("U217", at, "%s of what", at.Text()).
		Because("%s was said just before, and nothing is taken for this", last.Line.Name).
		WithHelp("write the name behind it: `%s of the %s`", at.Text(), last.Line.Name)
}

// comesToOne tells whether the shares of the sentence at word i come to the whole: "one lemon,
// half for squeezing, half in wedges".
func (sc *scanner) comesToOne(i int) bool {
	sum, n := quantity.Number{}, 0
	for i > 0 && !sc.words[i].opens {
		i--
	}
	for k := i; k < len(sc.words) && (k == i || !sc.words[k].opens); k++ {
		if s, next, ok := sc.spokenAt(k); ok && s.Part {
			sum, n, k = sum.Add(s.Value.High), n+1, max(k, next-1)
		}
	}
	return n > 1 && sum.Equal(one)
}

// beyond tells whether an amount that ends before word n stands by itself there: at a mark,
// or before "in all", "altogether".
func (sc *scanner) beyond(n int) (end int, ok bool) {
	switch {
	case n >= len(sc.words) || sc.words[n].stop:
		return n, true
	case sc.says(n, "in", "all"), sc.says(n, "or", "so"), sc.says(n, "in", "total"), sc.says(n, "at", "most"):
		end = n + 2
	case sc.lower(n) == "altogether", sc.lower(n) == "total", sc.lower(n) == "approximately":
		end = n + 1
	default:
		return n, false
	}
	return end, end >= len(sc.words) || sc.words[end].stop
}

// apposed takes an amount or a share that stands between two marks of the one thing that its
// sentence takes whole: "thin it with the milk, about 300 ml in all".
func (sc *scanner) apposed(i, n int, w *wanted) bool {
	k := i // the word behind the mark
	for k > 0 && !sc.words[k].stop && !sc.words[k].opens && quantity.InDoubt(sc.lower(k-1)) {
		k--
	}
	limit := false
	for _, words := range [...][]string{{"no", "more", "than"}, {"not", "more", "than"}, {"at", "most"}, {"up", "to"}} {
		if b := k - len(words); b >= 0 && sc.says(b, words...) && !sc.words[k].stop {
			k, limit = b, true
			if k > 0 && !sc.words[k].stop && (sc.lower(k-1) == "using" || sc.lower(k-1) == "use" || sc.lower(k-1) == "adding") {
				k--
			}
			break
		}
	}
	end, alone := sc.beyond(n)
	limit = limit || alone && end == n+2 && sc.lower(n+1) == "most" // two at most
	if !alone || k == 0 || !sc.words[k].stop || sc.words[k].opens && sc.text[sc.words[k-1].end] != ':' {
		return false
	}
	first := sc.opening(k - 1)
	from := sc.place(sc.words[first].start, sc.words[first].end).Start
	here := sc.place(sc.words[i].start, sc.words[i].end).Start
	var found *Take
	for j := range sc.takes {
		t := &sc.takes[j]
		if t.Line == nil || t.Span.Start < from || t.Span.Start > here || !t.All && !t.Each || t.Refers || t.Line.ToTaste {
			continue
		}
		if w.amount != nil && !sc.alikeMeasured(t.Line, w) {
			continue
		}
		if found != nil {
			return false
		}
		found = t
	}
	if found == nil {
		return false
	}
	sc.spend(i, end)
	if found.Each { // 75 g a head: 4.5 kg
		q := sc.silent(w.amount)
		if q == nil || found.Amount == nil || !found.Amount.Value.High.Equal(q.Value.High) {
			return false
		}
		sc.measure(FigureScaled, w, *q)
		return true
	}
	if limit {
		if q := sc.silent(w.amount); q != nil {
			sc.measure(FigureScaled, w, *q)
		}
		sc.instead(found, &wanted{unmeasured: true})
		return true
	}
	sc.instead(found, w)
	return true
}

// alikeMeasured tells whether a line is measured as an amount is, or can be told in it.
func (sc *scanner) alikeMeasured(l *Line, w *wanted) bool {
	q := sc.silent(w.amount)
	if q == nil || l.Quantity == nil {
		return false
	}
	if q.Dim == l.Quantity.Dim {
		return q.Unit == l.Quantity.Unit
	}
	_, known := l.Density()
	return known && (q.Dim == quantity.Mass || q.Dim == quantity.Volume) && (l.Quantity.Dim == quantity.Mass || l.Quantity.Dim == quantity.Volume)
}

// comesTo tells whether an amount in a bracket is what the share just before it comes to:
// "a third of the parsley (about 13 g)". Within a tenth it is.
func (sc *scanner) comesTo(i, n int, w *wanted) bool {
	if i == 0 || !sc.words[i].stop && !(i > 0 && sc.words[i-1].stop) || n < len(sc.words) && !sc.words[n].stop || len(sc.takes) == 0 {
		return false
	}
	last := sc.takes[len(sc.takes)-1]
	here := sc.place(sc.words[i].start, sc.words[i].end).Start
	for k := len(sc.takes) - 1; k >= 0; k-- {
		if sc.takes[k].Span.Start < here {
			last = sc.takes[k]
			break
		}
	}
	q := sc.silent(w.amount)
	if last.Line == nil || last.Unmeasured || last.Refers || q == nil || last.Line.Quantity == nil || q.Dim != last.Line.Quantity.Dim {
		return false
	}
	is, said := last.Line.Quantity.Value.High.Mul(last.Part), q.Value.High
	off := is.Sub(said)
	if off.Sign() < 0 {
		off = said.Sub(is)
	}
	if is.Sign() <= 0 || quantity.Frac(1, 10).Mul(is).Less(off) {
		return false
	}
	sc.measure(FigureScaled, w, *q)
	return true
}

// notAll reads "you may not want the whole of it": some of what went in just now.
func (sc *scanner) notAll(i int) int {
	denies := sc.lower(i) == "not" || sc.lower(i) == "cannot" || strings.HasSuffix(sc.lower(i), "n't") || strings.HasSuffix(sc.lower(i), "n’t")
	if !denies || i == 0 {
		return 0
	}
	k := i + 1
	if sc.lower(k) == "the" {
		k++
	}
	if w := sc.lower(k); (w == "whole" || w == "all" || w == "everything") && (sc.says(k+1, "of", "it") || sc.says(k+1, "of", "them")) && !sc.named(k+3) && !(k+3 < len(sc.words) && putting[sc.words[k+3].key]) { // but not the whole of it
		return sc.someOfIt(k + 3)
	}
	k = i + 1
	if sc.lower(i) == "not" {
		switch sc.lower(i - 1) {
		case "may", "might", "will", "need", "should", "do", "does", "would", "could":
		default:
			return 0
		}
	}
	switch sc.words[min(k, len(sc.words)-1)].key {
	case "want", "need", "use", "require", "take":
	default:
		return 0
	}
	for j := k + 1; j <= k+3 && j < len(sc.words) && !sc.words[j].stop; j++ {
		if w := sc.lower(j); w == "whole" || w == "all" || w == "everything" {
			if n := sc.someOfIt(sc.clauseEnd(j)); n > 0 {
				return n
			}
		}
	}
	return 0
}

// someOfIt takes only some of what went in whole just now, and gives next back; 0: there is
// no such thing.
func (sc *scanner) someOfIt(next int) int {
	for t := len(sc.takes) - 1; t >= 0; t-- {
		if o := &sc.takes[t]; o.Line != nil && o.All && !o.Refers && !o.Line.ToTaste {
			sc.instead(o, &wanted{unmeasured: true})
			return next
		}
	}
	return 0
}
