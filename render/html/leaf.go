package html

import (
	"tamis/compiler/sheets"
)

// masthead writes what a leaf is a part of and where that is to be watched; title and
// facts stand above it.
func (p *printer) masthead(b *sheets.Masthead) {
	p.raw("<div class=\"masthead\">\n")
	p.raw("<p><strong%s>%s</strong>, %s</p>\n", dir(b.Series), esc(b.Series), esc(b.Part))
	if b.Watch != "" {
		p.raw("<p>Watch it at ")
		p.runs([]sheets.Run{{Text: b.Watch, Link: b.Link}})
		p.raw("</p>\n")
	}
	if b.Picture != nil {
		p.picture(b.Picture)
	}
	if b.Code != nil {
		p.raw("<div class=\"code\">")
		p.picture(b.Code)
		p.raw("</div>\n")
	}
	p.raw("</div>\n")
}

// beside is the row of links to the other documents of the folder.
func (p *printer) beside() {
	links := 0
	for _, d := range p.doc.Folder {
		if d.Name != "" && d.File != p.doc.File {
			links++
		}
	}
	if links == 0 {
		return
	}
	p.raw("<nav class=\"beside\" aria-label=\"The whole series\">\n<ul>\n")
	for _, d := range p.doc.Folder {
		switch {
		case d.Name == "":
		case d.File == p.doc.File:
			p.raw("<li><span aria-current=\"page\"%s>%s</span></li>\n", dir(d.Title), esc(orBlank(d.Title)))
		default:
			p.raw("<li><a href=\"%s\"%s>%s</a></li>\n", p.href("doc:"+d.File), dir(d.Title), esc(orBlank(d.Title)))
		}
	}
	p.raw("</ul>\n</nav>\n")
}
