package resolve

import (
	"slices"
	"strings"

	"tamis/lang/quantity"
)

// What a sentence says of a thing it has just named: "chop the dill and stir in
// half", "cut twelve slices of it", "and put 50 g by". The name took all that
// was left; what is said of it afterwards tells how much that is.

// readies are verbs that only get a thing ready: what follows says how much of it goes in.
var readies = wordSet("chop cut slice break peel grate melt crush toast whip warm heat boil cook drain roll divide wash pick shell soak take zest squeeze sift shred tear dice mince pound weigh scald soften whisk beat trim core stone halve quarter roast bake fry poach steam open rinse strain clean skin bone joint scrape")

// putsIn are verbs of which "half" alone is what goes in: not "fold in half".
var putsIn = wordSet("stir add pour put tip beat whisk mix scatter sprinkle spoon spread use strew brush work rub toss drop lay arrange")

// latest is the take that "it" speaks of in what follows word i: the last one, if it
// took all of one line and is the only one of its sentence.
func (sc *scanner) latest(i int) *Take {
	first := sc.opening(i)
	from := sc.place(sc.words[first].start, sc.words[first].end).Start
	var found *Take
	for k := range sc.takes {
		t := &sc.takes[k]
		if t.Span.Start < from {
			continue
		}
		if found != nil {
			return nil
		}
		found = t
	}
	if found == nil { // the sentence before
		if n := len(sc.takes); n == 1 && first > 0 {
			found = &sc.takes[0]
		}
	}
	if found == nil || found.Line == nil || !found.All || found.Refers && found.Of.IsZero() || found.Rest || found.Line.ToTaste {
		return nil
	}
	return found
}

// readied tells whether the verb that leads up to a take only gets it ready.
func (sc *scanner) readied(t *Take) bool {
	for k := len(sc.words) - 1; k >= 0; k-- {
		if at := sc.place(sc.words[k].start, sc.words[k].end); at.Start >= t.Span.Start {
			continue
		}
		if readies[sc.words[k].key] || readies[sc.lower(k)] {
			return true
		}
		if sc.words[k].opens || sc.words[k].stop {
			return readies[sc.words[k].key]
		}
	}
	return false
}

// instead takes of a line that was just taken whole what w says instead.
func (sc *scanner) instead(t *Take, w *wanted) {
	l := t.Line
	sc.story.left[l] = sc.story.left[l].Add(t.Part)
	parts := sc.parted[t.Span]
	for _, p := range parts {
		k := target{line: l, part: p}
		sc.story.parts[k] = sc.story.parts[k].Sub(quantity.Max(t.Part, t.Of))
	}
	if len(parts) > 0 {
		k := target{line: l}
		sc.story.parts[k] = sc.story.parts[k].Sub(t.Part)
	}
	fresh := Take{Span: t.Span, NameAt: t.NameAt}
	if w.end > 0 {
		fresh.AmountAt = sc.place(w.figure, w.end)
	}
	if w.but == nil && !w.measured() && w.share == nil {
		fresh.AmountAt = Take{}.AmountAt
	}
	sc.story.touched[l] = false
	i := slices.IndexFunc(sc.takes, func(o Take) bool { return o.Line == l && o.Span == t.Span })
	if len(parts) > 0 {
		sc.takes[i] = sc.reader.takeParts(sc.story, l, fresh, w, parts)
		return
	}
	sc.takes[i] = sc.reader.resolveTake(sc.story, l, fresh, w, false)
}

// itSaid reads at word i what is said of the thing named just before; it gives
// the word behind, or 0.
func (sc *scanner) itSaid(i, next int, w *wanted) int {
	if next > len(sc.words) || w.rest {
		return 0
	}
	pronoun := func(k int) bool {
		return sc.lower(k) == "of" && (sc.lower(k+1) == "it" || sc.lower(k+1) == "them" || sc.lower(k+1) == "these" || sc.lower(k+1) == "this") &&
			(k+2 >= len(sc.words) || sc.words[k+2].stop || !sc.named(k+2))
	}
	t := sc.latest(i)
	if t == nil {
		return 0
	}
	switch {
	case pronoun(next) && sc.behindLiquor(t, i):
		return next + 2
	case next < len(sc.words) && !sc.words[next].stop && pronoun(next+1) && sc.behindLiquor(t, i):
		return next + 3
	case pronoun(next) && sc.readied(t): // half of it
		sc.instead(t, w)
		return next + 2
	case w.number != nil && next < len(sc.words) && !sc.words[next].stop && pronoun(next+1) && sc.readied(t) && !timeWords[sc.words[next].key]: // eight slivers of it
		sc.figure(FigureKept, i, next, quantity.Pieces(w.number.High))
		sc.instead(t, &wanted{unmeasured: true})
		return next + 3
	case w.share != nil && !w.share.OfRest && (next >= len(sc.words) || sc.words[next].stop || sc.lower(next) == "and") && i > 0 && sc.readied(t):
		k := i - 1
		for k > 0 && (sc.lower(k) == "in" || sc.lower(k) == "over" || sc.lower(k) == "on") {
			k--
		}
		for k > 0 && (quantity.InDoubt(sc.lower(k)) || sc.lower(k) == "just" || sc.lower(k) == "only") {
			k--
		}
		if putsIn[sc.words[k].key] && sc.lower(i-1) != "by" && (k == 0 || sc.lower(k-1) != "or") { // or use just half
			sc.instead(t, w)
			return next
		}
	}
	return 0
}

// behindLiquor tells whether what comes of the cooking is named between a take and word i, so
// that "it" speaks of that: "cook the pasta in salted water, reserving a mugful of it".
func (sc *scanner) behindLiquor(t *Take, i int) bool {
	if t == nil {
		return false
	}
	for k := i - 1; k >= 0 && sc.place(sc.words[k].start, sc.words[k].end).Start > t.NameAt.End; k-- {
		if liquors[sc.words[k].key] {
			return true
		}
	}
	return false
}

// asides are words that say, behind "set", "put", "keep" and "hold", that a thing is
// kept for later.
var asides = wordSet("aside by back")

// putsBy tells whether the words that end before word i put by what follows: "reserve",
// "save", "keep back", "set aside".
func (sc *scanner) putsBy(i int) bool {
	if i > 0 && (sc.words[i-1].key == "reserve" || sc.words[i-1].key == "save") {
		return true
	}
	if i > 0 && putting[sc.lower(i-1)] && sc.ofLiquor(i) {
		return true
	}
	if i > 1 && sc.lower(i-1) == "out" && sc.words[i-2].key == "keep" {
		return true
	}
	if i < 2 || !asides[sc.lower(i-1)] || sc.words[i-1].stop {
		return false
	}
	switch sc.words[i-2].key {
	case "set", "put", "lay": // what is put back is used
		return sc.lower(i-1) != "back"
	case "keep", "hold":
		return true
	}
	return false
}

// ofLiquor tells whether the amount at word i is of what comes of the cooking, and was not
// gathered: "keeping 200 ml of the liquid".
func (sc *scanner) ofLiquor(i int) bool {
	_, n, ok := sc.amountAt(i)
	if !ok || sc.lower(n) != "of" {
		return false
	}
	if n++; articles[sc.lower(n)] {
		n++
	}
	for k := n; k < n+3 && k < len(sc.words) && !sc.words[k].stop; k++ {
		if liquors[sc.words[k].key] {
			return len(sc.finder.at(sc.words, n, false)) == 0 || sc.finder.at(sc.words, n, false)[0].target.line == nil
		}
	}
	return false
}

// putting are words of keeping before what comes of the cooking.
var putting = wordSet("leave leaving reserve save set keep keeping reserving saving retain retaining retained")

// liquors are what comes of cooking: nobody gathers them.
var liquors = wordSet("liquid liquor water juice brine syrup fat oil stock broth mixture marinade dough batter dripping whey gravy sauce soup")

// opening is the first word of the sentence that word i stands in.
func (sc *scanner) opening(i int) int {
	for i > 0 && !sc.words[i].opens {
		i--
	}
	return max(i, 0)
}

// putAside reads "put 50 g by", "reserve a third for the top", "but leave half a
// cup of it for later" of a thing named just before: all but that goes in.
func (sc *scanner) putAside(i int) int {
	verb := sc.words[i].key
	switch verb {
	case "keep", "save", "set", "put", "reserve", "leave", "hold":
	default:
		switch verb = sc.lower(i); verb {
		case "keeping", "reserving", "saving", "holding", "leaving", "setting":
		case "except", "excepting", "less", "minus", "bar", "barring":
			verb = "except"
		default:
			return 0
		}
	}
	aside := func(k int) bool { return asides[sc.lower(k)] }
	if i > 0 && sc.lower(i-1) == "or" { // or leave half of them
		return 0
	}
	n := i + 1
	by := aside(n) || strings.HasPrefix(verb, "leav") && sc.lower(n) == "out"
	if by || verb == "except" && sc.lower(n) == "for" {
		n++
	}
	if n >= len(sc.words) || sc.words[n].stop && n == i+1 {
		return 0
	}
	w, next, ok := sc.amountAt(n)
	if !ok || w.but != nil || w.article && w.number != nil {
		return 0
	}
	if !w.measured() && w.share == nil && !w.unmeasured || next < len(sc.words) && timeWords[sc.words[next].key] {
		return 0
	}
	var t *Take
	switch {
	case verb == "except" && (sc.lower(next) != "of" || pronouns[sc.lower(next+1)] && !articles[sc.lower(next+1)]):
		return 0
	case sc.lower(next) == "of" && (sc.lower(next+1) == "it" || sc.lower(next+1) == "them"):
		if sc.behindLiquor(sc.latest(i), i) {
			return 0
		}
		next += 2
	case sc.lower(next) == "of" && (sc.named(next) || articles[sc.lower(next+1)]): // both creams, keeping back 200 ml of the double
		k := next + 1
		if articles[sc.lower(k)] {
			k++
		}
		ms, length := sc.finder.at(sc.words, k, false), 0
		if len(ms) > 0 {
			length = ms[0].length
		}
		if sc.lower(i) == "reserve" || sc.words[i].opens || len(ms) > 0 && ms[0].target.part != "" { // leaving out four of the whites
			return 0
		}
		at := slices.IndexFunc(sc.takes, func(o Take) bool {
			if o.Line == nil || !o.All || o.Refers {
				return false
			}
			if len(ms) > 0 {
				return slices.ContainsFunc(ms, func(m match) bool { return m.target.line == o.Line })
			}
			name := sc.builder.words(o.Line.Name)
			n := 0
			for n < len(name)-1 && k+n < len(sc.words) && sc.words[k+n].key == name[n].key {
				n++
			}
			length = n
			return n > 0
		})
		if at < 0 || length == 0 {
			return 0
		}
		t, next, by = &sc.takes[at], k+length, true
	case sc.named(next):
		return 0
	case next < len(sc.words) && !sc.words[next].stop && !aside(next) && sc.lower(next) != "for" && sc.lower(next) != "to" && sc.lower(next) != "until" && sc.lower(next) != "and":
		return 0
	}
	if aside(next) {
		by = true
		next++
	}
	if !by && !(sc.lower(next) == "for" || sc.lower(next) == "to" || sc.lower(next) == "until" || verb == "reserve" || verb == "reserving" || verb == "save" || verb == "saving" || verb == "leaving" || verb == "keeping") {
		return 0
	}
	if t == nil {
		t = sc.latest(i)
	}
	if t == nil {
		return 0
	}
	kept := w
	sc.instead(t, &wanted{but: &kept, figure: kept.start, end: kept.end})
	return next
}

// keptBy reads "half the carrots should be kept for garnishing", "2 tbsp of which
// are reserved": w of the line l is not taken. It gives the word behind, or 0.
func (sc *scanner) keptBy(i int, w *wanted, l *Line) int {
	if w == nil || l == nil || w.rest || !w.measured() && w.share == nil {
		return 0
	}
	k := i
	switch sc.lower(k) {
	case "should", "must", "may", "can", "to":
		k++
	}
	switch sc.lower(k) {
	case "be", "is", "are", "being":
		k++
	default:
		return 0
	}
	switch sc.lower(k) {
	case "kept", "reserved", "saved", "held":
		k++
	case "set", "put", "laid":
		if word := sc.lower(k + 1); word != "aside" && word != "by" {
			return 0
		}
		k += 2
	default:
		return 0
	}
	at := slices.IndexFunc(sc.takes, func(o Take) bool { return o.Line == l && o.All && !o.Refers })
	if at >= 0 {
		kept := *w
		sc.instead(&sc.takes[at], &wanted{but: &kept, figure: kept.start, end: kept.end})
	}
	return k
}

// keepsRest reads "keep the other for the glaze", "save the rest", where no name
// follows: it is for a later step. It gives the word behind, or 0.
func (sc *scanner) keepsRest(i int) int {
	n := i + 1
	switch sc.lower(i) {
	case "keep", "keeping", "save", "saving", "reserve", "reserving", "leave", "leaving", "hold", "holding", "freeze", "freezing", "discard", "bin", "store":
	case "set", "put", "setting", "putting":
		if w := sc.lower(n); w != "aside" && w != "by" {
			return 0
		}
		n++
	default:
		return 0
	}
	if asides[sc.lower(n)] {
		n++
	}
	if s, next, ok := sc.spokenAt(n); ok && !s.Article && sc.lower(next) == "for" && !sc.words[next].stop && sc.standsAlone(n, next) { // leave four for the cabbage
		if next+1 < len(sc.words) && sc.counts(next+1) { // for 10 minutes
			return 0
		}
		sc.figure(FigureKept, n, next, pieces(s))
		if t := sc.latest(i); t != nil && t.Line.Quantity != nil && t.Line.Quantity.Dim == quantity.None && !s.Part { // add the eggs; reserve six for the glaze
			v := s.Value
			sc.instead(t, &wanted{but: &wanted{number: &v, start: sc.words[n].start, figure: sc.words[n].start, end: sc.words[next-1].end}, figure: sc.words[n].start, end: sc.words[next-1].end})
		}
		return max(next, sc.nameEnd(next+1))
	}
	if sc.lower(n) != "the" || n+1 >= len(sc.words) || sc.words[n].stop {
		return 0
	}
	switch sc.words[n+1].key {
	case "other", "rest", "remainder", "second", "third", "fourth", "fifth", "sixth":
	default:
		return 0
	}
	if n += 2; sc.lower(n) == "of" && sc.named(n) || n < len(sc.words) && sc.named(n) {
		return 0
	}
	if strings.HasPrefix(sc.lower(i), "leav") && !sc.words[min(n, len(sc.words)-1)].stop && (states[sc.lower(n)] || manners[sc.lower(n)]) { // leave the rest whole
		return 0
	}
	if _, share := sc.bareShare(n); share { // leave the other half coarse
		if n++; states[sc.lower(n)] || aloneBefore[sc.lower(n)] && !asides[sc.lower(n)] && sc.lower(n) != "separately" && sc.lower(n) != "out" {
			return 0
		}
	}
	if sc.lower(n) == "for" && !sc.words[n].stop { // what it is kept for goes in elsewhere
		return max(n, sc.nameEnd(n+1))
	}
	return n
}

// manners are ways in which a part of a thing may go in.
var manners = wordSet("whole coarse fine plain chunky uncut unpeeled intact")

// lead reads the first words of a name for the whole of it, where an amount or an
// article stands before and the phrase ends behind: "200 ml of the single", of
// single cream. It must fit one thing only.
func (sc *scanner) lead(i int, w *wanted) (m match, n int) {
	if i == 0 || sc.words[i].glue {
		return m, 0
	}
	before := sc.lower(i - 1)
	if w == nil { // the rye, of rye flour
		if before != "the" || states[sc.lower(i)] || notAlone[sc.words[i].key] || i+1 < len(sc.words) && !sc.words[i+1].stop && !fillerStops[sc.lower(i+1)] {
			return m, 0
		}
		w = &wanted{}
	}
	sized := w.amount != nil && len(w.amount.Measure.Terms) > 0 && w.amount.Measure.Terms[0].Unit != nil
	if !sized && before != "the" && before != "of" && w.number == nil {
		return m, 0
	}
	var found *Line
	for _, l := range sc.lines {
		if sc.story.left[l].Sign() <= 0 {
			continue
		}
		name := sc.builder.words(l.Name)
		k := 0
		for k < len(name)-1 && i+k < len(sc.words) && sc.words[i+k].key == name[k].key && (k == 0 || !sc.words[i+k].stop) {
			k++
		}
		if k == 0 || k < n {
			continue
		}
		if end := i + k; end < len(sc.words) && !sc.words[end].stop && !fillerStops[sc.lower(end)] && !verbsAfter[sc.words[end].key] {
			continue
		}
		if !sized && before != "the" && before != "of" && !sc.elided(i+k, name[k:]) {
			continue
		}
		if k == n {
			found = nil // two of them
			continue
		}
		found, n = l, k
	}
	if found == nil {
		return m, 0
	}
	return match{form{target: target{line: found}}, n}, n
}

// notAlone are colours and other words before a thing, which do not stand for it alone.
var notAlone = wordSet("sea rock table kosher brown white red green black yellow dark light plain fresh dried ground minced whole large small main other same first last top bottom half oven cold")

// verbsAfter may follow a thing that is called by its first word.
var verbsAfter = wordSet("whisk beat stir till off out up back aside")

// elided tells whether the end of a name, left out at word i, stands behind the
// other name that "and" joins: "one red and two white onions".
func (sc *scanner) elided(i int, tail []word) bool {
	if sc.lower(i) != "and" && sc.lower(i) != "or" {
		return false
	}
	_, next, ok := sc.spokenAt(i + 1)
	if !ok {
		return false
	}
	for k := next; k < len(sc.words) && k <= next+4 && !sc.words[k].stop; k++ {
		if sc.words[k].key == tail[len(tail)-1].key {
			return true
		}
	}
	return false
}
