package diag

import (
	"slices"

	"tamis/lang/source"
)

// Apply carries out the fixes of a list that are wanted, and returns the new text
// of every file that changes, with the number of fixes in it. A fix that would
// overlap one carried out before it is left for another run.
func Apply(list []Diagnostic, wanted func(Fix) bool) map[*source.File]Applied {
	edits := map[*source.File][]Edit{}
	counts := map[*source.File]int{}
	for _, d := range list {
		for _, f := range d.Fixes {
			if !wanted(f) || len(f.Edits) == 0 || !fits(f, edits) {
				continue
			}
			for _, e := range f.Edits {
				edits[e.Span.File] = append(edits[e.Span.File], e)
			}
			counts[f.Edits[0].Span.File]++
			break // the first fix of a finding is enough
		}
	}
	out := map[*source.File]Applied{}
	for file, es := range edits {
		slices.SortFunc(es, func(a, b Edit) int { return b.Span.Start - a.Span.Start })
		text := file.Text
		for _, e := range es { // from the end, so that offsets hold
			text = text[:e.Span.Start] + e.Text + text[e.Span.End:]
		}
		out[file] = Applied{Text: text, Fixes: counts[file]}
	}
	return out
}

// Edited is Apply for edits that belong together and are all wanted.
func Edited(list []Edit) map[*source.File]Applied {
	return Apply([]Diagnostic{{Fixes: []Fix{{Edits: list}}}}, func(Fix) bool { return true })
}

// Applied is a file's text after its fixes.
type Applied struct {
	Text  string
	Fixes int
}

// fits tells whether a fix touches nothing that is changed already.
func fits(f Fix, edits map[*source.File][]Edit) bool {
	for _, e := range f.Edits {
		if e.Span.IsZero() {
			return false
		}
		for _, old := range edits[e.Span.File] {
			if e.Span.Start <= old.Span.End && old.Span.Start <= e.Span.End {
				return false
			}
		}
	}
	return true
}
