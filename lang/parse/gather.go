package parse

import (
	"strings"

	"tamis/lang/ast"
	"tamis/lang/quantity"
)

// gather reads the lines of a list. percent tells that the list is of baker's
// percentages; labels are the options the dish has had so far.
func (p *parser) gather(l *line, percent bool, labels map[string]*line) (items []ast.GatherItem) {
	var choice *ast.Choice // the group that an `or` joins
	orAt := 0              // the end of the line before, which ends in "or"
	for _, k := range l.kids {
		t := p.content(k)
		w, wn := LookUp(InGather, t)
		word := ""
		if w != nil {
			word = w.Text
		}
		if word != "or" {
			p.closeChoice(choice)
			choice = nil
		}
		if before := lastLine(items); before != nil && (orAt > 0 && word == "" && t[0] != '|' || word == "or" && choice == nil && len(k.kids) == 0) {
			from := k.start
			if word == "or" {
				from += wn + blanks(t[wn:])
			}
			orAt = 0
			p.insteadOf(before, k, from, percent)
			continue
		}
		orAt = 0
		switch word {
		case "for":
			items = append(items, p.subList(k, percent, labels))
		case "either", "or":
			o := p.option(k, percent, labels)
			if word == "either" || choice == nil {
				if word == "or" {
					p.err(codeEither, k.start, k.end, "this `or` has no `either` above it").
						WithHelp("begin the first of the ways with `either` and its name")
				}
				choice = &ast.Choice{Meta: ast.Meta{Span: o.Span, Gap: o.Gap}}
				items = append(items, choice)
			}
			choice.Options = append(choice.Options, o)
			choice.Span = choice.Span.To(o.Span)
		case "instead", "said":
			p.underLine(k, word)
			items = append(items, p.bad(k))
		default:
			if t[0] == '|' {
				p.strayBar(l, k, items)
				continue
			}
			if at, ok := p.trailingOr(k); ok {
				if orAt = at; k == l.kids[len(l.kids)-1] {
					p.question(codeOr, at, k.end, "or what").WithHelp("take `or` out, or write the other thing below it: `instead …`")
				}
			}
			items = append(items, p.line(k, percent)...)
		}
	}
	p.closeChoice(choice)
	return items
}

// lastLine is the line that stands last in a list; nil when something else does.
func lastLine(items []ast.GatherItem) *ast.Line {
	if len(items) == 0 {
		return nil
	}
	ln, _ := items[len(items)-1].(*ast.Line)
	return ln
}

// splitSteps finds the steps in a list over which the line `method` is missing.
// It gives the list without them, and a line that has them; nil if there are
// none.
func (p *parser) splitSteps(k *line) (list, steps *line) {
	for i, kid := range k.kids {
		if !p.isStep(kid) {
			continue
		}
		p.err(codeNoMethod, kid.start, kid.end, "here the steps begin, and no `method` stands above them").
			WithHelp("put a line `method` above it, lined up with `gather`").
			Replace("put it there", false, p.span(kid.from, kid.from), k.indent+"method\n")
		before, after := *k, *kid
		before.kids = k.kids[:i]
		after.kids, after.comments = k.kids[i:], nil
		return &before, &after
	}
	return k, nil
}

// isStep tells whether a line with a dash is a step, not a thing in a list: it
// ends as a sentence, or its margin has clauses that only steps have.
func (p *parser) isStep(k *line) bool {
	t := p.content(k)
	if n, plain := bullet(t); n == 0 || !plain {
		return false
	}
	margins := []*line{k}
	margins = append(margins, k.kids...)
	for i, m := range margins {
		text := p.content(m)
		bar := strings.IndexByte(text, '|')
		if bar < 0 {
			if i == 0 && strings.IndexByte(".!?", text[len(text)-1]) >= 0 {
				return true
			}
			continue
		}
		found := false
		p.bars(m.start+bar, m.end, func(a, b int) {
			step, _ := LookUp(OnStep, p.text[a:b])
			line, _ := LookUp(OnLine, p.text[a:b])
			found = found || step != nil && line == nil
		})
		if found {
			return true
		}
	}
	return false
}

// closeChoice checks that a group has two ways at least.
func (p *parser) closeChoice(c *ast.Choice) {
	if c == nil || len(c.Options) > 1 {
		return
	}
	o := c.Options[0]
	if !strings.EqualFold(p.text[o.Span.Start:o.Span.Start+2], "or") {
		p.err(codeEither, o.Span.Start, o.Span.Start+len("either"), "this `either` has no `or`").
			WithHelp("put the other way below it: `or`, its name, and its lines indented")
	}
}

func (p *parser) underLine(k *line, word string) {
	d := p.err(codeUnderLine, k.start, k.start+len(word), "`%s` stands below the line it is about, indented", word)
	d.Replace("indent it", false, p.span(k.from, k.start), k.indent+"  ")
}

// strayBar takes a margin line that stands beside its line, not below it.
func (p *parser) strayBar(l, k *line, items []ast.GatherItem) {
	d := p.err(codeBarDepth, k.start, k.start+1, "a margin line stands deeper than the line it belongs to")
	p.mute(k)
	if len(items) == 0 {
		d.WithHelp("there is no line above it: put what it is about before the bar")
	} else {
		d.Replace("indent it", false, p.span(k.from, k.start), k.indent+"  ")
		if last, ok := items[len(items)-1].(*ast.Line); ok {
			last.Clauses = p.margin(last.Clauses, OnLine, k.start, k.end)
			last.Span.End = k.end
		}
	}
}

func (p *parser) subList(k *line, percent bool, labels map[string]*line) ast.GatherItem {
	n, s, _ := readField(p, &grammars.gather, InGather, k)
	defer s.done()
	list := &ast.SubList{Meta: p.meta(k)}
	if n != nil {
		list.Article, list.Name = n.The.Value, s.nameOf(n.List)
	}
	if len(k.kids) == 0 {
		p.empty(k, "for")
	}
	list.Items = p.gather(k, percent, labels)
	return list
}

// option reads `either LABEL` or `or LABEL` and its lines.
func (p *parser) option(k *line, percent bool, labels map[string]*line) *ast.Option {
	n, s, w := readField(p, &grammars.gather, InGather, k)
	defer s.done()
	o := &ast.Option{Meta: p.meta(k)}
	if n != nil {
		o.Label = s.nameOf(n.Title)
		p.label(o.Label, k, labels)
	}
	if len(k.kids) == 0 {
		p.empty(k, w.Text)
	}
	o.Items = p.gather(k, percent, labels)
	return o
}

// label checks that a label can be told from what else follows a comma.
func (p *parser) label(name ast.Name, k *line, labels map[string]*line) {
	t := fold(name.Text)
	from, to := name.Span.Start, name.Span.End
	w, n := LookUp(OnServing, t)
	switch {
	case w != nil && n == len(t):
		p.err(codeLabel, from, to, "`%s` cannot be the name of an option", name.Text).
			Because("on a menu it already means something else").WithHelp("choose another name")
	case w != nil && (strings.HasSuffix(w.Text, "for") || w.Text == "from"), matchGroup(t, "keep") > 0:
		p.err(codeLabel, from, to, "the name of an option cannot begin with `%s`", strings.Fields(t)[0]).
			Because("on a menu it already means something else").WithHelp("choose another name")
	case t != "" && (t[0] >= '0' && t[0] <= '9'):
		p.err(codeLabel, from, to, "the name of an option cannot begin with a figure").WithHelp("choose another name")
	}
	if first, twice := labels[t]; twice && t != "" {
		p.err(codeLabelTwice, from, to, "there is already an option `%s` in this dish", name.Text).
			See(p.span(first.start, first.end), "here").
			Because("a menu chooses options by their names alone").WithHelp("give one of them another name")
		return
	}
	labels[t] = k
}

// line reads a gathered line and what stands below it. Lines that stand too
// deep come after it.
func (p *parser) line(k *line, percent bool) []ast.GatherItem {
	t := p.content(k)
	if p.hash(k, t) {
		return []ast.GatherItem{p.bad(k)}
	}
	from := k.start
	if n, _ := bullet(t); n > 0 {
		p.dashes.add(p, k, k.start, k.start+n, "")
		from += n
		if from == k.end {
			return []ast.GatherItem{p.bad(k)}
		}
	} else if n := numbered(t); n > 0 {
		p.numbers.add(p, k, k.start, k.start+n, "")
		from += n
	}
	if each := p.eachOf(k, from, percent); each != nil {
		return each
	}
	if two := p.plusPart(k, from, percent); two != nil {
		return two
	}
	if all := p.seasonings(k, from, percent); all != nil {
		return all
	}
	if two := p.andPart(k, from, percent); two != nil {
		return two
	}
	ln := p.orPart(k, from, percent)
	if ln == nil {
		ln = p.gathered(k, from, percent)
	}
	if ln == nil {
		return []ast.GatherItem{p.bad(k)}
	}
	items := []ast.GatherItem{ln}
	deep := false
	for _, kid := range k.kids {
		if p.isBelow(kid) {
			p.lift(&ln.Meta, kid)
			p.below(ln, kid, percent)
			continue
		}
		if !deep {
			p.tooDeep(kid)
			deep = true
		}
		if isWord(InGather, p.content(kid)) {
			items = append(items, p.bad(kid))
		} else {
			items = append(items, p.line(kid, percent)...)
		}
	}
	p.clauseOrder(ln.Clauses)
	return items
}

// isBelow tells whether a line under a gathered line is one of its parts.
func (p *parser) isBelow(kid *line) bool {
	t := p.content(kid)
	if t[0] == '|' {
		return true
	}
	w, _ := LookUp(InGather, t)
	return w != nil && (w.Text == "instead" || w.Text == "said")
}

func (p *parser) tooDeep(kid *line) {
	p.err(codeDeeper, kid.start, kid.end, "this line stands below a gathered line and is none of its parts").
		Because("below a line stand its margin, after a bar, `instead …` and `said …`").
		WithHelp("line it up with the line above; a list within the list begins with `for`").
		Replace("line it up with the line above", false, p.span(kid.from, kid.start), kid.parent.indent)
}

// below reads a line under a gathered line: its margin, what may be used
// instead, or the writer's own words.
func (p *parser) below(ln *ast.Line, kid *line, percent bool) {
	t := p.content(kid)
	if t[0] == '|' {
		ln.Clauses = p.margin(ln.Clauses, OnLine, kid.start, kid.end)
		p.noKids(kid, &ln.Meta, "a margin line")
		return
	}
	w, n := LookUp(InGather, t)
	switch {
	case w != nil && w.Text == "instead":
		from := kid.start + n + blanks(t[n:])
		if from >= kid.end {
			p.err(codeNoName, kid.start, kid.end, "instead of it, what?").WithHelp("write it like this: `%s`", w.Form)
			return
		}
		other := p.gathered(kid, from, percent)
		if other == nil {
			return
		}
		other.Comments = nil // they are with the line above
		for _, m := range kid.kids {
			if mt := p.content(m); mt[0] == '|' {
				other.Clauses = p.margin(other.Clauses, OnLine, m.start, m.end)
				p.noKids(m, &ln.Meta, "a margin line")
				continue
			}
			p.err(codeDeeper, m.start, m.end, "below `instead` stands only its margin").WithHelp("line it up with `instead`, or take it out")
		}
		p.clauseOrder(other.Clauses)
		ln.Instead = append(ln.Instead, other)
	case w != nil && w.Text == "said":
		node, s, _ := readField(p, &grammars.gather, InGather, kid)
		defer s.done()
		p.noKids(kid, &ln.Meta, "`said`")
		if node == nil {
			return
		}
		if ln.Said.Text != "" {
			p.err(codeTwice, kid.start, kid.end, "the writer's words are given twice").WithHelp("put both into one pair of quotes")
			return
		}
		ln.Said = s.textOf(node.Said)
		if said := ln.Said.Text; len(said) > 1 {
			ln.Said.Text = insideQuotes(said)
		}
	}
}

// insideQuotes takes off the quotes round a whole text.
func insideQuotes(t string) string {
	all := []rune(t)
	if len(all) > 1 && isQuote(all[0]) && isQuote(all[len(all)-1]) {
		if inner := strings.TrimSpace(string(all[1 : len(all)-1])); inner != "" {
			return inner
		}
	}
	return t
}

// quotedText is a text without the quotes round it.
func (s *piece) quotedText(n slot) ast.Text {
	t := s.textOf(n)
	t.Text = insideQuotes(t.Text)
	return t
}

// gathered reads text[from:k.end] as amount, name, brackets, note and margin.
// It is nil when there is no name.
func (p *parser) gathered(k *line, from int, percent bool) *ast.Line {
	end := k.end
	bar := strings.IndexByte(p.text[from:end], '|')
	if bar >= 0 {
		end = from + bar
	}
	to := from + trimEnd(p.text[from:end])
	if at, ok := p.trailingOr(k); ok && at < to && at > from {
		to = at
	}
	s := p.piece(to)
	part, isPart := p.wholePart(from, to)
	if isPart {
		p.lexLine(s, part.from)
	} else {
		p.lexLine(s, from)
	}
	n, stuck, ok := run(&grammars.line, s)
	if !ok && !s.failed {
		p.explainLine(s, from, stuck, bar >= 0)
	}
	var ln *ast.Line
	if ok {
		ln = p.makeLine(k, s, n, percent)
		if isPart {
			part.of(p, ln, from)
		} else {
			p.ownPart(ln)
		}
	} else {
		s.failed = true
	}
	s.done()
	if bar >= 0 {
		clauses := p.margin(nil, OnLine, end, k.end)
		if ln != nil {
			ln.Clauses = append(ln.Clauses, clauses...)
		}
	}
	return ln
}

// lexLine lexes a gathered line up to its margin.
func (p *parser) lexLine(s *piece, i int) {
	text := p.text[i:s.end]
	if share, n := shareOfLine(text); n > 0 {
		i = s.add(tShare, i, i+n, share)
	} else {
		i = p.lexAmount(s, i, text)
	}
	i += blanks(p.text[i:s.end])
	text = p.text[i:s.end]
	early := [2]int{}
	if len(text) > 2 && text[0] == '(' && len(s.toks) > 0 { // 1/4 cup (packed) brown sugar
		if n := strings.IndexByte(text, ')'); n > 0 && n+1 < len(text) && text[n+1] == ' ' && strings.IndexByte(text[1:n], '(') < 0 {
			early = [2]int{i, i + n + 1}
			i += n + 1 + blanks(text[n+1:])
			text = p.text[i:s.end]
		}
	}
	if n := s.aName(i, text); n > 0 {
		if early[1] > 0 {
			s.add(tBracket, early[0], early[1], nil)
		}
		if kept, from := endOfName(text, n); kept < n { // salt to taste, oil for frying
			name := &s.toks[len(s.toks)-1]
			if early[1] > 0 {
				name = &s.toks[len(s.toks)-2]
			}
			name.text = p.text[i : i+kept]
			s.add(tComma, i+kept, i+from, nil)
			s.add(tText, i+from, s.end, nil)
			return
		}
		if more := adjectives(text, n); more > n { // skinless, boneless chicken thighs
			k := len(s.toks) - 1
			if early[1] > 0 {
				k--
			}
			s.toks[k].text = p.text[i : i+more]
			n = more
		}
		i += n
		i += blanks(p.text[i:s.end])
	}
	if i < s.end && p.text[i] == '(' {
		if n := strings.IndexByte(p.text[i:s.end], ')'); n > 0 && strings.IndexByte(p.text[i+1:i+n], '(') < 0 {
			i = s.add(tBracket, i, i+n+1, nil)
			i += blanks(p.text[i:s.end])
		}
	}
	if i < s.end && p.text[i] == ',' {
		i = s.add(tComma, i, i+1, nil)
		i += blanks(p.text[i:s.end])
		if i < s.end {
			i = s.add(tText, i, s.end, nil)
		}
	}
	if i < s.end {
		s.add(tJunk, i, s.end, nil)
	}
}

// lexAmount takes an amount and a size word, if the text begins with one.
func (p *parser) lexAmount(s *piece, i int, text string) int {
	a, n, probs := quantity.ReadAmount(text, p.opt)
	s.problems(i, probs)
	if n == 0 {
		return i
	}
	if a.IsNone() {
		s.vague = ast.Text{Text: tidy(strings.TrimSuffix(strings.TrimSpace(text[:n]), " of")), Span: p.span(i, i+trimEnd(text[:n]))}
	}
	if !a.IsNone() {
		s.add(tQty, i, i+n, s.p.amounts.put(a))
	}
	if k := of(text[n:]); k > 0 {
		n += k
		n += blanks(text[n:])
		if the := matchGroup(text[n:], "the"); the > 0 && n+the < len(text) { // 1 lb of the best end of neck
			n += the
		}
	}
	n += blanks(text[n:])
	i += n
	return i + p.lexSize(s, i, a)
}

// shareOfLine reads a share of what another block makes, such as `the rest of
// the` or `half the`, if a name follows. "Half of a lemon" is an amount.
func shareOfLine(text string) (*ast.Share, int) {
	share, n := readShare(text)
	if n == 0 { // the article may be left out at the head of a line
		w := wordReader{text: text}
		if first := w.next(); first == "remaining" || first == "rest" && w.skip("of") {
			w.skip("the")
			share, n = &ast.Share{Rest: true}, w.used()
		}
	}
	if n == 0 || n == len(text) || !share.Rest && !strings.HasSuffix(lower(strings.TrimSpace(text[:n])), "the") {
		return nil, 0
	}
	return share, n
}

// lexSize takes small, medium or large after a bare count, if a name follows.
func (p *parser) lexSize(s *piece, i int, a quantity.Amount) int {
	if a.Kind != quantity.Plain || len(a.Measure.Terms) != 1 || a.Measure.Terms[0].Unit != nil || a.Measure.Terms[0].Modifier != "" {
		return 0
	}
	text := p.text[i:s.end]
	for _, w := range [...]string{"small-sized ", "medium-sized ", "large-sized "} {
		if len(text) > len(w) && strings.EqualFold(text[:len(w)], w) {
			s.addWord(tSize, i, strings.TrimSuffix(w, "-sized "))
			return len(w)
		}
	}
	for _, w := range [...][2]string{{"sm. ", "small"}, {"med. ", "medium"}, {"lge. ", "large"}, {"lg. ", "large"}} { // 2 lg. potatoes
		if len(text) > len(w[0]) && strings.EqualFold(text[:len(w[0])], w[0]) {
			s.addWord(tSize, i, w[1])
			return len(w[0])
		}
	}
	for _, w := range [...]string{"small", "medium", "large"} {
		if n := matchGroup(text, w); n > 0 && text[n-1] != ':' {
			b := blanks(text[n:])
			if n+b < len(text) && strings.IndexByte(",()|", text[n+b]) < 0 {
				s.addWord(tSize, i, w)
				return n
			}
		}
	}
	return 0
}

func (p *parser) makeLine(k *line, s *piece, n *lineNode, percent bool) *ast.Line {
	ln := &ast.Line{Meta: p.meta(k), Name: s.nameOf(n.Name), Size: n.Size.Value, Note: s.textOf(n.Note)}
	if !ln.Name.Quoted { // between adjectives
		ln.Name.Text = tidy(strings.ReplaceAll(ln.Name.Text, ",", ""))
	}
	if n.Share.Type != 0 {
		t := s.of(n.Share)
		ln.Share = s.shareOf(n.Share)
		text := strings.TrimSpace(t.text)
		ln.AmountAt = ast.Text{Text: text, Span: p.span(t.at, t.at+len(text))}
	}
	if n.Qty.Type != 0 {
		t := s.of(n.Qty)
		ln.Amount = s.amountOf(n.Qty)
		ln.AmountAt = ast.Text{Text: t.text, Span: p.spanOf(t)}
	}
	if n.Bracket.Type != 0 {
		ln.Brackets = s.textOf(n.Bracket)
		ln.Brackets.Text = tidy(strings.Trim(ln.Brackets.Text, "()"))
	}
	if words := lower(s.vague.Text); words != "" && words != "some" && words != "any" { // almond essence, a few drops
		s.vague.Text = words
		if ln.Note.Text != "" {
			sep := ", "
			if strings.HasPrefix(lower(ln.Note.Text), "as ") || strings.HasPrefix(lower(ln.Note.Text), "to ") && words == "enough" {
				sep = " " // as much as it takes
			}
			ln.Note.Text = s.vague.Text + sep + ln.Note.Text
		} else {
			ln.Note = s.vague
		}
	}
	if mark := lower(ln.Note.Text); marginWord(mark).has(asNote) {
		ln.Clauses = append(ln.Clauses, &ast.Mark{Lead: ast.Lead{Span: ln.Note.Span, Word: mark}})
		ln.Note = ast.Text{}
	}
	if ln.Amount != nil && ln.Amount.Kind == quantity.Percent && !percent {
		at := ln.AmountAt.Span
		p.err(codePercent, at.Start, at.End, "%s of what?", ln.AmountAt.Text).
			Because("a percentage is worked out from other lines of the list").
			WithHelp("for baker's percentages begin the list with `gather, percent of strong flour`").
			WithHelp("if it belongs to the name, put quotes round it: `\"%s %s\"`", ln.AmountAt.Text, ln.Name.Text)
	}
	if !ln.Name.Quoted {
		p.checkName(ln)
		p.checkNote(ln)
		p.checkFigures(ln)
	}
	return ln
}
