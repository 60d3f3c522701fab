package larder

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"
)

// levels makes typographic apostrophes, quotes and hyphens plain, and does what
// lower case leaves undone: sharp and long s, final sigma, the micro sign.
// x/text/cases is not used: its folding is not stable for every script.
var levels = strings.NewReplacer(
	"ß", "ss", "ſ", "s", "ς", "σ", "µ", "μ",
	"\u2018", "'", "\u2019", "'", "\u201B", "'", "\u02BC", "'", "\u2032", "'",
	"\u201C", `"`, "\u201D", `"`, "\u201E", `"`, "\u201F", `"`, "\u2033", `"`, "\u00AB", `"`, "\u00BB", `"`,
	"\u2010", "-", "\u2011", "-",
)

// Fold is the form in which names are compared: two names are one if their
// folds are equal. It levels Unicode composition (NFC), case, runs of blanks,
// typographic apostrophes, quotes and hyphens, and the plural of the last
// word. Accents count: "pâte" is not "pâté". Fold(Fold(x)) = Fold(x).
func Fold(name string) string {
	name = level(name)
	last := strings.LastIndexByte(name, ' ') + 1
	if one := Singular(name[last:]); one != name[last:] {
		name = name[:last] + one
	}
	return name
}

// Lead is the first word of a folded name of more than one; empty of others.
func Lead(folded string) string {
	if i := strings.IndexByte(folded, ' '); i > 0 {
		return folded[:i]
	}
	return ""
}

// Level is Fold without the plural: a word as it stands in a folded name where
// others follow it.
func Level(word string) string { return level(word) }

// level is Fold without the plural.
func level(name string) string {
	if ascii(name) {
		name = strings.ToLower(name)
	} else {
		name = norm.NFC.String(levels.Replace(strings.ToLower(norm.NFD.String(name))))
	}
	if !tidy(name) {
		name = strings.Join(strings.Fields(name), " ")
	}
	return name
}

// tidy tells whether the only blanks are single plain ones between words.
func tidy(name string) bool {
	last := ' '
	for _, r := range name {
		if r == ' ' && last == ' ' || r != ' ' && unicode.IsSpace(r) {
			return false
		}
		last = r
	}
	return last != ' ' || name == ""
}

func ascii(s string) bool {
	for i := 0; i < len(s); i++ {
		if s[i] >= utf8.RuneSelf {
			return false
		}
	}
	return true
}

// Capital is a text with a capital at its start.
func Capital(s string) string { return first(s, unicode.ToUpper) }

// Small is a text with a small letter at its start.
func Small(s string) string { return first(s, unicode.ToLower) }

func first(s string, to func(rune) rune) string {
	r, n := utf8.DecodeRuneInString(s)
	if r == utf8.RuneError {
		return s
	}
	return string(to(r)) + s[n:]
}

// plainLetters takes the accents off a word.
func plainLetters(w string) string {
	if ascii(w) {
		return w
	}
	return norm.NFC.String(strings.Map(func(r rune) rune {
		if unicode.Is(unicode.Mn, r) {
			return -1
		}
		return r
	}, norm.NFD.String(w)))
}
