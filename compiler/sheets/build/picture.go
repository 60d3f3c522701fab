package build

import (
	"tamis/compiler/sheets"
	"tamis/lang/source"
)

// pictures are the pictures that fields name; what they show is said in the
// writer's words, else by the name of the thing.
func (b *builder) pictures(of string, fields []source.Span) (out []sheets.Block) {
	for _, at := range fields {
		p := b.opt.Pictures[at]
		if p == nil {
			continue
		}
		q := *p
		if q.Alt = q.Words; q.Alt == "" {
			q.Alt = of
		}
		out = append(out, &q)
	}
	return out
}
