package parse

import (
	"fmt"
	"strings"

	"tamis/lang/ast"
	"tamis/lang/diag"
	"tamis/lang/quantity"
	"tamis/lang/source"
)

// lexField lexes text[from:to], which begins with the keyword w of n bytes.
func (p *parser) lexField(place Place, w *Word, n, from, to int) *piece {
	s := p.piece(to)
	s.addWord(tKey, from, w.Text)
	s.gives = place == OnFact && w.Text == "gives"
	if place == AtBlock || w.has(titled) || w.opens == InPart {
		if to > from+n && p.text[to-1] == ':' { // `For the sauce:`
			to = from + trimEnd(p.text[from:to-1])
			s.end = to
		}
	}
	s.oneUnit = place == OnFact
	s.commas = place == AtBlock || w.opens == InPart
	if w.Text == "replace" {
		s.upTo = "with"
	}
	s.lex(from+n, w.reads)
	return s
}

// readField reads a line as a field of a place. The keyword comes back even
// when the rest did not read, the piece only if there is one; it is for the
// caller to give back.
func readField[G any](p *parser, g *grammar[G], place Place, l *line) (*G, *piece, *Word) {
	t := p.content(l)
	w, n := LookUp(place, t)
	if w == nil {
		p.unknown(place, l)
		return nil, nil, nil
	}
	if place == InRecipe && (w.Text == "serve" || w.Text == "serves") {
		w = serveOrServes(w, t[n:])
	}
	end := l.start + len(t)
	if n := len(t) - 1; n > 1 && t[n] == '?' && isBlank(rune(t[n-1])) && w.takesMark() {
		l.offered = true
		end = l.start + trimEnd(t[:n])
	}
	if place == InGather || place == InMethod {
		if bar := strings.IndexByte(t, '|'); bar >= 0 && w.Text != "instead" {
			p.err(codeMarginOnly, l.start+bar, end, "a line that begins with `%s` has no margin", w.Text).
				WithHelp("put the margin on the lines it is about")
			return nil, nil, w
		}
	}
	s := p.lexField(place, w, n, l.start, end)
	node, stuck, ok := run(g, s)
	if s.failed {
		return nil, s, w
	}
	if !ok {
		p.explain(place, w, s, stuck)
		return nil, s, w
	}
	return node, s, w
}

// takesMark tells whether a field may end in a "?": not where it is free text, or the
// head of lines below.
func (w *Word) takesMark() bool {
	return w.reads.want != wText && w.reads.want != wCode && w.reads.comma != wText && !w.has(body) && !w.has(titled) && w.opens == none && w.reads.small == nil ||
		w.reads.small != nil && !contains(w.reads.small, ":") && !w.has(body) && !w.has(titled) && w.opens == none && w.reads.comma != wText
}

// serveOrServes is `serves` before a number and `serve` before a word: one letter is
// easily lost.
func serveOrServes(w *Word, rest string) *Word {
	rest = rest[blanks(rest):]
	for _, how := range []string{"hot", "warm", "cold", "at room temperature"} {
		if matchGroup(rest, how) > 0 {
			w, _ = LookUp(InRecipe, "serve")
			return w
		}
	}
	if rest != "" && startsNumber(rest) {
		w, _ = LookUp(InRecipe, "serves")
	}
	return w
}

// fieldNode reads text[from:to] as a field of a dish, for those that only want
// to know whether it is one.
func (p *parser) fieldNode(place Place, from, to int) (any, bool) {
	w, n := LookUp(place, p.text[from:to])
	if w == nil {
		return nil, false
	}
	s := p.lexField(place, w, n, from, to)
	defer s.done()
	node, _, ok := run(&grammars.recipe, s)
	return node, ok && !s.failed
}

// noted reads what is noted of a block.
func (s *piece) noted(m ast.Meta, n *notedNode) *ast.Noted {
	if n.Mend.Type != 0 {
		return &ast.Noted{Meta: m, Key: n.Mend.Value, Date: s.dateOf(n.Date), Names: s.items(n.Who), Text: s.textOf(n.Text)}
	}
	return &ast.Noted{Meta: m, Key: n.Key.Value, Names: s.names(n.List)}
}

// service reads a line of service.
func (s *piece) service(m ast.Meta, w *Word, n *serviceNode) *ast.Service {
	v := &ast.Service{Meta: m, Key: w.Text, Every: s.p.someTime(s, n.Every)}
	for _, t := range []slot{n.Each, n.After, n.Time, n.Long, n.Early} {
		if span := s.timeOf(t); span != nil {
			v.Time = *span
		}
	}
	return v
}

var weekdays = []string{"Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"}

// shop reads the days of shopping.
func (p *parser) shop(m ast.Meta, s *piece, n *daysNode) ast.MenuItem {
	v := &ast.Shop{Meta: m}
	if n.Name.Type != 0 {
		name := s.nameOf(n.Name)
		for _, d := range weekdays {
			if strings.EqualFold(d, name.Text) {
				v.Weekday = d
			}
		}
		if v.Weekday == "" {
			d := p.err(codeForm, name.Span.Start, name.Span.End, "`%s` is no day of the week", shorten(name.Text)).
				WithHelp("write dates, `shop 2027-09-16`, or one day in full, `shop Friday`: the last before serving")
			if near := diag.Nearest(name.Text, weekdays); near != "" {
				d.Replace("write "+near, false, name.Span, near)
			}
		}
		return v
	}
	v.Dates = append(v.Dates, s.dateOf(n.First))
	for _, d := range n.More {
		v.Dates = append(v.Dates, s.dateOf(d.Tok))
	}
	return v
}

// fieldName is how a field is spoken of: "`serves`".
func fieldName(w *Word) string { return "`" + w.Text + "`" }

// seen keeps which fields of a block have been met, to report those that are
// written twice.
type seen []sighting

type sighting struct {
	word string
	l    *line
}

// first is the line where a word was met before; nil, and l from now on, when
// it is new. There are only so many words.
func (s *seen) first(word string, l *line) *line {
	for _, m := range *s {
		if m.word == word {
			return m.l
		}
	}
	*s = append(*s, sighting{word, l})
	return nil
}

// once reports a field that stands in its block for the second time.
func (p *parser) once(s *seen, w *Word, l *line) {
	if !w.has(once) {
		return
	}
	first := s.first(w.Text, l)
	if first == nil {
		return
	}
	d := p.err(codeTwice, l.start, l.end, "`%s` is written twice", w.Text).
		See(p.span(first.start, first.end), "first here")
	switch w.Text {
	case "gather":
		d.WithHelp("make it one list, with `for the sauce` and the like for its parts")
	case "method":
		d.WithHelp("make it one method; a part that is made on its own can be a `base`")
	default:
		d.WithHelp("keep one of the two")
	}
}

// The values of tokens.

func (s *piece) nameOf(n slot) ast.Name {
	if n.Type == 0 {
		return ast.Name{}
	}
	return s.name(&s.toks[n.Pos.Offset])
}

func (s *piece) name(t *tok) ast.Name {
	text, quoted := unquote(t.text)
	return ast.Name{Text: tidy(text), Quoted: quoted || s.commas && strings.Contains(text, ","), Span: s.p.spanOf(t)}
}

// spanOf is where a token stands.
func (p *parser) spanOf(t *tok) source.Span { return p.span(t.at, t.to()) }

// unquote takes the quotes off a quoted text.
func unquote(t string) (string, bool) {
	for i, r := range t {
		if i == 0 {
			if !isQuote(r) {
				return t, false
			}
			t = t[len(string(r)):]
			break
		}
	}
	for i, r := range t {
		if isQuote(r) {
			return t[:i], true
		}
	}
	return t, true
}

// seller is who sells a thing; the store is the shop.
func (s *piece) seller(the, name slot) ast.Seller {
	v := ast.Seller{The: the.Type != 0, Name: s.nameOf(name)}
	if v.The && !v.Name.Quoted && (fold(v.Name.Text) == "store" || fold(v.Name.Text) == "shop") {
		v.Name.Text = "shop"
	}
	return v
}

func (s *piece) names(l *list) []ast.Name {
	if l == nil {
		return nil
	}
	return append([]ast.Name{s.nameOf(l.First)}, s.items(l.More)...)
}

func (s *piece) items(list []item) (out []ast.Name) {
	for _, it := range list {
		out = append(out, s.nameOf(it.Tok))
	}
	return out
}

func (s *piece) textOf(n slot) ast.Text {
	if n.Type == 0 {
		return ast.Text{}
	}
	t := s.of(n)
	return ast.Text{Text: tidy(t.text), Span: s.p.spanOf(t)}
}

func (s *piece) timeOf(n slot) *quantity.Span {
	v, _ := s.of(n).v.(*quantity.Span)
	return v
}

func (s *piece) tempOf(n slot) *quantity.Temperature {
	v, _ := s.of(n).v.(*quantity.Temperature)
	return v
}

func (s *piece) amountOf(n slot) *quantity.Amount {
	switch v := s.of(n).v.(type) {
	case *quantity.Amount:
		return v
	case *quantity.Measure:
		return s.p.amounts.put(quantity.Amount{Measure: *v})
	}
	return nil
}

func (s *piece) shareOf(n slot) *ast.Share {
	v, _ := s.of(n).v.(*ast.Share)
	return v
}

func (s *piece) measureOf(n slot) quantity.Measure {
	switch v := s.of(n).v.(type) {
	case *quantity.Amount:
		return v.Measure
	case *quantity.Measure:
		return *v
	}
	return quantity.Measure{}
}

func (s *piece) intOf(n slot) int {
	v, _ := s.of(n).v.(int)
	return v
}

func (s *piece) rangeOf(n slot) quantity.Range {
	v, _ := s.of(n).v.(quantity.Range)
	return v
}

func (s *piece) unitMeasure(n slot) quantity.Measure {
	if u, ok := s.of(n).v.(*quantity.Unit); ok {
		return quantity.Measure{Terms: []quantity.Term{{Value: quantity.Exactly(quantity.Int(1)), Unit: u}}}
	}
	return quantity.Measure{}
}

func (s *piece) perOf(n *per) quantity.Measure {
	switch {
	case n == nil:
		return quantity.Measure{}
	case n.Qty.Type != 0:
		return s.p.someOf(s, n.Qty)
	}
	return s.unitMeasure(n.Unit)
}

func (s *piece) keepOf(k *keep) ast.Keep {
	out := ast.Keep{Place: k.Place.Value}
	if v := s.p.someTime(s, k.Time); v != nil {
		out.Time = *v
	}
	return out
}

func (s *piece) dateOf(n slot) ast.Date {
	v, _ := s.of(n).v.(ast.Date)
	return v
}

func (s *piece) clockOf(n slot) ast.Clock {
	v, _ := s.of(n).v.(ast.Clock)
	return v
}

func (s *piece) common(m ast.Meta, n *commonNode) *ast.Common {
	c := &ast.Common{Meta: m, Key: n.Key.Value, Text: s.textOf(n.Text)}
	if n.Code.Type != 0 {
		c.Key, c.Code, c.Text = "allow", s.of(n.Code).text, s.textOf(n.Why)
	}
	return c
}

// explain reports why a field did not read. stuck is the token that did not
// fit; at the end of the line something is missing.
func (p *parser) explain(place Place, w *Word, s *piece, stuck tok) {
	from, to := stuck.at, stuck.to()
	code := codeForm
	switch {
	case place == OnFact:
		code = codeFactForm
	case w.Text == "course" && stuck.kind == tName:
		p.err(codeForm, from, to, "%s: later than what?", p.quote(from, to)).
			WithHelp("name a course: `course Main, 30 min after First`")
		return
	case stuck.kind != -1 && (place == AtBlock && w.Text != "notation" || w.has(titled)) && strings.IndexByte(",|():\"+", p.text[from]) >= 0:
		p.overTitle(w, s, from)
		return
	case stuck.kind == -1 && len(s.toks) == 1 && (place == AtBlock || w.has(titled)):
		p.err(codeNoTitle, s.toks[0].at, s.end, "this `%s` has no name", w.Text).
			WithHelp("write it after the word: `%s`", w.Form)
		return
	}
	if p.saidPlace(w, s, stuck, code) || p.saidOfPart(place, w, s, stuck) {
		return
	}
	if w.Text == "hours" && stuck.kind == tClock && len(s.toks) > 1 && from == s.toks[1].at {
		p.err(code, from, to, "on which day?").
			WithHelp("write `hours on the day, %s …`, `hours day before, %s …`, or a date", stuck.text, stuck.text).
			Replace("write on the day", false, p.span(from, from), "on the day, ")
		return
	}
	if contains(w.reads.small, "warm place") && stuck.kind == -1 && len(s.toks) > 1 {
		p.err(code, s.toks[0].at, s.end, "where?").
			WithHelp("put a comma and a place after the time: `fridge`, `freezer`, `room`, `cool place` or `warm place`")
		return
	}
	if len(s.toks) > 1 && from == s.toks[1].at && w.has(counted) {
		code = codeWholeCount
	}
	if stuck.kind == -1 {
		p.err(code, s.toks[0].at, s.end, "something is missing after `%s`", strings.TrimSpace(p.text[s.toks[0].at:s.end])).
			WithHelp("write it like this: `%s`", w.Form)
		return
	}
	if contains(w.reads.small, "warm place") && stuck.kind == tName {
		p.err(code, from, to, "`%s` is no place that is known", shorten(stuck.text)).
			WithHelp("the places are `fridge`, `freezer`, `room`, `cool place` and `warm place`")
		return
	}
	if stuck.kind != tJunk && stuck.kind != tWord {
		to = max(to, from+1)
	}
	if stuck.kind == tWord {
		to = from + len(stuck.text)
	}
	d := p.err(code, from, min(to, s.end), "%s does not fit after `%s`", p.quote(from, min(to, s.end)), p.before(s, from))
	if code == codeWholeCount {
		d.Message = fmt.Sprintf("`%s` wants a whole number, and this is `%s`", w.Text, p.text[from:min(to, s.end)])
	}
	d.WithHelp("write it like this: `%s`", w.Form)
}

// saidPlace reports a place or a time of keeping written as in a sentence.
func (p *parser) saidPlace(w *Word, s *piece, stuck tok, code string) bool {
	if w.Text != "keeps" && w.Text != "pause" || stuck.kind != tName {
		return false
	}
	from := stuck.at
	text := p.text[from:s.end]
	if where, n := sayPlace(text); n > 0 {
		at := from - len(p.text[:from]) + trimEnd(p.text[:from])
		p.err(code, from, from+n, "the place is written another way").
			WithHelp("write a comma and the place: `, %s`", where).
			Replace("write , "+where, true, p.span(at, from+n), ", "+where)
		return true
	}
	if n := matchGroup(text, "up to"); n > 0 && w.Text == "keeps" {
		p.err(code, from, from+n, "`keeps` gives the longest time by itself").
			WithHelp("write it like this: `%s`", w.Form).
			Replace("leave it out", true, p.span(from, from+n+blanks(text[n:])), "")
		return true
	}
	return false
}

// saidOfPart reports a second day or a second dish on one line of a part.
func (p *parser) saidOfPart(place Place, w *Word, s *piece, stuck tok) bool {
	if place != InPart || stuck.kind == -1 || p.text[stuck.at] != ',' {
		return false
	}
	switch w.Text {
	case "date":
		p.err(codeForm, stuck.at, s.end, "a part has one day").
			Because("its day of filming, what keeps until then and what is bought before it are worked out from that").
			WithHelp("give the second day a part of its own, with the same dish under `shows`; `copies 1 of …, as …` is what the first day brings over")
	case "shows":
		p.err(codeForm, stuck.at, s.end, "a name ends at `,`").
			WithHelp("write each dish on a line of its own, `shows …`; if the comma is part of the name, put quotes round all of it")
	default:
		return false
	}
	return true
}

// quote is a piece of the text for a message, shortened.
func (p *parser) quote(from, to int) string {
	t := p.text[from:to]
	if len(t) > 40 {
		cut := 36
		for cut > 0 && t[cut]&0xC0 == 0x80 {
			cut--
		}
		t = t[:cut] + "…"
	}
	return "`" + t + "`"
}

// before is the text of a piece before a place, for a message.
func (p *parser) before(s *piece, at int) string {
	from := s.toks[0].at
	t := strings.TrimSpace(p.text[from:max(at, from)])
	if len(t) > 40 {
		t = strings.TrimSpace(t[strings.LastIndexByte(t[:len(t)-20], ' ')+1:])
		return "…" + t
	}
	return t
}

// overTitle reports what follows a title and cannot.
func (p *parser) overTitle(w *Word, s *piece, from int) {
	text := p.text[from:s.end]
	sign := text[:1]
	d := p.err(codeTitle, from, s.end, "a name ends at `%s`", sign).
		Because("`, | ( ) : \" +` are never part of a name, so that other lines can name it")
	switch sign {
	case ",":
		if len(text) == 1 {
			d.Replace("take it out", true, p.span(from, s.end), "").WithHelp("take the comma out")
			break
		}
		d.WithHelp("put what follows the comma on a line of its own below")
	case "+":
		d.WithHelp("write `and`")
	case ":":
		if len(text) == 1 {
			d.Replace("take it out", true, p.span(from, s.end), "")
		}
		d.WithHelp("take the colon out, or put quotes round the whole name")
	default:
		d.WithHelp("leave out what follows the name, or put it into `about`")
	}
}
