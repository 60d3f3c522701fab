package load

import (
	"errors"
	"io"
	"io/fs"
	"path"
	"strings"
	"sync"
	"time"

	"tamis/compiler/picture"
	"tamis/lang/ast"
	"tamis/lang/diag"
	"tamis/lang/source"
)

// Picture is what a `picture` field names, read.
type Picture struct {
	*picture.Image
	Path  string // slash path below the root
	Words string // the writer's own, after the comma; may be empty
}

// Pictures reads the pictures that the files name, for all files that want
// holds for, by the place of the field. A picture that cannot be had is reported and left out: no page
// waits for one. Nothing outside the root is read, and no address is followed.
func (t *Tree) Pictures(want func(*source.File) bool, diags *diag.List) map[source.Span]*Picture {
	out := map[source.Span]*Picture{}
	read := map[string]*Picture{} // a picture that is named twice is read once
	faults := map[string]*picture.Fault{}
	for _, f := range t.Files {
		if !want(f.Source) {
			continue
		}
		for _, c := range f.pictures {
			name, words, ok := t.pictureNamed(f, c, diags)
			if !ok {
				continue
			}
			if read[name] == nil && faults[name] == nil {
				img, fault := t.images.read(t, name)
				if fault != nil {
					faults[name] = fault
				} else {
					read[name] = &Picture{Image: img, Path: name}
				}
			}
			if fault := faults[name]; fault != nil {
				diags.Warnf("F104", c.Text.Span, "the picture %q cannot be printed: %s", path.Base(name), fault.Message).
					Because("the page is printed without it").
					WithHelp("%s", fault.Help)
				continue
			}
			p := *read[name]
			p.Words = words
			out[c.Span] = &p
		}
	}
	return out
}

// pictureNamed is the path of the file a field names, and the words after its
// comma. A file whose own name has a comma is found too.
func (t *Tree) pictureNamed(f *File, c *ast.Common, diags *diag.List) (name, words string, ok bool) {
	text := strings.TrimSpace(c.Text.Text)
	missing := func(format string, args ...any) *diag.Diagnostic {
		return diags.Warnf("F103", c.Text.Span, format, args...).Because("the page is printed without it")
	}
	if low := strings.ToLower(text); strings.Contains(low, "://") || strings.HasPrefix(low, "data:") {
		missing("a picture is a file beside this one, and no address is followed").
			WithHelp("save the picture in this folder and write its name: `picture stew.jpg`")
		return "", "", false
	}
	tries := [][2]string{{text, ""}}
	if file, after, cut := strings.Cut(text, ","); cut {
		tries = append(tries, [2]string{strings.TrimSpace(file), strings.TrimSpace(after)})
	}
	outside := false
	for _, try := range tries {
		if path.IsAbs(try[0]) || strings.ContainsRune(try[0], '\\') {
			outside = true
			continue
		}
		p := path.Join(f.Dir, try[0])
		if !fs.ValidPath(p) || t.linked(p) {
			outside = true
			continue
		}
		if info, err := fs.Stat(t.fsys, p); err == nil && info.Mode().IsRegular() {
			return p, try[1], true
		}
	}
	file := tries[len(tries)-1][0]
	if outside {
		missing("the picture %q is not in this folder", file).
			WithHelp("copy it beside this file, or into a folder below it, and write its name: `picture stew.jpg`")
		return "", "", false
	}
	d := missing("there is no picture %q here", file)
	if near := diag.Nearest(path.Base(file), t.beside(path.Join(f.Dir, path.Dir(file)))); near != "" {
		d.WithHelp("did you mean %q?", path.Join(path.Dir(file), near))
	}
	d.WithHelp("put the file beside this one, or correct its name; large and small letters count")
	return "", "", false
}

// linked tells whether a path goes by a link, which may lead anywhere.
func (t *Tree) linked(p string) bool {
	for i := range len(p) + 1 {
		if i == len(p) || p[i] == '/' {
			if info, err := fs.Lstat(t.fsys, p[:i]); err == nil && info.Mode()&fs.ModeSymlink != 0 {
				return true
			}
		}
	}
	return false
}

// beside lists the pictures of a folder.
func (t *Tree) beside(dir string) (out []string) {
	entries, err := fs.ReadDir(t.fsys, dir)
	if err != nil {
		return nil
	}
	for _, e := range entries {
		if isPicture(e.Name()) {
			out = append(out, e.Name())
		}
	}
	return out
}

func (t *Tree) readPicture(name string) (*picture.Image, *picture.Fault) {
	file, err := t.fsys.Open(name)
	if err != nil {
		return nil, unreadable(err)
	}
	defer file.Close()
	data, err := io.ReadAll(io.LimitReader(file, picture.MaxBytes+1))
	if err != nil {
		return nil, unreadable(err)
	}
	return picture.Read(data)
}

// images are the pictures that were read for a tree and for those it was changed
// into. One that has been written since is read again.
type images struct {
	one sync.Mutex // of two compilers, one may still plan what the other has changed
	by  map[string]*image
}

type image struct {
	size  int64
	at    time.Time // when it was last written
	img   *picture.Image
	fault *picture.Fault
}

func (m *images) read(t *Tree, name string) (*picture.Image, *picture.Fault) {
	m.one.Lock()
	defer m.one.Unlock()
	info, err := fs.Stat(t.fsys, name)
	if err != nil {
		return nil, unreadable(err)
	}
	if i := m.by[name]; i != nil && i.size == info.Size() && i.at.Equal(info.ModTime()) {
		return i.img, i.fault
	}
	i := &image{size: info.Size(), at: info.ModTime()}
	i.img, i.fault = t.readPicture(name)
	if m.by == nil {
		m.by = map[string]*image{}
	}
	m.by[name] = i
	return i.img, i.fault
}

func unreadable(err error) *picture.Fault {
	if errors.Is(err, fs.ErrPermission) {
		return &picture.Fault{Message: "it may not be read", Help: "allow yourself to read the file"}
	}
	return &picture.Fault{Message: "it cannot be read", Help: "open it yourself, and save it again"}
}
