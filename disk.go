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
	place, err := filepath.EvalSymlinks(name)
	if err != nil {
		return notWritten(name, err)
	}
	info, err := os.Stat(place)
	switch {
	case err != nil:
		return notWritten(name, err)
	case !info.Mode().IsRegular():
		return fmt.Errorf("%q is no plain file, so it is left as it is", name)
	case info.Mode().Perm()&0o200 == 0:
		return fmt.Errorf("%q is marked as not to be written, so it is left as it is", name)
	}
	temp, err := os.CreateTemp(filepath.Dir(place), begun+"*")
	if err != nil {
		return notWritten(name, err)
	}
	defer os.Remove(temp.Name()) // not there any more when all went well
	if err := fillFile(temp, text, info.Mode().Perm()); err != nil {
		return notWritten(name, err)
	}
	now, err := os.ReadFile(place)
	if err != nil {
		return notWritten(name, err)
	}
	if source.New("", string(now)).Text != source.New("", string(before)).Text {
		return fmt.Errorf("%q was saved by another program in the meantime, so it is left as it is: try again", name)
	}
	if err := os.Rename(temp.Name(), place); err != nil {
		return notWritten(name, err)
	}
	pressFolder(filepath.Dir(place))
	return nil
}

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
