// Package html writes a document as one web page that needs nothing else: no
// network, no script, no font. It reads on a phone and prints as sheets.
//
// Read this file first, then blocks.go, which writes each block of a document; the other
// files write the larger kinds.
package html

import (
	"bytes"
	"crypto/sha256"
	_ "embed"
	"encoding/base64"
	"fmt"
	"html"
	"io"
	"strings"

	"tamis/compiler/sheets"
	"tamis/render/bidi"
	"tamis/render/page"
	"tamis/render/runes"
)

//go:embed style.css
var style string

//go:embed live.js
var script string

// Write writes doc as HTML. The same document gives the same bytes. It fails
// only when w does.
func Write(w io.Writer, doc *sheets.Document) error {
	p := &printer{doc: doc, marks: map[string]int{}, ids: map[string]string{}, taken: map[string]bool{"now": true, "sheets": true}}
	for i, d := range doc.Dishes {
		p.marks[d.Letter] = i
	}
	p.year = yearOf(doc.When)
	for i := range doc.Sheets {
		p.slugs = append(p.slugs, p.slug(doc.Sheets[i].ID))
	}
	p.document()
	if _, err := w.Write(p.b.Bytes()); err != nil {
		return fmt.Errorf("html: %w", err)
	}
	return nil
}

// Policy is what a page may load and run (Content Security Policy): its own script, and
// nothing from elsewhere.
func Policy() string {
	return "default-src 'none'; style-src 'unsafe-inline'; img-src data:; script-src " + Allowed(script)
}

// Allowed is how a policy names a script or a style that stands in a page.
func Allowed(text string) string {
	sum := sha256.Sum256([]byte(text))
	return "'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
}

// printer writes one document.
type printer struct {
	b     bytes.Buffer
	doc   *sheets.Document
	marks map[string]int    // letter -> index into doc.Dishes
	ids   map[string]string // sheet ID -> fragment
	slugs []string          // of each sheet
	taken map[string]bool
	ticks int  // boxes so far
	count int  // things that needed an id
	deep  bool // a heading was seen in this sheet
	title string
	files map[string]string // of a book: sheet ID -> file; nil: all is one page
	up    int               // by how many levels its headings are higher than on one page
	year  int               // of the serving; 0 when there is no date
}

// raw writes markup of ours.
func (p *printer) raw(format string, args ...any) {
	if len(args) == 0 {
		p.b.WriteString(format)
		return
	}
	fmt.Fprintf(&p.b, format, args...)
}

// esc makes any text fit to stand in an element or a quoted attribute. A figure is never
// parted from its degrees.
func esc(s string) string {
	return strings.ReplaceAll(html.EscapeString(runes.Clean(s)), " °", "\u00a0°")
}

// dir sets text off that has letters running to the left, so that they order
// nothing but themselves; its first letter says where it begins.
func dir(s string) string {
	if bidi.Mixed(s) {
		return " dir=\"auto\""
	}
	return ""
}

func (p *printer) text(s string) { p.b.WriteString(esc(s)) }

// slug makes a sheet's ID fit for a fragment, unlike all before it.
func (p *printer) slug(id string) string {
	s := strings.Map(func(r rune) rune {
		if r == '-' || r == '_' || r >= '0' && r <= '9' || r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' {
			return r
		}
		return '-'
	}, id)
	if s == "" {
		s = "sheet"
	}
	free := s
	for n := 2; p.taken[free]; n++ {
		free = fmt.Sprintf("%s-%d", s, n)
	}
	p.taken[free] = true
	if _, ok := p.ids[id]; !ok {
		p.ids[id] = free
	}
	return free
}

// fresh is an id for a part of the page that is no sheet.
func (p *printer) fresh(prefix string) string {
	for {
		p.count++
		id := fmt.Sprintf("%s%d", prefix, p.count)
		if !p.taken[id] {
			p.taken[id] = true
			return id
		}
	}
}

func (p *printer) document() {
	lang := tag(p.doc.Language)
	if lang == "" {
		lang = "en"
	}
	title := runes.Clean(p.doc.Title)
	if strings.TrimSpace(title) == "" {
		title = "Sheets"
	}
	p.raw("<!DOCTYPE html>\n<html lang=\"%s\">\n<head>\n<meta charset=\"utf-8\">\n", lang)
	p.raw("<meta http-equiv=\"Content-Security-Policy\" content=\"%s\">\n", Policy())
	p.raw("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<meta name=\"color-scheme\" content=\"light dark\">\n<title>%s</title>\n<style>\n%s%s</style>\n</head>\n", esc(title), style, p.running())
	p.raw("<body data-rev=\"%s\"", esc(p.doc.Revision))
	if p.doc.Zone != "" {
		p.raw(" data-zone=\"%s\"", esc(p.doc.Zone))
	}
	p.raw(">\n")
	p.stripes()
	if len(p.doc.Sheets) > 1 {
		p.raw("<a class=\"skip\" href=\"#sheets\">Skip to the sheets</a>\n")
	}
	p.raw("<header class=\"front\">\n<h1%s>%s</h1>\n", dir(title), esc(title))
	p.facts("facts", p.doc.Facts())
	p.raw("</header>\n")
	p.beside()
	p.nav()
	p.raw("<main id=\"sheets\">\n")
	for i := range p.doc.Sheets {
		p.sheet(i)
	}
	if len(p.doc.Sheets) == 0 {
		p.raw("<p>Nothing to print.</p>\n")
	}
	p.raw("</main>\n")
	if p.doc.Revision != "" {
		p.raw("<footer class=\"foot\"><p>Revision %s</p></footer>\n", esc(p.doc.Revision))
	}
	p.raw("<script>%s</script>\n</body>\n</html>\n", script)
}

// running is the style of the heads and feet of printed pages: what the
// document is, its revision, page n of m (CSS Paged Media, margin boxes).
func (p *printer) running() string {
	head := strings.Join(nonEmpty(p.doc.Title, p.doc.Covers, p.doc.When), " · ")
	rev := ""
	if p.doc.Revision != "" {
		rev = "Revision " + p.doc.Revision
	}
	const font = "font: 9pt var(--sans, sans-serif); "
	return fmt.Sprintf("@page {\n  @top-left { %scontent: %s; }\n  @bottom-left { %scontent: %s; }\n"+
		"  @bottom-right { %sfont-weight: 700; content: \"page \" counter(page) \" of \" counter(pages); }\n}\n",
		font, cssString(head), font, cssString(rev), font)
}

// cssString quotes s for a style sheet; what is not a plain letter or figure
// is written by its code, so that no text can end the string or the element.
func cssString(s string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range runes.Clean(s) {
		if r >= '0' && r <= '9' || r >= 'A' && r <= 'Z' || r >= 'a' && r <= 'z' || r == ' ' || r == ',' || r == ':' {
			b.WriteRune(r)
		} else {
			fmt.Fprintf(&b, "\\%06x ", r)
		}
	}
	b.WriteByte('"')
	return b.String()
}

func nonEmpty(list ...string) (out []string) {
	for _, s := range list {
		if s != "" {
			out = append(out, s)
		}
	}
	return out
}

// tag keeps only what a language tag may hold (BCP 47).
func tag(s string) string {
	return strings.Map(func(r rune) rune {
		if r == '-' || r >= '0' && r <= '9' || r >= 'A' && r <= 'Z' || r >= 'a' && r <= 'z' {
			return r
		}
		return -1
	}, s)
}

// nav is the row of links to the sheets.
func (p *printer) nav() {
	if len(p.doc.Sheets) < 2 {
		return
	}
	p.raw("<nav class=\"sheets\" aria-label=\"Sheets\">\n<ul>\n")
	for i, s := range p.doc.Sheets {
		p.raw("<li><a href=\"#%s\">", p.slugs[i])
		if s.Letter != "" {
			p.mark(s.Letter, false)
			p.raw(" ")
		}
		p.raw("<span class=\"name\"%s>%s</span></a></li>\n", dir(s.Title), esc(orBlank(s.Title)))
	}
	p.raw("</ul>\n</nav>\n")
}

func orBlank(s string) string {
	if strings.TrimSpace(runes.Clean(s)) == "" {
		return "–"
	}
	return s
}

// sheet writes one sheet as a section.
func (p *printer) sheet(i int) {
	s := &p.doc.Sheets[i]
	p.deep = false
	p.title = orBlank(s.Title)
	id := p.slugs[i]
	class := "sheet"
	if s.Wide {
		class += " wide"
	}
	head := p.fresh("h-")
	p.raw("<section class=\"%s\" id=\"%s\" aria-labelledby=\"%s\">\n<div class=\"head\">\n", class, id, head)
	hide := ""
	if i == 0 && s.Title == p.doc.Title && s.Letter == "" {
		hide = " class=\"vh\"" // the title of the page says it already
	}
	p.raw("<h2 id=\"%s\"%s>", head, hide)
	if s.Letter != "" {
		p.mark(s.Letter, false)
		p.raw(" ")
	}
	p.raw("<span class=\"name\"%s>%s</span></h2>\n", dir(s.Title), esc(p.title))
	p.facts("facts", s.Facts)
	p.band(s.Letter)
	p.raw("</div>\n")
	p.key(page.Key(p.doc, s))
	before, after := s.Around()
	for _, b := range before {
		p.block(s, b)
	}
	if s.Contents {
		p.contents()
	}
	for _, b := range after {
		p.block(s, b)
	}
	p.raw("</section>\n")
}

// contents lists the other sheets.
func (p *printer) contents() {
	p.raw("<h3>Sheets</h3>\n<ul class=\"contents\">\n")
	for i, s := range p.doc.Sheets {
		if s.Contents {
			continue
		}
		p.raw("<li><a href=\"#%s\">", p.slugs[i])
		if s.Letter != "" {
			p.mark(s.Letter, true)
			p.raw(" ")
		}
		p.raw("<span class=\"name\"%s>%s</span></a></li>\n", dir(s.Title), esc(orBlank(s.Title)))
	}
	p.raw("</ul>\n")
}

// facts writes short facts as a list.
func (p *printer) facts(class string, list []string) {
	if len(list) == 0 {
		return
	}
	p.raw("<ul class=\"%s\">", class)
	for _, s := range list {
		p.raw("<li%s>%s</li>", dir(s), esc(s))
	}
	p.raw("</ul>\n")
}
