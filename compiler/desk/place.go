package desk

import (
	"net/url"
	"path/filepath"
	"runtime"
	"strings"
	"unicode/utf8"

	"tamis/lang/source"
)

// Places: an editor counts lines from 0 and columns in UTF-16 units, we count bytes;
// an editor names files by address, we by path.

// at is the place of a byte offset.
func at(f *source.File, offset int) position {
	line, column := f.UTF16(min(max(offset, 0), len(f.Text)))
	return position{line, column}
}

// rangeOf is the range of a span.
func rangeOf(s source.Span) textRange {
	if s.IsZero() {
		return textRange{}
	}
	return textRange{at(s.File, s.Start), at(s.File, s.End)}
}

// offsetOf is the byte offset of a place. A place behind the end of its line is that
// end, one below the last line the end of the text, and one inside a character
// its beginning: so LSP 3.17 wants it of a column that is too large.
func offsetOf(f *source.File, p position) int {
	switch {
	case p.Line < 0:
		return 0
	case p.Line >= f.Lines():
		return len(f.Text)
	}
	line := f.LineSpan(p.Line + 1)
	units := 0
	if p.Line == 0 {
		units = f.Lead
	}
	for i := line.Start; i < line.End; {
		r, n := utf8.DecodeRuneInString(f.Text[i:line.End])
		if units++; r > 0xFFFF {
			units++
		}
		if units > p.Character {
			return i
		}
		i += n
	}
	return line.End
}

// spanOf is the span of a range; one that is turned round is put right.
func spanOf(f *source.File, r textRange) source.Span {
	from, to := offsetOf(f, r.Start), offsetOf(f, r.End)
	return f.Span(min(from, to), max(from, to))
}

// pathOf is the path that an address names; ok is false for one of no file.
func pathOf(uri string) (name string, ok bool) {
	u, err := url.Parse(uri)
	if err != nil || u.Scheme != "file" || u.Path == "" || strings.IndexByte(u.Path, 0) >= 0 {
		return "", false
	}
	p := u.Path
	if runtime.GOOS == "windows" {
		p = strings.TrimPrefix(p, "/")
		if u.Host != "" {
			p = "//" + u.Host + "/" + p
		}
	}
	return filepath.Clean(filepath.FromSlash(p)), true
}

// uriOf is the address of a path.
func uriOf(name string) string {
	p := filepath.ToSlash(name)
	if !strings.HasPrefix(p, "/") {
		p = "/" + p
	}
	return (&url.URL{Scheme: "file", Path: p}).String()
}
