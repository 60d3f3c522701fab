package parse

import (
	"strings"

	"tamis/lang/ast"
	"tamis/lang/quantity"
	"tamis/lang/source"
)

// Lines that name a part before the whole, or several things at once: yolks of
// 4 eggs, juice of 2 lemons, 2 tbsp each oil and vinegar, 1 tsp vanilla, or.

// partWords are parts that are named before the whole they come from.
var partWords = map[string]bool{"yolk": true, "yolks": true, "white": true, "whites": true, "juice": true, "zest": true, "rind": true, "peel": true}

// partManners may stand beside them.
var partManners = map[string]bool{
	"the": true, "and": true, "grated": true, "finely": true, "thinly": true, "pared": true, "strained": true, "beaten": true, "stiffly": true, "well": true, "thin": true,
}

// ofWhole is a part that stands before an amount of the whole.
type ofWhole struct {
	words string // juice; zest and juice; yolks
	at    source.Span
	from  int // where the amount begins
}

// wholePart reads "yolks of", "the grated rind and juice of" or "White" at the
// head of text[from:end], where an amount of the whole follows.
func (p *parser) wholePart(from, end int) (w ofWhole, ok bool) {
	i, last, of := from, from, false
	start := -1
	part := false
	for i < end && !of {
		e := i
		for e < end && (p.text[e]|0x20 >= 'a' && p.text[e]|0x20 <= 'z') {
			e++
		}
		word := lower(p.text[i:e])
		switch {
		case word == "of" && part:
			of = true
		case partWords[word], partManners[word]:
			if start < 0 && word != "the" {
				start = i
			}
			part = part || partWords[word]
			last = e
		default:
			e = i
		}
		if e == i || e >= end || p.text[e] != ' ' {
			break
		}
		i = e + blanks(p.text[e:end])
	}
	if !part || i >= end || start < 0 {
		return w, false
	}
	if _, n, _ := quantity.ReadAmount(p.text[i:end], p.opt); n == 0 || !of && !startsNumber(p.text[i:]) {
		return w, false
	}
	return ofWhole{words: p.text[start:last], at: p.span(start, last), from: i}, true
}

// of makes a line of the whole into one of its part. Eggs are counted by their
// yolks and whites; fruit is bought whole, and what is wanted of it is its note.
func (w ofWhole) of(p *parser, ln *ast.Line, from int) {
	words := strings.Fields(lower(w.words))
	name := lower(ln.Name.Text)
	if part := strings.TrimSuffix(words[len(words)-1], "s"); (part == "yolk" || part == "white") && (name == "egg" || name == "eggs") {
		ln.Name.Text = "egg " + words[len(words)-1]
		ln.Name.Span = p.span(from, ln.Name.Span.End)
		return
	}
	if i := quantity.IndexFold(ln.Name.Text, " and "); i > 0 { // zest of 2 lemons and juice of 1
		part, of, _ := strings.Cut(strings.TrimPrefix(lower(ln.Name.Text[i+len(" and "):]), "the "), " ")
		if partWords[part] && strings.HasPrefix(of, "of ") {
			at := ln.Name.Span
			cut := quantity.IndexFold(at.Text(), " and ")
			if cut < 0 { // parted by something else than a blank
				cut = len(at.Text()) - 1
			}
			from := at.Start + cut + 1
			p.question(quantity.CodePlus, from, at.End, "`%s` is not counted", at.Text()[from-at.Start:]).
				Because("the amount before the name is scaled and bought, and this stays as it is").
				WithHelp("write how many there are in all, with what is wanted of them behind a comma: `2 lemons, zest of both and juice of one`")
			w.words += ln.Name.Text[i:] // nothing that was written is lost
			ln.Name.Text, ln.Name.Span = ln.Name.Text[:i], p.span(at.Start, from-1)
		}
	}
	note := ast.Text{Text: tidy(w.words), Span: w.at}
	if ln.Note.Text != "" {
		note = ast.Text{Text: note.Text + ", " + ln.Note.Text, Span: ln.Note.Span}
	}
	ln.Note = note
}

// ownPart makes "2 lemons' juice" into two lemons and their juice.
func (p *parser) ownPart(ln *ast.Line) {
	if ln.Amount == nil || ln.Name.Quoted {
		return
	}
	i := strings.LastIndexByte(ln.Name.Text, ' ')
	if i < 0 || !partWords[lower(ln.Name.Text[i+1:])] {
		return
	}
	whole := ln.Name.Text[:i]
	for _, own := range [...]string{"'s", "’s", "'", "’"} {
		thing, ok := strings.CutSuffix(whole, own)
		if !ok {
			continue
		}
		at := ln.Name.Span
		cut := at.Start + strings.LastIndexByte(p.text[at.Start:at.End], ' ')
		ofWhole{words: p.text[cut+1 : at.End], at: p.span(cut+1, at.End)}.of(p, ln, at.Start)
		ln.Name.Text, ln.Name.Span = thing, p.span(at.Start, cut)
		return
	}
}

// eachOf reads "2 tbsp each oil and vinegar" as so many lines; nil when the
// line is none of that kind.
func (p *parser) eachOf(k *line, from int, percent bool) []ast.GatherItem {
	text := p.text[from:k.end]
	if len(k.kids) > 0 || strings.ContainsAny(text, "|()\"") || quantity.IndexFold(text, "each ") < 0 {
		return nil
	}
	a, n, _ := quantity.ReadAmount(text, p.opt)
	i := n + blanks(text[n:])
	w := matchGroup(text[i:], "each")
	if n == 0 || w == 0 {
		return nil
	}
	i += w + blanks(text[i+w:])
	if i < len(text) && text[i] == ':' {
		i += 1 + blanks(text[i+1:])
	}
	if w := matchGroup(text[i:], "of"); w > 0 {
		i += w + blanks(text[i+w:])
	}
	var items []ast.GatherItem
	for i < len(text) {
		end, next := i, len(text) // a name ends at a comma or "and"
		if c := strings.IndexByte(text[i:], ','); c >= 0 {
			next = i + c
		}
		end = next
		if c := quantity.IndexFold(text[i:next], " and "); c >= 0 {
			end, next = i+c, i+c+len(" and")
		} else if next < len(text) {
			next++
		}
		next += blanks(text[next:])
		if w := matchGroup(text[next:], "and"); w > 0 {
			next += w + blanks(text[next+w:])
		}
		end = i + trimEnd(text[i:end])
		if end == i {
			return nil
		}
		s := p.piece(from + end)
		s.add(tQty, from, from+n, p.amounts.put(a))
		s.aName(from+i, text[i:end])
		node, _, ok := run(&grammars.line, s)
		if !ok {
			s.done()
			return nil
		}
		ln := p.makeLine(k, s, node, percent)
		s.done()
		if len(items) > 0 {
			ln.Comments, ln.Gap = nil, false
		}
		items = append(items, ln)
		i = next
	}
	if len(items) < 2 {
		return nil
	}
	last := items[len(items)-1].(*ast.Line).Name.Text
	own := strings.IndexByte(last, ' ') // what all share stands behind the last name's own word
	if own > 0 && sharesNoun[lower(last[:own])] {
		for _, it := range items[:len(items)-1] {
			if ln := it.(*ast.Line); sharesNoun[lower(ln.Name.Text)] && (!ofSugar[lower(ln.Name.Text)] || lower(last[own:]) == " sugar") { // 100 g each of red and white rice
				ln.Name.Text += last[own:]
			}
		}
	}
	return items
}

// sharesNoun are words that stand for a thing only with the noun of the last name.
var sharesNoun = map[string]bool{
	"red": true, "white": true, "black": true, "green": true, "yellow": true, "brown": true, "plain": true, "wholemeal": true, "dark": true, "light": true,
	"hot": true, "mild": true, "sweet": true, "smoked": true, "unsmoked": true, "fresh": true, "dried": true, "ground": true, "whole": true,
	"caster": true, "granulated": true, "demerara": true, "strong": true, "fine": true, "coarse": true, "flat": true, "curly": true, "raw": true, "toasted": true,
}

// ofSugar are those of them that are of sugar alone.
var ofSugar = map[string]bool{"caster": true, "granulated": true, "demerara": true}

// plusPart reads "3 eggs plus 1 yolk" as two lines; nil when the line is none of
// that kind.
func (p *parser) plusPart(k *line, from int, percent bool) []ast.GatherItem {
	text := p.text[from:k.end]
	at, n := quantity.IndexFold(text, " plus "), len(" plus ")
	if at < 0 {
		at, n = quantity.IndexFold(text, " and "), len(" and ")
	}
	if at < 0 || len(k.kids) > 0 || quantity.IndexFold(text[:at], "egg") < 0 || strings.ContainsAny(text, "|(\"") {
		return nil
	}
	rest := text[at+n:]
	extra := matchGroup(rest, "an extra")
	extra += blanks(rest[extra:])
	a, used, _ := quantity.ReadAmount(rest[extra:], p.opt)
	if used == 0 && extra > 0 {
		a, _, _ = quantity.ReadAmount("1 yolk", p.opt)
	} else if used == 0 {
		return nil
	}
	name := strings.Fields(strings.ReplaceAll(lower(rest[extra+used:]), "egg ", ""))
	if len(name) != 1 || name[0] != "yolk" && name[0] != "yolks" && name[0] != "white" && name[0] != "whites" {
		return nil
	}
	whole := *k
	whole.end = from + at
	first := p.gathered(&whole, from, percent)
	if first == nil {
		return nil
	}
	i := from + at + n
	second := &ast.Line{
		Meta: ast.Meta{Span: p.span(i, k.end)}, Amount: p.amounts.put(a), AmountAt: ast.Text{Text: strings.TrimSpace(rest[:extra+used]), Span: p.span(i, i+extra+used)},
		Name: ast.Name{Text: "egg " + name[0], Span: p.span(i+extra+used, k.end)},
	}
	return []ast.GatherItem{first, second}
}

// ofTheSame are words for another kind of the thing before "or".
var ofTheSame = map[string]bool{"dried": true, "fresh": true, "ground": true, "frozen": true, "tinned": true, "canned": true, "bottled": true, "powdered": true, "unsalted": true, "salted": true}

// sizeWords tell how large a counted thing is.
var sizeWords = map[string]bool{"small": true, "medium": true, "large": true}

// orPart reads "3 sprigs thyme or 1 tsp dried" as a line and what may be used
// instead of it; nil when the line is none of that kind.
func (p *parser) orPart(k *line, from int, percent bool) *ast.Line {
	text := p.text[from:k.end]
	at := quantity.IndexFold(text, " or ")
	if at < 0 || strings.ContainsAny(text, "|\"") || strings.Count(text[:at], "(") != strings.Count(text[:at], ")") {
		return nil
	}
	_, n, _ := quantity.ReadAmount(text[:at], p.opt)
	if n == 0 || strings.TrimSpace(text[n:at]) == "" || strings.EqualFold(strings.TrimSpace(text[n:at]), "of") {
		return nil // 3 or 4 leeks
	}
	if _, all, _ := quantity.ReadAmount(text, p.opt); all > at { // a stick or two of cinnamon
		return nil
	}
	rest := from + at + len(" or ")
	rest += blanks(p.text[rest:k.end])
	a, m, _ := quantity.ReadAmount(p.text[rest:k.end], p.opt)
	if m == 0 || a.IsNone() {
		return nil
	}
	for _, w := range [...]string{"if", "when", "for", "as", "to", "in", "of"} { // or two if they are small
		if matchGroup(strings.TrimLeft(p.text[rest+m:k.end], " "), w) > 0 {
			return nil
		}
	}
	whole, second := *k, *k
	whole.end = from + trimEnd(strings.TrimRight(text[:at], " ,"))
	second.kids = nil
	ln := p.gathered(&whole, from, percent)
	other := p.gathered(&second, rest, percent)
	if ln == nil || other == nil {
		return nil
	}
	if size := lower(ln.Name.Text); sizeWords[size] && ln.Size == "" { // 3 large, or 4 small, eggs
		if sizeWords[lower(other.Name.Text)] && other.Note.Text != "" {
			other.Size, other.Name.Text, other.Name.Span = lower(other.Name.Text), other.Note.Text, other.Note.Span
			other.Note = ast.Text{}
		}
		ln.Size, ln.Name, ln.Note = size, other.Name, other.Note
		other.Note = ast.Text{}
	}
	if ofTheSame[lower(other.Name.Text)] {
		other.Name.Text += " " + ln.Name.Text
	}
	other.Comments, other.Gap = nil, false
	ln.Instead = append(ln.Instead, other)
	ln.Span.End = k.end
	return ln
}

// andPart reads "50 g butter and 1/4 pt cream" as two lines; nil when the line is none of
// that kind.
func (p *parser) andPart(k *line, from int, percent bool) []ast.GatherItem {
	text := p.text[from:k.end]
	at := quantity.IndexFold(text, " and ")
	if at < 0 || len(k.kids) > 0 || strings.ContainsAny(text[:at], ",") || strings.ContainsAny(text, "|(\"") {
		return nil
	}
	a, n, probs := quantity.ReadAmount(text, p.opt)
	if n == 0 || n >= at || a.IsNone() || len(probs) > 0 || strings.EqualFold(strings.TrimSpace(text[n:at]), "of") || strings.TrimSpace(text[n:at]) == "" {
		return nil
	}
	rest := from + at + len(" and ")
	rest += blanks(p.text[rest:k.end])
	b, m, probs := quantity.ReadAmount(p.text[rest:k.end], p.opt)
	if m == 0 || b.IsNone() || len(probs) > 0 || rest+m >= k.end || b.Kind == quantity.Plain && b.Measure.Terms[0].Unit == nil && !(p.text[rest] >= '1' && p.text[rest] <= '9') {
		return nil
	}
	if a.Kind == quantity.Plain && a.Measure.Terms[0].Unit == nil && strings.Count(strings.TrimSpace(text[n:at]), " ") > 2 {
		return nil
	}
	first, second := *k, *k
	first.end = from + trimEnd(text[:at])
	second.kids = nil
	one := p.gathered(&first, from, percent)
	two := p.gathered(&second, rest, percent)
	if one == nil || two == nil {
		return nil
	}
	two.Comments, two.Gap = nil, false
	return []ast.GatherItem{one, two}
}

// seasoningWords end the names of what one line of an old book lists together.
var seasoningWords = map[string]bool{
	"salt": true, "pepper": true, "peppercorns": true, "cayenne": true, "nutmeg": true, "mace": true, "paprika": true, "sugar": true, "mustard": true, "vinegar": true, "oil": true,
	"allspice": true, "cloves": true, "cinnamon": true, "ginger": true, "herbs": true, "parsley": true, "thyme": true, "butter": true, "flour": true, "milk": true, "water": true,
}

// seasonings reads "pepper, salt and grated nutmeg to taste" as so many lines; nil
// when the line is none of that kind.
func (p *parser) seasonings(k *line, from int, percent bool) []ast.GatherItem {
	text := p.text[from:k.end]
	if strings.IndexByte(text, ',') < 0 && quantity.IndexFold(text, " and ") < 0 || len(k.kids) > 0 || strings.ContainsAny(text, "|()\"") || !(text[0]|0x20 >= 'a' && text[0]|0x20 <= 'z') {
		return nil
	}
	end := len(text)
	taste := len(text) > len(" to taste") && strings.EqualFold(text[len(text)-len(" to taste"):], " to taste")
	if taste {
		end = trimEnd(strings.TrimRight(text[:len(text)-len(" to taste")], " ,"))
	}
	var parts [][2]int
	for i := 0; i < end; {
		i += blanks(text[i:end])
		if w := matchGroup(text[i:end], "and"); w > 0 {
			i += w + blanks(text[i+w:end])
		}
		stop, next := end, end
		if c := strings.IndexByte(text[i:end], ','); c >= 0 {
			stop, next = i+c, i+c+1
		}
		if c := quantity.IndexFold(text[i:stop], " and "); c > 0 {
			stop, next = i+c, i+c+len(" and ")
		}
		words := strings.Fields(text[i:stop])
		if len(words) == 0 || len(words) > 3 || !seasoningWords[lower(words[len(words)-1])] {
			return nil
		}
		parts = append(parts, [2]int{i, stop})
		i = next
	}
	if len(parts) < 2 {
		return nil
	}
	if first, second := lastWord(text[parts[0][0]:parts[0][1]]), lastWord(text[parts[1][0]:parts[1][1]]); len(parts) == 2 && strings.IndexByte(text[:end], ',') < 0 &&
		(!taste && first != "salt" && first != "pepper" || first == "salt" && strings.HasPrefix(second, "pepper") || first == "pepper" && second == "salt") {
		return nil // salt and pepper are one line
	}
	var items []ast.GatherItem
	for n, part := range parts {
		one := *k
		one.end = from + part[0] + trimEnd(text[part[0]:part[1]])
		ln := p.gathered(&one, from+part[0], percent)
		if ln == nil {
			return nil
		}
		if taste {
			ln.Clauses = append(ln.Clauses, &ast.Mark{Lead: ast.Lead{Span: p.span(from+end, k.end), Word: "to taste"}})
		}
		if n > 0 {
			ln.Comments, ln.Gap = nil, false
		}
		items = append(items, ln)
	}
	return items
}

// lastWord is the last word of a text, in small letters.
func lastWord(text string) string {
	words := strings.Fields(lower(text))
	if len(words) == 0 {
		return ""
	}
	return words[len(words)-1]
}

// trailingOr is where the "or" stands that ends a line without a margin: the
// next line is what may be used instead.
func (p *parser) trailingOr(k *line) (at int, ok bool) {
	t := p.content(k)
	if strings.IndexByte(t, '|') >= 0 || len(t) < len("x or") || !strings.EqualFold(t[len(t)-2:], "or") {
		return 0, false
	}
	if c := t[len(t)-3]; c != ' ' && c != ',' {
		return 0, false
	}
	return k.start + trimEnd(strings.TrimRight(t[:len(t)-2], " ,")), true
}

// insteadOf takes the line k as what may be used instead of the line before it,
// and asks: its text begins at from.
func (p *parser) insteadOf(ln *ast.Line, k *line, from int, percent bool) {
	other := p.gathered(k, from, percent)
	if other == nil {
		return
	}
	other.Comments = nil
	p.lift(&ln.Meta, k)
	ln.Instead = append(ln.Instead, other)
	ln.Span.End = max(ln.Span.End, k.last())
	for _, m := range k.kids {
		if t := p.content(m); t[0] == '|' {
			other.Clauses = p.margin(other.Clauses, OnLine, m.start, m.end)
		}
	}
	p.clauseOrder(other.Clauses)
	p.question(codeOr, k.start, k.end, "%s, or %s: which is it", ln.Name.Text, other.Name.Text).
		Because("the first is counted and bought, and the second is printed as what may be used instead").
		WithHelp("indent it below the first: `instead %s`", strings.TrimSpace(other.AmountAt.Text+" "+other.Name.Text))
}
