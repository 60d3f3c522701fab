package parse

import (
	"cmp"
	"strings"

	"tamis/lang/ast"
	"tamis/lang/diag"
	"tamis/lang/quantity"
)

func (p *parser) kitchen(l *line) (items []ast.KitchenItem) {
	var met, washes seen
	items = make([]ast.KitchenItem, 0, len(l.kids))
	for _, k := range l.kids {
		items = p.kitchenItem(items, k, &met, &washes)
	}
	return items
}

// kitchenItem reads a line of a kitchen.
func (p *parser) kitchenItem(items []ast.KitchenItem, k *line, met, washes *seen) []ast.KitchenItem {
	n, s, w := readField(p, &grammars.kitchen, InKitchen, k)
	defer s.done()
	m := p.meta(k)
	if n != nil || w.has(body) {
		p.once(met, w, k)
	}
	if n == nil {
		return append(items, p.bad(k))
	}
	p.noKids(k, &m, fieldName(w))
	switch w.Text {
	case "oven":
		o := &ast.Oven{Meta: m, Title: s.nameOf(n.Oven)}
		for i := range n.Opts {
			opt := &n.Opts[i]
			switch {
			case opt.Shelves.Type != 0:
				o.Shelves = p.positive(s, opt.Shelves)
			case opt.Kind.Value == "fan":
				o.Fan = true
			case opt.Kind.Value == "gas":
				o.Gas = true
			case opt.Pace.Value == "heats":
				o.Heats = p.pace(s, opt)
			case opt.Pace.Value == "cools":
				o.Cools = p.pace(s, opt)
			default:
				o.Preheat = s.timeOf(opt.Preheat)
			}
		}
		return append(items, o)
	case "rings":
		return append(items, &ast.Rings{Meta: m, Count: s.intOf(n.Rings)})
	case "cooks":
		return append(items, &ast.Names{Meta: m, Key: w.Text, Names: s.names(n.Cooks)})
	case "tools":
		return append(items, p.tools(m, s, n))
	case "wash up":
		return append(items, p.washUp(m, s, n.Wash, k, washes))
	case "vessel":
		v := &ast.Vessel{Meta: m, Title: s.nameOf(n.Vessel), Holds: p.someOf(s, n.Holds)}
		if count := cmp.Or(n.Count, n.More); count.Type != 0 {
			v.Count = p.positive(s, count)
		}
		return append(items, v)
	case "hold":
		v := &ast.Waits{Meta: m, State: n.Hold.Value}
		if t := s.timeOf(n.Time); t != nil {
			v.Time = *t
		}
		return append(items, v)
	case "zone":
		return append(items, &ast.Zone{Meta: m, Text: s.textOf(n.Zone)})
	default:
		switch {
		case n.Serve != nil:
			return append(items, s.service(m, w, n.Serve))
		case n.Common != nil:
			return append(items, s.common(m, n.Common))
		}
	}
	return items
}

func (p *parser) series(l *line) (items []ast.SeriesItem) {
	var met seen
	items = make([]ast.SeriesItem, 0, len(l.kids))
	for _, k := range l.kids {
		items = p.seriesItem(items, k, &met)
	}
	return items
}

// seriesItem reads a line of a series.
func (p *parser) seriesItem(items []ast.SeriesItem, k *line, met *seen) []ast.SeriesItem {
	n, s, w := readField(p, &grammars.series, InSeries, k)
	defer s.done()
	m := p.meta(k)
	if n != nil || w.has(body) {
		p.once(met, w, k)
	}
	switch {
	case w != nil && w.Text == "part":
		part := &ast.Part{Meta: m}
		if n != nil {
			part.Number, part.Title = p.positive(s, n.Part), s.nameOf(n.Title)
		}
		if len(k.kids) == 0 {
			p.empty(k, "part")
		}
		part.Items = p.part(k)
		return append(items, part)
	case n == nil:
		return append(items, p.bad(k))
	case w.Text == "about":
		return append(items, &ast.About{Meta: m, Text: p.prose(k)})
	}
	p.noKids(k, &m, fieldName(w))
	if n.Noted != nil {
		return append(items, s.noted(m, n.Noted))
	}
	return append(items, s.common(m, n.Common))
}

// prose is the text below `about`.
func (p *parser) prose(k *line) ast.Text {
	if len(k.prose) == 0 {
		p.empty(k, "about")
	}
	return p.aboutText(k)
}

func (p *parser) part(l *line) (items []ast.PartItem) {
	var met seen
	items = make([]ast.PartItem, 0, len(l.kids))
	for _, k := range l.kids {
		items = p.partItem(items, k, &met)
	}
	return items
}

// partItem reads a line of a part.
func (p *parser) partItem(items []ast.PartItem, k *line, met *seen) []ast.PartItem {
	n, s, w := readField(p, &grammars.part, InPart, k)
	defer s.done()
	m := p.meta(k)
	if n != nil || w.has(body) {
		p.once(met, w, k)
	}
	if n == nil {
		return append(items, p.bad(k))
	}
	if w.Text == "about" {
		return append(items, &ast.About{Meta: m, Text: p.prose(k)})
	}
	p.noKids(k, &m, fieldName(w))
	if n.Noted != nil {
		return append(items, s.noted(m, n.Noted))
	}
	switch w.Text {
	case "shows":
		return append(items, &ast.Shows{Meta: m, Ref: s.nameOf(n.Shows)})
	case "date":
		return append(items, &ast.PartDate{Meta: m, Date: s.dateOf(n.Date)})
	case "copies":
		return append(items, &ast.Copies{Meta: m, Count: p.positive(s, n.Count), Of: s.nameOf(n.Of), As: s.nameOf(n.As)})
	}
	return append(items, s.common(m, n.Common))
}

func (p *parser) book(l *line) (items []ast.BookItem) {
	var met seen
	items = make([]ast.BookItem, 0, len(l.kids))
	for _, k := range l.kids {
		items = p.bookItem(items, k, &met)
	}
	return items
}

// bookItem reads a line of a book.
func (p *parser) bookItem(items []ast.BookItem, k *line, met *seen) []ast.BookItem {
	n, s, w := readField(p, &grammars.book, InBook, k)
	defer s.done()
	m := p.meta(k)
	if n != nil || w.has(body) {
		p.once(met, w, k)
	}
	switch {
	case w != nil && w.Text == "chapter":
		c := &ast.Chapter{Meta: m}
		if n != nil {
			c.Title = s.nameOf(n.Chapter)
		}
		if len(k.kids) == 0 {
			p.empty(k, "chapter")
		}
		c.About, c.Refs = p.refs(k)
		return append(items, c)
	case n == nil:
		return append(items, p.bad(k))
	case w.Text == "style":
		p.noKids(k, &m, fieldName(w))
		return append(items, &ast.Style{Meta: m, Text: s.textOf(n.Style)})
	case w.Text == "about":
		return append(items, &ast.About{Meta: m, Text: p.prose(k)})
	case w.Text == "for":
		p.noKids(k, &m, fieldName(w))
		return append(items, &ast.For{Meta: m, Text: s.textOf(n.For)})
	}
	p.noKids(k, &m, fieldName(w))
	return append(items, s.common(m, n.Common))
}

// refs reads the names of a chapter, and what is said of it: `about` with lines below
// it, which no name has, so that it takes none away.
func (p *parser) refs(l *line) (about *ast.About, out []*ast.ChapterRef) {
	dashes := repeated{code: codeListDash, message: "a name in a chapter takes no dash", title: "take it out"}
	defer func() { dashes.report(p) }()
	for _, k := range l.kids {
		m := p.meta(k)
		if p.hash(k, p.content(k)) {
			continue
		}
		if n, _ := bullet(p.content(k)); n > 0 {
			dashes.add(p, k, k.start, k.start+n, "")
			continue
		}
		if len(k.prose) > 0 {
			if about != nil {
				p.err(codeTwice, k.start, k.end, "`about` stands here twice").WithHelp("put all of it below one")
				continue
			}
			about = &ast.About{Meta: m, Text: p.aboutText(k)}
			continue
		}
		p.noKids(k, &m, "a name in a chapter")
		s := p.piece(k.end)
		s.lex(k.start, aTitle)
		if len(s.toks) > 1 {
			p.err(codeTitle, s.toks[1].at, k.end, "a name in a chapter stands alone on its line").
				WithHelp("leave out what follows it, or put quotes round the whole name")
		} else if !s.failed && s.toks[0].kind == tName {
			out = append(out, &ast.ChapterRef{Meta: m, Ref: s.name(&s.toks[0])})
		} else if !s.failed {
			p.err(codeName, k.start, k.end, "this is no name").WithHelp("put quotes round it")
		}
		s.done()
	}
	return about, out
}

func (p *parser) larder(l *line) (items []ast.LarderItem) {
	var met seen
	dashes := repeated{code: codeListDash, message: "lines of a larder take no dash", title: "take it out"}
	defer func() { dashes.report(p) }()
	for _, k := range l.kids {
		t := p.content(k)
		if p.hash(k, t) {
			items = append(items, p.bad(k))
			continue
		}
		if n, _ := bullet(t); n > 0 {
			dashes.add(p, k, k.start, k.start+n, "")
			items = append(items, p.bad(k))
			continue
		}
		if w, _ := LookUp(InLarder, t); w != nil {
			items = append(items, p.setting(k, w, &met))
			continue
		}
		items = append(items, p.entry(k))
	}
	return items
}

func (p *parser) setting(k *line, w *Word, met *seen) ast.LarderItem {
	p.once(met, w, k)
	n, s, _ := readField(p, &grammars.larder, InLarder, k)
	defer s.done()
	if n == nil {
		return p.bad(k)
	}
	m := p.meta(k)
	p.noKids(k, &m, fieldName(w))
	v := &ast.Setting{Meta: m, Key: w.Text, Value: s.textOf(n.Lang)}
	switch w.Text {
	case "units":
		name := p.system(s, n.Value)
		v.Value = ast.Text{Text: name.Text, Span: name.Span}
	case "decimal":
		v.Value = s.textOf(n.Value)
		v.Value.Text = lower(v.Value.Text)
		if t := v.Value.Text; t != "comma" && t != "point" {
			p.err(codeSystem, v.Value.Span.Start, v.Value.Span.End, "the decimal mark is a comma or a point").
				WithHelp("write `decimal comma` or `decimal point`")
		}
	}
	return v
}

// entry reads an ingredient of the larder with its facts.
func (p *parser) entry(k *line) ast.LarderItem {
	t := p.content(k)
	m := p.meta(k)
	if t[0] == '|' {
		p.err(codeBarDepth, k.start, k.end, "this margin belongs to no line").
			Because("a margin line stands deeper than the line it belongs to").
			Replace("indent it", false, p.span(k.from, k.start), k.indent+"  ")
		return p.bad(k)
	}
	e := &ast.Entry{Meta: m}
	head := k.start + len(t)
	if bar := strings.IndexByte(t, '|'); bar >= 0 {
		head = k.start + bar
	}
	s := p.piece(k.start + trimEnd(p.text[k.start:head]))
	defer s.done()
	s.lex(k.start, aTitle)
	switch {
	case s.failed:
	case len(s.toks) > 0 && s.toks[0].kind == tName && len(s.toks) == 1:
		e.Name = s.name(&s.toks[0])
	case len(s.toks) > 1 && s.toks[0].kind == tName:
		e.Name = s.name(&s.toks[0])
		p.err(codeAfterName, s.toks[1].at, s.end, "facts stand after a bar").
			Because("a comma ends a name, and what follows it here would be read by nobody").
			WithHelp("write `%s | …`", e.Name.Text)
	default:
		p.err(codeName, k.start, s.end, "this is no name").WithHelp("begin with the name of an ingredient, then a bar and a fact")
	}
	facts := p.facts[:0]
	if head < k.end {
		facts = p.readFacts(facts, head, k.end)
	}
	deep := false
	for _, kid := range k.kids {
		p.lift(&e.Meta, kid)
		if kt := p.content(kid); kt[0] == '|' {
			facts = p.readFacts(facts, kid.start, kid.end)
			p.noKids(kid, &e.Meta, "a margin line")
			continue
		}
		if !deep {
			p.err(codeDeeper, kid.start, kid.end, "below a line of the larder stand only its facts, after a bar").
				WithHelp("put a bar before it, or line it up with the lines of the larder")
			deep = true
		}
	}
	p.facts = facts
	if len(facts) > 0 {
		e.Facts = append(make([]ast.Fact, 0, len(facts)), facts...)
	}
	if len(e.Facts) == 0 && len(k.kids) == 0 && !s.failed && len(s.toks) == 1 {
		p.err(codeEmpty, k.start, k.end, "nothing is said about `%s`", shorten(e.Name.Text)).
			WithHelp("add a bar and a fact: `celeriac | piece 600 g`")
	}
	return e
}

// readFacts reads a margin of the larder, which begins with a bar at from.
func (p *parser) readFacts(out []ast.Fact, from, to int) []ast.Fact {
	p.bars(from, to, func(a, b int) {
		out = append(out, p.fact(a, b))
	})
	return out
}

func (p *parser) fact(a, b int) ast.Fact {
	t := p.text[a:b]
	if t == "" {
		p.emptyClauses([]int{a})
		return p.unread(a, b)
	}
	w, n := LookUp(OnFact, t)
	if w == nil {
		p.unknownFact(a, b, t)
		return p.unread(a, b)
	}
	s := p.lexField(OnFact, w, n, a, b)
	defer s.done()
	node, stuck, ok := run(&grammars.fact, s)
	if !ok && !s.failed {
		p.explain(OnFact, w, s, stuck)
	}
	if !ok || s.failed {
		return p.unread(a, b)
	}
	return p.toFact(ast.Lead{Span: p.span(a, b), Word: w.Text}, w, s, node)
}

// toFact turns what the grammar found into the fact.
func (p *parser) toFact(l ast.Lead, w *Word, s *piece, n *factNode) ast.Fact {
	switch w.Text {
	case "piece":
		f := &ast.Piece{Lead: l, Weight: p.someOf(s, n.Piece), State: s.textOf(n.State)}
		f.State.Text = n.State.Value
		return f
	case "yields":
		rate := s.rangeOf(n.Rate)
		if rate.IsRange() {
			p.err(codeFactForm, l.Span.Start, l.Span.End, "a yield is one number").WithHelp("write the lower: `yields 75%%`")
		}
		if rate.Low.IsZero() {
			t := s.of(n.Rate)
			p.err(codeWholeCount, t.at, t.to(), "this cannot be 0").WithHelp("write what is left of it, in per cent")
		}
		return &ast.Yield{Lead: l, Percent: rate.Low}
	case "price":
		f := &ast.Price{Lead: l, Amount: s.rangeOf(n.Number).Low, Per: s.perOf(n.Per), Money: s.textOf(n.Money)}
		f.Money.Text = strings.ToUpper(f.Money.Text)
		if n.Many.Type != 0 {
			f.Per = p.someMany(s, n.Many)
		}
		return f
	case "weighs":
		return &ast.Density{Lead: l, Weight: p.someOf(s, n.Mass), Per: s.perOf(n.Of)}
	case "packs":
		f := &ast.Packs{Lead: l}
		for _, q := range n.Sizes {
			size := p.someOf(s, q.Tok)
			if q.Tok.Type == 0 { // eggs by the dozen
				size = p.someMany(s, q.Count)
			}
			f.Sizes = append(f.Sizes, size)
		}
		for i := len(f.Sizes) - 2; i >= 0; i-- { // 1 or 2 litres
			if t, next := f.Sizes[i].Terms, f.Sizes[i+1].Terms; len(t) == 1 && t[0].Unit == nil && len(next) == 1 {
				t[0].Unit = next[0].Unit
			}
		}
		return f
	case "contains":
		return &ast.Contains{Lead: l, Names: s.names(n.List)}
	case "same as", "plural":
		p.oneName(s, w, n.List)
		return &ast.Also{Lead: l, Name: s.nameOf(n.List.First)}
	case "from":
		return &ast.From{Lead: l, Seller: s.seller(n.The, n.From)}
	case "keeps":
		return &ast.ShelfLife{Lead: l, Keep: s.keepOf(n.At)}
	case "gives":
		f := &ast.Gives{Lead: l}
		for _, g := range n.Given {
			f.Given = append(f.Given, ast.Given{Count: quantity.Int(int64(p.positive(s, g.Count))), Name: s.nameOf(g.Name)})
		}
		return f
	}
	return &ast.Countable{Lead: l}
}

// someMany is so many, as a measure.
func (p *parser) someMany(s *piece, n slot) quantity.Measure {
	return quantity.Measure{Terms: []quantity.Term{{Value: quantity.Exactly(quantity.Int(int64(p.positive(s, n))))}}}
}

func (p *parser) oneName(s *piece, w *Word, l *list) {
	if len(l.More) > 0 {
		t := s.of(l.More[0].Tok)
		p.err(codeFactForm, t.at, t.to(), "`%s` takes one name", w.Text).WithHelp("write `%s`", w.Form)
	}
}

func (p *parser) unknownFact(a, b int, t string) {
	if p.newer {
		return
	}
	n := 0
	for n < len(t) && t[n] != ' ' && t[n] != ',' {
		n++
	}
	if w, k := LookUp(OnLine, t); w != nil && startsNumber(t[k+blanks(t[k:]):]) {
		p.err(codeFactWord, a, a+k, "`%s` is no fact about an ingredient", w.Text).
			WithHelp("it belongs on a gathered line: `%s`", w.Form).
			WithHelp("who sells it is told by `from the greengrocer`")
		return
	}
	d := p.err(codeFactWord, a, a+max(n, 1), "`%s` is no fact about an ingredient", shorten(t[:n]))
	if right, n := says(OnFact, t); right != "" {
		d.WithHelp("did you mean `%s`?", right).Replace("write "+right, false, p.span(a, a+n), right)
		return
	}
	if diag.Nearest(t, []string{"same as"}) != "" {
		d.WithHelp("did you mean `same as`?")
		return
	}
	var all []string
	for _, w := range WordsIn(OnFact) {
		all = append(all, "`"+w.Text+"`")
	}
	d.WithHelp("the words here are %s", strings.Join(all, ", "))
}

// pace reads `60 C within 5 min`: a difference of degrees, which must be a
// plain one above nothing, and a time.
func (p *parser) pace(s *piece, n *ovenItem) *ast.Pace {
	by, time := s.tempOf(n.By), s.timeOf(n.Within)
	if by == nil || time == nil {
		return nil
	}
	if by.Low != by.High || by.Low <= 0 || time.High <= 0 {
		p.err(codeForm, s.of(n.By).at, s.of(n.Within).to(), "an oven %s by a number of degrees in some time", n.Pace.Value).
			WithHelp("write `%s 60 C within 5 min`", n.Pace.Value)
		return nil
	}
	return &ast.Pace{By: *by, Time: *time}
}
