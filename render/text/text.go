// Package text writes a document as plain text for a terminal or a mail.
//
// Read this file first, then blocks.go, which writes each block of a document; wrap.go
// breaks lines.
package text

import (
	"fmt"
	"io"
	"strings"

	"tamis/compiler/sheets"
	"tamis/render/page"
	"tamis/render/runes"
)

// Options say how wide lines may be. Width 0 is 80; the least is 40.
type Options struct{ Width int }

// Write writes doc as plain text. It fails only when w does.
func Write(w io.Writer, doc *sheets.Document, opt Options) error {
	p := &printer{doc: doc, width: opt.Width}
	if p.width == 0 {
		p.width = 80
	}
	p.width = max(p.width, 40)
	p.document()
	if _, err := io.WriteString(w, p.b.String()); err != nil {
		return fmt.Errorf("text: %w", err)
	}
	return nil
}

// printer writes one document. Lines never end in spaces.
type printer struct {
	b     strings.Builder
	doc   *sheets.Document
	width int
}

// line writes one line.
func (p *printer) line(s string) {
	p.b.WriteString(strings.TrimRight(s, " "))
	p.b.WriteByte('\n')
}

// gap makes sure that one empty line stands before what follows.
func (p *printer) gap() {
	s := p.b.String()
	if s != "" && !strings.HasSuffix(s, "\n\n") {
		p.b.WriteByte('\n')
	}
}

// para writes words wrapped, the first line after first, the others after rest.
func (p *printer) para(first, rest, words string) {
	for i, l := range wrap(words, p.width-max(width(first), width(rest))) {
		if i == 0 {
			p.line(first + l)
		} else {
			p.line(rest + l)
		}
	}
}

func (p *printer) document() {
	p.para("", "", strings.ToUpper(runes.Clean(p.doc.Title)))
	p.facts("", p.doc.Facts())
	if p.doc.Revision != "" {
		p.para("", "", "Revision "+p.doc.Revision)
	}
	for i := range p.doc.Sheets {
		p.sheet(i)
	}
	if len(p.doc.Sheets) == 0 {
		p.line("Nothing to print.")
	}
}

// facts writes short facts, as many on a line as fit.
func (p *printer) facts(indent string, list []string) {
	row := ""
	for _, s := range list {
		s = runes.Clean(s)
		switch {
		case row == "":
			row = s
		case width(indent+row+" · "+s) <= p.width:
			row += " · " + s
		default:
			p.para(indent, indent, row)
			row = s
		}
	}
	p.para(indent, indent, row)
}

func (p *printer) sheet(i int) {
	s := &p.doc.Sheets[i]
	p.gap()
	p.b.WriteByte('\n')
	p.line(strings.Repeat("=", p.width))
	title := s.Title
	if s.Letter != "" {
		title = p.mark(s.Letter) + " " + title
	}
	p.para("", "", title)
	p.facts("", s.Facts)
	p.line(strings.Repeat("=", p.width))
	if marks := page.Key(p.doc, s); len(marks) > 0 {
		p.gap()
		for _, d := range marks {
			m := p.mark(d.Letter) + " "
			p.para(m, strings.Repeat(" ", width(m)), d.Name)
		}
	}
	before, after := s.Around()
	for _, b := range before {
		p.block(b)
	}
	if s.Contents {
		p.heading("Sheets", "")
		for _, c := range p.doc.Sheets {
			if c.Contents {
				continue
			}
			m := "    "
			if c.Letter != "" {
				m = pad(p.mark(c.Letter), 4)
			}
			p.para(m, strings.Repeat(" ", width(m)), c.Title)
		}
	}
	for _, b := range after {
		p.block(b)
	}
}

// mark is a letter in square brackets for a dish, in round ones for a base.
func (p *printer) mark(letter string) string {
	l := runes.Clean(letter)
	for _, d := range p.doc.Dishes {
		if d.Letter == letter && d.Base {
			return "(" + l + ")"
		}
	}
	return "[" + l + "]"
}

func (p *printer) heading(text, note string) {
	p.gap()
	if note != "" {
		text += " – " + note
	}
	lines := wrap(text, p.width)
	long := 0
	for _, l := range lines {
		p.line(l)
		long = max(long, width(l))
	}
	p.line(strings.Repeat("-", long))
}
