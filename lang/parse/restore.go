package parse

import (
	"strings"

	"tamis/lang/diag"
)

// Text that went through mail or chat loses its indentation. The words that
// begin lines are still there, and no word is both a block and a field, so the
// depth of each line can be told from them. This file finds blocks whose
// indentation is lost, says so once, and gives their lines levels.

const proseLevel = -2 // a line of `about` in a block that was restored

// region is a block's lines: the line at column 0 and what follows it.
type region struct {
	lines []*line
	body  Place // what its lines are
}

// regions cuts a file at the block words that stand at column 0.
func (p *parser) regions(lines []*line) []region {
	var out []region
	start := -1
	body := none
	for i, l := range lines {
		if l.blank() || l.indent != "" {
			continue
		}
		if w, n := LookUp(AtBlock, p.text[l.start:l.end]); n > 0 && w.opens != none {
			if start >= 0 {
				out = append(out, region{lines[start:i], body})
			}
			start, body = i, w.opens
		}
	}
	if start >= 0 {
		out = append(out, region{lines[start:], body})
	}
	return out
}

// restore gives levels to the lines of every block whose indentation is lost.
func (p *parser) restore(lines []*line) {
	var fix diag.Fix
	var first *line
	for _, r := range p.regions(lines) {
		sign := p.lostSign(r)
		if sign == nil {
			continue
		}
		if first == nil {
			first = sign
		}
		p.relevel(r)
		for _, l := range r.lines {
			if l.blank() || l.level == -1 {
				continue
			}
			want := "    "
			if l.level != proseLevel {
				want = strings.Repeat("  ", l.level)
			} else if strings.HasPrefix(l.indent, want) {
				continue
			}
			if l.indent != want {
				fix.Edits = append(fix.Edits, diag.Edit{Span: p.span(l.from, l.start), Text: want})
			}
			l.indent = want
		}
	}
	if first == nil {
		return
	}
	fix.Title = "indent the block again"
	d := p.err(codeLost, first.start, first.end, "the indentation is lost").
		Because("a line belongs to the line above it that stands less deep, and here the depths say nothing").
		WithHelp("two spaces a level: `gather` and `method` below the dish, their lines below them")
	if len(fix.Edits) > 0 {
		d.Fixes = append(d.Fixes, fix)
	}
}

// lostSign finds the line that shows a block's indentation to be lost, or nil.
func (p *parser) lostSign(r region) *line {
	body := r.body
	bodyIndent, deeper, flat := "", false, (*line)(nil)
	var above *line // the last header that must have deeper lines
	inProse := ""
	inMargin := false // `gather` or `method` has been seen
	for _, l := range r.lines[1:] {
		if l.blank() {
			continue
		}
		t := p.text[l.start:l.end]
		if inProse != "" && len(l.indent) > len(inProse) {
			continue
		}
		inProse = ""
		if _, ok := p.comment(l); ok {
			continue
		}
		word := p.structureWord(body, t)
		n, _ := bullet(t)
		mark := n > 0 || t[0] == '|'
		if l.indent == "" {
			if word != "" || mark || p.fieldWord(body, t) {
				return l
			}
			if flat == nil {
				flat = l
			}
			continue
		}
		if !deeper {
			deeper, bodyIndent = true, l.indent
		}
		switch {
		case l.indent == bodyIndent:
			if body == InRecipe && mark && inMargin {
				return l
			}
			if above != nil && above.indent == l.indent && word == "" && !p.fieldWord(body, t) {
				return l
			}
			above = nil
			if word != "" {
				above = l
				if body == InRecipe {
					inMargin = word != "about"
				}
			}
		case len(l.indent) > len(bodyIndent):
			above = nil
			if body == InRecipe && inMargin && (p.isHeader(t, "gather") || p.isHeader(t, "method")) {
				return l
			}
		}
		if word == "about" {
			inProse = l.indent
			above = nil
		}
	}
	if !deeper && flat != nil && len(r.lines) > 1 {
		return flat
	}
	return nil
}

// structureWord is the word of a line that has lines below it, or "".
func (p *parser) structureWord(body Place, t string) string {
	w, n := LookUp(body, t)
	if w == nil {
		return ""
	}
	switch w.Text {
	case "about", "method":
		if n == len(t) {
			return w.Text
		}
	case "gather":
		if n == len(t) || strings.HasPrefix(t[n+blanks(t[n:]):], ",") {
			return w.Text
		}
	case "course", "chapter", "part":
		return w.Text
	}
	return ""
}

// fieldWord tells whether a line begins with a word of a closed place.
func (p *parser) fieldWord(body Place, t string) bool {
	w, _ := LookUp(body, t)
	if w == nil && body == InSeries {
		w, _ = LookUp(InPart, t)
	}
	return w != nil && body != InLarder
}

// relevel gives levels by first words.
func (p *parser) relevel(r region) {
	r.lines[0].level = 0
	body := r.body
	state, sub, moment := "", false, false
	last := 1
	for _, l := range r.lines[1:] {
		if l.blank() {
			continue
		}
		t := p.text[l.start:l.end]
		if _, ok := p.comment(l); ok && state != "about" {
			continue
		}
		word := p.structureWord(body, t)
		n, _ := bullet(t)
		switch {
		case word == "part", word == "course", word == "chapter", word == "gather", word == "method", word == "about":
			state, sub, moment, last = word, false, false, 1
			l.level = 1
		case state == "part" && body == InSeries:
			l.level = 2
		case body == InRecipe && p.closesList(state, t), body == InMenu && p.fieldWord(body, t), body == InBook && state != "" && strings.HasPrefix(lower(t), "style "):
			state = ""
			l.level = 1
		case state == "about":
			l.level = proseLevel
		case state == "gather":
			w, _ := LookUp(InGather, t)
			switch {
			case t[0] == '|', w != nil && (w.Text == "instead" || w.Text == "said"):
				l.level = last + 1
			case w != nil:
				sub, l.level, last = true, 2, 2
			default:
				l.level = 2
				if sub {
					l.level = 3
				}
				last = l.level
			}
		case state == "method":
			switch {
			case n > 0 || numbered(t) > 0 || matchGroup(t, "pause up to") > 0:
				moment, l.level = false, 2
			case p.momentHead(t) > 0:
				moment, l.level = true, 3
			case moment:
				l.level = 4
			default:
				l.level = 3
			}
		case state == "course" || state == "chapter":
			l.level = 2
		case body == InLarder && t[0] == '|':
			l.level = 2
		default:
			l.level = 1
		}
	}
}

// closesList tells whether a line ends a list, a method or prose: it reads
// whole as a field of a dish, and not as one that takes any text.
func (p *parser) closesList(state, t string) bool {
	w, n := LookUp(InRecipe, t)
	if w == nil {
		return false
	}
	if state == "" {
		return true
	}
	switch w.Text {
	case "by", "source", "picture", "link", "licence", "rules", "language", "allow", "units", "as", "said", "also called", "goes with", "props", "equipment":
		return false
	case "about", "gather", "method":
		return n == len(t)
	}
	quiet := &parser{src: p.src, text: t, opt: p.opt, scratch: p.scratch}
	_, ok := quiet.fieldNode(InRecipe, 0, len(t))
	return ok
}

// numbered is the length of a "1." or "1)" with the blanks after it.
func numbered(t string) int {
	i := 0
	for i < len(t) && t[i] >= '0' && t[i] <= '9' {
		i++
	}
	if i == 0 || i > 3 || i >= len(t) || t[i] != '.' && t[i] != ')' {
		return 0
	}
	if n := blanks(t[i+1:]); n > 0 {
		return i + 1 + n
	}
	return 0
}
