package text

import (
	"strings"

	"tamis/compiler/sheets"
	"tamis/render/runes"
)

// board writes a day in order of time: under each moment, who begins what.
func (p *printer) board(b *sheets.Board) {
	p.gap()
	for _, r := range b.Rows {
		at := runes.Clean(r.At) + "  "
		in := strings.Repeat(" ", width(at))
		if r.Bar != "" {
			p.para(at, in, "*** "+r.Bar+" ***")
			continue
		}
		for i, cell := range r.Cells {
			if i >= len(b.Columns) {
				break
			}
			for _, post := range cell {
				said := b.Columns[i] + ": " + strings.TrimSpace(post.Mark+" "+post.Words)
				if post.Until != "" {
					said += " –" + post.Until
				}
				if post.Looks != "" {
					said += ", " + post.Looks
				}
				p.para(at, in, said)
				at = in
			}
		}
	}
}
