package prose

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// word is one word or figure of a text with its place in it.
type word struct {
	low      string // in small letters
	from, to int
	stop     byte // the mark before it: '.' ends a sentence; ',' ';' '(' ')' '/'; 0: none
	glue     bool // a hyphen joins it to the word before
}

// cut cuts a text into words. A full stop ends a sentence where no small letter
// follows: "12 mins. until soft" is one.
func cut(text string) []word {
	out := make([]word, 0, 2+len(text)/5)
	var stop byte = '.'
	for i := 0; i < len(text); {
		c, n := utf8.DecodeRuneInString(text[i:])
		if !unicode.IsLetter(c) && !unicode.IsNumber(c) {
			switch c {
			case '.':
				if !sentenceGoesOn(text, i+1) {
					stop = '.'
				}
			case '!', '?':
				stop = '.'
			case ';', ':', '—':
				stop = stronger(stop, ';')
			case ',', '/', '(', ')':
				stop = stronger(stop, byte(c))
			case '&', '@': // an hour & a half, flip @ 9 hrs
				low := "and"
				if c == '@' {
					low = "at"
				}
				out = append(out, word{low: low, from: i, to: i + 1, stop: stop})
				stop = 0
			}
			i += n
			continue
		}
		digits := unicode.IsNumber(c)
		j := i
		for j < len(text) {
			c, n := utf8.DecodeRuneInString(text[j:])
			next := func() rune {
				c, _ := utf8.DecodeRuneInString(text[j+n:])
				return c
			}
			switch {
			case digits && unicode.IsNumber(c), !digits && (unicode.IsLetter(c) || c >= 0x80 && unicode.IsMark(c)):
			case digits && (c == '.' || c == '⁄') && unicode.IsNumber(next()):
			case !digits && (c == '\'' || c == '’') && unicode.IsLetter(next()):
			default:
				n = 0
			}
			if n == 0 {
				break
			}
			j += n
		}
		w := word{low: strings.ToLower(text[i:j]), from: i, to: j, stop: stop}
		if k := len(out); k > 0 && stop == 0 && out[k-1].to == i-1 && text[i-1] == '-' {
			w.glue = true
		}
		out = append(out, w)
		stop, i = 0, j
	}
	return out
}

func sentenceGoesOn(text string, i int) bool {
	c, n := utf8.DecodeRuneInString(text[i:])
	if n == 0 || c != ' ' {
		return unicode.IsNumber(c) || unicode.IsLetter(c) || c == ',' || c == ';' || c == ')'
	}
	next, _ := utf8.DecodeRuneInString(text[i+1:])
	return unicode.IsLower(next)
}

// stronger is the mark that parts more.
func stronger(a, b byte) byte {
	const order = "\x00/,();."
	if strings.IndexByte(order, b) > strings.IndexByte(order, a) {
		return b
	}
	return a
}

// reader walks over the words of one text.
type reader struct {
	text  string
	words []word
}

// low is the word at i; empty beyond the ends.
func (r *reader) low(i int) string {
	if i < 0 || i >= len(r.words) {
		return ""
	}
	return r.words[i].low
}

// stops is the mark before word i; '.' beyond the ends.
func (r *reader) stops(i int) byte {
	if i < 0 || i >= len(r.words) {
		return '.'
	}
	return r.words[i].stop
}

// says tells whether these words stand at i with no mark between them.
func (r *reader) says(i int, words ...string) bool {
	for k, w := range words {
		if r.low(i+k) != w || k > 0 && r.words[i+k].stop != 0 {
			return false
		}
	}
	return true
}

// any is how many words of the first phrase that stands at i; 0: none does.
func (r *reader) any(i int, phrases ...string) int {
	first := r.low(i)
	for _, p := range phrases {
		if strings.HasPrefix(p, first) { // most begin with another word
			if n := r.phrase(i, p); n > 0 {
				return n
			}
		}
	}
	return 0
}

// phrase is how many words a phrase has, where it stands at i with no mark in it; else 0.
func (r *reader) phrase(i int, p string) (n int) {
	for more := true; more; n++ {
		var w string
		if w, p, more = strings.Cut(p, " "); r.low(i+n) != w || n > 0 && r.words[i+n].stop != 0 {
			return 0
		}
	}
	return n
}

// before is how many words of the first phrase that ends just before i, nothing
// but blanks between; 0: none does.
func (r *reader) before(i int, phrases ...string) int {
	if r.stops(i) != 0 {
		return 0
	}
	last := r.low(i - 1)
	for _, p := range phrases {
		if strings.HasSuffix(p, last) { // most end in another word
			if n := 1 + strings.Count(p, " "); i >= n && r.phrase(i-n, p) > 0 {
				return n
			}
		}
	}
	return 0
}

// at is the first word that begins at offset off or later.
func (r *reader) at(i, off int) int {
	for i < len(r.words) && r.words[i].from < off {
		i++
	}
	return i
}

// sentence is where the sentence of word i begins and ends, in words.
func (r *reader) sentence(i int) (from, to int) {
	for from = i; from > 0 && r.words[from].stop != '.'; from-- {
	}
	for to = i + 1; to < len(r.words) && r.words[to].stop != '.'; to++ {
	}
	return from, to
}

func set(words string) map[string]bool {
	out := map[string]bool{}
	for _, w := range strings.Fields(words) {
		out[w] = true
	}
	return out
}
