package parse

import (
	"errors"
	"sync"

	"github.com/alecthomas/participle/v2"
	"github.com/alecthomas/participle/v2/lexer"
)

// Whether a statement fits the grammar depends on the kinds of its tokens, and
// on the words of the notation among them: `leave 35 to 40 min` and `leave 2 h`
// are one shape, a keyword and a time. People write a few hundred shapes, again
// and again. So participle is shown a statement of numbered tokens, in which
// only words have a text; it decides each shape once, and its verdict is kept:
// the tree, with the numbers of the tokens that fill it, or the number of the
// token it could not take. What the tokens stand for stays with the piece.
//
// So it is participle that parses every statement, but not every time: of a
// statement whose shape has been met, the kept verdict is used again.

// slot is a token in the tree of a shape. Type is 0 when nothing fills it;
// Value is the word of the notation, if it is one; Pos.Offset is the number of
// the token, from 0, in the piece.
type slot = lexer.Token

// A grammar keeps at most maxShapes verdicts, of statements of at most
// maxTokens tokens. Longer ones are parsed each time, and when there are too
// many shapes all are forgotten: hostile text is slow, and no more than that.
const (
	maxShapes = 1000
	maxTokens = 32
)

// grammar is a participle parser, which is built when it is first wanted, and
// the verdicts it has given.
type grammar[G any] struct {
	build  sync.Once
	parser *participle.Parser[G]

	mu   sync.RWMutex
	kept map[string]*verdict[G]
}

// verdict is what participle says of a shape. node is shared by all statements
// of the shape, and must not be changed.
type verdict[G any] struct {
	node  *G
	stuck int // the number of the token that did not fit; that behind the last when something is missing
	odd   bool
	ok    bool
}

// decide finds the verdict on a piece.
func (g *grammar[G]) decide(s *piece) *verdict[G] {
	if len(s.toks) > maxTokens || s.p.plain {
		return g.parse(s)
	}
	key := s.key()
	g.mu.RLock()
	v := g.kept[string(key)]
	g.mu.RUnlock()
	if v != nil {
		return v
	}
	v = g.parse(s)
	g.mu.Lock()
	if g.kept == nil || len(g.kept) >= maxShapes {
		g.kept = make(map[string]*verdict[G])
	}
	g.kept[string(key)] = v
	g.mu.Unlock()
	return v
}

// parse puts a piece through participle.
func (g *grammar[G]) parse(s *piece) *verdict[G] {
	g.ready()
	numbers := &row{tokens: make([]lexer.Token, len(s.toks))}
	for i := range s.toks {
		t := &s.toks[i]
		numbers.tokens[i] = lexer.Token{Type: t.kind, Pos: lexer.Position{Offset: i}}
		if t.isWord() || s.p.plain {
			numbers.tokens[i].Value = t.text
		}
	}
	stream, _ := lexer.Upgrade(numbers) // it never fails
	node, err := g.parser.ParseFromLexer(stream)
	v := &verdict[G]{node: node, stuck: len(s.toks), ok: err == nil}
	var unexpected *participle.UnexpectedTokenError
	var at participle.Error
	switch {
	case errors.As(err, &unexpected):
		v.stuck = unexpected.Unexpected.Pos.Offset
	case errors.As(err, &at):
		v.stuck, v.odd = at.Position().Offset, true
	}
	return v
}

func (g *grammar[G]) ready() {
	g.build.Do(func() {
		g.parser = participle.MustBuild[G](participle.Lexer(definition{}), participle.UseLookahead(0))
	})
}

// String is the grammar in participle's EBNF.
func (g *grammar[G]) String() string {
	g.ready()
	return g.parser.String()
}

// row is a lexer.Lexer over the tokens of a shape.
type row struct {
	tokens []lexer.Token
	next   int
}

// Next is lexer.Lexer.
func (n *row) Next() (lexer.Token, error) {
	if n.next < len(n.tokens) {
		n.next++
		return n.tokens[n.next-1], nil
	}
	return lexer.Token{Type: lexer.EOF, Pos: lexer.Position{Offset: len(n.tokens)}}, nil
}

// key is the shape of a piece: the kinds of its tokens and its words.
func (s *piece) key() []byte {
	key := s.p.key[:0]
	for i := range s.toks {
		t := &s.toks[i]
		key = append(key, byte(-t.kind))
		if t.isWord() {
			key = append(key, t.text...)
		}
	}
	s.p.key = key
	return key
}

// run decides a lexed piece. stuck is the token that did not fit: EOF when
// something is missing at the end.
func run[G any](g *grammar[G], s *piece) (node *G, stuck tok, ok bool) {
	v := g.decide(s)
	if v.ok {
		return v.node, tok{}, true
	}
	stuck = tok{kind: lexer.EOF, at: s.end}
	if v.stuck < len(s.toks) {
		stuck = s.toks[v.stuck]
	}
	if v.odd {
		stuck = tok{kind: tJunk, at: stuck.at}
	}
	return v.node, stuck, false
}
