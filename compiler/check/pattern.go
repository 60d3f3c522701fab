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
	words [64][]string // small letters, sorted into bits
	at    [3][256]uint64
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
	words := needed(tree).best()
	if len(words) == 0 {
		return
	}
	p.test = &wordTest{}
	for i, w := range words {
		p.test.add(i%64, w)
	}
}

// add puts a word under a bit.
func (t *wordTest) add(i int, word string) {
	bit := uint64(1) << i
	t.words[i] = append(t.words[i], word)
	for k := range t.at {
		if k >= len(word) {
			for c := range t.at[k] {
				t.at[k][c] |= bit
			}
			continue
		}
		t.at[k][word[k]] |= bit
		if c := word[k]; 'a' <= c && c <= 'z' {
			t.at[k][c-'a'+'A'] |= bit
		}
	}
}

// may tells whether a text has one of the words without which nothing matches.
func (p *pattern) may(text string) bool {
	p.once.Do(p.read)
	if p.test == nil {
		return true
	}
	at := &p.test.at
	for i := 0; i < len(text); i++ {
		var next, third byte
		if i+2 < len(text) {
			next, third = text[i+1], text[i+2]
		} else if i+1 < len(text) {
			next = text[i+1]
		}
		hit := at[0][text[i]] & at[1][next] & at[2][third]
		for ; hit != 0; hit &= hit - 1 {
			for _, w := range p.test.words[bits.TrailingZeros64(hit)] {
				if startsLow(text[i:], w) {
					return true
				}
			}
		}
		// a long s and the sign of kelvin are letters of English to (?i)
		if c := text[i]; c == 0xC5 && next == 0xBF || c == 0xE2 && next == 0x84 {
			return true
		}
	}
	return false
}

// startsLow tells whether a text begins with a word, whatever its case.
func startsLow(text, word string) bool {
	if len(text) < len(word) {
		return false
	}
	for i := range len(word) {
		if lowByte(text[i]) != word[i] {
			return false
		}
	}
	return true
}

func lowByte(c byte) byte {
	if 'A' <= c && c <= 'Z' {
		return c + 'a' - 'A'
	}
	return c
}

func (p *pattern) MatchString(s string) bool { return p.may(s) && p.re().MatchString(s) }

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

// words are what every match of an expression has one of.
type words struct {
	exact []string // all there is to match, where that is a short list
	need  []string // else a list that every match holds one of; nil: none is known
}

const mostExact = 128

// needed reads an expression.
func needed(re *syntax.Regexp) words {
	switch re.Op {
	case syntax.OpLiteral:
		return words{exact: []string{strings.ToLower(string(re.Rune))}}
	case syntax.OpEmptyMatch, syntax.OpBeginLine, syntax.OpEndLine, syntax.OpBeginText, syntax.OpEndText, syntax.OpWordBoundary, syntax.OpNoWordBoundary:
		return words{exact: []string{""}}
	case syntax.OpCharClass:
		var out []string
		for i := 0; i < len(re.Rune); i += 2 {
			if re.Rune[i+1]-re.Rune[i] > 16 {
				return words{}
			}
			for c := re.Rune[i]; c <= re.Rune[i+1]; c++ {
				out = append(out, strings.ToLower(string(c)))
			}
		}
		if len(out) > 20 {
			return words{}
		}
		return words{exact: distinct(out)}
	case syntax.OpCapture:
		return needed(re.Sub[0])
	case syntax.OpQuest:
		if in := needed(re.Sub[0]); in.exact != nil {
			return words{exact: distinct(append(in.exact, ""))}
		}
		return words{}
	case syntax.OpPlus:
		return words{need: needed(re.Sub[0]).best()}
	case syntax.OpRepeat:
		if re.Min > 0 {
			return words{need: needed(re.Sub[0]).best()}
		}
		return words{}
	case syntax.OpAlternate:
		return either(re.Sub)
	case syntax.OpConcat:
		return joined(re.Sub)
	}
	return words{}
}

func either(subs []*syntax.Regexp) words {
	var exact, need []string
	short, known := true, true
	for _, s := range subs {
		in := needed(s)
		short = short && in.exact != nil
		exact = append(exact, in.exact...)
		one := in.best()
		known = known && one != nil
		need = append(need, one...)
	}
	switch {
	case short:
		return words{exact: distinct(exact)}
	case known:
		return words{need: distinct(need)}
	}
	return words{}
}

func joined(subs []*syntax.Regexp) words {
	run := []string{""} // of neighbours that are exact
	whole := true
	var best []string
	end := func() {
		if w := (words{exact: run}).best(); better(w, best) {
			best = w
		}
		run = []string{""}
	}
	for _, s := range subs {
		in := needed(s)
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
		return words{exact: run}
	}
	end()
	return words{need: best}
}

// best are the words to look for: of each only what is plain ASCII, none that
// another one stands in. Nil: one of them is empty, so nothing is needed.
func (w words) best() []string {
	list := w.need
	if w.exact != nil {
		list = w.exact
	}
	var out []string
	for _, s := range list {
		plain := ""
		for part := range strings.FieldsFuncSeq(s, func(r rune) bool { return r >= 0x80 || r == 0 }) {
			if len(part) > len(plain) {
				plain = part
			}
		}
		if plain == "" {
			return nil
		}
		out = append(out, plain)
	}
	out = distinct(out)
	return slices.DeleteFunc(slices.Clone(out), func(s string) bool {
		return slices.ContainsFunc(out, func(o string) bool { return o != s && strings.Contains(s, o) })
	})
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
