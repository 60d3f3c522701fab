package quantity

import (
	"slices"
	"strings"
)

// Spoken is a number as a sentence says it: in figures or in words.
type Spoken struct {
	Value Range // Low < High for "two or three", "3 to 4"
	// Article tells that only "a" or "an" stands there: one of a counted thing
	// or of a unit, and otherwise no number at all.
	Article bool
	// Part tells that it is a fraction by itself, such as half, one-third, ¾: a
	// share of what follows, unless that is a unit or a counted thing.
	Part bool
	// Ordinal tells that it may be the place of a thing in a row as well as a
	// fraction of it: "a third", "a fifth".
	Ordinal bool
}

// ReadSpoken reads a number at the start of text: 2, ½, 1-1/2, two, twenty-two,
// half a dozen, two thirds, one and a half, three or four. n is how many bytes
// it took; 0 when none stands there. Words join with a blank or a hyphen.
// Ordinals are no numbers, but "a third" and "two-thirds" are fractions.
//
// It takes as much as is a number, so that "half a pound" gives half, and
// leaves "a pound" to the caller: only "a dozen" and its like are numbers.
func ReadSpoken(text string, opt Options) (s Spoken, n int) {
	opt.Prose = true
	w := speech{&reader{s: text, opt: opt}}
	one, n := w.speaks(0)
	if n == 0 {
		return Spoken{}, 0
	}
	// A range.
	if !one.Article && !one.Part {
		if k, ok := w.joins(n, "or", "to"); ok {
			if more, e := w.speaks(k); e > 0 && !more.Article && one.Value.High.Less(more.Value.Low) && w.startsNumber(0) == w.startsNumber(k) {
				one.Value.High = more.Value.High
				return one, e
			}
		}
		if j := w.dash(n); j > n && isDigit(w.byteAt(j)) {
			if more, e := w.speaks(j); e > 0 && one.Value.High.Less(more.Value.Low) {
				one.Value.High = more.Value.High
				return one, e
			}
		}
	}
	return one, n
}

// BeginsNumber tells of a word whether ReadSpoken may find a number that begins with it.
func BeginsNumber(word string) bool {
	w := speech{&reader{s: word}}
	if w.startsNumber(0) {
		return true
	}
	word, _ = w.said(0)
	switch word {
	case "a", "an", "half":
		return true
	}
	return smallWords[word] > 0 || tenWords[word] > 0
}

// speech walks over the words of a text. Positions are byte offsets.
type speech struct{ *reader }

// said is the word at i in small letters, and where it ends; empty where it
// runs on in letters or figures that no number has.
func (w speech) said(i int) (string, int) {
	e := i
	for e < len(w.s) && (w.s[e]|0x20 >= 'a' && w.s[e]|0x20 <= 'z') {
		e++
	}
	if c, n := w.runeAt(e); e == i || n > 0 && c != '.' && c != '/' && c != ':' && c != '&' && inName(c) {
		return "", i
	}
	return Fold(w.s[i:e]), e
}

// next is where the next word begins: past blanks, or a hyphen.
func (w speech) next(i int) (int, bool) {
	if w.byteAt(i) == '-' {
		return i + 1, true
	}
	k := w.blanks(i)
	return k, k > i
}

// then is the word behind the one that ends at i, and where that ends.
func (w speech) then(i int) (string, int) {
	if k, ok := w.next(i); ok {
		return w.said(k)
	}
	return "", i
}

// joins is where what stands behind one of these words begins.
func (w speech) joins(i int, words ...string) (int, bool) {
	have, e := w.then(i)
	if slices.Contains(words, have) {
		return w.next(e)
	}
	return i, false
}

func (w speech) dash(i int) int {
	if c, n := w.runeAt(i); c == '-' || c == '–' {
		return i + n
	}
	return i
}

var (
	smallWords = map[string]int64{
		"one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9, "ten": 10, "eleven": 11, "twelve": 12,
		"thirteen": 13, "fourteen": 14, "fifteen": 15, "sixteen": 16, "seventeen": 17, "eighteen": 18, "nineteen": 19,
	}
	tenWords = map[string]int64{
		"twenty": 20, "thirty": 30, "forty": 40, "fifty": 50, "sixty": 60, "seventy": 70, "eighty": 80, "ninety": 90,
	}
	partNames = map[string]int64{
		"half": 2, "halves": 2, "third": 3, "thirds": 3, "quarter": 4, "quarters": 4, "fourth": 4, "fourths": 4, "fifth": 5, "fifths": 5,
		"sixth": 6, "sixths": 6, "eighth": 8, "eighths": 8, "tenth": 10, "tenths": 10,
	}
)

// IsNumberWord tells whether a word by itself is a number from one to ninety.
func IsNumberWord(word string) bool {
	w := strings.ToLower(word)
	return smallWords[w] > 0 || tenWords[w] > 0
}

// collectives are words for so many, of which a half may be added: a dozen and a half.
var collectives = map[string]int64{"dozen": 12, "score": 20, "hundred": 100}

// speaks reads one number at i: with "and a half" behind it, without a range.
func (w speech) speaks(i int) (s Spoken, end int) {
	v, end, kind := w.plain(i)
	if end == 0 {
		return Spoken{}, 0
	}
	if k, ok := w.joins(end, "and"); ok && kind == whole {
		f, e, fk := w.plain(k)
		if e > 0 && (fk == fraction || fk == ordinal) && f.Less(Int(1)) && w.goesOn(e) {
			for word, of := range collectives {
				if strings.HasSuffix(Fold(w.s[i:end]), word) { // a dozen and a half
					f = f.Mul(Int(of))
				}
			}
			return Spoken{Value: Exactly(v.Add(f))}, e
		}
	}
	return Spoken{Value: Exactly(v), Article: kind == article, Part: kind == fraction || kind == ordinal, Ordinal: kind == ordinal}, end
}

// goesOn tells whether a word follows at once, as the name behind "one and a
// half" must.
func (w speech) goesOn(i int) bool {
	word, e := w.then(i)
	return e > i && word != "and"
}

type spokenKind int

const (
	whole spokenKind = iota
	article
	fraction
	ordinal // a fraction whose word also tells the place in a row
)

// plain reads a number without "and" and without a range.
func (w speech) plain(i int) (v Number, end int, kind spokenKind) {
	if w.startsNumber(i) {
		return w.figure(i)
	}
	switch word, e := w.said(i); word {
	case "":
		return Number{}, 0, whole
	case "a", "an":
		return w.afterArticle(e)
	case "half":
		next, ne := w.then(e)
		if next == "a" {
			next, ne = w.then(ne)
		}
		if next == "dozen" {
			return Int(6), ne, whole
		}
		return Frac(1, 2), e, fraction
	}
	n, e := w.cardinal(i)
	if e == 0 {
		return Number{}, 0, whole
	}
	next, ne := w.then(e)
	if d, is := partNames[next]; is && n < d && n > 0 {
		return Frac(n, d), ne, fraction
	}
	switch next {
	case "dozen":
		return Int(n * 12), ne, whole
	case "hundred":
		if and, ae := w.then(ne); and == "and" { // two hundred and fifty
			if k, ok := w.next(ae); ok {
				if more, me := w.cardinal(k); me > 0 {
					return Int(n*100 + more), me, whole
				}
			}
		}
		return Int(n * 100), ne, whole
	}
	return Int(n), e, whole
}

// figure reads a number in figures: 2, ½, 1-1/2, 2 dozen.
func (w speech) figure(i int) (v Number, end int, kind spokenKind) {
	mark := len(w.probs)
	v, j, ok := w.number(i)
	bad := len(w.probs) > mark
	w.forget(mark)
	if !ok || bad {
		return Number{}, 0, whole
	}
	if w.byteAt(j) == '-' && v.IsInt() {
		if f, e, ok := w.number(j + 1); ok && f.Less(Int(1)) && f.Sign() > 0 {
			v, j = v.Add(f), e
		}
		w.forget(mark)
	}
	j = w.ordinalTail(v, j)
	if c, n := w.runeAt(j); n > 0 && (c == '%' || inName(c) && c != '.' && !w.unitAt(j)) {
		return Number{}, 0, whole // 70%, 7up, 2nd
	}
	if word, e := w.then(j); word == "dozen" {
		return v.Mul(Int(12)), e, whole
	}
	if v.Less(Int(1)) {
		return v, j, fraction
	}
	return v, j, whole
}

// ordinalTail is where the name begins behind "3/4th", whose number v ends at j.
func (r *reader) ordinalTail(v Number, j int) int {
	if !v.Less(Int(1)) {
		return j
	}
	for _, tail := range [...]string{"ths", "rds", "th", "rd", "nd"} {
		if e := j + len(tail); e <= len(r.s) && strings.EqualFold(r.s[j:e], tail) && r.atEnd(e) {
			return e
		}
	}
	return j
}

// afterArticle reads what follows "a": a half, a dozen, a couple.
func (w speech) afterArticle(e int) (Number, int, spokenKind) {
	next, ne := w.then(e)
	if _, part := partNames[next]; w.byteAt(e) == '-' && !part { // "and-a-half" is joined throughout
		return Number{}, 0, whole
	}
	switch next {
	case "half":
		if dozen, de := w.then(ne); dozen == "dozen" {
			return Int(6), de, whole
		}
		return Frac(1, 2), ne, fraction
	case "dozen":
		return Int(12), ne, whole
	case "couple", "pair", "brace":
		return Int(2), ne, whole
	case "score":
		return Int(20), ne, whole
	case "hundred":
		return Int(100), ne, whole
	}
	if d, is := partNames[next]; is && next[len(next)-1] != 's' {
		return Frac(1, d), ne, ordinal
	}
	return Int(1), e, article
}

// cardinal reads a whole number in words, to ninety-nine.
func (w speech) cardinal(i int) (n int64, end int) {
	word, e := w.said(i)
	if n, ok := smallWords[word]; ok {
		if and, ae := w.then(e); n < 10 && and == "and" && w.byteAt(e) == '-' && w.byteAt(ae) == '-' { // five-and-twenty
			if tens, te := w.then(ae); tenWords[tens] > 0 {
				return tenWords[tens] + n, te
			}
		}
		return n, e
	}
	n, ok := tenWords[word]
	if !ok {
		return 0, 0
	}
	unit, ue := w.then(e)
	if u, ok := smallWords[unit]; ok && u < 10 {
		return n + u, ue
	}
	return n, e
}

// unitAt tells whether a unit stands right behind a figure: 200g, 7oz.
func (r *reader) unitAt(i int) bool {
	u, _, _, ok := r.unit(i)
	return ok && u.Digits
}

// ReadSpokenUnit reads a unit at the start of text, inside a sentence: pounds,
// lb., cupfuls. The full stop of an abbreviation is part of it where the
// sentence goes on behind it.
func ReadSpokenUnit(text string, opt Options) (u *Unit, n int) {
	opt.Prose = true
	w := speech{&reader{s: text, opt: opt}}
	if u, _, end, ok := w.unit(0); ok {
		if w.byteAt(end) == '.' && end <= len("tablesp") {
			if k := w.blanks(end + 1); k > end+1 && w.byteAt(k) >= 'a' && w.byteAt(k) <= 'z' {
				end++
			}
		}
		return u, end
	}
	word, e := w.said(0)
	stem, full := strings.CutSuffix(strings.TrimSuffix(word, "s"), "ful")
	if !full {
		return nil, 0
	}
	if u, ok := UnitNamed(strings.TrimSuffix(stem, "s")); ok && u.Dim == Volume {
		return u, e
	}
	return nil, 0
}
