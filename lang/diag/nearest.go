package diag

import (
	"strings"
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
	for _, c := range candidates {
		if m := utf8.RuneCountInString(c); m > n+limit || m < n-limit {
			continue
		}
		if d := Distance(w, strings.ToLower(c)); d < least {
			best, least = c, d
		}
	}
	return best
}

// Distance is the number of slips between two words.
func Distance(a, b string) int {
	x, y := []rune(a), []rune(b)
	before := make([]int, len(y)+1)
	above := make([]int, len(y)+1)
	row := make([]int, len(y)+1)
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
