package page

import (
	"slices"
	"strings"
	"unicode"

	"tamis/compiler/sheets"
	"tamis/render/draw"
	"tamis/render/fonts"
)

// Key lists the dishes that a sheet speaks of by letter only, and so has to
// name: those in its tables and charts whose row does not say the dish. A sheet about one dish, what goes by names alone, labels, which
// name their own, and a sheet with the list of contents need no key; what a serving on
// a wall sheet names has its letter there.
func Key(doc *sheets.Document, s *sheets.Sheet) []sheets.Mark {
	if s.Letter != "" || s.Kind == sheets.Prep || s.Kind == sheets.DateLabels || s.Kind == sheets.Series || s.Kind == sheets.Leaf || s.Contents {
		return nil
	}
	seen := map[string]bool{}
	bars := ""
	for _, b := range s.Blocks {
		switch b := b.(type) {
		case *sheets.Table:
			if b != b.OffPaper() {
				return nil // a list of the sheets names them
			}
			for _, g := range b.Groups {
				for _, r := range g.Rows {
					unnamed(doc, r, seen)
				}
			}
		case *sheets.Board:
			for _, r := range b.Rows {
				bars += r.Bar + ","
				for _, c := range r.Cells {
					for _, p := range c {
						note(seen, []sheets.Run{{Text: p.Mark}, {Text: p.Words}})
					}
				}
			}
		case *sheets.Chart:
			for _, p := range b.Panels {
				for _, l := range p.Lanes {
					if l.Letter != "" { // it has its name beside it
						continue
					}
					for _, x := range l.Bars {
						seen[x.Letter] = true
					}
				}
			}
		}
	}
	var out []sheets.Mark
	for _, d := range doc.Dishes {
		named := strings.Contains(bars, " "+d.Letter+" "+d.Name+",")
		if seen[d.Letter] && d.Letter != "" && !named {
			out = append(out, d)
		}
	}
	return out
}

// unnamed notes the letters of a row of a table that does not say what they stand
// for.
func unnamed(doc *sheets.Document, r sheets.Row, seen map[string]bool) {
	here := map[string]bool{}
	words := ""
	for _, c := range r.Cells {
		note(here, c.Runs)
		note(here, c.Sub)
		words += sheets.Words(c.Runs) + "\n" + sheets.Words(c.Sub) + "\n"
	}
	for _, d := range doc.Dishes {
		if here[d.Letter] && !named(words, d.Name) {
			seen[d.Letter] = true
		}
	}
}

// named tells whether a name stands in words by itself: "Rice pudding" does not name Rice,
// nor does "Rice pudding, step 2".
func named(words, name string) bool {
	for at := 0; ; {
		i := strings.Index(words[at:], name)
		if name == "" || i < 0 {
			return false
		}
		i += at
		end := i + len(name)
		begins := i == 0 || slices.ContainsFunc([]string{"\n", ", ", ": ", "· ", "(", " and "}, func(s string) bool { return strings.HasSuffix(words[:i], s) })
		ends := end == len(words) || slices.ContainsFunc([]string{"\n", ",", " ·", "(", ")", " and "}, func(s string) bool { return strings.HasPrefix(words[end:], s) })
		if begins && ends {
			return true
		}
		at = end
	}
}

// note keeps every word that may be a letter, without the number of a step.
func note(seen map[string]bool, runs []sheets.Run) {
	for _, r := range runs {
		for _, w := range strings.FieldsFunc(r.Text, func(r rune) bool { return unicode.IsSpace(r) || strings.ContainsRune(",;·+()", r) }) {
			seen[strings.TrimRightFunc(w, unicode.IsDigit)] = true
		}
	}
}

// key is the list of letters with the names of the dishes: with their stripes, or, on a
// sheet that hangs, larger, closer and without them.
func (t *typesetter) key(marks []sheets.Mark, w float64, hangs bool) *piece {
	size, gap, tall, draws := t.sz.small, 16.0, 1.62, t.mark
	if hangs {
		size, gap, tall, draws = t.sz.body, 9, 1.25, t.plainMark
	}
	side := size * 1.3
	p := &piece{before: 6}
	list := &draw.Tag{Role: "L"}
	x, y, rowH := 0.0, 0.0, side*tall
	for _, d := range marks {
		ops, mw := draws(d.Letter, 0, 0, side, t.nextField())
		name := t.set(w-mw-5, leadTight, span{text: d.Name, face: fonts.Sans, size: size, whole: true})
		need := mw + 5 + name.width()
		if x > 0 && x+need > w {
			x = 0
			y += rowH
			rowH = side * tall
		}
		p.add(ops, x, y)
		words := name.ops(mw+5, (side-size)/2+size*0.02, t.nextField())
		listed(list, ops, words)
		p.add(words, x, y)
		rowH = max(rowH, name.height()+side*(tall-1))
		x += need + gap
	}
	p.h = y + rowH
	return p
}
