package resolve

import (
	"slices"
	"strings"

	"tamis/compiler/larder"
	"tamis/lang/quantity"
	"tamis/lang/source"
)

// What a name in a sentence means, and how much of it is taken there.

// name reads a name at word i, taking what w asks for. It returns the word
// after it, and after all that belongs to it, or i when there is none. from is where the phrase began.
func (sc *scanner) name(i, from int, w *wanted) int {
	if sc.words[i].glue {
		return i
	}
	if (w == nil || w.article && w.amount == nil) && i > 0 && sc.likened(i) {
		return i
	}
	if prior := sc.lower(max(i-1, 0)); w == nil && i > 0 && (prior == "is" || prior == "are" || prior == "was" || prior == "were") { // the bacon is salt already
		return i
	}
	ms := sc.finder.at(sc.words, i, false)
	if len(ms) > 0 && ms[0].length == 1 && sc.words[i].key == "leaf" && (i == 0 || !articles[sc.lower(i-1)]) {
		ms = nil // "until the meat leaves the bone"
	}
	if len(ms) > 0 && ms[0].length == 1 && !ms[0].whole && sc.partOfAnother(i, ms[0].target.line) {
		return i
	}
	if len(ms) > 0 && ms[0].length == 1 && ms[0].target.part == "white" && !sc.whiteSaid(i) {
		ms = nil
	}
	if len(ms) > 0 && i > 0 && sc.lower(i-1) == "tap" && sc.words[i+ms[0].length-1].key == "water" { // not what is gathered
		if w != nil && w.amount != nil {
			if q := sc.silent(w.amount); q != nil {
				sc.measure(FigureScaled, w, *q)
			}
		}
		return i + ms[0].length
	}
	n := 0
	if len(ms) > 0 {
		n = ms[0].length
	}
	if k := i + n; n > 0 && k < len(sc.words) && !sc.words[k].stop && sc.words[k].key == "mixture" && sc.story.goneIn(ms[0].target) {
		if w != nil && w.measured() { // its figure is judged by itself
			return i
		}
		return k + 1 // the crumb mixture
	}
	if k := i + n; n > 0 && (ms[0].target.line != nil || ms[0].target.sub != nil && ms[0].target.sub.class != "") && k < len(sc.words) && !sc.words[k].stop && cookedIn[sc.words[k].key] && (k+1 >= len(sc.words) || !sc.words[k+1].glue) { // a mug of the pasta water
		if w != nil && w.measured() && !w.article {
			return i
		}
		return k + 1
	}
	if n > 0 && ms[0].target.sub != nil && ms[0].target.sub.class != "" && !(w != nil && w.rest && !sc.lifted(i)) && sc.onlySpoken(ms[0].target.sub, sc.phraseStart(i, w), i, n) {
		if w != nil && (w.measured() || w.share != nil && !w.share.Rest) { // 1/2 litre of the cooking liquid
			return i
		}
		return i + n
	}
	if m, length, more := sc.egg(i); length > n {
		ms, n = []match{m}, length
		if w == nil || more != nil && (w.number == nil || w.article) {
			w = more
		}
	}
	var known *Line // by another name
	decoy, decoyName := sc.decoyAt(sc.recipe.Scope, sc.words, i)
	if m, length := sc.lead(i, w); length > n && decoy < length { // what is known by itself is another thing: chicken, and chicken stock
		ms, n = []match{m}, length
	}
	if decoy > n {
		known = sc.otherName(decoyName)
	}
	if l := known; l != nil && sc.story.left[l].Sign() > 0 && (sc.begun(l, i, decoy) || n > 0 && ms[0].whole && ms[0].target.line == l) { // feta, of feta cheese; oregano leaves
		ms, n = []match{{form{target: target{line: l}}, decoy}}, decoy
	}
	if k := i + max(n, decoy); n <= 1 && decoy <= 1 && k > i && k < len(sc.words) && !sc.words[k].stop && ofTheKitchen[sc.words[k].key] {
		if w != nil && w.measured() && !w.article {
			return i
		}
		return k + 1 // a potato ricer, the butter dish
	}
	if decoy > n {
		switch l := sc.gatheredAs(i, decoy); {
		case l != nil:
			ms, n = []match{{form{target: target{line: l}}, decoy}}, decoy
		case n > 0 && sc.joined(i, decoy):
		case w != nil && w.number != nil && !w.article && sc.isOwnTitle(i, decoy):
			return i // "shape into 24 buns", in a dish called Buns: a yield
		default:
			if w != nil && w.amount != nil && sc.words[i+decoy-1].key == "water" {
				if q := sc.silent(w.amount); q != nil {
					sc.measure(FigureScaled, w, *q)
				}
			}
			sc.decoy(i, decoy, decoyName)
			return i + decoy
		}
	}
	if n == 0 || w == nil && (sc.denied(i+n) && !sc.dissolvedIn(ms[0].target, i, n) || sc.wouldDo(i+n) && sc.inCase(i)) {
		return i + n
	}
	return sc.take(i, from, w, ms, n)
}

// dissolvedIn tells whether what is named at word i for the first time went into another thing:
// "sour milk in which the soda has been dissolved".
func (sc *scanner) dissolvedIn(t target, i, n int) bool {
	if t.line == nil || sc.story.touched[t.line] {
		return false
	}
	k := i + n
	if w := sc.lower(k); w != "has" && w != "have" && w != "had" || sc.lower(k+1) != "been" || k+2 >= len(sc.words) || !mixedIn[sc.lower(k+2)] {
		return false
	}
	for b := i - 1; b >= max(i-5, 0); b-- {
		if sc.lower(b) == "which" {
			return true
		}
	}
	return false
}

// mixedIn is done with what stays in the thing that it is done in.
var mixedIn = wordSet("dissolved mixed stirred melted beaten added steeped sifted rubbed blended")

// phraseStart is the first word of what w says of the name at word i.
func (sc *scanner) phraseStart(i int, w *wanted) int {
	if w == nil || w.end == 0 || w.article && w.amount == nil {
		return i
	}
	return min(i, sc.wordFrom(0, w.start))
}

// take takes what w asks for of what the n words at i mean.
func (sc *scanner) take(i, from int, w *wanted, ms []match, n int) int {
	at := sc.place(sc.words[i].start, sc.words[i+n-1].end)
	if len(ms) > 1 && w != nil && sc.allOf(ms, w) { // both chocolates, all five onions
		for _, m := range ms {
			sc.take(i, from, nil, []match{m}, n)
		}
		return i + n
	}
	if len(ms) > 1 {
		ms = sc.sieve(ms, at)
		if len(ms) == 0 {
			return i + n
		}
	}
	ms = ofOne(ms, w)
	if end := sc.bothParts(i, w, ms[0].target); end > i {
		return end
	}
	if l := ms[0].target.line; l != nil && l.gone {
		sc.stillNeeds(l, at)
		return i + n
	}
	if l := ms[0].target.line; l != nil && len(l.was) > 0 && sc.now != nil && sc.now.cameAlong() {
		if said := strings.Join(keysOf(sc.words[i:i+n]), " "); !strings.HasSuffix(l.Key, said) && !sc.ofVessel(i+n) {
			sc.reworded = append(sc.reworded, Rewording{at, l.Name})
		}
	}
	next := i + n
	if w == nil && i > 0 && sc.story.touched[ms[0].target.line] && ms[0].target.line != nil && sc.story.left[ms[0].target.line].Sign() > 0 {
		for k := i - 1; k >= 0 && k >= i-2 && !sc.words[k+1].stop; k-- {
			if word := sc.lower(k); word == "reserved" || word == "saved" || word == "kept" { // what was put by
				w = &wanted{share: &Share{Rest: true}, rest: true, start: sc.words[i].start, end: sc.words[i].start, figure: sc.words[i].start}
			}
		}
	}
	if w == nil && !sc.isHere(ms[0].target) {
		if all, k := sc.ofEach(next); all != nil {
			each := *all
			each.start = sc.words[i].start
			if sc.spent[k] { // its figure is printed once
				each.figure, each.end = 0, 0
			}
			sc.spend(k, sc.wordFrom(k, all.end))
			w = &each
		}
	}
	if l := ms[0].target.line; w != nil && w.number != nil && l != nil && l.Quantity != nil && l.Quantity.Dim != quantity.None && l.Quantity.Dim != quantity.Word && sc.cases > 0 && sc.wordFrom(0, w.figure) == sc.cases {
		w = nil // "1 tbsp of the butter on each of 100 fillets": all of them, by weight
	}
	if l := ms[0].target.line; w != nil && w.number != nil && !w.article && l != nil && l.Quantity != nil && (l.Quantity.Dim == quantity.Mass || l.Quantity.Dim == quantity.Volume) && sc.unit == nil {
		if _, is := sc.forEach(i + n); is && w.number.IsRange() { // two or three sultanas on each
			w = &wanted{unmeasured: true, start: w.start, end: w.end}
		} else if is { // 25 thighs in each pan
			w = nil
		}
	}
	if l := ms[0].target.line; w != nil && w.number != nil && !w.article && sc.unit != nil && l != nil && l.Quantity != nil && (l.Quantity.Dim == quantity.Mass || l.Quantity.Dim == quantity.Volume) {
		same := *w // "two tablespoons of oil and one of vinegar"
		same.amount, same.number = plain(*w.number, sc.unit), nil
		w = &same
	}
	if half, end := sc.halves(next, ms[0].target.line, w); half != nil {
		sc.spend(next, end)
		w, next = half, end
	}
	if w == nil || !w.rest {
		w, next = sc.behind(next, w)
	}
	ms = ofOne(ms, w)
	if k := i + n; w == nil && k < len(sc.words) && !sc.words[k].stop && grows[sc.words[k].key] && ms[0].target.line != nil && sc.putIn(i) { // the basil stalks
		w, next = &wanted{unmeasured: true, start: sc.words[i].start}, k+1
	}
	if w == nil {
		w = sc.openEnded(i)
	}
	if w == nil {
		if w = sc.partOfName(i); w != nil && w.measured() {
			w, next = sc.behind(next, w)
		}
	}
	if w == nil {
		w = sc.farBefore(i, n)
	}
	if n := sc.keptBy(next, w, ms[0].target.line); n > 0 {
		return n
	}
	if sc.alternative(i, from, w, ms[0].target) {
		return next
	}
	sc.heaped(w)
	if sc.corrects(ms[0].target.line, w, at) {
		return next
	}
	t := Take{NameAt: at, Span: at}
	if w != nil && w.end > 0 {
		t.Span = sc.place(min(w.start, sc.words[i].start), sc.words[i+n-1].end)
		if (w.measured() || w.share != nil || w.but != nil) && !w.at && !w.each {
			t.AmountAt = sc.place(w.figure, w.end)
		}
	}
	if w != nil && w.ordinal && (w.share != nil || w.measured()) {
		sc.diags.Askf("U216", t.Span, "%s of it, or one more after the second", shareText(w)).
			WithHelp("write `1/3` for the share, or `one more`")
	}
	if w != nil && w.at && w.amount != nil {
		if q := sc.silent(w.amount); q != nil {
			sc.measure(FigureEach, w, *q)
		}
		w = nil
	}
	if w != nil && w.at {
		if s, n, ok := sc.spokenAt(sc.wordFrom(0, w.figure)); ok {
			sc.figure(FigureLoad, sc.wordFrom(0, w.figure), n, quantity.Pieces(s.Value.High))
		}
		w = nil
	}
	if w != nil && w.amount != nil && len(w.amount.Measure.Terms) == 1 {
		sc.unit = w.amount.Measure.Terms[0].Unit
	}
	again := sc.isHere(ms[0].target) || w == nil && sc.doneTo(ms[0].target, i)
	sc.nowHere(ms[0].target)
	if l := ms[0].target.line; l != nil && sc.story.done[l] == nil {
		sc.story.done[l] = sc.words
	}
	switch l := ms[0].target.line; {
	case l != nil:
		first := min(from, i)
		if w != nil && w.end > 0 {
			first = min(first, sc.wordFrom(0, w.start))
		}
		if parts := sc.partsOf(ms[0].target, first); len(parts) > 0 {
			if sc.parted == nil {
				sc.parted = map[source.Span][]string{}
			}
			sc.parted[t.Span] = parts
			sc.takes = append(sc.takes, sc.reader.takeParts(sc.story, l, t, w, parts))
			break
		}
		sc.ofUnweighed(l, w, &t)
		ofMixture := n == 1 && !ms[0].whole && mades[sc.words[i].key]                                                               // half the sauce, that the soy sauce went into
		if w != nil && (!w.rest || ofMixture) && w.but == nil && sc.story.left[l].Sign() <= 0 && (sc.savedBefore(i) || ofMixture) { // a ladle of the reserved cooking water
			if q := w.amount; q != nil {
				if q := sc.silent(q); q != nil {
					sc.measure(FigureScaled, w, *q)
				}
			}
			sc.takes = append(sc.takes, Take{Line: l, NameAt: t.NameAt, Span: t.Span, Refers: true})
			break
		}
		sc.takeLine(l, t, w, again)
		sc.separates(l, sc.takes[len(sc.takes)-1], i)
		sc.ifNeeded(l, sc.takes[len(sc.takes)-1], w, next)
		sc.elsewhere(l, sc.takes[len(sc.takes)-1], next)
	case ms[0].target.sub != nil:
		out, end := sc.butFor(next)
		sc.takeSub(sc.sorted(ms[0].target.sub, i, out), t, w)
		return end
	default:
		sc.takeProduct(ms[0].target.product, t, w)
	}
	return next
}

// ofOne is the one line that a word for several things means, where a part of it is spoken of:
// all but 2 tbsp of the nuts.
func ofOne(ms []match, w *wanted) []match {
	if s := ms[0].target.sub; w != nil && s != nil && s.class != "" && len(s.Lines) == 1 && (w.but != nil || w.measured() || w.unmeasured || w.rest) {
		ms[0].target = target{line: s.Lines[0]}
	}
	return ms
}

// corrects takes so much as is said of a thing that its sentence took whole before: "fold in the
// nuts and the dates, all but 2 tbsp of the nuts".
func (sc *scanner) corrects(l *Line, w *wanted, at source.Span) bool {
	if l == nil || w == nil || w.but == nil || sc.story.left[l].Sign() > 0 {
		return false
	}
	i := slices.IndexFunc(sc.takes, func(t Take) bool { return t.Line == l && t.All && !t.Refers && !t.Rest })
	if i < 0 || sc.takes[i].Span.Start >= at.Start {
		return false
	}
	sc.instead(&sc.takes[i], w)
	return true
}

// bothParts reads "seven of the eggs, whites and yolks together": the parts are of what was just
// taken, and nothing more is. It gives the word behind, or 0.
func (sc *scanner) bothParts(i int, w *wanted, t target) int {
	if t.part == "" || w != nil || !sc.words[i].stop || len(sc.takes) == 0 {
		return 0
	}
	last := sc.takes[len(sc.takes)-1]
	if last.Line != t.line || last.NameAt.End != sc.place(sc.words[i-1].start, sc.words[i-1].end).End {
		return 0
	}
	k := i + 1
	for k < len(sc.words) && !sc.words[k].stop && (sc.lower(k) == "and" || partNamed[sc.words[k].key] != "") {
		k++
	}
	if k == i+1 { // the whites, and nothing else of them
		return 0
	}
	return k
}

// heaped notes how many spoonfuls or handfuls are said that nobody weighs: they grow with
// the dish.
func (sc *scanner) heaped(w *wanted) {
	if w == nil || w.heaps == nil || !w.unmeasured {
		return
	}
	i := sc.wordFrom(0, w.figure)
	if _, next, ok := sc.spokenAt(i); ok {
		sc.found = append(sc.found, Figure{At: sc.place(sc.words[i].start, sc.words[next-1].end), Kind: FigureScaled, Quantity: quantity.Quantity{Value: *w.heaps}})
	}
}

// cookedIn is what something was cooked in, behind its name.
var cookedIn = wordSet("water liquor liquid")

// savedBefore tells whether the name at word i is of what was kept of a thing that has gone in.
func (sc *scanner) savedBefore(i int) bool {
	for k := i - 1; k >= 0 && k >= i-3 && !sc.words[k+1].stop; k-- {
		switch sc.lower(k) {
		case "reserved", "saved", "kept", "retained", "cooking", "soaking", "poaching", "boiling", "pasta":
			return true
		}
	}
	return false
}

// ofUnweighed notes an amount of something that is gathered without one, "a teaspoon of salt":
// it grows with the dish, and nothing is left of the line to reckon with.
func (sc *scanner) ofUnweighed(l *Line, w *wanted, t *Take) {
	if w == nil || l.Quantity != nil || l.Written != nil || l.Share != nil || w.each || w.article && w.number != nil {
		return
	}
	switch {
	case w.amount != nil:
		if q := sc.silent(w.amount); q != nil {
			sc.measure(FigureScaled, w, *q)
			t.AmountAt = source.Span{}
		}
	case w.number != nil && t.AmountAt.File != nil:
		sc.found = append(sc.found, Figure{At: t.AmountAt, Kind: FigureScaled, Quantity: quantity.Quantity{Value: *w.number}, Name: t.NameAt})
		t.AmountAt = source.Span{}
	}
}

// openEnded is how much is meant of a bare name at word i of which nobody says how much:
// what comes off the top of it, "scoop the cream off the milk", or what one tastes for,
// "taste and sharpen with the vinegar". Nil: all that is left.
func (sc *scanner) openEnded(i int) *wanted {
	k := i - 1
	for k >= 0 && !sc.words[k+1].stop && articles[sc.lower(k)] {
		k--
	}
	if k < 0 {
		return nil
	}
	if k == i-1 && k > 0 && !sc.words[i].stop && coated[sc.lower(k-1)] && (sc.lower(k) == "in" || sc.lower(k) == "with") { // a lump of butter, rolled in flour
		return &wanted{unmeasured: true, start: sc.words[i].start}
	}
	first := sc.opening(i)
	some := func() *wanted { return &wanted{unmeasured: true, start: sc.words[i].start} }
	if sc.words[first].key == "taste" && tasting[sc.words[min(first+2, len(sc.words)-1)].key] && (sc.lower(first+1) == "and" || sc.lower(first+1) == "then") && len(sc.takes) == 0 {
		return some()
	}
	if sc.lower(k) != "off" || k == first || skimming[sc.words[k-1].key] || sc.words[k-1].key == "take" { // "take off the pork" is the pork
		return nil
	}
	skims := false
	for b := first; b < k; b++ {
		skims = skimming[sc.words[b].key] || skims && sc.lower(b) != "and" && sc.lower(b) != "then" && sc.words[b].key != "take"
		if of, n, ok := sc.amountAt(b); ok && skims && of.share != nil && !of.share.Rest && !of.share.OfRest && n < len(sc.words) && sc.words[n].stop { // the top, about a third, off
			of.start, of.ordinal = sc.words[b].start, false
			sc.spend(b, n)
			return &of
		}
	}
	if !skims {
		return nil
	}
	return some()
}

// coated is done with some of what is named behind it without an article.
var coated = wordSet("rolled dipped dusted dredged")

// tasting is what is done as far as it tastes right.
var tasting = wordSet("sharpen adjust correct season sweeten balance add more finish")

// skimming takes something off the top of what is in a pot or a tin.
var skimming = wordSet("scoop skim spoon ladle pour")

// doneTo tells whether the word before word i says what an earlier step did to some
// of the line: "pull the fried onion off", of which one was fried.
func (sc *scanner) doneTo(t target, i int) bool {
	if t.line == nil || i == 0 || sc.words[i].stop || !sc.story.touched[t.line] {
		return false
	}
	forms := larder.BringsAbout(sc.lower(i - 1))
	return slices.ContainsFunc(sc.story.done[t.line], func(w word) bool { return slices.Contains(forms, w.low) })
}

// allOf tells whether w asks for all of several lines that one short name means:
// "both chocolates", or "all five onions" of three and two.
func (sc *scanner) allOf(ms []match, w *wanted) bool {
	if w.number == nil || !w.whole {
		return false
	}
	sum := quantity.Number{}
	for _, m := range ms {
		l := m.target.line
		if l == nil || sc.story.left[l].Sign() <= 0 || sc.isHere(m.target) {
			return false
		}
		if l.Quantity != nil && l.Quantity.Dim == quantity.None {
			sum = sum.Add(l.Quantity.Value.High)
		}
	}
	return w.number.High.Equal(sum) || w.number.High.Equal(quantity.Int(int64(len(ms))))
}

func shareText(w *wanted) string {
	switch {
	case w.share != nil:
		return w.share.Fraction.String()
	case w.amount != nil:
		return w.amount.String()
	}
	return w.number.High.String()
}

// alternative tells whether a name is only the other of two: "100 ml of the
// milk, or 50 g of the sugar". It is asked about where both are there to take.
func (sc *scanner) alternative(i, from int, w *wanted, t target) bool {
	first := min(from, i)
	if w != nil && w.end > 0 {
		first = sc.wordFrom(0, w.start)
	}
	k := first - 1
	if k >= 0 && articles[sc.lower(k)] {
		k--
	}
	if k < 1 || sc.lower(k) != "or" || t.line == nil || len(sc.takes) == 0 || sc.story.left[t.line].Sign() <= 0 {
		return false
	}
	last := sc.takes[len(sc.takes)-1]
	if last.Line == nil || last.Refers || last.Span.End > sc.place(sc.words[k].start, sc.words[k].end).Start || !sc.adjacent(last.NameAt.End, k) {
		return false
	}
	at := sc.place(sc.words[first].start, sc.words[i].end)
	sc.story.named[t.line], sc.story.vague[t.line] = at, true
	sc.diags.Askf("U218", at, "%s or %s: which", last.Line.Name, t.line.Name).
		Because("both are gathered, and only the first is taken here").
		WithHelp("gather one, with the other below it as `instead`; or name in another step what is left")
	return true
}

// adjacent tells whether nothing but a mark stands between a source offset and word k.
func (sc *scanner) adjacent(end, k int) bool {
	return k > 0 && sc.place(sc.words[k-1].start, sc.words[k-1].end).End <= end
}

// gatheredAs is the line that the water of a decoy is gathered as: "cold
// water" is the water of the list while there is some.
func (sc *scanner) gatheredAs(i, n int) *Line {
	for k := i; k < i+n; k++ {
		if sc.lower(k) == "tap" { // not what is gathered
			return nil
		}
	}
	if sc.words[i+n-1].key != "water" {
		if n > 1 && plainly[sc.lower(i)] {
			if ms := sc.finder.at(sc.words, i+1, false); len(ms) == 1 && ms[0].whole && ms[0].length == n-1 {
				return ms[0].target.line
			}
		}
		return nil
	}
	var found *Line
	for _, l := range sc.lines {
		if l.Water && sc.story.left[l].Sign() > 0 {
			if found != nil {
				return nil
			}
			found = l
		}
	}
	return found
}

// plainly are adjectives that make no other thing of what is gathered without
// them: fine salt, best flour.
var plainly = wordSet("fine coarse best good common table fresh clean ordinary plain new cold hot warm soft")

// begun tells whether the n words at i are the first ones of a line's name.
func (sc *scanner) begun(l *Line, i, n int) bool {
	name := sc.builder.words(l.Name)
	if n >= len(name) {
		return false
	}
	for k := range n {
		if sc.words[i+k].key != name[k].key {
			return false
		}
	}
	return true
}

// joined tells whether a known name is only two names with "and" between
// them: "salt and pepper", where salt is gathered.
func (sc *scanner) joined(i, n int) bool {
	for k := i + 1; k < i+n-1; k++ {
		if sc.lower(k) == "and" {
			return true
		}
	}
	return false
}

// egg reads "the yolks of the eggs", "the white of an egg" where yolks or whites are
// gathered.
func (sc *scanner) egg(i int) (m match, n int, w *wanted) {
	part := sc.words[i].key
	if part != "yolk" && part != "white" || sc.lower(i+1) != "of" {
		return m, 0, nil
	}
	var line *Line
	for _, l := range sc.lines {
		switch l.Key {
		case "egg " + part:
			line = l
		}
		if line == nil && l.gives(part) { // of a whole one
			line = l
		}
	}
	if line == nil {
		return m, 0, nil
	}
	t := target{line: line}
	if line.gives(part) {
		t.part = part
	}
	k := i + 2
	if articles[sc.lower(k)] {
		k++
	}
	if sc.lower(k) == "only" || sc.lower(k) == "but" {
		k++
	}
	if s, next, ok := sc.spokenAt(k); ok && !s.Part {
		v := s.Value
		w = &wanted{number: &v, start: sc.words[i].start, figure: sc.words[k].start, end: sc.words[next-1].end}
		if !s.Article && (next >= len(sc.words) || sc.words[next].stop || sc.lower(next) == "and") { // and the whites of two
			return match{form{target: t, whole: true}, next - i}, next - i, w
		}
		if k = next; sc.lower(k) == "of" && articles[sc.lower(k+1)] { // whites of two of the eggs
			k += 2
		}
	}
	if k >= len(sc.words) || sc.words[k].key != "egg" {
		return m, 0, nil
	}
	return match{form{target: t, whole: true}, k + 1 - i}, k + 1 - i, w
}

// sieve narrows several meanings of one short form to those with something
// left. More than one: the sentence is ambiguous. None: it refers back, and
// nothing is taken.
func (sc *scanner) sieve(ms []match, at source.Span) []match {
	ms = onceEach(ms)
	var left []match
	for _, m := range ms {
		if sc.hasLeft(m.target) {
			left = append(left, m)
		}
	}
	if len(left) > 1 { // "chop the coriander" speaks of no seeds
		if kind := sc.leafOrSeed(); kind != "" {
			fits := slices.DeleteFunc(slices.Clone(left), func(m match) bool { return m.target.line == nil || m.target.line.isSeed() != (kind == "seed") })
			if len(fits) == 1 {
				return fits
			}
		}
	}
	// A name said whole earlier in the step is what a short form means after it.
	for _, m := range ms {
		if sc.isHere(m.target) {
			return []match{m}
		}
	}
	if len(left) > 1 { // what is for the table comes last
		cooking := slices.DeleteFunc(slices.Clone(left), func(m match) bool { return m.target.line != nil && m.target.line.Serving })
		if len(cooking) > 0 {
			left = cooking
		}
	}
	if len(left) > 1 { // "the butter" is not that for basting, when there is other
		plain := slices.DeleteFunc(slices.Clone(left), func(m match) bool { return m.target.line != nil && forWhat(m.target.line.Note.Text) })
		if len(plain) > 0 {
			left = plain
		}
	}
	if len(left) <= 1 {
		return left
	}
	for _, m := range left { // reported once: not also as never used, or left over
		if l := m.target.line; l != nil {
			sc.story.named[l], sc.story.vague[l] = at, true
		}
	}
	d := sc.diags.Askf("U205", at, "which %s is meant here", at.Text()).
		Because("%d things that are gathered are called so, and the amount must come from one of them", len(left))
	alike := false
	for _, m := range left {
		switch {
		case m.target.line != nil:
			d.See(m.target.line.NameAt, "%s", m.target.line.Name)
			if name := whichLine(left, m.target.line); name != "" {
				d.WithHelp("write %q", name)
			} else {
				alike = true
			}
		case m.target.product != nil:
			d.See(m.target.product.Made.Span, "%s", m.target.product.Name)
			d.WithHelp("write %q", m.target.product.Name)
		}
	}
	if alike {
		d.WithHelp("two of them have one name: put each under its own list, `for the filling`, and say `%s for the filling`", at.Text())
	}
	return nil
}

// isSeed tells whether a line is of seeds, or of what is ground of them.
func (l *Line) isSeed() bool {
	return hasWord(l.Key, wordSet("seed ground powder")) || l.Note.Text != "" && hasWord(strings.ToLower(l.Note.Text), wordSet("ground seeds"))
}

// leafOrSeed tells by the verb of the sentence whether leaves or seeds are meant.
func (sc *scanner) leafOrSeed() string {
	for _, w := range sc.words {
		switch w.key {
		case "chop", "tear", "shred", "scatter", "snip", "pick", "wash", "sprig", "stalk":
			return "leaf"
		case "toast", "grind", "crush", "pound", "bruise":
			return "seed"
		}
	}
	return ""
}

// whichLine is what to write for a line among others of its kind: its name, with its
// list where another has the same name; "" where that would not tell them apart.
func whichLine(all []match, l *Line) string {
	for _, m := range all {
		if o := m.target.line; o != nil && o != l && o.Key == l.Key {
			if l.Sub == nil {
				return ""
			}
			return l.Name + " for the " + l.Sub.Name
		}
	}
	return l.Name
}

func (sc *scanner) hasLeft(t target) bool {
	switch {
	case t.line != nil:
		return sc.story.left[t.line].Sign() > 0
	case t.sub != nil:
		for _, l := range t.sub.Lines {
			if sc.story.left[l].Sign() > 0 {
				return true
			}
		}
		return false
	}
	return true
}
