package load

import (
	"context"
	"fmt"
	"maps"
	"path"
	"slices"
	"strings"

	"tamis/lang/ast"
	"tamis/lang/cores"
	"tamis/lang/parse"
	"tamis/lang/quantity"
	"tamis/lang/source"
)

// Change is the tree with other texts in some files, by their slash paths below
// the root; nil takes a file away, and what has no name of ours is passed over.
// The tree itself stays as it is. The two share every file that neither the
// texts nor the settings of its folder touch: the same *File, not read again.
func (t *Tree) Change(ctx context.Context, texts map[string]*string) (*Tree, error) {
	n := &Tree{Dir: t.Dir, Only: t.Only, Root: t.Root, fsys: t.fsys, left: maps.Clone(t.left), images: t.images}
	size := 0
	for _, f := range t.Files {
		if _, ok := texts[f.Path]; !ok {
			n.Files = append(n.Files, f)
			size += len(f.Source.Text)
		}
	}
	var asked *Fault
	for _, p := range slices.Sorted(maps.Keys(texts)) {
		text := texts[p]
		if path.Clean(p) != p || !ours(path.Base(p)) && p != t.Only {
			continue
		}
		delete(n.left, p)
		switch {
		case text == nil:
		case len(*text) > MaxSize:
			n.left[p] = tooLong(path.Join(t.Root, p), int64(len(*text)))
			if asked == nil && n.wants(p) {
				asked = n.left[p]
			}
		default:
			size += len(*text)
			n.Files = append(n.Files, &File{Path: p, Dir: path.Dir(p), Source: source.New(path.Join(t.Root, p), *text)})
		}
	}
	if size > MaxText {
		return nil, n.tooMuch()
	}
	slices.SortFunc(n.Files, func(x, y *File) int { return strings.Compare(x.Path, y.Path) })
	if err := n.parse(ctx, t); err != nil {
		return nil, err
	}
	if err := n.holds(asked); err != nil {
		return nil, err
	}
	return n, nil
}

// wants tells whether a path is the one asked for, or stands in the folder that was.
func (t *Tree) wants(p string) bool {
	return p == t.Only || t.Only == "" && path.Dir(p) == t.Dir
}

func (t *Tree) tooMuch() error {
	return fmt.Errorf("%q holds more than %d MB of %s files, which is more than a hundred thousand recipes: name the folder of one book", t.Root, MaxText>>20, Ending)
}

// parse gives every file its settings and its syntax tree, on all cores, and
// gathers what was found. A file that has a tree already, and the settings it
// was read with, is not read again. before is the tree that such files come
// from; nil when there are none.
func (t *Tree) parse(ctx context.Context, before *Tree) error {
	t.readSettings(before)
	var fresh []*File
	for i, f := range t.Files {
		reading := t.settings[f.Dir]
		if f.AST == nil || f.copied || !sameReading(f.Reading, reading) {
			f = &File{Path: f.Path, Dir: f.Dir, Source: f.Source, Reading: reading}
			t.Files[i] = f
			fresh = append(fresh, f)
		}
	}
	cores.Each(len(fresh), func(i int) {
		if ctx.Err() == nil {
			fresh[i].parse()
		}
	})
	if err := ctx.Err(); err != nil {
		return err
	}
	for _, p := range slices.Sorted(maps.Keys(t.left)) {
		t.leaveOut(p, t.left[p])
	}
	t.leaveCopies()
	for _, f := range t.Files {
		t.Diags.AddAll(&f.found)
	}
	t.book = t.holdsBook()
	return nil
}

func (f *File) parse() {
	f.AST = parse.FileWith(f.Source, f.Reading, &f.found)
	f.settles = settles(f.Source)
	if !strings.Contains(strings.ToLower(f.Source.Text), "picture") {
		return
	}
	ast.Walk(f.AST, func(n ast.Node) bool {
		if c, ok := n.(*ast.Common); ok && c.Key == "picture" && c.Text.Text != "" {
			f.pictures = append(f.pictures, c)
		}
		return true
	})
}

// settles tells whether a text may hold settings.
func settles(f *source.File) bool {
	return strings.Contains(f.Text, "arder") || strings.Contains(f.Text, "ARDER")
}

// readSettings reads how numbers are written in each folder: what the larders
// from the root down to it say. Word units are compared by pointer, so each
// folder's are made once, and kept where they are as they were before.
func (t *Tree) readSettings(before *Tree) {
	texts := map[string][]*source.File{}
	for _, f := range t.Files {
		if f.AST == nil && settles(f.Source) || f.settles {
			texts[f.Dir] = append(texts[f.Dir], f.Source)
		}
	}
	t.settings = map[string]quantity.Options{}
	var of func(dir string) quantity.Options
	of = func(dir string) quantity.Options {
		if o, ok := t.settings[dir]; ok {
			return o
		}
		var above quantity.Options
		if dir != "." {
			above = of(path.Dir(dir))
		}
		o := parse.Settings(above, texts[dir]...)
		if before != nil {
			if was, ok := before.settings[dir]; ok && alike(was, o) {
				o = was
			}
		}
		t.settings[dir] = o
		return o
	}
	for _, f := range t.Files {
		of(f.Dir)
	}
}

// alike tells whether two settings say the same, each with word units of its own.
func alike(a, b quantity.Options) bool {
	return a.DecimalComma == b.DecimalComma && a.System == b.System &&
		maps.EqualFunc(a.Measures, b.Measures, func(x, y *quantity.Unit) bool { return x.Name == y.Name && x.Plural == y.Plural })
}

// sameReading tells whether two settings say the same with the same word units.
func sameReading(a, b quantity.Options) bool {
	return a.DecimalComma == b.DecimalComma && a.System == b.System && maps.Equal(a.Measures, b.Measures)
}
