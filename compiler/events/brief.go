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

// Brief is a sentence in at most so many letters, for a wall or a bar: whole
// words only, broken off before what it could not finish, "Boil the green beans"
// for "Boil the green beans in salted water". A first word that is longer stays.
func Brief(text string, most int) string {
	text = strings.TrimRight(strings.TrimSpace(text), ".…;,: ")
	if utf8.RuneCountInString(text) <= most {
		return text
	}
	words := strings.Fields(text)
	n, long := 0, -1
	for n < len(words) && (n == 0 || long+1+utf8.RuneCountInString(words[n]) <= most) {
		long += 1 + utf8.RuneCountInString(words[n])
		n++
	}
	if n == len(words) {
		return strings.Join(words, " ")
	}
	cut := words[:n]
	// a sentence or a clause that ends within is a better end than any
	for i := n - 1; i >= 1; i-- {
		if strings.ContainsAny(words[i][len(words[i])-1:], ".;:") {
			return whole(words[:i+1])
		}
	}
	if !ends(words[n]) || slices.Contains(leading, plainWord(words[n-1])) {
		for i := n - 1; i >= 2; i-- {
			opens := slices.Contains(turns, plainWord(words[i])) && !ends(words[i+1]) // else it belongs to what is before: "turn over and"
			if opens || strings.HasSuffix(words[i-1], ",") {
				return upTo(words, i)
			}
		}
		return trimmed(cut)
	}
	return upTo(words, n)
}

// upTo is the first n of words, of which the next can be left out: of "a sieve lined
// with muslin" no more than the sieve.
func upTo(words []string, n int) string {
	if n > 2 && strings.HasSuffix(plainWord(words[n-1]), "ed") && slices.Contains(by, plainWord(words[n])) {
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
		of := n > 2 && strings.HasSuffix(last, "ed") && slices.Contains(leading, before) // "in the flaked" of "in the flaked almonds"
		if !of && !slices.Contains(turns, last) && !slices.Contains(leading, last) {
			break
		}
		n--
	}
	return whole(words[:n])
}

// whole joins words that stand by themselves.
func whole(words []string) string { return strings.TrimRight(strings.Join(words, " "), ".,;:") }
