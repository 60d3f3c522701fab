// Package markdown writes a document as Markdown: CommonMark with the tables that GitHub and
// most others read. What the writer's words have of marks is taken literally.
//
// Read this file first, then blocks.go, which writes each block of a document.
package markdown

import (
	"fmt"
	"io"
	"strings"

	"tamis/compiler/sheets"
	"tamis/render/runes"
)

// Write writes doc as Markdown. It fails only when w does.
func Write(w io.Writer, doc *sheets.Document) error {
	p := &printer{doc: doc}
	p.line("# " + word(doc.Title))
	p.facts(doc.Facts())
	if doc.Revision != "" {
		p.para("Revision " + word(doc.Revision))
	}
	for i := range doc.Sheets {
		p.sheet(&doc.Sheets[i])
	}
	if _, err := io.WriteString(w, p.b.String()); err != nil {
		return fmt.Errorf("markdown: %w", err)
	}
	return nil
}

type printer struct {
	b   strings.Builder
	doc *sheets.Document
}

func (p *printer) line(s string) { p.b.WriteString(s + "\n") }

// gap makes sure that an empty line stands before what follows.
func (p *printer) gap() {
	if s := p.b.String(); s != "" && !strings.HasSuffix(s, "\n\n") {
		p.b.WriteByte('\n')
	}
}

// para writes a paragraph of words that are marked already.
func (p *printer) para(s string) {
	if s = strings.TrimSpace(s); s != "" {
		p.gap()
		p.line(first(s))
	}
}

func (p *printer) facts(list []string) {
	var out []string
	for _, s := range list {
		if s != "" {
			out = append(out, word(s))
		}
	}
	p.para(strings.Join(out, " · "))
}

func (p *printer) sheet(s *sheets.Sheet) {
	p.gap()
	title := word(s.Title)
	if s.Letter != "" {
		title = word(s.Letter) + " · " + title
	}
	p.line("## " + title)
	p.facts(s.Facts)
	before, after := s.Around()
	for _, b := range before {
		p.block(b)
	}
	if s.Contents {
		p.gap()
		for _, c := range p.doc.Sheets {
			if !c.Contents {
				p.line("- " + strings.TrimSpace(word(c.Letter)+" "+word(c.Title)))
			}
		}
	}
	for _, b := range after {
		p.block(b)
	}
}

var marks = strings.NewReplacer(`\`, `\\`, "*", `\*`, "_", `\_`, "`", "\\`", "[", `\[`, "]", `\]`, "<", "&lt;", "&", "&amp;", "|", `\|`, "~", `\~`)

// word is a text of ours or of the writer's with no mark in it.
func word(s string) string { return marks.Replace(runes.Clean(s)) }

// first keeps the first sign of a line from being one of Markdown's: a heading, an item, a
// number, a quotation.
func first(s string) string {
	if s = strings.TrimLeft(s, " "); s == "" {
		return s
	}
	switch s[0] {
	case '#', '+', '-', '>', '=':
		return `\` + s
	}
	digits := 0
	for digits < len(s) && s[digits] >= '0' && s[digits] <= '9' {
		digits++
	}
	if digits > 0 && digits < len(s) && (s[digits] == '.' || s[digits] == ')') {
		return s[:digits] + `\` + s[digits:]
	}
	return s
}

// markOf is the mark of a run's style; empty: it has none.
func markOf(r sheets.Run) string {
	switch r.Style {
	case sheets.Strong, sheets.Thing:
		return "**"
	case sheets.Emph:
		return "*"
	}
	return ""
}

// words are runs with their styles. Neighbours that look alike are one: marks that meet
// would be read as text.
func words(list []sheets.Run) string {
	var b strings.Builder
	for i := 0; i < len(list); i++ {
		r := list[i]
		for i+1 < len(list) && markOf(list[i+1]) == markOf(r) && list[i+1].Link == r.Link {
			i++
			r.Text += list[i].Text
		}
		text := word(r.Text)
		if mark := markOf(r); mark != "" {
			text = wrap(text, mark)
		}
		if r.Outside() {
			text = "[" + text + "](<" + strings.NewReplacer("<", "%3C", ">", "%3E").Replace(runes.Clean(r.Link)) + ">)"
		}
		b.WriteString(text)
	}
	return b.String()
}

// wrap puts marks close around the words of a text, its blanks outside.
func wrap(s, mark string) string {
	bare := strings.TrimSpace(s)
	if bare == "" {
		return s
	}
	i := strings.Index(s, bare)
	return s[:i] + mark + bare + mark + s[i+len(bare):]
}
