package parse

import (
	"cmp"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"tamis/lang/ast"
	"tamis/lang/diag"
	"tamis/lang/quantity"
)

// block reads a block. stray tells that the line is none; only the first of
// several strays is reported.
func (p *parser) block(f *ast.File, l *line, first, quiet bool) (b ast.Block, stray bool) {
	t := p.content(l)
	w, n := LookUp(AtBlock, t)
	if w == nil {
		w, n = p.meantBlock(l, t)
	}
	if w == nil {
		if !quiet && !p.newer {
			p.strayBlock(l, t)
		}
		return p.bad(l), true
	}
	s := p.lexField(AtBlock, w, n, l.start, l.end)
	defer s.done()
	node, stuck, ok := run(&grammars.block, s)
	if !ok && !s.failed {
		p.explain(AtBlock, w, s, stuck)
	}
	if w.Text == "notation" {
		m := p.meta(l)
		p.noKids(l, &m, "`notation`")
		p.notation(f, l, s, node, ok, first)
		if len(m.Comments) > 0 && ok { // comments above the first line go to what follows
			f.Head = append(f.Head, m.Comments...)
		}
		return nil, false
	}
	title := ast.Name{}
	if node != nil {
		title = s.nameOf(node.Title)
	}
	if len(s.toks) > 1 && title.IsZero() && s.toks[1].kind == tName {
		title = s.name(&s.toks[1])
	}
	m := p.meta(l)
	if len(l.kids) == 0 && len(l.prose) == 0 {
		p.empty(l, w.Text)
	}
	switch w.Text {
	case "menu":
		return &ast.Menu{Meta: m, Title: title, Items: p.menu(l)}, false
	case "dish", "base":
		return &ast.Recipe{Meta: m, IsBase: w.Text == "base", Title: title, Items: p.recipe(l)}, false
	case "kitchen":
		return &ast.Kitchen{Meta: m, Title: title, Items: p.kitchen(l)}, false
	case "series":
		return &ast.Series{Meta: m, Title: title, Items: p.series(l)}, false
	case "book":
		return &ast.Book{Meta: m, Title: title, Items: p.book(l)}, false
	}
	return &ast.Larder{Meta: m, Items: p.larder(l)}, false
}

// meantBlock finds the block word that a misspelt one stands for, reports it
// and goes on as if it were written.
func (p *parser) meantBlock(l *line, t string) (*Word, int) {
	n := 0
	for n < len(t) && isKeyByte(t[n]) {
		n++
	}
	if n == 0 || n < len(t) && !wordEnd(t[n:]) {
		return nil, 0
	}
	word := lower(t[:n])
	if other := p.elsewhere(AtBlock, t); other != nil && synonyms[AtBlock][word] == "" {
		return nil, 0
	}
	near := meant(AtBlock, word)
	if near == nil || near.Text == "notation" || p.newer {
		return nil, 0
	}
	p.err(codeBlockWord, l.start, l.start+n, "`%s` begins no block", t[:n]).
		WithHelp("did you mean `%s`?", near.Text).
		Replace("write "+near.Text, false, p.span(l.start, l.start+n), near.Text)
	return near, n
}

func (p *parser) strayBlock(l *line, t string) {
	if p.hash(l, t) {
		return
	}
	n := 0
	for n < len(t) && strings.IndexByte(" \t,:|", t[n]) < 0 {
		n++
	}
	if other := p.elsewhere(AtBlock, t); other != nil {
		p.err(codeElsewhere, l.start, l.start+max(n, 1), "`%s` stands in no block", other.Text).
			Because("at the very start of a line stand only menu, dish, base, kitchen, larder, series and book").
			WithHelp("indent it below the block it belongs to, in %s", other.In[0])
		return
	}
	d := p.err(codeBlockWord, l.start, l.start+max(n, 1), "`%s` begins no block", shorten(t[:max(n, 1)])).
		Because("at the very start of a line stand only menu, dish, base, kitchen, larder, series and book")
	if l.comments == nil && l.parent == nil {
		d.WithHelp("begin with `dish` and a name, or indent the line below the block it belongs to")
	}
}

// hash reports "#text", which is neither a comment nor an amount.
func (p *parser) hash(l *line, t string) bool {
	if t[0] != '#' {
		return false
	}
	d := p.err(codeHash, l.start, l.start+1, "is this a comment, or is an amount missing?").
		Because("a comment begins with # and a space").
		Replace("make it a comment", false, p.span(l.start, l.start+1), "# ").
		WithHelp("for a comment write `# %s`", shorten(t[1:]))
	if len(t) > 1 && t[1] >= '0' && t[1] <= '9' {
		d.WithHelp("for numbered cans write how many: `1 %s`", shorten(t))
	}
	return true
}

// empty reports a block or a list with nothing below it.
func (p *parser) empty(l *line, word string) {
	d := p.err(codeEmpty, l.start, l.end, "nothing stands below `%s`", word)
	switch word {
	case "gather":
		d.WithHelp("put what is gathered below it, a line each, indented")
	case "method":
		d.WithHelp("put the steps below it, each after a dash, indented")
	case "about":
		d.WithHelp("put the prose below it, indented")
	default:
		d.WithHelp("put its lines below it, indented by two spaces")
	}
}

// notation reads the line that says which notation the file is written in.
func (p *parser) notation(f *ast.File, l *line, s *piece, node *blockNode, ok, first bool) {
	if !ok || s.failed {
		return
	}
	v := s.intOf(node.Notation)
	if !first {
		p.err(codeNotation, l.start, l.end, "`notation` stands on the first line of a file").
			WithHelp("move it to the top, or take it out")
		return
	}
	if v < 1 {
		p.err(codeNotation, l.start, l.end, "there is no notation %d", v).WithHelp("the newest is %d", Notation)
		return
	}
	f.Notation = v
	if v > Notation {
		p.newer = true
		p.diags.Add(diag.Diagnostic{
			Code: codeNewer, Severity: diag.Warning,
			Message: "this file is written in notation " + strconv.Itoa(v) + ", which this program does not know",
			At:      diag.Label{Span: p.span(l.start, l.end)},
			Why:     "words it does not know are passed over, so nothing can be planned or printed from it",
			Help:    []string{"use a newer Tamis"},
		})
	}
}

func (p *parser) menu(l *line) (items []ast.MenuItem) {
	var met seen
	items = make([]ast.MenuItem, 0, len(l.kids))
	for _, k := range l.kids {
		items = p.menuItem(items, k, &met)
	}
	return items
}

// menuItem reads a line of a menu.
func (p *parser) menuItem(items []ast.MenuItem, k *line, met *seen) []ast.MenuItem {
	cut := ""
	if w, n := LookUp(InMenu, p.content(k)); w != nil && w.Text == "course" {
		if cut = p.courseComma(k, n); cut != "" {
			p.mute(k)
		}
	}
	n, s, w := readField(p, &grammars.menu, InMenu, k)
	defer s.done()
	m := p.meta(k)
	if n != nil || w.has(body) {
		p.once(met, w, k)
	}
	if n == nil {
		if w != nil && w.Text == "course" {
			c := &ast.Course{Meta: m, Servings: p.servings(k)}
			if len(s.toks) > 1 && s.toks[1].kind == tName {
				c.Title = s.name(&s.toks[1])
			}
			c.Title.Text = cmp.Or(cut, c.Title.Text)
			return append(items, c)
		}
		return append(items, p.bad(k))
	}
	if n.Course != nil {
		c := &ast.Course{Meta: m, Title: s.nameOf(n.Course.Title), After: s.timeOf(n.Course.Later), AfterOf: s.nameOf(n.Course.After)}
		c.Title.Text = cmp.Or(cut, c.Title.Text)
		if n.Course.At.Type != 0 {
			at := s.clockOf(n.Course.At)
			c.At = &at
		}
		if len(k.kids) == 0 {
			p.empty(k, "course")
		}
		c.Servings = p.servings(k)
		return append(items, c)
	}
	p.noKids(k, &m, fieldName(w))
	switch {
	case n.Covers.Type != 0:
		c := &ast.Covers{Meta: m, Count: p.positive(s, n.Covers)}
		if n.Small.Type != 0 {
			c.Children = p.positive(s, n.Small)
		}
		return append(items, c)
	case n.Date.Type != 0:
		return append(items, &ast.ServeAt{Meta: m, Date: s.dateOf(n.Date), Clock: s.clockOf(n.Clock)})
	case n.At.Type != 0:
		return append(items, &ast.At{Meta: m, Kitchen: s.nameOf(n.At)})
	case n.Hours != nil:
		return append(items, p.hours(m, s, n.Hours))
	case n.Task != nil:
		return append(items, p.task(m, s, n.Task))
	case n.Days != nil:
		return append(items, p.shop(m, s, n.Days))
	case n.Serve != nil:
		return append(items, s.service(m, w, n.Serve))
	case n.Common != nil:
		return append(items, s.common(m, n.Common))
	}
	return items
}

// positive is a count that must not be 0.
func (p *parser) positive(s *piece, n slot) int {
	v := s.intOf(n)
	if v == 0 {
		t := s.of(n)
		p.err(codeWholeCount, t.at, t.to(), "this cannot be 0").WithHelp("write a whole number from 1 on")
	}
	return v
}

// positiveRange is a number of people, which must not begin at 0.
func (p *parser) positiveRange(s *piece, n slot) quantity.Range {
	v := s.rangeOf(n)
	if n.Type != 0 && !s.failed && v.Low.IsZero() {
		t := s.of(n)
		p.err(codeWholeCount, t.at, t.to(), "this cannot be 0").WithHelp("write a number from 1 on")
	}
	return v
}

// someOf is a measure that must not be 0.
func (p *parser) someOf(s *piece, n slot) quantity.Measure {
	v := s.measureOf(n)
	if len(v.Terms) > 0 && !s.failed && !slices.ContainsFunc(v.Terms, func(t quantity.Term) bool { return !t.Value.High.IsZero() }) {
		t := s.of(n)
		p.err(codeWholeCount, t.at, t.to(), "this cannot be 0").WithHelp("write how much it is, or take it out")
	}
	return v
}

// someTime is a time that must not be 0.
func (p *parser) someTime(s *piece, n slot) *quantity.Span {
	v := s.timeOf(n)
	if v != nil && v.Low == 0 && v.High == 0 {
		t := s.of(n)
		p.err(codeWholeCount, t.at, t.to(), "this cannot be 0").WithHelp("write how long it is, or take it out")
	}
	return v
}

func (p *parser) hours(m ast.Meta, s *piece, n *hoursNode) *ast.Hours {
	h := &ast.Hours{Meta: m, Date: s.dateOf(n.Date), From: s.clockOf(n.From), To: s.clockOf(n.To), UntilDate: s.dateOf(n.Until), Cooks: s.items(n.Cooks)}
	switch {
	case n.Count.Type != 0:
		h.DaysBefore = s.intOf(n.Count)
	case n.Day.Value == "day before":
		h.DaysBefore = 1
	}
	if h.UntilDate.IsZero() && (h.To.Hour < h.From.Hour || h.To.Hour == h.From.Hour && h.To.Minute <= h.From.Minute) && !s.failed {
		p.err(codeClock, s.of(n.From).at, s.of(n.To).to(), "this ends before it begins").
			Because("hours that run past midnight name the second day too").
			WithHelp("write such as `hours 2027-09-18, 20:00 to 2027-09-19 01:00`")
	}
	return h
}

func (p *parser) task(m ast.Meta, s *piece, n *taskNode) *ast.Task {
	t := &ast.Task{Meta: m, Title: s.nameOf(n.Title)}
	for i := range n.Opts {
		o := &n.Opts[i]
		switch {
		case o.Work.Type != 0:
			t.Work = s.timeOf(o.Work)
		case o.By.Type != 0:
			t.By = append(t.By, s.nameOf(o.By))
		case o.Before.Type != 0:
			t.Before = s.nameOf(o.Before)
		case o.After.Type != 0:
			t.After = s.nameOf(o.After)
		case o.Done.Type != 0:
			t.Done = s.timeOf(o.Done)
		case i > 0 && (n.Opts[i-1].By.Type != 0 || n.Opts[i-1].Also.Type != 0) && len(t.By) > 0:
			t.By = append(t.By, s.nameOf(o.Also))
		default:
			also := s.of(o.Also)
			p.err(codeForm, also.at, also.to(), "`%s` says nothing about a task", also.text).
				WithHelp("after the comma stands `work 20 min`, `by Jo`, `before First`, `after First` or `done 10 min before serving`")
		}
	}
	return t
}

func (p *parser) recipe(l *line) (items []ast.RecipeItem) {
	var met seen
	labels := map[string]*line{}
	items = make([]ast.RecipeItem, 0, len(l.kids))
	for _, k := range l.kids {
		items = p.recipeItem(items, k, &met, labels)
	}
	return items
}

// recipeItem reads a line of a dish or a base.
func (p *parser) recipeItem(items []ast.RecipeItem, k *line, met *seen, labels map[string]*line) []ast.RecipeItem {
	t := p.content(k)
	if p.hash(k, t) {
		return append(items, p.bad(k))
	}
	n, s, w := readField(p, &grammars.recipe, InRecipe, k)
	defer s.done()
	m := p.meta(k)
	if n != nil || w.has(body) {
		p.once(met, w, k)
	}
	head := meantHead(t)
	if w != nil {
		head = w.Text
	}
	switch head {
	case "gather":
		g := &ast.Gather{Meta: m}
		if n != nil && n.Percent != nil {
			g.PercentOf = s.names(n.Percent)
		}
		if len(k.kids) == 0 {
			p.empty(k, head)
		}
		list, steps := p.splitSteps(k)
		p.dashes = repeated{code: codeListDash, message: "lines of a list take no dash", title: "take it out"}
		p.numbers = repeated{code: codeListDash, message: "lines of a list take no numbers", title: "take it out"}
		g.Items = p.gather(list, len(g.PercentOf) > 0, labels)
		p.dashes.report(p)
		p.numbers.report(p)
		items = append(items, g)
		if steps != nil {
			items = append(items, &ast.Method{Meta: p.meta(steps), Items: p.method(steps)})
		}
		return items
	case "method":
		if len(k.kids) == 0 {
			p.empty(k, head)
		}
		return append(items, &ast.Method{Meta: m, Items: p.method(k)})
	case "about":
		if w != nil && n == nil {
			break
		}
		if len(k.prose) == 0 {
			p.empty(k, head)
		}
		return append(items, &ast.About{Meta: m, Text: p.aboutText(k)})
	}
	if n == nil {
		return append(items, p.bad(k))
	}
	if n.Change.Type != 0 {
		c := &ast.Change{Meta: m, Key: w.Text, Step: p.positive(s, n.Step), Begins: s.nameOf(n.Begins)}
		if len(k.kids) == 0 {
			p.empty(k, head)
		}
		c.Items = p.method(k)
		return append(items, c)
	}
	p.noKids(k, &m, fieldName(w))
	switch head {
	case "without step":
		return append(items, &ast.Change{Meta: m, Key: head, Step: p.positive(s, n.Less), Begins: s.nameOf(n.Begun)})
	case "without":
		return append(items, &ast.Without{Meta: m, Names: s.names(n.Without)})
	case "replace":
		l := &ast.Line{Meta: m, Amount: s.amountOf(n.Qty), Name: s.nameOf(n.New), Note: s.textOf(n.Note)}
		if n.Qty.Type != 0 {
			l.AmountAt = s.textOf(n.Qty)
		}
		return append(items, &ast.Replace{Meta: m, Name: s.nameOf(n.Old), Line: l})
	case "serves":
		return append(items, &ast.Serves{Meta: m, Count: p.positiveRange(s, n.Serves), Each: s.measureOf(n.Portion)})
	case "makes":
		mk := &ast.Makes{Meta: m, Name: s.nameOf(n.Made), Each: s.measureOf(n.Piece), Near: n.Near.Value}
		if a := s.amountOf(n.Makes); a != nil {
			mk.Amount = *a
		}
		return append(items, mk)
	case "keeps":
		return append(items, &ast.Keeps{Meta: m, Keep: s.keepOf(n.Keeps)})
	case "tested":
		return append(items, &ast.Tested{Meta: m, Count: p.positiveRange(s, n.Tested)})
	case "units":
		return append(items, &ast.Units{Meta: m, System: p.system(s, n.Units)})
	case "whole batches":
		return append(items, &ast.WholeBatches{Meta: m})
	case "serve":
		return append(items, &ast.ServeHow{Meta: m, State: n.Serve.Value, Within: s.timeOf(n.Within)})
	case "takes":
		v := &ast.Takes{Meta: m, Work: s.timeOf(n.Work)}
		if t := s.timeOf(n.Takes); t != nil {
			v.Total = *t
		}
		return append(items, v)
	case "as":
		as := &ast.As{Meta: m, Ref: s.nameOf(n.As)}
		for i, it := range n.Also {
			if it.Name.Type != 0 {
				as.Also = append(as.Also, s.nameOf(it.Name))
			}
			if (it.But.Type != 0) != (i == len(n.Also)-1) {
				p.err(codeForm, k.start, s.end, "`as` ends with `but`").WithHelp("write it like this: `%s`", w.Form)
				return append(items, p.bad(k))
			}
		}
		return append(items, as)
	case "also called", "goes with":
		return append(items, &ast.Noted{Meta: m, Key: head, Names: s.names(n.Names)})
	case "said":
		return append(items, &ast.Noted{Meta: m, Key: head, Text: s.quotedText(n.Said)})
	case "cooked":
		return append(items, &ast.Noted{Meta: m, Key: head, Date: s.dateOf(n.Cooked), Names: s.items(n.Who), Text: s.textOf(n.Words)})
	default:
		switch {
		case n.Noted != nil:
			return append(items, s.noted(m, n.Noted))
		case n.Common != nil:
			return append(items, s.common(m, n.Common))
		}
	}
	return items
}

// system checks the name of a system of cups and spoons.
func (p *parser) system(s *piece, n slot) ast.Name {
	name := s.nameOf(n)
	for _, known := range []string{"metric", "US", "imperial", "AU"} {
		if strings.EqualFold(known, name.Text) {
			name.Text = known
			return name
		}
	}
	t := s.of(n)
	d := p.err(codeSystem, t.at, t.to(), "`%s` is no system of cups and spoons", shorten(name.Text)).
		WithHelp("the systems are `metric`, `US`, `imperial` and `AU`")
	if near := diag.Nearest(name.Text, []string{"metric", "US", "imperial", "AU"}); near != "" {
		d.Replace("write "+near, false, name.Span, near)
	}
	return name
}

// aboutText joins the lines of prose, with the indentation they share removed.
func (p *parser) aboutText(k *line) ast.Text {
	if len(k.prose) == 0 {
		return ast.Text{}
	}
	shared, begun := "", false
	for _, l := range k.prose {
		if l.blank() {
			continue
		}
		raw := p.text[l.from:l.start]
		if !begun {
			shared, begun = raw, true
		}
		n := 0
		for n < len(shared) && n < len(raw) && shared[n] == raw[n] {
			n++
		}
		for n > 0 && n < len(shared) && !utf8.RuneStart(shared[n]) {
			n-- // not within a letter of several bytes
		}
		shared = shared[:n]
	}
	var b strings.Builder
	first := k.prose[0]
	for i, l := range k.prose {
		if i > 0 {
			b.WriteByte('\n')
		}
		if !l.blank() {
			b.WriteString(strings.ReplaceAll(p.text[l.from+len(shared):l.start], "\r", ""))
			b.WriteString(p.content(l))
		}
	}
	text := strings.TrimLeft(b.String(), "\n")
	for _, l := range k.prose {
		if !l.blank() {
			first = l
			break
		}
	}
	return ast.Text{Text: text, Span: p.span(first.from+len(shared), k.prose[len(k.prose)-1].end)}
}
