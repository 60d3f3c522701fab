package diag

import (
	"fmt"
	"io"
	"strings"
	"unicode"
	"unicode/utf8"
)

// hidden are control characters, marks without ink, and marks that turn the
// direction of writing: what a terminal obeys, or what a reader does not see.
func hidden(r rune) bool {
	switch {
	case r < 0x7f:
		return r < ' ' && r != '\t'
	case r <= 0x9f, r == 0x34f, r == 0x115f, r == 0x1160, r == 0x17b4, r == 0x17b5, r == 0x2028, r == 0x2029,
		r == 0x3164, r == 0xffa0, r >= 0xe0000 && r <= 0xe0fff:
		return true
	}
	return unicode.Is(unicode.Cf, r)
}

// Visible makes what is hidden in a text visible, as <U+202E>, and bytes that
// are no UTF-8, as <9B>. Line ends, tabs and the joiners inside words stay.
func Visible(text string) string {
	for i, r := range text {
		if veiled(r) || r == utf8.RuneError {
			return text[:i] + visible(text[i:])
		}
	}
	return text
}

func veiled(r rune) bool { return hidden(r) && r != '\n' && r != 0x200c && r != 0x200d }

func visible(text string) string {
	var b strings.Builder
	for len(text) > 0 {
		r, n := utf8.DecodeRuneInString(text)
		switch {
		case r == utf8.RuneError && n == 1:
			fmt.Fprintf(&b, "<%02X>", text[0])
		case veiled(r):
			fmt.Fprintf(&b, "<U+%04X>", r)
		default:
			b.WriteString(text[:n])
		}
		text = text[n:]
	}
	return b.String()
}

// Plain is a writer that makes visible what is written through it, whatever a
// text or the name of a file holds.
type Plain struct {
	w    io.Writer
	rest []byte // the beginning of a character
}

// NewPlain returns a Plain that writes to w.
func NewPlain(w io.Writer) *Plain { return &Plain{w: w} }

// Write writes p made visible. A character that p breaks off is kept for the
// next call.
func (v *Plain) Write(p []byte) (int, error) {
	all := append(v.rest, p...)
	keep := 0
	for k := 1; k <= min(utf8.UTFMax-1, len(all)); k++ {
		if c := all[len(all)-k]; utf8.RuneStart(c) {
			if c >= utf8.RuneSelf && !utf8.FullRune(all[len(all)-k:]) {
				keep = k
			}
			break
		}
	}
	text := string(all[:len(all)-keep])
	v.rest = append([]byte(nil), all[len(all)-keep:]...)
	if _, err := io.WriteString(v.w, Visible(text)); err != nil {
		return 0, err
	}
	return len(p), nil
}

// escaped is JSON with the same characters written as JSON escapes them: they
// stand inside its strings only.
func escaped(text []byte) []byte {
	var b strings.Builder
	for _, r := range string(text) {
		switch {
		case !veiled(r):
			b.WriteRune(r)
		case r > 0xffff:
			r -= 0x10000
			fmt.Fprintf(&b, `\u%04x\u%04x`, 0xd800+r>>10, 0xdc00+r&0x3ff)
		default:
			fmt.Fprintf(&b, `\u%04x`, r)
		}
	}
	return []byte(b.String())
}
