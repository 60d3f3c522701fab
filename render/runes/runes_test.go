package runes

import (
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
)

func TestClean(t *testing.T) {
	for _, c := range []struct{ in, want string }{
		{"plain 450 g", "plain 450 g"},
		{"line\nbreak\ttab\x00nul", "line break tab nul"},
		{"bad \xff byte", "bad \uFFFD byte"},
		{"cafe\u0301", "café"},
		{"1½", "1½"}, // compatibility forms stay: 1½ must not become 11⁄2
		{"turn \u202eround\u202c", "turn round"},
		{"soft\u00adhyphen", "softhyphen"},
		{"\ufeffmark", "mark"},
		{"two\u2028lines", "two lines"},
		{"no\ufffecharacter", "nocharacter"},
	} {
		require.Equal(t, c.want, Clean(c.in), "%q", c.in)
	}
}

func TestReplace(t *testing.T) {
	has := func(r rune) bool { return r < 0x250 || r == StandIn }
	var gone []rune
	note := func(r rune) { gone = append(gone, r) }
	require.Equal(t, "a pear □", Replace("a pear 🍐", has, note))
	require.Equal(t, []rune("🍐"), gone)
	gone = nil
	require.Equal(t, "cook □!", Replace("cook 👩\u200d🍳!", has, note), "a joined group is one stand-in")
	require.Equal(t, []rune("👩🍳"), gone)
	require.Equal(t, "□□", Replace("梨梨", has, note))
	require.Equal(t, "thumb □", Replace("thumb 👍🏽", has, note), "a skin tone is no character of its own")
}

func FuzzClean(f *testing.F) {
	for _, s := range []string{"", "a\xc3\x28", "e\u0301\u0301\u0301", "\u202e", "👩\u200d🍳", "\U0010FFFF"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		c := Clean(s)
		require.True(t, utf8.ValidString(c))
		require.Equal(t, c, Clean(c), "cleaning twice changes nothing")
		for _, r := range c {
			require.False(t, r < ' ' || r == 0x7f || r == 0x2028)
		}
	})
}
