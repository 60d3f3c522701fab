package resolve

import (
	"strings"

	"tamis/lang/quantity"
)

// What a sentence says of a gathered thing without saying which, or how much:
// it is asked about, since reading it as all, or as nothing, misleads the cook.

// alike are the nouns of an amount that only another thing tells: "equal weights of".
var alike = wordSet("weight part quantity amount measure volume proportion")

// doubles are verbs that change an amount.
var doubles = wordSet("double treble triple quadruple")

// weighedBy asks about an amount at word i that is told by another one: "equal
// weights of butter and sugar", "its own weight of flour", "twice the amount
// of milk", "as many spoonfuls of oil", "and half as much again".
func (sc *scanner) weighedBy(i int) {
	n := 0
	if sc.says(i, "all", "but") && i > 0 && !sc.words[i].opens {
		if w := sc.lower(i + 2); w == "what" || w == "whatever" || w == "those" { // all but what was eaten
			sc.unsure(i, i+3)
			return
		}
	}
	if _, _, is := sc.partsIn(i); !is && (sc.lower(i) == "two" || sc.lower(i) == "three" || sc.lower(i) == "four") && sc.says(i+1, "part", "of") && sc.fresh(i+2) {
		sc.unsure(i, i+2)
		return
	}
	if (sc.says(i, "as", "much", "again") || sc.says(i, "as", "many", "again") || sc.says(i, "as", "much", "more")) && len(sc.takes) > 0 && !sc.named(i+3) {
		sc.unsure(i, i+3)
		return
	}
	if s, next, ok := sc.spokenAt(i); ok && !s.Part && !s.Article && next < len(sc.words) && sc.words[next].key == "time" { // three times their weight of sugar
		k := next + 1
		if articles[sc.lower(k)] {
			k++
		}
		if k < len(sc.words) && alike[sc.words[k].key] && (sc.lower(k+1) == "of" || sc.lower(k+1) == "in") && sc.fresh(k+1) || sc.says(next+1, "as", "much") && sc.fresh(next+2) || sc.says(next+1, "as", "many") && sc.fresh(next+2) {
			sc.unsure(i, max(k+1, next+1))
			return
		}
	}
	if s, next, ok := sc.spokenAt(i); ok && s.Part && (sc.says(next, "as", "much") || sc.says(next, "as", "many")) && sc.fresh(next+1) { // a third as many onions
		sc.unsure(i, next+2)
		return
	}
	if verbNow(sc.words, i) && doubles[sc.lower(i)] && articles[sc.lower(i+1)] && sc.fresh(i+1) { // double the sugar if the fruit is tart
		sc.unsure(i, i+2)
		return
	}
	if sc.lower(i+1) == "for" && i+2 < len(sc.words) && sc.words[i].key == sc.words[i+2].key && !sc.words[i+2].stop && !timeWords[sc.words[i].key] { // pound for pound
		if u, un := sc.unitAt(i + 2); un > i+2 && (u.Dim == quantity.Mass || u.Dim == quantity.Volume) || alike[sc.words[i].key] || littles[sc.words[i].key] {
			sc.unsure(i, i+3)
			return
		}
	}
	if sc.words[i].key == "weight" && sc.lower(i+1) == "of" { // the weight of two eggs in butter
		if s, next, ok := sc.spokenAt(i + 2); ok && !s.Part && sc.named(next) {
			k := sc.nameEnd(next)
			if w := sc.lower(k); (w == "in" || w == "of") && sc.fresh(k) {
				sc.unsure(i, k)
				return
			}
		}
	}
	switch sc.lower(i) {
	case "equal", "own", "same", "like", "similar", "corresponding":
		n = i + 1
	case "its", "their", "the":
		if k := i + 1; k < len(sc.words) && alike[sc.words[k].key] && sc.words[k].key != "part" && (sc.lower(k+1) == "in" && sc.lower(i) != "the" || sc.lower(k+1) == "of" && sc.lower(i) != "the") { // their weight in sugar
			n = i + 1
		}
	case "twice", "double", "half", "thrice", "triple":
		if sc.says(i+1, "as", "much", "again") || sc.says(i+1, "as", "many", "again") {
			if len(sc.takes) > 0 && !sc.named(i+4) {
				sc.unsure(i, i+4)
			}
			return
		}
		if sc.says(i+1, "as", "much") || sc.says(i+1, "as", "many") {
			for k := i + 3; k <= i+6 && k < len(sc.words) && !sc.words[k].stop; k++ { // half as much stock again, as butter
				if w := sc.lower(k); w == "again" || w == "more" || w == "as" && (sc.fresh(i+2) || sc.fresh(k)) {
					sc.unsure(i, k+1)
					return
				}
			}
		}
		if sc.lower(i+1) == "the" || sc.lower(i+1) == "its" || sc.lower(i+1) == "their" {
			n = i + 2
		}
	case "as":
		if sc.lower(i+1) == "much" && len(sc.takes) > 0 && i > 0 && (sc.lower(i-1) == "into" || sc.lower(i-1) == "in" || sc.lower(i-1) == "with" || sc.lower(i-1) == "and") && (sc.lower(i+2) != "of" || !sc.words[i].opens) && sc.fresh(i+1) {
			k := i + 2
			for k < len(sc.words) && !sc.words[k].stop && sc.lower(k) != "as" { // as much butter as it takes
				k++
			}
			if k >= len(sc.words) || sc.words[k].stop {
				sc.unsure(i, i+2)
			}
			return
		}
		if sc.lower(i+1) == "many" {
			_, n := sc.unitAt(i + 2)
			if i+2 < len(sc.words) && littles[sc.words[i+2].key] {
				n = i + 3
			}
			if n > i+2 && sc.lower(n) == "of" && sc.fresh(n) {
				sc.unsure(i, n)
			}
		}
		return
	}
	if n > 0 && n < len(sc.words) && !sc.words[n].stop && alike[sc.words[n].key] && (sc.lower(n+1) == "of" || sc.lower(n+1) == "in") && sc.fresh(n+1) {
		sc.unsure(i, n+1)
	}
}

// orElse asks about an amount that may be taken instead of the one before: "half
// the nutmeg, or, if preferred, a whole one", "or the full teaspoon for a hot one".
func (sc *scanner) orElse(i int) {
	if sc.lower(i) != "or" || i == 0 || sc.words[i].opens || len(sc.takes) == 0 {
		return
	}
	last := sc.takes[len(sc.takes)-1]
	if last.Line == nil || last.Refers || last.Line.ToTaste {
		return
	}
	for k := i - 1; k >= 0; k-- { // in the same sentence, and not of the number just before
		if at := sc.place(sc.words[k].start, sc.words[k].end); at.Start <= last.NameAt.End {
			break
		}
		if sc.words[k].opens || timeWords[sc.words[k].key] || sc.counts(k) || sc.lower(k) == "once" || sc.lower(k) == "into" {
			return
		}
		if u, n := sc.unitAt(k); n > k && u != nil {
			return
		}
	}
	k := i + 1
	for k < len(sc.words) && sc.words[k].stop && (sc.lower(k) == "if" || sc.lower(k) == "for") { // or, if preferred,
		for k++; k < len(sc.words) && !sc.words[k].stop; k++ {
		}
	}
	if sc.lower(k) == "the" && inSeries[sc.lower(k+1)] || sc.lower(k) == "a" && sc.lower(k+1) == "whole" {
		k += 2
		if u, n := sc.unitAt(k); n > k && u != nil {
			sc.otherwise(i, n)
		} else if sc.lower(k) == "one" {
			sc.otherwise(i, k+1)
		}
		return
	}
	switch w := sc.lower(k); w { // or most of them
	case "all", "most", "some", "part", "more":
		if sc.says(k+1, "of", "it") || sc.says(k+1, "of", "them") {
			sc.otherwise(i, k+3)
			return
		}
	}
	w, n, ok := sc.amountAt(k)
	if !ok || !w.measured() && w.share == nil || w.article && w.number != nil {
		return
	}
	if sc.says(n, "of", "it") || sc.says(n, "of", "them") {
		n += 2
	}
	if n < len(sc.words) && !sc.words[n].stop && sc.lower(n) != "for" && sc.lower(n) != "if" && sc.lower(n) != "per" && sc.lower(n) != "when" && sc.lower(n) != "in" {
		return
	}
	sc.otherwise(i, n)
}

func (sc *scanner) otherwise(from, to int) {
	last := sc.takes[len(sc.takes)-1]
	at := sc.place(sc.words[from].start, sc.words[to-1].end)
	sc.story.vague[last.Line] = true
	sc.diags.Askf("U218", at, "%s, %s: which", last.Line.Name, at.Text()).
		Because("only the first amount is taken here and scaled").
		WithHelp("write the one that is meant; the other can stand in the notes of the list: `%s, …`", last.Line.Name)
}

// ifNeeded asks about a measured part that is only taken if something is so:
// "another 50 g of flour if the dough is sticky". next is the word behind it.
func (sc *scanner) ifNeeded(l *Line, t Take, w *wanted, next int) {
	if w == nil || !w.measured() && w.share == nil || w.unmeasured || w.article && w.number != nil || l.Optional || l.ToTaste || l.Water || t.Refers {
		return
	}
	k, end := sc.condition(next)
	if end == 0 {
		return
	}
	at := sc.place(sc.words[k].start, sc.words[end-1].end)
	sc.diags.Askf("U221", at, "is this %s counted", l.Name).
		Because("it is taken here and scaled, and the sentence takes it only %s", at.Text()).
		WithHelp("for a part that nobody can know beforehand write `up to` before the amount, or `a little`")
}

// condition is the "if" clause of a sentence at word next, or the one that it opened
// with: "if it seems dry, add …", "for a milder pickle, use …". Zeros: there is none.
func (sc *scanner) condition(next int) (from, end int) {
	if last := sc.takes[len(sc.takes)-1]; last.Rest { // the rest of it: there is no more to come
		return 0, 0
	}
	if next < len(sc.words) && !sc.words[next].opens && sc.lower(next) == "if" {
		from, end = next, next+1
		for end < len(sc.words) && !sc.words[end].stop {
			end++
		}
		return from, end
	}
	first := next - 1
	for first > 0 && !sc.words[first].opens && !(sc.lower(first) == "if" && sc.words[first].stop) { // thicken, if you must, with
		first--
	}
	switch sc.lower(first) {
	case "if":
		if w := sc.lower(first + 1); w == "using" || w == "you" && (sc.lower(first+2) == "are" || sc.lower(first+2) == "use") {
			return 0, 0
		}
	case "for":
		if w := sc.lower(first + 2); sc.lower(first+1) != "a" || !strings.HasSuffix(w, "er") || len(w) < 5 || len(sc.finder.at(sc.words, first+2, false)) > 0 || !comparatives[w] {
			return 0, 0
		}
	default:
		return 0, 0
	}
	end = first + 1
	for end < next && !sc.words[end].stop && !putsIn[sc.words[end].key] {
		end++
	}
	return first, end
}

// comparatives open a sentence that speaks of another way to make it.
var comparatives = wordSet("milder richer hotter sweeter thicker thinner lighter darker sharper stronger drier softer firmer larger smaller bigger creamier plainer spicier")

// ratio reads "three parts oil to one part vinegar": all of both, if that is what
// was gathered. It gives the word behind, or 0.
func (sc *scanner) ratio(i int) int {
	first, n, ok := sc.share(i)
	if !ok {
		return 0
	}
	k := n
	if w := sc.lower(k); w != "to" && w != "and" {
		return 0
	}
	second, end, ok := sc.share(k + 1)
	if !ok {
		return 0
	}
	a, b := first.line, second.line
	if a.Quantity == nil || b.Quantity == nil || a.Quantity.Dim != b.Quantity.Dim || sc.story.left[a].Sign() <= 0 || sc.story.left[b].Sign() <= 0 ||
		!a.Quantity.Value.High.Mul(sc.story.left[a]).Mul(second.n).Equal(b.Quantity.Value.High.Mul(sc.story.left[b]).Mul(first.n)) {
		sc.unsure(i, end)
	}
	for _, p := range [...]ratioPart{first, second} {
		at := sc.place(sc.words[p.at].start, sc.words[p.end-1].end)
		sc.nowHere(target{line: p.line})
		sc.takeLine(p.line, Take{Span: at, NameAt: at}, nil, false)
	}
	return end
}

// ratioPart is "three parts oil".
type ratioPart struct {
	n       quantity.Number
	line    *Line
	at, end int // of the name
}

func (sc *scanner) share(i int) (p ratioPart, end int, ok bool) {
	s, n, ok := sc.spokenAt(i)
	if !ok || s.Part || n >= len(sc.words) || sc.words[n].key != "part" {
		return p, 0, false
	}
	if n++; sc.lower(n) == "of" {
		n++
	}
	if n >= len(sc.words) || sc.words[n].stop {
		return p, 0, false
	}
	ms := sc.finder.at(sc.words, n, false)
	if len(ms) != 1 || ms[0].target.line == nil {
		return p, 0, false
	}
	p = ratioPart{s.Value.High, ms[0].target.line, n, n + ms[0].length}
	return p, p.end, true
}

// fresh tells whether a line with something left is named at word i, past "of",
// an article and an adjective.
func (sc *scanner) fresh(i int) bool {
	for k := i + 1; k < len(sc.words) && k <= i+3 && !sc.words[k].stop; k++ {
		for _, m := range sc.finder.at(sc.words, k, false) {
			if m.target.line != nil && sc.story.left[m.target.line].Sign() > 0 {
				return true
			}
		}
	}
	return false
}

func (sc *scanner) unsure(from, to int) {
	if from < sc.doubted { // said already
		return
	}
	sc.doubted = to
	at := sc.place(sc.words[from].start, sc.words[to-1].end)
	sc.diags.Askf("U219", at, "%s: how much is that", at.Text()).
		Because("it is told by the amount of another thing, and is not worked out here").
		WithHelp("write the amount itself, or a share: `half the butter`")
}
