package load

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path"
	"strings"
	"sync"

	"tamis/lang/source"
)

// Hidden tells whether the name of a file or folder is one that programs keep
// for themselves: an editor's lock or a copy it made, the shadow a Mac leaves
// on a foreign disk, the store of a version control system.
func Hidden(name string) bool { return strings.HasPrefix(name, ".") }

// ours tells whether a file of that name is read.
func ours(name string) bool { return strings.HasSuffix(name, Ending) && !Hidden(name) }

// Fault is an entry of a folder that has a name of ours and cannot be read.
type Fault struct {
	Name string // as it is printed
	Help string // what to do about it
	// Strange means that it is no file that could hold a recipe: a link to
	// nowhere, a pipe, a device.
	Strange bool
	what    error
}

func (f *Fault) Error() string { return fmt.Sprintf("%q cannot be read: %v", f.Name, f.what) }
func (f *Fault) Unwrap() error { return f.what }

// ReadFile reads a file of the disk. What is no plain file, or too long for one
// of ours, is not opened; the error is a *Fault.
func ReadFile(name string) (string, error) {
	text, fault := read(name, func() (fs.FileInfo, error) { return os.Stat(name) }, func() (fs.File, error) { return os.Open(name) },
		func() bool { info, err := os.Lstat(name); return err == nil && info.Mode()&fs.ModeSymlink != 0 })
	if fault != nil {
		return "", fault
	}
	return text, nil
}

func (t *Tree) read(fsys fs.FS, p string) (*source.File, *Fault) {
	shown := path.Join(t.Root, p)
	text, fault := read(shown, func() (fs.FileInfo, error) { return fs.Stat(fsys, p) }, func() (fs.File, error) { return fsys.Open(p) },
		func() bool { info, err := fs.Lstat(fsys, p); return err == nil && info.Mode()&fs.ModeSymlink != 0 })
	if fault != nil {
		return nil, fault
	}
	return source.New(shown, text), nil
}

func read(shown string, stat func() (fs.FileInfo, error), open func() (fs.File, error), link func() bool) (string, *Fault) {
	strange := func(what string) (string, *Fault) {
		return "", &Fault{Name: shown, Help: "take it away, or put a file in its place", Strange: true, what: errors.New(what)}
	}
	info, err := stat()
	switch {
	case err != nil && link():
		return strange("it is a link that leads nowhere")
	case err != nil:
		return "", unread(shown, err)
	case info.IsDir() && link():
		return strange("it is a link to a folder")
	case info.IsDir():
		return strange("it is a folder")
	case !info.Mode().IsRegular():
		return strange("it is a pipe, a device or a socket, and no file")
	case info.Size() > MaxSize:
		return "", tooLong(shown, info.Size())
	}
	f, err := open()
	if err != nil {
		return "", unread(shown, err)
	}
	defer f.Close()
	var b strings.Builder
	b.Grow(int(info.Size()))
	chunk := chunks.Get().(*[4 << 10]byte)
	defer chunks.Put(chunk)
	in := io.LimitReader(f, MaxSize+1) // it may have grown
	for {
		n, err := in.Read(chunk[:])
		b.Write(chunk[:n])
		switch {
		case b.Len() > MaxSize:
			return "", tooLong(shown, int64(b.Len()))
		case errors.Is(err, io.EOF):
			return b.String(), nil
		case err != nil:
			return "", unread(shown, err)
		}
	}
}

// chunks are what files are read through: a book has more files than cores.
var chunks = sync.Pool{New: func() any { return new([4 << 10]byte) }}

func unread(shown string, err error) *Fault {
	f := &Fault{Name: shown, Help: "open it yourself, and save it again", what: source.Reason(err)}
	if errors.Is(err, fs.ErrPermission) {
		f.Help = "allow yourself to read it"
	}
	return f
}

func tooLong(shown string, size int64) *Fault {
	return &Fault{
		Name: shown, Help: "no recipe is so long: is it another kind of file?",
		what: fmt.Errorf("it is %d MB long, and no more than %d MB is read from one file", size>>20, MaxSize>>20),
	}
}

// leaveOut reports an entry that cannot be read; the rest is read without it.
// What could hold no recipe is of interest only where one asked.
func (t *Tree) leaveOut(p string, f *Fault) {
	if f.Strange && (t.Only != "" || path.Dir(p) != t.Dir) {
		return
	}
	t.Diags.Warnf("F105", source.Span{}, "%q is left out: %v", f.Name, f.what).
		Because("what is written there is on no page").
		WithHelp("%s", f.Help)
}
