package parse

import (
	"cmp"
	"maps"
	"slices"
	"strings"
	"testing"

	"github.com/alecthomas/participle/v2/ebnf"
	"github.com/alecthomas/participle/v2/lexer"
	"github.com/stretchr/testify/require"

	"tamis/lang/diag"
	"tamis/lang/source"
)

// The grammar stands in the tags of grammar.go alone. Here participle prints it
// and reads it back, and what it says is held against the table of words: which
// words begin something, which join its parts, and what the lexer must make of
// the text behind each.

// atom is a word, as it is written, or a kind of token: "<time>".
type atom = string

// sentences are all that a grammar takes, each repeated part at most once more.
func sentences(t *testing.T, text string) [][]atom {
	t.Helper()
	g, err := ebnf.ParseString(text)
	require.NoError(t, err)
	rules := map[string]*ebnf.Expression{}
	for _, p := range g.Productions {
		rules[p.Production] = p.Expression
	}
	var expression func(e *ebnf.Expression) [][]atom
	term := func(n *ebnf.Term) (out [][]atom) {
		switch {
		case n.Literal != "":
			out = [][]atom{{strings.Trim(n.Literal, `"`)}}
		case n.Token != "":
			out = [][]atom{{"<" + n.Token + ">"}}
		case n.Name != "":
			require.Contains(t, rules, n.Name)
			out = expression(rules[n.Name])
		default:
			out = expression(n.Group.Expr)
		}
		if n.Repetition == "?" || n.Repetition == "*" {
			out = append(out, nil)
		}
		return out
	}
	expression = func(e *ebnf.Expression) (out [][]atom) {
		for _, s := range e.Alternatives {
			some := [][]atom{nil}
			for _, n := range s.Terms {
				var longer [][]atom
				for _, a := range some {
					for _, b := range term(n) {
						longer = append(longer, slices.Concat(a, b))
					}
				}
				some = longer
			}
			out = append(out, some...)
		}
		return out
	}
	return expression(g.Productions[0].Expression)
}

// written is how each kind of token can be written.
var written = map[atom]string{
	"<time>": "20 min", "<temp>": "180 C", "<qty>": "300 ml", "<share>": "half the", "<unit>": "lb", "<range>": "4 to 6", "<int>": "4",
	"<number>": "1.80", "<percent>": "75%", "<date>": "2027-09-19", "<clock>": "13:00", "<size>": "large", "<name>": `"green beans"`,
	"<bracket>": "(in halves)", "<text>": "as it comes", "<code>": "E201", "<comma>": ",",
}

// grammarOf lists the grammars of places where each statement begins with a word.
var grammarOf = []struct {
	name   string
	text   func() string
	places []Place
	run    func(*piece) bool
}{
	{"block", grammars.block.String, []Place{AtBlock}, runs(&grammars.block)},
	{"menu", grammars.menu.String, []Place{InMenu}, runs(&grammars.menu)},
	{"recipe", grammars.recipe.String, []Place{InRecipe}, runs(&grammars.recipe)},
	{"gather", grammars.gather.String, []Place{InGather}, runs(&grammars.gather)},
	{"method", grammars.method.String, []Place{InMethod}, runs(&grammars.method)},
	{"kitchen", grammars.kitchen.String, []Place{InKitchen}, runs(&grammars.kitchen)},
	{"larder", grammars.larder.String, []Place{InLarder}, runs(&grammars.larder)},
	{"series", grammars.series.String, []Place{InSeries}, runs(&grammars.series)},
	{"part", grammars.part.String, []Place{InPart}, runs(&grammars.part)},
	{"book", grammars.book.String, []Place{InBook}, runs(&grammars.book)},
	{"clause", grammars.clause.String, onBoth, runs(&grammars.clause)},
	{"fact", grammars.fact.String, onFact, runs(&grammars.fact)},
}

func runs[G any](g *grammar[G]) func(*piece) bool {
	return func(s *piece) bool { _, _, ok := run(g, s); return ok }
}

// keyword is the word a sentence begins with: `2 rings high` begins with rings.
func keyword(s []atom) atom {
	if s[0] == "<int>" {
		return s[1]
	}
	return s[0]
}

// What may begin a statement in the grammar of a place, and what the table of
// words has there, are the same.
func TestGrammarsBeginWithTheWordsOfTheTable(t *testing.T) {
	for _, g := range grammarOf {
		have, want := map[string]bool{}, map[string]bool{}
		for _, s := range sentences(t, g.text()) {
			have[keyword(s)] = true
		}
		for _, p := range g.places {
			for _, w := range WordsIn(p) {
				want[w.Text] = true
			}
		}
		delete(want, "instead") // a gathered line stands behind it
		require.Equal(t, slices.Sorted(maps.Keys(want)), slices.Sorted(maps.Keys(have)), g.name)
	}
}

// Every sentence of a grammar can be written, is cut into just its tokens, and
// is taken: the lexer reads behind each word what the grammar wants there. And
// every word that joins parts in the table does so in some sentence.
func TestSentencesOfTheGrammarCanBeWritten(t *testing.T) {
	for _, g := range grammarOf {
		joins := map[*Word]map[string]bool{}
		tried := 0
		for _, s := range sentences(t, g.text()) {
			for _, place := range g.places {
				w, _ := LookUp(place, keyword(s))
				if w == nil || w.Text != keyword(s) { // a word of the other margin
					continue
				}
				var parts []string
				for _, a := range s {
					if a == "<code>" && g.name == "fact" {
						a = "GBP" // a currency
					}
					parts = append(parts, cmp.Or(written[a], a))
				}
				text := strings.ReplaceAll(strings.Join(parts, " "), " ,", ",")
				var list diag.List
				p := newParser(source.New("x.tamis", text), &list)
				m := lexedAt(p, place, s)
				var got []atom
				for i := range m.toks {
					if k := &m.toks[i]; k.isWord() && k.kind != tSize {
						got = append(got, k.text)
					} else {
						got = append(got, kindName(k.kind))
					}
				}
				require.Equal(t, s, got, "%s: `%s`", g.name, text)
				require.Empty(t, list.Sorted(), text)
				require.True(t, g.run(m), text)
				if joins[w] == nil {
					joins[w] = map[string]bool{}
				}
				for _, a := range s {
					joins[w][a] = true
				}
				m.done()
				p.done()
				tried++
			}
		}
		require.Positive(t, tried)
		for w, used := range joins {
			for _, j := range w.reads.small {
				require.True(t, used[j], "%s: `%s` never has `%s` after it", g.name, w.Text, j)
			}
		}
	}
}

// lexedAt lexes the whole text of a parser as a statement of a place.
func lexedAt(p *parser, place Place, s []atom) *piece {
	m := p.piece(len(p.text))
	at := 0
	if s[0] == "<int>" { // 2 rings
		at = m.count(0, p.text) + 1
	}
	w, n := LookUp(place, p.text[at:])
	if at > 0 {
		m.addWord(tKey, at, w.Text)
		m.lex(at+n, w.reads)
		return m
	}
	m.done()
	return p.lexField(place, w, n, 0, len(p.text))
}

func kindName(k lexer.TokenType) atom {
	for name, kind := range symbols {
		if kind == k {
			return "<" + strings.ToLower(name) + ">"
		}
	}
	return ""
}
