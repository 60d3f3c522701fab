package html

import (
	"encoding/base64"

	"tamis/compiler/sheets"
	"tamis/render/raster"
)

// most is the longer side of a picture on a screen, in pixels: fine enough for
// a phone held close, and a page of twelve of them still opens at once.
const most = 1000

// picture writes a picture into the page itself. What is no picture is told in
// words.
func (p *printer) picture(b *sheets.Picture) {
	data, kind, err := raster.Fit(b, most, most, false)
	if err != nil {
		p.raw("<p class=\"quiet\">%s</p>\n", esc(b.Alt))
		return
	}
	w, h := b.Width, b.Height
	if long := max(w, h); long > most {
		w, h = w*most/long, h*most/long
	}
	p.raw("<figure class=\"picture\"><img src=\"data:image/%s;base64,%s\" alt=\"%s\" width=\"%d\" height=\"%d\">", kind, base64.StdEncoding.EncodeToString(data), esc(b.Alt), max(w, 1), max(h, 1))
	if b.Words != "" {
		p.raw("<figcaption>%s</figcaption>", esc(b.Words))
	}
	p.raw("</figure>\n")
}
