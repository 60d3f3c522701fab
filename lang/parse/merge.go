package parse

import "strings"

// Two people's changes to one place are sometimes put into a file side by side, to be
// chosen from: between `<<<<<<< ` and `=======` what one wrote, from there to
// `>>>>>>> ` what the other did; `||||||| ` may part off what stood there before.

// mergeSide tells what part of such a place a line begins; 0 for any other line.
func (p *parser) mergeSide(l *line) byte {
	t := p.text[l.from:l.end]
	if len(t) < 7 || strings.IndexByte("<=>|", t[0]) < 0 {
		return 0
	}
	for i := 1; i < 7; i++ {
		if t[i] != t[0] {
			return 0
		}
	}
	if len(t) > 7 && t[7] != ' ' {
		return 0
	}
	return t[0]
}

// mergeEnds tells whether the place that begins above some lines has an end.
func (p *parser) mergeEnds(lines []*line) bool {
	for _, l := range lines {
		switch p.mergeSide(l) {
		case '>':
			return true
		case '<':
			return false
		}
	}
	return false
}

// merged reports the places where both sides of a merge stand, once a file, and goes
// on with the first side of each.
func (p *parser) merged(lines []*line) []*line {
	if !strings.Contains(p.text, "<<<<<<<") {
		return lines
	}
	var first, second *line
	unended := false
	places, dropping, open, ends := 0, false, false, true
	drop := func(l *line) {
		end := len(p.text)
		if i := strings.IndexByte(p.text[l.from:], '\n'); i >= 0 {
			end = l.from + i
		}
		l.start, l.end = end, end
	}
	for i, l := range lines {
		switch side := p.mergeSide(l); {
		case side == '<':
			open, dropping, ends = true, false, p.mergeEnds(lines[i+1:])
			unended = unended || !ends
			if places++; first == nil {
				first = &line{from: l.from, start: l.start, end: l.end}
			}
			drop(l)
		case open && (side == '=' || side == '|'):
			if second == nil {
				second = &line{from: l.from, start: l.start, end: l.end}
			}
			dropping = ends // what nothing ends might be all the rest of the file
			drop(l)
		case open && side == '>':
			open, dropping = false, false
			drop(l)
		case dropping:
			drop(l)
		}
	}
	if first == nil {
		return lines
	}
	d := p.err(codeMerge, first.from, first.end, "both sides of a merge stand here").
		Because("two people changed the same lines, and nobody has chosen yet; only the first side is read")
	if places > 1 {
		d.Labelled("and in %s more", plural(places-1, "place", "places"))
	}
	if unended {
		d.Because("two people changed the same lines, and nobody has chosen yet; no line of `>` tells where the other side ends, so both are read")
	}
	if second != nil {
		d.See(p.span(second.from, second.end), "the other side")
	}
	d.WithHelp("keep the lines that are right, and take out the others and the lines of `<`, `=` and `>`")
	return lines
}
