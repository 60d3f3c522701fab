package diag_test

import (
	"math/rand/v2"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"tamis/lang/diag"
)

// What Nearest passes over without measuring is what measuring would pass over:
// drawn words, short, long, accented, in both cases.
func TestNearestMeasuresAllThatCouldBeNear(t *testing.T) {
	d := rand.New(rand.NewPCG(4, 1))
	draw := func() string {
		var b strings.Builder
		for range 1 + d.IntN(11) {
			b.WriteRune([]rune("abcABC éÉßK-'z")[d.IntN(14)])
		}
		return b.String()
	}
	found := 0
	for range 3000 {
		word, names := draw(), []string{draw(), draw(), draw(), draw()}
		n := utf8.RuneCountInString(strings.ToLower(word))
		want, least := "", 2
		if n >= 5 {
			least = 3
		}
		if n >= 9 {
			least = 4
		}
		for _, c := range names {
			if k := diag.Distance(strings.ToLower(word), strings.ToLower(c)); n >= 2 && k < least && abs(utf8.RuneCountInString(c)-n) < least {
				want, least = c, k
			}
		}
		require.Equal(t, want, diag.Nearest(word, names), "%q among %q", word, names)
		if want != "" {
			found++
		}
	}
	require.Greater(t, found, 50, "words that are near were drawn too")
}

func abs(n int) int { return max(n, -n) }

// A name that nobody knows is compared with every name of a book. Nearly all of
// them are unlike, and cost nothing to pass over.
func TestNearestPassesOverUnlikeNames(t *testing.T) {
	var names []string
	for range 500 {
		names = append(names, "Braised Leeks", "Slow Herb Stock", "Plum Relish")
	}
	names = append(names, "Quick Fudge")
	spent := testing.AllocsPerRun(5, func() {
		require.Equal(t, "Quick Fudge", diag.Nearest("quik fudge", names))
	})
	require.Less(t, spent, 20.0)
}
