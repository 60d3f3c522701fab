// Package source holds the text of a file and the places in it.
//
// A place is a byte offset until it is printed. Lines, columns and UTF-16
// units are worked out at the edge, when a message is shown to a person or an
// editor asks.
package source

import (
	"sort"
	"strings"
	"unicode/utf8"
)

// File is one text file, read whole. Text is what was read, less a leading
// byte order mark; a carriage return that stands alone, the line end of old
// machines, is a line break. Others stay, so that offsets match the disk.
type File struct {
	Name string // as it is printed in messages: a slash path relative to what was asked for
	Text string
	// Lead is how many UTF-16 units whoever holds the text counts before its first line: 1
	// where an editor keeps the byte order mark.
	Lead int

	lines []int // offset of each line's first byte, made on first use
}

// New makes a file from a name and its text.
func New(name, text string) *File {
	f := &File{Name: name, Text: lineEnds(strings.TrimPrefix(text, "\ufeff"))}
	f.lines = []int{0}
	for i := 0; i < len(f.Text); i++ {
		if f.Text[i] == '\n' {
			f.lines = append(f.lines, i+1)
		}
	}
	return f
}

// lineEnds puts a line break for every carriage return that stands alone: byte
// for byte, so that offsets hold.
func lineEnds(text string) string {
	if !strings.Contains(text, "\r") {
		return text
	}
	b := []byte(text)
	fed := false // a line feed comes after the carriage returns met last
	for i := len(b) - 1; i >= 0; i-- {
		switch b[i] {
		case '\n':
			fed = true
		case '\r':
			if !fed {
				b[i] = '\n'
			}
		default:
			fed = false
		}
	}
	return string(b)
}

// Span is a half-open range of bytes, [Start, End), of one file. The zero Span
// means "no place".
type Span struct {
	File       *File
	Start, End int
}

// IsZero tells whether the span names no place.
func (s Span) IsZero() bool { return s.File == nil }

// Text is the text the span covers.
func (s Span) Text() string {
	if s.File == nil {
		return ""
	}
	return s.File.Text[s.Start:s.End]
}

// To is the span from the start of s to the end of t.
func (s Span) To(t Span) Span {
	if s.IsZero() {
		return t
	}
	return Span{s.File, min(s.Start, t.Start), max(s.End, t.End)}
}

// Position is the position of the span's first byte.
func (s Span) Position() Position {
	if s.File == nil {
		return Position{}
	}
	return s.File.Position(s.Start)
}

// Span makes a span of f, kept within its text.
func (f *File) Span(start, end int) Span {
	start = min(max(start, 0), len(f.Text))
	end = min(max(end, start), len(f.Text))
	return Span{f, start, end}
}

// Position is a place as people count: line and column from 1, the column in
// characters.
type Position struct{ Line, Column int }

// Position finds the line and column of a byte offset.
func (f *File) Position(offset int) Position {
	offset = min(max(offset, 0), len(f.Text))
	line := sort.Search(len(f.lines), func(i int) bool { return f.lines[i] > offset })
	return Position{line, utf8.RuneCountInString(f.Text[f.lines[line-1]:offset]) + 1}
}

// UTF16 finds the zero-based line and UTF-16 column of a byte offset, as
// editors count.
func (f *File) UTF16(offset int) (line, column int) {
	p := f.Position(offset)
	if p.Line == 1 {
		column = f.Lead
	}
	for _, r := range f.Text[f.lines[p.Line-1]:min(offset, len(f.Text))] {
		column++
		if r > 0xFFFF {
			column++
		}
	}
	return p.Line - 1, column
}

// Indent is the blanks that line n (from 1) begins with.
func (f *File) Indent(n int) string {
	text := f.LineSpan(n).Text()
	return text[:len(text)-len(strings.TrimLeft(text, " \t"))]
}

// Lines is the number of lines; a text that ends in a line break has an empty
// last line.
func (f *File) Lines() int { return len(f.lines) }

// LineSpan is the span of line n (from 1) without its line break.
func (f *File) LineSpan(n int) Span {
	if n < 1 || n > len(f.lines) {
		return Span{}
	}
	start, end := f.lines[n-1], len(f.Text)
	if n < len(f.lines) {
		end = f.lines[n] - 1
	}
	if end > start && f.Text[end-1] == '\r' {
		end--
	}
	return Span{f, start, end}
}
