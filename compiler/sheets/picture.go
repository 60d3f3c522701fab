package sheets

import "tamis/lang/ast"

// pictures are the pictures that fields name; what they show is said in the
// writer's words, else by the name of the thing.
func (b *builder) pictures(of string, fields []*ast.Common) (out []Block) {
	for _, c := range fields {
		p := b.opt.Pictures[c]
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

// commons are the common fields among the items of a block.
func commons[T ast.Node](items []T) (out []*ast.Common) {
	for _, it := range items {
		if c, ok := any(it).(*ast.Common); ok {
			out = append(out, c)
		}
	}
	return out
}
