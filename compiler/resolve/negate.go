package resolve

import "strings"

// Names that a sentence says only to keep them out: "do not add the milk yet",
// "without the sugar", "before adding the cream". They take nothing.

// keptOut tells whether the words at i keep what follows out; until is the
// first word they no longer speak of, and next the word to go on from.
func (sc *scanner) keptOut(i int) (next, until int, ok bool) {
	switch sc.lower(i) {
	case "not", "never", "don't", "don’t", "cannot":
		if sc.says(i, "not", "more", "than") || sc.says(i, "not", "less", "than") || sc.says(i, "not", "all") || sc.says(i, "not", "quite") || sc.says(i, "not", "only") {
			return i, 0, false
		}
		if i+1 < len(sc.words) && urges[sc.words[i+1].key] { // do not stint the walnuts
			return i, 0, false
		}
		sc.notSoMuch(i, sc.clauseEnd(i+1))
		return i + 1, sc.clauseEnd(i + 1), true
	case "neither", "nor":
		return i + 1, sc.clauseEnd(i + 1), true
	case "omit", "skip":
		sc.orNot(i, i+1)
		return i + 1, sc.clauseEnd(i + 1), true
	case "leave":
		if sc.lower(i+1) == "out" {
			sc.orNot(i, i+2)
			return i + 2, sc.clauseEnd(i + 2), true
		}
	case "no":
		switch sc.lower(i + 1) {
		case "more", "less", "longer", "fewer", "sooner", "later":
			return i, 0, false
		}
		sc.noSuch(i)
		return i + 1, sc.nameEnd(i + 1), true
	case "none":
		if sc.lower(i+1) == "of" {
			if end := sc.nameEnd(i + 2); end > i+2 {
				return i + 2, end, true
			}
			return i + 2, sc.clauseEnd(i + 2), true
		}
	case "without":
		return i + 1, sc.nameEnd(i + 1), true
	case "instead", "rather":
		if w := sc.lower(i + 1); w == "of" || w == "than" {
			return i + 2, sc.nameEnd(i + 2), true
		}
	case "except", "excepting":
		n := i + 1
		if sc.lower(n) == "for" {
			n++
		}
		return n, sc.nameEnd(n), true
	case "as":
		if sc.lower(i+1) == "for" && !sc.words[i].opens { // "make it as for apple tart"
			return i + 2, sc.nameEnd(i + 2), true
		}
	case "in":
		if sc.says(i, "in", "place", "of") {
			return i + 3, sc.nameEnd(i + 3), true
		}
	case "before":
		switch sc.lower(i + 1) {
		case "adding", "putting", "pouring", "stirring", "beating", "folding", "whisking", "mixing", "tipping", "sifting", "rubbing", "the", "you", "it":
			return i + 1, sc.clauseEnd(i + 1), true
		}
	case "if", "unless":
		if sc.conditional(i) {
			end := sc.clauseEnd(i + 1)
			for k := i + 2; k < end; k++ { // if it seems dry add the rest of the milk
				if w := sc.words[k].key; (putsIn[w] || w == "give" || w == "thin" || w == "loosen" || w == "moisten") && !sc.words[k].stop && sc.lower(k-1) != "to" && sc.lower(k-1) != "you" {
					end = k
				}
			}
			return i + 1, end, true
		}
	case "larger", "greater", "smaller", "lesser", "increased":
		k := i + 1
		if sc.lower(k) == "a" { // so much larger a quantity of
			k++
		}
		if k+1 < len(sc.words) && alike[sc.words[k].key] && sc.lower(k+1) == "of" {
			return k + 2, sc.nameEnd(k + 2), true
		}
	case "fish", "lift", "pick", "discard", "remove", "strain", "take":
		if n := sc.takenOut(i); n > 0 {
			return i + 1, n, true
		}
	case "until", "till":
		if n := sc.untilDone(i); n > 0 {
			return i + 1, n, true
		}
	case "for": // save the green of the leeks for stock
		if sc.savedFor(i) {
			return i + 1, sc.nameEnd(i + 1), true
		}
	case "keep", "save", "set", "put", "reserve", "reserving":
		if n := sc.putBy(i); n > 0 {
			return i + 1, n, true
		}
	}
	return i, 0, false
}

// urges are verbs that a "not" before them turns into an order to put in.
var urges = wordSet("forget stint spare skimp omit neglect")

// savedFor tells whether the clause before "for" at word i opens with a verb of keeping: what
// follows is what it is kept for.
func (sc *scanner) savedFor(i int) bool {
	k := i
	for k > 0 && !sc.words[k].opens && !sc.words[k].stop && sc.lower(k-1) != "and" && sc.lower(k-1) != "then" {
		k--
	}
	switch sc.words[k].key {
	case "keep", "save", "reserve", "freeze", "hold":
		return k < i
	}
	return false
}

// notSoMuch asks about a thing that a sentence does not keep out, but limits: "never use more
// than four eggs", "don't put all the sugar in at once".
func (sc *scanner) notSoMuch(i, until int) {
	limits := false
	for k := i + 1; k < until; k++ {
		switch sc.lower(k) {
		case "all", "whole", "much", "many", "more", "once", "over", "less", "exceed", "everything":
			limits = true
		}
		ms := sc.finder.at(sc.words, k, false)
		if !limits || len(ms) != 1 || ms[0].target.line == nil {
			continue
		}
		l := ms[0].target.line
		if l.ToTaste || l.Quantity == nil || sc.story.left[l].Sign() <= 0 {
			continue
		}
		at := sc.place(sc.words[i].start, sc.words[k+ms[0].length-1].end)
		if _, named := sc.story.named[l]; !named {
			sc.story.named[l], sc.story.vague[l] = at, true
		}
		sc.diags.Askf("U223", at, "how much of %s goes in here", l.Name).
			Because("the sentence says how much must not, and nothing is taken for it").
			WithHelp("write how much goes in: `100 g of the %s`, or `the %s, a little at a time`", l.Name, l.Name)
		return
	}
}

// conditional tells whether the clause behind "if" at i only says how things
// are: "if the apples are sour, …". Nothing is done in it.
func (sc *scanner) conditional(i int) bool {
	if !sc.words[i].opens && !sc.words[i].stop {
		return false
	}
	if sc.lower(i) == "if" && sc.lower(i+1) == "no" {
		return true
	}
	for k := i + 1; k < len(sc.words) && !sc.words[k].stop; k++ {
		switch sc.lower(k) {
		case "is", "are", "was", "were", "looks", "look", "seems", "seem", "has", "have":
			return true
		}
	}
	return false
}

// inCase tells whether the sentence speaks, before word i, of a case that may not be:
// "if there is no sour milk, fresh milk will do".
func (sc *scanner) inCase(i int) bool {
	for k := i; k >= 0; k-- {
		switch sc.lower(k) {
		case "if", "failing", "where", "when", "otherwise":
			return true
		}
		if sc.words[k].opens {
			return false
		}
	}
	return false
}

// divides reads "divide the flour in half": the whole is not taken, but the
// halves of which the sentence goes on to speak. It gives the word behind.
func (sc *scanner) divides(i int) int {
	switch sc.lower(i) {
	case "divide", "split", "halve", "part":
	default:
		return 0
	}
	k := i + 1
	if articles[sc.lower(k)] {
		k++
	}
	if k >= len(sc.words) || sc.words[k].stop {
		return 0
	}
	ms := sc.finder.at(sc.words, k, false)
	if len(ms) != 1 || ms[0].target.line == nil || sc.story.left[ms[0].target.line].Sign() <= 0 {
		return 0
	}
	n := k + ms[0].length
	if sc.lower(i) != "halve" {
		switch {
		case sc.says(n, "in", "half"), sc.says(n, "in", "two"), sc.says(n, "into", "two"), sc.says(n, "into", "half"):
			n += 2
		default:
			return 0
		}
	}
	for j := n; j+1 < len(sc.words); j++ { // "… and sift one half in"
		if (sc.lower(j) == "one" || sc.lower(j) == "a" || sc.lower(j) == "the") && sc.words[j+1].key == "half" && (j+2 >= len(sc.words) || sc.lower(j+2) != "of" && !sc.named(j+2)) {
			sc.halved = ms[0].target.line
			return n
		}
	}
	return 0
}

// denied tells whether what was named just before word i is only said not to do
// something: "see that the onions don't brown".
func (sc *scanner) denied(i int) bool {
	if i >= len(sc.words) || sc.words[i].stop {
		return false
	}
	if sc.spokenOf(i) || sc.leftOver(i) {
		return true
	}
	switch sc.lower(i) {
	case "don't", "don’t", "doesn't", "doesn’t", "can't", "can’t", "cannot", "won't", "won’t":
		return true
	case "do", "does", "must", "should", "may", "can", "will", "could", "might":
		if sc.lower(i+1) == "be" { // cream may be used instead
			switch sc.lower(i + 2) {
			case "used", "substituted", "taken", "had", "bought":
				return true
			}
		}
		return sc.lower(i+1) == "not"
	}
	return false
}

// leftOver tells whether what was named just before word i is only what may be left when
// all is done: "freeze any pastry left over", "what butter you have left over".
func (sc *scanner) leftOver(i int) bool {
	switch sc.lower(i) {
	case "left":
		return sc.says(i, "left", "over")
	case "that", "which", "you", "there", "we":
	default:
		return false
	}
	for k := i + 1; k <= i+3 && k+1 < len(sc.words) && !sc.words[k].stop; k++ {
		if sc.says(k, "left", "over") {
			return true
		}
	}
	return false
}

// spokenOf tells whether the words at i only say how a thing is, or was treated:
// "the olives are salty", "in which the beef was boiled", "the oil will be floating".
// What "is added" or "should be beaten" is taken.
func (sc *scanner) spokenOf(i int) bool {
	k := i
	switch sc.lower(k) {
	case "was", "were", "has", "had", "have":
		return true
	case "will", "should", "must", "may", "would":
		if sc.lower(k+1) != "be" {
			return sc.lower(k) == "will" || sc.lower(k) == "would"
		}
		k++
	case "is", "are":
	default:
		return false
	}
	k++
	for hedges[sc.lower(k)] {
		if sc.lower(k) == "not" {
			return true
		}
		k++
	}
	if k >= len(sc.words) || sc.words[k].stop || sc.lower(k+1) == "already" || sc.lower(k+1) == "enough" {
		return true
	}
	w := sc.lower(k)
	if strings.HasSuffix(w, "ed") || strings.HasSuffix(w, "en") || doneWords[w] || fillerStops[w] {
		return false
	}
	return strings.HasSuffix(w, "ing") || strings.HasSuffix(w, "y") || states[w]
}

var (
	hedges    = wordSet("very quite now then not so too all just well still nice nicely already nearly almost perfectly rather")
	doneWords = wordSet("in put cut made laid set left ground shred whipt beat spread to for next on over")
	states    = wordSet("hot cold warm cool soft hard firm stiff tender thick thin sweet sour dry wet raw fresh large small big ripe young old sharp strong mild done ready brown golden clear smooth light dark high low good enough")
)

// reserved tells whether the amount at word i is only put by, and the same
// sentence goes on with the rest: "reserve 60 g of the cheese; beat the rest
// in". What goes in here is the rest; what was put by is left for a later step.
func (sc *scanner) reserved(i, next int) bool {
	if !sc.putsBy(i) {
		return false
	}
	if from, to := sc.restOf(next); to > 0 { // "keep back 2 tbsp of the cream. Whip the rest of the cream."
		sc.pastFrom, sc.pastTo = from, to
		return true
	}
	for k := next; k < len(sc.words); k++ {
		switch {
		case sc.says(k, "the", "rest"), sc.says(k, "the", "remainder"):
			return sc.lower(k+2) != "of" && !sc.named(k+2)
		case (sc.says(k, "the", "remaining") || sc.says(k, "the", "other")) && sc.figureEnd(k+2) > 0: // chop the remaining two-thirds
			return !sc.named(sc.figureEnd(k + 2))
		case sc.lower(k) == "the" && sc.lower(k+1) == "others" && !sc.named(k+2):
			w, _, _ := sc.amountAt(i)
			return w.number != nil && w.amount == nil
		case sc.says(k, "what", "remain"):
			return !sc.named(k + 2)
		case sc.says(k, "what", "is", "left"):
			return sc.lower(k+3) != "of" && !sc.named(k+3)
		}
		if k > next+3 && len(sc.finder.at(sc.words, k, false)) > 0 { // another name stands between
			return false
		}
	}
	return false
}

// figureEnd is the word behind the amount or the bare share at word i; 0: there is none.
func (sc *scanner) figureEnd(i int) int {
	if _, share := sc.bareShare(i); share {
		return i + 1
	}
	if _, n, ok := sc.amountAt(i); ok {
		return n
	}
	if _, n, ok := sc.spokenAt(i); ok {
		return n
	}
	return 0
}

// restOf finds "the rest of the cream" further on in the step, of the name that
// stands at word i; its first word and the one behind it, or zeros.
func (sc *scanner) restOf(i int) (from, to int) {
	name := func(i int) []match {
		for i < len(sc.words) && (sc.lower(i) == "of" || articles[sc.lower(i)]) {
			i++
		}
		if i >= len(sc.words) {
			return nil
		}
		ms := sc.finder.at(sc.words, i, false)
		to = i
		if len(ms) > 0 {
			to += ms[0].length
		}
		return ms
	}
	first := name(i)
	for k := i; len(first) > 0 && k < len(sc.words); k++ {
		n := 0
		switch {
		case sc.says(k, "the", "rest", "of"), sc.says(k, "the", "remainder", "of"), sc.says(k, "what", "remains", "of"):
			n = k + 3
		case sc.says(k, "what", "is", "left", "of"):
			n = k + 4
		case sc.says(k, "the", "remaining"), sc.says(k, "the", "other"):
			n = k + 2
		default:
			continue
		}
		if again := name(n); len(again) > 0 && again[0].target == first[0].target {
			return k, to
		}
	}
	return 0, 0
}

// clauseEnd is the first word of the next clause: behind a mark, or "but".
func (sc *scanner) clauseEnd(i int) int {
	for ; i < len(sc.words); i++ {
		if sc.words[i].stop || sc.words[i].opens || sc.lower(i) == "but" || sc.lower(i) == "if" {
			return i
		}
	}
	return i
}

// nameEnd is the word behind the names at i: past adjectives, and past further
// names that "or" or "and" joins.
func (sc *scanner) nameEnd(i int) int {
	end := i
	for k := i; k < len(sc.words) && k <= end+3 && (k == i || !sc.words[k].stop); k++ {
		if ms := sc.finder.at(sc.words, k, false); len(ms) > 0 {
			end = k + ms[0].length
			k = end - 1
			if w := sc.lower(end); w != "or" && w != "nor" {
				return end
			}
			k++
		} else if n, _ := sc.decoyAt(sc.recipe.Scope, sc.words, k); n > 0 {
			return k + n
		} else if fillerStops[sc.words[k].key] && sc.lower(k) != "the" && sc.lower(k) != "a" && sc.lower(k) != "any" {
			break
		}
	}
	return max(end, i)
}

// takenOut reads "fish out the bay leaf", "remove and discard the cinnamon": what
// is taken out of the pot went in before, by whatever name. It gives the word
// behind the name, or 0.
func (sc *scanner) takenOut(i int) int {
	n := i + 1
	switch sc.lower(i) {
	case "fish", "lift", "pick", "take", "strain":
		if sc.lower(n) != "out" {
			return 0
		}
		n++
	case "remove":
		if sc.says(n, "and", "discard") {
			n += 2
		}
	}
	if n < len(sc.words) && articles[sc.lower(n)] {
		n++
	}
	if n >= len(sc.words) || sc.words[n].stop {
		return 0
	}
	if _, next, ok := sc.amountAt(n); ok { // lift out half the beans
		for next < len(sc.words) && (sc.lower(next) == "of" || articles[sc.lower(next)]) {
			next++
		}
		if next >= len(sc.words) || sc.words[next].stop {
			return 0
		}
		ms := sc.finder.at(sc.words, next, false)
		if len(ms) == 0 || sc.hasLeft(ms[0].target) || sc.drawing {
			return 0
		}
		return next + ms[0].length
	}
	ms := sc.finder.at(sc.words, n, false)
	if len(ms) != 1 || ms[0].target.line == nil {
		return 0
	}
	end := n + ms[0].length
	if end < len(sc.words) && !sc.words[end].stop && sc.lower(end) != "and" && sc.lower(end) != "with" && sc.lower(end) != "before" && sc.lower(end) != "to" {
		return 0
	}
	if sc.lower(i) == "take" && end < len(sc.words) && sc.lower(end) != "and" { // take out the butter
		return 0
	}
	for sc.lower(end) == "and" && !sc.words[end].stop { // the bay leaves and the thyme
		k := end + 1
		if articles[sc.lower(k)] {
			k++
		}
		if k >= len(sc.words) || sc.words[k].stop || isVerb(sc.words, k) {
			break
		}
		more := sc.finder.at(sc.words, k, false)
		if len(more) != 1 || more[0].target.line == nil {
			break
		}
		end = k + more[0].length
	}
	return end
}

// untilDone reads "until the oil separates": a thing first named there went in
// under another name. What is worked in till then is taken. It gives the word
// behind the name, or 0.
func (sc *scanner) untilDone(i int) int {
	n := i + 1
	if !articles[sc.lower(n)] {
		return 0
	}
	n++
	if n >= len(sc.words) || sc.words[n].stop {
		return 0
	}
	ms := sc.finder.at(sc.words, n, false)
	if len(ms) == 0 {
		return 0
	}
	for _, m := range ms {
		if m.target.line == nil || !sc.story.touched[m.target.line] && !separates[sc.lower(n+m.length)] && sc.lower(n+m.length) != "is" && sc.lower(n+m.length) != "are" && sc.lower(n+m.length) != "has" {
			return 0
		}
	}
	end := n + ms[0].length
	for k := end; k < len(sc.words) && !sc.words[k].stop; k++ {
		switch sc.lower(k) {
		case "in", "incorporated", "absorbed", "used", "mixed", "worked", "added", "dissolved", "gone", "combined":
			return 0
		}
	}
	return end
}

// separates are what a thing does that is in the pot already.
var separates = wordSet("separates rises floats surfaces wilts sets")

// orNot asks whether a thing is in or not that is left out "if" something is so.
func (sc *scanner) orNot(i, n int) {
	if _, next, ok := sc.amountAt(n); ok { // half the onions
		if n = next; sc.lower(n) == "of" {
			n++
		}
	}
	if articles[sc.lower(n)] {
		n++
	}
	if n >= len(sc.words) || sc.words[n].stop {
		return
	}
	ms := sc.finder.at(sc.words, n, false)
	if len(ms) != 1 || ms[0].target.line == nil || ms[0].target.line.Optional || sc.story.left[ms[0].target.line].Sign() <= 0 {
		return
	}
	l, end := ms[0].target.line, n+ms[0].length
	if w := sc.lower(end); w != "if" && w != "for" && w != "when" && w != "unless" {
		return
	}
	at := sc.place(sc.words[i].start, sc.words[end-1].end)
	sc.story.named[l], sc.story.vague[l] = at, true
	sc.diags.Askf("U221", at, "is %s in it, or left out", l.Name).
		Because("it is bought, and only some cooks will put it in").
		WithHelp("write `| optional` behind it in the list, or put it there below `either`")
}

// noSuch asks about a thing that is gathered, and that the sentence serves the dish
// without: "serve it Texas style, no beans".
func (sc *scanner) noSuch(i int) {
	if !sc.words[i].stop || i+1 >= len(sc.words) {
		return
	}
	first := sc.opening(i)
	ms := sc.finder.at(sc.words, i+1, false)
	if sc.words[first].key != "serve" || len(ms) != 1 || ms[0].target.line == nil {
		return
	}
	l, at := ms[0].target.line, sc.place(sc.words[i].start, sc.words[i+ms[0].length].end)
	if _, named := sc.story.named[l]; !named {
		sc.story.named[l], sc.story.vague[l] = at, true
	}
	sc.diags.Askf("U221", at, "is %s in it, or left out", l.Name).
		Because("it is gathered, and this sentence serves the dish without it").
		WithHelp("write `| optional` behind it in the list, or put it there below `either`")
}

// elsewhere asks about what is kept back for another day: it is bought here, and
// does not go in here.
func (sc *scanner) elsewhere(l *Line, t Take, i int) {
	first := sc.opening(i - 1)
	switch sc.words[first].key {
	case "keep", "save", "reserve", "freeze", "set", "put", "hold":
	default:
		return
	}
	for k := i; k < len(sc.words) && !sc.words[k].stop; k++ {
		if w := sc.lower(k); w == "next" && (sc.lower(k+1) == "bake" || sc.lower(k+1) == "batch" || sc.lower(k+1) == "time" || sc.lower(k+1) == "day" || sc.lower(k+1) == "loaf") || w == "tomorrow" || w == "tomorrow's" || w == "tomorrow’s" || w == "freezer" {
			sc.diags.Askf("U221", t.Span, "does this %s go in here", l.Name).
				Because("it is gathered for this dish, and the sentence keeps it for another one").
				WithHelp("gather only what this dish takes, and the other in its own list")
			return
		}
	}
}

// putBy reads "keep the cream for later", "set the butter aside": a bare name
// that is only put by. It gives the word behind the name, or 0.
func (sc *scanner) putBy(i int) int {
	n := i + 1
	if articles[sc.lower(n)] {
		n++
	}
	if n+2 < len(sc.words) && partly[sc.words[n].key] && sc.lower(n+1) == "of" { // the green of the leeks
		if n += 2; articles[sc.lower(n)] {
			n++
		}
	}
	for k := n; k <= n+2 && k < len(sc.words) && !sc.words[k].stop; k++ {
		ms := sc.finder.at(sc.words, k, false)
		if len(ms) == 0 {
			continue
		}
		end := k + ms[0].length
		if sc.lower(i) == "reserve" || sc.lower(i) == "reserving" {
			if ms[0].target.line == nil || sc.story.touched[ms[0].target.line] {
				return 0
			}
			return end
		}
		if end >= len(sc.words) {
			return 0
		}
		if asides[sc.lower(end)] && !(sc.lower(end) == "by" && end+1 < len(sc.words) && !sc.words[end+1].stop && !fillerStops[sc.lower(end+1)] && sc.lower(end+1) != "while") { // not: by degrees
			return end
		}
		switch sc.lower(end) {
		case "for", "until", "till":
			if sc.lower(i) == "keep" || sc.lower(i) == "save" {
				return end
			}
		}
		return 0
	}
	return 0
}
