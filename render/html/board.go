package html

import (
	"strings"

	"tamis/compiler/sheets"
)

// board writes a day as a table, a column for each cook. On a narrow screen each
// moment becomes a card that names who begins what.
func (p *printer) board(b *sheets.Board) {
	day := p.day(p.title)
	p.raw("<table class=\"board\">\n<caption class=\"vh\"%s>%s</caption>\n<thead><tr><th scope=\"col\" class=\"clock\">At</th>", dir(p.title), esc(p.title))
	for i, c := range b.Columns {
		p.raw("<th scope=\"col\"%s%s>%s</th>", cookOf(b, i), dir(c), esc(orBlank(c)))
	}
	p.raw("</tr></thead>\n<tbody")
	if day != "" {
		p.raw(" data-day=\"%s\"", day)
	}
	p.raw(">\n")
	for _, r := range b.Rows {
		p.raw("<tr")
		if r.Bar != "" {
			p.raw(" class=\"bar\"")
		}
		if at := minuteOf(r.At); day != "" && at >= 0 {
			p.raw(" data-at=\"%d\"", at)
		}
		p.raw("><th scope=\"row\" class=\"clock\">%s</th>", esc(r.At))
		if r.Bar != "" {
			p.raw("<td colspan=\"%d\"%s>%s</td></tr>\n", max(len(b.Columns), 1), dir(r.Bar), esc(r.Bar))
			continue
		}
		for i, cell := range r.Cells {
			if i >= len(b.Columns) {
				break
			}
			p.raw("<td%s", cookOf(b, i))
			if len(cell) > 0 {
				p.raw(" data-label=\"%s\"", esc(b.Columns[i]))
			}
			p.raw(">")
			for _, post := range cell {
				p.post(post)
			}
			p.raw("</td>")
		}
		p.raw("</tr>\n")
	}
	p.raw("</tbody>\n</table>\n")
}

// cookOf says whose column i is, for the script that shows a cook what is theirs.
func cookOf(b *sheets.Board, i int) string {
	if i >= b.Cooks {
		return ""
	}
	return " data-cook=\"" + esc(b.Columns[i]) + "\""
}

func (p *printer) post(b sheets.Post) {
	p.raw("<div class=\"post\">")
	if b.Mark != "" {
		p.markList(b.Mark)
		p.raw(" ")
	}
	open, end := "", ""
	if href := p.href(b.Link); href != "" {
		open, end = "<a href=\""+href+"\">", "</a>"
	}
	p.raw("<span class=\"words\"%s>%s%s%s</span>", dir(b.Words), open, esc(strings.TrimSpace(b.Words)), end)
	if b.Until != "" {
		p.raw(" <b class=\"until\">–%s</b>", esc(b.Until))
	}
	if b.Looks != "" {
		p.raw(" <span class=\"looks\">%s</span>", esc(b.Looks))
	}
	p.raw("</div>")
}
