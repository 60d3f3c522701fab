package sheets

import (
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// letters that are no other letter with a mark, as they are written where they are not to be had:
// from memory, as the passports of their countries do it, and without the marks they would keep there.
var letters = strings.NewReplacer(
	"ß", "ss", "ẞ", "SS", "æ", "ae", "Æ", "Ae", "œ", "oe", "Œ", "Oe", "ø", "o", "Ø", "O", "ł", "l", "Ł", "L",
	"đ", "d", "Đ", "D", "ð", "d", "Ð", "D", "þ", "th", "Þ", "Th", "ı", "i", "ħ", "h", "Ħ", "H", "ŧ", "t", "Ŧ", "T",
)

// Unmarked is a text without the marks of its letters: "Smorrebrod" of Smørrebrød, "Oeufs" of Œufs.
func Unmarked(text string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsMark(r) {
			return -1
		}
		return r
	}, letters.Replace(norm.NFKD.String(text)))
}
