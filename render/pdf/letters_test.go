package pdf

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// What may stand in a language tag (BCP 47), and what fpdf can take.
func TestLettersThatMayStand(t *testing.T) {
	const may = "-0123456789abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ"
	for r := rune(' '); r < 0x250; r++ {
		if strings.ContainsRune(may, r) {
			require.Equal(t, string(r), tag(string(r)))
		} else {
			require.Empty(t, tag(string(r)), "%q", r)
		}
	}
	require.Equal(t, "\ufffd", text("\ufffd"))
	require.NotEqual(t, "\U00010000", text("\U00010000"))
	require.Len(t, []rune(text("\U0001f375")), 1)
}
