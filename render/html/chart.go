package html

import (
	"fmt"
	"strings"

	"tamis/compiler/sheets"
	"tamis/render/chart"
	"tamis/render/draw"
	"tamis/render/fonts"
	"tamis/render/runes"
)

// drawing is how charts are set on a screen. Letters may come out wider than
// those that are measured, for the reader's own face is used.
var drawing = chart.Style{Size: 13, Bar: 16, Steps: 6, Widen: 1.26, Clean: runes.Clean}

const chartWidth = 1180

// chart writes the timeline as drawings that scroll sideways on a narrow
// screen, with the same in words.
func (p *printer) chart(b *sheets.Chart) {
	p.raw("<ul class=\"bars\" aria-label=\"What the bars mean\">")
	for _, k := range chart.Key(b) {
		p.raw("<li><svg aria-hidden=\"true\" focusable=\"false\" width=\"34\" height=\"16\" viewBox=\"0 0 34 16\">%s</svg> %s</li>",
			svg(chart.Sample(k.Kind, 34, 16)), k.Words)
	}
	p.raw("</ul>\n")
	if b.Note != "" {
		p.raw("<p class=\"told\">%s</p>\n", esc(b.Note))
	}
	for i := range b.Panels {
		panel := &b.Panels[i]
		pic := chart.Lay(chart.Whole(panel), chartWidth, drawing)
		name := orBlank(panel.Title)
		p.raw("<h3>%s</h3>\n<div class=\"scroll\" tabindex=\"0\" role=\"region\" aria-label=\"Chart: %s\">\n", esc(name), esc(name))
		when := ""
		if day := p.day(panel.Title); day != "" {
			when = fmt.Sprintf(" data-day=\"%s\" data-knots=\"%s\"", day, knots(pic.Knots))
		}
		p.raw("<svg class=\"chart\"%s role=\"img\" aria-label=\"Timeline, %s\" width=\"%d\" height=\"%s\" viewBox=\"0 0 %d %s\">\n%s</svg>\n</div>\n",
			when, esc(name), chartWidth, num(pic.H+2), chartWidth, num(pic.H+2), svg(pic.Ops))
	}
	if b.Text != "" {
		p.raw("<h3 class=\"told-head\">The same in words</h3>\n<p class=\"told\">%s</p>\n", esc(b.Text))
	}
	for i, s := range p.doc.Sheets {
		if s.Kind == sheets.RunSheet || s.Kind == sheets.Wall {
			p.raw("<p class=\"told\"><a href=\"#%s\">%s</a></p>\n", p.slugs[i], esc(orBlank(s.Title)))
		}
	}
}

// knots is where the minutes of a chart are: "540,120 600,180".
func knots(list []chart.Knot) string {
	var out []string
	for _, k := range list {
		out = append(out, fmt.Sprintf("%d,%s", k.Minute, num(k.X)))
	}
	return strings.Join(out, " ")
}

// svg writes marks as SVG. Neighbouring lines of one kind share a path.
func svg(ops []draw.Op) string {
	var b strings.Builder
	path, width, dash := "", 0.0, ""
	var words *draw.Text // the text that was opened last
	flush := func() {
		if path == "" {
			return
		}
		fmt.Fprintf(&b, "<path d=\"%s\" stroke=\"currentColor\" stroke-width=\"%s\"", path, num(width))
		if dash != "" {
			fmt.Fprintf(&b, " stroke-dasharray=\"%s\"", dash)
		}
		b.WriteString("/>\n")
		path = ""
	}
	for _, o := range ops {
		if t, ok := o.(*draw.Text); ok {
			flush()
			if words != nil && words.Field == t.Field && t.Field > 0 && words.Y == t.Y {
				// one label in two weights: its own space keeps the words apart
				b.WriteString(" " + span(t))
				continue
			}
			closeText(&b, words)
			words = t
			fmt.Fprintf(&b, "<text x=\"%s\" y=\"%s\">%s", num(t.X), num(t.Y), span(t))
			continue
		}
		closeText(&b, words)
		words = nil
		l, ok := o.(*draw.Line)
		if !ok {
			flush()
			shape(&b, o)
			continue
		}
		var ds []string
		for _, d := range l.Dash {
			ds = append(ds, num(d))
		}
		if s := strings.Join(ds, " "); path != "" && (s != dash || l.Width != width) {
			flush()
			dash = s
		} else {
			dash = s
		}
		width = l.Width
		path += fmt.Sprintf("M%s %sL%s %s", num(l.X1), num(l.Y1), num(l.X2), num(l.Y2))
	}
	flush()
	closeText(&b, words)
	return b.String()
}

func closeText(b *strings.Builder, open *draw.Text) {
	if open != nil {
		b.WriteString("</text>\n")
	}
}

// span is a run of words in its weight and ink.
func span(t *draw.Text) string {
	class := ""
	if t.Face == fonts.SansBold {
		class = " class=\"b\""
	}
	fill := "currentColor"
	if t.White {
		fill = "var(--paper)"
	}
	return fmt.Sprintf("<tspan%s fill=\"%s\">%s</tspan>", class, fill, esc(t.Str))
}

func shape(b *strings.Builder, o draw.Op) {
	switch o := o.(type) {
	case *draw.Rect:
		fill, stroke := "none", ""
		if o.White {
			fill = "var(--paper)"
		}
		if o.Fill {
			fill = "currentColor"
		}
		if o.Width > 0 {
			stroke = fmt.Sprintf(" stroke=\"currentColor\" stroke-width=\"%s\"", num(o.Width))
		}
		if o.Round > 0 {
			stroke += fmt.Sprintf(" rx=\"%s\"", num(o.Round))
		}
		fmt.Fprintf(b, "<rect x=\"%s\" y=\"%s\" width=\"%s\" height=\"%s\" fill=\"%s\"%s/>\n", num(o.X), num(o.Y), num(o.W), num(o.H), fill, stroke)
	case *draw.Poly:
		fmt.Fprintf(b, "%s\n", shapes([]draw.Op{o}))
	}
}
