package page

import "slices"

// kept is one text cut at the places where its lines may end, and the lines it
// was set in. A table is measured before it is set, in one form or another, and
// a sheet is laid out again with less air: only the first time are its letters
// counted. What is kept is never written to.
type kept struct {
	spans []span
	atoms []atom
	whole float64 // the width of all on one line
	line  []line  // that line, for every width that has room for it
	lines []setting
}

// setting is a text in lines of at most a width.
type setting struct {
	width float64
	lines []line
}

// keep finds or makes what is kept of spans.
func (t *typesetter) keep(spans []span) *kept {
	if len(spans) == 0 {
		return &kept{}
	}
	same := t.texts[spans[0]]
	for _, k := range same {
		if slices.Equal(k.spans, spans) {
			return k
		}
	}
	k := &kept{spans: slices.Clone(spans), atoms: t.cutUp(spans)}
	if len(k.atoms) > 0 {
		k.whole = -k.atoms[0].space
		for _, a := range k.atoms {
			k.whole += a.space + a.width
		}
	}
	t.texts[spans[0]] = append(same, k)
	return k
}

// in sets the text in lines of at most width.
func (k *kept) in(width float64) []line {
	if len(k.atoms) == 0 {
		return nil
	}
	if k.whole <= width && !wider(k.atoms, width) {
		if k.line == nil {
			k.line = []line{join(k.atoms)}
		}
		return k.line
	}
	for _, s := range k.lines {
		if s.width == width {
			return s.lines
		}
	}
	lines := breakAtoms(split(k.atoms, width), width)
	k.lines = append(k.lines, setting{width, lines})
	return lines
}

// wider tells whether some of atoms do not go on a line.
func wider(atoms []atom, width float64) bool {
	return slices.ContainsFunc(atoms, func(a atom) bool { return a.width > width })
}
