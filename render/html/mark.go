package html

import (
	"fmt"
	"strings"

	"tamis/compiler/sheets"
	"tamis/render/draw"
)

// mark writes the letter of a dish, with its stripe if asked.
func (p *printer) mark(letter string, stripe bool) {
	n, known := p.marks[letter]
	class := "mark"
	if known && p.doc.Dishes[n].Base {
		class += " base"
	}
	p.raw("<span class=\"%s\"><b>%s</b>", class, esc(letter))
	if stripe && known {
		p.raw("<svg class=\"cloth\" aria-hidden=\"true\" focusable=\"false\" viewBox=\"0 0 32 9\"><use href=\"#cloth-%d\"/></svg>", n%draw.Stripes)
	}
	p.raw("</span>")
}

// marks writes the text of a mark column: letters known as dishes become marks.
func (p *printer) markList(s string) {
	first := true
	for _, w := range strings.FieldsFunc(s, func(r rune) bool { return r == ',' || r == ' ' || r == '\u00a0' || r == '\t' || r == '\n' }) {
		if !first {
			p.raw(" ")
		}
		first = false
		letter := strings.TrimRight(w, "0123456789")
		if _, ok := p.marks[letter]; ok && letter != "" {
			p.raw("<span class=\"nb\">")
			p.mark(letter, false)
			p.text(w[len(letter):])
			p.raw("</span>")
		} else {
			p.text(w)
		}
	}
}

// key says which letter is which dish.
func (p *printer) key(marks []sheets.Mark) {
	if len(marks) == 0 {
		return
	}
	p.raw("<ul class=\"key\" aria-label=\"Letters of the dishes\">\n")
	for _, d := range marks {
		p.raw("<li>")
		p.mark(d.Letter, true)
		p.raw(" <span class=\"name\"%s>%s</span></li>\n", dir(d.Name), esc(d.Name))
	}
	p.raw("</ul>\n")
}

// stripes draws each cloth stripe that is used, once, to be used by its id.
func (p *printer) stripes() {
	n := min(len(p.doc.Dishes), draw.Stripes)
	if n == 0 {
		return
	}
	p.raw("<svg class=\"vh\" aria-hidden=\"true\" focusable=\"false\" width=\"0\" height=\"0\"><defs>\n")
	for i := range n {
		p.raw("<g id=\"cloth-%d\" fill=\"currentColor\">%s</g>\n", i, shapes(draw.Stripe(i, 0, 0, 32, 9)))
		p.raw("<g id=\"band-%d\" fill=\"currentColor\">%s</g>\n", i, shapes(draw.Stripe(i, 0, 0, 1200, 8)))
	}
	p.raw("</defs></svg>\n")
}

// band runs a dish's stripe over the width of the page.
func (p *printer) band(letter string) {
	n, ok := p.marks[letter]
	if !ok || letter == "" {
		return
	}
	p.raw("<svg class=\"band\" aria-hidden=\"true\" focusable=\"false\" viewBox=\"0 0 1200 8\" preserveAspectRatio=\"xMinYMid slice\"><use href=\"#band-%d\"/></svg>\n", n%draw.Stripes)
}

// shapes writes filled boxes and outlines as one path.
func shapes(ops []draw.Op) string {
	var b strings.Builder
	b.WriteString("<path d=\"")
	for _, o := range ops {
		switch o := o.(type) {
		case *draw.Rect:
			fmt.Fprintf(&b, "M%s %sh%sv%sh-%sz", num(o.X), num(o.Y), num(o.W), num(o.H), num(o.W))
		case *draw.Poly:
			for i, q := range o.Points {
				fmt.Fprintf(&b, "%s%s %s", [2]string{"M", "L"}[min(i, 1)], num(q[0]), num(q[1]))
			}
			b.WriteString("z")
		}
	}
	b.WriteString("\"/>")
	return b.String()
}

// num writes a length with at most two decimals.
func num(f float64) string {
	s := fmt.Sprintf("%.2f", f)
	s = strings.TrimRight(s, "0")
	s = strings.TrimSuffix(s, ".")
	if s == "-0" {
		return "0"
	}
	return s
}
