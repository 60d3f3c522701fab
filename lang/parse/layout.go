package parse

import (
	"strings"

	"tamis/lang/ast"
)

// line is one written line. Its content is text[start:end]; before it stands
// the indentation text[from:start].
type line struct {
	from, start, end int
	indent           string // the indentation, every blank plain
	level            int    // given by words when the indentation is lost, else -1
	kids             []*line
	parent           *line
	no               int // its number among the parent's kids
	comments         []ast.Comment
	gap              bool    // a blank line stands above it or its comments
	prose            []*line // the lines under `about`, blank ones too
	isMethod         bool    // the line is `method`
	isStep           bool    // a dash under `method`
	inStep           bool    // below a step
	isOdd            bool    // its indentation is not that of the first line beside it
	hasOdd           bool    // some line right below it is odd
	offered          bool    // a field that ends in " ?"
}

func (l *line) blank() bool { return l.start == l.end }

// maxLine is the longest line that is read. A person's paragraph is far
// shorter; a longer line is a file of another kind.
const maxLine = 64 << 10

// scan cuts the text into lines.
func (p *parser) scan() []*line {
	text := p.text
	n := strings.Count(text, "\n") + 1
	if cap(p.slab) < n {
		p.slab = make([]line, n, n+n/4)
	}
	p.slab = p.slab[:n]
	lines := p.lines[:0]
	for from := 0; from <= len(text); {
		stop := strings.IndexByte(text[from:], '\n')
		if stop < 0 {
			stop = len(text)
		} else {
			stop += from
		}
		l := &p.slab[len(lines)]
		lead := blanks(text[from:stop])
		l.from, l.start, l.level = from, from+lead, -1
		l.end = l.start + trimEnd(text[l.start:stop])
		l.indent = plainBlanks(text[from:l.start])
		if l.blank() {
			l.start, l.end = stop, stop
		}
		if l.end-l.start > maxLine {
			p.longLine(l)
		}
		lines = append(lines, l)
		from = stop + 1
	}
	p.lines = lines
	return lines
}

// plainBlanks reads every Unicode blank of an indentation as a plain one.
func plainBlanks(s string) string {
	for i := 0; i < len(s); i++ {
		if s[i] >= 0x80 || s[i] == '\r' {
			return strings.Map(func(r rune) rune {
				if r == '\t' {
					return r
				}
				return ' '
			}, s)
		}
	}
	return s
}

func (p *parser) longLine(l *line) {
	p.err(codeLongLine, l.start, l.start+80, "this line is %d bytes long, and only its beginning is read", l.end-l.start).
		Because("a line is at most %d bytes, far more than a paragraph", maxLine).
		WithHelp("break it, or take it out")
	cut := l.start + 400
	for cut > l.start && p.text[cut]&0xC0 == 0x80 {
		cut--
	}
	l.end = l.start + trimEnd(p.text[l.start:cut])
	p.mute(l)
}

// comment tells whether a line is a comment: # and a blank, or # alone.
func (p *parser) comment(l *line) (ast.Comment, bool) {
	t := p.text[l.start:l.end]
	if t == "" || t[0] != '#' {
		return ast.Comment{}, false
	}
	n := blanks(t[1:])
	if n == 0 && len(t) > 1 {
		return ast.Comment{}, false
	}
	return ast.Comment{Span: p.span(l.start, l.end), Text: t[1+n:]}, true
}

// tree builds the tree of lines and returns the lines at column 0, with the
// comments after the last one.
//
// A child's indentation begins with its parent's and is longer; siblings' are
// identical. No tab width is ever assumed.
func (p *parser) tree(lines []*line) (roots []*line, trailing []ast.Comment) {
	p.restore(lines)
	var stack []*line
	var pending []ast.Comment
	var mixed []*line
	gap := false
	for i := 0; i < len(lines); i++ {
		l := lines[i]
		if l.blank() {
			gap = gap || len(pending) == 0
			continue
		}
		if c, ok := p.comment(l); ok {
			p.marks(l, false)
			pending = append(pending, c)
			continue
		}
		var parent *line
		if l.level >= 0 {
			stack = stack[:min(l.level, len(stack))]
		} else {
			var ok bool
			p.strayLine(stack, lines[i:])
			if stack, ok = p.under(stack, l); !ok {
				mixed = append(mixed, l)
			}
			stack = p.indentedBlock(stack, lines[i:])
		}
		if len(stack) > 0 {
			parent = stack[len(stack)-1]
			l.parent, l.no = parent, len(parent.kids)
			parent.kids = append(parent.kids, l)
			l.inStep = parent.isStep || parent.inStep
		} else {
			roots = append(roots, l)
		}
		l.comments, pending = pending, nil
		l.gap, gap = gap, false
		p.marks(l, true)
		content := p.text[l.start:l.end]
		if len(stack) == 1 {
			head := meantHead(content)
			l.isMethod = p.isHeader(content, "method") || head == "method"
			if p.isHeader(content, "about") || head == "about" {
				i = p.takeProse(lines, i)
			}
		} else if len(stack) == 2 && p.isHeader(content, "about") && p.holdsProse(parent) {
			i = p.takeProse(lines, i)
		} else if parent != nil && parent.isMethod {
			n, _ := bullet(content)
			l.isStep = n > 0
		}
		stack = append(stack, l)
	}
	p.reportMixed(mixed)
	for _, r := range roots {
		p.reportOdd(r)
	}
	return roots, pending
}

// holdsProse tells whether a line begins a part of a series or a chapter of a book.
func (p *parser) holdsProse(l *line) bool {
	w, _ := LookUp(InSeries, p.content(l))
	if w == nil {
		w, _ = LookUp(InBook, p.content(l))
	}
	return w != nil && (w.Text == "part" || w.Text == "chapter")
}

// isHeader tells whether a line is one word alone, in any case, with or
// without a colon.
func (p *parser) isHeader(content, word string) bool {
	n := matchGroup(content, word)
	return n > 0 && n == len(content)
}

// takeProse gives the lines under `about` to it, blank ones and those that
// look like comments too, and returns the index of the last.
func (p *parser) takeProse(lines []*line, at int) int {
	head := lines[at]
	last := at
	for i := at + 1; i < len(lines); i++ {
		l := lines[i]
		if l.blank() {
			continue
		}
		deeper := len(l.indent) > len(head.indent) && strings.HasPrefix(l.indent, head.indent)
		if head.level >= 0 {
			deeper = l.level == proseLevel
		}
		if !deeper {
			break
		}
		last = i
	}
	if last > at {
		head.prose = lines[at+1 : last+1]
		for _, l := range head.prose {
			l.parent = head
			p.marks(l, false)
		}
	}
	return last
}

// under finds the lines above that a line stands under. ok is false when tabs
// and blanks do not agree.
func (p *parser) under(stack []*line, l *line) (_ []*line, ok bool) {
	full := stack
	for len(stack) > 0 {
		top := stack[len(stack)-1]
		beside := top.isOdd && top.parent.kids[0].indent == l.indent
		if len(l.indent) > len(top.indent) && strings.HasPrefix(l.indent, top.indent) && !beside {
			break
		}
		stack = stack[:len(stack)-1]
	}
	if len(stack) == 0 {
		if l.indent == "" {
			return stack, true
		}
		if len(full) == 0 { // the first line of a file, indented
			p.err(codeIndent, l.from, l.end, "a block begins at the very start of its line").
				Replace("take out the spaces before it", false, p.span(l.from, l.start), "")
			l.indent = ""
			return stack, true
		}
		return full[:p.depth(full, l)], false
	}
	parent := stack[len(stack)-1]
	if len(parent.kids) == 0 || parent.isStep || parent.inStep {
		return stack, true
	}
	want := parent.kids[0].indent
	if want == l.indent {
		return stack, true
	}
	if mixes(want, l.indent) {
		return full[:p.depth(full, l)], false
	}
	l.isOdd, parent.hasOdd = true, true
	return stack, true
}
