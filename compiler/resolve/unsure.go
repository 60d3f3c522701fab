package resolve

// What a sentence says of a gathered thing without saying which, or how much:
// it is asked about, since reading it as all, or as nothing, misleads the cook.

// alike are the nouns of an amount that only another thing tells: "equal weights of".
var alike = wordSet("weight part quantity amount measure volume proportion")

// weighedBy asks about an amount at word i that is told by another one: "equal
// weights of butter and sugar", "its own weight of flour", "twice the amount
// of milk", "as many spoonfuls of oil", "and half as much again".
func (sc *scanner) weighedBy(i int) {
	n := 0
	switch sc.lower(i) {
	case "equal", "own", "same":
		n = i + 1
	case "twice", "double", "half", "thrice", "triple":
		if sc.says(i+1, "as", "much", "again") || sc.says(i+1, "as", "many", "again") {
			if len(sc.takes) > 0 && !sc.named(i+4) {
				sc.unsure(i, i+4)
			}
			return
		}
		if sc.lower(i+1) == "the" || sc.lower(i+1) == "its" || sc.lower(i+1) == "their" {
			n = i + 2
		}
	case "as":
		if sc.lower(i+1) == "many" {
			_, n := sc.unitAt(i + 2)
			if i+2 < len(sc.words) && littles[sc.words[i+2].key] {
				n = i + 3
			}
			if n > i+2 && sc.lower(n) == "of" && sc.fresh(n) {
				sc.unsure(i, n)
			}
		}
		return
	}
	if n > 0 && n < len(sc.words) && !sc.words[n].stop && alike[sc.words[n].key] && (sc.lower(n+1) == "of" || sc.lower(n+1) == "in") && sc.fresh(n+1) {
		sc.unsure(i, n+1)
	}
}

// fresh tells whether a line with something left is named at word i, past "of",
// an article and an adjective.
func (sc *scanner) fresh(i int) bool {
	for k := i + 1; k < len(sc.words) && k <= i+3 && !sc.words[k].stop; k++ {
		for _, m := range sc.finder.at(sc.words, k, false) {
			if m.target.line != nil && sc.story.left[m.target.line].Sign() > 0 {
				return true
			}
		}
	}
	return false
}

func (sc *scanner) unsure(from, to int) {
	at := sc.place(sc.words[from].start, sc.words[to-1].end)
	sc.diags.Askf("U219", at, "%s: how much is that", at.Text()).
		Because("it is told by the amount of another thing, and is not worked out here").
		WithHelp("write the amount itself, or a share: `half the butter`")
}
