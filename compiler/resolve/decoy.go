package resolve

import (
	"strings"

	"tamis/compiler/larder"
)

// Known names that a sentence says and nobody gathered: what a thing is only
// likened to, what it is served with, and what should stand in the list.

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
	if sc.lower(i-1) == "own" { // in its own gravy
		return true
	}
	k := i - 1
	for k > 0 && (articles[sc.lower(k)] || sc.lower(k) == "a" || sc.lower(k) == "an") && !sc.words[k+1].stop {
		k--
	}
	if k > 0 && sc.lower(k) == "of" && looks[sc.words[k-1].key] && !sc.words[k].stop { // cut to the size of the apples
		return true
	}
	if i > 1 && sc.lower(i-1) == "a" && sc.lower(i-2) == "to" && becomes[sc.words[i].key] { // beat the butter to a cream
		return true
	}
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

// becomes is what a thing is beaten or boiled to.
var becomes = wordSet("cream jelly syrup caramel paste snow custard toffee butter soup fudge pulp")

// looks are what one thing has as another one has it.
var looks = wordSet("size thickness width breadth length shape consistency texture colour color look appearance smell flavour flavor")

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
	if i > 1 && sc.lower(i-1) == "of" && (key == "salt" || key == "pepper") && littles[sc.words[i-2].key] { // a pinch of salt: it stands by the stove
		return
	}
	if i > 0 && (sc.lower(i-1) == "check" || sc.lower(i-1) == "enough" && i > 1 && sc.lower(i-2) == "for") && (key == "salt" || key == "pepper") {
		return
	}
	if sc.formed(i) { // roll it up in two sausages
		return
	}
	if k := i + n; k < len(sc.words) && !sc.words[k].stop && cookedIn[sc.words[k].key] { // a mug of the pasta water
		return
	}
	if sc.wouldDo(i + n) {
		return
	}
	if sc.orSame(i) {
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

// formed tells whether the name at word i is a form that something is given: "roll the dough into
// a sausage", "shape it in two logs".
func (sc *scanner) formed(i int) bool {
	k := i - 1
	for k > 0 && k > i-5 && !sc.words[k+1].stop && sc.lower(k) != "in" && sc.lower(k) != "into" && sc.lower(k) != "to" {
		k--
	}
	if k <= 0 || sc.words[k+1].stop || sc.lower(k) != "in" && sc.lower(k) != "into" && sc.lower(k) != "to" {
		return false
	}
	if w := sc.lower(k + 1); w != "a" && w != "an" && !sc.counts(k+1) && !(k+1 == i && sc.lower(k) == "into") {
		return false
	}
	for ; k >= 0; k-- {
		switch sc.words[k].key {
		case "roll", "shape", "form", "mould", "mold", "squeeze", "pat", "twist", "make":
			return true
		}
		if sc.words[k].opens {
			break
		}
	}
	return false
}

// orSame tells whether "or the same of", "or as much" stands before word i: what
// may be used instead.
func (sc *scanner) orSame(i int) bool {
	for k := i - 1; k >= 0 && k >= i-5 && len(sc.takes) > 0 && !sc.words[k+1].opens; k-- {
		switch sc.lower(k) {
		case "or":
			return true
		case "the", "same", "of", "as", "much", "many", "a", "equal", "amount", "quantity", "like", "an":
		default:
			return false
		}
	}
	return false
}

// wouldDo tells whether the clause goes on, behind word i, to say that a thing may
// stand in: "if there is no sour milk, fresh milk and a drop of vinegar will do".
func (sc *scanner) wouldDo(i int) bool {
	for k := i; k+1 < len(sc.words) && !sc.words[k].stop; k++ {
		if w := sc.lower(k); w == "will" || w == "would" || w == "can" || w == "may" || w == "might" {
			switch sc.lower(k + 1) {
			case "do", "serve", "answer":
				return true
			case "be":
				return sc.lower(k+2) == "used" || sc.lower(k+2) == "substituted"
			}
		}
	}
	return false
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
		if l.Item != it {
			continue
		}
		if found != nil {
			return nil
		}
		found = l
	}
	return found
}
