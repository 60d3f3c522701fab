package parse

import (
	"io"
	"strings"
	"unicode/utf8"

	"github.com/alecthomas/participle/v2/lexer"

	"tamis/lang/ast"
	"tamis/lang/quantity"
)

// The tokens that participle sees. Numbers with their units are read whole by
// lang/quantity; participle gets three to six tokens a line.
const (
	tKey     lexer.TokenType = -2 - iota // a keyword, in small letters
	tWord                                // a joining word, in small letters
	tTime                                // 35 to 40 min
	tTemp                                // 180 C
	tQty                                 // a whole amount or measure
	tShare                               // half the, the rest of the
	tUnit                                // a unit without a number: per lb
	tRange                               // 4 to 6
	tInt                                 // 4
	tNumber                              // 1.80
	tPercent                             // 75%
	tDate                                // 2027-09-19
	tClock                               // 13:00
	tSize                                // small, medium, large
	tName                                // to the next comma, bar or bracket
	tBracket                             // (in brackets)
	tText                                // to the end of the line
	tCode                                // E201
	tComma
	tJunk // what fits nowhere
)

var symbols = map[string]lexer.TokenType{
	"EOF": lexer.EOF, "Key": tKey, "Word": tWord, "Time": tTime, "Temp": tTemp, "Qty": tQty, "Share": tShare, "Unit": tUnit,
	"Range": tRange, "Int": tInt, "Number": tNumber, "Percent": tPercent, "Date": tDate, "Clock": tClock, "Size": tSize,
	"Name": tName, "Bracket": tBracket, "Text": tText, "Code": tCode, "Comma": tComma, "Junk": tJunk,
}

// definition is the lexer.Definition of the grammars. It only names the
// tokens: lines are lexed by a piece, which knows their place.
type definition struct{}

func (definition) Symbols() map[string]lexer.TokenType { return symbols }

func (definition) Lex(string, io.Reader) (lexer.Lexer, error) { return &row{}, nil }

// piece is one statement, or one clause of a margin, cut into tokens.
type piece struct {
	p       *parser
	end     int // where its text ends in the file
	toks    []tok
	failed  bool     // something has been reported already
	gives   bool     // a name ends before "and" and a figure
	oneUnit bool     // a bare word unit is a unit
	commas  bool     // the name goes on after a comma: a title of a block
	upTo    string   // the word before which the next name ends
	vague   ast.Text // what stood for an amount and is none: a few drops of
}

// tok is one token of a piece.
type tok struct {
	text string // as it is written; of a word of the notation, in small letters
	kind lexer.TokenType
	at   int // where it begins in the file
	v    any // what it stands for
}

func (t *tok) to() int { return t.at + len(t.text) }

// isWord tells whether a token's text is a word of the notation.
func (t *tok) isWord() bool { return t.kind == tWord || t.kind == tKey || t.kind == tSize }

// piece makes a piece that ends at end. It should be given back.
func (p *parser) piece(end int) *piece {
	n := len(p.pieces)
	if n == 0 {
		return &piece{p: p, end: end, toks: make([]tok, 0, 8)}
	}
	s := p.pieces[n-1]
	p.pieces = p.pieces[:n-1]
	*s = piece{p: p, end: end, toks: s.toks[:0]}
	return s
}

// done gives the room of a piece back, for another.
func (s *piece) done() {
	if s != nil {
		s.p.pieces = append(s.p.pieces, s)
	}
}

// add appends a token of the text [from,to) and what it stands for.
func (s *piece) add(kind lexer.TokenType, from, to int, v any) int {
	s.toks = append(s.toks, tok{text: s.p.text[from:to], kind: kind, at: from, v: v})
	return to
}

// addWord appends a word of the notation.
func (s *piece) addWord(kind lexer.TokenType, from int, text string) {
	s.toks = append(s.toks, tok{text: text, kind: kind, at: from})
}

// of is the token that fills a slot; a token of nothing when none does.
func (s *piece) of(n slot) *tok {
	if n.Type == 0 {
		return &tok{}
	}
	return &s.toks[n.Pos.Offset]
}

// lex reads text[i:s.end] by a rule, after its keyword.
func (s *piece) lex(i int, r rule) {
	w := r.want
	if w == wTitle {
		w = wNamed
	}
	for i += blanks(s.p.text[i:s.end]); i < s.end; i += blanks(s.p.text[i:s.end]) {
		i, w = s.token(i, w, r)
	}
}

// token reads one token and says what is read next.
func (s *piece) token(i int, w want, r rule) (int, want) {
	text := s.p.text[i:s.end]
	c := text[0]
	switch {
	case w == wText:
		return s.add(tText, i, s.end, nil), wText
	case c == ',':
		return s.add(tComma, i, i+1, nil), r.comma
	case w == wPhrase:
		n := strings.IndexByte(text, ',')
		if n < 0 {
			n = len(text)
		}
		return s.add(tText, i, i+trimEnd(text[:n]), nil), r.comma
	}
	if w == wAmount {
		if share, n := readShare(text); n > 0 {
			s.add(tShare, i, i+n, share)
			return i + n, wNamed
		}
	}
	if c < 0x80 && w != wNamed {
		if word, n := joinedBy(r.small, text); n > 0 && (word != "at" || r.want != wTime || startsNumber(text[n+blanks(text[n:]):])) {
			s.addWord(tWord, i, word)
			next, ok := after[word]
			switch {
			case !ok:
				next = r.want
			case r.want == wPack:
				next = wPack
			case word == "at" && r.want == wTime: // a weight, not a clock
				next = wMeasure
			}
			return i + n, next
		}
		if c == '+' && contains(r.small, "plus") {
			s.addWord(tWord, i, "plus")
			return i + 1, wTime
		}
	}
	if n, next := s.valued(i, w, text); n > 0 {
		return i + n, next
	}
	if n := s.aName(i, text); n > 0 {
		return i + n, wName
	}
	_, n := utf8.DecodeRuneInString(text)
	return s.add(tJunk, i, i+n, nil), wName
}

// valued reads a number, a share or a lone unit as its place wants it, and
// returns the bytes it took: 0 when there is none.
func (s *piece) valued(i int, w want, text string) (int, want) {
	number := startsNumber(text)
	switch w {
	case wVessel:
		if number && severalOf(text, s.p.opt) {
			return s.count(i, text), wNamed
		}
		return 0, w
	case wTitle, wNamed, wCode:
		if w == wCode {
			if n := code(text); n > 0 {
				s.add(tCode, i, i+n, nil)
				n += blanks(text[n:])
				if n < len(text) && text[n] == ':' {
					n++
				}
				return n, wText
			}
		}
		return 0, w
	case wSeller:
		return 0, wNamed
	case wMoney:
		if len(text) > 3 && isUpper(text[:3]) && wordEnd(text[3:]) {
			s.add(tCode, i, i+3, nil)
			return 3, wName
		}
		return 0, w
	case wTime:
		return s.time(i, text, number), wName
	case wTemp:
		return s.temp(i, text, number), wTime
	case wName:
		if number {
			return s.amount(i, text, w), wName
		}
		return 0, w
	case wAmount, wAlone:
		return s.amount(i, text, w), wName
	case wPer:
		return s.each(i, text, number), wName
	}
	if !number {
		return 0, w
	}
	switch w {
	case wPack:
		v, n, probs := quantity.ReadMeasure(text, s.p.opt)
		if word, _, _ := strings.Cut(strings.TrimLeft(strings.TrimLeft(text, "0123456789"), " "), " "); n == 0 || word == "or" { // 12, or 1 or 2 litres
			if n := s.count(i, text); n > 0 {
				return n, wName
			}
		}
		if s.problems(i, probs); n > 0 {
			s.add(tQty, i, i+n, s.p.measures.put(v))
			return n, wName
		}
	case wMeasure:
		if v, n, probs := quantity.ReadMeasure(text, s.p.opt); n > 0 || len(probs) > 0 {
			if s.problems(i, probs); n > 0 {
				s.add(tQty, i, i+n, s.p.measures.put(v))
				return n, wName
			}
		}
		if !s.failed && countOfNamed(text) {
			if n := s.amount(i, text, wName); n > 0 {
				return n, wName
			}
		}
	case wRange:
		if v, n, probs := quantity.ReadRange(text, s.p.opt); n > 0 || len(probs) > 0 {
			if s.problems(i, probs); n > 0 {
				s.add(tRange, i, i+n, v)
				return n, wName
			}
		}
	case wDate:
		if n := s.date(i, text); n > 0 {
			return n, wClock
		}
		if n := s.clock(i, text); n > 0 { // hours on the day 08:30
			return n, wName
		}
		if n := s.count(i, text); n > 0 { // hours 4 days before
			return n, wClock
		}
	case wClock:
		if n := dateLen(text); n > 0 {
			return s.date(i, text), wClock
		}
		if n := s.clock(i, text); n > 0 {
			return n, wName
		}
		if n := s.time(i, text, true); n > 0 {
			return n, wName
		}
	case wInt:
		if n := s.count(i, text); n > 0 {
			return n, wTitle
		}
		if v, n, _ := quantity.ReadMeasure(text, s.p.opt); n > 0 {
			s.add(tQty, i, i+n, s.p.measures.put(v))
			return n, wName
		}
	case wNumber, wPercent:
		if v, n, probs := quantity.ReadRange(text, s.p.opt); n > 0 || len(probs) > 0 {
			s.problems(i, probs)
			if n > 0 {
				if k := n + blanks(text[n:]); k < len(text) && text[k] == '%' {
					s.add(tPercent, i, i+k+1, v)
					return k + 1, wName
				}
				s.add(tNumber, i, i+n, v)
				return n, wMoney
			}
		}
	}
	return s.digits(i, text), wName
}

// countOfNamed tells whether a text is a figure and then a word: 6 fritters.
func countOfNamed(text string) bool {
	n := 0
	for n < len(text) && text[n] >= '0' && text[n] <= '9' {
		n++
	}
	return n > 0 && n+1 < len(text) && text[n] == ' ' && lowerByte(text[n+1]) >= 'a' && lowerByte(text[n+1]) <= 'z'
}

// severalOf tells whether a text is a number of vessels, `3 deep trays`, and not
// one that is called by its size, `20 cm tin`, `9 x 13 pan`, `12 hole tin`.
func severalOf(text string, opt quantity.Options) bool {
	n := 0
	for n < len(text) && text[n] >= '0' && text[n] <= '9' {
		n++
	}
	rest := strings.TrimLeft(text[n:], " ")
	if i := strings.IndexAny(rest, ",|"); i >= 0 {
		rest = rest[:i]
	}
	rest = lower(strings.TrimSpace(rest))
	if n == 0 || n == len(text) || text[n] != ' ' || rest == "" {
		return false
	}
	if rest[0] == '"' {
		return true
	}
	if rest[0] < 'a' || rest[0] > 'z' {
		return false
	}
	if u, k := quantity.ReadUnit(rest, opt); k > 0 && k < len(rest) && rest[k] == ' ' && (u.Dim == quantity.Length || u.Dim == quantity.Volume || u.Dim == quantity.Mass) {
		return false
	}
	first, _, _ := strings.Cut(rest, " ")
	return first != "x" && first != "by" && (text[:n] == "1" || strings.HasSuffix(rest, "s") && !strings.HasSuffix(rest, "ss"))
}

// digits takes a run of figures that nothing could read.
func (s *piece) digits(i int, text string) int {
	n := 0
	for n < len(text) && strings.IndexByte(" ,|()", text[n]) < 0 {
		n++
	}
	if n == 0 {
		return 0
	}
	s.add(tJunk, i, i+n, nil)
	return n
}

func (s *piece) time(i int, text string, number bool) int {
	v, n, probs := quantity.ReadSpan(text, s.p.opt)
	if n == 0 && number && len(probs) > 0 {
		if t, k, bad := quantity.ReadTemperature(text, s.p.opt); k > 0 && len(bad) == 0 {
			s.add(tTemp, i, i+k, s.p.temps.put(t))
			return k
		}
	}
	s.problems(i, probs)
	if n > 0 {
		s.add(tTime, i, i+n, s.p.spans.put(v))
		return n
	}
	if !number {
		return 0
	}
	if t, k, bad := quantity.ReadTemperature(text, s.p.opt); k > 0 && len(bad) == 0 {
		s.add(tTemp, i, i+k, s.p.temps.put(t))
		return k
	}
	if m, k, _ := quantity.ReadMeasure(text, s.p.opt); k > 0 {
		s.add(tQty, i, i+k, s.p.measures.put(m))
		return k
	}
	return s.digits(i, text)
}

func (s *piece) temp(i int, text string, number bool) int {
	if !number {
		return 0
	}
	v, n, probs := quantity.ReadTemperature(text, s.p.opt)
	if n > 0 || len(probs) > 0 {
		s.problems(i, probs)
		if n > 0 {
			s.add(tTemp, i, i+n, s.p.temps.put(v))
			return n
		}
	}
	if t, k, bad := quantity.ReadSpan(text, s.p.opt); k > 0 && len(bad) == 0 {
		s.add(tTime, i, i+k, s.p.spans.put(t))
		return k
	}
	return s.digits(i, text)
}

// amount reads an amount that leaves a name behind it, or that stands alone.
func (s *piece) amount(i int, text string, w want) int {
	opt := s.p.opt
	opt.Alone = w == wAlone
	if cut := strings.IndexAny(text, ",|"); cut >= 0 && w == wAlone {
		text = text[:cut]
	}
	v, n, probs := quantity.ReadAmount(text, opt)
	if n > 0 && v.IsNone() { // a few, some: elsewhere than in a list a figure is needed
		for k := range probs {
			probs[k].Hint = false
		}
		n = 0
	}
	s.problems(i, probs)
	if n > 0 {
		s.add(tQty, i, i+n, s.p.amounts.put(v))
		n += of(text[n:])
	}
	return n
}

// of is the length of an "of" after an amount, with its blanks.
func of(text string) int {
	b := blanks(text)
	if b > 0 {
		if n := matchGroup(text[b:], "of"); n > 0 && text[b+n-1] != ':' {
			return b + n
		}
	}
	return 0
}

// ofNot is of, unless it begins other words.
func ofNot(text, words string) int {
	if matchGroup(text[blanks(text):], words) > 0 {
		return 0
	}
	return of(text)
}

// each reads what a time grows with.
func (s *piece) each(i int, text string, number bool) int {
	for _, word := range []string{"load", "batch"} {
		if n := matchGroup(text, word); n > 0 && (word == "load" || strings.TrimSpace(text[n:]) == "") {
			s.addWord(tWord, i, "load")
			return n
		}
	}
	if s.oneUnit { // a fact of the larder
		if n := s.countAlone(i, text); n > 0 {
			return n
		}
	}
	if number {
		if v, n, probs := quantity.ReadMeasure(text, s.p.opt); n > 0 || len(probs) > 0 {
			s.problems(i, probs)
			if n > 0 {
				s.add(tQty, i, i+n, s.p.measures.put(v))
				return n + ofNot(text[n:], "of the largest")
			}
		}
		return s.amount(i, text, wName)
	}
	if u, n := quantity.ReadUnit(text, s.p.opt); n > 0 {
		// "per clove" is one of the spice, or one clove of the only thing the
		// step takes: a word that also counts is a unit before a name only.
		end := n + ofNot(text[n:], "of the largest")
		named := end+blanks(text[end:]) < len(text) && text[end+blanks(text[end:])] != ','
		if named || u.Dim == quantity.Mass || u.Dim == quantity.Volume || u.Dim == quantity.Length || s.oneUnit {
			s.add(tUnit, i, i+n, u)
			return end
		}
	}
	return 0
}

// countAlone reads a number of pieces that ends the text: 12, dozen, half a dozen.
func (s *piece) countAlone(i int, text string) int {
	if strings.Trim(text, "0123456789") == "" {
		return s.count(i, text)
	}
	said := text
	if strings.EqualFold(text, "dozen") {
		said = "a " + text
	}
	v, n := quantity.ReadSpoken(said, s.p.opt)
	if many, whole := v.Value.Low.Int64(); n == len(said) && whole && !v.Value.IsRange() {
		s.add(tInt, i, i+len(text), int(many))
		return len(text)
	}
	return 0
}

// count reads a whole number that no unit or decimal follows.
func (s *piece) count(i int, text string) int {
	n, v := 0, 0
	for n < len(text) && text[n] >= '0' && text[n] <= '9' {
		if n > 6 {
			return 0
		}
		v = v*10 + int(text[n]-'0')
		n++
	}
	if n == 0 || n < len(text) && strings.IndexByte(" \t,|)", text[n]) < 0 && !wordEnd(text[n:]) {
		return 0
	}
	if n < len(text) && (text[n] == '.' || text[n] == ':' || text[n] == '/' || text[n] == '%') {
		return 0
	}
	s.add(tInt, i, i+n, v)
	return n
}

func contains(list []string, word string) bool {
	for _, w := range list {
		if w == word {
			return true
		}
	}
	return false
}

// code is the length of a diagnostic code: E201.
func code(text string) int {
	n := 0
	for n < len(text) && text[n] >= 'A' && text[n] <= 'Z' {
		n++
	}
	if n == 0 {
		return 0
	}
	d := n
	for d < len(text) && text[d] >= '0' && text[d] <= '9' {
		d++
	}
	if d == n || !wordEnd(text[d:]) {
		return 0
	}
	return d
}

func isUpper(t string) bool {
	for i := 0; i < len(t); i++ {
		if t[i] < 'A' || t[i] > 'Z' {
			return false
		}
	}
	return true
}
