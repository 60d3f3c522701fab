package resolve

import (
	"strings"

	"tamis/compiler/larder"
	"tamis/lang/quantity"
	"tamis/lang/source"
)

// scanner walks the words of one sentence.
type scanner struct {
	*reader
	text  string
	words []word
	place func(from, to int) source.Span
	story *story
	here  map[target]bool // found already in this step
	takes []Take
}

// wanted is how much of a name a sentence asks for.
type wanted struct {
	share      *Share
	amount     *quantity.Amount // "200 ml", or a bare count
	count      int              // "two", "a": counted things
	start      int              // where it begins in the text
	end        int              // where the amount itself ends
	rest       bool             // "the rest of the"
	unmeasured bool
}

func (sc *scanner) scan() {
	for i := 0; i < len(sc.words); {
		if n := sc.everything(i); n > 0 {
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
		if w, next, ok := sc.wantedAt(i); ok {
			if n := sc.nameAfter(next, &w); n > 0 {
				i = n
				continue
			}
		}
		if isVerb(sc.words, i) {
			i++
			continue
		}
		if n := sc.name(i, i, nil); n > i {
			i = n
			continue
		}
		i++
	}
}

// everything reads "everything" and "all the ingredients".
func (sc *scanner) everything(i int) int {
	n := 0
	switch {
	case sc.words[i].key == "everything":
		n = 1
	case sc.says(i, "all", "the", "ingredient"), sc.says(i, "all", "of", "the", "ingredient"):
		n = 3
		if sc.words[i+1].key == "of" {
			n = 4
		}
	default:
		return 0
	}
	at := sc.place(sc.words[i].start, sc.words[i+n-1].end)
	for _, l := range sc.lines {
		if left := sc.story.left[l]; left.Sign() > 0 && !l.Serving {
			t := Take{Span: at, NameAt: at, All: true}
			sc.story.take(l, &t, left)
			sc.takes = append(sc.takes, t)
		}
	}
	return n
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

var countWords = map[string]int{
	"one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9, "ten": 10, "eleven": 11, "twelve": 12,
}

var shareWords = map[string]quantity.Number{
	"half": quantity.Frac(1, 2), "third": quantity.Frac(1, 3), "quarter": quantity.Frac(1, 4), "fifth": quantity.Frac(1, 5),
	"sixth": quantity.Frac(1, 6), "eighth": quantity.Frac(1, 8), "tenth": quantity.Frac(1, 10),
}

// articles may stand between an amount and a name.
var articles = map[string]bool{
	"the": true, "your": true, "this": true, "that": true, "these": true, "those": true, "its": true, "their": true,
}

// fillers stop the search for a name behind an amount.
var fillerStops = map[string]bool{
	"and": true, "or": true, "in": true, "with": true, "to": true, "over": true, "into": true, "for": true, "on": true, "at": true, "until": true,
	"then": true, "of": true, "from": true, "a": true, "an": true, "the": true, "is": true, "are": true, "it": true, "by": true, "as": true,
}

// wantedAt reads an amount or a share at word i; next is the word after it.
func (sc *scanner) wantedAt(i int) (w wanted, next int, ok bool) {
	ws := sc.words
	w.start = ws[i].start
	share := func(f quantity.Number, n int) (wanted, int, bool) {
		w.end = ws[i+n-1].end
		switch {
		case sc.says(i+n, "of", "the", "rest"), sc.says(i+n, "of", "what", "is"):
			w.share = &Share{Fraction: f, OfRest: true}
			n += 3
		case sc.says(i+n, "the", "rest"), sc.says(i+n, "the", "remaining"):
			w.share = &Share{Fraction: f, OfRest: true}
			n += 2
		default:
			w.share = &Share{Fraction: f}
		}
		return w, i + n, true
	}
	lower := strings.ToLower(ws[i].text)
	switch {
	case sc.says(i, "the", "rest"), sc.says(i, "the", "remaining"), sc.says(i, "the", "remainder"), sc.says(i, "the", "last"):
		w.share, w.rest, w.end = &Share{Rest: true}, true, ws[i+1].end
		return w, i + 2, true
	case lower == "remaining":
		w.share, w.rest, w.end = &Share{Rest: true}, true, ws[i].end
		return w, i + 1, true
	case lower == "half":
		return share(quantity.Frac(1, 2), 1)
	case lower == "some" || lower == "most":
		w.unmeasured, w.end = true, ws[i].end
		return w, i + 1, true
	case (lower == "a" || lower == "an") && i+1 < len(ws):
		if f, is := shareWords[ws[i+1].key]; is {
			return share(f, 2)
		}
		switch ws[i+1].key {
		case "little", "splash", "pinch", "drop", "dash", "knob", "few", "handful", "drizzle", "squeeze", "sprinkling", "spoonful", "ladleful":
			w.unmeasured, w.end = true, ws[i+1].end
			return w, i + 2, true
		}
		w.count, w.end = 1, ws[i].end
		return w, i + 1, true
	case countWords[lower] > 0:
		n := countWords[lower]
		if i+1 < len(ws) {
			if f, is := shareWords[ws[i+1].key]; is { // two thirds
				return share(f.Mul(quantity.Int(int64(n))), 2)
			}
		}
		w.count, w.end = n, ws[i].end
		return w, i + 1, true
	}
	if c := ws[i].text[0]; c < '0' || c > '9' {
		return w, 0, false
	}
	a, n, problems := quantity.ReadAmount(sc.text[ws[i].start:], sc.recipe.reading)
	if n == 0 || len(problems) > 0 {
		return w, 0, false
	}
	end := ws[i].start + n
	next = i
	for next < len(ws) && ws[next].start < end {
		next++
	}
	if f, is := fractionOf(a); is && next < len(ws) && ws[next].key == "of" {
		w.share, w.end = &Share{Fraction: f}, ws[next-1].end
		return w, next, true
	}
	w.amount, w.end = &a, ws[next-1].end
	return w, next, true
}

// fractionOf is the fraction a bare amount is, such as 1/3.
func fractionOf(a quantity.Amount) (quantity.Number, bool) {
	if a.Kind != quantity.Plain || len(a.Measure.Terms) != 1 || a.Measure.Terms[0].Unit != nil {
		return quantity.Number{}, false
	}
	n := a.Measure.Terms[0].Value.High
	return n, n.Less(one)
}

// nameAfter looks for a name behind an amount: past "of", an article and at
// most two words of description. It returns the word after the name, or 0.
func (sc *scanner) nameAfter(i int, w *wanted) int {
	ws := sc.words
	if i < len(ws) && ws[i].key == "of" && !ws[i].stop {
		i++
	}
	if i < len(ws) && articles[strings.ToLower(ws[i].text)] && !ws[i].stop {
		i++
		if i < len(ws) && !ws[i].stop && (ws[i].key == "remaining" || ws[i].key == "rest") { // "half of the remaining stock"
			if w.share != nil && !w.share.Rest {
				w.share.OfRest = true
			}
			i++
		}
	}
	for k := 0; k <= 2 && i+k < len(ws); k++ {
		if ws[i+k].stop && (k > 0 || i > 0 && ws[i].start > w.end && ws[i].stop) {
			return 0
		}
		if n := sc.name(i+k, i, w); n > i+k {
			return n
		}
		if fillerStops[ws[i+k].key] {
			return 0
		}
	}
	return 0
}

// name reads a name at word i, taking what w asks for. It returns the word
// after it, or i when there is none. from is where the phrase began.
func (sc *scanner) name(i, from int, w *wanted) int {
	ms := sc.finder.at(sc.words, i, false)
	if len(ms) > 0 && ms[0].length == 1 && sc.words[i].key == "leaf" && (i == 0 || !articles[strings.ToLower(sc.words[i-1].text)]) {
		ms = nil // "until the meat leaves the bone"
	}
	decoy, decoyName := sc.decoyAt(sc.recipe.Scope, sc.words, i)
	if len(ms) == 0 || decoy > ms[0].length {
		if decoy == 0 {
			return i
		}
		sc.decoy(i, decoy, decoyName)
		return i + decoy
	}
	n := ms[0].length
	at := sc.place(sc.words[i].start, sc.words[i+n-1].end)
	if len(ms) > 1 {
		ms = sc.sieve(ms, at)
		if len(ms) == 0 {
			return i + n
		}
	}
	t := Take{NameAt: at, Span: at}
	if w != nil {
		t.Span = sc.place(w.start, sc.words[i+n-1].end)
		if w.amount != nil || w.count > 0 || w.share != nil {
			t.AmountAt = sc.place(w.start, w.end)
		}
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
	return i + n
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
	if len(left) <= 1 {
		return left
	}
	for _, m := range left { // reported once: not also as never used, or left over
		if l := m.target.line; l != nil {
			sc.story.named[l], sc.story.vague[l] = at, true
		}
	}
	d := sc.diags.Errorf("U205", at, "which %s is meant here", at.Text()).
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

// isOwnTitle tells whether the words are the end of the recipe's own title:
// "until the stock is brown" in a base called Brown stock.
func (sc *scanner) isOwnTitle(i, n int) bool {
	title := sc.builder.words(sc.recipe.Name)
	if n > len(title) {
		return false
	}
	for k := range n {
		if sc.words[i+k].key != title[len(title)-n+k] {
			return false
		}
	}
	return true
}

// decoy reports a known thing that is said but not gathered, once a recipe.
func (sc *scanner) decoy(i, n int, name string) {
	key := sc.fold(name)
	if name == "" || sc.saw[key] || sc.compared(i) || sc.isOwnTitle(i, n) || len(sc.everyOption.at(sc.words, i, true)) > 0 {
		return
	}
	sc.saw[key] = true
	at := sc.place(sc.words[i].start, sc.words[i+n-1].end)
	if l := sc.otherName(name); l != nil { // reported once: not also as never used, or left over
		sc.story.named[l], sc.story.vague[l] = at, true
		sc.diags.Queryf("U206", at, "%s is gathered here as %s", name, l.Name).
			Because("a reader takes two names for two things").
			See(l.NameAt, "the other name").
			WithHelp("use one name in both places").
			Replace("write "+l.Name, false, at, l.Name)
		return
	}
	d := sc.diags.Queryf("U206", at, "nothing called %s is gathered here", name).
		Because("what a step uses should stand in the list, or nobody buys it")
	if l := sc.longerName(key); l != nil {
		d.See(l.NameAt, "this is gathered").
			Replace("write "+l.Name+", if that is meant", false, at, l.Name)
	}
	d.WithHelp("add a gather line for it, or write `| uses …` in the margin to say what this step takes")
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
