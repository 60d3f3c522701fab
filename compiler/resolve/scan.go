package resolve

import (
	"slices"
	"strings"

	"tamis/compiler/larder"
	"tamis/lang/quantity"
	"tamis/lang/source"
)

// scanner walks the words of one sentence.
type scanner struct {
	*reader
	text    string
	words   []word
	place   func(from, to int) source.Span
	starts  []lineStart
	story   *story
	here    []target // found already in this step
	takes   []Take
	parted  map[source.Span][]string // which parts of its thing a take at a place is of
	spent   []bool                   // words whose figures are accounted for
	unit    *quantity.Unit           // of the last amount that was said
	kept    bool                     // something is put by, and the rest goes in
	halved  *Line                    // "divide the flour in half": a half of it is taken where it is said
	doubted int                      // the word behind the last phrase that was asked about, "half as much"
	cases   int                      // the word that says of how many each one is, "each of 24 cases"; 0: none
	found   []Figure                 // the others

	// pastFrom and pastTo are the words that name again the rest of what was put
	// by, which goes in where that was said; see reserved.
	pastFrom, pastTo int
}

// isHere tells whether a target was found already in this step.
func (sc *scanner) isHere(t target) bool { return slices.Contains(sc.here, t) }

// nowHere notes that a target was found.
func (sc *scanner) nowHere(t target) {
	if !sc.isHere(t) {
		sc.here = append(sc.here, t)
	}
}

func (sc *scanner) scan() {
	for i := 0; i < len(sc.words); {
		if i == sc.pastFrom && sc.pastTo > 0 {
			i = sc.pastTo
			continue
		}
		if n := sc.everything(i); n > 0 {
			sc.spend(i, i+n)
			i += n
			continue
		}
		if sc.words[i].key == "season" {
			if !sc.says(i+1, "with") { // "season with salt" names what is meant
				sc.season(i)
			}
			i++
			continue
		}
		sc.saltedWater(i)
		if n := sc.forEveryUnit(i); n > 0 {
			i = n
			continue
		}
		if n := sc.recipes(i); n > 0 {
			i = n
			continue
		}
		if n := sc.divides(i); n > 0 {
			i = n
			continue
		}
		if n := sc.asMuch(i); n > 0 {
			i = n
			continue
		}
		sc.weighedBy(i)
		if n := sc.ratio(i); n > 0 {
			sc.spend(i, n)
			i = n
			continue
		}
		sc.orElse(i)
		if n := sc.keepsRest(i); n > 0 {
			sc.spend(i, n)
			i = n
			continue
		}
		if n := sc.putAside(i); n > 0 {
			sc.spend(i, n)
			i = n
			continue
		}
		if n := sc.notAll(i); n > 0 {
			i = n
			continue
		}
		if next, until, ok := sc.keptOut(i); ok {
			sc.skip(next, until)
			i = max(until, i+1)
			continue
		}
		if w, next, ok := sc.wantedAt(i); ok {
			if (w.share != nil && !w.rest || w.measured() || w.unmeasured) && !w.article && sc.reserved(i, next) {
				kept := w
				sc.kept = true
				w = wanted{start: w.start, figure: w.figure, end: w.end, but: &kept}
			}
			if n := sc.nameAfter(next, &w); n > 0 {
				sc.spend(i, n)
				i = n
				continue
			}
			if n := sc.itSaid(i, next, &w); n > 0 {
				sc.spend(i, n)
				i = n
				continue
			}
			if n := sc.nameless(i, next, &w); n > 0 {
				sc.spend(i, n)
				i = n
				continue
			}
		}
		if isVerb(sc.words, i) {
			sc.greases(i)
			i++
			continue
		}
		if sc.actsOn(i) || sc.verbOfNames(i) {
			i++
			continue
		}
		if n := sc.name(i, i, nil); n > i {
			sc.spend(i, n)
			i = n
			continue
		}
		i++
	}
}

// spend marks words whose figures have been accounted for.
func (sc *scanner) spend(from, to int) {
	for k := from; k < to && k < len(sc.spent); k++ {
		sc.spent[k] = true
	}
}

// skip steps over the names that a sentence keeps out, with their figures.
func (sc *scanner) skip(from, until int) {
	for k := from; k < until; {
		if ms := sc.finder.at(sc.words, k, false); len(ms) > 0 {
			sc.spend(from, k+ms[0].length)
			k += ms[0].length
			continue
		}
		k++
	}
}

// abbreviations takes away the end of the sentence that tokens saw behind "lb."
// in "1 lb. of the flour".
func (sc *scanner) abbreviations() {
	for i := 1; i < len(sc.words); i++ { // 3/4 and 1.5 are one figure
		switch sc.text[sc.words[i-1].end:sc.words[i].start] {
		case "/", "⁄", "∕", ".", ",":
			if sc.digit(i-1) && sc.digit(i) {
				sc.words[i].glue, sc.words[i].opens, sc.words[i].stop = true, false, false
			}
		}
	}
	for i := 1; i+1 < len(sc.words); i++ {
		w, next := sc.words[i], &sc.words[i+1]
		if c := sc.text[next.start]; next.opens && shortened[w.low] && sc.text[w.end] == '.' && (c >= '0' && c <= '9' || c >= 'a' && c <= 'z') {
			next.opens, next.stop = false, false
			continue
		}
		if !next.opens || sc.text[w.end] != '.' || len(w.text) > len("tablesp") || next.text[0] < 'a' || next.text[0] > 'z' {
			continue
		}
		if u, n := quantity.ReadSpokenUnit(sc.text[w.start:], sc.recipe.reading); u != nil && n == w.end+1-w.start || sc.letter(i) != nil {
			k := i - 1
			for k > 0 && sc.words[k].glue { // 2 1/2 lb.
				k--
			}
			_, _, ok := sc.spokenAt(k)
			if w := sc.lower(k); ok || w == "other" || w == "last" || w == "remaining" || inSeries[w] {
				next.opens, next.stop = false, false
			}
		}
	}
}

// shortened are words that are cut short with a full stop, which ends no sentence.
var shortened = wordSet("approx bal ca each with incl excl esp min max no nr vol qty")

// forEveryUnit reads "for every kilo of mushrooms" behind an amount: they are only
// measured by, and went in elsewhere. It gives the word behind, or 0.
func (sc *scanner) forEveryUnit(i int) int {
	k := i + 1
	switch sc.lower(i) {
	case "for":
		if sc.words[i].opens || sc.lower(k) != "every" && sc.lower(k) != "each" {
			return 0
		}
		k++
	case "per":
	default:
		return 0
	}
	u, n := sc.unitAt(k)
	if n <= k || u.Dim != quantity.Mass && u.Dim != quantity.Volume || sc.lower(n) != "of" {
		return 0
	}
	if n++; articles[sc.lower(n)] {
		n++
	}
	if n >= len(sc.words) || sc.words[n].stop {
		return 0
	}
	if ms := sc.finder.at(sc.words, n, false); len(ms) > 0 {
		return n + ms[0].length
	}
	return 0
}

// recipes reads "2 recipes of" and "1 1/3 recipes" before a name: so many times what
// another recipe makes, which is gathered. It gives the word behind.
func (sc *scanner) recipes(i int) int {
	s, next, ok := sc.spokenAt(i)
	if !ok || s.Part && sc.lower(next) == "of" {
		return 0
	}
	if next >= len(sc.words) || sc.words[next].stop || sc.words[next].key != "recipe" {
		return 0
	}
	sc.figure(FigureKept, i, next, quantity.Pieces(s.Value.High))
	sc.spend(i, next+1)
	return next + 1
}

// mixes are what is done with "ingredients" that means all of them.
var mixes = wordSet("mix combine beat blend whisk stir put add place measure")

// ofTheKitchen are things called by what goes into them: a butter dish, a
// potato ricer.
var ofTheKitchen = func() map[string]bool {
	set := map[string]bool{}
	for w := range wordSet("ricer masher peeler whisk beater slicer dish grinder mill press cutter strainer pan bowl tin pot board knife basin kettle boiler steamer mould mold jug box basket crusher cellar scoop server dredger sifter grater") {
		set[larder.Fold(w)] = true
	}
	return set
}()

// moves are done to what is in the pan already.
var moves = wordSet("push shove move flip scrape lift strain drain pushing moving")

// everything reads "everything", "all the ingredients", "the other ingredients".
func (sc *scanner) everything(i int) int {
	switch sc.words[i].key {
	case "everything", "ingredient", "the", "all":
	default:
		return 0
	}
	n := 0
	switch {
	case sc.words[i].key == "everything":
		if i > 0 && moves[sc.lower(i-1)] {
			return 0
		}
		n = 1
	case sc.words[i].key == "ingredient" && i > 0 && mixes[sc.lower(i-1)]:
		n = 1
	case sc.says(i, "the", "ingredient") && i > 0 && mixes[sc.lower(i-1)], sc.says(i, "all", "ingredient"):
		n = 2
	case sc.says(i, "the", "other", "ingredient"), sc.says(i, "the", "remaining", "ingredient"), sc.says(i, "all", "the", "ingredient"):
		n = 3
	case sc.says(i, "all", "of", "the", "ingredient"), sc.says(i, "all", "the", "other", "ingredient"), sc.says(i, "all", "the", "remaining", "ingredient"):
		n = 4
	case sc.says(i, "the", "rest", "of", "the", "ingredient"), sc.says(i, "all", "of", "the", "other", "ingredient"):
		n = 5
	default:
		return 0
	}
	out, end := sc.butFor(i + n) // "everything but the eggs"
	sc.restNamed(end, &out)
	at := sc.place(sc.words[i].start, sc.words[i+n-1].end)
	sc.madeOf(end, at)
	for _, l := range sc.lines {
		if left := sc.story.left[l]; left.Sign() > 0 && !l.Serving && !out[l] {
			t := Take{Span: at, NameAt: at, All: true}
			sc.story.take(l, &t, left)
			sc.takes = append(sc.takes, t)
		}
	}
	return end - i
}

// restNamed leaves out what the sentence goes on to name the rest of: "sweat everything in what
// is left of the oil".
func (sc *scanner) restNamed(i int, out *map[*Line]bool) {
	for k := i; k < len(sc.words) && !sc.words[k].opens; k++ {
		w, n, ok := sc.wantedAt(k)
		if !ok || !w.rest {
			continue
		}
		if sc.lower(n) == "of" {
			n++
		}
		if articles[sc.lower(n)] {
			n++
		}
		if n < len(sc.words) && !sc.words[n].stop {
			if ms := sc.finder.at(sc.words, n, false); len(ms) == 1 && ms[0].target.line != nil {
				if *out == nil {
					*out = map[*Line]bool{}
				}
				(*out)[ms[0].target.line] = true
			}
		}
	}
}

// mades are made of some of what is gathered.
var mades = wordSet("dressing vinaigrette sauce marinade syrup glaze icing frosting filling topping stuffing custard gravy")

// madeOf asks what "everything" leaves out, where the clause goes on to a dressing
// or a sauce that no step has made: some of what is gathered must be for that.
func (sc *scanner) madeOf(i int, at source.Span) {
	for k := i; k < len(sc.words) && !sc.words[k].opens; k++ {
		word := sc.words[k].key
		if !mades[word] || len(sc.finder.at(sc.words, k, false)) > 0 {
			continue
		}
		for _, s := range sc.recipe.Steps {
			if s == sc.now {
				break
			}
			if hasWord(strings.ToLower(s.Prose.Text), map[string]bool{word: true}) {
				return
			}
		}
		sc.diags.Askf("U213", at, "no step has made the %s, so what is gathered for it is taken here too", sc.lower(k)).
			WithHelp("make the %s in a step before this, or gather what goes into it below `for the %s`", sc.lower(k), sc.lower(k))
		return
	}
}

// says tells whether these folded words stand at i.
func (sc *scanner) says(i int, words ...string) bool {
	if i+len(words) > len(sc.words) {
		return false
	}
	for k, w := range words {
		if sc.words[i+k].key != w || k > 0 && sc.words[i+k].stop {
			return false
		}
	}
	return true
}

// season takes of every line that is to taste.
func (sc *scanner) season(i int) {
	at := sc.place(sc.words[i].start, sc.words[i].end)
	for _, l := range sc.lines {
		if l.seasons() && !sc.isHere(target{line: l}) {
			sc.nowHere(target{line: l})
			t := Take{Span: at, NameAt: at}
			if !l.ToTaste && sc.story.left[l].Sign() <= 0 {
				continue
			}
			if !l.ToTaste {
				sc.takeLine(l, t, &wanted{unmeasured: true}, false)
				continue
			}
			sc.story.take(l, &t, quantity.Number{})
			sc.takes = append(sc.takes, t)
		}
	}
}

// actsOn tells whether the last word of a longer name stands at i as a verb: "Rub the
// leeks", where a spice rub is gathered.
func (sc *scanner) actsOn(i int) bool {
	if (sc.words[i].stop || sc.words[i].opens) && sc.lower(i+1) == "and" && i+2 < len(sc.words) && !sc.words[i+1].stop && readies[sc.words[i+2].key] && sc.lower(i) == sc.words[i].key { // seed and dice the rest
		if ms := sc.finder.at(sc.words, i, false); len(ms) > 0 && !ms[0].whole && ms[0].length == 1 {
			return true
		}
	}
	if !verbNow(sc.words, i) || i+1 >= len(sc.words) || sc.words[i+1].stop {
		return false
	}
	switch sc.lower(i + 1) {
	case "the", "a", "an", "it", "them", "your", "both", "each":
	default:
		return false
	}
	ms := sc.finder.at(sc.words, i, false)
	return len(ms) > 0 && !ms[0].whole && ms[0].length == 1
}

// verbOfNames tells whether the verb at word i, which is also the end of a longer name, is
// followed by what it acts on, without an article: "Cream butter and sugar", where sour cream
// is gathered.
func (sc *scanner) verbOfNames(i int) bool {
	if w := sc.words[i]; !methodWords().verbs[w.key] && !readies[w.key] && !(w.opens && w.low == "seed") || !verbNow(sc.words, i) || i+1 >= len(sc.words) || sc.words[i+1].stop || sc.words[i+1].glue {
		return false
	}
	ms := sc.finder.at(sc.words, i, false)
	if len(ms) == 0 || ms[0].length > 1 || ms[0].whole {
		return false
	}
	if length, _ := sc.decoyAt(sc.recipe.Scope, sc.words, i); length > 1 { // cream cheese
		return false
	}
	return sc.named(i+1) || sc.words[i].opens && sc.counts(i+1)
}

// greases takes some of the butter for "butter the tin", where the line has no
// amount or something of it went in before: what is left is for that too.
func (sc *scanner) greases(i int) {
	switch sc.words[i].key {
	case "butter", "oil", "flour", "lard", "salt", "sugar", "pepper":
	default:
		return
	}
	ms := sc.finder.at(sc.words, i, false)
	if len(ms) != 1 || ms[0].target.line == nil || ms[0].length != 1 || sc.isHere(ms[0].target) {
		return
	}
	l := ms[0].target.line
	if l.ToTaste || sc.story.left[l].Sign() <= 0 || l.Quantity != nil && (!sc.story.touched[l] || sc.story.vague[l]) || l.Quantity == nil && l.Key == "salt" {
		return
	}
	at := sc.place(sc.words[i].start, sc.words[i].end)
	sc.takeLine(l, Take{Span: at, NameAt: sc.place(sc.words[i].end, sc.words[i].end)}, &wanted{unmeasured: true}, false)
}

// seasons tells whether a line is what "season" takes: to taste, or salt or
// pepper that has no amount.
func (l *Line) seasons() bool {
	if l.ToTaste || l.Quantity != nil || l.Share != nil || l.Serving || l.Written != nil {
		return l.ToTaste
	}
	head := l.head()
	return head == "salt" || head == "pepper" || head == "seasoning"
}

// saltedWater takes some of the salt for "salted water", where no step has
// named it yet and nobody says how much.
func (sc *scanner) saltedWater(i int) {
	if sc.lower(i) != "salted" || sc.lower(i+1) != "water" && sc.lower(i+2) != "water" {
		return
	}
	for _, l := range sc.lines {
		_, named := sc.story.named[l]
		if named || l.Quantity != nil || l.ToTaste || l.Serving || l.Key != "salt" && !strings.HasSuffix(l.Key, " salt") {
			continue
		}
		at := sc.place(sc.words[i].start, sc.words[i].end)
		sc.takeLine(l, Take{Span: at, NameAt: at}, &wanted{unmeasured: true}, false)
		return
	}
}

// nameAfter looks for a name behind an amount: past "of", an article and at
// most two words of description. It returns the word after the name, and after
// all that belongs to it, or 0.
func (sc *scanner) nameAfter(i int, w *wanted) int {
	ws := sc.words
	skip := func(word string) bool {
		if i < len(ws) && !ws[i].stop && sc.lower(i) == word {
			i++
			return true
		}
		return false
	}
	skip("more")
	if sc.lower(i) == "or" && sc.lower(i+1) == "so" {
		i += 2
	}
	if i+1 < len(ws) && !ws[i].stop && strings.HasSuffix(sc.lower(i), "est") && sc.lower(i+1) == "of" { // the three largest of the
		i++
	}
	if i+1 < len(ws) && sc.lower(i) == "out" && sc.lower(i+1) == "of" && !ws[i].stop && (sc.named(i+1) || articles[sc.lower(i+2)] && sc.counts(i+3)) { // 1 tsp out of the cumin, two out of the six eggs
		i++
	}
	skip("of")
	if skip("each") { // half of each of the
		w.every = true
		skip("of")
	}
	w.ordinal = w.ordinal && (i == 0 || sc.lower(i-1) != "of")
	if i > 0 && i < len(ws) && w.rest && articles[sc.lower(i)] && (sc.lower(i-1) == "rest" || sc.lower(i-1) == "remainder") { // and to the rest the seeds
		return 0
	}
	if i < len(ws) && articles[sc.lower(i)] && !ws[i].stop {
		w.ordinal = w.ordinal && w.amount != nil
		i++
		if i < len(ws) && !ws[i].stop && (ws[i].key == "remaining" || ws[i].key == "rest" || ws[i].key == "remainder" || ws[i].key == "other") { // "half of the remaining stock"
			if w.share != nil && !w.share.Rest {
				w.share.OfRest = true
			}
			i++
			skip("of")
			skip("the")
		} else if _, next, ok := sc.spokenAt(i); ok && w.measured() && next < len(ws) && !ws[next].glue { // "one of the four onions"
			i = next
		}
	}
	if w.number != nil && !w.article && i > 0 && articles[sc.lower(i-1)] { // one of the tins of tomatoes
		if u, n := sc.unitAt(i); n > i && u.Dim == quantity.Word && sc.lower(n) == "of" && sc.named(n) && sc.comesIn(i) {
			of := *w
			of.amount, of.number = plain(*w.number, u), nil
			*w, i = of, n+1
			skip("the")
		}
	}
	if w.share != nil && !w.article && i > 0 && articles[sc.lower(i-1)] && i+1 < len(ws) && !ws[i].stop && boxes[ws[i].key] && sc.lower(i+1) == "of" && sc.named(i+1) { // half the bag of peas
		i += 2
		skip("the")
	}
	for k := 0; k <= 2 && i+k < len(ws); k++ {
		if ws[i+k].stop && (k > 0 || i > 0 && ws[i].start > w.end) {
			return 0
		}
		if n := sc.name(i+k, i, w); n > i+k {
			return sc.more(n, w)
		}
		if fillerStops[ws[i+k].key] {
			return 0
		}
	}
	return 0
}

// boxes are what a thing is bought in: a share of it is that share of the thing.
var boxes = wordSet("bag packet pack package box carton bottle jar tin can tub pot punnet block slab bar bunch head loaf joint piece tray net sack roll tube")

// more reads the further names that the same amount speaks of: "2 tbsp each of
// the oil and vinegar", "the rest of the flour and milk". i is the word behind the first.
func (sc *scanner) more(i int, w *wanted) int {
	for {
		k := i
		if k >= len(sc.words) || sc.lower(k) != "and" && !(w.every && sc.words[k].stop && !sc.words[k].opens) {
			return i
		}
		if sc.lower(k) == "and" {
			k++
		}
		article := k < len(sc.words) && articles[sc.lower(k)]
		if article {
			k++
		}
		if k >= len(sc.words) || sc.words[k].stop && k > i {
			return i
		}
		ms := sc.finder.at(sc.words, k, false)
		if len(ms) == 0 {
			return i
		}
		switch {
		case w.every:
			again := *w
			again.start, again.end, again.figure = 0, 0, 0
			i = sc.take(k, k, &again, ms, ms[0].length)
		case w.rest:
			if l := ms[0].target.line; l == nil || !sc.story.touched[l] {
				return i
			}
			again := *w
			again.start = sc.words[k].start
			i = sc.take(k, k, &again, ms, ms[0].length)
		case w.unmeasured && !article && !sc.words[i].stop:
			if l := ms[0].target.line; l == nil || l.Quantity == nil || l.ToTaste || sc.story.left[l].Sign() <= 0 {
				return i
			}
			again := *w // a little of the salt and pepper
			again.start, again.end, again.figure, again.heaps = sc.words[k].start, 0, 0, nil
			i = sc.take(k, k, &again, ms, ms[0].length)
		case w.share != nil && !article && !w.share.OfRest && sc.lower(i) == "and" && sc.words[i].stop:
			return i
		case w.share != nil && !article && !w.share.OfRest:
			if l := ms[0].target.line; l == nil || sc.story.left[l].Sign() <= 0 {
				return i
			}
			at := sc.place(w.start, sc.words[k+ms[0].length-1].end)
			sc.diags.Askf("U215", at, "is this a share of both").
				Because("it is read as %s of the first, and all of the second", shareSaid(w)).
				WithHelp("write the share before each of them, or `the` before the second")
			return i
		default:
			return i
		}
	}
}

func shareSaid(w *wanted) string { return w.share.Fraction.String() }

// nameless reads a number that stands for something named before it in the
// step, or for a thing that is counted in its unit: "crush one clove", "slice two of the lemons and squeeze the rest".
func (sc *scanner) nameless(i, next int, w *wanted) int {
	if sc.kept && !w.rest && (sc.says(i, "the", "remaining") || sc.says(i, "the", "other")) && !sc.named(next) { // it went in where the rest was put by
		return next
	}
	ends := next >= len(sc.words) || sc.words[next].stop || sc.lower(next) == "and" || sc.lower(next) == "then" || sc.lower(next) == "in" || sc.lower(next) == "for" || sc.lower(next) == "on" || w.rest && (sc.lower(next) == "before" || strings.HasSuffix(sc.lower(next), "ly")) ||
		sc.lower(i) == "the" && !w.rest && (sc.lower(next) == "into" || sc.lower(next) == "to" || sc.lower(next) == "with" || sc.lower(next) == "over" || sc.lower(next) == "very" || strings.HasSuffix(sc.lower(next), "ly"))
	ends = ends || w.rest && (manners[sc.lower(next)] || sc.leftAs(next))  // leave the rest whole
	if u := unitOf(w.amount); u != nil && sc.boxed(u) && !sc.named(next) { // open three of the tins first
		ends = true
	}
	if (w.rest || w.other) && sc.lower(next) == "the" && onAnotherDay[sc.lower(next+1)] { // and the remaining third the next
		ends = true
	}
	if w := sc.lower(next); w == "apiece" || w == "each" && (next+1 >= len(sc.words) || sc.words[next+1].stop) { // a rasher and a half apiece
		ends = true
	}
	if sc.lower(next) == "more" || sc.lower(next) == "others" || sc.lower(next) == "other" { // "then two more"
		next++
		ends = true
	}
	if first := sc.lower(i); !ends && (first == "another" || first == "the" && !w.rest) { // the other third raw, the other six whole
		ends = aloneBefore[sc.lower(next)] || strings.HasSuffix(sc.lower(next), "ed") && !sc.named(next) && !sc.named(next+1) || sc.lower(next) == "cut" || sc.lower(next) == "left" || sc.lower(next) == "to" || sc.lower(next) == "with" || strings.HasSuffix(sc.lower(next), "ly")
	}
	if n := sc.ofThose(i, next, w); n > 0 {
		return n
	}
	if n := sc.restOfEach(i, next, w); n > 0 {
		return n
	}
	if !ends && !(!sc.kept && (w.rest || w.share != nil) && fillerStops[sc.lower(next)]) {
		return 0
	}
	if w.amount != nil && len(w.amount.Measure.Terms) == 1 && (sc.lower(i) != "the" || w.amount.Measure.Terms[0].Unit == nil || w.amount.Measure.Terms[0].Unit.Dim == quantity.Word) {
		u := w.amount.Measure.Terms[0].Unit
		if u == nil || u.Dim != quantity.Word {
			return 0
		}
		var found *Line
		for _, l := range sc.lines {
			boxed := l.Written != nil && l.Written.Kind == quantity.Packages && sameContainer(l.Written.Container, u) // three of the tins
			if (l.Quantity != nil && l.Quantity.Unit == u || boxed) && sc.story.left[l].Sign() > 0 {
				if found != nil {
					return 0
				}
				found = l
			}
		}
		if found == nil { // the other clove, where two garlic cloves are gathered
			return sc.namedUnit(i, next, w, u)
		}
		each, _ := sc.behind(next, w)
		sc.takeLine(found, sc.taking(i, next, w), each, false)
		return next
	}
	first := sc.lower(i)
	if w.rest && (sc.lower(next) == "later" || sc.says(next, "in", "a", "minute") || sc.says(next, "in", "a", "moment") || sc.says(next, "for", "later") || sc.lower(next) == "afterwards" || sc.lower(next) == "tomorrow") {
		return next // not here
	}
	if (w.rest || w.share != nil && !w.share.OfRest && sc.halved != nil) && !w.measured() {
		if l := sc.lastShared(w); l != nil {
			sc.takeLine(l, sc.taking(i, next, w), w, false)
			return next
		}
	}
	if n := sc.otherShare(i, next, w); n > 0 {
		return n
	}
	if w.share != nil && w.share.OfRest { // dice half of the other
		if l := sc.lastCounted(); l != nil && sc.story.left[l].Sign() > 0 && sc.story.touched[l] {
			sc.takeLine(l, sc.taking(i, next, w), w, false)
			return next
		}
	}
	if w.amount != nil && first == "the" { // 50 g of it, and then "the other 25 g"
		if l := sc.lastTaken(); l != nil && sc.story.left[l].Sign() > 0 {
			sc.takeLine(l, sc.taking(i, next, w), w, false)
			return next
		}
		return 0
	}
	if w.number != nil && (w.whole || first == "the" && len(sc.partsBefore(i)) > 0) { // the rind of one lemon, and the juice of the two
		return sc.allOfThem(i, next, w)
	}
	if w.rest && sc.kept {
		return 0
	}
	if w.number == nil && !w.rest || w.article && first != "another" || first != "the" && first != "another" && first != "other" && sc.lower(next-1) != "more" && !w.rest {
		return 0
	}
	l := sc.lastCounted()
	if l == nil || sc.story.left[l].Sign() <= 0 {
		return 0
	}
	sc.takeLine(l, sc.taking(i, next, w), w, false)
	return next
}

// onAnotherDay say behind "the" when a thing goes in.
var onAnotherDay = wordSet("next following second last third day morning evening night")

// leftAs tells whether the words at i say how the rest of a thing is: "the others left whole",
// "the rest cut small".
func (sc *scanner) leftAs(i int) bool {
	switch w := sc.lower(i); w {
	case "left":
		return manners[sc.lower(i+1)]
	case "cut", "ground", "shred":
		return !sc.named(i + 1)
	default:
		return i < len(sc.words) && strings.HasSuffix(w, "ed") && readies[sc.words[i].key] && !sc.named(i) && !sc.named(i+1)
	}
}

// restOfEach reads "half the flour, half the milk, then the rest of each": what is left of all
// of which the step took a part. It gives the word behind, or 0.
func (sc *scanner) restOfEach(i, next int, w *wanted) int {
	if !w.rest || sc.lower(next) != "of" || sc.lower(next+1) != "each" && sc.lower(next+1) != "both" || sc.named(next+2) {
		return 0
	}
	var lines []*Line
	for _, t := range sc.takes {
		if t.Line != nil && !t.Refers && !t.All && sc.story.left[t.Line].Sign() > 0 && !slices.Contains(lines, t.Line) {
			lines = append(lines, t.Line)
		}
	}
	if len(lines) < 2 {
		return 0
	}
	for _, l := range lines {
		sc.takeLine(l, sc.taking(i, next+2, w), w, false)
	}
	return next + 2
}

// ofThose reads "the other", "the rest" behind a number that shares out what was just
// taken: "melt 2 sticks of the butter; toss one with the crumbs and the other with the
// peas". Nothing more is taken. It gives the word behind, or 0.
func (sc *scanner) ofThose(i, next int, w *wanted) int {
	if !w.rest && !(w.number != nil && sc.lower(i) == "the" && sc.lower(i+1) == "other") || len(sc.takes) == 0 {
		return 0
	}
	last := sc.takes[len(sc.takes)-1]
	for k := len(sc.takes) - 1; k >= 0 && (last.Line == nil || last.Amount == nil || last.Amount.Dim != quantity.None && last.Amount.Dim != quantity.Word); k-- {
		last = sc.takes[k]
	}
	if last.Line == nil || last.Amount == nil || last.Refers || last.All || last.Amount.Dim != quantity.None && last.Amount.Dim != quantity.Word {
		return 0
	}
	for k := i - 1; k >= 0; k-- {
		if at := sc.place(sc.words[k].start, sc.words[k].end); at.Start <= last.NameAt.End {
			return 0
		}
		s, n, ok := sc.spokenAt(k)
		if !ok || s.Part || s.Article || sc.spent[k] || !sc.standsAlone(k, n) || !s.Value.High.Less(last.Amount.Value.High) {
			continue
		}
		if w.number != nil && !s.Value.High.Add(w.number.High).Equal(last.Amount.Value.High) {
			return 0
		}
		return next
	}
	return 0
}

// otherShare reads "then the other half", "another third", "the last third" behind a
// share of the same size, of the same thing. Of two such things it asks.
func (sc *scanner) otherShare(i, next int, w *wanted) int {
	if w.share == nil || w.rest || w.share.OfRest {
		return 0
	}
	last := false
	switch sc.lower(i) {
	case "another":
	case "the":
		switch sc.lower(i + 1) {
		case "other", "last", "final", "remaining":
			last = true
		default:
			return 0
		}
	default:
		return 0
	}
	var found *Line
	for _, t := range sc.takes {
		l := t.Line
		if l == nil || l == found || t.Refers || t.All || t.Unmeasured || sc.story.left[l].Less(w.share.Fraction) || last && !sc.story.left[l].Equal(w.share.Fraction) || !last && !t.Part.Equal(w.share.Fraction) {
			continue
		}
		if found != nil {
			at := sc.place(sc.words[i].start, sc.words[next-1].end)
			sc.diags.Askf("U205", at, "%s of what", at.Text()).
				Because("it may be said of %s and of %s", found.Name, l.Name).
				WithHelp("name it: `%s of the %s`", at.Text(), l.Name)
			return next
		}
		found = l
	}
	if found == nil {
		return 0
	}
	sc.takeLine(found, sc.taking(i, next, w), w, false)
	return next
}

// allOfThem reads "the juice of all five" behind "the zest of three of the
// lemons": as many as there are of what was counted last.
func (sc *scanner) allOfThem(i, next int, w *wanted) int {
	l := sc.lastCounted()
	if l == nil || l.Quantity == nil || !l.Quantity.Value.High.Equal(w.number.High) {
		return 0
	}
	t := sc.taking(i, next, w)
	parts := sc.partsBefore(i)
	if len(parts) == 0 || !l.gives(parts[0]) {
		if sc.story.left[l].Sign() <= 0 {
			return 0
		}
		sc.takeLine(l, t, &wanted{share: &Share{Rest: true}, rest: true, start: w.start, end: w.end, figure: w.figure}, false)
		return next
	}
	sc.takes = append(sc.takes, sc.reader.takeParts(sc.story, l, t, w, parts))
	return next
}

// lastTaken is the line of which the step took a measured part last.
func (sc *scanner) lastTaken() *Line {
	for k := len(sc.takes) - 1; k >= 0; k-- {
		if t := sc.takes[k]; t.Line != nil && !t.Refers {
			if t.All || t.Amount == nil {
				return nil
			}
			return t.Line
		}
	}
	return nil
}

// namedUnit reads a unit that is the last word of a counted thing.
func (sc *scanner) namedUnit(i, next int, w *wanted, u *quantity.Unit) int {
	var found *Line
	for _, l := range sc.lines {
		if l.Quantity != nil && l.Quantity.Dim == quantity.None && strings.HasSuffix(l.Key, " "+larder.Fold(u.Name)) && sc.story.left[l].Sign() > 0 {
			if found != nil {
				return 0
			}
			found = l
		}
	}
	if found == nil {
		return 0
	}
	counted := *w
	counted.number, counted.amount = &w.amount.Measure.Terms[0].Value, nil
	sc.takeLine(found, sc.taking(i, next, w), &counted, false)
	return next
}

// lastShared is the line of which the sentence took a part last, and of which
// "the rest" is said without its name; or which it divided, and takes a half of.
func (sc *scanner) lastShared(w *wanted) *Line {
	if w.share != nil && !w.share.Rest {
		return sc.halved
	}
	for k := len(sc.takes) - 1; k >= 0; k-- {
		t := sc.takes[k]
		if t.Line == nil || t.Refers {
			continue
		}
		if t.All || sc.kept || t.Unmeasured || sc.story.left[t.Line].Sign() <= 0 {
			return nil
		}
		return t.Line
	}
	return nil
}

// lastCounted is the line of counted things of which the step took a part last.
func (sc *scanner) lastCounted() *Line {
	for k := len(sc.takes) - 1; k >= 0; k-- {
		t := sc.takes[k]
		if t.Line == nil || t.Line.Quantity == nil || t.Line.Quantity.Dim != quantity.None && t.Line.Quantity.Dim != quantity.Word {
			continue
		}
		return t.Line
	}
	return nil
}

// taking is the place of a phrase without a name of its own.
func (sc *scanner) taking(i, next int, w *wanted) Take {
	at := sc.place(sc.words[i].start, sc.words[next-1].end)
	t := Take{Span: at, NameAt: sc.place(w.end, w.end)}
	if w.measured() {
		t.AmountAt = sc.place(w.figure, w.end)
	}
	return t
}
