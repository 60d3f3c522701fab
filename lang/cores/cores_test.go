package cores_test

import (
	"sync/atomic"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/lang/cores"
)

func TestEachNumberOnce(t *testing.T) {
	for _, n := range []int{0, 1, 7, 5000} {
		done := make([]atomic.Int32, n)
		var workers atomic.Int32
		cores.With(n, func() *int { workers.Add(1); return new(int) }, func(own *int, i int) {
			*own++ // a worker's own: no other touches it (go test -race)
			done[i].Add(1)
		})
		for i := range done {
			require.EqualValues(t, 1, done[i].Load(), i)
		}
		require.LessOrEqual(t, int(workers.Load()), n)
	}
}
