package resolve

import (
	"strings"

	"tamis/lang/quantity"
)

// How much of a name a sentence asks for. A phrase is what stands before the
// name: "two thirds of the", "half a pound of", "all but 2 tbsp of the", "the
// rest of the", "a little". What stands behind it is in after.go.

// wanted is how much of a name a sentence asks for.
type wanted struct {
	share      *Share
	amount     *quantity.Amount // "200 ml", "half a pound"
	number     *quantity.Range  // "two", "a", "half a": counted things
	ordinal    bool             // "a third egg": a third of it, or the third
	article    bool             // the number is only "a" or "an"
	start      int              // where it begins in the text
	figure     int              // where the amount itself begins
	end        int              // where the amount itself ends
	rest       bool             // "the rest of the"
	unmeasured bool             // "some of the", "up to 100 ml of the"
	other      bool             // "the other half of the"
	heaps      *quantity.Range  // how many spoonfuls or handfuls that nobody weighs
	but        *wanted          // "all but 2 tbsp of the": what stays behind
	every      bool             // "2 tbsp each of": so much of all that follow
	at         bool             // "one at a time": a load, not an amount
	pieces     int              // "in each of 24 cases": so many times the amount; 0: once
	each       bool             // it is for each of something, however many
	heads      bool             // "two tortillas each": for each of nobody knows what, or whom
	of         bool             // for each pound or pint of something
	whole      bool             // "both", "all five": there are no more of them
	remains    bool             // "the remaining pint of": no more is left
}

// leavers stand behind "all" before what is left out.
var leavers = wordSet("but save except excepting bar barring minus less")

// measured tells whether an amount or a number was said.
func (w *wanted) measured() bool { return w.amount != nil || w.number != nil }

// articles may stand between an amount and a name.
var articles = map[string]bool{
	"the": true, "your": true, "this": true, "that": true, "these": true, "those": true, "its": true, "their": true, "our": true, "my": true,
}

// fillers stop the search for a name behind an amount.
var fillerStops = map[string]bool{
	"and": true, "or": true, "in": true, "with": true, "to": true, "over": true, "into": true, "for": true, "on": true, "at": true, "until": true,
	"then": true, "of": true, "from": true, "a": true, "an": true, "the": true, "is": true, "are": true, "it": true, "by": true, "as": true,
}

// mores are words before "part" for more of a thing than is left, and measures say behind
// "a" how an amount is measured.
var (
	mores    = wordSet("great greater greatest most large larger largest best better main chief major lion's lion’s")
	measures = wordSet("good full bare generous scant further large small heaped level big")
)

// partWords are parts that say nothing of how large they are, and barely is said before "any".
var (
	partWords = wordSet("part portion share quantity bit")
	barely    = wordSet("hardly scarcely barely")
)

// littles are parts that nobody weighs: "a little of the", "a knob of".
var littles = map[string]bool{
	"little": true, "splash": true, "pinch": true, "drop": true, "dash": true, "knob": true, "few": true, "handful": true, "drizzle": true, "squeeze": true,
	"sprinkling": true, "spoonful": true, "ladleful": true, "ladle": true, "bit": true, "touch": true, "dusting": true, "scattering": true, "sprinkle": true,
	"lump": true, "scrap": true, "sliver": true, "nugget": true, "shaving": true, "flake": true, "film": true, "slick": true, "spoon": true, "fistful": true, "glug": true, "shake": true, "grating": true, "twist": true, "lick": true, "smear": true, "trickle": true, "nut": true,
}

// lower is the word at i in small letters; empty beyond either end.
func (sc *scanner) lower(i int) string {
	if i < 0 || i >= len(sc.words) {
		return ""
	}
	return sc.words[i].low
}

// wordFrom is the first word that begins at offset at or later.
func (sc *scanner) wordFrom(i, at int) int {
	for i < len(sc.words) && sc.words[i].start < at {
		i++
	}
	return i
}

// wantedAt reads an amount or a share at word i; next is the word after it.
func (sc *scanner) wantedAt(i int) (w wanted, next int, ok bool) {
	w.start, w.figure = sc.words[i].start, sc.words[i].start
	if sc.words[i].glue || sc.numberName(i) {
		return w, 0, false
	}
	end := func(n int) (wanted, int, bool) {
		w.end = sc.words[n-1].end
		return w, n, true
	}
	second := "" // the word behind it, in the same clause
	if i+1 < len(sc.words) && !sc.words[i+1].stop {
		second = sc.words[i+1].key
	}
	switch pair := [2]string{sc.words[i].key, second}; {
	case second == "":
	case (pair[0] == "all" || pair[0] == "every") && leavers[sc.lower(i+1)]:
		if but, n, is := sc.amountAt(i + 2); is {
			w.but, w.figure, w.end = &but, but.start, but.end
			return w, n, true
		}
	case second == "all" && (pair[0] == "nearly" || pair[0] == "almost" || pair[0] == "not"), sc.says(i, "not", "quite", "all"):
		w.unmeasured = true
		return end(i + 2)
	case pair[0] == "the" && mores[second] && (sc.says(i+1, second, "part") || sc.says(i+1, second, "share") || sc.says(i+1, second, "portion")):
		w.unmeasured = true
		return end(i + 3)
	case pair[0] == "the" && (second == "bulk" || second == "majority") && sc.lower(i+2) == "of":
		w.unmeasured = true
		return end(i + 2)
	case pair[0] == "as" && (second == "much" || second == "many" || second == "little" || second == "few"):
		w.unmeasured = true
		return end(i + 2)
	case partWords[pair[0]] && second == "of" && sc.named(i+1):
		w.unmeasured = true
		return end(i + 1)
	case littles[pair[0]] && second == "of" && strings.HasSuffix(sc.lower(i), "s") && sc.named(i+1): // lumps of butter
		w.unmeasured = true
		return end(i + 1)
	case barely[pair[0]] && second == "any":
		w.unmeasured = true
		return end(i + 2)
	case (pair[0] == "a" || pair[0] == "an") && partWords[second] && sc.lower(i+2) == "of" && sc.named(i+2):
		w.unmeasured = true
		return end(i + 2)
	case pair == [2]string{"up", "to"}, pair == [2]string{"at", "most"}, second == "more" && (sc.says(i, "no", "more", "than") || sc.says(i, "not", "more", "than")):
		n := i + 2
		if sc.lower(i+2) == "than" {
			n++
		}
		if up, next, is := sc.amountAt(n); is && (up.measured() || up.share != nil) {
			w.unmeasured, w.end = true, up.end
			return w, next, true
		}
		return w, 0, false
	case pair[0] == "a" && measures[second]:
		if more, n, is := sc.amountAt(i + 2); is && more.measured() && !more.article {
			more.start = w.start
			return more, n, true
		}
	}
	if n := inParts(sc.words[i].key); n > 0 && sc.says(i+1, "part", "of", "a") {
		if u, un := sc.unitAt(i + 4); un > i+4 && u.Dim != quantity.Length { // three parts of a pint of
			w.amount = plain(quantity.Exactly(quantity.Frac(n, n+1)), u)
			return end(un)
		}
	}
	if first := sc.lower(i); first == "a" || first == "an" { // a sprig or two of
		if u, un := sc.unitAt(i + 1); un > i+1 && sc.isUnit(u, i+1, un) && sc.lower(un) == "or" && (sc.lower(un+1) == "two" || sc.lower(un+1) == "so") {
			w.unmeasured = true
			return end(un + 2)
		}
	}
	if share, n, is := sc.partsIn(i); is {
		w.share = share
		return end(n)
	}
	if f, n, is := sc.partOfIn(i); is {
		w.share = &Share{Fraction: f}
		return end(n)
	}
	switch first := sc.lower(i); first {
	case "the":
		switch sc.lower(i + 1) {
		case "rest", "remaining", "remainder", "last", "balance", "leftover":
			return sc.restFrom(w, i+2)
		case "other":
			return sc.restFrom(w, i+2)
		case "others":
			if sc.othersGoIn(i) {
				w.share, w.rest, w.end = &Share{Rest: true}, true, sc.words[i+1].end
				return w, i + 2, true
			}
		}
		if word := sc.lower(i + 1); (word == "best" || strings.HasSuffix(word, "est") && len(word) > len("rest")) && sc.lower(i+2) == "of" && sc.named(i+2) {
			w.unmeasured = true
			return end(i + 2)
		}
		if n := inRow[sc.lower(i+1)]; n > 1 && sc.isLast(i+2, n) {
			v := quantity.Exactly(one)
			w.number = &v
			return end(i + 2)
		}
		if inSeries[sc.lower(i+1)] {
			if out, next, is := sc.oneUnit(w, i+2); is && sc.lower(next) == "of" {
				return out, next, true
			}
		}
		// "the four eggs" are four of them; "the dozen eggs", twelve.
		if sc.numberName(i + 1) {
			return w, 0, false
		}
		if s, n, is := sc.spokenAt(i + 1); is && !s.Part && !s.Article {
			return sc.counted(w, s, i+1, n)
		}
		return w, 0, false
	case "what's", "what’s":
		if sc.lower(i+1) == "left" && sc.lower(i+2) != "over" {
			w.share, w.rest = &Share{Rest: true}, true
			return end(i + 2)
		}
		return w, 0, false
	case "what", "whatever":
		if k := i + 1; k < len(sc.words) && !sc.words[k].stop { // whatever butter is left
			if ms := sc.finder.at(sc.words, k, false); len(ms) > 0 {
				if n := k + ms[0].length; sc.says(n, "is", "left") || sc.says(n, "are", "left") || sc.says(n, "remain") {
					w.share, w.rest = &Share{Rest: true}, true
					return end(k)
				} else if sc.someLeft(n) { // what butter you have left
					w.share, w.rest = &Share{Rest: true}, true
					return end(k)
				} else if sc.lower(n) == "you" && !sc.leftOver(n) { // whatever sugar you like
					w.unmeasured = true
					return end(k)
				}
			}
		}
		if k := i + 1; sc.says(k, "is", "over", "of") || sc.says(k, "be", "over", "of") {
			w.share, w.rest = &Share{Rest: true}, true
			return end(k + 2)
		}
		if k := i + 1; sc.says(k, "is", "left") || sc.says(k, "remain") || sc.says(k, "was", "left") {
			n := k + 2
			if sc.says(k, "remain") {
				n = k + 1
			}
			w.share, w.rest = &Share{Rest: true}, true
			return end(n)
		}
		return w, 0, false
	case "remaining", "balance", "leftover":
		return sc.restFrom(w, i+1)
	case "rest", "remainder":
		if sc.lower(i+1) == "of" && (i == 0 || !articles[sc.lower(i-1)]) { // rest of cumin
			return sc.restFrom(w, i+1)
		}
	case "other":
		if _, _, is := sc.spokenAt(i + 1); is && i > 0 && !articles[sc.lower(i-1)] { // other 2 in wedges
			return sc.restFrom(w, i+1)
		}
	case "all":
		switch {
		case sc.lower(i+1) == "the" && (sc.lower(i+2) == "rest" || sc.lower(i+2) == "remaining" || sc.lower(i+2) == "other"):
			return sc.restFrom(w, i+3)
		case sc.lower(i+1) == "remaining":
			return sc.restFrom(w, i+2)
		}
		n := i + 1
		if sc.lower(n) == "the" {
			n++
		}
		if s, next, is := sc.spokenAt(n); is && !s.Part && !s.Article { // all three
			out, next, is := sc.counted(w, s, n, next)
			out.whole = true
			return out, next, is
		}
		return w, 0, false
	case "both":
		n := i + 1
		if sc.lower(n) == "of" {
			n++
		}
		if sc.lower(n) == "the" {
			n++
		}
		if s, next, is := sc.spokenAt(n); is && !s.Part && !s.Article {
			return sc.counted(w, s, n, next)
		}
		two := quantity.Exactly(quantity.Int(2))
		w.number, w.end, w.whole = &two, sc.words[i].end, true
		if u, un := sc.unitAt(n); un > n && u.Dim == quantity.Word { // both sticks of
			w.number, w.amount, w.end = nil, plain(two, u), sc.words[un-1].end
			return w, un, true
		}
		return w, i + 1, true
	case "little":
		if n := i + 1; i > 0 && (sc.lower(i-1) == "in" || sc.lower(i-1) == "with" || sc.lower(i-1) == "very") && n < len(sc.words) && !sc.words[n].stop && (sc.named(n) || sc.named(n+1)) { // soak it in little water
			w.unmeasured = true
			return end(n)
		}
	case "some", "most", "several", "enough":
		w.unmeasured = true
		return end(i + 1)
	case "more", "further":
		if n := i + 1; n < len(sc.words) && !sc.words[n].stop {
			if more, next, is := sc.amountAt(n); is {
				return more, next, true
			}
		}
		return w, 0, false
	case "another":
		if i > 0 && (sc.lower(i-1) == "after" || sc.lower(i-1) == "one") {
			return w, 0, false // one after another
		}
		if n := i + 1; n < len(sc.words) && !sc.words[n].stop && littles[sc.words[n].key] { // another spoonful
			w.unmeasured = true
			return end(n + 1)
		}
		if s, n, is := sc.spokenAt(i + 1); is {
			if a, next, is := sc.amountFrom(i+1, s, n); is {
				a.start = w.start
				return a, next, true
			}
		}
		if out, next, is := sc.oneUnit(w, i+1); is {
			return out, next, true
		}
		if f, ok := sc.bareShare(i + 1); ok {
			w.share = &Share{Fraction: f}
			return end(i + 2)
		}
		one := quantity.Exactly(one)
		w.number, w.article = &one, true
		return end(i + 1)
	case "a", "an":
		n := i + 1
		if sc.lower(n) == "very" {
			n++
		}
		if n < len(sc.words) && littles[sc.words[n].key] {
			w.unmeasured = true
			if u, un := sc.unitAt(n + 1); un > n+1 && sc.lower(un) == "of" && u.Dim != quantity.Length { // a few drops of
				n = un - 1
			}
			if sc.lower(n+1) == "or" && (sc.lower(n+2) == "two" || sc.lower(n+2) == "so" || sc.lower(n+2) == "three") { // a spoonful or two of
				n += 2
			}
			return end(n + 1)
		}
	}
	return sc.amountAt(i)
}

// othersGoIn tells whether "the others" at word i are what is left of a counted thing of which
// a number went in just before: nobody leaves them, and none was set aside.
func (sc *scanner) othersGoIn(i int) bool {
	if i > 0 && (sc.words[i-1].key == "leave" || sc.words[i-1].key == "keep") || len(sc.takes) == 0 || sc.kept {
		return false
	}
	t := sc.takes[len(sc.takes)-1]
	return t.Line != nil && t.Amount != nil && t.But.Sign() == 0 && !t.Each && t.Line.Quantity != nil && t.Line.Quantity.Dim == quantity.None && sc.story.left[t.Line].Sign() > 0
}

// numberName tells whether a whole name that begins with a number begins at word i:
// five spice rub.
func (sc *scanner) numberName(i int) bool {
	if i >= len(sc.words) {
		return false
	}
	ms := sc.finder.at(sc.words, i, false)
	if len(ms) == 0 || !ms[0].whole || ms[0].length < 2 {
		return false
	}
	s, next, ok := sc.spokenAt(i)
	return ok && !s.Article && next < i+ms[0].length
}

// someLeft tells whether the words at i say of what was named that there is some left:
// "you have left", "there is left".
func (sc *scanner) someLeft(i int) bool {
	switch sc.lower(i) {
	case "you", "you've", "you’ve", "there", "we":
	default:
		return false
	}
	for k := i + 1; k <= i+3 && k < len(sc.words) && !sc.words[k].stop; k++ {
		if w := sc.lower(k); w == "left" || w == "remaining" || (w == "kept" || w == "saved" || w == "reserved" || w == "over") && k > i+1 {
			return sc.lower(k+1) != "over"
		}
	}
	return false
}

// inParts is how many parts are spoken of, where it is so few; else 0.
func inParts(word string) int64 {
	switch word {
	case "two":
		return 2
	case "three":
		return 3
	case "four":
		return 4
	}
	return 0
}

// partsIn reads "three parts of the raisins" where the sentence goes on to speak
// of "the fourth": three quarters.
func (sc *scanner) partsIn(i int) (share *Share, next int, ok bool) {
	n := inParts(sc.words[i].key)
	if n == 0 || !sc.says(i+1, "part", "of") {
		return nil, 0, false
	}
	last := [...]string{"third", "fourth", "fifth"}[n-2]
	for k := i + 3; k < len(sc.words); k++ {
		if sc.lower(k) == "the" && sc.lower(k+1) == last {
			return &Share{Fraction: quantity.Frac(n, n+1)}, i + 2, true
		}
	}
	return nil, 0, false
}

// partOfIn reads "the fourth part of", "a third part of the", "one moiety of", "the half
// of": a share.
func (sc *scanner) partOfIn(i int) (f quantity.Number, next int, ok bool) {
	switch sc.lower(i) {
	case "the", "a", "one":
	default:
		return f, 0, false
	}
	if sc.says(i+1, "moiety", "of") || sc.lower(i) == "the" && sc.says(i+1, "half", "of") && articles[sc.lower(i+3)] {
		return quantity.Frac(1, 2), i + 2, true
	}
	f, ok = sc.bareShare(i + 1)
	if !ok || !sc.says(i+2, "part", "of") {
		return f, 0, false
	}
	next = i + 3
	if a := sc.lower(next + 1); a == "a" || a == "an" { // the fourth part of a nutmeg
		next += 2
	}
	return f, next, true
}

// restFrom reads what follows "the rest" or "the remaining" at word n: a number
// of what is left, or all of it.
func (sc *scanner) restFrom(w wanted, n int) (wanted, int, bool) {
	if n < len(sc.words) && !sc.words[n].stop {
		if s, next, is := sc.spokenAt(n); is && !s.Article { // the remaining four eggs, the other two thirds
			if a, next, is := sc.amountFrom(n, s, next); is {
				a.start, a.other = w.start, a.share != nil && n > 0 && sc.lower(n-1) == "other"
				a.remains = a.measured()
				return a, next, true
			}
		}
	}
	if f, is := sc.bareShare(n); is { // the remaining quarter of a pint
		k := n + 1
		if sc.says(k, "of", "a") {
			k += 2
		}
		if u, un := sc.unitAt(k); un > k && (u.Dim == quantity.Mass || u.Dim == quantity.Volume) {
			w.amount, w.end, w.remains = plain(quantity.Exactly(f), u), sc.words[un-1].end, true
			return w, un, true
		}
	}
	if f, is := sc.bareShare(n); is && (n+1 >= len(sc.words) || sc.words[n+1].stop || sc.lower(n+1) == "of" || aloneBefore[sc.lower(n+1)] || sc.lower(n+1) == "in" || sc.lower(n+1) == "with" || sc.lower(n+1) == "the" && onAnotherDay[sc.lower(n+2)] || strings.HasSuffix(sc.lower(n+1), "ly")) {
		w.share, w.end, w.other = &Share{Fraction: f}, sc.words[n].end, true
		return w, n + 1, true
	}
	if out, next, is := sc.oneUnit(w, n); is {
		out.remains = sc.lower(n-1) != "other"
		return out, next, true
	}
	if sc.lower(n-1) == "remaining" || sc.lower(n-1) == "last" { // the remaining egg
		if ms := sc.finder.at(sc.words, n, false); n < len(sc.words) && !sc.words[n].stop && len(ms) == 1 && sc.oneOf(n) && sc.story.touched[ms[0].target.line] && strings.HasSuffix(ms[0].target.line.Name, "s") && !strings.HasSuffix(sc.lower(n+ms[0].length), "s") {
			v := quantity.Exactly(one)
			w.number, w.end, w.remains = &v, sc.words[n-1].end, true
			return w, n, true
		}
	}
	if n < len(sc.words) && !sc.words[n].stop && sc.lower(n-1) == "other" {
		if ms := sc.finder.at(sc.words, n, false); len(ms) == 1 && ms[0].target.line != nil && sc.oneOf(n) && ms[0].target.line.Quantity.Dim == quantity.None && sc.story.touched[ms[0].target.line] { // the other clove
			v := quantity.Exactly(one)
			w.number, w.end = &v, sc.words[n-1].end
			return w, n, true
		}
	}
	w.share, w.rest, w.end = &Share{Rest: true}, true, sc.words[n-1].end
	return w, n, true
}

// bareShare reads the name of a share at word i, behind "another" or "the last": third, quarter.
func (sc *scanner) bareShare(i int) (f quantity.Number, ok bool) {
	if i >= len(sc.words) || sc.words[i].stop {
		return f, false
	}
	text := "a " + sc.lower(i)
	s, n := quantity.ReadSpoken(text, sc.recipe.reading)
	return s.Value.High, n == len(text) && s.Part
}

// oneUnit reads the unit at word n behind "the last" or "the other", where it
// stands for one of them: "the last tin of tomatoes", "the other tsp. of".
func (sc *scanner) oneUnit(w wanted, n int) (wanted, int, bool) {
	u, un := sc.unitAt(n)
	if un <= n || !sc.isUnit(u, n, un) || u.Name != u.Plural && strings.EqualFold(sc.words[un-1].text, u.Plural) || strings.HasSuffix(sc.lower(un-1), "s") && !strings.HasSuffix(sc.lower(un-1), "ss") {
		return w, 0, false
	}
	w.amount, w.end = plain(quantity.Exactly(one), u), sc.words[un-1].end
	return w, un, true
}

var inRow = map[string]int64{"second": 2, "third": 3, "fourth": 4, "fifth": 5, "sixth": 6}

// isLast tells whether "the fourth", which ends before word i, is the last of so many
// counted things of which the others went in just now.
func (sc *scanner) isLast(i int, n int64) bool {
	l := sc.lastCounted()
	if l == nil || l.Quantity == nil || i < len(sc.words) && !sc.words[i].stop && (sc.named(i) || sc.lower(i) == "of" || timeWords[sc.words[i].key]) {
		return false
	}
	return l.Quantity.Value.High.Equal(quantity.Int(n)) && sc.story.left[l].Mul(quantity.Int(n)).Equal(one)
}

// inSeries are words before a unit of which several are used one after another.
var inSeries = wordSet("first second third fourth fifth sixth seventh eighth ninth tenth full whole entire odd final")

// spokenAt reads a number at word i; next is the word behind it. A number ends
// where a word does, or at a hyphen before a unit.
func (sc *scanner) spokenAt(i int) (s quantity.Spoken, next int, ok bool) {
	if i >= len(sc.words) || sc.words[i].glue || !sc.words[i].counts {
		return s, 0, false
	}
	if s, next, ok = sc.percentAt(i); ok {
		return s, next, true
	}
	s, n := quantity.ReadSpoken(sc.text[sc.words[i].start:], sc.recipe.reading)
	if n == 0 {
		return s, 0, false
	}
	end := sc.words[i].start + n
	next = sc.wordFrom(i, end)
	if next < len(sc.words) && sc.words[next].glue {
		if u, un := sc.unitAt(next); un == next || u == nil || un < len(sc.words) && sc.words[un].glue {
			return s, 0, false // three-pronged, two-row
		}
	}
	return s, next, true
}

// percentAt reads "40% of", "40 per cent of": a share.
func (sc *scanner) percentAt(i int) (s quantity.Spoken, next int, ok bool) {
	if !sc.digit(i) {
		return s, 0, false
	}
	v, n, _ := quantity.ReadNumber(sc.text[sc.words[i].start:], sc.recipe.reading)
	if n == 0 || !v.Less(quantity.Int(100)) {
		return s, 0, false
	}
	end := sc.words[i].start + n
	next = sc.wordFrom(i, end)
	switch rest := strings.TrimLeft(sc.text[end:], " "); {
	case strings.HasPrefix(rest, "%"):
		next = sc.wordFrom(i, len(sc.text)-len(rest)+1)
	case sc.says(next, "per", "cent"):
		next += 2
	case sc.says(next, "percent"):
		next++
	default:
		return s, 0, false
	}
	if sc.lower(next) != "of" {
		return s, 0, false
	}
	return quantity.Spoken{Value: quantity.Exactly(v.Div(quantity.Int(100))), Part: true}, next, true
}

// unitAt reads a unit at word i, and gives the word behind it; i when there is
// none.
func (sc *scanner) unitAt(i int) (u *quantity.Unit, next int) {
	if i >= len(sc.words) || sc.words[i].stop && i > 0 {
		return nil, i
	}
	if u := sc.letter(i); u != nil {
		return u, i + 1
	}
	u, n := quantity.ReadSpokenUnit(sc.text[sc.words[i].start:], sc.recipe.reading)
	if u == nil {
		return nil, i
	}
	return u, sc.wordFrom(i, sc.words[i].start+n)
}

// letter reads a measure that one letter stands for, with a stop behind it or the
// name: "2 c. flour", "2 T oil", "1 t. salt". A large C may be a degree: the name must follow.
func (sc *scanner) letter(i int) *quantity.Unit {
	w := sc.words[i]
	if i == 0 || len(w.text) != 1 || i+1 >= len(sc.words) || sc.words[i+1].start == w.end+1 && sc.text[w.end] == '.' {
		return nil
	}
	name, ok := map[string]string{"c": "cup", "C": "cup", "T": "tbsp", "t": "tsp"}[w.text]
	if stop := sc.text[w.end] == '.' && w.text != "C"; !ok || !stop && (len(sc.finder.at(sc.words, i+1, false)) == 0 || sc.text[sc.words[i+1].start] < 'a') {
		return nil
	}
	u, _ := quantity.UnitNamed(name)
	return u
}

// pastDoubt is the word behind words of doubt at i: "roughly", "just over", "a little more
// than"; i when there are none.
func (sc *scanner) pastDoubt(i int) int {
	k := i
	for {
		switch w := sc.lower(k); {
		case w == "some" && !(k+1 < len(sc.words) && sc.digit(k+1)):
			return k
		case quantity.InDoubt(w):
			k++
		case sc.says(k, "a", "little"), sc.says(k, "a", "bit"), sc.says(k, "a", "shade"), sc.says(k, "not", "quite"), sc.says(k, "slightly"), sc.says(k, "rather"):
			n := k + 2
			if w == "slightly" || w == "rather" {
				n = k + 1
			}
			if end := sc.overOrUnder(n); end > n {
				k = end
			} else if w == "not" {
				k = n
			} else {
				return k
			}
			continue
		default:
			return k
		}
		k = sc.overOrUnder(k)
	}
}

// overOrUnder is the word behind "over", "under", "more than", "less than" at i, else i.
func (sc *scanner) overOrUnder(i int) int {
	switch w := sc.lower(i); {
	case w == "over", w == "under":
		return i + 1
	case (w == "more" || w == "less") && sc.lower(i+1) == "than":
		return i + 2
	}
	return i
}

// amountAt reads an amount that begins with a number at word i.
func (sc *scanner) amountAt(i int) (w wanted, next int, ok bool) {
	if i >= len(sc.words) {
		return w, 0, false
	}
	if k := sc.pastDoubt(i); k > i {
		if k >= len(sc.words) || sc.words[k].stop {
			return w, 0, false
		}
		i = k
	}
	if (sc.lower(i) == "a" || sc.lower(i) == "an") && i+1 < len(sc.words) && littles[sc.words[i+1].key] {
		w.start, w.figure, w.unmeasured, w.end = sc.words[i].start, sc.words[i].start, true, sc.words[i+1].end
		return w, i + 2, true
	}
	s, next, ok := sc.spokenAt(i)
	if !ok {
		return w, 0, false
	}
	return sc.amountFrom(i, s, next)
}

func (sc *scanner) digit(i int) bool { c := sc.words[i].text[0]; return c >= '0' && c <= '9' }

// counted is a number of things, or an amount of a word unit, behind "the" or
// "all": "the three pears".
func (sc *scanner) counted(w wanted, s quantity.Spoken, i, next int) (wanted, int, bool) {
	a, n, ok := sc.amountFrom(i, s, next)
	a.start = w.start
	return a, n, ok
}

func plain(v quantity.Range, u *quantity.Unit) *quantity.Amount {
	return &quantity.Amount{Measure: quantity.Measure{Terms: []quantity.Term{{Value: v, Unit: u}}}}
}

// closeUnit reads a figure with its unit close behind it and no name: the stock (200ml). Nil:
// there is none.
func (sc *scanner) closeUnit(i, next int) *quantity.Amount {
	if !sc.digit(i) || next < len(sc.words) && !sc.words[next].stop {
		return nil
	}
	text := sc.text[sc.words[i].start:sc.words[next-1].end]
	opt := sc.recipe.reading
	opt.Alone = true
	a, n, problems := quantity.ReadAmount(text, opt)
	if n < len(text) || len(problems) > 0 || a.Kind != quantity.Plain || len(a.Measure.Terms) != 1 || a.Measure.Terms[0].Unit == nil {
		return nil
	}
	return &a
}

// amountFrom goes on behind a number that stands at word i and ends before
// word next: a unit, a share, or a count.
func (sc *scanner) amountFrom(i int, s quantity.Spoken, next int) (w wanted, n int, ok bool) {
	ws := sc.words
	w.start, w.figure, w.end, w.article, w.ordinal = ws[i].start, ws[i].start, ws[next-1].end, s.Article, s.Ordinal
	if !s.Article && !s.Part { // an amount in figures may be more: 2 lb 4 oz, 2 x 400 g tins
		if a, n, problems := quantity.ReadAmount(sc.text[w.start:], sc.recipe.reading); n > 0 && len(problems) == 0 && sc.digit(i) {
			_, figure, _ := quantity.ReadNumber(sc.text[w.start:], sc.recipe.reading)
			if k := sc.wordFrom(i, w.start+n); k == next && figure > 0 && w.start+figure < ws[next-1].end && a.Kind == quantity.Plain && len(a.Measure.Terms) == 1 && a.Measure.Terms[0].Unit != nil {
				w.amount, w.end = &a, ws[k-1].end // 100g
				return w, k, true
			} else if k > next && (a.Kind != quantity.Plain || len(a.Measure.Terms) > 1) {
				if k < len(ws) && a.Kind == quantity.Paired && strings.TrimSpace(sc.text[w.start+n:ws[k].start]) == "" {
					ws[k].stop = false // 150 g (about 5 oz) of the
				}
				w.amount, w.end = &a, ws[k-1].end
				return w, k, true
			}
		}
	}
	if a := sc.closeUnit(i, next); a != nil && !s.Article && !s.Part {
		w.amount = a
		return w, next, true
	}
	k := next
	if s.Part { // half a pound, a quarter of a pound, half of one lemon
		j := k
		if sc.lower(j) == "of" {
			j++
		}
		if a := sc.lower(j); a == "a" || a == "an" || a == "one" {
			k = j + 1
		} else if u, un := sc.unitAt(j + 1); a == "the" && un > j+1 && (u.Dim == quantity.Mass || u.Dim == quantity.Volume) && sc.lower(un) == "of" && !strings.HasSuffix(sc.lower(un-1), "s") { // half the gill of
			k = j + 1
		}
	} else {
		for k < len(ws) && !ws[k].stop && fillings[sc.lower(k)] { // a large tablespoonful
			k++
		}
		if u, un := sc.unitAt(k); k > next && !s.Article && sc.lower(next-1) != "one" && (un == k || u.Dim != quantity.Volume && u.Dim != quantity.Vague) {
			k = next // two large eggs
		}
	}
	if u, un := sc.unitAt(k); un > k && sc.isUnit(u, k, un) {
		v := s.Value
		w.end = ws[un-1].end
		if f, fn, is := sc.andAHalf(un); is {
			v = quantity.Range{Low: v.Low.Add(f), High: v.High.Add(f)}
			un, w.end = fn, ws[fn-1].end
		}
		w.amount, w.article, w.ordinal = plain(v, u), false, s.Ordinal && k == next
		return w, un, true
	}
	if s.Part { // half a lemon, ½ lemon
		if k < len(ws) && !ws[k].stop && (k > next || sc.oneOf(k)) {
			v := s.Value
			w.number, w.end = &v, ws[k-1].end
			return w, k, true
		}
	}
	if !s.Part && k < len(ws) && !ws[k].stop && littles[ws[k].key] && sc.lower(k+1) == "of" { // two spoonfuls of
		w.unmeasured, w.article, w.end = true, false, ws[k].end
		if !s.Article {
			v := s.Value
			w.heaps = &v
		}
		return w, k + 1, true
	}
	if !s.Part {
		v := s.Value
		if k := next + 2; sc.says(next, "of", "the") { // three of the four tins of
			if _, n, is := sc.spokenAt(k); is {
				k = n
			}
			if u, un := sc.unitAt(k); un > k && u.Dim == quantity.Word && sc.isUnit(u, k, un) && (sc.lower(un) == "of" || sc.boxed(u) && !sc.named(un)) {
				w.amount, w.article, w.ordinal = plain(v, u), false, false
				return w, un, true
			}
		}
		w.number = &v
		return w, next, true
	}
	f := s.Value.High
	if sc.says(next, "of", "what") || sc.says(next, "of", "whatever") {
		if of, n, is := sc.wantedAt(next + 1); is && of.rest && sc.named(n) { // half of what flour is left
			w.share = &Share{Fraction: f, OfRest: true}
			return w, n, true
		}
	}
	switch {
	case sc.says(next, "of", "the", "rest"), sc.says(next, "of", "what", "is"):
		w.share, next = &Share{Fraction: f, OfRest: true}, next+3
	case sc.says(next, "of", "what", "remain"), sc.says(next, "of", "the", "remainder"), sc.says(next, "of", "the", "other"):
		w.share, next = &Share{Fraction: f, OfRest: true}, next+3
	case sc.says(next, "the", "rest"), sc.says(next, "the", "remaining"), sc.says(next, "the", "remainder"):
		w.share, next = &Share{Fraction: f, OfRest: true}, next+2
	case sc.says(next, "of", "both") && articles[sc.lower(next+2)]:
		w.share, w.every, next = &Share{Fraction: f}, true, next+2
	default:
		w.share = &Share{Fraction: f}
	}
	if w.share.OfRest && sc.lower(next) == "left" {
		next++
	}
	return w, next, true
}

// boxed tells whether exactly one line, of which something is left, is gathered in such packages.
func (sc *scanner) boxed(u *quantity.Unit) bool {
	n := 0
	for _, l := range sc.lines {
		if l.Written != nil && l.Written.Kind == quantity.Packages && sameContainer(l.Written.Container, u) && sc.story.left[l].Sign() > 0 {
			n++
		}
	}
	return n == 1
}

// fillings say how a spoon or cup is filled, between "a" and the unit.
var fillings = map[string]bool{
	"heaped": true, "level": true, "rounded": true, "scant": true, "good": true, "generous": true, "large": true, "small": true, "full": true, "big": true, "further": true, "more": true,
	"heaping": true, "brimming": true, "packed": true, "bare": true, "flat": true, "dainty": true, "modest": true, "hearty": true, "decent": true,
}

// isUnit tells whether the unit from word k to word un is one here: not the
// thing itself ("a clove" where cloves are gathered).
func (sc *scanner) isUnit(u *quantity.Unit, k, un int) bool {
	if u.Dim == quantity.Batch || u.Dim == quantity.Length && !sc.inLength(un) {
		return false
	}
	if un < len(sc.words) && sc.words[un].glue {
		return false
	}
	if u.Dim != quantity.Word && u.Dim != quantity.Vague {
		return true
	}
	if len(sc.finder.at(sc.words, k, false)) > 0 {
		if m := sc.finder.at(sc.words, k, false)[0]; m.whole || m.length > un-k {
			return false
		}
	}
	return true
}

// inLength tells whether the words at i are "of" and a thing that is gathered by its length:
// one inch of the ginger.
func (sc *scanner) inLength(i int) bool {
	if sc.lower(i) == "of" {
		i++
	}
	if articles[sc.lower(i)] {
		i++
	}
	ms := sc.finder.at(sc.words, i, false)
	return len(ms) == 1 && ms[0].target.line != nil && ms[0].target.line.Quantity != nil && ms[0].target.line.Quantity.Dim == quantity.Length
}

// oneOf tells whether the name at word k is said of one thing of several that
// are counted: "½ lemon", not "½ lemons".
func (sc *scanner) oneOf(k int) bool {
	ms := sc.finder.at(sc.words, k, false)
	if len(ms) != 1 || ms[0].target.line == nil {
		return false
	}
	q := ms[0].target.line.Quantity
	last := sc.words[k+ms[0].length-1]
	return q != nil && q.Dim == quantity.None && !strings.HasSuffix(last.low, "s")
}

// halves reads "half" behind the name of what is counted, at word i: the remaining lemon
// half, two avocado halves. It gives so many halves and the word behind; nil: it is none.
func (sc *scanner) halves(i int, l *Line, w *wanted) (*wanted, int) {
	if l == nil || l.Quantity == nil || l.Quantity.Dim != quantity.None || i >= len(sc.words) || sc.words[i].stop || sc.words[i].key != "half" {
		return nil, 0
	}
	if next := i + 1; next < len(sc.words) && !sc.words[next].stop && (sc.lower(next) == "of" || sc.lower(next) == "the" || sc.lower(next) == "a" || sc.lower(next) == "an" || sc.lower(next) == "way") {
		return nil, 0
	}
	n := quantity.Exactly(quantity.Frac(1, 2))
	switch {
	case w == nil && sc.lower(i) == "halves": // the lemon halves: all of them
		return nil, 0
	case w == nil:
		w = &wanted{start: sc.words[i].start, figure: sc.words[i].start, end: sc.words[i].start}
	case w.rest && !w.measured() || w.article && w.amount == nil:
	case w.number != nil && w.amount == nil && !w.whole:
		n = quantity.Range{Low: w.number.Low.Mul(n.Low), High: w.number.High.Mul(n.High)}
	default:
		return nil, 0
	}
	out := *w
	out.number, out.share, out.rest, out.article, out.remains = &n, nil, false, false, false
	return &out, i + 1
}

// andAHalf reads "and a half" behind a unit.
func (sc *scanner) andAHalf(i int) (f quantity.Number, next int, ok bool) {
	if i >= len(sc.words) || sc.lower(i) != "and" || sc.words[i].stop {
		return f, i, false
	}
	s, n, is := sc.spokenAt(i + 1)
	if !is || !s.Part || n < len(sc.words) && sc.lower(n) == "the" {
		return f, i, false
	}
	if n+1 < len(sc.words) && sc.lower(n) == "of" && articles[sc.lower(n+1)] && s.Value.High.Less(one) && sc.lower(i+1) != "a" && !(sc.text[sc.words[i].end] == ' ' && sc.words[i+2].glue) {
		return f, i, false // "a cup of the milk and half of the cream" has its own name before it
	}
	return s.Value.High, n, true
}
