package resolve

import (
	"slices"
	"strings"

	"tamis/compiler/larder"
	"tamis/lang/quantity"
)

// The guard. A sentence is read by what is known of it; a word that can change how much of a
// thing is meant, and of which the reading made nothing, would be passed over in silence. The
// words that can are few: the language makes no new ones. Each that stands beside what a
// sentence takes must have been used, or be one of the ways in which it changes nothing; else
// the sentence is asked about, once.

// changer is how a word can change an amount.
type changer uint8

const (
	changesNothing changer = iota
	changesByRest          // others, the remainder
	changesByMore          // more, extra, less
	changesBySome          // several, plenty
	changesByLimit         // at most
	changesByLeave         // but, keeping
	changesByEach          // per, apiece
	changesByCase          // if, unless
	changesByLike          // the same, twice
	changesByOrder         // the second
	changesByOr            // or
	changesByTaste         // until
	changesByAll           // both
	changesByNot           // not
	changesByModal         // would
	changesByNeed          // what you need
)

var changers = func() map[string]changer {
	set := map[string]changer{}
	for c, words := range [...]string{
		changesByRest:  "other others rest remainder remaining balance bal leftover leftovers",
		changesByMore:  "more extra additional further fewer",
		changesBySome:  "some several few many much plenty lots loads ample sufficient",
		changesByLimit: "most least begin start",
		changesByLeave: "but except excepting save saving bar barring minus less leaving reserving keeping holding retaining short shy keep reserve leave hold spare without",
		changesByEach:  "each every per apiece",
		changesByCase:  "if unless should optionally perhaps maybe case otherwise depending",
		changesByLike:  "same equal equivalent twice double treble triple thrice times again proportion ratio so",
		changesByOrder: "first second third fourth fifth sixth",
		changesByOr:    "or",
		changesByTaste: "until till taste tasting",
		changesByAll:   "both all",
		changesByNot:   "not never don't don’t won't won’t needn't needn’t",
		changesByModal: "would could might may can",
		changesByNeed:  "need needed required require necessary",
	} {
		for w := range wordSet(words) {
			set[w] = changer(c)
		}
	}
	return set
}()

// guard asks about such words in the sentences of a step. asked is how many findings there
// were before it was read: where one of them stands, the cook looks already.
func (sc *scanner) guard(asked int) {
	if len(sc.found) == 0 && !slices.ContainsFunc(sc.words, func(w word) bool { return w.changes != changesNothing || w.low == "of" }) {
		return
	}
	g := guarding{scanner: sc}
	g.index(asked)
	for g.from < len(sc.words) {
		g.to = g.from + 1
		for g.to < len(sc.words) && (!sc.words[g.to].opens || sc.text[sc.words[g.to-1].end] == ':') {
			g.to++
		}
		if g.concerned() {
			g.sentence()
		} else if !g.asks() && !g.unaccounted() {
			g.partOfWhole()
		}
		g.from = g.to
	}
}

// guarding is the guard over one sentence.
type guarding struct {
	*scanner
	from, to int
	marks    []guarded // of the words
	each     bool      // a figure of the step is for each of something, or a load
	unspoken bool      // a share of the step is of what nobody gathered
}

// guarded is what stands at a word: the take whose name begins there, the figure that begins
// there, from 1, and whether something is asked of it.
type guarded struct {
	take, figure int32
	asked        bool
}

// take is what is taken of the name that begins at word k; nil for no name.
func (g *guarding) take(k int) *Take {
	if n := g.marks[k].take; n > 0 {
		return &g.takes[n-1]
	}
	return nil
}

// index finds the words at which things are taken, and asked about.
func (g *guarding) index(asked int) {
	g.marks = make([]guarded, len(g.words))
	places := make([]int, len(g.words))
	line := 0
	for k := range g.words {
		for line+1 < len(g.starts) && g.starts[line+1].at <= g.words[k].start {
			line++
		}
		places[k] = g.starts[line].source + g.words[k].start - g.starts[line].at
	}
	for n := range g.takes {
		if t := &g.takes[n]; t.Line != nil {
			k, ok := slices.BinarySearch(places, t.NameAt.Start)
			if !ok { // without a name: "use all eight"
				k--
			}
			if k >= 0 && !(g.marks[k].take > 0 && g.take(k).All && g.take(k).Line.Quantity != nil) { // of several that one word means, one that is measured
				g.marks[k].take = int32(n + 1)
			}
		}
	}
	for n := range g.found {
		f := &g.found[n]
		if k, ok := slices.BinarySearch(places, f.At.Start); ok {
			g.marks[k].figure = int32(n + 1)
		}
		g.each = g.each || f.Kind == FigureEach || f.Kind == FigureLoad
	}
	file := g.place(0, 0).File
	for d := range g.diags.From(asked) {
		if d.At.Span.File == file {
			k, _ := slices.BinarySearch(places, d.At.Span.Start)
			g.marks[min(k, len(g.words)-1)].asked = true
			if k > 0 {
				k, _ = slices.BinarySearch(places, d.At.Span.End)
				g.marks[k-1].asked = true
			}
		}
	}
}

// concerned tells whether the sentence takes of what is gathered, or names it, and nothing of
// it is asked about yet.
func (g *guarding) concerned() bool {
	concerned, changes := false, false
	for k := g.from; k < g.to; k++ {
		if g.marks[k].asked {
			return false
		}
		changes = changes || g.words[k].changes != changesNothing || g.marks[k].figure > 0
		concerned = concerned || g.marks[k].take > 0
	}
	for k := g.from; k < g.to && changes && !concerned; k++ {
		concerned = g.gathers(k)
	}
	return changes && concerned
}

// asks tells whether something is asked about in the sentence.
func (g *guarding) asks() bool {
	return slices.ContainsFunc(g.marks[g.from:g.to], func(m guarded) bool { return m.asked })
}

// gathers tells whether something that is gathered is named at word k.
func (g *guarding) gathers(k int) bool {
	ms := g.finder.at(g.words, k, false)
	return len(ms) > 0 && ms[0].target.line != nil
}

func (g *guarding) sentence() {
	if g.hearsay() || g.counted() || g.unaccounted() || g.heldOf() || g.ofAgain() || g.partOfWhole() {
		return
	}
	for k := g.from; k < g.to; k++ {
		if _, next, ok := g.spokenAt(k); ok && next > k+1 { // two or three
			k = next - 1
			continue
		}
		if g.words[k].changes == changesNothing || g.spent[k] {
			continue
		}
		if end, name := g.changed(k); end > k {
			at := g.place(g.words[k].start, g.words[end-1].end)
			d := g.diags.Askf("U223", at, "does `%s` change how much is taken", at.Text())
			if name != "" {
				d.Because("nothing was made of it: of %s the sentence takes what it would take without", name)
			} else {
				d.Because("nothing was made of it, and what is gathered goes in as if it were not there")
			}
			d.WithHelp("write the amount that is meant before the name: `100 g of the butter`, `half the butter`").
				WithHelp("or say in the margin what the step takes: `| uses 100 g butter`")
			return
		}
	}
}

// counted asks about a number of what a thing that is taken whole comes in: "cut the kernels
// from nine ears" of twelve, "the beans from one of the tins".
func (g *guarding) counted() bool {
	for i := g.from; i < g.to; i++ {
		if g.marks[i].figure == 0 {
			continue
		}
		f := &g.found[g.marks[i].figure-1]
		if f.Kind != FigureKept || f.As != "" || f.Unit != nil || f.Quantity.Dim != quantity.None || f.Quantity.Value.IsRange() {
			continue
		}
		_, n, ok := g.spokenAt(i)
		if !ok || n >= g.to || g.words[n].stop {
			continue
		}
		if g.lower(n) == "of" && articles[g.lower(n+1)] {
			n += 2
		}
		if n >= g.to {
			continue
		}
		for k := g.from; k < g.to; k++ {
			t := g.take(k)
			if t == nil {
				continue
			}
			l := t.Line
			if !t.All || t.Rest || t.Refers || l.Quantity == nil || !l.comesIn(g.words[n].key) || l.Quantity.Value.High.Equal(f.Quantity.Value.High) || l.Written != nil && l.Written.Count.High.Equal(f.Quantity.Value.High) {
				continue
			}
			g.diags.Askf("U223", f.At, "%s of %s: is that all that goes in", f.At.Text(), l.Name).
				Because("it is gathered so, and all that is left of it is taken here").
				WithHelp("write the number before the name: `%s of the %s`", f.At.Text(), l.Name)
			return true
		}
	}
	return false
}

// comesIn tells whether a line is counted in what a folded word says: in tins, in ears.
func (l *Line) comesIn(word string) bool {
	if u := l.Quantity.Unit; u != nil && larder.Fold(u.Name) == word {
		return true
	}
	if l.Written != nil && l.Written.Container != nil && larder.Fold(l.Written.Container.Name) == word {
		return true
	}
	return slices.ContainsFunc(strings.Fields(l.Key), func(w string) bool { return larder.Fold(w) == word })
}

// changed tells whether the word at k may change an amount: the word behind the phrase, and
// the name of what is concerned, if that is plain.
func (g *guarding) changed(k int) (end int, name string) {
	switch g.words[k].changes {
	case changesByRest:
		return g.byRest(k)
	case changesByMore, changesBySome, changesByOrder:
		return g.before(k)
	case changesByLimit:
		return g.byLimit(k)
	case changesByLeave:
		if end, name := g.byLeave(k); end > k || g.lower(k) != "less" {
			return end, name
		}
		return g.before(k)
	case changesByEach:
		return g.byEach(k)
	case changesByCase:
		return g.byCase(k)
	case changesByLike:
		return g.byLike(k)
	case changesByOr:
		return g.byOr(k)
	case changesByTaste:
		return g.byTaste(k)
	case changesByAll:
		return g.byAll(k)
	case changesByNot:
		return g.byNot(k)
	case changesByModal:
		return g.byModal(k)
	case changesByNeed:
		return g.byNeed(k)
	}
	return 0, ""
}

// ends tells whether a phrase stands by itself at word k: no noun follows.
func (g *guarding) ends(k int) bool {
	if k >= g.to || g.words[k].stop {
		return true
	}
	w := g.lower(k)
	return fillerStops[w] && w != "of" || aloneBefore[w] || strings.HasSuffix(w, "ly") || w == "too" || w == "as" || w == "so" || w == "once" || w == "after" || w == "till"
}

// begun is a line of which a part is gone and some is left, or that the sentence names.
func (g *guarding) begun() *Line {
	for _, l := range g.lines {
		if g.story.touched[l] && !g.story.vague[l] && g.story.left[l].Sign() > 0 && g.story.left[l].Less(one) && !l.ToTaste {
			return l
		}
	}
	for k := g.from; k < g.to; k++ {
		if g.take(k) == nil && g.gathers(k) {
			if l := g.finder.at(g.words, k, false)[0].target.line; g.story.left[l].Sign() > 0 && !l.ToTaste && l.Quantity != nil {
				return l
			}
		}
	}
	return nil
}

// predicates stand behind a thing that something is said of: the rest go in the salad.
var predicates = wordSet("is are was were go goes going will can may must should makes make comes come serve stay stays need needs want wants do does")

// byRest is "juice the others", "keep the remainder".
func (g *guarding) byRest(k int) (int, string) {
	if g.lower(k) == "rest" && (g.words[k].opens || g.lower(k-1) == "then" || g.lower(k-1) == "and") { // and rest for ten minutes
		return 0, ""
	}
	if g.kept || k > g.from && !g.words[k].stop && (g.lower(k-1) == "each" || g.lower(k-1) == "no" || g.lower(k-1) == "than" || g.lower(k-1) == "one") {
		return 0, ""
	}
	for b := k - 1; b >= g.from && !g.words[b+1].stop; b-- { // under all the rest; leave the others whole
		if p := g.lower(b); p == "under" || p == "beneath" || p == "among" || p == "around" || p == "like" || g.words[b].key == "leave" && manners[g.lower(k+1)] {
			return 0, ""
		} else if p != "all" && !articles[p] {
			break
		}
	}
	if _, share := g.bareShare(k + 1); share && g.lower(k) == "other" && (k == g.from || !articles[g.lower(k-1)]) { // other half mix in
		if l := g.begun(); l != nil {
			return k + 2, l.Name
		}
	}
	if of, next, ok := g.amountAt(k + 1); ok && (of.measured() && !of.article || of.share != nil) && next <= g.to && g.keptAs(k+1, next) == "" { // the remaining half tin
		if l := g.begun(); l != nil && g.ends(next) {
			return next, l.Name
		}
		return 0, ""
	}
	end := k + 1
	if w := g.lower(end); w == "pair" || w == "couple" || w == "few" || w == "ones" || w == "dozen" {
		end++
	}
	if g.lower(end) == "of" {
		switch g.lower(end + 1) {
		case "each", "both", "them", "these", "those":
			end += 2
		default:
			return 0, ""
		}
	}
	for b := end; b < end+6 && b < g.to && (b == end || !g.words[b].stop); b++ { // the other goes in raw at the end
		if g.says(b, "at", "the", "end") || g.lower(b) == "later" || g.lower(b) == "afterwards" {
			return 0, ""
		}
	}
	if !g.ends(end) && !(predicates[g.lower(end)] && g.lower(k) != "rest" || g.lower(k) == "rest" && (g.lower(end) == "go" || g.lower(end) == "goes")) || g.lower(end) == "is" && g.lower(end+1) == "for" {
		return 0, ""
	}
	if l := g.begun(); l != nil {
		if t := g.taken(k); t != nil && t.Line == l && t.But.Sign() > 0 { // all but four; add the others
			return 0, ""
		}
		return end, l.Name
	}
	return 0, ""
}

// whole is the take of a bare name at most three words behind k, which is taken whole.
func (g *guarding) whole(k int) (*Take, int) {
	for n := k + 1; n < g.to && n <= k+4 && !g.words[n].stop; n++ {
		if t := g.take(n); t != nil {
			if t.All && !t.Rest && !t.Line.ToTaste && t.Line.Quantity != nil {
				return t, n
			}
			return nil, 0
		}
		if w := g.lower(n); fillerStops[w] && w != "of" && w != "the" {
			return nil, 0
		}
	}
	return nil, 0
}

// before is "several onions", "more milk", "the second lemon".
func (g *guarding) before(k int) (int, string) {
	if g.words[k].changes == changesByMore && g.lower(k+1) == "than" && k > g.from && !g.number(k+2, k+3) { // finish with oil, more than you think
		if t := g.taken(k); t != nil && t.All && !g.words[k+1].stop {
			return k + 2, t.Line.Name
		}
	}
	if end, name := g.someMore(k); end > k {
		return end, name
	}
	if g.words[k].changes == changesBySome && k > g.from && g.lower(k-1) == "as" && g.lower(k+1) == "as" {
		return g.byTaste(k)
	}
	t, n := g.whole(k)
	if t == nil && g.words[k].changes == changesByOrder && k > g.from && g.lower(k-1) == "the" && g.ends(k+1) { // rub it with the fourth
		if w := g.lower(k + 1); w == "is" || w == "are" || w == "goes" || w == "of" {
			return 0, ""
		}
		if l := g.begun(); l != nil && l.Quantity != nil {
			return k + 1, l.Name
		}
	}
	if t == nil {
		return 0, ""
	}
	if g.words[k].changes == changesByOrder && (t.Line.Quantity.Dim != quantity.None || !one.Less(t.Line.Quantity.Value.High) || g.lower(n-1) != g.lower(k)) {
		return 0, ""
	}
	return max(n, k+1), t.Line.Name
}

// someMore is "60 g of the cheese, and more if you like": of a thing of which a part that is
// measured went in just before, and some is left.
func (g *guarding) someMore(k int) (int, string) {
	if w := g.lower(k); w != "more" && w != "extra" || k == g.from || !g.ends(k+1) {
		return 0, ""
	}
	first := k - 1
	if littles[g.words[first].key] || g.lower(first) == "some" || g.lower(first) == "trifle" {
		for first--; first > g.from && !g.words[first+1].stop && (g.lower(first) == "a" || g.lower(first) == "very"); first-- {
		}
	}
	if w := g.lower(first); !g.words[first+1].stop && w != "and" && w != "plus" && w != "then" && w != "add" && w != "adding" && w != "with" || w == "or" {
		return 0, ""
	}
	t := g.taken(k)
	if t != nil && !t.Each && !t.Unmeasured && first > g.from && (g.lower(first) == "and" || g.lower(first) == "plus") && g.endsWith(t, first-1) { // 40 g of the cheese, plus extra
		return k + 1, t.Line.Name
	}
	if t == nil || t.All || t.Unmeasured || t.Each || g.story.left[t.Line].Sign() <= 0 || g.story.vague[t.Line] {
		return 0, ""
	}
	in := g.lower(first) == "add" || g.lower(first) == "adding" || g.lower(first) == "with"
	for b := g.from; b < g.to && !in; b++ {
		w := g.lower(b)
		in = w == "if" || w == "when" || w == "should" || w == "unless" || b > k && (w == "needed" || w == "required" || w == "wanted")
	}
	if !in {
		return 0, ""
	}
	return k + 1, t.Line.Name
}

// number finds a number from word a to b that is no time and no heat.
func (g *guarding) number(a, b int) bool {
	for k := max(a, g.from); k < min(b, g.to); k++ {
		s, next, ok := g.spokenAt(k)
		if !ok || s.Article {
			continue
		}
		if as := g.keptAs(k, next); as == "" {
			return true
		}
	}
	return false
}

// taken is the last take before word k that has an amount or is of all, in the sentence.
func (g *guarding) taken(k int) *Take {
	for n := k; n >= g.from; n-- {
		if t := g.take(n); t != nil && !t.Refers && !t.Line.ToTaste && t.Line.Quantity != nil {
			return t
		}
	}
	return nil
}

// byLimit is "two at most", "100 g to begin with".
func (g *guarding) byLimit(k int) (int, string) {
	if k == g.from {
		return 0, ""
	}
	end, first := k+1, k-1
	switch w := g.lower(k); {
	case (w == "most" || w == "least") && g.lower(k-1) == "at":
	case (w == "most" || w == "least") && k > g.from+1 && g.says(k-2, "at", "the"):
		first = k - 2
	case (w == "begin" || w == "start") && g.lower(k-1) == "to":
		if g.lower(k+1) == "with" {
			end++
		} else if !g.ends(k + 1) {
			return 0, ""
		}
	default:
		return 0, ""
	}
	t := g.taken(k)
	if t == nil || t.Unmeasured || !g.number(first-3, first) && !g.number(end, end+1) {
		return 0, ""
	}
	return end, t.Line.Name
}

// keeps are verbs by which something is left out for later.
var keeps = wordSet("keep reserve leave hold spare")

// byLeave is "leaving two whole", "save a spoonful".
func (g *guarding) byLeave(k int) (int, string) {
	n := k + 1
	if t := g.taken(k); keeps[g.lower(k)] && t != nil && !t.All { // heat five bags, hold three: of what is left
		return 0, ""
	} else if t != nil && t.All && !t.Refers && articles[g.lower(n)] && !keeps[g.lower(k)] { // all the potatoes but the little ones
		for b := n + 1; b < g.to && b <= n+3 && !g.words[b].stop; b++ {
			if w := g.lower(b); w == "ones" || w == "others" || strings.HasSuffix(w, "est") && w != "rest" {
				return b + 1, t.Line.Name
			}
		}
	}
	if g.lower(n) == "out" { // leaving out two of the whites
		if w, next, ok := g.wantedAt(n + 1); ok && w.measured() && !w.article && g.taken(k) != nil {
			return min(next, g.to), g.taken(k).Line.Name
		}
	}
	if t := g.taken(k); t != nil && t.All && !t.Refers && k > g.from && g.lower(k-1) == "all" && n < g.to && (g.lower(n) == "a" || g.lower(n) == "an") { // all except a walnut of it
		return min(n+2, g.to), t.Line.Name
	}
	switch g.lower(n) {
	case "such", "those", "whatever", "any", "enough", "what": // all except such as are wanted for the top
		if t := g.taken(k); t != nil && t.All && g.lower(k) != "but" {
			return n + 1, t.Line.Name
		}
	}
	if g.lower(n) == "of" || g.lower(n) == "by" || g.lower(n) == "for" || asides[g.lower(n)] {
		n++
	}
	if n >= g.to || g.lower(n) == "than" {
		return 0, ""
	}
	w, next, ok := g.wantedAt(n)
	if g.spent[n] || !ok || g.lower(next) == "of" && !g.named(next) || w.article && w.amount == nil || next > g.to || g.keptAs(n, next) != "" {
		return 0, ""
	}
	if u := unitOf(w.amount); u != nil && u.Dim == quantity.Length {
		return 0, ""
	}
	if w.number != nil && !g.ends(next) {
		return 0, ""
	}
	if next < g.to && timeWords[g.words[next].key] {
		return 0, ""
	}
	if t := g.taken(k); t != nil {
		if (w.unmeasured || w.article || g.lower(n) == "a") && g.partly(k) {
			return 0, ""
		}
		return next, t.Line.Name
	}
	if l := g.begun(); l != nil {
		return next, l.Name
	}
	return 0, ""
}

// partly tells whether the sentence takes most of something before word i, or a part that nobody
// weighs: what it leaves of that needs no figure. A spoonful leaves nothing to speak of.
func (g *guarding) partly(i int) bool {
	for k := g.from; k < i; k++ {
		if t := g.take(k); t != nil && t.Unmeasured && !g.spoonful(k, t) {
			return true
		}
	}
	return false
}

// spoonful tells whether the take named at word k is of so little as a spoonful.
func (g *guarding) spoonful(k int, t *Take) bool {
	for b := k - 1; b >= g.from && g.place(g.words[b].start, g.words[b].end).Start >= t.Span.Start; b-- {
		if littles[g.words[b].key] {
			return true
		}
	}
	return false
}

// byEach is "a teaspoon of the paprika per avocado".
func (g *guarding) byEach(k int) (int, string) {
	w := g.lower(k)
	if w == "each" || w == "every" {
		if k == g.from || g.words[k].stop || !eachBy[g.lower(k-1)] {
			return 0, ""
		}
	}
	if end := g.rate(k); end > k {
		return end, ""
	}
	end := k + 1
	if w != "apiece" {
		if end >= g.to || timeWords[g.words[end].key] || g.lower(end) == "side" || g.lower(end) == "other" || g.lower(end) == "time" {
			return 0, ""
		}
		end++
	}
	t := g.taken(k)
	if w == "per" && t == nil && g.words[k].opens { // per 10 covers: 1.5 l stock
		t = g.taken(g.to - 1)
	}
	if g.each || t == nil || t.Each || t.Amount == nil || t.Unmeasured {
		return 0, ""
	}
	return end, t.Line.Name
}

// rate is the word behind "for each 18 eggs", "per cup of rice" at word k, where the amounts
// of two gathered things hang on each other and nothing was made of it; 0: there is none.
func (g *guarding) rate(k int) int {
	if slices.ContainsFunc(g.takes, func(t Take) bool { return t.Each }) {
		return 0
	}
	n := k + 1
	_, next, number := g.amountAt(n)
	if number {
		n = next
	} else if u, un := g.unitAt(n); un > n && (u.Dim == quantity.Mass || u.Dim == quantity.Volume) {
		n = un
	} else {
		return 0
	}
	if g.lower(n) == "of" {
		n++
	}
	if articles[g.lower(n)] {
		n++
	}
	if n >= g.to || g.words[n].stop || g.gathered(n) == nil {
		return 0
	}
	other := false
	for j := g.from; j < g.to; j++ {
		if timeWords[g.words[j].key] {
			return 0
		}
		if t := g.take(j); t != nil && t.Line != g.gathered(n) && t.Line.Quantity != nil {
			other = true
		}
	}
	if !other {
		return 0
	}
	return n + 1
}

// byCase is "if you like, the juice of a lemon".
func (g *guarding) byCase(k int) (int, string) {
	end := k + 1
	switch w := g.lower(k); w {
	case "if", "unless":
		if g.lower(k+1) == "using" || g.lower(k+1) == "you" && (g.lower(k+2) == "are" || g.lower(k+2) == "use" || g.lower(k+2) == "have") || k > g.from && (g.lower(k-1) == "as" || g.lower(k-1) == "even" || g.lower(k-1) == "see" || g.lower(k-1) == "or") {
			return 0, ""
		}
		for end < g.to && end < k+4 && !g.words[end].stop {
			end++
		}
		if t := g.taken(k); t != nil && t.All && !t.Rest && !t.Line.Optional && !t.Line.Serving && g.endsWith(t, k-1) && atChoice(g.lower(end-1)) && (end == g.to || g.words[end].stop) { // the sherry, if liked
			return end, t.Line.Name
		}
	case "should":
		if k != g.from {
			return 0, ""
		}
	case "otherwise", "depending": // use all eight, otherwise seven
		if t := g.taken(k); t != nil && !t.Unmeasured && (w == "depending" && g.lower(end) == "on" && t.Amount == nil || w == "otherwise" && g.number(end, end+2)) && k > g.from {
			return end, t.Line.Name
		}
		if l := g.begun(); l != nil && w == "otherwise" && g.number(end, end+2) && k > g.from {
			return end, l.Name
		}
		return 0, ""
	case "optionally", "perhaps", "maybe":
	case "case":
		if k == g.from || g.lower(k-1) != "in" {
			return 0, ""
		}
	default:
		return 0, ""
	}
	var of *Take
	for n := g.from; n < g.to; n++ {
		t := g.take(n)
		if t == nil || t.Refers || t.Unmeasured || t.Rest || t.Line.ToTaste || t.Line.Optional || t.Line.Serving || t.Line.Water && t.Amount == nil || t.Line.Quantity == nil || t.ByMargin {
			continue
		}
		if !g.sameClause(k, n) {
			continue
		}
		of = t
	}
	if of == nil {
		return 0, ""
	}
	return end, of.Line.Name
}

// sameClause tells whether what the condition at k hangs on takes the name at n: its clause,
// with the verb that puts in, stands right before the condition, or right behind the mark
// that ends it.
func (g *guarding) sameClause(k, n int) bool {
	if n < k { // add the cream if it looks dry
		for b := k; b > n; b-- {
			if g.words[b].opens || g.words[b].stop && b != k || g.lower(b) == "and" || g.lower(b) == "then" {
				return false
			}
		}
	} else {
		marks := 0
		for b := k + 1; b <= n; b++ {
			if g.words[b].stop {
				marks++
			}
			if g.lower(b) == "then" || marks > 1 {
				return false
			}
		}
		if w := g.lower(k); marks != 1 && w != "perhaps" && w != "maybe" && w != "optionally" {
			return false
		}
	}
	for b := n; b >= g.from; b-- {
		if putsIn[g.words[b].key] {
			return true
		}
		if b < n && readies[g.words[b].key] {
			return false
		}
		if g.words[b].stop || g.words[b].opens {
			return true // if you like, the juice of a lemon
		}
	}
	return false
}

// byLike is "the same of sugar", "twice as much".
func (g *guarding) byLike(k int) (int, string) {
	n := k + 1
	if n >= g.to {
		return 0, ""
	}
	switch w := g.lower(k); w {
	case "proportion", "ratio":
		if g.lower(n) != "of" {
			return 0, ""
		}
		n++
	case "so": // and so on until all is in
		if k == g.from || g.lower(k-1) != "and" || !onwards[g.lower(n)] {
			return 0, ""
		}
		n++
	case "same", "equal", "equivalent":
		if g.of() || k > g.from+1 && g.lower(k-1) == "the" && g.lower(k-2) == "or" {
			return 0, ""
		}
		for b := k - 1; b >= g.from && b >= k-3; b-- { // into four equal parts
			if g.lower(b) == "in" || g.lower(b) == "into" {
				return 0, ""
			}
		}
		if alike[g.words[n].key] && !g.words[n].stop {
			n++
		} else if g.lower(n) != "of" && g.lower(n) != "again" {
			return 0, ""
		}
	case "again":
		if k == g.from || g.lower(k-1) != "half" {
			return 0, ""
		}
	default:
		if t, at := g.whole(k); t != nil && articles[g.lower(n)] && at == n+1 && g.lower(k) != "times" { // top it with double the parsley
			return at + 1, t.Line.Name
		}
		if l := g.gathered(n + 1); l != nil && articles[g.lower(n)] && g.lower(k) != "times" && l.Quantity != nil && g.story.left[l].Sign() > 0 { // twice the tomatoes may be used
			return n + 2, l.Name
		}
		if of, next, ok := g.wantedAt(n); ok && g.lower(k) != "times" && of.measured() && (!of.article || g.named(next)) && !g.words[n].stop && g.keptAs(n, next) == "" { // twice two tablespoons of oil
			if t := g.taken(g.to - 1); t != nil {
				return next, t.Line.Name
			}
		}
		switch {
		case g.lower(n) == "as" && (g.lower(n+1) == "much" || g.lower(n+1) == "many"):
			n += 2
		case n+1 < g.to && (articles[g.lower(n)] || g.lower(n) == "that") && alike[g.words[n+1].key]:
			n += 2
		case g.lower(n) == "that" || g.lower(n) == "this":
			n++
		default:
			return 0, ""
		}
	}
	for j := n; j < g.to && j <= n+4 && !g.words[j].opens; j++ {
		if t := g.take(j); t != nil && t.Line.Quantity == nil { // salt that nobody weighs
			return 0, ""
		}
	}
	if t := g.taken(g.to - 1); t != nil {
		return n, t.Line.Name
	}
	if l := g.begun(); l != nil {
		return n, l.Name
	}
	return 0, ""
}

// onwards are words behind "and so" that go on in the same way.
var onwards = wordSet("on forth proceed continue repeat alternately alternating")

// of tells whether all that the sentence takes is measured there.
func (g *guarding) of() bool {
	for k := g.from; k < g.to; k++ {
		if t := g.take(k); t != nil && !t.Refers && t.Amount == nil && t.Line.Quantity != nil {
			return false
		}
	}
	return true
}

// byTaste is "soy sauce goes in by the capful until it tastes right".
func (g *guarding) byTaste(k int) (int, string) {
	if g.lower(k) == "tasting" {
		if t := g.taken(k); t != nil && t.All && g.says(k+1, "as", "you", "go") {
			return k + 4, t.Line.Name
		}
		return 0, ""
	}
	if w := g.lower(k); (w == "until" || w == "till") && k > g.from && !g.words[k].stop { // pour in the cider till it is thin enough
		for n := k - 1; n >= g.from && n >= k-4; n-- {
			t := g.take(n)
			if t == nil {
				continue
			}
			if t.All && !t.Refers && !t.Line.ToTaste && t.Line.Quantity != nil && t.NameAt.End == g.place(g.words[k-1].start, g.words[k-1].end).End && g.pours(n) && (g.lower(k+1) == "it" || g.lower(k+1) == "the") {
				return min(k+2, g.to), t.Line.Name
			}
			break
		}
	}
	if g.lower(k) == "taste" { // chillies as per taste, sugar to taste
		if k < g.from+2 || g.lower(k-1) != "to" && g.lower(k-1) != "per" && g.lower(k-1) != "your" {
			return 0, ""
		}
		for n := k - 2; n >= g.from && n >= k-5 && !g.words[n+1].opens; n-- {
			if t := g.take(n); t != nil {
				if t.All && !t.Refers && !t.Line.ToTaste && t.Line.Quantity != nil {
					return k + 1, t.Line.Name
				}
				return 0, ""
			}
		}
		return 0, ""
	}
	if k > g.from && g.lower(k-1) == "as" && g.lower(k+1) == "as" && (g.lower(k) == "much" || g.lower(k) == "many" || g.lower(k) == "little") { // feta on top, as much as you fancy
		for n := k + 2; n < g.to && n < k+6; n++ {
			if g.gathered(n) != nil {
				return 0, ""
			}
		}
		if g.lower(k+2) == "possible" || g.lower(k+3) == "can" || g.lower(k+3) == "could" { // stirring it as much as you can
			return 0, ""
		}
		t := g.taken(k)
		if t == nil || !t.All || t.Refers || !g.words[k-1].stop && !g.endsWith(t, k-2) { // stir it as much as you can
			return 0, ""
		}
		return min(k+3, g.to), t.Line.Name
	}
	if !g.says(k+1, "it", "taste") && !g.says(k+1, "you", "like") && !g.says(k+1, "you", "think") && !g.says(k+1, "it", "please") {
		return 0, ""
	}
	t := g.taken(k)
	if t == nil || !t.All {
		return 0, ""
	}
	return min(k+3, g.to), t.Line.Name
}

// pours tells whether the verb that leads up to word n pours, so that somebody stops when it
// is enough.
func (g *guarding) pours(n int) bool {
	for b := n - 1; b >= g.from; b-- {
		switch g.words[b].key {
		case "pour", "trickle", "splash", "ladle", "drizzle", "dredge":
			return true
		}
		if g.words[b].stop {
			break
		}
	}
	return false
}

// byAll is "use both if you are hungry", behind a part of something.
func (g *guarding) byAll(k int) (int, string) {
	if next := g.lower(k + 1); k == g.from || k+1 < g.to && !g.words[k+1].stop && next != "if" && next != "when" && next != "unless" || g.lower(k-1) == "at" || g.lower(k-1) == "in" || g.lower(k-1) == "of" || g.lower(k-1) == "over" || g.lower(k-1) == "for" {
		return 0, ""
	}
	t := g.taken(k)
	if t == nil || t.All || t.Amount == nil || t.Unmeasured || t.Line.Quantity == nil || g.story.left[t.Line].Sign() <= 0 {
		return 0, ""
	}
	return k + 1, t.Line.Name
}

// byOr is "warm the milk gently, or the cream".
func (g *guarding) byOr(k int) (int, string) {
	if w := g.lower(k + 1); w == "none" || w == "not" || w == "omit" {
		if t := g.taken(k); t != nil && t.All && !t.Refers && g.ends(k+2) {
			return min(k+2, g.to), t.Line.Name
		}
	}
	for n := k + 1; n < g.to && n <= k+3 && !g.words[n].stop; n++ { // or use just half
		s, next, ok := g.spokenAt(n)
		if !ok || s.Article || g.spent[n] {
			continue
		}
		if t := g.taken(k); t != nil && g.keptAs(n, next) == "" && g.ends(next) && n > k+1 {
			return next, t.Line.Name
		}
		break
	}
	t, n := g.whole(k)
	if t == nil {
		return 0, ""
	}
	before := g.taken(k)
	if before == nil || before.Line == t.Line || before.NameAt.End != g.place(g.words[k-1].start, g.words[k-1].end).End {
		return 0, ""
	}
	return n + 1, t.Line.Name
}
