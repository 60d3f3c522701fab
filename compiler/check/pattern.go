package check

import (
	"math/bits"
	"regexp"
	"regexp/syntax"
	"slices"
	"strings"
	"sync"
)

// pattern is a regular expression behind a cheap test. Every sentence of a book
// is put to every rule, and next to none has the words a rule looks for: so the
// words are taken from the expression, and a text without any of them is
// turned away in one pass over its bytes.
type pattern struct {
	expr string
	re   func() *regexp.Regexp // compiled when a text first gets past the words
	once sync.Once             // for the test
	test *wordTest             // nil: none is possible
}

// wordTest finds out quickly that a text has none of some words.
type wordTest struct {
	words [64][]needle // sorted into bits
	at    [3][32]uint64
	whole bool // a text with one of the words matches
}

// needle is a word to look for, in small letters. A word begins at start, or ends at
// end, as \b has it.
type needle struct {
	word       string
	start, end bool
}

// patterns are all of them, for the test that puts them to texts.
var patterns []*pattern

// mustCompile is regexp.MustCompile for a pattern. Nothing is compiled before a
// text asks for it: a run of one recipe needs few of them.
func mustCompile(expr string) *pattern {
	p := &pattern{expr: expr, re: sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(expr) })}
	patterns = append(patterns, p)
	return p
}

// read takes the words from the expression.
func (p *pattern) read() {
	tree, err := syntax.Parse(p.expr, syntax.Perl)
	if err != nil {
		return
	}
	words, whole := needed(tree).best()
	if len(words) == 0 {
		return
	}
	p.test = &wordTest{whole: whole}
	for i, w := range words {
		p.test.add(i%64, w)
	}
}

// add puts a word, with its edges, under a bit.
func (t *wordTest) add(i int, marked string) {
	word := strings.Trim(marked, edge)
	bit := uint64(1) << i
	t.words[i] = append(t.words[i], needle{word, strings.HasPrefix(marked, edge), strings.HasSuffix(marked, edge)})
	for k := range t.at {
		if k < len(word) {
			t.at[k][bin(word[k])] |= bit
			continue
		}
		for c := range t.at[k] {
			t.at[k][c] |= bit
		}
	}
}

// bin is the same for a letter and its capital, and for others besides.
func bin(c byte) byte { return c & 31 }

// may tells whether a text has one of the words without which nothing matches.
func (p *pattern) may(text string) bool {
	found, _ := p.look(text)
	return found
}

// look is may, and whether that is all there is to match.
func (p *pattern) look(text string) (found, matches bool) {
	p.once.Do(p.read)
	if p.test == nil {
		return true, false
	}
	at := &p.test.at
	for i := 0; i < len(text); i++ {
		var next, third byte
		if i+2 < len(text) {
			next, third = text[i+1], text[i+2]
		} else if i+1 < len(text) {
			next = text[i+1]
		}
		hit := at[0][bin(text[i])] & at[1][bin(next)] & at[2][bin(third)]
		for ; hit != 0; hit &= hit - 1 {
			for n := range p.test.words[bits.TrailingZeros64(hit)] {
				if p.test.words[bits.TrailingZeros64(hit)][n].stands(text, i) {
					return true, p.test.whole
				}
			}
		}
		// a long s and the sign of kelvin are letters of English to (?i)
		if c := text[i]; c == 0xC5 && next == 0xBF || c == 0xE2 && next == 0x84 {
			return true, false
		}
	}
	return false, false
}

// stands tells whether a word stands in a text at i, whatever its case.
func (n *needle) stands(text string, i int) bool {
	end := i + len(n.word)
	if end > len(text) {
		return false
	}
	for k := range len(n.word) {
		if lowByte(text[i+k]) != n.word[k] {
			return false
		}
	}
	return !(n.start && i > 0 && ofWord(text[i-1])) && !(n.end && end < len(text) && ofWord(text[end]))
}

// ofWord tells whether a byte is of a word, as \b has it.
func ofWord(c byte) bool {
	return 'a' <= c && c <= 'z' || 'A' <= c && c <= 'Z' || '0' <= c && c <= '9' || c == '_'
}

func lowByte(c byte) byte {
	if 'A' <= c && c <= 'Z' {
		return c + 'a' - 'A'
	}
	return c
}

func (p *pattern) MatchString(s string) bool {
	found, matches := p.look(s)
	return matches || found && p.re().MatchString(s)
}

func (p *pattern) FindString(s string) string {
	if !p.may(s) {
		return ""
	}
	return p.re().FindString(s)
}

func (p *pattern) FindStringIndex(s string) []int {
	if !p.may(s) {
		return nil
	}
	return p.re().FindStringIndex(s)
}

func (p *pattern) FindStringSubmatch(s string) []string {
	if !p.may(s) {
		return nil
	}
	return p.re().FindStringSubmatch(s)
}

func (p *pattern) FindStringSubmatchIndex(s string) []int {
	if !p.may(s) {
		return nil
	}
	return p.re().FindStringSubmatchIndex(s)
}

func (p *pattern) FindAllString(s string, n int) []string {
	if !p.may(s) {
		return nil
	}
	return p.re().FindAllString(s, n)
}

func (p *pattern) FindAllStringIndex(s string, n int) [][]int {
	if !p.may(s) {
		return nil
	}
	return p.re().FindAllStringIndex(s, n)
}

func (p *pattern) FindAllStringSubmatch(s string, n int) [][]string {
	if !p.may(s) {
		return nil
	}
	return p.re().FindAllStringSubmatch(s, n)
}

func (p *pattern) FindAllStringSubmatchIndex(s string, n int) [][]int {
	if !p.may(s) {
		return nil
	}
	return p.re().FindAllStringSubmatchIndex(s, n)
}

// words are what every match of an expression has one of. An edge is marked in them.
type words struct {
	exact []string // all there is to match, where that is a short list
	sure  bool     // and each of them, in any case, does match
	need  []string // else a list that every match holds one of; nil: none is known
}

// edge marks where \b stands.
const edge = "\x01"

const mostExact = 128

// needed reads an expression.
func needed(re *syntax.Regexp) words {
	switch re.Op {
	case syntax.OpLiteral:
		s := string(re.Rune)
		low := strings.ToLower(s)
		return words{exact: []string{low}, sure: re.Flags&syntax.FoldCase != 0 || strings.ToUpper(s) == low}
	case syntax.OpEmptyMatch:
		return words{exact: []string{""}, sure: true}
	case syntax.OpWordBoundary:
		return words{exact: []string{edge}, sure: true}
	case syntax.OpBeginLine, syntax.OpEndLine, syntax.OpBeginText, syntax.OpEndText, syntax.OpNoWordBoundary:
		return words{exact: []string{""}}
	case syntax.OpCharClass:
		return ofClass(re.Rune)
	case syntax.OpCapture:
		return needed(re.Sub[0])
	case syntax.OpQuest:
		if in := needed(re.Sub[0]); in.exact != nil {
			return words{exact: distinct(append(in.exact, "")), sure: in.sure}
		}
		return words{}
	case syntax.OpPlus:
		return words{need: needed(re.Sub[0]).held()}
	case syntax.OpRepeat:
		if re.Min > 0 {
			return words{need: needed(re.Sub[0]).held()}
		}
		return words{}
	case syntax.OpAlternate:
		return either(re.Sub)
	case syntax.OpConcat:
		return joined(re.Sub)
	}
	return words{}
}

// ofClass are the letters of a class: surely all of them where it has both cases of each.
func ofClass(ranges []rune) words {
	var out []string
	low, high := 0, 0
	for i := 0; i < len(ranges); i += 2 {
		if ranges[i+1]-ranges[i] > 16 {
			return words{}
		}
		for c := ranges[i]; c <= ranges[i+1]; c++ {
			out = append(out, strings.ToLower(string(c)))
			if 'a' <= c && c <= 'z' {
				low |= 1 << (c - 'a')
			}
			if 'A' <= c && c <= 'Z' {
				high |= 1 << (c - 'A')
			}
		}
	}
	if len(out) > 20 {
		return words{}
	}
	return words{exact: distinct(out), sure: low == high}
}

func either(subs []*syntax.Regexp) words {
	var exact, need []string
	short, known, sure := true, true, true
	for _, s := range subs {
		in := needed(s)
		short = short && in.exact != nil
		sure = sure && in.sure
		exact = append(exact, in.exact...)
		one := in.held()
		known = known && one != nil
		need = append(need, one...)
	}
	switch {
	case short:
		return words{exact: distinct(exact), sure: sure}
	case known:
		return words{need: distinct(need)}
	}
	return words{}
}

func joined(subs []*syntax.Regexp) words {
	run := []string{""} // of neighbours that are exact
	whole, sure := true, true
	var best []string
	end := func() {
		if w := (words{exact: run}).held(); better(w, best) {
			best = w
		}
		run = []string{""}
	}
	for _, s := range subs {
		in := needed(s)
		sure = sure && in.sure
		if in.exact == nil {
			whole = false
			end()
			if better(in.need, best) {
				best = in.need
			}
			continue
		}
		if len(run)*len(in.exact) > mostExact {
			whole = false
			end()
		}
		var next []string
		for _, a := range run {
			for _, b := range in.exact {
				next = append(next, a+b)
			}
		}
		run = distinct(next)
	}
	if whole {
		return words{exact: run, sure: sure}
	}
	end()
	return words{need: best}
}

// held is best without its second answer.
func (w words) held() []string {
	out, _ := w.best()
	return out
}

// best are the words to look for: of each only what is plain ASCII, none that
// another one stands in; and whether a text that has one matches. Nil: one of them is
// empty, so nothing is needed.
func (w words) best() (out []string, whole bool) {
	list := w.need
	if w.exact != nil {
		list, whole = w.exact, w.sure
	}
	for _, s := range list {
		plain := ""
		for part := range strings.FieldsFuncSeq(s, func(r rune) bool { return r >= 0x80 || r == 0 }) {
			if part = edged(part); len(part) > len(plain) {
				plain = part
			}
		}
		if plain == "" {
			return nil, false
		}
		whole = whole && plain == s
		out = append(out, plain)
	}
	out = distinct(out)
	return slices.DeleteFunc(slices.Clone(out), func(s string) bool {
		return slices.ContainsFunc(out, func(o string) bool { return o != s && strings.Contains(s, o) })
	}), whole
}

// edged leaves only the marks at the ends of a word, where they say that nothing of a word
// stands beside it; empty where nothing else is left.
func edged(s string) string {
	word := strings.ReplaceAll(s, edge, "")
	if word == "" {
		return ""
	}
	out := word
	if strings.HasPrefix(s, edge) && ofWord(word[0]) {
		out = edge + out
	}
	if strings.HasSuffix(s, edge) && ofWord(word[len(word)-1]) {
		out += edge
	}
	return out
}

// better tells whether some words turn away more texts than others: longer
// ones do, and fewer.
func better(a, b []string) bool {
	if len(a) == 0 || len(b) == 0 {
		return len(b) == 0
	}
	short := func(list []string) int {
		n := 4
		for _, s := range list {
			n = min(n, len(s))
		}
		return n
	}
	if x, y := short(a), short(b); x != y {
		return x > y
	}
	return len(a) < len(b)
}

func distinct(list []string) []string {
	out := slices.Clone(list)
	slices.Sort(out)
	return slices.Compact(out)
}
