package resolve

import "tamis/lang/quantity"

// Words that say of what a sentence takes that not all of it goes in, or that it may be less:
// "though not all", "three eggs would do".

// totals are words for all of a thing.
var totals = wordSet("all whole lot everything entire entirety")

// allAround may stand behind "all" where it is said of no amount: not all over, not all the time.
var allAround = wordSet("over round around through the at that")

// byNot is "the breadcrumbs, though not all", "you may not need the whole of it".
func (g *guarding) byNot(k int) (int, string) {
	for n := k + 1; n < g.to && n <= k+5 && (n == k+1 || !g.words[n].stop); n++ {
		if g.gathered(n) != nil {
			return 0, ""
		}
		if !totals[g.lower(n)] {
			continue
		}
		if n+1 < g.to && !g.words[n+1].stop && allAround[g.lower(n+1)] {
			return 0, ""
		}
		if g.says(n+2, "at", "once") || g.says(n+3, "at", "once") {
			return 0, ""
		}
		for b := k; b >= g.from; b-- {
			if t := g.take(b); t != nil && t.All && !t.Rest && !t.Refers && t.Line.Quantity != nil && !t.Line.ToTaste {
				return n + 1, t.Line.Name
			}
		}
		return 0, ""
	}
	return 0, ""
}

// atChoice tells whether a condition that ends with a word leaves it to the cook.
func atChoice(word string) bool {
	switch word {
	case "liked", "like", "desired", "wished", "wish", "preferred", "prefer", "available", "obtainable", "wanted", "fancy":
		return true
	}
	return false
}

// suffices are verbs of an amount that somebody thinks enough.
var suffices = wordSet("do serve suffice answer be")

// varied is what may be done with an amount.
var varied = wordSet("omitted left dispensed dropped spared doubled halved increased reduced lessened varied")

// byModal is "three eggs would do at a pinch": an amount that may be another one.
func (g *guarding) byModal(k int) (int, string) {
	if k == g.from || g.words[k].stop {
		return 0, ""
	}
	if g.lower(k+1) == "be" && varied[g.lower(k+2)] { // part of the butter may be left out
		for n := k - 1; n >= g.from && n >= k-3; n-- {
			if l := g.gathered(n); l != nil && l.Quantity != nil && !l.Optional && !l.ToTaste {
				return min(k+3, g.to), l.Name
			}
		}
	}
	if w := g.lower(k); !suffices[g.lower(k+1)] || w == "may" || w == "can" {
		return 0, ""
	}
	if t := g.taken(k); t != nil && t.Amount != nil && !t.Unmeasured && g.endsWith(t, k-1) {
		return k + 2, t.Line.Name
	}
	return 0, ""
}

// byNeed is "the milk, use what you need": as much as it takes.
func (g *guarding) byNeed(k int) (int, string) {
	for b := k - 1; b >= g.from && b >= k-4 && !g.words[b+1].stop; b-- {
		switch g.lower(b) {
		case "what", "whatever", "as", "much":
			if t := g.taken(k); t != nil && t.All && !t.Rest && !t.Refers {
				return k + 1, t.Line.Name
			}
			return 0, ""
		}
	}
	return 0, ""
}

// endsWith tells whether the name of a take ends with the word at k.
func (g *guarding) endsWith(t *Take, k int) bool {
	return k >= g.from && t.NameAt.End == g.place(g.words[k].start, g.words[k].end).End
}

// hearers and habits begin a sentence that tells what other cooks do.
var (
	hearers = wordSet("people persons cooks folk folks housekeepers housewives bakers families others")
	habits  = wordSet("prefer like use add put take allow recommend like go make")
)

// hearsay asks about what others put in: "some persons use only two pounds of sugar".
func (g *guarding) hearsay() bool {
	k := g.from
	switch g.lower(k) {
	case "some", "many", "most", "few":
		k++
		if hearers[g.lower(k)] {
			k++
		}
	case "others", "people":
		k++
	default:
		return false
	}
	if !habits[g.lower(k)] || k >= g.to || g.words[k].stop {
		return false
	}
	for n := k + 1; n < g.to; n++ {
		if t := g.take(n); t != nil && !t.Refers && t.Line.Quantity != nil {
			at := g.place(g.words[g.from].start, g.words[k].end)
			g.diags.Askf("U223", at, "does this cook put in what `%s`", at.Text()).
				Because("%s is taken here and scaled, and the sentence says what others do", t.Line.Name).
				WithHelp("say what goes in here; what others do can stand in the notes")
			return true
		}
	}
	return false
}

// heldOf asks about a weight that is kept back in a sentence which names something that is
// gathered, and takes nothing of it: "don't be shy with the butter, but do keep back 20 g".
func (g *guarding) heldOf() bool {
	for k := g.from; k < g.to; k++ {
		if g.take(k) != nil {
			return false
		}
	}
	for k := g.from; k < g.to; k++ {
		n := g.marks[k].figure
		if n == 0 {
			continue
		}
		f := &g.found[n-1]
		l := g.spokenOf(k)
		if f.Kind != FigureScaled || f.Unit == nil || l == nil || l.Quantity == nil || l.Quantity.Dim != f.Quantity.Dim || f.Quantity.Dim == quantity.None || !g.putsBy(k) || g.story.left[l].Sign() <= 0 {
			continue
		}
		g.diags.Askf("U223", f.At, "is `%s` kept back of the %s, and does the rest go in", f.At.Text(), l.Name).
			Because("%s is spoken of here, and nothing of it is taken", l.Name).
			WithHelp("write `all but %s of the %s`", f.At.Text(), l.Name)
		return true
	}
	return false
}
