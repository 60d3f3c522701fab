// Package runes makes any text fit to be set on a page.
package runes

import (
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// Clean returns s as valid UTF-8 in composed form, on one line: control
// characters and line breaks become spaces; marks that turn the direction of
// writing round and characters that are none are left out.
func Clean(s string) string {
	plain := true
	for i := 0; i < len(s); i++ {
		if s[i] < ' ' || s[i] >= 0x7f {
			plain = false
			break
		}
	}
	if plain {
		return s
	}
	// What is left out may have kept a letter from its accent: compose last.
	return norm.NFC.String(strings.Map(func(r rune) rune {
		switch {
		case r == '\u2028' || r == '\u2029' || unicode.IsControl(r):
			return ' '
		case r == '\u00ad' || r == '\ufeff', // a soft hyphen would show; a byte order mark has no width
			r >= '\u202a' && r <= '\u202e', r >= '\u2066' && r <= '\u2069',
			r >= '\ufdd0' && r <= '\ufdef', r&0xfffe == 0xfffe,
			r >= 0xe0000 && r <= 0xe0fff, unicode.Is(unicode.Cs, r):
			return -1
		}
		return r
	}, strings.ToValidUTF8(s, "\uFFFD")))
}

// joins tells whether r only changes the character before it: a variation
// selector, a joiner or a skin tone.
func joins(r rune) bool {
	return r == '\u200d' || r >= '\ufe00' && r <= '\ufe0f' || r >= 0x1f3fb && r <= 0x1f3ff || r == '\u20e3'
}

// StandIn shows a character that no face has.
const StandIn = '□'

// Replace puts StandIn for every character of s that has does not know, one
// for a joined group, and calls missing with each that was replaced.
func Replace(s string, has func(rune) bool, missing func(rune)) string {
	all := true
	for _, r := range s {
		if !has(r) {
			all = false
			break
		}
	}
	if all {
		return s
	}
	var b strings.Builder
	gone, joined := false, false
	for _, r := range s {
		switch {
		case r == '\u200d' || r == '\u200b' || r == '\u200c' || r == '\u2060':
			joined = r == '\u200d'
		case joins(r):
		case unicode.Is(unicode.Mn, r) && !has(r):
			missing(r)
		case has(r) && !unicode.Is(unicode.Co, r):
			b.WriteRune(r)
			gone, joined = false, false
		default:
			missing(r)
			if !gone || !joined {
				b.WriteRune(StandIn)
			}
			gone, joined = true, false
		}
	}
	return b.String()
}
