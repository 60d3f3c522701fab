package main

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// What is in use may grow to at most so much more, never below a part of itself.
func TestMemoryGrowth(t *testing.T) {
	const mb = 1 << 20
	for _, c := range []struct {
		live, spent float64
		want        int
	}{
		{4 * mb, 400 * mb, 300},   // a menu: 16 MB are used over again
		{100 * mb, 400 * mb, 300}, // 400 MB at the most
		{400 * mb, 400 * mb, 100}, // ten thousand recipes: 800 MB
		{4000 * mb, 400 * mb, 40}, // all that is larger: not over and over
		{100 * mb, 100 * mb, 100}, // a small machine
	} {
		require.Equal(t, c.want, growth(c.live, c.spent))
	}
}
