package resolve

import (
	"slices"
	"strings"

	"tamis/lang/quantity"
)

// The account of figures. A bare number or a share that no name has taken must have a role
// that is known: it counts something else, says how a thing is divided, is a share of what
// was not gathered, is for each of something, or is put by. Where what is gathered is spoken
// of and a figure has no such role, it may tell how much of it goes in: it is asked about.

// changesSize are verbs of what boils away or swells: their shares are not of what goes in.
var changesSize = wordSet("reduce boil simmer evaporate shrink swell rise grow waste lose cook render")

// states may follow a share that tells how far a thing is: "two thirds full".
var fractionOf = wordSet("full way done cover covered past through done filled cooked set submerged up down again as")

// pronouns stand for something that was named.
var pronouns = wordSet("it them these those this that which everything both each all")

// contrasts part what is meant from what is not.
var contrasts = wordSet("but or if only though although unless otherwise when instead rather while")

// unaccounted asks about the first figure of the sentence that has no role.
func (g *guarding) unaccounted() bool {
	if g.comeToAll() {
		return false
	}
	for k := g.from; k < g.to; k++ {
		n := g.marks[k].figure
		if n == 0 || g.spent[k] {
			continue
		}
		f := &g.found[n-1]
		if f.Kind != FigureKept || f.As != "" || f.Unit != nil {
			continue
		}
		s, next, ok := g.spokenAt(k)
		if !ok || next > g.to || s.Article {
			continue
		}
		l := g.spokenOf(k)
		if l == nil {
			g.unspoken = g.unspoken || s.Part
			continue
		}
		if g.hasRole(k, next, s) || s.Part && g.unspoken {
			continue
		}
		d := g.diags.Askf("U223", f.At, "`%s` of what", f.At.Text()).
			Because("%s is spoken of here, and nothing was made of this figure: it changes neither what goes in nor what is bought", l.Name)
		if s.Part {
			d.WithHelp("if it is how much goes in, write it before the name: `%s the %s`", f.At.Text(), l.Name)
		} else {
			d.WithHelp("if it is how much goes in, write it before the name: `%s of the %s`", f.At.Text(), l.Name)
		}
		d.WithHelp("or say in the margin what the step takes: `| uses %s`", l.Name)
		return true
	}
	return false
}

// ofAgain asks about a part of a thing that its sentence takes whole: "cream the butter, but
// leave a scrap of the butter for the tin".
func (g *guarding) ofAgain() bool {
	for k := g.from + 3; k < g.to; k++ {
		t := g.take(k)
		if t == nil || !t.Refers || t.Line.ToTaste || t.Line.Quantity == nil {
			continue
		}
		n := k - 1
		if articles[g.lower(n)] {
			n--
		}
		if n < g.from+2 || g.lower(n) != "of" || g.words[n].stop || g.words[k].stop {
			continue
		}
		noun := g.words[n-1].key
		if w := g.lower(n - 2); w != "a" && w != "an" || isPart(noun) || partNamed[noun] != "" || madeOfAll[noun] || vessels[noun] || timeWords[noun] {
			continue
		}
		whole := false
		for b := g.from; b < k; b++ {
			if o := g.take(b); o != nil && o.Line == t.Line && o.All && !o.Refers {
				whole = true
			}
		}
		if !whole {
			continue
		}
		at := g.place(g.words[n-2].start, g.words[k].end)
		g.diags.Askf("U223", at, "is `%s` a part of the %s that went in before", at.Text(), t.Line.Name).
			Because("all of it is taken at its first name in the sentence, and nothing is left for this").
			WithHelp("say first how much goes in, `most of the %s`, and then the rest", t.Line.Name)
		return true
	}
	return false
}

// spokenOf is the gathered thing that a figure at word k may be of: the last that the step
// names before it, or one that its sentence names behind it.
func (g *guarding) spokenOf(k int) *Line {
	named := func(n int) *Line {
		if t := g.take(n); t != nil {
			return t.Line
		}
		if g.isName(n) {
			return g.gathered(n)
		}
		if ms := g.finder.at(g.words, n, false); len(ms) == 1 && ms[0].target.sub != nil && ms[0].target.sub.class != "" && !verbNow(g.words, n) { // a third of the fruit
			return ms[0].target.sub.Lines[0]
		}
		return g.calledBy(n)
	}
	for n := k; n >= 0; n-- {
		if l := named(n); l != nil && !l.ToTaste {
			return l
		}
	}
	for n := k + 1; n < g.to && !g.words[n].stop; n++ {
		if l := named(n); l != nil && !l.ToTaste {
			return l
		}
	}
	return nil
}

// calledBy is the one counted line whose name begins with the word at k: loaves, of loaves of
// bread; nil: none.
func (g *guarding) calledBy(k int) (found *Line) {
	for _, l := range g.lines {
		if l.Quantity != nil && l.Quantity.Dim == quantity.None && strings.HasPrefix(l.Key, g.words[k].key+" ") && !g.words[k].glue && k > g.from && g.counts(k-1) {
			if found != nil {
				return nil
			}
			found = l
		}
	}
	return found
}

// gathered is the one gathered thing that is named at word k; nil: none, or no one.
func (g *guarding) gathered(k int) *Line {
	if k >= len(g.words) {
		return nil
	}
	if ms := g.finder.at(g.words, k, false); len(ms) == 1 {
		return ms[0].target.line
	}
	return nil
}

// isName tells whether a gathered name begins at word k where no other name goes on.
func (g *guarding) isName(k int) bool { return g.gathered(k) != nil && !verbNow(g.words, k) }

// hasRole tells whether a figure from word k to next is known for something else than an amount of
// what is gathered.
func (g *guarding) hasRole(k, next int, s quantity.Spoken) bool {
	before, behind := "", ""
	if k > g.from && !g.words[k].stop {
		before = g.lower(k - 1)
	}
	if next < g.to && !g.words[next].stop {
		behind = g.lower(next)
	}
	alone := behind == "" || g.ends(next) && behind != "of" || predicates[behind] || behind == "only"
	if behind == "to" || behind == "or" { // cubes of 3/4 to 1 inch
		if _, n, ok := g.spokenAt(next + 1); ok && (g.keptAs(next+1, n) != "" || (g.lower(n) == "an" || g.lower(n) == "a") && g.isLength(n+1)) {
			return true
		}
	}
	switch {
	case g.eachBehind(next), g.says(next, "at", "a", "time"), g.says(next, "at", "each"), behind == "to" && (g.lower(next+1) == "a" || g.lower(next+1) == "the"):
		return true // for each of something, a load
	case k > g.from+1 && g.lower(k-1) == "of" && g.lower(k-2) == "each", k > g.from+2 && g.lower(k-1) == "the" && g.lower(k-3) == "each":
		return true
	case behind == "x" || before == "x" || behind == "by" && g.counts(next+1) || before == "by" && k > g.from+1 && g.counts(k-2):
		return behind != "x" || !g.measuredAt(next+1) // 4 by 6, one by one; 3 x 250 ml is an amount
	case before == "and" && k > g.from+1 && lengths[g.words[k-2].key], before == "to" && s.Part && g.lower(k) != "half", before == "each" && s.Part: // a day and a half, 20 to a half
		return true
	case s.Part && alone && g.getsReady(k), !s.Part && (behind == "being" || behind == "or" && g.says(next, "or", "so", "being")):
		return true
	case behind == "after" && g.lower(k) == "one", before == "count", before == "past", behind == "past":
		return true
	case (before == "are" || before == "is" || before == "be") && alone: // until they are one
		return true
	case before == "in" && g.particle(k-1): // put in three
	case (before == "over" || before == "on" || before == "upon" || before == "from") && s.Part && alone:
		return true
	case before == "in" || before == "into" || before == "by" || before == "between" || before == "among" || before == "for":
		return alone || g.countsOther(next)
	case (before == "at" || before == "on" || before == "to" || before == "serve" || before == "serves" || before == "feeds") && alone && !s.Part:
		return before != "to" || !g.fewer(k, s)
	case before == "but" || before == "bar" || before == "save" || before == "except" || before == "all":
		return before != "all" && !alone || before == "all" && g.meansAll(k, s)
	case s.Part && g.sizeChanges(k), fractionOf[behind] && s.Part:
		return true
	case g.lower(k) == "one" && next == k+1 && !(before == "the" && alone && !predicates[behind]) && g.pronoun(k):
		return true
	case g.putBy(k, next, s), g.sharedOut(k, next, s):
		return true
	}
	if behind == "of" || s.Part && articles[behind] {
		return g.ofAnother(k, next, s)
	}
	return !alone && g.countsOther(next)
}

// comesIn tells whether the word at k is what something that is gathered comes in, or a word
// of its name.
func (sc *scanner) comesIn(k int) bool {
	for _, l := range sc.lines {
		if l.Quantity != nil && sc.story.left[l].Sign() > 0 && l.comesIn(sc.words[k].key) {
			return true
		}
	}
	return false
}

// comeToAll tells whether the shares of the sentence come to all of what it takes or names:
// "bacon, 2/3 into the stew, 1/3 on top".
func (g *guarding) comeToAll() bool {
	sum, n := quantity.Number{}, 0
	for k := g.from; k < g.to; k++ {
		if g.marks[k].figure == 0 || g.spent[k] {
			continue
		}
		s, next, ok := g.spokenAt(k)
		if !ok {
			continue
		}
		v := s.Value.High
		if !s.Part && strings.HasPrefix(strings.TrimLeft(g.text[g.words[next-1].end:], " "), "%") {
			v = v.Div(quantity.Int(100))
		} else if !s.Part {
			continue
		}
		sum, n = sum.Add(v), n+1
	}
	return n > 1 && sum.Equal(one)
}

// adverbs stand behind a number that stands for a thing by itself: three never hurt anybody.
var adverbs = wordSet("never always not also too just only usually often seldom rarely perhaps maybe please now then here")

// measuredAt tells whether an amount with a unit stands at word k.
func (g *guarding) measuredAt(k int) bool {
	w, _, ok := g.amountAt(k)
	return ok && w.amount != nil
}

// fewer tells whether the figure is less than what the sentence took by number just before.
func (g *guarding) fewer(k int, s quantity.Spoken) bool {
	t := g.taken(k)
	return t != nil && t.Amount != nil && s.Value.High.Less(t.Amount.Value.High)
}

// countsOther tells whether something that is not gathered is counted at word k: "three whistles".
func (g *guarding) countsOther(k int) bool {
	for n := k; n < k+3 && n < g.to && (n == k || !g.words[n].stop); n++ {
		w := g.lower(n)
		if n > k && fillerStops[w] {
			break
		}
		if predicates[w] || adverbs[w] || pronouns[w] || g.gathered(n) != nil || g.comesIn(n) {
			return false
		}
		if littles[g.words[n].key] {
			return k > g.from+1 && g.lower(n+1) != "of" && (g.lower(k-2) == "with" || g.lower(k-2) == "using") // two spoons as a tool
		}
		if w, un, ok := g.amountAt(n); n == k && ok && w.amount != nil { // eight 1-tbsp heaps
			return un < g.to && !g.words[un].stop && g.gathered(un) == nil && g.lower(un) != "of"
		}
		if u, un := g.unitAt(n); un > n && (u.Dim == quantity.Mass || u.Dim == quantity.Volume) {
			return false
		}
		if strings.HasSuffix(w, "ed") && (n+1 >= g.to || g.words[n+1].stop || fillerStops[g.lower(n+1)]) { // one grated
			return false
		}
	}
	return true
}

// meansAll tells whether "all eight" are as many as a counted line has.
func (g *guarding) meansAll(k int, s quantity.Spoken) bool {
	t := g.taken(k)
	return t == nil || t.All && t.Line.Quantity.Value.High.Equal(s.Value.High)
}

// sizeChanges tells whether the clause before word k has a verb of boiling away.
func (g *guarding) sizeChanges(k int) bool {
	for n := k - 1; n >= g.from; n-- {
		w := g.words[n].key
		if n > g.from && g.lower(n-1) == "may" || n > g.from && g.lower(n-1) == "can" { // you may reduce it to half
			return false
		}
		if changesSize[w] && (w != "boil" && w != "cook" && w != "simmer" || g.lower(k-1) == "to" || g.lower(k-1) == "by" || g.lower(n+1) == "down") {
			return true
		}
		if changesSize[strings.TrimSuffix(g.lower(n), "d")] || g.lower(n) == "wasted" || g.lower(n) == "swollen" || g.lower(n) == "risen" {
			return true
		}
		if g.words[n+1].stop && n+1 != k {
			return false
		}
	}
	return false
}

// pronoun tells whether "one" at word k stands for a thing with an adjective: "a hot one".
func (g *guarding) pronoun(k int) bool {
	if k == g.from || g.words[k].stop {
		return false
	}
	switch before := g.lower(k - 1); {
	case before == "other":
		return g.begun() == nil
	case before == "this" || before == "that" || before == "each" || before == "every" || before == "any" || before == "no" || before == "which" || before == "the":
		return true
	}
	for n := k - 2; n >= max(k-3, g.from); n-- {
		if w := g.lower(n); articles[w] || w == "a" || w == "an" {
			return true
		}
		if g.words[n+1].stop {
			break
		}
	}
	return false
}

// putBy tells whether the figure is kept for later, of something of which only a part went in.
func (g *guarding) putBy(k, next int, s quantity.Spoken) bool {
	t := g.taken(k)
	if t == nil || t.All {
		return false
	}
	n := k - 1
	for n > g.from && !g.words[n+1].stop && (articles[g.lower(n)] || g.lower(n) == "other" || g.lower(n) == "last" || asides[g.lower(n)]) {
		n--
	}
	if n < g.from {
		return false
	}
	switch g.words[n].key {
	case "keep", "save", "reserve", "leave", "hold", "set", "freeze", "lay", "put":
		return true
	}
	return false
}

// sharedOut tells whether a number is of the counted things that the sentence took just
// before: "take four, boil two".
func (g *guarding) sharedOut(k, next int, s quantity.Spoken) bool {
	if w := g.lower(next); s.Part || w == "will" || w == "would" || w == "should" { // one and a half will do
		return false
	}
	n := k - 1
	for ; n >= g.from; n-- {
		if contrasts[g.lower(n)] {
			return false
		}
		if t := g.take(n); t != nil && t.Line != nil && !t.Refers && t.Amount != nil {
			counted := t.Amount.Dim == quantity.None || t.Amount.Dim == quantity.Word
			return !t.All && counted && s.Value.High.Less(t.Amount.Value.High) && !(k > g.from && !articles[g.lower(k-1)] && g.isTheRest(t, s.Value.High) && !g.saysOther())
		}
	}
	return false
}

// isTheRest tells whether a number is just what is left of a counted line of which another
// number went in: two cloves in the sauce, one on the toast, of three.
func (g *guarding) isTheRest(t *Take, n quantity.Number) bool {
	q := t.Line.Quantity
	return q != nil && q.Dim == t.Amount.Dim && q.Value.High.Equal(t.Amount.Value.High.Add(n))
}

// saysOther tells whether the sentence speaks of the other, or the others.
func (g *guarding) saysOther() bool {
	return slices.ContainsFunc(g.words[g.from:g.to], func(w word) bool { return w.low == "other" || w.low == "others" })
}

// ofAnother tells whether a share or a number is of something that is not gathered: "a third
// of their liquid", "half the time". Of "it" it is only a manner of getting ready.
func (g *guarding) ofAnother(k, next int, s quantity.Spoken) bool {
	n := next
	if g.lower(n) == "of" {
		n++
	}
	if n < g.to && articles[g.lower(n)] && !(pronouns[g.lower(n)] && (n+1 >= g.to || g.words[n+1].stop || fillerStops[g.lower(n+1)])) {
		n++
	}
	if n >= g.to || g.words[n].stop {
		return false
	}
	w := g.lower(n)
	switch {
	case pronouns[w]:
		return w != "everything" && w != "which" && g.getsReady(k)
	case g.counts(n): // two of five
		return false
	}
	if u, un := g.unitAt(n); un > n && u.Dim != quantity.Length {
		b := g.opening(k)
		return vessels[g.words[n].key] && (g.words[b].key == "fill" || g.words[b].key == "line" || g.words[b].key == "cover")
	}
	for b := n; b < n+3 && b < g.to && (b == n || !g.words[b].stop && !fillerStops[g.lower(b)]); b++ {
		if ms := g.finder.at(g.words, b, false); len(ms) > 0 && ms[0].target.product == nil { // also the herbs, the nuts
			return false
		}
	}
	return true
}

// getsReady tells whether the verb before word k only gets a thing ready: "mash half of them".
func (g *guarding) getsReady(k int) bool {
	if g.words[k].stop { // mash it with the butter (half)
		return false
	}
	for n := k - 1; n >= g.from && n >= k-3; n-- {
		if w := g.words[n].key; putsIn[w] {
			return false
		} else if readies[w] || w == "mash" || w == "split" || w == "blend" {
			return true
		}
		if g.words[n].stop {
			break
		}
	}
	return false
}
