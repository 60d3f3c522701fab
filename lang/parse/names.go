package parse

import (
	"strings"
	"unicode/utf8"
)

// endsName are the signs that no name has in it.
var endsName = func() (set [256]bool) {
	for _, c := range []byte(",|():\"+") {
		set[c] = true
	}
	return set
}()

// aName reads a name: a quoted one, or the words up to a comma, a bar or
// another sign that no name has. Its value is the name's text.
func (s *piece) aName(i int, text string) int {
	if r, n := utf8.DecodeRuneInString(text); isQuote(r) {
		return s.quoted(i, text, n)
	}
	n, plain := 0, true
	for n < len(text) && (!endsName[text[n]] || s.commas && text[n] == ',' && titleGoesOn(text[n+1:])) {
		plain = plain && text[n] < 0x80
		if s.gives && text[n] == ' ' && matchGroup(text[n+1:], "and") > 0 && startsNumber(strings.TrimLeft(text[n+4:], " ")) {
			break
		}
		if s.upTo != "" && n > 0 && text[n] == ' ' && matchGroup(text[n+1:], s.upTo) > 0 {
			s.upTo = ""
			break
		}
		n++
	}
	if !plain {
		if curly := strings.IndexAny(text[:n], "“”„«»"); curly > 0 {
			n = curly
		}
	}
	n = trimEnd(text[:n])
	if n == 0 {
		return 0
	}
	s.add(tName, i, i+n, nil)
	return n
}

// titleGoesOn tells whether what follows a comma belongs to the title of a block:
// words, and not a field that was put on the same line.
func titleGoesOn(rest string) bool {
	rest = rest[blanks(rest):]
	if rest == "" || rest[0] == ',' || startsNumber(rest) {
		return false
	}
	for _, p := range [...]Place{InMenu, InRecipe} {
		if w, n := LookUp(p, rest); w != nil && (w.Text == "by" || w.Text == "serve" || startsNumber(rest[n+blanks(rest[n:]):])) {
			return false
		}
	}
	return true
}

func (s *piece) quoted(i int, text string, open int) int {
	for k, r := range text[open:] {
		if isQuote(r) {
			n := open + k + utf8.RuneLen(r)
			if strings.TrimSpace(text[open:open+k]) == "" {
				s.fail(codeQuote, i, i+n, "there is nothing between these quotes").
					WithHelp("write a name between them, or take them out")
			}
			s.add(tName, i, i+n, nil)
			return n
		}
	}
	s.fail(codeQuote, i, i+open, "this quote is not closed").
		Because("a name in quotes ends at the second quote").
		WithHelp("put a quote after the last word of the name")
	s.add(tName, i, i+trimEnd(text), nil)
	return len(text)
}

// startsNumber tells whether text begins like a number.
func startsNumber(text string) bool {
	if text == "" {
		return false
	}
	c := text[0]
	if c >= '0' && c <= '9' {
		return true
	}
	if c == '.' && len(text) > 1 {
		return text[1] >= '0' && text[1] <= '9'
	}
	if c == '-' || c >= 0x80 {
		r, n := utf8.DecodeRuneInString(text)
		switch r {
		case '½', '⅓', '⅔', '¼', '¾', '⅕', '⅖', '⅗', '⅘', '⅙', '⅚', '⅛', '⅜', '⅝', '⅞':
			return true
		case '-', '−':
			return n < len(text) && text[n] >= '0' && text[n] <= '9'
		}
	}
	return false
}
