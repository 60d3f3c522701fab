package parse

import (
	"strings"

	"tamis/lang/ast"
	"tamis/lang/quantity"
)

// checkName looks at a name for words that swallow something else.
func (p *parser) checkName(ln *ast.Line) {
	name, at := ln.Name.Span.Text(), ln.Name.Span
	for _, mark := range [...]string{"to taste", "optional"} {
		cut := len(name) - len(mark)
		if cut > 1 && strings.EqualFold(name[cut:], mark) && name[cut-1] == ' ' {
			thing := strings.TrimSpace(name[:cut])
			p.err(codeSwallowed, at.Start+cut, at.End, "a bar is missing before `%s`", mark).
				WithHelp("write `%s`", p.afterBar(ln, thing, mark)).
				Replace("put it after a bar", false, p.span(at.Start, noteEnd(ln)), p.afterBar(ln, thing, mark))
			return
		}
	}
	if p.checkTail(ln) {
		return
	}
	low := lower(ln.Name.Text)
	if i := quantity.IndexFold(ln.Name.Text, " or "); i > 0 && len(ln.Name.Text) > i+4 {
		d := p.question(codeOr, at.Start, at.End, "`%s` is read as the name of one thing", ln.Name.Text).
			WithHelp("for a choice, put the second below the line: `instead %s`", strings.TrimSpace(ln.AmountAt.Text+" "+ln.Name.Text[i+4:])).
			WithHelp("for one thing of that name, put quotes round it: `\"%s\"`", ln.Name.Text)
		d.Replace("put quotes round it", true, at, `"`+ln.Name.Text+`"`)
	}
	if c := low; c != "" {
		switch {
		case startsSmall(c):
			p.err(codeName, at.Start, at.End, "a name does not begin with `%s`", strings.Fields(c)[0]).
				WithHelp("put the amount or the thing before it, or quotes round the name")
		case strings.HasPrefix(c, "–"), strings.HasPrefix(c, "—"), strings.HasPrefix(c, "•"), c[0] == '-', c[0] == '*', c[0] == '#':
			p.err(codeName, at.Start, at.End, "a name begins with a letter").WithHelp("put quotes round it if the sign belongs to it")
		}
	}
}

// noteEnd is where a line ends but for its margin.
func noteEnd(ln *ast.Line) int {
	return max(ln.Name.Span.End, ln.Brackets.Span.End, ln.Note.Span.End)
}

// afterBar is a thing with its bracket and note, and a mark in its margin.
func (p *parser) afterBar(ln *ast.Line, thing, mark string) string {
	return thing + p.text[ln.Name.Span.End:noteEnd(ln)] + " | " + mark
}

// checkNote looks at a note, and behind a name, for an amount that nothing counts:
// "one egg, or two if they are small", "100 g sugar, plus 1 tbsp for the tin".
func (p *parser) checkNote(ln *ast.Line) {
	if low := lower(ln.Name.Text); strings.HasSuffix(low, " in equal parts") || strings.HasSuffix(low, " in equal quantities") || strings.HasPrefix(low, "equal parts ") {
		p.question(codeOr, ln.Name.Span.Start, ln.Name.Span.End, "`%s` is read as one thing", shorten(ln.Name.Text)).
			WithHelp("write a line for each of them, with its own amount")
	}
	note := ln.Note.Text
	n, word := matchGroup(note, "or"), "or"
	if n == 0 {
		n, word = matchGroup(note, "plus"), "plus"
	}
	if n == 0 || ln.Amount == nil {
		return
	}
	n += blanks(note[n:])
	a, used, _ := quantity.ReadAmount(note[n:]+" of it", p.opt)
	if used == 0 || a.IsNone() || n+used > len(note) {
		return
	}
	at := ln.Note.Span
	if word == "plus" {
		p.question(quantity.CodePlus, at.Start, at.End, "`%s` is not counted", shorten(note)).
			Because("the amount before the name is scaled and bought, and this stays as it is").
			WithHelp("add it to the amount, or write a line of its own for it")
		return
	}
	p.question(codeOr, at.Start, at.End, "%s, %s: which is it", ln.Name.Text, shorten(note)).
		Because("the amount before the name is scaled and bought, and this stays as it is").
		WithHelp("write the amount that is meant, or a range such as `1 to 2`")
}

// startsSmall tells whether a name begins with a word that joins things.
func startsSmall(low string) bool {
	for _, w := range [...]string{"per", "plus", "to", "of", "or", "and", "x", "×"} {
		if matchGroup(low, w) > 0 {
			return true
		}
	}
	return false
}

// checkTail looks for an amount behind a name, a note without its comma, and
// an article after an amount.
func (p *parser) checkTail(ln *ast.Line) bool {
	name, at := ln.Name.Span.Text(), ln.Name.Span.Start
	for _, sign := range [...]string{" - ", " – ", " — ", "; "} {
		if i := strings.Index(name, sign); i > 0 {
			p.question(codeDashInName, at+i, at+i+len(sign), "`%s` is read as a name", shorten(ln.Name.Text)).
				Because("only a comma ends a name").
				WithHelp("write `%s, %s`", strings.TrimSpace(name[:i]), strings.TrimSpace(name[i+len(sign):])).
				Replace("put a comma", true, p.span(at+i, at+i+len(sign)), ", ")
			return true
		}
	}
	if ln.Amount != nil {
		for _, w := range [...]string{"a", "an", "the"} {
			if n := matchGroup(name, w); n > 0 && n < len(name) {
				n += blanks(name[n:])
				p.err(codeName, at, at+n, "after an amount stands the name, without `%s`", w).
					WithHelp("write `%s %s`", ln.AmountAt.Text, name[n:]).
					Replace("leave it out", true, p.span(at, at+n), "")
				return true
			}
		}
		return false
	}
	for i := 1; i < len(name); i++ {
		if name[i-1] != ' ' || !startsNumber(name[i:]) {
			continue
		}
		if _, n, probs := quantity.ReadMeasure(name[i:], p.opt); n == len(name)-i && len(probs) == 0 {
			right := name[i:] + " " + strings.TrimSpace(name[:i])
			p.err(codeAmountLast, at+i, at+len(name), "the amount stands before the name").
				Because("here it would be part of the name, and nothing would be weighed").
				WithHelp("write `%s`", right).
				Replace("write "+right, false, ln.Name.Span, right)
			return true
		}
	}
	return false
}

// explainLine reports why a gathered line did not read.
func (p *parser) explainLine(s *piece, from int, stuck tok, margin bool) {
	at := stuck.at
	switch {
	case len(s.toks) == 0:
		d := p.err(codeNoName, from, max(s.end, from+1), "there is nothing before this bar")
		if margin {
			d.WithHelp("put the name before it, or indent it below the line it belongs to")
		}
	case stuck.kind == tComma && at == from, stuck.kind == tBracket && at == from:
		p.err(codeNoName, from, s.end, "the name is missing").
			Because("a line is amount, name, then a comma and what the cook should know").
			WithHelp("put the name before it")
	case stuck.kind == -1 && s.toks[len(s.toks)-1].kind == tComma:
		p.err(codeAfterName, s.end-1, s.end, "nothing follows this comma").
			Replace("take it out", true, p.span(s.end-1, s.end), "")
	case stuck.kind == -1, stuck.kind == tComma, stuck.kind == tBracket:
		p.err(codeNoName, from, s.end, "the name is missing after the amount").
			WithHelp("write what it is an amount of")
	case p.text[at] == '(':
		p.err(codeAfterName, at, s.end, "these brackets do not close").WithHelp("brackets hold a few words, and no other brackets")
	case p.text[at] == ')':
		p.err(codeAfterName, at, at+1, "this bracket was never opened").Replace("take it out", false, p.span(at, at+1), "")
	case strings.IndexByte(":+\"", p.text[at]) >= 0:
		p.err(codeName, at, s.end, "a name contains no `%c`", p.text[at]).
			Because("a name ends at a comma, a bar, a bracket, a colon, a quote or a plus").
			WithHelp("put a comma before what is for the cook, or quotes round a name with such signs")
	case len(s.toks) > 1 && s.toks[len(s.toks)-2].kind == tBracket:
		p.err(codeAfterName, at, s.end, "after the brackets stands a comma, or nothing").
			WithHelp("put a comma before %s", p.quote(at, s.end)).
			Replace("put a comma", false, p.span(at, at), ", ")
	default:
		p.err(codeAfterName, at, s.end, "%s does not belong to the name", p.quote(at, s.end)).
			WithHelp("put a comma before what is for the cook")
	}
}
