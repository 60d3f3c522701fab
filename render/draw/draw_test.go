package draw

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestStripesStayInTheirBoxAndDiffer(t *testing.T) {
	seen := map[string]int{}
	for n := range Stripes {
		for _, w := range []float64{12, 40, 500} {
			for _, o := range Stripe(n, 10, 20, w, 6) {
				left, right := 1e9, -1e9
				switch o := o.(type) {
				case *Rect:
					left, right = o.X, o.X+o.W
				case *Poly:
					for _, q := range o.Points {
						left, right = min(left, q[0]), max(right, q[0])
					}
				}
				top, bottom := o.Span()
				require.True(t, left >= 9.99 && right <= 10.01+w && top >= 19.99 && bottom <= 26.01,
					"stripe %d at width %.0f: %v", n, w, o)
			}
		}
		key := ""
		for _, o := range Stripe(n, 0, 0, 40, 6) {
			key += fmt.Sprintf("%v", o)
		}
		require.NotContains(t, seen, key, "stripes %d and %d look alike", n, seen[key])
		seen[key] = n
	}
	require.Equal(t, Stripe(1, 0, 0, 9, 3), Stripe(1+Stripes, 0, 0, 9, 3), "after the last they begin again")
}

func TestMoveAll(t *testing.T) {
	ops := MoveAll([]Op{
		&Text{X: 1, Y: 10, Size: 10}, &Line{X1: 0, Y1: 1, X2: 2, Y2: 3}, &Rect{X: 5, Y: 5, W: 1, H: 1},
		&Poly{Points: [][2]float64{{0, 0}, {4, 8}}},
	}, 10, 100)
	require.Equal(t, 11.0, ops[0].(*Text).X)
	top, bottom := ops[1].Span()
	require.Equal(t, []float64{101, 103}, []float64{top, bottom})
	require.Equal(t, 15.0, ops[2].(*Rect).X)
	top, bottom = ops[3].Span()
	require.Equal(t, []float64{100, 108}, []float64{top, bottom})
}
