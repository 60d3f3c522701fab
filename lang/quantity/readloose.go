package quantity

import "strings"

// numberNames begin names that begin as numbers do. Ambiguous ones, such as
// three bean salad, are asked about.
var numberNames = []string{
	"five spice", "four spice", "seven spice", "ten spice", "half and half", "half fat", "half cream", "half baked", "half salted",
	"quarter pounder", "quarter pounders", "two row", "six row", "seven up", "a little gem", "10x sugar", "6x sugar", "knob celery", "three bean mix", "thousand island", "hundreds and thousands",
}

// sharedNames are words that follow a number word in a name as well as in an
// amount: three bean salad, two cheese scones.
var sharedNames = map[string]bool{
	"bean": true, "seed": true, "cheese": true, "grain": true, "nut": true, "fruit": true, "herb": true, "pepper": true, "day": true, "hour": true,
	"minute": true, "year": true, "week": true, "month": true, "layer": true, "pot": true,
}

// numberName tells whether the text at i begins with a name that begins as a
// number does. It asks where that is in doubt.
func (r *reader) numberName(i int) bool {
	for _, n := range numberNames {
		if len(r.s)-i >= len(n) && strings.EqualFold(r.s[i:i+len(n)], n) && r.atEnd(i+len(n)) {
			return true
		}
	}
	w := speech{r}
	n, e := w.cardinal(i)
	k := r.blanks(e)
	if e == 0 || n < 2 || k == e {
		return false
	}
	if word, end := w.said(k); sharedNames[word] && r.nameAt(r.blanks(end)) == aName {
		figure := Int(n).String()
		r.ask(CodeWords, i, e, "`"+r.s[i:e]+"` may be "+figure+", or part of the name", "write `"+figure+"`, or put quotes round the name", figure)
		return true
	}
	return false
}

// loose words before a name say that no figure is meant.
var loose = []string{
	"a few", "some", "several", "a little", "a little bit of", "a bit of", "a lot of", "lots of", "plenty of", "a touch of", "a sprinkling of",
	"a scattering of", "a dusting of", "a few more", "few", "bit of", "any", "sufficient", "enough", "a very little", "a suspicion of", "a shake of",
	"as much", "as many", "a small quantity of", "a good deal of",
}

// unmeasured reads "a few sprigs of dill", "some thyme" and "sprigs of thyme":
// what stands before the name, which has no amount.
func (r *reader) unmeasured(i int) (Amount, int) {
	end := i
	for _, words := range loose {
		n := i + len(words)
		if n < len(r.s) && n > end && strings.EqualFold(r.s[i:n], words) && r.blanks(n) > n {
			end = n
		}
	}
	k := r.blanks(end)
	if u, one, e, ok := r.unit(k); ok && !one && (u.Dim == Word || u.Dim == Vague || end > i && u.Dim != Batch) && r.after(e) == aName {
		_, of := r.word(r.blanks(e), "of")
		if end > i || of && u.Dim == Word {
			end = e
		}
	}
	if end == i || r.after(end) != aName {
		return Amount{}, 0
	}
	kept := "is kept as a note"
	if w := Fold(r.s[i:end]); w == "some" || w == "any" {
		kept = "is not kept"
	}
	r.hint(CodeWords, i, end, "`"+r.s[i:end]+"` is no amount, and "+kept, "for a figure on the shopping list write one, such as `3 sprigs`")
	return Amount{}, end
}

// IsNone tells whether a is no amount at all.
func (a Amount) IsNone() bool { return a.Kind == Plain && len(a.Measure.Terms) == 0 }
