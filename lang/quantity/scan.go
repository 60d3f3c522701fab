package quantity

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// reader walks over one text. All positions are byte offsets in s. A method
// that does not find its thing returns ok = false, and the caller goes on from
// where it was; what such a try complained of is dropped by forget.
type reader struct {
	s     string
	opt   Options
	probs []Problem
}

func (r *reader) problem(code string, start, end int, message, help, fix string) {
	r.probs = append(r.probs, Problem{Start: start, End: end, Code: code, Message: message, Help: help, Fix: fix})
}

func (r *reader) ask(code string, start, end int, message, help, fix string) {
	r.problem(code, start, end, message, help, fix)
	r.probs[len(r.probs)-1].Ask = true
}

func (r *reader) hint(code string, start, end int, message, help string) {
	r.problem(code, start, end, message, help, "")
	r.probs[len(r.probs)-1].Hint = true
}

func (r *reader) forget(mark int) { r.probs = r.probs[:mark] }

// byteAt is 0 beyond the text.
func (r *reader) byteAt(i int) byte {
	if i < len(r.s) {
		return r.s[i]
	}
	return 0
}

func (r *reader) runeAt(i int) (rune, int) {
	if i >= len(r.s) {
		return 0, 0
	}
	if b := r.s[i]; b < utf8.RuneSelf {
		return rune(b), 1
	}
	return utf8.DecodeRuneInString(r.s[i:])
}

func isBlank(c rune) bool {
	return c == ' ' || c == '\t' || c >= 0x80 && unicode.Is(unicode.Zs, c)
}

func (r *reader) blanks(i int) int {
	for i < len(r.s) {
		c, n := r.runeAt(i)
		if !isBlank(c) {
			break
		}
		i += n
	}
	return i
}

func isDigit(b byte) bool { return '0' <= b && b <= '9' }

func (r *reader) digits(i int) int {
	for i < len(r.s) && isDigit(r.s[i]) {
		i++
	}
	return i
}

// wordEnd is where the letters from i end: "fl", "oz", "crème".
func (r *reader) wordEnd(i int) int {
	for i < len(r.s) {
		c, n := r.runeAt(i)
		if !(c < utf8.RuneSelf && (c|0x20 >= 'a' && c|0x20 <= 'z') ||
			c >= utf8.RuneSelf && (unicode.IsLetter(c) || unicode.IsMark(c))) {
			break
		}
		i += n
	}
	return i
}

// atEnd tells whether a unit or small word may end at i: "g" ends before a
// blank, a comma, a slash or a digit's dash (200g-250g), not before "arlic",
// "-style" or an apostrophe.
func (r *reader) atEnd(i int) bool {
	c, n := r.runeAt(i)
	switch {
	case n == 0:
		return true
	case c == '-' || c == '–':
		d := r.byteAt(i + n)
		return isDigit(d)
	case c == '\'' || c == '’':
		return false
	}
	return !(unicode.IsLetter(c) || unicode.IsDigit(c) || unicode.IsMark(c))
}

// word is the end of the small word w (ASCII, small letters) at i, in any case.
func (r *reader) word(i int, w string) (int, bool) {
	j := i + len(w)
	if j > len(r.s) || !strings.EqualFold(r.s[i:j], w) || !r.atEnd(j) {
		return i, false
	}
	return j, true
}

// oneOf is word for several words.
func (r *reader) oneOf(i int, words ...string) (string, int, bool) {
	for _, w := range words {
		if j, ok := r.word(i, w); ok {
			return w, j, true
		}
	}
	return "", i, false
}

// times is the end of the sign between the number and the size of packages.
func (r *reader) times(i int) (int, bool) {
	switch c, n := r.runeAt(i); c {
	case 'x', 'X', '×':
		return i + n, true
	}
	return i, false
}

var sizeWords = []string{"small", "medium", "large", "heaped", "level", "rounded", "scant"}

// size is a word such as large or heaped, and the blanks after it.
func (r *reader) size(i int) (string, int) {
	switch r.byteAt(i) | 0x20 {
	case 's', 'm', 'l', 'h', 'r':
		if w, j, ok := r.oneOf(i, sizeWords...); ok {
			if k := r.blanks(j); k > j {
				return w, k
			}
		}
	}
	return "", i
}

// unit is a unit word at i. one tells that a form for a single thing was
// written where the plural is another word.
func (r *reader) unit(i int) (u *Unit, one bool, end int, ok bool) {
	if r.byteAt(i) == '#' {
		return r.can(i, i+1)
	}
	if c := r.byteAt(i); (c == 'N' || c == 'n') && i+4 < len(r.s) && strings.EqualFold(r.s[i:i+3], "no.") && !r.opt.Prose {
		if k := r.blanks(i + 3); isDigit(r.byteAt(k)) { // No. 10 cans
			return r.can(i, k)
		}
	}
	j := r.wordEnd(i)
	if j == i || j-i > 40 {
		return nil, false, i, false
	}
	end = j
	if u = r.twoWords(i, &end); u == nil {
		u = r.lookUp(r.s[i:j])
	}
	if u == nil {
		return nil, false, i, false
	}
	// "2 oz. butter": the stop of an abbreviation. In a sentence it may as
	// well be the end of the sentence.
	if !r.opt.Prose && r.byteAt(end) == '.' && (u.Digits || abbreviates(u, r.s[i:end])) {
		if c, _ := r.runeAt(end + 1); isBlank(c) || c == ')' {
			return u, false, end + 1, true
		}
	}
	if !r.atEnd(end) && !(u.Digits && isDigit(r.byteAt(end))) { // 1lb8oz
		return nil, false, i, false
	}
	one = u.Name != u.Plural && len(r.s[i:j]) == len(u.Name) && Fold(r.s[i:j]) == Fold(u.Name)
	return u, one, end, true
}

// abbreviates tells whether a unit is written short, as qt and pkt are.
func abbreviates(u *Unit, written string) bool {
	return len(written) <= len("gals") && !strings.EqualFold(written, u.Name) && !strings.EqualFold(written, u.Plural)
}

func (r *reader) lookUp(w string) *Unit {
	if len(w) == 1 && w != "g" && w != "G" && w != "l" && w != "L" {
		return nil
	}
	var buf [24]byte
	if len(w) <= len(buf) && ascii(w) {
		for k := range len(w) {
			c := w[k]
			if 'A' <= c && c <= 'Z' {
				c += 'a' - 'A'
			}
			buf[k] = c
		}
		low := buf[:len(w)]
		if u := r.opt.Measures[string(low)]; u != nil {
			return u
		}
		return spellings[string(low)]
	}
	if u := r.opt.Measures[Fold(w)]; u != nil {
		return u
	}
	return nil
}

func ascii(s string) bool {
	for i := range len(s) {
		if s[i] >= utf8.RuneSelf {
			return false
		}
	}
	return true
}

// twoWords reads "fl oz" and "fluid ounces".
func (r *reader) twoWords(i int, end *int) *Unit {
	j := *end
	switch w := r.s[i:j]; {
	case strings.EqualFold(w, "fl"):
		if r.byteAt(j) == '.' {
			j++
		}
	case strings.EqualFold(w, "fluid"):
	case strings.EqualFold(w, "breakfast"), strings.EqualFold(w, "tea"), strings.EqualFold(w, "wine"), strings.EqualFold(w, "dessert"), strings.EqualFold(w, "table"), strings.EqualFold(w, "salt"): // a breakfast cup of
		k := r.blanks(j)
		e := r.wordEnd(k)
		if k == j || e-k < 3 || e-k > len("glassfuls") || !r.atEnd(e) {
			return nil
		}
		u := r.lookUp(w + r.s[k:e])
		if u == nil { // a wine glassful
			stem := strings.TrimSuffix(strings.TrimSuffix(Fold(r.s[k:e]), "s"), "ful")
			u = r.lookUp(w + strings.TrimSuffix(stem, "s"))
		}
		if u != nil && (u.Dim == Volume || u.Dim == Word) && len(u.Name) > 3 || u != nil && (u.Name == "tsp") {
			*end = e
			return u
		}
		return nil
	default:
		return nil
	}
	k := r.blanks(j)
	if _, e, ok := r.oneOf(k, "oz", "ozs", "ounce", "ounces"); ok {
		*end = e
		return spellings["fl oz"]
	}
	return nil
}

// can reads "#10 cans". Numbers of three figures are the longest in use.
func (r *reader) can(i, from int) (u *Unit, one bool, end int, ok bool) {
	j := r.digits(from)
	k := r.blanks(j)
	if j == from || j > from+3 || r.s[from] == '0' || k == j {
		return nil, false, i, false
	}
	e := r.wordEnd(k)
	c := r.lookUp(r.s[k:e])
	if c == nil || !c.Packs || !r.atEnd(e) {
		return nil, false, i, false
	}
	return numberedCan(r.s[from:j], c), strings.EqualFold(r.s[k:e], c.Name), e, true
}
