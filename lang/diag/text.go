package diag

import (
	"bytes"
	"fmt"
	"io"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/width"

	"tamis/lang/cores"
	"tamis/lang/source"
)

// TextOptions say how findings are printed for a person.
type TextOptions struct {
	Colour bool // mark with the colours of a terminal
	Width  int  // columns to keep to; 0 means 100
}

// The colours, as ANSI sequences.
const (
	colourOff  = "\x1b[0m"
	colourBold = "\x1b[1m"
	colourDim  = "\x1b[2m"
)

var colourOf = map[Severity]string{Error: "\x1b[1;31m", Warning: "\x1b[1;33m", Question: "\x1b[1;36m", Hint: "\x1b[1;34m"}

// WriteText prints findings one after another, each with its place, the line
// it is about, why it matters and what to try.
func WriteText(w io.Writer, list []Diagnostic, opt TextOptions) error {
	if opt.Width <= 0 {
		opt.Width = 100
	}
	opt.Width = max(opt.Width, 40)
	for first := true; len(list) > 0; first = false {
		now := list[:min(len(list), atOnce*together)]
		texts := make([]bytes.Buffer, (len(now)+together-1)/together)
		cores.Each(len(texts), func(i int) {
			for k, d := range now[i*together : min(len(now), (i+1)*together)] {
				if i > 0 || k > 0 || !first {
					texts[i].WriteByte('\n')
				}
				p := printer{w: &texts[i], opt: opt, colour: colourOf[d.Severity]}
				p.print(d)
			}
		})
		for i := range texts {
			if _, err := w.Write(texts[i].Bytes()); err != nil {
				return err
			}
		}
		list = list[len(now):]
	}
	return nil
}

// The findings of a large book are many: so many are printed one after another, and so many
// of these on all cores before they are written.
const (
	together = 128
	atOnce   = 64
)

type printer struct {
	w      *bytes.Buffer
	opt    TextOptions
	colour string
	gutter int
}

func (p *printer) in(colour, text string) string {
	if !p.opt.Colour {
		return text
	}
	return colour + text + colourOff
}

func (p *printer) print(d Diagnostic) {
	fmt.Fprint(p.w, p.in(p.colour, d.Severity.String()+"["+d.Code+"]"))
	if !d.At.Span.IsZero() {
		fmt.Fprint(p.w, " ", p.in(colourBold, place(d.At.Span)))
	}
	p.w.WriteByte('\n')
	p.paragraph("  ", "  ", d.Message)
	p.gutter = gutter(d)
	p.excerpt(d.At, '^', p.colour)
	for _, r := range d.Related {
		p.related(d, r)
	}
	if d.Why != "" {
		p.paragraph("  why  ", "       ", d.Why)
	}
	for _, h := range d.Help {
		p.paragraph("  try  ", "       ", h)
	}
	for _, f := range d.Fixes {
		if len(d.Help) == 0 {
			p.paragraph("  try  ", "       ", f.Title)
		}
	}
}

// place is "path:12:7".
func place(s source.Span) string {
	at := s.Position()
	return clean(s.File.Name) + ":" + strconv.Itoa(at.Line) + ":" + strconv.Itoa(at.Column)
}

// gutter is the room for line numbers.
func gutter(d Diagnostic) int {
	most := 0
	for _, l := range append([]Label{d.At}, d.Related...) {
		if !l.Span.IsZero() {
			most = max(most, l.Span.File.Position(l.Span.End).Line)
		}
	}
	return max(3, len(strconv.Itoa(most)))
}

func (p *printer) related(d Diagnostic, r Label) {
	if r.Span.IsZero() {
		p.paragraph("  see  ", "       ", r.Text)
		return
	}
	text := place(r.Span)
	if r.Text != "" {
		text += "  " + r.Text
	}
	p.paragraph("  see  ", "       ", text)
	p.excerpt(Label{Span: r.Span}, '-', colourDim)
}

// paragraph prints text, broken at blanks to the width.
func (p *printer) paragraph(first, next, text string) {
	lead := first
	column := len(lead)
	p.w.WriteString(p.in(colourDim, lead))
	begun := false
	for _, word := range strings.Fields(clean(text)) {
		n := columns(word)
		if begun && column+1+n > p.opt.Width {
			p.w.WriteString("\n" + next)
			column, begun = len(next), false
		}
		if begun {
			p.w.WriteByte(' ')
			column++
		}
		p.w.WriteString(word)
		column += n
		begun = true
	}
	p.w.WriteByte('\n')
}

// excerpt prints the line a label is about with its span underlined; of a span
// over several lines, the first and the last.
func (p *printer) excerpt(l Label, mark rune, colour string) {
	if l.Span.IsZero() {
		return
	}
	f := l.Span.File
	first := f.Position(l.Span.Start).Line
	last := f.Position(max(l.Span.Start, l.Span.End-1)).Line
	from := f.LineSpan(first)
	if first == last {
		p.line(first, from, l.Span.Start, l.Span.End, l.Text, mark, colour)
		return
	}
	p.line(first, from, l.Span.Start, from.End, "", mark, colour)
	if last > first+1 {
		fmt.Fprintf(p.w, "  %*s …\n", p.gutter, "")
	}
	to := f.LineSpan(last)
	start := to.Start
	for start < to.End && (f.Text[start] == ' ' || f.Text[start] == '\t') {
		start++
	}
	p.line(last, to, start, min(l.Span.End, to.End), l.Text, mark, colour)
}

// line prints one line of the text and the underline below it. A line that is
// too long is cut on both sides of the span.
func (p *printer) line(number int, line source.Span, start, end int, label string, mark rune, colour string) {
	f := line.File
	start = min(max(start, line.Start), line.End)
	end = min(max(end, start), line.End)
	room := max(20, p.opt.Width-p.gutter-5)
	a, b := window(f.Text, line.Start, line.End, start, end, room)
	end = min(end, b)
	head, lead := shown(f.Text[a:start], 0)
	mid, under := shown(f.Text[start:end], lead)
	tail, _ := shown(f.Text[end:b], lead+under)
	if a > line.Start {
		head = "…" + head
		lead++
	}
	if b < line.End {
		tail += "…"
	}
	fmt.Fprintf(p.w, "  %s %s\n", p.in(colourDim, fmt.Sprintf("%*d |", p.gutter, number)), strings.TrimRight(head+mid+tail, " "))
	marks := strings.Repeat(string(mark), max(1, under))
	fmt.Fprintf(p.w, "  %s %s%s", p.in(colourDim, fmt.Sprintf("%*s |", p.gutter, "")), strings.Repeat(" ", lead), p.in(colour, marks))
	if label != "" {
		p.w.WriteString(" " + p.in(colour, clean(label)))
	}
	p.w.WriteByte('\n')
}

// window chooses the part of a line that is printed, in at most room columns
// or so, with the span well inside.
func window(text string, from, to, start, end, room int) (a, b int) {
	if to-from <= room {
		return from, to
	}
	keep := room / 3
	a = max(from, start-keep)
	if start-from <= room/2 {
		a = from
	}
	b = min(to, max(a+room-2, start+min(end-start, room/2)))
	for a > from && !utf8.RuneStart(text[a]) {
		a--
	}
	for b < to && !utf8.RuneStart(text[b]) {
		b++
	}
	return a, b
}

// tabStop is how far apart tabs are printed.
const tabStop = 4

// shown is a text as it is printed from a column on, and the columns it takes.
// What a terminal would obey, or not show, is made visible.
func shown(text string, column int) (string, int) {
	var b strings.Builder
	n := 0
	for i, r := range text {
		switch {
		case r == utf8.RuneError && !strings.HasPrefix(text[i:], "\ufffd"):
			fmt.Fprintf(&b, "<%02X>", text[i])
			n += 4
		case r == '\t':
			k := tabStop - (column+n)%tabStop
			b.WriteString(strings.Repeat(" ", k))
			n += k
		case hidden(r):
			s := fmt.Sprintf("<U+%04X>", r)
			b.WriteString(s)
			n += len(s)
		default:
			b.WriteRune(r)
			n += runeColumns(r)
		}
	}
	return b.String(), n
}

// clean makes visible what a terminal would obey.
func clean(text string) string {
	for _, r := range text {
		if hidden(r) || r == utf8.RuneError {
			s, _ := shown(text, 0)
			return s
		}
	}
	return text
}

func columns(text string) (n int) {
	for _, r := range text {
		n += runeColumns(r)
	}
	return n
}

// runeColumns is how many columns of a terminal a rune takes.
func runeColumns(r rune) int {
	if r < 0x300 {
		return 1
	}
	if unicode.In(r, unicode.Mn, unicode.Me) {
		return 0
	}
	switch width.LookupRune(r).Kind() {
	case width.EastAsianWide, width.EastAsianFullwidth:
		return 2
	}
	return 1
}
