package html

import (
	"fmt"
	"slices"
	"strings"

	"tamis/compiler/sheets"
)

// block writes one block of a sheet.
func (p *printer) block(s *sheets.Sheet, b sheets.Block) {
	switch b := b.(type) {
	case *sheets.Heading:
		p.deep = true
		p.title = orBlank(b.Text)
		h := p.h(3)
		p.raw("<%s%s>%s", h, dir(b.Text), esc(p.title))
		if b.Note != "" {
			p.raw(" <span class=\"note\">%s</span>", esc(b.Note))
		}
		p.raw("</%s>\n", h)
	case *sheets.Prose:
		p.prose(b)
	case *sheets.Table:
		p.table(b)
	case *sheets.Steps:
		p.steps(b)
	case *sheets.Chart:
		p.chart(b)
	case *sheets.Board:
		p.board(b)
	case *sheets.Cautions:
		p.cautions(b)
	case *sheets.List:
		p.list(b)
	case *sheets.Alphabet:
		p.alphabet(b)
	case *sheets.Picture:
		p.picture(b)
	case *sheets.Masthead:
		p.masthead(b)
	}
}

// h is the tag of a heading of a level, as it is on one page.
func (p *printer) h(level int) string { return fmt.Sprintf("h%d", level-p.up) }

// runs writes a line of runs.
func (p *printer) runs(runs []sheets.Run) {
	for i := 0; i < len(runs); i++ {
		r := runs[i]
		for r.Link != "" && i+1 < len(runs) && runs[i+1].Link == r.Link && runs[i+1].Style == r.Style { // one link, not two side by side
			i++
			r.Text += runs[i].Text
		}
		if r.Text == "" {
			continue // it is for paper alone
		}
		open, end := "", ""
		switch r.Style {
		case sheets.Strong:
			open, end = "<strong>", "</strong>"
		case sheets.Emph:
			open, end = "<em>", "</em>"
		case sheets.Amount:
			open, end = "<b class=\"amt\">", "</b>"
		case sheets.Thing:
			open, end = "<span class=\"thing\">", "</span>"
		case sheets.Quiet:
			open, end = "<i class=\"quiet\">", "</i>"
		}
		if href := p.href(r.Link); href != "" {
			open, end = "<a href=\""+href+"\">"+open, end+"</a>"
		}
		p.raw("%s%s%s", open, esc(r.Text), end)
	}
}

// href is what a link leads to, ready to stand in an attribute: a sheet, or
// an address that a reader may follow; else nothing.
func (p *printer) href(link string) string {
	if id, ok := strings.CutPrefix(link, "#"); ok && p.files != nil {
		return p.files[id] // plain letters
	} else if ok {
		if slug, ok := p.ids[id]; ok {
			return "#" + slug
		}
		return ""
	}
	if file, ok := strings.CutPrefix(link, "doc:"); ok {
		for _, d := range p.doc.Folder {
			if d.File == file && d.Name != "" {
				return esc(percent(d.Name + ".html"))
			}
		}
		return ""
	}
	low := strings.ToLower(link)
	for _, scheme := range []string{"http://", "https://", "mailto:"} {
		if strings.HasPrefix(low, scheme) && len(link) > len(scheme) {
			return esc(percent(link))
		}
	}
	return ""
}

// percent writes what may not stand in an address as %XX (RFC 3986).
func percent(s string) string {
	const hex = "0123456789ABCDEF"
	var b strings.Builder
	for i := 0; i < len(s); i++ {
		c := s[i]
		switch {
		case c <= ' ' || c > '~' || strings.IndexByte("\"<>\\^`{|}[]", c) >= 0,
			c == '%' && (i+2 >= len(s) || strings.IndexByte(hexDigits, s[i+1]) < 0 || strings.IndexByte(hexDigits, s[i+2]) < 0):
			b.WriteByte('%')
			b.WriteByte(hex[c>>4])
			b.WriteByte(hex[c&15])
		default:
			b.WriteByte(c)
		}
	}
	return b.String()
}

const hexDigits = "0123456789abcdefABCDEF"

// prose writes paragraphs; items that follow each other become one list.
func (p *printer) prose(b *sheets.Prose) {
	class := "prose"
	if b.Small {
		class = "notes"
	}
	p.raw("<div class=\"%s\">\n", class)
	open := ""
	turn := func(want, attrs string) {
		if open == want {
			return
		}
		if open != "" {
			p.raw("</%s>\n", open)
		}
		if want != "" {
			p.raw("<%s%s>\n", want, attrs)
		}
		open = want
	}
	for _, q := range b.Paras {
		tag := "p"
		switch q.Kind {
		case sheets.Item:
			turn("ul", "")
			tag = "li"
		case sheets.Numbered:
			turn("ol", " class=\"numbered\"")
			p.raw("<li value=\"%d\"%s>", q.Number, dir(sheets.Words(q.Runs)))
			p.runs(q.Runs)
			p.raw("</li>\n")
			continue
		case sheets.Subhead:
			turn("", "")
			tag = p.h(3)
			if p.deep {
				tag = p.h(4)
			}
		case sheets.Quote:
			turn("blockquote", "")
		default:
			turn("", "")
		}
		if tag[0] == 'h' && strings.TrimSpace(sheets.Words(q.Runs)) == "" {
			continue
		}
		p.raw("<%s%s>", tag, dir(sheets.Words(q.Runs)))
		p.runs(q.Runs)
		p.raw("</%s>\n", tag)
	}
	turn("", "")
	p.raw("</div>\n")
}

// cautions stand together in a frame.
func (p *printer) cautions(b *sheets.Cautions) {
	if len(b.Items) == 0 {
		return
	}
	p.raw("<div class=\"care\">\n<%s>Take care</%[1]s>\n<ul>\n", p.h(3))
	for _, c := range b.Items {
		p.raw("<li%s>%s", dir(c.Text), esc(c.Text))
		if c.Source != "" {
			p.raw(" <cite>%s</cite>", esc(c.Source))
		}
		p.raw("</li>\n")
	}
	p.raw("</ul>\n</div>\n")
}

// alphabet is the index of a book: where there are no pages, the recipes by their names.
func (p *printer) alphabet(b *sheets.Alphabet) {
	for _, l := range b.Letters {
		p.raw("<%s>%s</%[1]s>\n<ul class=\"index\">\n", p.h(3), esc(orBlank(l.Letter)))
		for _, e := range l.Entries {
			p.raw("<li%s>", dir(e.Name))
			own := slices.IndexFunc(e.At, func(r sheets.Run) bool { return r.Style == sheets.Strong && r.Text == e.Name })
			at := e.At
			if own >= 0 { // its name is the way to it
				p.runs(at[own : own+1])
				at = slices.Delete(slices.Clone(at), own, own+1)
			} else {
				p.text(orBlank(e.Name))
			}
			for i, r := range at {
				if i == 0 {
					p.raw(": ")
				}
				if i+1 == len(at) {
					p.runs([]sheets.Run{r})
					continue
				}
				p.raw("<span>") // no line begins with what stands between two
				p.runs([]sheets.Run{r})
				p.raw(";</span>\n")
			}
			if e.Note != "" {
				p.raw(": <i class=\"quiet\">%s</i>", esc(e.Note))
			}
			p.raw("</li>\n")
		}
		p.raw("</ul>\n")
	}
}

// list writes a plain list or one to tick.
func (p *printer) list(b *sheets.List) {
	if len(b.Items) == 0 {
		return
	}
	if !b.Tick {
		p.raw("<ul class=\"list\">\n")
		for _, item := range b.Items {
			p.raw("<li%s>", dir(sheets.Words(item)))
			p.runs(item)
			p.raw("</li>\n")
		}
		p.raw("</ul>\n")
		return
	}
	p.raw("<ul class=\"list ticks\">\n")
	for _, item := range b.Items {
		p.ticks++
		p.raw("<li><label class=\"tick\" for=\"t%d\"><input type=\"checkbox\" id=\"t%d\"><span%s>", p.ticks, p.ticks, dir(sheets.Words(item)))
		p.runs(unlinked(item))
		p.raw("</span></label></li>\n")
	}
	p.raw("</ul>\n")
}

// unlinked is runs without links, which may not stand in a label.
func unlinked(runs []sheets.Run) []sheets.Run {
	out := append([]sheets.Run(nil), runs...)
	for i := range out {
		out[i].Link = ""
	}
	return out
}
