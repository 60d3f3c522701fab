package diag

import (
	"math/bits"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Nearest finds the candidate most like word, in any case: at most one slip
// for short words, two for longer ones, three from nine letters on. A slip is
// a letter too many, too few, wrong, or changed with its neighbour
// (Damerau-Levenshtein distance, in the form that edits no part twice). It is
// "" when none is near enough. Of equals the first counts.
func Nearest(word string, candidates []string) string {
	w := strings.ToLower(word)
	n := utf8.RuneCountInString(w)
	if n < 2 || n > 64 {
		return ""
	}
	limit := 1
	switch {
	case n >= 9:
		limit = 3
	case n >= 5:
		limit = 2
	}
	best, least := "", limit+1
	has := lettersOf(w)
	x, y := []rune(w), make([]rune, 0, 68) // once for all of them
	var rows [3 * 69]int
	for _, c := range candidates {
		if len(c) < n-limit || len(c) > utf8.UTFMax*(n+limit) {
			continue
		}
		if m := utf8.RuneCountInString(c); m > n+limit || m < n-limit {
			continue
		}
		if !has.near(lettersOf(c), least-1) {
			continue // a book has ten thousand names, and nearly all of them are unlike
		}
		low := y[:0]
		for _, r := range c {
			low = append(low, unicode.ToLower(r))
		}
		if d := distance(x, low, rows[:]); d < least {
			best, least = c, d
		}
	}
	return best
}

// letters is the set of letters of a word, in any case: a bit for each of a to z.
type letters struct {
	set   uint32
	plain bool // it has no letters outside ASCII, which have no bit
}

func lettersOf(word string) letters {
	l := letters{plain: true}
	for i := range len(word) {
		switch c := word[i] | 0x20; {
		case word[i] >= utf8.RuneSelf:
			l.plain = false
		case 'a' <= c && c <= 'z':
			l.set |= 1 << (c - 'a')
		}
	}
	return l
}

// near tells whether so many slips could be enough: one slip takes away or
// brings at most one letter that the other word lacks.
func (l letters) near(o letters, slips int) bool {
	return !l.plain || !o.plain || bits.OnesCount32(l.set&^o.set) <= slips && bits.OnesCount32(o.set&^l.set) <= slips
}

// Distance is the number of slips between two words.
func Distance(a, b string) int {
	x, y := []rune(a), []rune(b)
	return distance(x, y, make([]int, 3*(len(y)+1)))
}

// distance is Distance, with room for three rows of len(y)+1.
func distance(x, y []rune, room []int) int {
	n := len(y) + 1
	before, above, row := room[:n], room[n:2*n], room[2*n:3*n]
	for j := range above {
		above[j] = j
	}
	for i := 1; i <= len(x); i++ {
		row[0] = i
		for j := 1; j <= len(y); j++ {
			cost := 1
			if x[i-1] == y[j-1] {
				cost = 0
			}
			row[j] = min(above[j]+1, row[j-1]+1, above[j-1]+cost)
			if i > 1 && j > 1 && x[i-1] == y[j-2] && x[i-2] == y[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
		before, above, row = above, row, before
	}
	return above[len(y)]
}
