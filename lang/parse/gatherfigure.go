package parse

import (
	"slices"
	"strings"

	"tamis/lang/ast"
	"tamis/lang/diag"
	"tamis/lang/quantity"
)

// Every figure of a gathered line is accounted for too: one that stands in the name or,
// where the line has no amount, in its note or bracket, is counted by nobody.

// checkFigures asks about such a figure.
func (p *parser) checkFigures(ln *ast.Line) {
	if ln.Share != nil || ln.Name.Quoted {
		return
	}
	if last := p.diags.Last(); last != nil && last.Severity >= diag.Question && last.At.Span.Start >= ln.Span.Start && last.At.Span.Start < max(ln.Span.End, noteEnd(ln)) {
		return // something is asked of this line already
	}
	switch from, to := figureIn(ln.Name.Text, ln.Amount == nil, p.opt); {
	case to > 0 && from == 0 && ln.Amount == nil && !p.counts(ln.Name.Text):
		p.question(codeFigure, ln.Name.Span.Start, ln.Name.Span.Start+to, "`%s` is no number", ln.Name.Text[:to]).
			Because("nothing is weighed or bought by it").
			WithHelp("write one figure or one fraction, such as `1/2`; if it belongs to the name, put quotes round it")
		return
	case to > from:
		d := p.question(codeFigure, ln.Name.Span.Start, ln.Name.Span.End, "`%s` in the name is not counted", ln.Name.Text[from:to])
		d.Because("it is printed as it is written for any number of covers, and nothing is weighed by it").
			WithHelp("write the amount first, then the name; if the figure belongs to the name, put quotes round it")
		if ln.Amount != nil || from > 0 {
			d.Replace("put quotes round it", false, ln.Name.Span, `"`+ln.Name.Text+`"`)
		}
		return
	}
	if from, to, why := amiss(ln.Name.Text, ln.Amount == nil); to > from {
		at := ln.Name.Span
		if text := at.Text(); to <= len(text) && text[from:to] == ln.Name.Text[from:to] {
			at = p.span(at.Start+from, at.Start+to)
		}
		p.question(codeFigure, at.Start, at.End, "`%s` stands in the name", ln.Name.Text[from:to]).
			Because("%s", why).
			WithHelp("write the amount first, then the name alone; what is said about it stands behind a comma").
			Replace("put quotes round it, if it belongs to the name", false, ln.Name.Span, `"`+ln.Name.Text+`"`)
		return
	}
	if ln.Amount != nil {
		p.orBracket(ln)
		for _, each := range [...]string{" for each ", " for every ", " to each ", " per ", " on each ", " each"} {
			at := quantity.IndexFold(ln.Name.Text, each)
			if at <= 0 || each == " each" && at+len(each) < len(ln.Name.Text) {
				continue
			}
			p.question(codeFigure, ln.Name.Span.Start+at+1, ln.Name.Span.End, "`%s` in the name is not counted", strings.TrimSpace(ln.Name.Text[at:])).
				Because("the amount before the name is bought and scaled as it stands, once").
				WithHelp("write the whole amount; so much for each of those who eat is `20 g per cover`")
			return
		}
		if p.rate(ln) {
			return
		}
		p.ofTheLine(ln)
		return
	}
	for _, said := range [...]ast.Text{ln.Brackets, ln.Note} {
		from := 0
		amount, n := p.leads(said.Text)
		for n == 0 { // softened, 100 g
			i := strings.IndexAny(said.Text[from:], ",(")
			if i < 0 {
				break
			}
			from += i + 1 + blanks(said.Text[from+i+1:])
			amount, n = p.leads(said.Text[from:])
		}
		if n == 0 {
			continue
		}
		right := amount + " " + ln.Name.Text
		if rest := strings.Trim(said.Text[:from], ", ("); rest != "" {
			right += ", " + rest
		}
		if rest := strings.TrimLeft(said.Text[from+n:], ",) "); rest != "" {
			right += ", " + rest
		}
		p.question(codeFigure, said.Span.Start+from, said.Span.Start+from+n, "`%s` behind the name is not counted", amount).
			Because("what stands behind the name is for the cook: nothing is weighed or bought by it").
			WithHelp("write `%s`", right)
		return
	}
}

// counts tells whether a name begins with a number that reads by itself.
func (p *parser) counts(name string) bool {
	_, n := quantity.ReadSpoken(name, p.opt)
	return n > 0
}

// ofTheLine asks about a note that counts out a part of what its line has: "6 eggs, two of them
// separated", "200 g sugar, 50 g of it for the top". Shares grow with the line by themselves.
func (p *parser) ofTheLine(ln *ast.Line) {
	if p.secondThing(ln) {
		return
	}
	for _, said := range [...]ast.Text{ln.Brackets, ln.Note} {
		if !strings.ContainsAny(said.Text, "0123456789½¼¾") && quantity.IndexFold(said.Text, " of ") < 0 && quantity.IndexFold(said.Text, "ed") < 0 {
			continue
		}
		for i := 0; i < len(said.Text); i++ {
			if i > 0 && said.Text[i-1] != ' ' && said.Text[i-1] != '(' {
				continue
			}
			s, n := quantity.ReadSpoken(said.Text[i:], p.opt)
			if n == 0 || s.Article || s.Part {
				continue
			}
			end := i + n
			u, un := quantity.ReadUnit(strings.TrimLeft(said.Text[end:], " "), p.opt)
			if u != nil && un > 0 && (u.Dim == quantity.Mass || u.Dim == quantity.Volume || u.Dim == quantity.Word) {
				end += len(said.Text[end:]) - len(strings.TrimLeft(said.Text[end:], " ")) + un
			} else if u != nil && un > 0 {
				continue
			}
			next, after := word(said.Text[end:])
			second, _ := word(after)
			counted := ln.Amount.Kind == quantity.Plain && (ln.Amount.Measure.Terms[0].Unit == nil || ln.Amount.Measure.Terms[0].Unit.Dim == quantity.Word)
			switch {
			case next == "of" && (second == "them" || second == "it" || second == "these" || second == "which" || second == "the"):
			case counted && u == nil && (strings.HasSuffix(next, "ed") || next == "whole" || next == "for" || next == "left"):
			default:
				i = end - 1
				continue
			}
			at := said.Span
			if text := at.Text(); len(text) >= end && text[:end] == said.Text[:end] {
				at = p.span(at.Start+i, at.Start+end)
			}
			p.question(codeFigure, at.Start, at.End, "`%s` in the note is not counted", said.Text[i:end]).
				Because("the amount before the name grows with the covers, and a figure in the note stays as it is").
				WithHelp("write a share, `half of them`, which grows with it, or put it into the step: `two of the eggs`")
			return
		}
	}
}

// notAThing are words behind a number in a note that speak of what the line has, not
// of a second thing: "4 eggs, 2 whole", "1 loaf, 2 days old", "1 chicken, 8 pieces".
var notAThing = strings.Fields(`of each in when after whole for left at to per or and if by from on not over under more extra less else
	half halves quarters thirds pieces parts slices chunks strips wedges cubes rounds sticks lengths batches portions servings layers tins jars bowls
	day days week weeks month months year years hour hours minute minutes min mins h degrees covers people guests times x separate apart only`)

// secondThing asks about a note in which another thing is counted: "1 large onion, 2
// carrots and 2 sticks of celery", "1 ham, glazed with 3 tbsp honey". Nothing of it is
// bought, and no step can take it.
func (p *parser) secondThing(ln *ast.Line) bool {
	note := ln.Note.Text
	from := 0
	if !startsNumber(note) && !p.spoonOf(note) {
		i := quantity.IndexFold(note, " with ")
		if i < 0 || !startsNumber(note[i+len(" with "):]) {
			return false
		}
		from = i + len(" with ")
	}
	a, n, probs := quantity.ReadAmount(note[from:], p.opt)
	if n == 0 || len(probs) > 0 || a.IsNone() || a.Kind != quantity.Plain {
		return false
	}
	if u := a.Measure.Terms[0].Unit; u != nil && u.Dim == quantity.Length {
		return false
	}
	rest := note[from+n:]
	next, after := word(rest)
	if next == "of" && a.Measure.Terms[0].Unit != nil { // 2 sticks of celery
		next, _ = word(after)
		if next == "it" || next == "them" || next == "these" || next == "which" || next == "the" {
			return false
		}
	}
	each := from > 0 && next == "each" // stuck with 6 cloves each
	if !each && (next == "" || next[0] < 'a' || next[0] > 'z' || strings.HasSuffix(next, "ed") || strings.HasSuffix(next, "ing") || strings.HasSuffix(next, "ly") || slices.Contains(notAThing, next)) {
		return false
	}
	at := ln.Note.Span
	if text := at.Text(); strings.HasPrefix(text, note) {
		at = p.span(at.Start+from, at.Start+len(note))
	}
	p.question(codeFigure, at.Start, at.End, "`%s` in the note is not counted", shorten(note[from:])).
		Because("what stands behind the comma is for the cook: nothing is weighed or bought by it").
		WithHelp("a second thing has a line of its own")
	return true
}

// rate asks about a line that says for how much it is: "1 oz butter to every pint of milk".
func (p *parser) rate(ln *ast.Line) bool {
	for _, each := range [...]string{"to every ", "for every ", "to each ", "for each "} {
		if !strings.HasPrefix(lower(ln.Note.Text), each) {
			continue
		}
		p.question(codeFigure, ln.Note.Span.Start, ln.Note.Span.End, "`%s` in the note is not counted", shorten(ln.Note.Text)).
			Because("the amount before the name is bought and scaled as it stands, once").
			WithHelp("write the whole amount")
		return true
	}
	return false
}

// spoonOf tells whether a note begins with an amount in words, of something: "a blade of mace".
func (p *parser) spoonOf(note string) bool {
	a, n, probs := quantity.ReadAmount(note, p.opt)
	if n == 0 || len(probs) > 0 || a.Kind != quantity.Plain || len(a.Measure.Terms) == 0 || a.Measure.Terms[0].Unit == nil {
		return false
	}
	next, after := word(note[n:])
	second, _ := word(after)
	return next == "of" && second != "the" && second != ""
}

// word is the first word of a text, in small letters, and what stands behind it.
func word(text string) (first, rest string) {
	text = strings.TrimLeft(text, " ")
	end := strings.IndexAny(text, " ,;.)")
	if end < 0 {
		end = len(text)
	}
	return lower(text[:end]), text[end:]
}

// leads reads an amount at the start of a note that ends there, or at a comma.
func (p *parser) leads(note string) (amount string, n int) {
	end := len(note)
	if i := strings.IndexAny(note, ",)"); i >= 0 {
		end = i
	}
	if end == 0 {
		return "", 0
	}
	for _, rate := range [...]string{" to every ", " to each ", " to the ", " for every ", " for each ", " per ", " each", " apiece"} { // 3/4 lb. to every pint of juice
		if i := quantity.IndexFold(note[:end], rate); i > 0 {
			end = i
		}
	}
	amount = strings.TrimSpace(note[:end])
	for first, rest, ok := strings.Cut(amount, " "); ok && quantity.InDoubt(lower(first)); first, rest, ok = strings.Cut(amount, " ") { // around 500ml
		amount = strings.TrimSpace(rest)
	}
	a, used, probs := quantity.ReadAmount(amount+" of it", p.opt)
	if used < len(amount) || a.IsNone() || len(probs) > 0 || used > len(amount) {
		return "", 0
	}
	if a.Kind == quantity.Plain && a.Measure.Terms[0].Unit != nil {
		switch u := a.Measure.Terms[0].Unit; {
		case u.Dim == quantity.Length, u.Dim == quantity.Vague: // how long they are; a pinch
			return "", 0
		case u.Dim == quantity.Word && matchGroup(amount, "a")+matchGroup(amount, "an") > 0: // holly, a sprig
			return "", 0
		}
	}
	return amount, end
}

// orBracket asks about another amount in a bracket: 250 g (or 300 g) flour.
func (p *parser) orBracket(ln *ast.Line) {
	said := ln.Brackets
	n := matchGroup(said.Text, "or")
	if n == 0 {
		return
	}
	n += blanks(said.Text[n:])
	if a, used, _ := quantity.ReadAmount(said.Text[n:]+" of it", p.opt); used < len(said.Text)-n || a.IsNone() { // or 1 tsp of something else
		return
	}
	p.question(codeOr, said.Span.Start, said.Span.End, "%s, %s: which is it", ln.Name.Text, shorten(said.Text)).
		Because("the amount before the name is scaled and bought, and this stays as it is").
		WithHelp("write the amount that is meant, or a range such as `1 to 2`")
}

// measuring are words in a name that tell how much of it is meant by another thing, or take
// something away again: nothing is counted by them.
var measuring = map[string]bool{
	"as": true, "than": true, "enough": true, "same": true, "equal": true, "twice": true, "thrice": true, "without": true, "less": true, "minus": true, "plus": true, "except": true, "save": true,
	"weight": true, "weighing": true, "proportion": true, "ratio": true, "worth": true, "quantity": true, "again": true, "more": true, "most": true, "several": true, "many": true, "remaining": true, "every": true, "each": true, "per": true,
	"n": true, "leaving": true, "reserving": true, "about": true, "roughly": true, "approximately": true,
}

// amiss finds in a name what no name has: a word that measures, the stop of a word that is cut
// short, or, in one that has no amount, the article of another thing.
func amiss(name string, bare bool) (from, to int, why string) {
	at := 0
	for i, w := range strings.Fields(name) {
		start := at + strings.Index(name[at:], w)
		at = start + len(w)
		low := lower(w)
		switch {
		case measuring[low], (low == "double" || low == "half" || low == "treble") && i == 0 && strings.HasPrefix(lower(name[at:]), " the "):
			return start, at, "it may change how much is meant, and nothing is counted by it"
		case len(w) > 1 && len(w) < 6 && w[len(w)-1] == '.' && at < len(name) && !sorts[low] && !titles[low] && strings.Count(w, ".") == 1:
			return start, at, "it is cut short, and may be a measure: nobody here knows which"
		case bare && i == 0 && (low == "the" || low == "a" || low == "an") && quantity.IndexFold(name, " of ") > 0:
			of := quantity.IndexFold(name, " of ")
			return 0, of + len(" of"), "it may be a measure of the thing, or a part of it: nothing is counted by it"
		}
	}
	return 0, 0, ""
}

// titles are words cut short that stand in names.
var titles = map[string]bool{"st.": true, "dr.": true, "mr.": true, "mrs.": true}

// sorts are words before which a figure names a sort, and counts nothing.
var sorts = map[string]bool{"no": true, "no.": true, "nr": true, "nr.": true, "type": true, "grade": true, "number": true, "size": true, "step": true, "part": true, "batch": true, "lot": true, "recipe": true, "mark": true, "day": true, "version": true}

// figureIn finds a figure that a name has swallowed: "twice 200 g flour", "flour and 50 g",
// "scant half cup of honey". Sizes, percentages, numbers of a sort and ages are of the name.
func figureIn(name string, bare bool, opt quantity.Options) (from, to int) {
	at := 0
	before := ""
	for i, w := range strings.Fields(name) {
		start := at + strings.Index(name[at:], w)
		at = start + len(w)
		rest := name[start:]
		switch {
		case sorts[before]:
			next := strings.TrimLeft(name[at:], " ")
			if u, n := quantity.ReadUnit(next, opt); !bare && isFigure(w) && u != nil && u.Dim == quantity.Word && n < len(next) { // 2 No. 2 cans of corn
				return start, at
			}
		case isFigure(w):
			if m, n, probs := quantity.ReadMeasure(rest, opt); n > 0 && len(probs) == 0 {
				if u := m.Terms[0].Unit; u != nil && (u.Dim == quantity.Mass || u.Dim == quantity.Volume || u.Dim == quantity.Word) {
					return start, start + n
				}
				break
			}
			if (i > 0 || bare) && (strings.IndexByte(w, '-') < 0 || ofFigures(w)) {
				return start, at
			}
			if unit := strings.TrimLeft(w, "0123456789./½¼¾⅓⅔"); strings.HasPrefix(unit, "-") {
				if u, n := quantity.ReadUnit(unit[1:], opt); u != nil && n == len(unit)-1 && (u.Dim == quantity.Mass || u.Dim == quantity.Volume) { // 4-pound chicken
					return start, at
				}
			}
		case i > 0 && (quantity.IsNumberWord(w) || lower(w) == "half" || lower(w) == "quarter"):
			next := strings.TrimLeft(name[at:], " ")
			u, n := quantity.ReadUnit(next, opt)
			if u != nil && n > 0 && u.Dim != quantity.Length || before == "of" || before == "twice" {
				return start, at
			}
		}
		before = lower(w)
	}
	return 0, 0
}

// isFigure tells whether a word is a figure that can count: 200, 1½, 50g; not 70%, 00, 5-spice.
func isFigure(w string) bool {
	w = strings.Trim(w, ".,;")
	if !startsNumber(w) || strings.ContainsRune(w, '%') || strings.Trim(w, "0") == "" {
		return false
	}
	tail := strings.TrimLeft(w, "0123456789./½¼¾⅓⅔⅛–")
	if tail == "" || ofFigures(tail) {
		return true
	}
	if u, n := quantity.ReadUnit(strings.TrimPrefix(tail, "-"), quantity.Options{}); u != nil && n == len(strings.TrimPrefix(tail, "-")) {
		return u.Digits || tail[0] == '-'
	}
	return false
}

// ofFigures tells whether a word is figures with marks between them, and no letter: 1-2-3.
func ofFigures(w string) bool { return strings.Trim(w, "0123456789./-–½¼¾⅓⅔⅛") == "" }
