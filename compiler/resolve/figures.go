package resolve

import (
	"slices"
	"strings"

	"tamis/compiler/larder"
	"tamis/lang/quantity"
	"tamis/lang/source"
)

// Every figure of a sentence is accounted for: it belongs to what is taken, or
// it is one of these.

// FigureKind says what a figure of a sentence is.
type FigureKind int

// The kinds of figure.
const (
	FigureKept   FigureKind = iota // printed as written: speeds, layers, sizes, shares of the mixture
	FigureScaled                   // grows with the covers: a yield, water from the tap
	FigureEach                     // for each of something: printed as written
	FigureLoad                     // so many at a time, in so many batches: printed as written
)

// Figure is a figure of a sentence that says nothing of how much is taken.
type Figure struct {
	At       source.Span
	Kind     FigureKind
	Quantity quantity.Quantity // at written size
	Unit     *quantity.Unit    // as it was written; nil for a bare count
	Name     source.Span       // of what a bare number counts, where it is known; else zero
	As       string            // what one that is kept is, with its article: "a time"; "" where nobody can say
}

// Words that tell what a figure is.
var (
	timeWords = wordSet("minute min hour h day week month second sec time degree c f percent cent watt w kw year night turn")
	vessels   = wordSet("jug basin bowl tin pan dish pot jar bottle tray mould mold ramekin weight bag casserole saucepan container box tub measure can stockpot bucket")
	yieldBy   = wordSet("making giving yielding stamp pot shape roll cut divide form make give yield portion stamp scoop pipe split slice shaped press mould")
	eachBy    = wordSet("to for in into on over")
	holdWords = wordSet("hold holds holding holdable carrying takes")
)

func wordSet(words string) map[string]bool {
	set := map[string]bool{}
	for _, w := range strings.Fields(words) {
		set[w] = true
	}
	return set
}

// figures goes over the numbers that no name has taken.
func (sc *scanner) figures() {
	for i := range sc.words {
		sc.mistyped(i)
	}
	for i := 0; i < len(sc.words); {
		if sc.spent[i] || sc.words[i].glue {
			i++
			continue
		}
		s, next, ok := sc.spokenAt(i)
		if !ok {
			i++
			continue
		}
		w, n, _ := sc.amountFrom(i, s, next)
		if u := unitOf(w.amount); u != nil && u.Dim == quantity.Word && !s.Article && !s.Part { // cut into 24 squares
			sc.countFigure(i, next, s)
		} else if w.amount != nil {
			sc.measuredFigure(i, n, &w)
		} else if s.Article || w.measured() && s.Part || !w.measured() {
			n = next                                                 // "half of it", "a pan"
			if s.Part && w.share != nil && sc.apposed(i, next, &w) { // the stock, about two thirds, and simmer
				i = n
				continue
			}
			if sc.lower(next) == "is" && (sc.lower(next+1) == "plenty" || sc.lower(next+1) == "enough" || sc.lower(next+1) == "ample") {
				at := sc.place(sc.words[i].start, sc.words[next+1].end)
				sc.diags.Askf("U217", at, "%s of what", sc.text[sc.words[i].start:sc.words[next-1].end]).
					Because("it corrects an amount that is said before, and is not taken for it").
					WithHelp("write the amount that is meant, and once")
			}
			if !s.Article {
				sc.figure(FigureKept, i, next, pieces(s))
				sc.loose(i, next, s)
			}
		} else {
			sc.countFigure(i, next, s)
		}
		i = max(n, i+1)
	}
	slices.SortFunc(sc.found, func(a, b Figure) int { return a.At.Start - b.At.Start })
}

// mistyped asks about a word among whose figures a letter stands, "1OO g", "l0 min", and about
// what is no number, "1/2/3": no amount and no time is read from it.
func (sc *scanner) mistyped(i int) {
	w := sc.words[i]
	from, to := w.start, w.end
	for to < len(sc.text) && (sc.text[to] == '/' || sc.text[to] == '.') && to+1 < len(sc.text) && strings.IndexByte("0123456789Ol", sc.text[to+1]) >= 0 {
		for to++; to < len(sc.text) && strings.IndexByte("0123456789OolI", sc.text[to]) >= 0; to++ {
		}
	}
	for from > 1 && (sc.text[from-1] == '/' || sc.text[from-1] == '.') && strings.IndexByte("0123456789OolI", sc.text[from-2]) >= 0 {
		return // a part of one that is judged before
	}
	text := sc.text[from:to]
	tail := strings.TrimLeft(text, "0123456789OolI/.")
	head := strings.TrimRight(text[:len(text)-len(tail)], ".")
	figures, letters, marks := 0, 0, 0
	meant := []byte(head)
	for k, c := range meant {
		switch {
		case c >= '0' && c <= '9':
			figures++
		case c == '/' || c == '.':
			marks++
		case c == 'O' || c == 'o':
			meant[k] = '0'
			letters++
		default:
			meant[k] = '1'
			letters++
		}
	}
	if letters == 1 && tail == "" && len(head) > 1 && (head[len(head)-1] == 'l') && figures == len(head)-1-marks { // 5l is five litres
		return
	}
	if u, n := quantity.ReadUnit(tail, sc.recipe.reading); tail != "" && (u == nil || n < len(tail)) {
		return // 2nd, O2x
	}
	at := sc.place(from, from+len(head))
	switch {
	case figures == 0:
	case letters > 0 && len(sc.finder.at(sc.words, i, false)) == 0:
		sc.diags.Askf(string(quantity.CodeTyped), at, "a letter stands among the figures of `%s`", head).
			Because("it is no number as it stands: nothing is weighed or timed by it").
			WithHelp("write `%s`", meant).
			Replace("write "+string(meant), true, at, string(meant))
	case marks > 1, strings.HasSuffix(head, "/0"):
		sc.diags.Askf("U217", at, "`%s` is no number", head).
			Because("nothing is weighed or timed by it").
			WithHelp("write one number")
	}
}

func (sc *scanner) figure(kind FigureKind, from, to int, q quantity.Quantity) {
	f := Figure{At: sc.place(sc.words[from].start, sc.words[to-1].end), Kind: kind, Quantity: q}
	if kind == FigureKept {
		f.As = sc.keptAs(from, to)
	}
	if kind == FigureScaled && q.Dim == quantity.None {
		f.Name = sc.plural(to)
	}
	sc.found = append(sc.found, f)
}

// plural is where the noun in the plural stands that a number before word i counts: "16 flat
// cakes". Zero: there is none.
func (sc *scanner) plural(i int) source.Span {
	for k := i; k < i+3 && k < len(sc.words) && !sc.words[k].stop && !fillerStops[sc.lower(k)]; k++ {
		if w := sc.lower(k); strings.HasSuffix(w, "s") && !strings.HasSuffix(w, "ss") && larder.Singular(w) != w {
			return sc.place(sc.words[k].start, sc.words[k].end)
		}
	}
	return source.Span{}
}

// Words beside a figure that tell what it is.
var (
	lengths   = wordSet("minute min hour hr h day week month second sec year night")
	degrees   = wordSet("c f degree")
	placeNext = wordSet("step page speed gas mark regulo no number sheet ladle shelf rack stage figure note")
)

// keptAs says what a figure is that is printed as written: a time, a heat, a size, the
// number of a step; "" for a share or a count that only the cook can tell.
func (sc *scanner) keptAs(i, next int) string {
	word := ""
	if next < len(sc.words) && !sc.words[next].opens {
		word = sc.words[next].key
		if word == "of" && (sc.lower(next+1) == "an" || sc.lower(next+1) == "a") && next+2 < len(sc.words) { // a quarter of an hour
			word = sc.words[next+2].key
		} else if (word == "an" || word == "a" || word == "more" || word == "further") && next+1 < len(sc.words) { // half an hour
			word = sc.words[next+1].key
		}
	}
	switch u, n := sc.unitAt(next); {
	case lengths[word], word == "or" && next+2 < len(sc.words) && lengths[sc.words[next+2].key]:
		return "a time"
	case degrees[word], word == "°":
		return "a heat"
	case n > next && u.Dim == quantity.Length, sc.lower(next-1) == "inch":
		return "a size"
	case i > 0 && placeNext[sc.words[i-1].key] && !sc.words[i].stop:
		return "the number of a " + strings.ToLower(sc.words[i-1].text)
	case vessels[word], next < len(sc.words) && !sc.words[next].stop && sc.sized(next):
		return "so many vessels"
	case word == "time":
		return "so many times"
	}
	return ""
}

// measure notes an amount with its unit.
func (sc *scanner) measure(kind FigureKind, w *wanted, q quantity.Quantity) {
	sc.found = append(sc.found, Figure{At: sc.place(w.figure, w.end), Kind: kind, Quantity: q, Unit: unitOf(w.amount)})
}

// unitOf is the unit an amount was said in; nil for a bare count.
func unitOf(a *quantity.Amount) *quantity.Unit {
	if a == nil || len(a.Measure.Terms) == 0 {
		return nil
	}
	return a.Measure.Terms[0].Unit
}

// measuredFigure judges an amount with a unit that stands before no name.
func (sc *scanner) measuredFigure(i, n int, w *wanted) {
	q := sc.silent(w.amount)
	if q != nil && q.Dim == quantity.Vague && !sc.named(n) { // turmeric just two pinches
		if end, alone := sc.beyond(n); alone && end == n {
			if t := sc.latest(i); t != nil && t.Line.Quantity != nil && (t.Line.Quantity.Dim == quantity.Mass || t.Line.Quantity.Dim == quantity.Volume) {
				sc.instead(t, &wanted{unmeasured: true})
			}
		}
	}
	if q == nil || q.Dim != quantity.Mass && q.Dim != quantity.Volume {
		return
	}
	word := sc.lower(n)
	switch {
	case i > 0 && (sc.lower(i-1) == "per" || sc.lower(i-1) == "every") && !sc.foodAt(n), i > 1 && sc.says(i-2, "to", "the"): // 25 minutes per 500 g
		sc.measure(FigureKept, w, *q)
	case i > 0 && sc.words[i-1].opens && sc.words[i-1].key == "serve" && sc.lower(n) == "of": // serve half a cup of stew with a biscuit
		sc.measure(FigureEach, w, *q)
	case i > 0 && sc.putsBy(i): // so much of what was made
		sc.measure(FigureScaled, w, *q)
	case i > 1 && (sc.says(i-2, "more", "than") || sc.says(i-2, "up", "to")) && sc.apposed(i, n, w):
	case i > 0 && sc.lower(i-1) == "than" || i > 1 && sc.says(i-2, "divide", "at"), i > 1 && (sc.says(i-2, "scale", "at") || sc.says(i-2, "weigh", "at") || sc.says(i-2, "portion", "at")): // more than half a pint of liquor
		sc.measure(FigureKept, w, *q)
	case sc.tried(n, w), sc.lifted(i):
		sc.measure(FigureKept, w, *q)
	case sc.says(n, "at", "a", "time"), i > 1 && sc.words[i-1].key == "of" && (sc.words[i-2].key == "batch" || sc.words[i-2].key == "lot" || sc.words[i-2].key == "load"):
		sc.measure(FigureLoad, w, *q)
	case i > 0 && timeWords[sc.words[i-1].key], n < len(sc.words) && !sc.words[n].stop && (vessels[sc.words[n].key] || timeWords[word] || sc.sized(n)), i > 0 && holdWords[sc.lower(i-1)]:
		sc.measure(FigureKept, w, *q)
	case word == "each" || word == "apiece" || sc.lower(n+1) == "each" && eachBy[word], sc.portion(*q), n < len(sc.words) && strings.ContainsRune(sc.text[sc.words[i].start:sc.words[n-1].end], '-') && (i > 0 && sc.counts(i-1) || n < len(sc.words) && heaps[sc.words[n].key]), i > 0 && sc.lower(i-1) == "of" && sc.piecesBefore(i-1), i > 1 && sc.lower(i-2) == "of" && quantity.InDoubt(sc.lower(i-1)) && sc.piecesBefore(i-2), i > 2 && sc.says(i-3, "of", "not", "quite") && sc.piecesBefore(i-3):
		sc.measure(FigureEach, w, *q)
	case sc.aHead(w.end):
		sc.measure(FigureEach, w, *q)
	case sc.allShared(i, *q):
		sc.measure(FigureScaled, w, *q)
	case word == "to" && (sc.lower(n+1) == "a" || sc.lower(n+1) == "the") && n+2 < len(sc.words) && (vessels[sc.words[n+2].key] || loadsOf[sc.words[n+2].key]): // 11 quarts to a pan
		sc.measure(FigureEach, w, *q)
	case sc.water(n), sc.madeHere(*q):
		sc.measure(FigureScaled, w, *q)
	case !sc.foodAt(n) && sc.eachBehind(n), sc.mixtureAt(n) && sc.eachBehind(n):
		sc.measure(FigureEach, w, *q)
	case i > 0 && (sc.lower(i-1) == "to" || sc.lower(i-1) == "about" && i > 1 && sc.lower(i-2) == "to"), sc.yields(i), word == "remain" || word == "remains" || word == "left", word == "is" && sc.says(n, "is", "left"):
		sc.measure(FigureScaled, w, *q)
	case sc.foodAt(n): // known, and not gathered: reported as such
		sc.measure(FigureKept, w, *q)
	case sc.comesTo(i, n, w), sc.apposed(i, n, w):
	default:
		at := sc.place(w.figure, w.end)
		sc.measure(FigureKept, w, *q)
		sc.diags.Askf("U217", at, "%s of what", at.Text()).
			Because("it belongs to nothing that is gathered, so it stays as it is when the dish is made for more").
			WithHelp("name the thing after it, or say in the margin what the step takes: `| uses 20 g butter`")
	}
}

// loadsOf are parts of the work, behind "to a".
var loadsOf = wordSet("lot batch load tray tier layer shelf")

// aHead tells whether "/portion" or "p.p." stands right behind byte n.
func (sc *scanner) aHead(n int) bool {
	rest := strings.ToLower(strings.TrimLeft(sc.text[n:], " "))
	if strings.HasPrefix(rest, "p.p") || strings.HasPrefix(rest, "pp ") || rest == "pp" {
		return true
	}
	rest, slash := strings.CutPrefix(rest, "/")
	end := strings.IndexAny(rest, " .,;)")
	if end < 0 {
		end = len(rest)
	}
	return slash && (eaters[strings.TrimSuffix(rest[:end], "s")] || persons[rest[:end]])
}

// allShared tells whether the amount at word i is one of several of its sentence that come
// together to all of the one thing that it takes whole: "8 kg in batons, 4 kg grated".
func (sc *scanner) allShared(i int, q quantity.Quantity) bool {
	from := sc.opening(i)
	for from > 0 && sc.text[sc.words[from-1].end] == ':' { // oil: 40 ml here, the rest there
		from = sc.opening(from - 1)
	}
	start := sc.place(sc.words[from].start, sc.words[from].end).Start
	var whole *Line
	for k := range sc.takes {
		if t := &sc.takes[k]; t.Line != nil && t.All && !t.Refers && t.Span.Start >= start && t.Line.Quantity != nil && t.Line.Quantity.Dim == q.Dim {
			if whole != nil {
				return false
			}
			whole = t.Line
		}
	}
	if whole == nil {
		return false
	}
	sum, parts := quantity.Number{}, 0
	for k := from; k < len(sc.words) && (k == from || !sc.words[k].opens || sc.text[sc.words[k-1].end] == ':'); {
		if w, n, ok := sc.amountAt(k); ok && !sc.spent[k] && w.amount != nil {
			if p := sc.silent(w.amount); p != nil && p.Dim == q.Dim {
				sum, parts = sum.Add(p.Value.High), parts+1
			}
			k = max(n, k+1)
			continue
		}
		k++
	}
	return parts > 1 && sum.Equal(whole.Quantity.Value.High) || parts > 0 && sum.Less(whole.Quantity.Value.High) && sc.restBehind(i)
}

// restBehind tells whether the sentence goes on, behind word i, to "the rest" of what it names
// before: "oil: 40 ml for the pan and the rest for the crumbs".
func (sc *scanner) restBehind(i int) bool {
	for k := i + 1; k < len(sc.words) && !sc.words[k].opens; k++ {
		if w := sc.lower(k); (w == "rest" || w == "remainder") && sc.lower(k+1) != "of" && !sc.named(k+1) {
			return true
		}
	}
	return false
}

// heaps are what an amount with a hyphen is the size of: 2-tablespoon balls.
var heaps = wordSet("ball heap mound portion piece scoop round patty dollop cake loaf roll steak fillet chunk lump mould")

// tried tells whether a spoonful is only tried: "drop a teaspoonful on a cold
// saucer"; or the amount is the name of a coin.
func (sc *scanner) tried(n int, w *wanted) bool {
	switch sc.lower(n) {
	case "coin", "coins", "piece", "note":
		return true
	case "on", "onto":
		return w.end > w.start && strings.HasPrefix(strings.ToLower(sc.text[w.start:w.end]), "a ") && (sc.lower(n+1) == "a" || vessels[sc.lower(n+1)])
	}
	return false
}

// lifted tells whether the amount at word i is of what is taken off again, or
// stays behind then: "spoon off all but a tablespoon of the fat".
func (sc *scanner) lifted(i int) bool {
	for k := i - 1; k >= 0 && k >= i-5 && !sc.words[k+1].opens && !sc.words[k+1].stop; k-- {
		w := sc.lower(k)
		if w == "off" || w == "away" || w == "skim" || w == "discard" || w == "drain" {
			return true
		}
	}
	return false
}

// counts tells whether the word at i is a number.
func (sc *scanner) counts(i int) bool {
	s, _, ok := sc.spokenAt(i)
	return ok && !s.Article
}

// madeHere tells whether the step makes so much of something by its margin: "keep
// two litres of the stock".
func (sc *scanner) madeHere(q quantity.Quantity) bool {
	return slices.ContainsFunc(sc.makes, func(p *Product) bool { return p.Quantity != nil && p.Quantity.Equal(q) })
}

// portion tells whether an amount is that of a portion, or of a piece the block
// makes: "serve half a cup with a biscuit" in a dish of portions of half a cup.
func (sc *scanner) portion(q quantity.Quantity) bool {
	if each, problem := sc.recipe.ServesEach.Quantity(sc.recipe.System); problem == nil && !sc.recipe.ServesEach.IsZero() && each.Equal(q) {
		return true
	}
	return sc.recipe.Makes != nil && sc.recipe.Makes.Each != nil && sc.recipe.Makes.Each.Equal(q)
}

// eachBehind tells whether the clause goes on, behind word n, with "in each pan",
// "on every fillet" or "per portion": the figure is for one of them.
func (sc *scanner) eachBehind(n int) bool {
	for k := n; k < len(sc.words) && !sc.words[k].stop; k++ {
		switch sc.lower(k) {
		case "each", "every", "per":
			return true
		case "a":
			if k <= n+2 && k+1 < len(sc.words) && eaters[sc.words[k+1].key] && (sc.words[k+1].stop || k+2 == len(sc.words) || sc.words[k+2].stop) { // 150 g a head
				return true
			}
		}
	}
	return false
}

// eaters are who a figure is for, behind "a".
var eaters = wordSet("head person guest portion serving cover")

// mixtureAt tells whether "mixture", or a mixture called by what is in it, stands at word n.
func (sc *scanner) mixtureAt(n int) bool {
	for k := n; k < len(sc.words) && k < n+5 && !sc.words[k].stop; k++ {
		if sc.words[k].key == "mixture" {
			return true
		}
	}
	return false
}

// sized tells whether a vessel stands at word n behind a word of its own: "900 g
// loaf tins", or behind how many there are: "six 150 ml cups".
func (sc *scanner) sized(n int) bool {
	if n+1 < len(sc.words) && !sc.words[n+1].stop && !sc.words[n+1].glue && sc.lower(n) != "of" && vessels[sc.words[n+1].key] && len(sc.finder.at(sc.words, n, false)) == 0 {
		return true
	}
	return sc.words[n].key == "cup" && sc.lower(n+1) != "of"
}

// piecesBefore tells whether a number of pieces or "into" stands a little before
// word i: "into balls of", "8 pieces of".
func (sc *scanner) piecesBefore(i int) bool {
	for k := i - 1; k >= 0 && k >= i-4 && !sc.words[k+1].opens; k-- {
		if sc.lower(k) == "into" || sc.words[k].key == "portion" || sc.words[k].key == "serving" || k > 0 && sc.counts(k-1) && (vessels[sc.words[k].key] || baked[sc.words[k].key] || heaps[sc.words[k].key]) { // 6 jars of
			return true
		}
	}
	return false
}

// water tells whether tap water stands at word n, past "of" and an adjective.
func (sc *scanner) water(n int) bool {
	if sc.lower(n) == "of" {
		n++
	}
	for k := n; k < n+3 && k < len(sc.words) && (k == n || !sc.words[k].stop); k++ {
		if sc.words[k].key == "water" {
			return true
		}
	}
	return false
}

// foodAt tells whether a known food stands at word n, past "of" and at most two words.
func (sc *scanner) foodAt(n int) bool {
	if sc.lower(n) == "of" {
		n++
	}
	for k := n; k < n+3 && k < len(sc.words) && (k == n || !sc.words[k].stop); k++ {
		if fillerStops[sc.lower(k)] && !articles[sc.lower(k)] { // 200 g to the onions
			return false
		}
		if length, _ := sc.decoyAt(sc.recipe.Scope, sc.words, k); length > 0 {
			return true
		}
		if len(sc.finder.at(sc.words, k, false)) > 0 || len(sc.everyOption.at(sc.words, k, false)) > 0 {
			return true
		}
	}
	return false
}

// yields tells whether a verb of yield leads up to word i in its clause, the
// figure following it or its "into" at once.
func (sc *scanner) yields(i int) bool {
	k := i - 1
	for k >= 0 && (quantity.InDoubt(sc.lower(k)) || sc.lower(k) == "out" || sc.lower(k) == "exactly") {
		k--
	}
	if k >= 0 && sc.words[k].opens && sc.words[k+1].opens && (sc.words[k].key == "yield" || sc.words[k].key == "make") { // Yield: 12 buns
		return true
	}
	if w := sc.lower(max(k, 0)); k > 0 && !sc.words[k+1].stop && (w == "get" || w == "have" || w == "gives" || w == "be") && (modals[sc.lower(k-1)] || sc.lower(k-1) == "to" || sc.lower(k-1) == "you") {
		return true // you ought to get eighteen
	}
	if k < 0 || sc.words[k+1].stop {
		return false
	}
	if (sc.lower(k) == "in" || sc.lower(k) == "into") && sc.words[0].opens && k > 0 && (sc.words[k-1].key == "pot" || sc.words[k-1].key == "bottle") { // pot in 12 warm jars
		return true
	}
	if yieldBy[sc.words[k].key] || yieldBy[sc.lower(k)] {
		return true
	}
	if sc.words[k].key == "fill" && (sc.lower(k) == "fills" || k > 0 && (modals[sc.lower(k-1)] || k > 1 && sc.says(k-2, "enough", "to"))) { // will fill three moulds
		return true
	}
	if sc.lower(k) != "into" {
		return false
	}
	for ; k >= 0; k-- {
		if yieldBy[sc.words[k].key] || yieldBy[sc.lower(k)] {
			return true
		}
		if sc.words[k].opens {
			return false
		}
	}
	return false
}

// itsPieces tells whether so many of the word at i are the pieces that the step is shared
// into or the block makes: "fry 12 pancakes", "mark into 20 fingers", "thread on to 12 skewers".
func (sc *scanner) itsPieces(i int, n quantity.Number) bool {
	if i >= len(sc.words) {
		return false
	}
	called := func(name string) bool {
		words := strings.Fields(larder.Fold(name))
		return len(words) > 0 && words[len(words)-1] == sc.words[i].key
	}
	if into := sc.now; into != nil && into.Into != nil && !into.Into.IntoVessels() && called(into.Into.Name.Text) && quantity.Int(int64(into.Into.Count)).Equal(n) {
		return true
	}
	y := sc.recipe.Makes
	return y != nil && y.What != "" && y.Quantity.Dim == quantity.None && called(y.What) && y.Quantity.Value.High.Equal(n)
}

// openings are what is cut or made in a thing, and is no piece of it.
var openings = wordSet("slit hole vent slash nick cross incision groove notch gash score")

// baked are what a dough is divided into.
var baked = wordSet("loaf roll bun ball cake biscuit round portion scone cookie")

var modals = wordSet("should will ought must would can may you'll you’ll")

// countFigure judges a bare number that stands before no name.
func (sc *scanner) countFigure(i, next int, s quantity.Spoken) {
	q := pieces(s)
	few := !quantity.Int(4).Less(s.Value.High)
	bare := next >= len(sc.words) || sc.words[next].stop || sc.lower(next) == "and" || sc.lower(next) == "or"
	switch word := sc.lower(next); {
	case sc.isLength(next): // roll it 3 mm thick, cut 1-inch squares
		sc.figure(FigureKept, i, next, q)
	case next < len(sc.words) && openings[sc.words[next].key]: // cut two slits in the lid
		sc.figure(FigureKept, i, next, q)
	case sc.cases == i && i > 0, sc.itsPieces(next, s.Value.High):
		sc.figure(FigureScaled, i, next, q)
	case sc.says(next, "at", "a", "time"), word == "per" && next+1 < len(sc.words) && vessels[sc.words[next+1].key], word == "batch" || sc.says(next, "batch"), i > 0 && sc.lower(i-1) == "in" && sc.says(next, "lot"), i > 1 && sc.lower(i-1) == "of" && sc.words[i-2].key == "batch":
		sc.figure(FigureLoad, i, next, q)
	case timeWords[word] || next < len(sc.words) && timeWords[sc.words[next].key]:
		sc.figure(FigureKept, i, next, q)
	case sc.begins(next):
		sc.figure(FigureKept, i, next, q)
		at := sc.place(sc.words[i].start, sc.words[next].end)
		sc.diags.Askf("U217", at, "%s of what", at.Text()).
			Because("it may be the first word of something that is gathered, and nothing is taken").
			WithHelp("write the whole name after it")
	case next < len(sc.words) && baked[sc.words[next].key] && sc.yieldClause(i): // divide at 900 g, two loaves
		sc.figure(FigureScaled, i, next, q)
	case sc.yields(i) && !(few && bare):
		sc.figure(FigureScaled, i, next, q)
	case i > 0 && sc.lower(i-1) == "in" && !few && bare && sc.yieldClause(i):
		sc.figure(FigureScaled, i, next, q)
	case i > 0 && (sc.lower(i-1) == "into" || sc.lower(i-1) == "on" || sc.lower(i-1) == "between" || sc.lower(i-1) == "among") && sc.recipe.Serves != nil && sc.recipe.Serves.High.Equal(s.Value.High):
		sc.figure(FigureScaled, i, next, q)
	default:
		sc.figure(FigureKept, i, next, q)
		sc.loose(i, next, s)
	}
}

// isLength tells whether a unit of length stands at a word, or ended the number before it.
func (sc *scanner) isLength(i int) bool {
	u, n := sc.unitAt(i)
	return n > i && u.Dim == quantity.Length || sc.lower(i-1) == "inch"
}

// begins tells whether word i is the first of a name that is gathered, with the
// rest of the name behind another: "one red and two white onions".
func (sc *scanner) begins(i int) bool {
	if i+1 >= len(sc.words) || sc.words[i].stop || sc.lower(i+1) != "and" && sc.lower(i+1) != "or" {
		return false
	}
	for _, l := range sc.lines {
		if sc.story.left[l].Sign() > 0 && strings.HasPrefix(l.Key, sc.words[i].key+" ") {
			return true
		}
	}
	return false
}

func (sc *scanner) yieldClause(i int) bool {
	for k := i - 1; k >= 0 && !sc.words[k+1].opens; k-- {
		if yieldBy[sc.words[k].key] {
			return true
		}
	}
	return false
}

// silent is an amount in base units, without a word where it has none.
func (sc *scanner) silent(a *quantity.Amount) *quantity.Quantity {
	q, problem := a.Quantity(sc.recipe.System, 0)
	if problem != nil {
		return nil
	}
	return &q
}
