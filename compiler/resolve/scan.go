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
	text   string
	words  []word
	place  func(from, to int) source.Span
	story  *story
	here   map[target]bool // found already in this step
	takes  []Take
	spent  []bool         // words whose figures are accounted for
	unit   *quantity.Unit // of the last amount that was said
	kept   bool           // something is put by, and the rest goes in
	halved *Line          // "divide the flour in half": a half of it is taken where it is said
	cases  int            // the word that says of how many each one is, "each of 24 cases"; 0: none
	found  []Figure       // the others

	// pastFrom and pastTo are the words that name again the rest of what was put
	// by, which goes in where that was said; see reserved.
	pastFrom, pastTo int
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
		if n := sc.recipes(i); n > 0 {
			i = n
			continue
		}
		if n := sc.divides(i); n > 0 {
			i = n
			continue
		}
		sc.weighedBy(i)
		if next, until, ok := sc.keptOut(i); ok {
			sc.skip(next, until)
			i = max(until, i+1)
			continue
		}
		if w, next, ok := sc.wantedAt(i); ok {
			if (w.share != nil && !w.rest || w.measured()) && !w.article && sc.reserved(i, next) {
				kept := w
				sc.kept = true
				w = wanted{start: w.start, figure: w.figure, end: w.end, but: &kept}
			}
			if n := sc.nameAfter(next, &w); n > 0 {
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
		if !next.opens || sc.text[w.end] != '.' || len(w.text) > len("tbsp") || next.text[0] < 'a' || next.text[0] > 'z' {
			continue
		}
		if u, n := quantity.ReadSpokenUnit(sc.text[w.start:], sc.recipe.reading); u != nil && n == w.end+1-w.start || sc.letter(i) != nil {
			k := i - 1
			for k > 0 && sc.words[k].glue { // 2 1/2 lb.
				k--
			}
			if _, _, ok := sc.spokenAt(k); ok {
				next.opens, next.stop = false, false
			}
		}
	}
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

// everything reads "everything", "all the ingredients", "the other ingredients".
func (sc *scanner) everything(i int) int {
	n := 0
	switch {
	case sc.words[i].key == "everything":
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
	out := map[target]bool{} // "everything but the eggs"
	end := i + n
	if w := sc.lower(end); w == "but" || w == "except" || w == "save" || w == "bar" {
		for k := end + 1; k < len(sc.words) && !sc.words[k].opens && sc.lower(k) != "then"; k++ {
			if ms := sc.finder.at(sc.words, k, false); len(ms) > 0 {
				out[ms[0].target] = true
				k += ms[0].length - 1
				end = k + 1
			}
		}
	}
	at := sc.place(sc.words[i].start, sc.words[i+n-1].end)
	for _, l := range sc.lines {
		if left := sc.story.left[l]; left.Sign() > 0 && !l.Serving && !out[target{line: l}] {
			t := Take{Span: at, NameAt: at, All: true}
			sc.story.take(l, &t, left)
			sc.takes = append(sc.takes, t)
		}
	}
	return end - i
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
		if l.ToTaste && !sc.here[target{line: l}] {
			sc.here[target{line: l}] = true
			t := Take{Span: at, NameAt: at}
			sc.story.take(l, &t, quantity.Number{})
			sc.takes = append(sc.takes, t)
		}
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
	skip("of")
	if skip("each") { // half of each of the
		w.every = true
		skip("of")
	}
	w.ordinal = w.ordinal && (i == 0 || sc.lower(i-1) != "of")
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
	ends := next >= len(sc.words) || sc.words[next].stop || sc.lower(next) == "and" || sc.lower(next) == "then" || sc.lower(next) == "in" || sc.lower(next) == "for" || sc.lower(next) == "on"
	if sc.lower(next) == "more" || sc.lower(next) == "others" || sc.lower(next) == "other" { // "then two more"
		next++
		ends = true
	}
	if !ends && !(!sc.kept && (w.rest || w.share != nil) && fillerStops[sc.lower(next)]) {
		return 0
	}
	if w.amount != nil && len(w.amount.Measure.Terms) == 1 {
		u := w.amount.Measure.Terms[0].Unit
		if u == nil || u.Dim != quantity.Word {
			return 0
		}
		var found *Line
		for _, l := range sc.lines {
			if l.Quantity != nil && l.Quantity.Unit == u && sc.story.left[l].Sign() > 0 {
				if found != nil {
					return 0
				}
				found = l
			}
		}
		if found == nil {
			return 0
		}
		sc.takeLine(found, sc.taking(i, next, w), w, false)
		return next
	}
	first := sc.lower(i)
	if (w.rest || w.share != nil && !w.share.OfRest && sc.halved != nil) && !w.measured() {
		if l := sc.lastShared(w); l != nil {
			sc.takeLine(l, sc.taking(i, next, w), w, false)
			return next
		}
	}
	if w.number == nil && !w.rest || w.article && first != "another" || first != "the" && first != "another" && sc.lower(next-1) != "more" && !w.rest {
		return 0
	}
	l := sc.lastCounted()
	if l == nil || sc.story.left[l].Sign() <= 0 {
		return 0
	}
	sc.takeLine(l, sc.taking(i, next, w), w, false)
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

// name reads a name at word i, taking what w asks for. It returns the word
// after it, and after all that belongs to it, or i when there is none. from is where the phrase began.
func (sc *scanner) name(i, from int, w *wanted) int {
	if sc.words[i].glue {
		return i
	}
	if w == nil && i > 0 && sc.likened(i) {
		return i
	}
	ms := sc.finder.at(sc.words, i, false)
	if len(ms) > 0 && ms[0].length == 1 && sc.words[i].key == "leaf" && (i == 0 || !articles[sc.lower(i-1)]) {
		ms = nil // "until the meat leaves the bone"
	}
	n := 0
	if len(ms) > 0 {
		n = ms[0].length
	}
	if k := i + n; n > 0 && k < len(sc.words) && !sc.words[k].stop && sc.words[k].key == "mixture" && sc.story.goneIn(ms[0].target) {
		return k + 1 // the crumb mixture
	}
	if n > 0 && ms[0].target.sub != nil && ms[0].target.sub.class != "" && sc.onlySpoken(ms[0].target.sub, i, n) {
		return i + n
	}
	if m, length, more := sc.egg(i); length > n {
		ms, n = []match{m}, length
		if w == nil || more != nil && (w.number == nil || w.article) {
			w = more
		}
	}
	decoy, decoyName := sc.decoyAt(sc.recipe.Scope, sc.words, i)
	if k := i + max(n, decoy); n <= 1 && decoy <= 1 && k > i && k < len(sc.words) && !sc.words[k].stop && ofTheKitchen[sc.words[k].key] {
		return k + 1 // a potato ricer, the butter dish
	}
	if decoy > n {
		switch l := sc.gatheredAs(i, decoy); {
		case l != nil:
			ms, n = []match{{form{target: target{line: l}}, decoy}}, decoy
		case n > 0 && sc.joined(i, decoy):
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
	if n == 0 || w == nil && sc.denied(i+n) {
		return i + n
	}
	return sc.take(i, from, w, ms, n)
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
	if w == nil && !sc.here[ms[0].target] {
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
	if l := ms[0].target.line; w != nil && w.number != nil && !w.article && sc.unit != nil && l != nil && l.Quantity != nil && (l.Quantity.Dim == quantity.Mass || l.Quantity.Dim == quantity.Volume) {
		same := *w // "two tablespoons of oil and one of vinegar"
		same.amount, same.number = plain(*w.number, sc.unit), nil
		w = &same
	}
	if w == nil || !w.rest {
		w, next = sc.behind(next, w)
	}
	if sc.alternative(i, from, w, ms[0].target) {
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
	again := sc.here[ms[0].target]
	sc.here[ms[0].target] = true
	switch {
	case ms[0].target.line != nil:
		sc.takeLine(ms[0].target.line, t, w, again)
	case ms[0].target.sub != nil:
		sc.takeSub(ms[0].target.sub, t, w)
	default:
		sc.takeProduct(ms[0].target.product, t, w)
	}
	return next
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
		if l == nil || sc.story.left[l].Sign() <= 0 || sc.here[m.target] {
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
		case "egg": // the part of a whole one
			if line == nil {
				line = l
			}
		}
	}
	if line == nil {
		return m, 0, nil
	}
	k := i + 2
	if articles[sc.lower(k)] {
		k++
	}
	if s, next, ok := sc.spokenAt(k); ok && !s.Part {
		v := s.Value
		w = &wanted{number: &v, start: sc.words[i].start, figure: sc.words[k].start, end: sc.words[next-1].end}
		if k = next; sc.lower(k) == "of" && articles[sc.lower(k+1)] { // whites of two of the eggs
			k += 2
		}
	}
	if k >= len(sc.words) || sc.words[k].key != "egg" {
		return m, 0, nil
	}
	return match{form{target: target{line: line}, whole: true}, k + 1 - i}, k + 1 - i, w
}

// sieve narrows several meanings of one short form to those with something
// left. More than one: the sentence is ambiguous. None: it refers back, and
// nothing is taken.
func (sc *scanner) sieve(ms []match, at source.Span) []match {
	var left []match
	for _, m := range ms {
		if sc.hasLeft(m.target) {
			left = append(left, m)
		}
	}
	// A name said whole earlier in the step is what a short form means after it.
	for _, m := range ms {
		if sc.here[m.target] {
			return []match{m}
		}
	}
	if len(left) > 1 { // what is for the table comes last
		cooking := slices.DeleteFunc(slices.Clone(left), func(m match) bool { return m.target.line != nil && m.target.line.Serving })
		if len(cooking) > 0 {
			left = cooking
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
	for _, m := range left {
		switch {
		case m.target.line != nil:
			d.See(m.target.line.NameAt, "%s", m.target.line.Name)
			d.WithHelp("write %q", m.target.line.Name)
		case m.target.product != nil:
			d.See(m.target.product.Made.Span, "%s", m.target.product.Name)
			d.WithHelp("write %q", m.target.product.Name)
		}
	}
	return nil
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

// comparisons lead up to a thing that is only likened to: "the colour of a
// hazelnut", "the size of a walnut", "it smells of toast".
var comparisons = map[string]bool{
	"colour": true, "color": true, "size": true, "thickness": true, "like": true, "texture": true, "consistency": true, "smell": true, "shape": true,
}

// compared tells whether the words just before i liken something to what comes.
func (sc *scanner) compared(i int) bool {
	for k := i - 1; k >= 0 && k >= i-4 && !sc.words[k+1].stop; k-- {
		if comparisons[sc.words[k].key] {
			return true
		}
	}
	return false
}

// likened tells whether the words before i only say what something is like: "as
// thick as double cream", "smooth as cream".
func (sc *scanner) likened(i int) bool {
	for k := i - 1; k >= max(0, i-2) && !sc.words[k+1].stop; k-- {
		if sc.lower(k) == "as" {
			return k > 0 && sc.lower(k-1) != "well" && sc.lower(k-1) != "much" && sc.lower(k-1) != "many" && !sc.words[k].opens
		}
		if sc.lower(k) != "a" && sc.lower(k) != "an" && sc.lower(k) != "double" && sc.lower(k) != "single" && sc.lower(k) != "thick" && sc.lower(k) != "whipped" {
			return false
		}
	}
	return false
}

// isOwnTitle tells whether the words are the end of the recipe's own title:
// "until the stock is brown" in a base called Brown stock.
func (sc *scanner) isOwnTitle(i, n int) bool {
	title := sc.builder.words(sc.recipe.Name)
	if n > len(title) {
		return false
	}
	for k := range n {
		if sc.words[i+k].key != title[len(title)-n+k].key {
			return false
		}
	}
	return true
}

// decoy reports a known thing that is said but not gathered, once a recipe.
func (sc *scanner) decoy(i, n int, name string) {
	key := sc.fold(name)
	if name == "" || sc.servedWith(i) || sc.saw[key] || sc.compared(i) || sc.isOwnTitle(i, n) || len(sc.everyOption.at(sc.words, i, true)) > 0 {
		return
	}
	if i > 0 && sc.lower(i-1) == "or" && len(sc.takes) > 0 || sc.lower(i+n) == "or" && sc.named(i+n+1) {
		return // butter or margarine: one of the two is there
	}
	sc.saw[key] = true
	at := sc.place(sc.words[i].start, sc.words[i+n-1].end)
	if l := sc.otherName(name); l != nil { // reported once: not also as never used, or left over
		sc.story.named[l], sc.story.vague[l] = at, true
		sc.diags.Askf("U206", at, "%s is gathered here as %s", name, l.Name).
			Because("a reader takes two names for two things").
			See(l.NameAt, "the other name").
			WithHelp("use one name in both places").
			Replace("write "+l.Name, false, at, l.Name)
		return
	}
	d := sc.diags.Askf("U206", at, "nothing called %s is gathered here", name).
		Because("what a step uses should stand in the list, or nobody buys it")
	if l := sc.longerName(key); l != nil {
		if _, named := sc.story.named[l]; !named { // reported once: not also as never used
			sc.story.named[l], sc.story.vague[l] = at, true
		}
		d.See(l.NameAt, "this is gathered").
			Replace("write "+l.Name+", if that is meant", false, at, l.Name)
	}
	d.WithHelp("add a gather line for it, or write `| uses …` in the margin to say what this step takes")
}

// servedWith tells whether the sentence only says what a dish is good with:
// "serve with mutton".
func (sc *scanner) servedWith(i int) bool {
	with := false
	for k := i - 1; k >= 0; k-- {
		switch sc.lower(k) {
		case "with", "alongside", "beside":
			with = true
		}
		if sc.words[k].opens {
			return with && sc.words[k].key == "serve"
		}
	}
	return false
}

// longerName is the one line whose name begins with what a sentence says, such
// as mustard powder for mustard; nil: none, or more than one.
func (sc *scanner) longerName(key string) (found *Line) {
	for _, l := range sc.lines {
		if strings.HasPrefix(l.Key, key+" ") {
			if found != nil {
				return nil
			}
			found = l
		}
	}
	return found
}

// otherName is the line that gathers what a name means by another name: spring
// onions, where a sentence says scallions. Nil: none, or more than one.
func (sc *scanner) otherName(name string) *Line {
	it, ok := larder.Builtin().Find(name)
	if !ok {
		return nil
	}
	var found *Line
	for _, l := range sc.lines {
		if other, ok := larder.Builtin().Find(l.Name); !ok || other != it {
			continue
		}
		if found != nil {
			return nil
		}
		found = l
	}
	return found
}
