package parse

import (
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
		return
	}
	for _, said := range [...]ast.Text{ln.Brackets, ln.Note} {
		amount, n := p.leads(said.Text)
		if n == 0 {
			continue
		}
		right := amount + " " + ln.Name.Text
		if rest := strings.TrimLeft(said.Text[n:], ", "); rest != "" {
			right += ", " + rest
		}
		p.question(codeFigure, said.Span.Start, said.Span.Start+n, "`%s` behind the name is not counted", amount).
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

// leads reads an amount at the start of a note that ends there, or at a comma.
func (p *parser) leads(note string) (amount string, n int) {
	if note == "" {
		return "", 0
	}
	end := len(note)
	if i := strings.IndexByte(note, ','); i >= 0 {
		end = i
	}
	amount = strings.TrimSpace(note[:end])
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
