package parse

// slab gives out room for values of one type, many at a time: a tree has
// thousands of small nodes, which live and die together.
type slab[T any] struct {
	free []T
	next int // how many the next chunk holds
}

const (
	smallChunk = 4
	largeChunk = 64
)

// put keeps a value.
func (s *slab[T]) put(v T) *T {
	if len(s.free) == 0 {
		s.next = min(max(smallChunk, 2*s.next), largeChunk)
		s.free = make([]T, s.next)
	}
	p := &s.free[0]
	s.free = s.free[1:]
	*p = v
	return p
}
