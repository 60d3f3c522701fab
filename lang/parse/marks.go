package parse

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"tamis/lang/diag"
)

// readable tells whether the text is text at all; if it is not, that is
// reported once.
func (p *parser) readable() bool {
	t := p.text
	switch {
	case strings.HasPrefix(t, "\xff\xfe"), strings.HasPrefix(t, "\xfe\xff"):
		p.err(codeBinary, 0, 0, "this file is saved as UTF-16").
			WithHelp("save it again as UTF-8")
		return false
	case strings.IndexByte(t, 0) >= 0:
		p.err(codeBinary, 0, 0, "this is not a text file").
			Because("it holds zero bytes, which no text has").
			WithHelp("is it a picture, or a document of a word processor? Save it as plain text")
		return false
	}
	bad, first, end := 0, -1, 0
	for i := 0; i < len(t); {
		if t[i] < utf8.RuneSelf {
			i++
			continue
		}
		r, n := utf8.DecodeRuneInString(t[i:])
		if r == utf8.RuneError && n == 1 {
			if bad == 0 {
				first, end = i, i+1
			} else if i == end {
				end++
			}
			bad++
		}
		i += n
	}
	if bad == 0 {
		return true
	}
	if bad > 16 && bad > len(t)/10 {
		p.err(codeBinary, 0, 0, "this is not a text file").
			Because("%d of its %d bytes are no text", bad, len(t)).
			WithHelp("save it as plain text, UTF-8")
		return false
	}
	d := p.err(codeEncoding, first, end, "this is no letter in UTF-8").
		Because("the file was saved with another table of letters").
		WithHelp("save it again as UTF-8, and look at the accents")
	if bad > end-first {
		d.Labelled("and %s more", plural(bad-(end-first), "byte", "bytes"))
	}
	p.muteAt(first)
	return true
}

// marks reports signs that cannot be seen or that are not what they look like.
// In prose of `about`, bars and digits are nobody's business.
func (p *parser) marks(l *line, strict bool) {
	t := p.text[l.start:l.end]
	plain := true
	for i := 0; i < len(t); i++ {
		if c := t[i]; c >= 0x7f || c < ' ' && c != '\t' {
			plain = false
			break
		}
	}
	if plain {
		return
	}
	for i, r := range t {
		at := l.start + i
		end := at + utf8.RuneLen(r)
		switch {
		case r == utf8.RuneError:
		case r < ' ' && r != '\t' || r == 0x7f:
			p.err(codeControl, at, end, "a control character (U+%04X) stands here", r).
				Replace("take it out", true, p.span(at, end), "")
			p.mute(l)
			return
		case isInvisible(r):
			if isJoiner(r) && p.betweenLetters(t, i, utf8.RuneLen(r)) {
				continue
			}
			p.invisible(l, t, i, r)
			return
		case strict && isWideDigit(r):
			p.wideDigits(l, t, i)
			return
		case strict && isFalseBar(r):
			p.err(codeFalseBar, at, end, "%c is not the bar of the margin", r).
				Because("it looks like one, but is another sign").
				Replace("write |", true, p.span(at, end), "|")
			p.mute(l)
			return
		}
	}
}

// betweenLetters tells whether a joiner stands between two letters beyond
// ASCII, where some scripts need it.
func (p *parser) betweenLetters(t string, i, n int) bool {
	before, _ := utf8.DecodeLastRuneInString(t[:i])
	after, _ := utf8.DecodeRuneInString(t[i+n:])
	return before >= 0x80 && after >= 0x80 && before != utf8.RuneError && after != utf8.RuneError
}

func (p *parser) invisible(l *line, t string, first int, r rune) {
	fix := diag.Fix{Title: "take it out", Safe: true}
	for i, m := range t {
		if isInvisible(m) && !isJoiner(m) || m == r {
			fix.Edits = append(fix.Edits, diag.Edit{Span: p.span(l.start+i, l.start+i+utf8.RuneLen(m))})
		}
	}
	what := "an invisible mark"
	if r >= 0x202A && r <= 0x202E || r >= 0x2066 && r <= 0x2069 || r == 0x200E || r == 0x200F || r == 0x61C {
		what = "a mark that turns the writing round"
	}
	d := p.err(codeInvisible, l.start+first, l.start+first+utf8.RuneLen(r), "%s (U+%04X) stands here", what, r).
		Because("what cannot be seen cannot be checked by a reader")
	d.Fixes = append(d.Fixes, fix)
	p.mute(l)
}

func (p *parser) wideDigits(l *line, t string, first int) {
	end := first
	var plain strings.Builder
	for _, r := range t[first:] {
		if !isWideDigit(r) {
			break
		}
		plain.WriteByte(byte('0' + r - 0xFF10))
		end += utf8.RuneLen(r)
	}
	p.err(codeWideDigit, l.start+first, l.start+end, "these are full-width figures").
		Replace("write "+plain.String(), true, p.span(l.start+first, l.start+end), plain.String())
	p.mute(l)
}

// plural writes a count with its word: "1 line", "3 lines".
func plural(n int, one, more string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, more)
}
