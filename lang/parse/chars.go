package parse

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"
)

// isBlank tells whether a rune is read as a plain blank.
func isBlank(r rune) bool {
	switch {
	case r == ' ', r == '\t', r == '\r':
		return true
	case r < 0x80:
		return false
	}
	return r == 0xA0 || r == 0x1680 || r >= 0x2000 && r <= 0x200A || r == 0x202F || r == 0x205F || r == 0x3000
}

// isInvisible tells whether a rune has no ink, or changes the direction of
// what follows.
func isInvisible(r rune) bool {
	switch {
	case r < 0xAD:
		return false
	case r == 0xAD, r == 0x61C, r == 0x180E, r == 0xFEFF:
		return true
	case r >= 0x200B && r <= 0x200F, r >= 0x2028 && r <= 0x202E, r >= 0x2060 && r <= 0x206F:
		return true
	}
	return false
}

// isJoiner tells whether a rune is a joiner, which some scripts need inside words.
func isJoiner(r rune) bool { return r == 0x200C || r == 0x200D }

func isWideDigit(r rune) bool { return r >= 0xFF10 && r <= 0xFF19 }

func isFalseBar(r rune) bool {
	return r == '¦' || r == '│' || r == '｜' || r == '❘' || r == '∣'
}

func isQuote(r rune) bool {
	return r == '"' || r == '“' || r == '”' || r == '„' || r == '«' || r == '»'
}

// blanks is the number of bytes of blanks at the start of s.
func blanks(s string) int {
	i := 0
	for i < len(s) {
		if c := s[i]; c < 0x80 {
			if c != ' ' && c != '\t' && c != '\r' {
				return i
			}
			i++
			continue
		}
		r, n := utf8.DecodeRuneInString(s[i:])
		if !isBlank(r) {
			return i
		}
		i += n
	}
	return i
}

// trimEnd is the length of s without its closing blanks.
func trimEnd(s string) int {
	i := len(s)
	for i > 0 {
		if c := s[i-1]; c < 0x80 {
			if c != ' ' && c != '\t' && c != '\r' {
				return i
			}
			i--
			continue
		}
		r, n := utf8.DecodeLastRuneInString(s[:i])
		if !isBlank(r) {
			return i
		}
		i -= n
	}
	return i
}

// wordEnd tells whether s begins with something that ends a keyword.
func wordEnd(s string) bool {
	if s == "" {
		return true
	}
	r, _ := utf8.DecodeRuneInString(s)
	return !(unicode.IsLetter(r) || unicode.IsDigit(r) || unicode.IsMark(r) || r == '-' || r == '\'' || r == '’' || r == '_' || r == '/' || r == utf8.RuneError)
}

// bullet is the length of a dash or other bullet with the blanks after it, and
// whether it is the plain dash. A bullet without a blank after it is none,
// unless nothing follows it at all.
func bullet(s string) (n int, plain bool) {
	r, w := utf8.DecodeRuneInString(s)
	switch r {
	case '-', '–', '—', '•', '*', '‣', '·':
	default:
		return 0, false
	}
	b := blanks(s[w:])
	if b == 0 && w < len(s) {
		return 0, false
	}
	return w + b, r == '-'
}

// tidy makes every run of blanks a single plain one and composes accents.
func tidy(s string) string {
	plain := true
	for i := 0; i < len(s); i++ {
		if c := s[i]; c >= 0x80 || c == '\t' || c == '\r' || c == ' ' && i+1 < len(s) && s[i+1] == ' ' {
			plain = false
			break
		}
	}
	if plain {
		return strings.Trim(s, " ")
	}
	var b strings.Builder
	gap := false
	for i := 0; i < len(s); {
		r, n := utf8.DecodeRuneInString(s[i:])
		if isBlank(r) {
			gap = b.Len() > 0
		} else {
			if gap {
				b.WriteByte(' ')
				gap = false
			}
			b.WriteString(s[i : i+n])
		}
		i += n
	}
	return norm.NFC.String(b.String())
}

// fold is a name as it is compared: composed, in small letters, blanks single.
func fold(s string) string { return strings.ToLower(tidy(s)) }
