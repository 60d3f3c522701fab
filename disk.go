package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"

	"tamis/lang/source"
)

// A file is written beside its place, pressed to the disk and moved there, so
// that whoever reads it finds the old text or the new one, and after a power
// cut too. It is done with what every system has: a new file, a rename.

// begun starts the names of files that are being written. A name with a full
// stop in front is not read as a recipe.
const begun = ".tamis-"

// overwrite puts text in place of what a file held when it was read. It keeps
// the mode, follows links, and leaves alone a file that may not be written or
// that someone has saved in the meantime.
func overwrite(name string, before, text []byte) error {
	s, err := stage(name, before, text)
	if err != nil {
		return err
	}
	defer s.drop()
	return s.put()
}

// staged is a new text that lies beside its file, and needs only to be moved there.
type staged struct {
	name, place, temp string
	before, text      []byte
}

// stage does all of overwrite but its last step.
func stage(name string, before, text []byte) (*staged, error) {
	place, err := filepath.EvalSymlinks(name)
	if err != nil {
		return nil, notWritten(name, err)
	}
	info, err := os.Stat(place)
	switch {
	case err != nil:
		return nil, notWritten(name, err)
	case !info.Mode().IsRegular():
		return nil, fmt.Errorf("%q is no plain file, so it is left as it is", name)
	case info.Mode().Perm()&0o200 == 0:
		return nil, fmt.Errorf("%q is marked as not to be written, so it is left as it is", name)
	}
	temp, err := os.CreateTemp(filepath.Dir(place), begun+"*")
	if err != nil {
		return nil, notWritten(name, err)
	}
	s := &staged{name, place, temp.Name(), before, text}
	err = fillFile(temp, text, info.Mode().Perm())
	if err != nil {
		err = notWritten(name, err)
	} else {
		err = s.asRead()
	}
	if err != nil {
		s.drop()
		return nil, err
	}
	return s, nil
}

// asRead tells whether the file still holds what was read.
func (s *staged) asRead() error {
	now, err := os.ReadFile(s.place)
	if err != nil {
		return notWritten(s.name, err)
	}
	if source.New("", string(now)).Text != source.New("", string(s.before)).Text {
		return fmt.Errorf("%q was saved by another program in the meantime, so it is left as it is: try again", s.name)
	}
	return nil
}

// put moves the new text to its place.
func (s *staged) put() error {
	if err := s.asRead(); err != nil {
		return err
	}
	if err := os.Rename(s.temp, s.place); err != nil {
		return notWritten(s.name, err)
	}
	pressFolder(filepath.Dir(s.place))
	return nil
}

// drop takes away what was not put.
func (s *staged) drop() { os.Remove(s.temp) }

// overwriteAll puts new texts in place of several files, or of none: all are tried before
// the first is put, and if one cannot be put after all, the earlier ones get their texts back.
func overwriteAll(files []rewritten) error {
	var all []*staged
	for _, f := range files {
		s, err := stage(f.name, []byte(f.before), []byte(f.text))
		if err != nil {
			return fmt.Errorf("nothing was written: %w", err)
		}
		defer s.drop()
		all = append(all, s)
	}
	for i, s := range all {
		err := s.put()
		if err == nil {
			continue
		}
		for _, done := range all[:i] {
			err = errors.Join(err, overwrite(done.name, done.text, done.before))
		}
		return err
	}
	return nil
}

// rewritten is a file with what it held and what it shall hold.
type rewritten struct{ name, before, text string }

// stale is how old a half-written file must be to be nobody's any more.
const stale = time.Hour

// sweep takes away what runs that were killed have left in the folders of some
// files.
func sweep(names []string) {
	for _, name := range names {
		dir := name
		if info, err := os.Stat(name); err != nil || !info.IsDir() {
			dir = filepath.Dir(name)
		}
		entries, _ := os.ReadDir(dir)
		for _, e := range entries {
			number, ok := strings.CutPrefix(e.Name(), begun)
			if !ok || number == "" || strings.Trim(number, "0123456789") != "" || !e.Type().IsRegular() {
				continue
			}
			if info, err := e.Info(); err == nil && time.Since(info.ModTime()) > stale {
				os.Remove(filepath.Join(dir, e.Name()))
			}
		}
	}
}

// fillFile writes a new file whole and presses it to the disk.
func fillFile(f *os.File, text []byte, mode fs.FileMode) error {
	_, err := f.Write(text)
	return errors.Join(err, f.Chmod(mode), f.Sync(), f.Close())
}

// pressFolder makes renames last. Not every system lets a folder be opened, and
// those that do not need no asking.
func pressFolder(dir string) {
	if f, err := os.Open(dir); err == nil {
		_ = f.Sync()
		f.Close()
	}
}

// notWritten says that a file could not be written, and why.
func notWritten(name string, err error) error {
	return fmt.Errorf("%q cannot be written: %w", name, source.Reason(err))
}
