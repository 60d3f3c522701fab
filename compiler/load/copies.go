package load

import (
	"slices"
	"strings"

	"tamis/lang/ast"
)

// leaveCopies leaves out files that hold the same text as another of their folder: a
// file that was copied beside itself. All that is found in it is found in the other,
// and one message says so.
func (t *Tree) leaveCopies() {
	type size struct { // only texts of one length are compared: this runs at each edit
		dir    string
		length int
	}
	first := map[size][]int{} // of each text the first file
	for i, f := range t.Files {
		text := strings.TrimSpace(f.Source.Text)
		if text == "" || len(f.AST.Blocks) == 0 {
			continue
		}
		alike := first[size{f.Dir, len(text)}]
		at := slices.IndexFunc(alike, func(k int) bool { return strings.TrimSpace(t.Files[k].Source.Text) == text })
		if at < 0 {
			first[size{f.Dir, len(text)}] = append(alike, i)
			continue
		}
		k := alike[at]
		if o := t.Files[k]; t.Only == f.Path || t.Only != o.Path && len(f.Path) < len(o.Path) { // the plain name is the first one
			alike[at] = i
			i, k = k, i
		}
		t.leaveCopy(i, t.Files[k])
	}
}

func (t *Tree) leaveCopy(i int, of *File) {
	f := t.Files[i]
	out := &File{Path: f.Path, Dir: f.Dir, Source: f.Source, Reading: f.Reading, AST: &ast.File{Source: f.Source}, copied: true}
	line, _, _ := strings.Cut(f.Source.Text, "\n")
	out.found.Warnf("F107", f.Source.Span(0, len(line)), "this file holds the same text as %s, and is left out", of.Path).
		Because("the same names twice in one folder would mean two things").
		WithHelp("take one of the two away, or move it out of the folder; write in one only")
	t.Files[i] = out
}
