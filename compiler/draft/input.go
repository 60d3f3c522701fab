package draft

import (
	"path"
	"strings"
	"unicode"
	"unicode/utf8"

	"tamis/compiler/larder"
)

// Kind is what a text is taken for.
type Kind string

// The kinds of text.
const (
	Prose    Kind = "prose"
	Markdown Kind = "Markdown"
	JSONLD   Kind = "JSON-LD"
	HTML     Kind = "a web page"
)

var (
	pageBegins = lazily(`(?i)^\s*(?:<!--.*?-->\s*)*<(?:!doctype\s+html|html|head|body|script|main|article|div|p|h1)\b`)
	marked     = lazily(`(?m)^(?:#{1,6} \S|\*\*\S.*\*\*\s*$|\|\s*:?-{3,}|---\n(?:.+\n)*?title:)`)
)

// kindOf tells what a text is: by the ending of its file, else by how it begins.
func kindOf(name, text string) Kind {
	begins := strings.TrimSpace(text)
	switch strings.ToLower(path.Ext(name)) {
	case ".md", ".markdown":
		return Markdown
	case ".json", ".jsonld":
		return JSONLD
	case ".html", ".htm", ".xhtml":
		return HTML
	}
	switch {
	case strings.HasPrefix(begins, "{") || strings.HasPrefix(begins, "["):
		if strings.Contains(begins, `"`) && strings.ContainsAny(begins[len(begins)-1:], "}]") {
			return JSONLD
		}
	case pageBegins.MatchString(text):
		return HTML
	case marked.MatchString(text):
		return Markdown
	}
	return Prose
}

// clean makes a text one that the notation can hold: the ends of lines are one, tabs are
// blanks, marks that nobody sees are gone, and a sign like a bar is a stroke.
func clean(text string) string {
	text = strings.ToValidUTF8(strings.TrimPrefix(text, "\uFEFF"), "\uFFFD")
	text = strings.NewReplacer("\r\n", "\n", "\r", "\n", "\t", "    ", "\f", "\n", "\u00A0", " ", "\u202F", " ", "\u2009", " ").Replace(text)
	return strings.Map(func(c rune) rune {
		switch {
		case c == '\n':
			return c
		case c == '¦' || c == '│' || c == '｜':
			return '|'
		case unicode.Is(unicode.Cf, c), unicode.IsControl(c):
			return -1
		case c >= '！' && c <= '～': // full-width signs
			return c - 0xFEE0
		}
		return c
	}, text)
}

// longWord is how many signs may stand together without a blank; a line of the notation has
// an end, and what nobody could write on it would be lost.
const longWord = 1000

// parted puts a blank into what has none for long.
func parted(text string) string {
	if len(text) <= longWord {
		return text
	}
	var b strings.Builder
	n := 0
	for _, c := range text {
		if unicode.IsSpace(c) {
			n = 0
		} else if n++; n > longWord {
			b.WriteByte(' ')
			n = 1
		}
		b.WriteRune(c)
	}
	return b.String()
}

// titleOf makes a title of a file's name.
func titleOf(name string) string {
	base := path.Base(strings.ReplaceAll(name, `\`, "/"))
	base = strings.TrimSuffix(base, path.Ext(base))
	words := strings.FieldsFunc(base, func(c rune) bool { return c == '-' || c == '_' || unicode.IsSpace(c) })
	out := titled(strings.Join(words, " "))
	if first, _ := utf8.DecodeRuneInString(out); !unicode.IsLetter(first) {
		return "A draft"
	}
	return larder.Capital(out)
}

var notInTitle = strings.NewReplacer("|", " ", "(", " ", ")", " ", ":", ",", `"`, "", "+", " and ", "_", "", "*", "", "“", "", "”", "", "[", " ", "]", " ", "?", "")

// titled makes a title of words: without the marks that none may have, and in small letters
// where all were capitals.
func titled(s string) string {
	s = strings.Join(strings.Fields(notInTitle.Replace(s)), " ")
	s = strings.Trim(s, " .,;-–—")
	s = strings.ReplaceAll(s, " ,", ",")
	upper, lower := 0, 0
	for _, c := range s {
		if unicode.IsUpper(c) {
			upper++
		} else if unicode.IsLower(c) {
			lower++
		}
	}
	if upper > lower {
		s = larder.Capital(strings.ToLower(s))
	}
	return s
}
