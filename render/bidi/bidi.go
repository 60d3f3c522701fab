// Package bidi puts text that runs both ways in the order it is seen: the
// Unicode Bidirectional Algorithm (UAX #9) for one paragraph without embedding
// marks, which runes.Clean has taken out.
package bidi

import (
	"slices"
	"strings"

	"golang.org/x/text/unicode/bidi"
)

// Mixed tells whether s has letters that run to the left. Text without them
// needs nothing of this package.
func Mixed(s string) bool {
	for _, r := range s {
		if r >= 0x590 {
			switch class(r) {
			case bidi.R, bidi.AL, bidi.AN:
				return true
			}
		}
	}
	return false
}

func class(r rune) bidi.Class {
	p, _ := bidi.LookupRune(r)
	return p.Class()
}

// Levels returns the level of every character of a paragraph: even ones run to
// the right, odd ones to the left. base is 1 for a paragraph whose first
// letter runs to the left (rules P2 and P3), else 0.
func Levels(text []rune) (levels []int, base int) {
	kinds := make([]bidi.Class, len(text))
	for i, r := range text {
		kinds[i] = class(r)
	}
	base = direction(kinds)
	own := slices.Clone(kinds)
	weak(kinds, base)
	brackets(text, own, kinds, base)
	neutral(kinds, base)
	levels = make([]int, len(text))
	for i, k := range kinds { // I1, I2
		levels[i] = base
		switch k {
		case bidi.R:
			levels[i] |= 1
		case bidi.L:
			levels[i] += base & 1
		case bidi.AN, bidi.EN:
			levels[i] = base + 2 - base&1
		}
	}
	return levels, base
}

func direction(kinds []bidi.Class) int {
	for _, k := range kinds {
		switch k {
		case bidi.L:
			return 0
		case bidi.R, bidi.AL:
			return 1
		}
	}
	return 0
}

// side is the direction of a level.
func side(level int) bidi.Class {
	if level&1 == 1 {
		return bidi.R
	}
	return bidi.L
}

// weak resolves marks, figures and what stands between them: rules W1 to W7.
func weak(kinds []bidi.Class, base int) {
	last, strong := side(base), side(base)
	for i, k := range kinds {
		if k == bidi.NSM { // W1
			k = last
		}
		last = k
		switch k {
		case bidi.L, bidi.R, bidi.AL:
			strong = k
		case bidi.EN:
			if strong == bidi.AL { // W2
				k = bidi.AN
			}
		}
		kinds[i] = k
	}
	for i, k := range kinds {
		if k == bidi.AL { // W3
			kinds[i] = bidi.R
		}
		if i > 0 && i+1 < len(kinds) && kinds[i-1] == kinds[i+1] { // W4
			if n := kinds[i-1]; n == bidi.EN && (k == bidi.ES || k == bidi.CS) || n == bidi.AN && k == bidi.CS {
				kinds[i] = n
			}
		}
	}
	for i := 0; i < len(kinds); { // W5
		end := i
		for end < len(kinds) && (kinds[end] == bidi.ET || kinds[end] == bidi.BN) {
			end++
		}
		if end > i && (i > 0 && kinds[i-1] == bidi.EN || end < len(kinds) && kinds[end] == bidi.EN) {
			for k := i; k < end; k++ {
				kinds[k] = bidi.EN
			}
		}
		i = max(end, i+1)
	}
	strong = side(base)
	for i, k := range kinds {
		switch k {
		case bidi.ET, bidi.ES, bidi.CS, bidi.BN: // W6
			kinds[i] = bidi.ON
		case bidi.L, bidi.R:
			strong = k
		case bidi.EN:
			if strong == bidi.L { // W7
				kinds[i] = bidi.L
			}
		}
	}
}

// pairs are the brackets that text of a kitchen uses, each with the one that
// closes it. Unicode Character Database, BidiBrackets.
const pairs = "()[]{}⟨⟩〈〉《》「」『』【】（）［］｛｝"

// brackets gives both of a pair the direction of what they hold: rule N0.
func brackets(text []rune, own, kinds []bidi.Class, base int) {
	type open struct {
		at   int
		ends rune
	}
	type pair struct{ from, to int }
	var stack []open
	var found []pair
	list := []rune(pairs)
	for i, r := range text {
		if kinds[i] != bidi.ON {
			continue
		}
		switch at := slices.Index(list, r); {
		case at < 0:
		case at%2 == 0:
			if len(stack) == 63 { // BD16
				return
			}
			stack = append(stack, open{i, list[at+1]})
		default:
			for k := len(stack) - 1; k >= 0; k-- {
				if stack[k].ends == r {
					found = append(found, pair{stack[k].at, i})
					stack = stack[:k]
					break
				}
			}
		}
	}
	slices.SortFunc(found, func(a, b pair) int { return a.from - b.from })
	for _, p := range found {
		e := side(base)
		inside, other := false, false
		for _, k := range kinds[p.from+1 : p.to] {
			if s, ok := strong(k); ok {
				inside = inside || s == e
				other = other || s != e
			}
		}
		to := e
		switch {
		case inside:
		case !other:
			continue
		default:
			before := e
			for k := p.from - 1; k >= 0; k-- {
				if s, ok := strong(kinds[k]); ok {
					before = s
					break
				}
			}
			to = before
		}
		for _, at := range []int{p.from, p.to} {
			kinds[at] = to
			for k := at + 1; k < len(own) && own[k] == bidi.NSM; k++ {
				kinds[k] = to
			}
		}
	}
}

// strong is the direction that a character gives to neutral ones beside it:
// figures count as running to the left (N1).
func strong(k bidi.Class) (bidi.Class, bool) {
	switch k {
	case bidi.L:
		return bidi.L, true
	case bidi.R, bidi.EN, bidi.AN:
		return bidi.R, true
	}
	return bidi.ON, false
}

// neutral gives blanks and punctuation the direction of their neighbours where
// those agree, else that of the paragraph: rules N1 and N2.
func neutral(kinds []bidi.Class, base int) {
	for i := 0; i < len(kinds); {
		if _, ok := strong(kinds[i]); ok {
			i++
			continue
		}
		end := i
		for end < len(kinds) {
			if _, ok := strong(kinds[end]); ok {
				break
			}
			end++
		}
		before, after := side(base), side(base)
		if i > 0 {
			before, _ = strong(kinds[i-1])
		}
		if end < len(kinds) {
			after, _ = strong(kinds[end])
		}
		to := side(base)
		if before == after {
			to = before
		}
		for k := i; k < end; k++ {
			kinds[k] = to
		}
		i = end
	}
}

// Order returns the places of what a line holds, from the left, given the
// level of each: rule L2.
func Order(levels []int) []int {
	out := make([]int, len(levels))
	top := 0
	for i, l := range levels {
		out[i] = i
		top = max(top, l)
	}
	for l := top; l > 0; l-- {
		for i := 0; i < len(levels); {
			end := i
			for end < len(levels) && levels[out[end]] >= l {
				end++
			}
			slices.Reverse(out[i:end])
			i = max(end, i+1)
		}
	}
	return out
}

// Backwards writes s as it is drawn from the left when it runs to the left:
// marks stay behind their letters, brackets are mirrored (rules L3 and L4).
func Backwards(s string) string {
	text := []rune(s)
	list := []rune(pairs + "<>«»‹›≤≥")
	var b strings.Builder
	for end := len(text); end > 0; {
		from := end - 1
		for from > 0 && class(text[from]) == bidi.NSM {
			from--
		}
		for _, r := range text[from:end] {
			if at := slices.Index(list, r); at >= 0 {
				r = list[at^1]
			}
			b.WriteRune(r)
		}
		end = from
	}
	return b.String()
}
