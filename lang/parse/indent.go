package parse

import (
	"strings"

	"tamis/lang/diag"
)

// What is said about indentation. Each slip is said once, and the tree is
// built as the writer most likely meant it.

// next is the first line after the first that is not blank, or nil.
func next(lines []*line) *line {
	for _, l := range lines[1:] {
		if !l.blank() {
			return l
		}
	}
	return nil
}

// strayLine looks at a line at column 0 that begins no block, while the block
// above it goes on below. It is reported and put among the lines beside it.
func (p *parser) strayLine(stack []*line, lines []*line) {
	l := lines[0]
	if l.indent != "" || len(stack) < 2 {
		return
	}
	t := p.content(l)
	if w, _ := LookUp(AtBlock, t); w != nil || meant(AtBlock, firstWord(t)) != nil || stack[0].indent != "" {
		return
	}
	if w, _ := LookUp(AtBlock, p.content(stack[0])); w == nil {
		return
	}
	after := next(lines)
	if after == nil || after.indent == "" {
		return
	}
	want := stack[len(stack)-1].indent
	if len(after.indent) < len(want) {
		want = after.indent
	}
	p.err(codeIndent, l.start, l.end, "this line stands at the very start, and the block goes on below it").
		Because("at the very start of a line only blocks begin").
		WithHelp("indent it like the lines beside it").
		Replace("indent it", false, p.span(l.from, l.start), want)
	p.mute(l)
	l.indent = want
}

func firstWord(t string) string {
	n := 0
	for n < len(t) && isKeyByte(t[n]) {
		n++
	}
	return lower(t[:n])
}

// indentedBlock looks for a block that does not begin at column 0, right below
// the head of another. No word is both a block and a field, so it can be told
// by its word and the lines below it.
func (p *parser) indentedBlock(stack []*line, lines []*line) []*line {
	l := lines[0]
	if len(stack) != 1 {
		return stack
	}
	if w, _ := LookUp(AtBlock, p.content(l)); w == nil || w.Text == "notation" {
		return stack
	}
	if head, _ := LookUp(AtBlock, p.content(stack[0])); head != nil && head.Text == "larder" && !l.isOdd {
		return stack
	}
	if after := next(lines); after == nil || len(after.indent) <= len(l.indent) {
		return stack
	}
	p.err(codeIndent, l.from, l.end, "a block begins at the very start of its line").
		Replace("take out the spaces before it", false, p.span(l.from, l.start), "")
	l.indent, l.isOdd = "", false
	return nil
}

// reportOdd says of a line whose lines do not all begin at the same place which
// of them are out of line: those that are fewer.
func (p *parser) reportOdd(parent *line) {
	for _, k := range parent.kids {
		p.reportOdd(k)
	}
	if !parent.hasOdd {
		return
	}
	count := map[string]int{}
	most := parent.kids[0].indent
	for _, k := range parent.kids {
		count[k.indent]++
	}
	for _, k := range parent.kids {
		if count[k.indent] > count[most] {
			most = k.indent
		}
	}
	if len(count) == 1 {
		return // a block was taken out again
	}
	d := diag.Diagnostic{
		Code: codeIndent, Severity: diag.Error, Message: "this line stands under no line above it",
		Why: "the lines under one line all begin at the same place",
	}
	fix := diag.Fix{Title: "line it up with the lines beside it"}
	for _, k := range parent.kids {
		if k.indent == most {
			continue
		}
		if len(fix.Edits) == 0 {
			d.At = diag.Label{Span: p.span(k.from, k.end), Text: countBlanks(k.indent) + " before it; the lines beside it have " + countBlanks(most)}
		}
		fix.Edits = append(fix.Edits, diag.Edit{Span: p.span(k.from, k.start), Text: most})
	}
	d.Fixes = []diag.Fix{fix}
	if !p.quiet(d.At.Span.Start) {
		p.diags.Add(d)
	}
}

// mixes tells whether two indentations differ in kind, not only in length.
func mixes(a, b string) bool {
	n := min(len(a), len(b))
	return a[:n] != b[:n]
}

// depth guesses how deep a line stands whose tabs and blanks do not agree with
// the lines above: a tab counts for one level.
func (p *parser) depth(stack []*line, l *line) int {
	unit := 2
	for _, s := range stack {
		if s.parent != nil && s.parent.parent == nil && strings.Trim(s.indent, " ") == "" {
			unit = max(1, len(s.indent))
			break
		}
	}
	tabs := strings.Count(l.indent, "\t")
	return max(1, min(len(stack), tabs+(len(l.indent)-tabs)/unit))
}

// reportMixed says once which lines mix tabs and blanks.
func (p *parser) reportMixed(mixed []*line) {
	if len(mixed) == 0 {
		return
	}
	l := mixed[0]
	d := p.err(codeTabs, l.from, l.start, "tabs and spaces are mixed before this line").
		Because("how far a tab reaches differs from program to program, so the depth of the line cannot be told")
	if len(mixed) > 1 {
		d.Labelled("and before %d more lines", len(mixed)-1)
	}
	fix := diag.Fix{Title: "indent with spaces", Safe: true}
	for _, m := range mixed {
		fix.Safe = fix.Safe && m.amongOthers()
		if m.parent == nil || len(m.parent.kids) == 0 { // it begins a block after all
			continue
		}
		want := m.parent.indent + "  "
		if first := m.parent.kids[0]; first != m && len(first.indent) > len(m.parent.indent) {
			want = first.indent
		}
		m.indent = want
		fix.Edits = append(fix.Edits, diag.Edit{Span: p.span(m.from, m.start), Text: want})
	}
	d.Help = append(d.Help, "indent the whole file with spaces, two a level")
	if len(fix.Edits) > 0 {
		d.Fixes = append(d.Fixes, fix)
	}
}

// amongOthers tells whether a line stands between two that stand side by side, and
// has none below it: then there is no doubt where it belongs.
func (l *line) amongOthers() bool {
	if l.parent == nil || len(l.kids) > 0 || l.no == 0 || l.no+1 >= len(l.parent.kids) {
		return false
	}
	before, next := l.parent.kids[l.no-1], l.parent.kids[l.no+1]
	return before != l && before.indent == next.indent && len(before.kids) == 0
}

func countBlanks(indent string) string {
	if strings.Contains(indent, "\t") {
		return plural(len(indent), "tab or space", "tabs and spaces")
	}
	return plural(len(indent), "space", "spaces")
}
