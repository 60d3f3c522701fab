package draft

import (
	"errors"
	"fmt"
	"strings"
	"unicode/utf8"

	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"
)

// ErrNothing and ErrNoText say why a file cannot be drafted.
var (
	ErrNothing = errors.New("it holds nothing to draft")
	ErrNoText  = errors.New("it is no text: draft reads letters, Markdown, web pages and JSON-LD, so save it as one of these")
)

// decoded is a text as UTF-8, and what its letters were when they were something else: a
// mark at its beginning tells UTF-16, and bytes that are not UTF-8 are Windows-1252, whose
// upper half is that of ISO 8859-1.
func decoded(text string) (out, code string, err error) {
	switch {
	case strings.HasPrefix(text, "\xFF\xFE"), strings.HasPrefix(text, "\xFE\xFF"):
		code = "UTF-16"
		text, err = unicode.UTF16(unicode.BigEndian, unicode.ExpectBOM).NewDecoder().String(text)
	case strings.ContainsRune(text, 0):
	case !utf8.ValidString(text):
		code = "Windows-1252"
		text = byByte(text)
	}
	if err != nil {
		return "", code, fmt.Errorf("its letters cannot be read as %s: %w", code, err)
	}
	if binary(text) {
		return "", code, ErrNoText
	}
	return text, code, nil
}

// byByte reads the bytes that are not UTF-8 as Windows-1252, and leaves the letters between
// them that are.
func byByte(text string) string {
	var b strings.Builder
	for i := 0; i < len(text); {
		c, n := utf8.DecodeRuneInString(text[i:])
		if c == utf8.RuneError && n == 1 {
			c = charmap.Windows1252.DecodeByte(text[i])
		}
		b.WriteRune(c)
		i += n
	}
	return b.String()
}

// binary tells whether a text is none: it has noughts, or many signs that nobody can read.
func binary(text string) bool {
	if strings.ContainsRune(text, 0) {
		return true
	}
	odd, all := 0, 0
	for _, c := range text {
		all++
		if c == utf8.RuneError || c < ' ' && !strings.ContainsRune("\t\n\r\f\v\x1a\x1b", c) || c >= 0x7F && c < 0xA0 {
			odd++
		}
	}
	return odd > 2 && odd*50 > all
}
