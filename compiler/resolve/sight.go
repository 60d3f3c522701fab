package resolve

import (
	"strings"

	"tamis/lang/quantity"
)

// What stands behind a bare name and says that only the cook can tell how much of it goes in:
// "milk enough to moisten it", "vinegar, a spoonful at a time, to taste", "pour on port until
// it colours", "butter the size of a walnut".

// adding are verbs that only put in, so that an "until" behind the name says how much: what
// is beaten or stirred "until smooth" goes in whole.
var adding = wordSet("add pour drip trickle sprinkle dust splash squeeze")

// bit by bit are ways to put in that say nothing of how much.
var slowly = [...][]string{
	{"little", "by", "little"},
	{"bit", "by", "bit"},
	{"drop", "by", "drop"},
	{"by", "degree"},
	{"a", "little", "at", "a", "time"},
	{"a", "bit", "at", "a", "time"},
	{"gradually"},
	{"slowly"},
	{"carefully"},
	{"in", "a", "thin", "stream"},
}

// bySight is the word behind such words, which begin at word i; i when there are none.
func (sc *scanner) bySight(i int) int {
	k := i
	for _, words := range slowly {
		if sc.says(k, words...) && !sc.words[k].opens {
			k += len(words)
			break
		}
	}
	if _, n, ok := sc.amountAt(k); ok && k == i && sc.says(n, "at", "a", "time") && !sc.words[k].opens { // a spoonful at a time
		k = n + 3
	}
	if k == i && k+1 < len(sc.words) && sc.words[k].stop && !sc.words[k].opens && (sc.says(k, "a", "little") || sc.says(k, "a", "bit") || sc.says(k, "not", "much") || sc.says(k, "not", "all")) {
		if n := k + 2; n >= len(sc.words) || sc.words[n].stop || sc.says(n, "at", "first") || sc.says(n, "to", "begin") || sc.says(n, "to", "start") { // lemon, a little at first
			return n
		}
	}
	if n := k; sc.says(n, "by", "the") && n+2 < len(sc.words) && !sc.words[n].stop && strings.HasSuffix(sc.lower(n+2), "ful") { // by the ladleful, as much as it takes
		k = n + 3
	}
	if k < len(sc.words) && !sc.words[k].opens && (sc.says(k, "as", "much", "as") || sc.says(k, "as", "many", "as")) {
		return k + 3
	}
	if k >= len(sc.words) || sc.words[k].opens || k == i && sc.words[k].stop {
		return i
	}
	switch {
	case sc.says(k, "to", "taste"), sc.says(k, "at", "discretion"), sc.says(k, "at", "pleasure"), sc.says(k, "at", "will"), sc.says(k, "ad", "libitum"), sc.says(k, "ad", "lib"), sc.says(k, "as", "needed"), sc.says(k, "as", "required"), sc.says(k, "as", "wanted"), sc.says(k, "as", "need"), sc.says(k, "as", "require"), sc.says(k, "as", "want"):
		return k + 2
	case sc.lower(k) == "enough":
		return k + 1
	case k == i && (sc.lower(k) == "until" || sc.lower(k) == "till") && sc.added(i) && !sc.amountAhead(k):
		return k + 1
	case k == i && (sc.says(k, "the", "size", "of") || sc.says(k, "about", "the", "size", "of")) && sc.lump(i):
		return k + 3
	}
	return i
}

// added tells whether the name that ends before word i is the object of a verb that only
// puts in, "pour on the port", and of nothing else: "add the flour and butter".
func (sc *scanner) added(i int) bool {
	for k := i - 1; k >= 0 && k >= i-7; k-- {
		if adding[sc.words[k].key] {
			return true
		}
		if sc.lower(k) == "in" && k > 0 && putsIn[sc.words[k-1].key] && sc.loosely(k+1, i) { // work in flour till it no longer sticks
			return true
		}
		if w := sc.lower(k); w == "and" || w == "with" || w == "then" || sc.words[k].stop || sc.words[k].opens {
			return false
		}
	}
	return false
}

// loosely tells whether the words from i to the one before end name, without an article, a
// flour or a liquid: how much of it goes in shows as it goes.
func (sc *scanner) loosely(i, end int) bool {
	ms := sc.finder.at(sc.words, i, false)
	if len(ms) != 1 || i+ms[0].length != end || ms[0].target.line == nil {
		return false
	}
	l := ms[0].target.line
	return l.head() == "flour" || l.Quantity != nil && l.Quantity.Dim == quantity.Volume
}

// amountAhead tells whether the sentence says further on how much that is: "until it
// leaves the bowl, 5 to 6 cups".
func (sc *scanner) amountAhead(i int) bool {
	for k := i + 1; k < len(sc.words) && !sc.words[k].opens; k++ {
		if w, n, ok := sc.amountAt(k); ok && w.amount != nil && sc.words[k].stop && n == len(sc.words) {
			return true
		}
	}
	return false
}

// lump tells whether the name that ends before word i is of something that is no piece by
// itself: butter the size of an egg, not potatoes.
func (sc *scanner) lump(i int) bool {
	for k := i - 1; k >= 0 && k >= i-4; k-- {
		if ms := sc.finder.at(sc.words, k, false); len(ms) > 0 && k+ms[0].length == i {
			l := ms[0].target.line
			return l != nil && (l.Quantity == nil || l.Quantity.Dim == quantity.Mass || l.Quantity.Dim == quantity.Volume)
		}
	}
	return false
}
