package parse

import (
	"maps"
	"slices"
	"strings"
)

// spelling is a way to write a word: its own, or one that is read for it.
type spelling struct {
	text string
	word *Word
}

// index finds words by place and first word, longest group first.
var index = buildIndex()

func buildIndex() (idx [placeCount]map[string][]spelling) {
	for p := range idx {
		idx[p] = map[string][]spelling{}
	}
	add := func(p Place, text string, w *Word) {
		first, _, _ := strings.Cut(text, " ")
		list := append(idx[p][first], spelling{text, w})
		for k := len(list) - 1; k > 0 && len(list[k].text) > len(list[k-1].text); k-- {
			list[k], list[k-1] = list[k-1], list[k]
		}
		idx[p][first] = list
	}
	for i := range words {
		for _, p := range words[i].In {
			add(p, words[i].Text, &words[i])
		}
	}
	for _, r := range readFor {
		for i := range words {
			if words[i].Text == r.word && words[i].Allowed(r.in) {
				add(r.in, r.text, &words[i])
			}
		}
	}
	return idx
}

// marginWord is the word of a clause of a list or of a method; nil if it is none.
func marginWord(text string) *Word { return marginWords[text] }

var marginWords = func() map[string]*Word {
	m := map[string]*Word{}
	for i := range words {
		if w := &words[i]; w.Allowed(OnLine) || w.Allowed(OnStep) {
			m[w.Text] = w
		}
	}
	return m
}()

// opener is the first word that stands above the lines of a place; nil if none.
func opener(p Place) *Word {
	for i := range words {
		if words[i].opens == p && p != none {
			return &words[i]
		}
	}
	return nil
}

// Words is the table of literals, in the order the formatter keeps.
func Words() []Word {
	var out []Word
	for _, w := range words {
		w.In = append([]Place(nil), w.In...)
		out = append(out, w)
	}
	return out
}

// Joining lists the words that join the parts of a statement: per, until, top shelf.
func Joining() []string {
	set := map[string]bool{}
	for i := range words {
		for _, j := range words[i].reads.small {
			if isKeyByte(j[0]) {
				set[j] = true
			}
		}
	}
	return slices.Sorted(maps.Keys(set))
}

// WordsIn lists the literals that may begin a line, or a clause, in a place.
func WordsIn(p Place) []Word {
	var out []Word
	for _, w := range words {
		if w.Allowed(p) {
			out = append(out, w)
		}
	}
	return out
}

// Order is the rank of a word in a place, for putting fields and clauses in
// table order; unknown words come last.
func Order(p Place, text string) int {
	for i := range words {
		if words[i].Text == text && words[i].Allowed(p) {
			return i
		}
	}
	return len(words)
}

// LookUp finds the literal a text begins with in a place, in any case, and the
// number of bytes it fills, a final colon with it. A word end must follow.
func LookUp(p Place, text string) (*Word, int) {
	end := 0
	for end < len(text) && isKeyByte(text[end]) {
		end++
	}
	if end == 0 {
		return nil, 0
	}
	first := lower(text[:end])
	for _, w := range index[p][first] {
		if n := matchGroup(text, w.text); n > 0 {
			return w.word, n
		}
	}
	return nil, 0
}

func isKeyByte(c byte) bool {
	return 'a' <= c && c <= 'z' || 'A' <= c && c <= 'Z' || c == '-'
}

// matchGroup matches the words of a group, which may be any number of blanks
// apart, and returns the bytes matched or 0.
func matchGroup(text, group string) int {
	i := 0
	for g := 0; g < len(group); {
		if group[g] == ' ' {
			n := blanks(text[i:])
			if n == 0 {
				return 0
			}
			i += n
			g++
			continue
		}
		if i >= len(text) || lowerByte(text[i]) != group[g] {
			return 0
		}
		i++
		g++
	}
	if i < len(text) && text[i] == ':' {
		return i + 1
	}
	if !wordEnd(text[i:]) {
		return 0
	}
	return i
}

func lowerByte(c byte) byte {
	if 'A' <= c && c <= 'Z' {
		return c + 'a' - 'A'
	}
	return c
}

// lower is strings.ToLower, free of allocation for small letters.
func lower(s string) string {
	for i := 0; i < len(s); i++ {
		if c := s[i]; c >= 0x80 || 'A' <= c && c <= 'Z' {
			return strings.ToLower(s)
		}
	}
	return s
}
