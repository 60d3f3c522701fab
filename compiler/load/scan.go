package load

import (
	"context"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"
)

// Stamp tells a file from what it was before.
type Stamp struct {
	Size int64
	At   time.Time // when it was last written
}

// Listing is what lies below a folder, by slash path.
type Listing struct {
	Files    map[string]Stamp // of ours
	Pictures map[string]Stamp
	Folders  []string // "." first
	Entries  int      // how many there are, whatever they are
	// Narrow tells that so much lies below that only the folder's own files are listed.
	Narrow bool
}

// mostEntries bounds what is looked through below a folder: where more lies, as below
// a home folder, the folder is listed without those in it. A book has fewer, and so has a
// test of it.
var mostEntries = 20000

// Scan lists what lies below a folder, and reads none of it; of a folder that is known
// to be narrow only its own files. When ctx ends the listing is not to be used.
func Scan(ctx context.Context, dir string, narrow bool) Listing {
	if narrow {
		return scanNarrow(dir)
	}
	l, met := newListing(), 0
	_ = filepath.WalkDir(dir, func(name string, d fs.DirEntry, err error) error {
		met++
		l.Entries = met
		switch {
		case ctx.Err() != nil:
			return fs.SkipAll
		case met > mostEntries:
			l.Narrow = true
			return fs.SkipAll
		case err != nil:
			if d != nil && d.IsDir() {
				return fs.SkipDir
			}
		case d.IsDir() && name != dir && Hidden(d.Name()):
			return fs.SkipDir
		case d.IsDir():
			if below, err := filepath.Rel(dir, name); err == nil {
				l.Folders = append(l.Folders, filepath.ToSlash(below))
			}
		default:
			l.add(dir, name)
		}
		return nil
	})
	if l.Narrow {
		return scanNarrow(dir)
	}
	return l
}

func scanNarrow(dir string) Listing {
	l := newListing()
	l.Folders, l.Narrow = []string{"."}, true
	entries, _ := os.ReadDir(dir)
	for _, d := range entries {
		if !d.IsDir() {
			l.add(dir, filepath.Join(dir, d.Name()))
		}
	}
	return l
}

func newListing() Listing {
	return Listing{Files: map[string]Stamp{}, Pictures: map[string]Stamp{}}
}

func (l *Listing) add(dir, name string) {
	to := l.Files
	switch base := filepath.Base(name); {
	case ours(base):
	case isPicture(base) && !Hidden(base):
		to = l.Pictures
	default:
		return
	}
	info, err := os.Stat(name)
	if err != nil || info.IsDir() {
		return
	}
	if below, err := filepath.Rel(dir, name); err == nil {
		to[filepath.ToSlash(below)] = Stamp{info.Size(), info.ModTime()}
	}
}

// isPicture tells whether a name ends as pictures do.
func isPicture(name string) bool {
	switch strings.ToLower(filepath.Ext(name)) {
	case ".png", ".jpg", ".jpeg", ".gif", ".webp":
		return true
	}
	return false
}
