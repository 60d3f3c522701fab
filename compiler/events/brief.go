package events

import (
	"slices"
	"strings"
	"unicode/utf8"
)

// turns are the words at which a sentence can be broken off: what comes before
// one of them stands by itself.
var turns = []string{
	"across", "after", "against", "among", "and", "around", "as", "at", "before", "beside", "between", "by", "for", "from", "if", "in", "into", "of", "on", "onto", "or", "over", "round", "so", "that", "then", "through",
	"till", "to", "under", "until", "when", "where", "which", "while", "with", "without",
}

// leading are words that cannot be the last.
var leading = []string{"a", "an", "the", "each", "every", "its", "their", "some", "all", "very", "them", "it", "half", "about", "is", "are", "was", "were"}

// by are the words that say what something is done with.
var by = []string{"by", "in", "with"}

// over is how many letters more than asked for are taken rather than part a name: "Toast
// the sunflower seeds", not "Toast the sunflower".
const over = 12

// Brief is a sentence in about so many letters, for a wall or a bar: whole words only,
// broken off before what it could not finish, "Boil the green beans" for "Boil the green
// beans in salted water". Where no such place comes soon enough it goes on to the next, if
// that is near.
func Brief(text string, most int) string {
	text = strings.TrimRight(strings.TrimSpace(text), ".…;,: ")
	if utf8.RuneCountInString(text) <= most {
		return text
	}
	words := strings.Fields(text)
	n, long := fitting(words, most)
	if n == len(words) {
		return strings.Join(words, " ")
	}
	// a sentence or a clause that ends within is a better end than any
	for i := n - 1; i >= 1; i-- {
		if strings.ContainsAny(words[i][len(words[i])-1:], ".;:") {
			return whole(words[:i+1])
		}
	}
	if n > 1 && ends(words[n]) && !slices.Contains(leading, plainWord(words[n-1])) {
		return upTo(words, n)
	}
	for i := n; i >= 2; i-- {
		if opens(words, i) {
			return upTo(words, i)
		}
	}
	if long > most { // a first word that is longer stays
		return whole(words[:n])
	}
	wide, _ := fitting(words, most+over)
	for i := n + 1; i <= wide; i++ {
		if i == len(words) || opens(words, i) {
			return upTo(words, i)
		}
	}
	if i := slices.IndexFunc(words[1:n], func(w string) bool { return slices.Contains(clauses, plainWord(w)) }); i >= 0 {
		return whole(words[:i+1]) // of "Prove until the dough stands a finger above the rim", the verb
	}
	return trimmed(words[:n])
}

// clauses are the words that a clause begins with, which says nothing unless it is whole.
var clauses = []string{"as", "if", "that", "till", "until", "when", "where", "which", "while"}

// fitting is how many words go into so many letters, one at least, and how many letters they have.
func fitting(words []string, most int) (n, long int) {
	long = -1
	for n < len(words) && (n == 0 || long+1+utf8.RuneCountInString(words[n]) <= most) {
		long += 1 + utf8.RuneCountInString(words[n])
		n++
	}
	return n, long
}

// opens tells whether something new begins with word i, which can be left out.
func opens(words []string, i int) bool {
	if strings.HasSuffix(words[i-1], ",") {
		return true
	}
	if i > 1 && adjective(words[i-2], words[i-1]) && slices.Contains([]string{"and", "or"}, plainWord(words[i])) {
		return false // "the flaked and salted almonds"
	}
	return ends(words[i]) && i+1 < len(words) && !ends(words[i+1]) && // else it belongs to what is before: "turn over and"
		!slices.Contains(leading, plainWord(words[i-1])) &&
		!(ends(words[i-1]) && plainWord(words[i]) == "to") // "on to shallow trays"
}

// upTo is the first n of words, of which the next can be left out: of "a sieve lined
// with muslin" no more than the sieve.
func upTo(words []string, n int) string {
	if n > 2 && n < len(words) && strings.HasSuffix(plainWord(words[n-1]), "ed") && slices.Contains(by, plainWord(words[n])) {
		return trimmed(words[:n-1])
	}
	return whole(words[:n])
}

// ends tells whether what comes before a word may end there.
func ends(next string) bool { return slices.Contains(turns, plainWord(next)) }

func plainWord(w string) string { return strings.ToLower(strings.Trim(w, ".,;:()“”\"'")) }

// trimmed joins words without those at the end that lead to another.
func trimmed(words []string) string {
	n := len(words)
	for n > 1 {
		last, before := plainWord(words[n-1]), plainWord(words[n-2])
		if !(n > 2 && adjective(before, last)) && !slices.Contains(turns, last) && !slices.Contains(leading, last) {
			break
		}
		n--
	}
	return whole(words[:n])
}

// adjective tells whether a word leads to a name: "the flaked" of "the flaked almonds".
func adjective(before, word string) bool {
	return strings.HasSuffix(plainWord(word), "ed") && slices.Contains(leading, plainWord(before))
}

// whole joins words that stand by themselves.
func whole(words []string) string { return strings.TrimRight(strings.Join(words, " "), ".,;:") }
