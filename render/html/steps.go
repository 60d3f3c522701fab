package html

import (
	"tamis/compiler/sheets"
)

// steps writes a method as an ordered list; a pause is an item without number.
func (p *printer) steps(b *sheets.Steps) {
	if len(b.Items) == 0 {
		return
	}
	takes := false
	for _, i := range b.Items {
		if s, ok := i.(*sheets.Step); ok && len(s.Takes) > 0 {
			takes = true
		}
	}
	class := "steps"
	if takes {
		class += " taking"
	}
	p.raw("<ol class=\"%s\">\n", class)
	for _, i := range b.Items {
		switch s := i.(type) {
		case *sheets.Step:
			p.step(s)
		case *sheets.Break:
			p.raw("<li class=\"pause\"><span%s>%s</span></li>\n", dir(s.Text), esc(s.Text))
		}
	}
	p.raw("</ol>\n")
}

func (p *printer) step(s *sheets.Step) {
	p.raw("<li class=\"step\">\n<div class=\"side\"><span class=\"no\">%d</span>", s.Number)
	if s.Clock != "" {
		p.raw(" <span class=\"at\">%s</span>", esc(s.Clock))
	}
	if s.Who != "" {
		p.raw(" <span class=\"who\">%s</span>", esc(s.Who))
	}
	p.raw("</div>\n")
	if len(s.Takes) > 0 {
		p.raw("<ul class=\"takes\">\n")
		for _, k := range s.Takes {
			p.raw("<li>")
			p.amount(k.Amount)
			p.raw(" <span class=\"name\"%s>", dir(k.Name+k.Note))
			p.runs([]sheets.Run{{Text: k.Name, Link: k.Link}})
			if k.Note != "" {
				p.raw(" <span class=\"sub\">%s</span>", esc(k.Note))
			}
			p.raw("</span></li>\n")
		}
		p.raw("</ul>\n")
	}
	p.raw("<div class=\"do\">\n")
	if s.When != "" {
		p.raw("<p class=\"when\">%s</p>\n", esc(s.When))
	}
	p.margin("look", s.Look)
	p.margin("margin", s.Margin)
	p.say(s.Runs)
	if len(s.Moments) > 0 {
		p.raw("<ul class=\"moments\">\n")
		for _, m := range s.Moments {
			p.raw("<li>")
			if m.At != "" {
				p.raw("<p class=\"at\">%s</p>\n", esc(m.At))
			}
			p.say(m.Runs)
			p.margin("margin", m.Margin)
			p.raw("</li>\n")
		}
		p.raw("</ul>\n")
	}
	p.raw("</div>\n</li>\n")
}

func (p *printer) say(runs []sheets.Run) {
	if len(runs) == 0 {
		return
	}
	p.raw("<p class=\"say\"%s>", dir(sheets.Words(runs)))
	p.runs(runs)
	p.raw("</p>\n")
}
