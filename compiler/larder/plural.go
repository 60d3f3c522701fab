package larder

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// Singular is an English noun of the kitchen made singular: tomatoes -> tomato,
// leaves -> leaf, berries -> berry. A word that is singular already, or that has
// no other form (couscous, sheep), comes back as it was. Case is kept, and of
// a hyphenated word only the last part changes. Singular(Singular(x)) = Singular(x).
func Singular(word string) string {
	for {
		next := onLastPart(word, singular)
		if next == word {
			return word
		}
		word = next
	}
}

// Plural is an English noun of the kitchen made plural: potato -> potatoes,
// knife -> knives, radish -> radishes. A plural comes back as it was, and so does
// a word that has only one form. Case is kept; of a hyphenated word only the
// last part changes.
func Plural(word string) string { return onLastPart(word, plural) }

// PluralName makes the noun of a name plural: the word before "of", "in", "on",
// "with" or "for" if there is one ("legs of lamb"), else the last word.
func PluralName(name string) string {
	words := strings.Fields(name)
	if len(words) == 0 {
		return name
	}
	noun := nounOf(words)
	words[noun] = Plural(words[noun])
	return strings.Join(words, " ")
}

// nounOf is the index of the word of a name that takes the plural.
func nounOf(words []string) int {
	for i, w := range words[1:] {
		if linking[strings.ToLower(w)] {
			return i
		}
	}
	return len(words) - 1
}

var linking = set("of in on with for à au aux de")

func onLastPart(word string, change func(low, word string) string) string {
	at := strings.LastIndexByte(word, '-') + 1
	part := word[at:]
	if len(part) < 2 {
		return word
	}
	low := lowASCII(part) // of the same length, which strings.ToLower is not
	return word[:at] + change(low, part)
}

// singular does one step; low is word in lower case, of the same length.
func singular(low, word string) string {
	if one, ok := irregularOne[low]; ok {
		return likeCase(word, one)
	}
	if strings.HasSuffix(low, "eaux") && !unchanging[low] && irregularMany[low] == "" {
		return word[:len(word)-1]
	}
	if !strings.HasSuffix(low, "s") || utf8.RuneCountInString(low) <= 3 || !letterBefore(low) {
		return word
	}
	if _, single := irregularMany[low]; single || unchanging[low] || endsInS[low] {
		return word
	}
	if strings.HasSuffix(low, "ves") {
		for _, f := range fToVes {
			if many := vesOf(f); len(low) > len(many) && strings.HasSuffix(low, many) && len(many) > 5 {
				return word[:len(word)-len(many)] + likeCase(word[len(word)-len(many):], f)
			}
		}
	}
	switch {
	case ends(low, "ses") && endsInS[low[:len(low)-2]]:
		return word[:len(word)-2]
	case ends(low, "ss", "ais", "ois", "ous"), ends(low, "us") && !pluralInUs[low] && !ends(low, "eaus"):
		return word
	case keepsE[low[:len(low)-1]]:
		return word[:len(word)-1]
	case ends(low, "ies"):
		if utf8.RuneCountInString(low) <= 4 || vowel(low[len(low)-4]) {
			return word[:len(word)-1]
		}
		return word[:len(word)-3] + likeCase(word[len(word)-3:len(word)-2], "y")
	case ends(low, "oes"):
		if utf8.RuneCountInString(low) <= 4 {
			return word[:len(word)-1]
		}
		return word[:len(word)-2]
	case ends(low, "sses", "xes", "ches", "shes", "zzes", "tzes"):
		return word[:len(word)-2]
	case ends(low, "uses") && utf8.RuneCountInString(low) > 4 && !vowel(low[len(low)-5]):
		return word[:len(word)-2]
	}
	return word[:len(word)-1]
}

func plural(low, word string) string {
	if many, ok := irregularMany[low]; ok {
		return likeCase(word, many)
	}
	if unchanging[low] || utf8.RuneCountInString(low) < 3 || singular(low, word) != word ||
		!letterLast(low) || ends(low, "s") && !letterBefore(low) {
		return word
	}
	for _, f := range fToVes {
		if low == f || len(f) > 3 && strings.HasSuffix(low, f) {
			return word[:len(word)-len(f)] + likeCase(word[len(word)-len(f):], vesOf(f))
		}
	}
	s, es := "s", "es"
	if upper(word) {
		s, es = "S", "ES"
	}
	n := len(low)
	switch {
	case ends(low, "eau"):
		return word + likeCase(word[n-1:], "x")
	case ends(low, "s", "x", "z", "sh"), ends(low, "ch") && !hardCh[low], takesOes[low]:
		return word + es
	case ends(low, "y") && n > 1 && !vowel(low[n-2]):
		return word[:n-1] + likeCase(word[n-1:], "i") + es
	}
	return word + s
}

func lowASCII(s string) string {
	if !strings.ContainsFunc(s, unicode.IsUpper) {
		return s
	}
	b := []byte(s)
	for i, c := range b {
		if 'A' <= c && c <= 'Z' {
			b[i] = c + 'a' - 'A'
		}
	}
	return string(b)
}

func ends(low string, tails ...string) bool {
	for _, t := range tails {
		if strings.HasSuffix(low, t) {
			return true
		}
	}
	return false
}

func vowel(b byte) bool { return strings.IndexByte("aeiou", b) >= 0 }

// letterBefore tells whether a letter stands before the final s: not so in
// "shepherd's" or "80s".
func letterBefore(low string) bool {
	r, _ := utf8.DecodeLastRuneInString(low[:len(low)-1])
	return unicode.IsLetter(r)
}

func letterLast(low string) bool {
	r, _ := utf8.DecodeLastRuneInString(low)
	return unicode.IsLetter(r)
}

func upper(word string) bool {
	return len(word) > 1 && strings.ToUpper(word) == word
}

// likeCase writes word with the capitals of model: all, first or none.
func likeCase(model, word string) string {
	r, _ := utf8.DecodeRuneInString(model)
	switch {
	case !unicode.IsUpper(r):
		return word
	case strings.ToUpper(model) == model:
		return strings.ToUpper(word)
	}
	return Capital(word)
}
