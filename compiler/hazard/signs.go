package hazard

import (
	"slices"
	"strings"
	"sync"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// Signs are what the words of a text tell of the food: by data/signs.csv, read
// in one pass over the words. A sentence feeds the state of the food; the rules
// read the state.
type Signs struct {
	bits [4]uint64
	at   []found
}

// found is where words that tell something begin and end in the text.
type found struct{ sign, from, to int }

// Tell tells whether the text has a sign.
func (s *Signs) Tell(sign string) bool {
	i := signNo(sign)
	return s.bits[i/64]&(1<<(i%64)) != 0
}

// Tells tells whether the words of the step, its tools or its vessel have one of
// some signs.
func (st *Stage) Tells(signs ...string) bool {
	return slices.ContainsFunc(signs, st.signs.Tell)
}

// SaidBy is the words of the step that tell one of some signs; empty when none do,
// or a tool does.
func (st *Stage) SaidBy(signs ...string) string {
	for _, sign := range signs {
		i := signNo(sign)
		for _, f := range st.signs.at {
			if f.sign == i && f.to <= st.said {
				return st.text[f.from:f.to]
			}
		}
	}
	return ""
}

// Near tells whether one of some words stands not far behind a sign, in the same
// sentence, or before it where it is said in the passive: what it is done to.
func (st *Stage) Near(sign string, words ...string) bool {
	i := signNo(sign)
	for _, f := range st.signs.at {
		if f.sign != i || f.to > st.said {
			continue
		}
		before := st.text[:f.from]
		before = before[strings.LastIndexAny(before, ".;:!?\n")+1:]
		if at, ok := findWord(before, words...); ok && hasWord(before[at:], passive...) {
			return true
		}
		end := min(f.to+48, len(st.text))
		if stop := strings.IndexAny(st.text[f.to:end], ".;!?\n"); stop >= 0 {
			end = f.to + stop
		}
		if hasWord(st.text[f.from:end], words...) {
			return true
		}
	}
	return false
}

// passive are words between a thing and what is done to it.
var passive = []string{"is", "are", "was", "were", "gets", "get", "be", "been"}

// SignsOf reads a text by itself: a title, a line of the list.
func SignsOf(text string) *Signs {
	readSigns.RLock()
	s, ok := readSigns.of[text]
	readSigns.RUnlock()
	if ok {
		return s
	}
	s = readText(strings.ToLower(text))
	s.at = nil
	readSigns.Lock()
	if len(readSigns.of) >= mostKnown {
		clear(readSigns.of)
	}
	readSigns.of[text] = s
	readSigns.Unlock()
	return s
}

var readSigns = struct {
	sync.RWMutex
	of map[string]*Signs
}{of: map[string]*Signs{}}

// phrase is one way of saying something: stems, and gaps of a few words.
type phrase struct {
	sign int
	rest []string // after the first stem; "~" is a gap
	anti bool     // counts also where "not" stands before it
}

type signTable struct {
	names  map[string]int
	phrase map[string]*opening // by the first stem
	poison []int               // the signs of poisons
	but    map[int][]int       // by a sign, those whose words it takes back: "but rinse" those of rinse
}

// opening is all that begins with one stem. There are tens of thousands of phrases, and no
// text has a tenth of the openings, so each is written out when it is first met.
type opening struct {
	ways  []way
	once  sync.Once
	spelt []phrase
}

// way is one way of saying something, with alternatives behind its first word.
type way struct {
	sign  int
	words string
	anti  bool
}

// phrases are those that begin with a stem.
func (t *signTable) phrases(stem string) []phrase {
	o := t.phrase[stem]
	if o == nil {
		return nil
	}
	o.once.Do(func() {
		for _, w := range o.ways {
			for _, plain := range spread(w.words) {
				o.spelt = append(o.spelt, phrase{w.sign, stems(plain)[1:], w.anti})
			}
		}
	})
	return o.spelt
}

var signs = sync.OnceValue(func() signTable {
	t := signTable{names: map[string]int{}, phrase: map[string]*opening{}, but: map[int][]int{}}
	short := map[string]string{}
	for _, r := range rowsOf("signs") {
		if name, ok := strings.CutPrefix(r[0], "$"); ok {
			short["$"+name] = "(" + strings.ReplaceAll(r[1], " / ", "|") + ")"
			continue
		}
		no := t.add(r[0], r[1], short)
		if of, ok := strings.CutPrefix(r[0], "but "); ok {
			for o := range strings.SplitSeq(of, " + ") {
				t.but[no] = append(t.but[no], t.number(o))
			}
		}
	}
	for _, r := range rowsOf("poisons") {
		t.poison = append(t.poison, t.add("poison "+r[0], r[1], short))
		t.add("no poison "+r[0], r[2], short)
	}
	if len(t.names) > 256 {
		panic("hazard: more signs than bits")
	}
	return t
})

// add takes up one sign with its ways of being said.
func (t *signTable) add(sign, ways string, short map[string]string) int {
	no := t.number(sign)
	for p := range strings.SplitSeq(ways, " / ") {
		if strings.Contains(p, "$") {
			for k, v := range short {
				p = strings.ReplaceAll(p, k, v)
			}
		}
		p, anti := strings.CutPrefix(p, "! ")
		for _, words := range slices.Concat(openings(strings.ReplaceAll(p, " <> ", " ~ ")), openings(turned(p))) {
			first, _, _ := strings.Cut(words, " ")
			if first == "" {
				continue
			}
			first = stem(first)
			if t.phrase[first] == nil {
				t.phrase[first] = &opening{}
			}
			t.phrase[first].ways = append(t.phrase[first].ways, way{no, words, anti})
		}
	}
	return no
}

// turned is a phrase with what stands on both sides of "<>" turned about: "boil <> sugar"
// is the sugar that is boiled too. Empty where there is no such sign.
func turned(p string) string {
	a, b, ok := strings.Cut(p, " <> ")
	if !ok {
		return ""
	}
	return b + " ~ " + a
}

// stems are the words of a phrase, levelled; "~" is a gap.
func stems(plain string) []string {
	words := strings.Fields(plain)
	for i, w := range words {
		if w != "~" {
			words[i] = stem(w)
		}
	}
	return words
}

// number is the number of a sign; a new one where it has none.
func (t *signTable) number(sign string) int {
	no, ok := t.names[sign]
	if !ok {
		no = len(t.names)
		t.names[sign] = no
	}
	return no
}

func signNo(sign string) int {
	i, ok := signs().names[sign]
	if !ok {
		panic("hazard: no sign " + sign)
	}
	return i
}

// spread writes out the alternatives in brackets: "(wash|rinse) the bird".
func spread(p string) []string {
	before, rest, some := strings.Cut(p, "(")
	if !some {
		return []string{p}
	}
	return alternatives(before, rest, spread)
}

// openings writes out only what the first word hangs on.
func openings(p string) []string {
	p = strings.TrimLeft(p, " ")
	before, rest, some := strings.Cut(p, "(")
	if !some || strings.Contains(before, " ") {
		return []string{p}
	}
	return alternatives(before, rest, openings)
}

// alternatives puts each of those in a bracket in its place; rest begins behind the bracket.
func alternatives(before, rest string, further func(string) []string) (out []string) {
	all, after, _ := strings.Cut(rest, ")")
	for alt := range strings.SplitSeq(all, "|") {
		out = append(out, further(before+alt+after)...)
	}
	return out
}

// gap is how many words may stand where a phrase has "~".
const gap = 5

// token is a word of a text, or the end of a sentence (an empty stem).
type token struct {
	stem     string
	from, to int
}

var noWords = map[string]bool{"not": true, "never": true, "don't": true, "without": true, "avoid": true, "no": true, "nor": true, "cannot": true, "isn't": true}

// readText finds the signs of a text in small letters.
func readText(text string) *Signs {
	s := &Signs{}
	t := signs()
	var room [64]token
	tokens := cut(text, room[:0])
	for i, tk := range tokens {
		next := ""
		if i+1 < len(tokens) {
			next = tokens[i+1].stem
		}
		phrases := t.phrases(tk.stem)
		for n := range phrases {
			p := &phrases[n]
			if len(p.rest) > 0 && p.rest[0] != next && p.rest[0] != "~" {
				continue
			}
			end := follow(tokens, i+1, p.rest)
			if end < 0 || !p.anti && denied(text, tokens, i) {
				continue
			}
			s.bits[p.sign/64] |= 1 << (p.sign % 64)
			s.at = append(s.at, found{p.sign, tk.from, tokens[end-1].to})
		}
	}
	s.takeBack(&t)
	return s
}

// takeBack leaves out what other words of the text take back: "wash" of "wash the
// board" is no rinsing of meat, and "baby" of "baby carrots" no child.
func (s *Signs) takeBack(t *signTable) {
	if !slices.ContainsFunc(s.at, func(f found) bool { return t.but[f.sign] != nil }) {
		return
	}
	all := s.at
	s.at, s.bits = nil, [4]uint64{}
	for _, f := range all {
		if !slices.ContainsFunc(all, func(b found) bool {
			return b.from < f.to && f.from < b.to && slices.Contains(t.but[b.sign], f.sign)
		}) {
			s.bits[f.sign/64] |= 1 << (f.sign % 64)
			s.at = append(s.at, f)
		}
	}
}

// denied tells whether "not" or its like stands before a word.
func denied(text string, tokens []token, i int) bool {
	for k := max(i-2, 0); k < i; k++ {
		if noWords[text[tokens[k].from:tokens[k].to]] {
			return true
		}
	}
	return false
}

// follow is the token after the last of a phrase that begins at i, or -1.
func follow(tokens []token, i int, rest []string) int {
	for k, w := range rest {
		if w == "~" {
			for g := 0; g <= gap && i+g < len(tokens); g++ {
				if end := follow(tokens, i+g, rest[k+1:]); end >= 0 {
					return end
				}
				if tokens[i+g].stem == "" {
					break
				}
			}
			return -1
		}
		if i >= len(tokens) || tokens[i].stem != w {
			return -1
		}
		i++
	}
	return i
}

// cut cuts a text into words and ends of sentences. A hyphen parts words; a
// decimal point does not.
func cut(text string, out []token) []token {
	for i := 0; i < len(text); {
		c := text[i]
		switch {
		case isWord(c):
			from := i
			for i < len(text) && (isWord(text[i]) || text[i] == '\'' && i+1 < len(text) && isWord(text[i+1]) || text[i] == '.' && i > from && digit(text[i-1]) && i+1 < len(text) && digit(text[i+1])) {
				i++
			}
			out = append(out, token{stem(text[from:i]), from, i})
			continue
		case c == '.' || c == ';' || c == '!' || c == '?' || c == '\n' || c == ':':
			out = append(out, token{"", i, i + 1})
		}
		i++
	}
	return out
}

func isWord(c byte) bool { return c >= 'a' && c <= 'z' || c >= '0' && c <= '9' || c >= 0x80 }

func digit(c byte) bool { return c >= '0' && c <= '9' }

// plainLetters takes the accents off a word: a crèche is a creche.
func plainLetters(w string) string {
	for i := range len(w) {
		if w[i] >= 0x80 {
			return strings.Map(func(r rune) rune {
				if unicode.Is(unicode.Mn, r) {
					return -1
				}
				return r
			}, norm.NFD.String(w))
		}
	}
	return w
}

// whole are words whose stem means another thing: who cans fills jars, and what one
// can do is none of that; corned beef is no corn.
var whole = map[string]bool{"canning": true, "canned": true, "canner": true, "corned": true, "corning": true, "larded": true, "rolled": true, "teething": true, "casing": true, "casings": true, "greens": true}

// stem levels the endings of English words: washes, washed and washing are one,
// and so are smoke and smoked.
func stem(w string) string {
	w = plainLetters(w)
	if whole[w] {
		return w
	}
	if len(w) > 2 && (strings.HasSuffix(w, "'s") || strings.HasSuffix(w, "s'")) {
		w = w[:len(w)-2]
	}
	n := len(w)
	switch {
	case n > 5 && strings.HasSuffix(w, "ing"):
		w = w[:n-3]
	case n > 4 && strings.HasSuffix(w, "ed") && w[n-3] != 'e':
		w = w[:n-2]
	case n > 4 && (strings.HasSuffix(w, "ses") || strings.HasSuffix(w, "xes") || strings.HasSuffix(w, "hes") || strings.HasSuffix(w, "oes") || strings.HasSuffix(w, "zes")):
		w = w[:n-2]
	case n > 3 && w[n-1] == 's' && w[n-2] != 's' && w[n-2] != 'u':
		w = w[:n-1]
	}
	n = len(w)
	switch {
	case n > 3 && w[n-1] == 'e':
		w = w[:n-1]
	case n > 3 && w[n-1] == 'y':
		return w[:n-1] + "i"
	}
	if n = len(w); n > 3 && w[n-1] == w[n-2] && w[n-1] >= 'a' && w[n-1] <= 'z' {
		w = w[:n-1]
	}
	return w
}
