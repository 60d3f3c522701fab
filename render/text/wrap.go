package text

import (
	"strings"
	"unicode"

	"tamis/render/runes"
)

// width is how many columns s takes in a terminal: two for the wide letters
// of East Asia and for emoji, none for marks that stand on a letter.
func width(s string) (n int) {
	for _, r := range s {
		n += runeWidth(r)
	}
	return n
}

func runeWidth(r rune) int {
	switch {
	case unicode.In(r, unicode.Mn, unicode.Me, unicode.Cf):
		return 0
	case r >= 0x1100 && (r <= 0x115f || r >= 0x2e80 && r <= 0xa4cf || r >= 0xac00 && r <= 0xd7a3 ||
		r >= 0xf900 && r <= 0xfaff || r >= 0xfe30 && r <= 0xfe6f || r >= 0xff00 && r <= 0xff60 ||
		r >= 0xffe0 && r <= 0xffe6 || r >= 0x1f300 && r <= 0x1faff || r >= 0x20000 && r <= 0x3fffd):
		return 2
	}
	return 1
}

// wrap breaks s into lines of at most w columns, words that are longer too.
func wrap(s string, w int) []string {
	w = max(w, 4)
	var lines []string
	cur, n := "", 0
	for _, word := range strings.Fields(runes.Clean(s)) {
		k := width(word)
		if n > 0 && n+1+k <= w {
			cur += " " + word
			n += 1 + k
			continue
		}
		if n > 0 {
			lines = append(lines, cur)
			cur, n = "", 0
		}
		for k > w {
			head, c := "", 0
			for _, r := range word {
				if c+runeWidth(r) > w && head != "" {
					break
				}
				head += string(r)
				c += runeWidth(r)
			}
			if head == word {
				break
			}
			lines = append(lines, head)
			word = word[len(head):]
			k = width(word)
		}
		cur, n = word, k
	}
	if n > 0 || cur != "" {
		lines = append(lines, cur)
	}
	return lines
}

// pad fills s with spaces to n columns.
func pad(s string, n int) string {
	if k := n - width(s); k > 0 {
		return s + strings.Repeat(" ", k)
	}
	return s
}

// padLeft puts spaces before s up to n columns.
func padLeft(s string, n int) string {
	if k := n - width(s); k > 0 {
		return strings.Repeat(" ", k) + s
	}
	return s
}
