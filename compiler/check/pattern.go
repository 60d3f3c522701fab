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
// turned away in one pass over its bytes. Where every match begins with one of some
// words, the expression is tried there and nowhere else.
type pattern struct {
	expr string
	re   func() *regexp.Regexp // compiled when a text first gets past the words
	here func() *regexp.Regexp // the same at the beginning of a text
	once sync.Once             // for the tests
	test *wordTest             // nil: none is possible
	lead *wordTest             // of the words that matches begin with; nil: they begin otherwise
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
	p := &pattern{
		expr: expr,
		re:   sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(expr) }),
		here: sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`\A(?:` + expr + `)`) }),
	}
	patterns = append(patterns, p)
	return p
}

// read takes the words from the expression.
func (p *pattern) read() {
	tree, err := syntax.Parse(p.expr, syntax.Perl)
	if err != nil {
		return
	}
	in := needed(tree)
	if words, whole := in.best(); len(words) > 0 {
		p.test = testFor(words)
		p.test.whole = whole
	}
	if words := in.leads(); len(words) > 0 && !looksBack(tree) {
		p.lead = testFor(words)
	}
}

func testFor(words []string) *wordTest {
	t := &wordTest{}
	for i, w := range words {
		t.add(i%64, w)
	}
	return t
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
	i, odd := p.test.next(text, 0)
	return i >= 0 || odd, i >= 0 && p.test.whole
}

// next is where the first of the words stands in a text from a place on, or -1. It stops at
// an odd letter: a long s and the sign of kelvin are letters of English to (?i).
func (t *wordTest) next(text string, from int) (at int, odd bool) {
	for i := from; i < len(text); i++ {
		var next, third byte
		if i+2 < len(text) {
			next, third = text[i+1], text[i+2]
		} else if i+1 < len(text) {
			next = text[i+1]
		}
		for hit := t.at[0][bin(text[i])] & t.at[1][bin(next)] & t.at[2][bin(third)]; hit != 0; hit &= hit - 1 {
			words := t.words[bits.TrailingZeros64(hit)]
			for n := range words {
				if words[n].stands(text, i) {
					return i, false
				}
			}
		}
		if c := text[i]; c == 0xC5 && next == 0xBF || c == 0xE2 && next == 0x84 {
			return -1, true
		}
	}
	return -1, false
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
	return matches || found && len(p.all(s, 1)) > 0
}

func (p *pattern) FindStringSubmatchIndex(s string) []int {
	if out := p.FindAllStringSubmatchIndex(s, 1); out != nil {
		return out[0]
	}
	return nil
}

func (p *pattern) FindStringIndex(s string) []int {
	if m := p.FindStringSubmatchIndex(s); m != nil {
		return m[:2]
	}
	return nil
}

func (p *pattern) FindString(s string) string {
	if m := p.FindStringSubmatchIndex(s); m != nil {
		return s[m[0]:m[1]]
	}
	return ""
}

func (p *pattern) FindStringSubmatch(s string) []string {
	if out := p.FindAllStringSubmatch(s, 1); out != nil {
		return out[0]
	}
	return nil
}

func (p *pattern) FindAllStringIndex(s string, n int) [][]int {
	out := p.FindAllStringSubmatchIndex(s, n)
	for i := range out {
		out[i] = out[i][:2]
	}
	return out
}

func (p *pattern) FindAllStringSubmatch(s string, n int) (out [][]string) {
	for _, m := range p.FindAllStringSubmatchIndex(s, n) {
		groups := make([]string, len(m)/2)
		for i := range groups {
			if m[2*i] >= 0 {
				groups[i] = s[m[2*i]:m[2*i+1]]
			}
		}
		out = append(out, groups)
	}
	return out
}

func (p *pattern) FindAllStringSubmatchIndex(s string, n int) [][]int {
	if !p.may(s) {
		return nil
	}
	return p.all(s, n)
}

// all is FindAllStringSubmatchIndex for a text that got past the words.
func (p *pattern) all(s string, n int) (out [][]int) {
	for from := 0; p.lead != nil && len(out) != n; {
		i, odd := p.lead.next(s, from)
		if odd {
			break
		}
		if i < 0 {
			return out
		}
		m := p.here().FindStringSubmatchIndex(s[i:])
		if m == nil {
			from = i + 1
			continue
		}
		for k := range m {
			if m[k] >= 0 {
				m[k] += i
			}
		}
		from, out = m[1], append(out, m)
	}
	if len(out) == n {
		return out
	}
	return p.re().FindAllStringSubmatchIndex(s, n)
}

// words are what every match of an expression has one of. An edge is marked in them.
type words struct {
	exact []string // all there is to match, where that is a short list
	sure  bool     // and each of them, in any case, does match
	need  []string // else a list that every match holds one of; nil: none is known
	lead  []string // else a list that every match begins with one of; nil: none is known
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
		in := needed(re.Sub[0])
		return words{need: in.held(), lead: in.begins()}
	case syntax.OpRepeat:
		if re.Min > 0 {
			in := needed(re.Sub[0])
			return words{need: in.held(), lead: in.begins()}
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
	var exact, need, lead []string
	short, known, sure, led := true, true, true, true
	for _, s := range subs {
		in := needed(s)
		first := in.begins()
		led = led && first != nil
		lead = append(lead, first...)
		short = short && in.exact != nil
		sure = sure && in.sure
		exact = append(exact, in.exact...)
		one := in.held()
		known = known && one != nil
		need = append(need, one...)
	}
	if short {
		return words{exact: distinct(exact), sure: sure}
	}
	out := words{}
	if known {
		out.need = distinct(need)
	}
	if led {
		out.lead = distinct(lead)
	}
	return out
}

func joined(subs []*syntax.Regexp) words {
	run := []string{""} // of neighbours that are exact
	whole, sure := true, true
	var best, lead []string
	end := func(next []string) { // next are what goes on behind the run begins with
		if whole {
			whole, lead = false, times(run, next)
		}
		if w := (words{exact: run}).held(); better(w, best) {
			best = w
		}
		run = []string{""}
	}
	for _, s := range subs {
		in := needed(s)
		sure = sure && in.sure
		if in.exact == nil {
			end(in.lead)
			if better(in.need, best) {
				best = in.need
			}
			continue
		}
		if len(run)*len(in.exact) > mostExact {
			end(nil)
		}
		run = distinct(times(run, in.exact))
	}
	if whole {
		return words{exact: run, sure: sure}
	}
	end(nil)
	return words{need: best, lead: words{exact: lead}.begins()}
}

// times are each of some words followed by each of others; the words themselves where
// there are no others, or too many.
func times(list, behind []string) []string {
	if len(behind) == 0 || len(list)*len(behind) > 4*mostExact {
		return list
	}
	out := make([]string, 0, len(list)*len(behind))
	for _, a := range list {
		for _, b := range behind {
			out = append(out, a+b)
		}
	}
	return out
}

// begins are the words that every match begins with, as far as they are known; nil where
// one of them is empty.
func (w words) begins() []string {
	list := w.lead
	if w.exact != nil {
		list = w.exact
	}
	if slices.ContainsFunc(list, func(s string) bool { return strings.Trim(s, edge) == "" }) {
		return nil
	}
	return list
}

// leads are the words to try an expression at: of each only what is plain ASCII at its
// beginning, none that begins with another one. Nil: there is none.
func (w words) leads() (out []string) {
	for _, s := range w.begins() {
		plain := s
		if i := strings.IndexFunc(s, func(r rune) bool { return r >= 0x80 || r == 0 }); i >= 0 {
			plain = s[:i]
		}
		word := strings.Trim(plain, edge)
		if word == "" || strings.HasPrefix(plain, edge) && !ofWord(word[0]) {
			return nil
		}
		out = append(out, edged(plain))
	}
	out = distinct(out)
	return slices.DeleteFunc(slices.Clone(out), func(s string) bool {
		return slices.ContainsFunc(out, func(o string) bool { return o != s && strings.HasPrefix(s, o) })
	})
}

// looksBack tells whether an expression asks what stands before a place, otherwise than by
// the edge of a word: it cannot be tried at a place by itself.
func looksBack(re *syntax.Regexp) bool {
	switch re.Op {
	case syntax.OpBeginLine, syntax.OpBeginText, syntax.OpNoWordBoundary:
		return true
	}
	return slices.ContainsFunc(re.Sub, looksBack)
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
