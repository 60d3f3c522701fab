package spec

import (
	"fmt"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
)

// A small reader of W3C EBNF, for the one grammar of the page.
//
//	grammar ::= (name '::=' choice)*
//	choice  ::= seq ('|' seq)*
//	seq     ::= item*
//	item    ::= atom ('?' | '*' | '+')? ('-' atom)?
//	atom    ::= name | literal | class | '(' choice ')'

type kind int

const (
	literal kind = iota // text
	class               // [text]
	ref                 // text is the name
	seq                 // of
	choice              // of
	repeat              // of[0], text is ? * or +
	without             // of[0] - of[1]
)

type node struct {
	kind kind
	text string
	of   []*node
}

type grammar struct {
	rules map[string]*node
	order []string
}

type ebnfReader struct {
	s string
	i int
}

func readGrammar(s string) (g grammar, err error) {
	defer func() {
		if x := recover(); x != nil {
			err = fmt.Errorf("%v", x)
		}
	}()
	g.rules = map[string]*node{}
	r := &ebnfReader{s: s}
	for r.skip(); r.i < len(r.s); r.skip() {
		name := r.name()
		if name == "" || !r.eat("::=") {
			r.fail("a rule was expected")
		}
		if g.rules[name] != nil {
			r.fail("a second rule for " + name)
		}
		g.rules[name] = r.choice()
		g.order = append(g.order, name)
	}
	return g, nil
}

func (r *ebnfReader) fail(what string) {
	panic(fmt.Sprintf("grammar, line %d: %s", strings.Count(r.s[:r.i], "\n")+1, what))
}

func (r *ebnfReader) skip() {
	for r.i < len(r.s) {
		switch {
		case strings.ContainsRune(" \n\t", rune(r.s[r.i])):
			r.i++
		case strings.HasPrefix(r.s[r.i:], "/*"):
			end := strings.Index(r.s[r.i:], "*/")
			if end < 0 {
				r.fail("a comment without end")
			}
			r.i += end + 2
		default:
			return
		}
	}
}

func (r *ebnfReader) eat(s string) bool {
	r.skip()
	if strings.HasPrefix(r.s[r.i:], s) {
		r.i += len(s)
		return true
	}
	return false
}

func (r *ebnfReader) name() string {
	r.skip()
	j := r.i
	for j < len(r.s) && (r.s[j]|0x20 >= 'a' && r.s[j]|0x20 <= 'z') {
		j++
	}
	name := r.s[r.i:j]
	r.i = j
	return name
}

// atRule tells whether a new rule begins here.
func (r *ebnfReader) atRule() bool {
	save := r.i
	defer func() { r.i = save }()
	return r.name() != "" && r.eat("::=")
}

func (r *ebnfReader) choice() *node {
	n := &node{kind: choice, of: []*node{r.seq()}}
	for r.eat("|") {
		n.of = append(n.of, r.seq())
	}
	if len(n.of) == 1 {
		return n.of[0]
	}
	return n
}

func (r *ebnfReader) seq() *node {
	n := &node{kind: seq}
	for {
		r.skip()
		if r.i == len(r.s) || r.s[r.i] == '|' || r.s[r.i] == ')' || r.atRule() {
			return n
		}
		n.of = append(n.of, r.item())
	}
}

func (r *ebnfReader) item() *node {
	n := r.atom()
	if r.i < len(r.s) && strings.ContainsRune("?*+", rune(r.s[r.i])) {
		n = &node{kind: repeat, text: r.s[r.i : r.i+1], of: []*node{n}}
		r.i++
	}
	if r.eat("- ") {
		n = &node{kind: without, of: []*node{n, r.atom()}}
	}
	return n
}

func (r *ebnfReader) atom() *node {
	r.skip()
	switch c := r.s[r.i]; c {
	case '(':
		r.i++
		n := r.choice()
		if !r.eat(")") {
			r.fail("a bracket is not closed")
		}
		return n
	case '\'', '"':
		end := strings.IndexByte(r.s[r.i+1:], c)
		if end < 0 {
			r.fail("a literal is not closed")
		}
		n := &node{kind: literal, text: r.s[r.i+1 : r.i+1+end]}
		r.i += end + 2
		return n
	case '[':
		end := strings.IndexByte(r.s[r.i:], ']')
		if end < 0 {
			r.fail("a class is not closed")
		}
		n := &node{kind: class, text: r.s[r.i+1 : r.i+end]}
		r.i += end + 1
		return n
	}
	name := r.name()
	if name == "" {
		r.fail("unexpected " + r.s[r.i:min(r.i+10, len(r.s))])
	}
	return &node{kind: ref, text: name}
}

func walk(n *node, f func(*node)) {
	f(n)
	for _, c := range n.of {
		walk(c, f)
	}
}

// isWord tells literals that are words of the notation from marks.
func isWord(s string) bool {
	c, _ := utf8.DecodeRuneInString(s)
	return c|0x20 >= 'a' && c|0x20 <= 'z'
}

// openers are the words with which text of a rule can begin, in small letters,
// not looking into the rules of stop; empty tells whether it can be nothing.
func (g grammar) openers(n *node, stop map[string]bool, into map[string]bool) (empty bool) {
	switch n.kind {
	case literal:
		if isWord(n.text) {
			into[strings.ToLower(n.text)] = true
		}
	case ref:
		if layoutTokens[n.text] {
			return true
		}
		if stop[n.text] || g.rules[n.text] == nil {
			return false
		}
		return g.openers(g.rules[n.text], stop, into)
	case seq:
		for _, c := range n.of {
			if !g.openers(c, stop, into) {
				return false
			}
		}
		return true
	case choice:
		for _, c := range n.of {
			empty = g.openers(c, stop, into) || empty
		}
		return empty
	case repeat:
		return g.openers(n.of[0], stop, into) || n.text != "+"
	case without:
		return g.openers(n.of[0], stop, into)
	}
	return false
}

// layoutTokens come from the layout pass.
var layoutTokens = map[string]bool{"NL": true, "IN": true, "OUT": true}

func pageGrammar(t *testing.T) grammar {
	t.Helper()
	var text string
	for _, e := range readPage(t).examples(t) {
		if e.lang == "ebnf" {
			require.Empty(t, text, "the page has two grammars")
			text = e.body
		}
	}
	g, err := readGrammar(text)
	require.NoError(t, err)
	require.Greater(t, len(g.order), 60)
	return g
}

func TestGrammarIsClosed(t *testing.T) {
	g := pageGrammar(t)
	reached := map[string]bool{}
	var visit func(name string)
	visit = func(name string) {
		if reached[name] || layoutTokens[name] {
			return
		}
		reached[name] = true
		require.Contains(t, g.rules, name, "no rule")
		walk(g.rules[name], func(n *node) {
			if n.kind == ref {
				visit(n.text)
			}
		})
	}
	visit("File")
	for _, name := range g.order {
		require.True(t, reached[name], "the rule %s is not used", name)
	}
}
