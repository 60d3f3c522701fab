// Package amount knows how a printed amount falls into its figure and its unit,
// so that both line up in a column.
package amount

import (
	"strings"
	"unicode"
)

// Split parts an amount into its figure and what follows: "2½ tbsp" is
// "2½" and "tbsp", "35 to 40 min" is "35 to 40" and "min". An amount without
// a figure has only the second part; "about 2 kg" counts as a figure.
func Split(s string) (figure, unit string) {
	words := strings.Fields(s)
	n, digits := 0, false
	for i, w := range words {
		switch {
		case hasDigit(w) && !digitThenLetter(w):
			n, digits = i+1, true
			continue
		case digits && (w == "to" || w == "or" || w == "–" || w == "-" || w == "×" || w == "x") && i+1 < len(words) && hasDigit(words[i+1]):
			continue
		case !digits && i == 0 && len(words) > 1 && (w == "about" || w == "up" || w == "–" || w == "~"):
			continue
		case !digits && i == 1 && w == "to":
			continue
		}
		break
	}
	if !digits {
		return "", strings.Join(words, " ")
	}
	return strings.Join(words[:n], " "), strings.Join(words[n:], " ")
}

// hasDigit tells whether w begins like a number: 450, ½, –2.
func hasDigit(w string) bool {
	for _, r := range w {
		if unicode.IsNumber(r) {
			return true
		}
		if r != '–' && r != '-' && r != '−' && r != '(' && r != '~' && r != '£' && r != '€' && r != '$' {
			return false
		}
	}
	return false
}

// digitThenLetter tells 200g from 200.
func digitThenLetter(w string) bool {
	return strings.IndexFunc(w, unicode.IsLetter) >= 0
}
