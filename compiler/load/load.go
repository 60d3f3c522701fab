// Package load reads the files of one folder, and of the folders it may draw
// on, and parses them. It knows folders and files, and nothing of what the
// blocks mean.
//
// One folder is one scope. A book's root is the nearest folder, the one asked
// for or one above it, that holds a `book` block; without one, the folder
// asked for. Everything below the root is read, since names such as
// "sauces/Herb oil" start there.
//
// Read this file first. entry.go judges what lies in a folder, change.go reads a book
// again of which a file has changed, and blocks.go is what later passes may ask of the
// text.
package load

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"sync/atomic"

	"tamis/lang/ast"
	"tamis/lang/cores"
	"tamis/lang/diag"
	"tamis/lang/quantity"
	"tamis/lang/source"
)

// Ending is the ending of the files that are read.
const Ending = ".tamis"

// MaxSize is the largest file that is read, in bytes. A year of menus is far
// smaller; what is larger is no recipe.
const MaxSize = 8 << 20

// MaxText is the most text that is read at once, in bytes: some hundred thousand
// recipes. More is a mistyped path such as "/".
const MaxText = 128 << 20

// Tree is what was read.
type Tree struct {
	Files []*File   // sorted by path
	Dir   string    // the folder asked for, a slash path below the root; "." is the root
	Only  string    // when one file was asked for: its path below the root
	Root  string    // how the root is written in messages
	Diags diag.List // what the reader and the parser found

	fsys     fs.FS
	book     bool                        // the folder asked for holds a book
	left     map[string]*Fault           // entries that cannot be read, by path
	settings map[string]quantity.Options // by folder
	images   *images
}

// File is one parsed file.
type File struct {
	Path string // slash path below the root
	Dir  string // its folder: the scope it belongs to
	AST  *ast.File
	// Source is its text.
	Source *source.File
	// Reading is how amounts are written in its folder.
	Reading quantity.Options

	found    diag.List     // by the parser
	pictures []*ast.Common // its `picture` fields
	settles  bool          // it may hold settings
	copied   bool          // it is left out: another file of its folder holds the same text
}

// Asked tells whether a file belongs to what the user asked for: the one file,
// any file of the folder, or, where the folder holds a book, any file below it.
func (t *Tree) Asked(f *File) bool {
	if t.Only != "" {
		return f.Path == t.Only
	}
	return t.Here(f) || t.book && (t.Dir == "." || strings.HasPrefix(f.Dir, t.Dir+"/"))
}

// Here tells whether a file stands in the very folder that was asked for, or
// is the file that was.
func (t *Tree) Here(f *File) bool {
	if t.Only != "" {
		return f.Path == t.Only
	}
	return f.Dir == t.Dir
}

// holdsBook tells whether the folder asked for holds a book.
func (t *Tree) holdsBook() bool {
	for _, f := range t.Files {
		if f.Dir != t.Dir {
			continue
		}
		for _, b := range f.AST.Blocks {
			if _, ok := b.(*ast.Book); ok {
				return true
			}
		}
	}
	return false
}

// Path reads a file or a folder of the disk. The error is about reading, and
// for a cook to read; what is wrong inside the files is in Tree.Diags.
func Path(name string) (*Tree, error) { return PathContext(context.Background(), name) }

// PathContext is Path until ctx ends; its error is then that of ctx.
func PathContext(ctx context.Context, name string) (*Tree, error) {
	info, err := os.Stat(name)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, fmt.Errorf("there is no file or folder %q", name)
	case err != nil:
		return nil, fmt.Errorf("%q cannot be read: %w", name, source.Reason(err))
	}
	dir, only := name, ""
	if !info.IsDir() {
		if !strings.HasSuffix(name, Ending) {
			return nil, fmt.Errorf("%q does not end in %s: name a folder, or a file with that ending", name, Ending)
		}
		dir, only = filepath.Dir(name), filepath.Base(name)
	}
	root, below := findRoot(dir)
	t, err := FSContext(ctx, os.DirFS(root), below, only, filepath.ToSlash(root))
	if err != nil {
		return nil, err
	}
	return t, nil
}

// Root is the folder at which the book of a folder begins; the folder itself where
// it belongs to none.
func Root(dir string) string {
	root, _ := findRoot(dir)
	return root
}

// Texts is a tree of texts that are on no disk, by their slash paths; root is how
// their folder is written in messages.
func Texts(ctx context.Context, root string, texts map[string]*string) (*Tree, error) {
	t := &Tree{Dir: ".", Root: root, fsys: nowhere{}, left: map[string]*Fault{}, images: &images{}}
	return t.Change(ctx, texts)
}

// nowhere is a file system that holds nothing.
type nowhere struct{}

func (nowhere) Open(name string) (fs.File, error) {
	return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrNotExist}
}

// findRoot climbs from a folder to the book's root. below is the slash path
// back down.
func findRoot(dir string) (root, below string) {
	abs, err := filepath.Abs(dir)
	if err != nil {
		return dir, "."
	}
	up, name := abs, dir
	for range 6 {
		if hasBook(up) {
			rel, err := filepath.Rel(up, abs)
			if err != nil {
				break
			}
			return name, filepath.ToSlash(rel)
		}
		next := filepath.Dir(up)
		if next == up {
			break
		}
		up, name = next, filepath.Join(name, "..")
	}
	return dir, "."
}

// hasBook tells whether a folder's own files hold a `book` block.
func hasBook(dir string) bool {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return false
	}
	for _, e := range entries {
		if e.IsDir() || !ours(e.Name()) {
			continue
		}
		text, err := ReadFile(filepath.Join(dir, e.Name()))
		if err != nil {
			continue
		}
		for line := range strings.Lines(text) {
			if word, _, _ := strings.Cut(strings.TrimRight(line, "\r\n"), " "); strings.EqualFold(strings.TrimSuffix(word, ":"), "book") {
				return true
			}
		}
	}
	return false
}

// FS reads everything below the root of a file system. dir is the folder asked
// for and only, if not empty, the one file in it; root is how the root is
// written in messages.
func FS(fsys fs.FS, dir, only, root string) (*Tree, error) {
	return FSContext(context.Background(), fsys, dir, only, root)
}

// FSContext is FS until ctx ends; its error is then that of ctx.
func FSContext(ctx context.Context, fsys fs.FS, dir, only, root string) (*Tree, error) {
	t := &Tree{Dir: path.Clean(dir), Root: root, fsys: fsys, left: map[string]*Fault{}, images: &images{}}
	if only != "" {
		t.Only = path.Join(t.Dir, only)
	}
	var paths []string
	err := fs.WalkDir(fsys, ".", func(p string, d fs.DirEntry, err error) error {
		switch {
		case ctx.Err() != nil:
			return ctx.Err()
		case err != nil && p == ".":
			return err
		case err != nil:
			return nil // a folder that cannot be opened holds nothing of ours
		case d.IsDir() && p != "." && Hidden(d.Name()):
			return fs.SkipDir
		case !d.IsDir() && (ours(d.Name()) || p == t.Only):
			paths = append(paths, p)
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	slices.Sort(paths)
	sources, asked, err := t.readAll(ctx, fsys, paths)
	if err != nil {
		return nil, err
	}
	for i, p := range paths {
		if src := sources[i]; src != nil {
			t.Files = append(t.Files, &File{Path: p, Dir: path.Dir(p), Source: src})
		}
	}
	if err := t.parse(ctx, nil); err != nil {
		return nil, err
	}
	if err := t.holds(asked); err != nil {
		return nil, err
	}
	return t, nil
}

// holds is the error of a tree without a file that was asked for; asked is why
// the first of those cannot be read.
func (t *Tree) holds(asked *Fault) error {
	switch {
	case slices.ContainsFunc(t.Files, t.Asked):
		return nil
	case asked != nil:
		return asked
	}
	if t.Only == "" {
		for _, f := range t.Files { // in the order of their paths
			if below, ok := strings.CutPrefix(f.Dir, strings.TrimPrefix(t.Dir+"/", "./")); ok && f.Dir != t.Dir {
				return fmt.Errorf("%q holds no %s file itself; they lie below it: name a folder that has some, as %q, or begin a book here with `tamis new book`, whose folders are all of it",
					path.Join(t.Root, t.Dir), Ending, path.Join(t.Root, t.Dir, below))
			}
		}
	}
	return fmt.Errorf("%q holds no %s file", path.Join(t.Root, t.Dir), Ending)
}

// readAll reads files, as long as they are not too much in all. What cannot be
// read is reported and left nil; asked is the first of those that was asked for.
func (t *Tree) readAll(ctx context.Context, fsys fs.FS, paths []string) (out []*source.File, asked *Fault, err error) {
	faults := make([]*Fault, len(paths))
	out = make([]*source.File, len(paths))
	var size atomic.Int64
	cores.Each(len(paths), func(i int) {
		if size.Load() > MaxText || ctx.Err() != nil {
			return
		}
		if out[i], faults[i] = t.read(fsys, paths[i]); faults[i] == nil {
			size.Add(int64(len(out[i].Text)))
		}
	})
	if err := ctx.Err(); err != nil {
		return nil, nil, err
	}
	if size.Load() > MaxText {
		return nil, nil, t.tooMuch()
	}
	for i, f := range faults {
		if f == nil {
			continue
		}
		if asked == nil && t.wants(paths[i]) {
			asked = f
		}
		t.left[paths[i]] = f
	}
	return out, asked, nil
}
