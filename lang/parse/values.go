package parse

import (
	"strconv"
	"strings"

	"tamis/lang/ast"
	"tamis/lang/diag"
	"tamis/lang/quantity"
)

// fail reports an error of this piece, once; further ones are thrown away.
func (s *piece) fail(code string, from, to int, format string, args ...any) *diag.Diagnostic {
	if s.failed {
		return &diag.Diagnostic{}
	}
	s.failed = true
	return s.p.err(code, from, to, format, args...)
}

// slip reports an error that no other one of the piece can have caused.
func (s *piece) slip(code string, from, to int, format string, args ...any) *diag.Diagnostic {
	s.failed = true
	return s.p.err(code, from, to, format, args...)
}

// problems reports what lang/quantity found in the text at i. A question does
// not spoil the piece.
func (s *piece) problems(i int, probs []quantity.Problem) {
	for _, q := range probs {
		if q.Hint {
			s.p.problem(i, q, diag.Hint)
			continue
		}
		if q.Ask {
			s.p.problem(i, q, diag.Question)
			continue
		}
		if !s.failed {
			s.p.problem(i, q, diag.Error)
			s.failed = true
		}
	}
}

func (p *parser) problem(i int, q quantity.Problem, severity diag.Severity) {
	at := p.span(i+q.Start, i+q.End)
	if p.quiet(at.Start) {
		return
	}
	d := diag.Diagnostic{Code: q.Code, Severity: severity, Message: q.Message, At: diag.Label{Span: at}}
	if q.Help != "" {
		d.Help = []string{q.Help}
	}
	if q.Fix != "" {
		d.Fixes = []diag.Fix{{Title: "write " + q.Fix, Edits: []diag.Edit{{Span: at, Text: q.Fix}}}}
	}
	p.diags.Add(d)
}

// dateLen is the length of something shaped like a date, right or wrong.
func dateLen(text string) int {
	n := 0
	for n < len(text) && (text[n] >= '0' && text[n] <= '9' || text[n] == '-' || text[n] == '/' || text[n] == '.') {
		n++
	}
	t := text[:n]
	if strings.Count(t, "-")+strings.Count(t, "/")+strings.Count(t, ".") == 2 && n >= 6 {
		return n
	}
	return 0
}

// date reads 2027-09-19; other ways of writing a date are reported.
func (s *piece) date(i int, text string) int {
	n := dateLen(text)
	if n == 0 {
		return 0
	}
	t := text[:n]
	parts := strings.FieldsFunc(t, func(r rune) bool { return r == '-' || r == '/' || r == '.' })
	var v [3]int
	for k := 0; k < len(parts) && k < 3; k++ {
		v[k], _ = strconv.Atoi(parts[k])
	}
	d := ast.Date{Year: v[0], Month: v[1], Day: v[2]}
	iso := len(t) == 10 && t[4] == '-' && t[7] == '-'
	switch {
	case iso && validDate(d):
	case iso:
		s.slip(codeDate, i, i+n, "there is no such day").WithHelp("look at the month and the day: a date is year-month-day")
	case len(parts) == 3 && len(parts[0]) == 4 && validDate(d):
		s.badDate(i, n, d)
	case len(parts) == 3 && len(parts[2]) == 4 && v[0] > 12 && validDate(ast.Date{Year: v[2], Month: v[1], Day: v[0]}):
		d = ast.Date{Year: v[2], Month: v[1], Day: v[0]}
		s.badDate(i, n, d)
	case len(parts) == 3 && len(parts[2]) == 4 && v[1] > 12 && validDate(ast.Date{Year: v[2], Month: v[0], Day: v[1]}):
		d = ast.Date{Year: v[2], Month: v[0], Day: v[1]}
		s.badDate(i, n, d)
	default:
		s.slip(codeDate, i, i+n, "this date can be read in more than one way").
			WithHelp("write year-month-day, as in `2027-09-19`")
	}
	return s.add(tDate, i, i+n, d) - i
}

func (s *piece) badDate(i, n int, d ast.Date) {
	iso := pad(d.Year, 4) + "-" + pad(d.Month, 2) + "-" + pad(d.Day, 2)
	s.slip(codeDate, i, i+n, "a date is written year-month-day").
		Replace("write "+iso, true, s.p.span(i, i+n), iso).
		WithHelp("write `%s`", iso)
}

func pad(n, width int) string {
	t := strconv.Itoa(n)
	for len(t) < width {
		t = "0" + t
	}
	return t
}

func validDate(d ast.Date) bool {
	if d.Year < 1 || d.Month < 1 || d.Month > 12 || d.Day < 1 {
		return false
	}
	days := [...]int{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31}[d.Month-1]
	if d.Month == 2 && d.Year%4 == 0 && (d.Year%100 != 0 || d.Year%400 == 0) {
		days = 29
	}
	return d.Day <= days
}

// clock reads 13:00; other ways of writing a time of day are reported.
func (s *piece) clock(i int, text string) int {
	n := 0
	digits := func() (v, k int) {
		for n < len(text) && k < 3 && text[n] >= '0' && text[n] <= '9' {
			v = v*10 + int(text[n]-'0')
			n++
			k++
		}
		return v, k
	}
	h, hk := digits()
	m, mk := 0, 0
	sign := byte(0)
	if hk > 0 && n+1 < len(text) && strings.IndexByte(":.h", text[n]) >= 0 && text[n+1] >= '0' && text[n+1] <= '9' {
		sign = text[n]
		n++
		m, mk = digits()
	}
	if hk == 0 {
		return 0
	}
	half := ""
	k := n + blanks(text[n:])
	for _, w := range []string{"am", "pm", "a.m.", "p.m."} {
		if len(text)-k >= len(w) && strings.EqualFold(text[k:k+len(w)], w) && wordEnd(text[k+len(w):]) {
			half, n = w[:1], k+len(w)
			break
		}
	}
	if sign == 0 && half == "" || sign == 'h' && mk != 2 {
		return 0
	}
	if half == "" && n < len(text) && !wordEnd(text[n:]) || half == "" && sign == '.' && mk != 2 {
		return 0
	}
	switch {
	case half == "p" && h < 12:
		h += 12
	case half == "a" && h == 12:
		h = 0
	}
	right := pad(h, 2) + ":" + pad(m, 2)
	switch {
	case h > 23 || m > 59 || mk == 1:
		s.slip(codeClock, i, i+n, "there is no such time of day").WithHelp("write hours from 00 to 23 and minutes from 00 to 59, as in `13:00`")
		h, m = 0, 0
	case half != "" || sign != ':' || hk != 2:
		s.slip(codeClock, i, i+n, "a time of day is written with 24 hours and two figures each side").
			WithHelp("write `%s`", right).
			Replace("write "+right, true, s.p.span(i, i+n), right)
	}
	return s.add(tClock, i, i+n, ast.Clock{Hour: h, Minute: m}) - i
}

var fractionWords = map[string]quantity.Number{
	"half": quantity.Frac(1, 2), "third": quantity.Frac(1, 3), "thirds": quantity.Frac(1, 3),
	"quarter": quantity.Frac(1, 4), "quarters": quantity.Frac(1, 4), "fifth": quantity.Frac(1, 5), "fifths": quantity.Frac(1, 5),
	"sixth": quantity.Frac(1, 6), "sixths": quantity.Frac(1, 6), "eighth": quantity.Frac(1, 8), "eighths": quantity.Frac(1, 8),
	"tenth": quantity.Frac(1, 10), "tenths": quantity.Frac(1, 10),
}

var shareCounts = map[string]int64{"a": 1, "an": 1, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "seven": 7}

// readShare reads a share before a name: half the, a third of the, 2/3 of the,
// the rest of the, half the remaining, some of the. It takes the article too.
func readShare(text string) (*ast.Share, int) {
	w := wordReader{text: text}
	share := &ast.Share{}
	first := w.next()
	switch first {
	case "the":
		if r := w.next(); r == "rest" && w.skip("of") || r == "remaining" || r == "remainder" && w.skip("of") {
			share.Rest = true
			w.skip("the")
			return share, w.used()
		}
		return nil, 0
	case "some", "most":
		if !w.skip("of") {
			return nil, 0
		}
		share.Some = true
		w.skip("the")
		return share, w.used()
	}
	n := int64(1)
	count, counted := shareCounts[first]
	switch {
	case first == "half":
	case counted:
		f := w.next()
		if f == "little" && count == 1 {
			w.skip("of")
			w.skip("the")
			share.Some = true
			return share, w.used()
		}
		n, first = count, f
	default:
		v, end, probs := quantity.ReadNumber(text, quantity.Options{})
		if end == 0 || len(probs) > 0 || !v.Less(quantity.Int(1)) || v.Sign() <= 0 {
			return nil, 0
		}
		w.at = end
		share.Fraction = v
		first = ""
	}
	if first != "" {
		f, ok := fractionWords[first]
		if !ok {
			return nil, 0
		}
		share.Fraction = f.Mul(quantity.Int(n))
	}
	of := w.skip("of")
	the := w.skip("the")
	if !of && !the || first != "half" && !of {
		return nil, 0
	}
	if w.skip("rest") {
		if !w.skip("of") {
			return nil, 0
		}
		w.skip("the")
		share.OfRest = true
	} else if w.skip("remaining") {
		share.OfRest = true
	}
	return share, w.used()
}

// wordReader walks over the words of a text.
type wordReader struct {
	text string
	at   int
}

func (w *wordReader) next() string {
	w.at += blanks(w.text[w.at:])
	n := w.at
	for n < len(w.text) && w.text[n] < 0x80 && isKeyByte(w.text[n]) {
		n++
	}
	word := lower(w.text[w.at:n])
	w.at = n
	return word
}

func (w *wordReader) skip(word string) bool {
	at := w.at
	if w.next() == word {
		return true
	}
	w.at = at
	return false
}

// used is the length read, if a word follows; else 0.
func (w *wordReader) used() int {
	if b := blanks(w.text[w.at:]); b == 0 || w.at+b == len(w.text) {
		return 0
	}
	return w.at
}
