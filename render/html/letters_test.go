package html

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// Every character of ASCII, and some beyond: what may stand in a language tag
// (BCP 47), in the address of a sheet, and as itself in a style sheet.
func TestLettersThatMayStand(t *testing.T) {
	const figures, small, large = "0123456789", "abcdefghijklmnopqrstuvwxyz", "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
	for r := rune(' '); r < 0x250; r++ {
		plain := strings.ContainsRune(figures+small+large, r)
		if want := string(r); plain || r == '-' {
			require.Equal(t, want, tag(string(r)))
		} else {
			require.Empty(t, tag(string(r)), "%q", r)
		}
		p := &printer{taken: map[string]bool{}, ids: map[string]string{}}
		if plain || r == '-' || r == '_' {
			require.Equal(t, string(r), p.slug(string(r)))
		} else {
			require.Equal(t, "-", p.slug(string(r)), "%q", r)
		}
		if r == 0x7f || r >= 0x80 && r < 0xa0 || r == 0xad {
			continue // never printed
		}
		want := fmt.Sprintf("\"\\%06x \"", r)
		if plain || strings.ContainsRune(" ,:", r) {
			want = `"` + string(r) + `"`
		}
		require.Equal(t, want, cssString(string(r)), "%q", r)
	}
}
