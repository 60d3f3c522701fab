package parse

import (
	"strings"

	"tamis/lang/source"
)

// PlaceAt tells in which place a byte offset of a file stands, for completions:
// WordsIn lists what may be written there. On an empty line the blanks before
// the offset say how deep it is. ok is false inside prose and names, where no
// word of the notation can stand.
func PlaceAt(src *source.File, offset int) (place Place, ok bool) {
	p := newParser(src, nil)
	defer p.done()
	if strings.IndexByte(p.text, 0) >= 0 {
		return 0, false
	}
	offset = min(max(offset, 0), len(p.text))
	lines := p.scan()
	p.tree(lines)
	at := p.lineStart(offset)
	var above *line
	for _, l := range lines {
		switch {
		case l.from < at:
			if !l.blank() {
				above = l
			}
			continue
		case l.from > at:
			return p.blankPlace(above, plainBlanks(p.text[at:offset]))
		case l.blank():
			return p.blankPlace(above, plainBlanks(p.text[at:offset]))
		}
		if _, comment := p.comment(l); comment {
			return 0, false
		}
		return p.placeIn(l, p.text[l.start:max(l.start, offset)])
	}
	return p.blankPlace(above, "")
}

// blankPlace is the place of a new line with an indentation below a line.
func (p *parser) blankPlace(above *line, indent string) (Place, bool) {
	for above != nil && len(above.indent) >= len(indent) {
		above = above.parent
	}
	if above == nil {
		return AtBlock, true
	}
	return p.bodyPlace(above)
}

// placeIn is the place at the end of head, the part of a line before an offset.
func (p *parser) placeIn(l *line, head string) (Place, bool) {
	place, ok := AtBlock, true
	if l.parent != nil {
		place, ok = p.bodyPlace(l.parent)
	}
	bar := strings.LastIndexByte(head, '|')
	if bar < 0 {
		if place == InCourse && strings.Contains(head, ",") {
			comma := strings.LastIndexByte(head, ',')
			return OnServing, isStart(head[comma+1:])
		}
		n, _ := bullet(head)
		return place, ok && isStart(head) && n == 0 && place != OnStep && place != OnFact
	}
	switch place {
	case InGather:
		return OnLine, isStart(head[bar+1:])
	case InMethod, OnStep:
		return OnStep, isStart(head[bar+1:])
	case InLarder, OnFact:
		return OnFact, isStart(head[bar+1:])
	}
	return place, false
}

// isStart tells whether a text is the beginning of a word of the notation: no
// more than letters and single blanks.
func isStart(t string) bool {
	t = strings.TrimLeft(t, " \t")
	for i := 0; i < len(t); i++ {
		if !isKeyByte(t[i]) && t[i] != ' ' {
			return false
		}
	}
	return len(t) < 30
}

// bodyPlace is the place of the lines below a line.
func (p *parser) bodyPlace(l *line) (Place, bool) {
	t := p.content(l)
	if l.parent == nil {
		w, _ := LookUp(AtBlock, t)
		if w == nil {
			return 0, false
		}
		return w.opens, w.opens != none
	}
	outer, _ := p.bodyPlace(l.parent)
	if w, _ := LookUp(outer, t); w != nil && w.opens != none {
		return w.opens, true
	}
	switch outer {
	case InGather:
		return InGather, true // below `for`, or `instead` and `said` below a line
	case InMethod, OnStep:
		return OnStep, true
	case InLarder:
		return OnFact, true
	}
	return 0, false
}
