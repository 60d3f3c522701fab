package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"tamis/lang/source"
	"tamis/render/html"
)

// output is a file to be written: its name, alone or in one folder, and its bytes.
type output struct {
	name string
	data []byte
}

// The names of what writeTogether leaves behind when it is killed.
var (
	lockName  = begun + "lock"
	staleName = "stale"         // in it, the pages that are to go
	stageName = begun + "new"   // being written
	readyName = begun + "ready" // written whole, being moved
)

// writeTogether puts files into a folder: all of them or none, and never two
// builds side by side. They are written whole into a folder of their own; then
// the old ones are moved away, and the new ones into their places. What goes
// wrong on the way is undone; what a kill leaves undone the next run finishes. When
// ctx ends before all is written whole, nothing is moved.
func writeTogether(ctx context.Context, dir string, files []output) error {
	if err := ctx.Err(); err != nil {
		return err
	}
	_, none := os.Lstat(dir)
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return fmt.Errorf("the folder %q cannot be made: %w", dir, source.Reason(err))
	}
	unlock, err := lockFolder(ctx, dir)
	if none != nil {
		defer os.Remove(dir) // only if it is empty still, for it was not there
	}
	switch {
	case stopped(err):
		return err
	case err != nil:
		return notWritten(filepath.Join(dir, files[0].name), err)
	}
	defer unlock()
	if err := finish(dir); err != nil {
		return err
	}
	stage, ready := filepath.Join(dir, stageName), filepath.Join(dir, readyName)
	if err := stageAll(ctx, stage, files, stalePages(dir, files)); err != nil {
		os.RemoveAll(stage)
		return err
	}
	if err := os.Rename(stage, ready); err != nil {
		os.RemoveAll(stage)
		return notWritten(filepath.Join(dir, files[0].name), err)
	}
	return moveIn(dir)
}

// recoverFolder finishes what an earlier run was killed at, if it was.
func recoverFolder(ctx context.Context, dir string) error {
	for _, name := range []string{stageName, readyName} {
		if _, err := os.Lstat(filepath.Join(dir, name)); err == nil {
			unlock, err := lockFolder(ctx, dir)
			switch {
			case stopped(err):
				return err
			case err != nil:
				return nil // it cannot be written to: the command will say so when it tries
			}
			defer unlock()
			return finish(dir)
		}
	}
	return nil
}

// finish clears a folder that is locked: what was written whole is moved into
// place, what was not is thrown away.
func finish(dir string) error {
	os.RemoveAll(filepath.Join(dir, stageName))
	if _, err := os.Lstat(filepath.Join(dir, readyName)); err != nil {
		return nil
	}
	return moveIn(dir)
}

// stageAll writes files whole into a folder of their own, until ctx ends.
func stageAll(ctx context.Context, stage string, files []output, stale []string) error {
	for _, d := range []string{stage, filepath.Join(stage, "new"), filepath.Join(stage, "old")} {
		if err := os.Mkdir(d, 0o755); err != nil {
			return notWritten(files[0].name, err)
		}
	}
	for _, p := range files {
		if err := ctx.Err(); err != nil {
			return err
		}
		if err := os.MkdirAll(filepath.Dir(filepath.Join(stage, "new", p.name)), 0o755); err != nil {
			return notWritten(p.name, err)
		}
		f, err := os.OpenFile(filepath.Join(stage, "new", p.name), os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
		if err != nil {
			return notWritten(p.name, err)
		}
		_, err = f.Write(p.data)
		if err := errors.Join(err, f.Sync(), f.Close()); err != nil {
			return notWritten(p.name, err)
		}
	}
	if err := os.WriteFile(filepath.Join(stage, staleName), []byte(strings.Join(stale, "\n")), 0o644); err != nil {
		return notWritten(stage, err)
	}
	pressFolder(filepath.Join(stage, "new"))
	return ctx.Err()
}

// stalePages are the pages of books that lie in the folders that are written to and are in
// them no more: those that say that they are ours.
func stalePages(dir string, files []output) (stale []string) {
	wanted := map[string]bool{}
	for _, f := range files {
		wanted[f.name] = true
	}
	for _, f := range files {
		in := filepath.Dir(f.name)
		if in == "." || filepath.Base(f.name) != "index.html" {
			continue
		}
		list, _ := os.ReadDir(filepath.Join(dir, in))
		for _, e := range list {
			name := filepath.Join(in, e.Name())
			if !wanted[name] && e.Type().IsRegular() && filepath.Ext(name) == ".html" && isOurs(filepath.Join(dir, name)) {
				stale = append(stale, name)
			}
		}
	}
	return stale
}

// isOurs tells whether a page says that it is of a book of ours.
func isOurs(name string) bool {
	f, err := os.Open(name)
	if err != nil {
		return false
	}
	defer f.Close()
	head := make([]byte, 1024)
	n, _ := io.ReadFull(f, head)
	return strings.Contains(string(head[:n]), `<meta name="generator" content="`+html.Generator+`">`)
}

// waiting are the names of the files that lie ready, those of folders with them.
func waiting(ready string) (names []string, err error) {
	root := filepath.Join(ready, "new")
	err = filepath.WalkDir(root, func(name string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		rel, err := filepath.Rel(root, name)
		names = append(names, rel)
		return err
	})
	if errors.Is(err, fs.ErrNotExist) {
		err = nil
	}
	return names, err
}

// moveIn moves what lies ready in a folder into place. All old files are away
// before the first new one is there, so no moment shows both.
func moveIn(dir string) error {
	ready := filepath.Join(dir, readyName)
	pressFolder(dir)
	list, err := waiting(ready)
	if err != nil {
		return notWritten(dir, err)
	}
	stale, _ := os.ReadFile(filepath.Join(ready, staleName))
	var done [][2]string // from, to
	move := func(from, to string) error {
		err := os.Rename(from, to)
		if err == nil {
			done = append(done, [2]string{from, to})
		}
		return err
	}
	away := func(name string) error {
		old := filepath.Join(ready, "old", name)
		if err := os.MkdirAll(filepath.Dir(old), 0o755); err != nil {
			return err
		}
		return move(filepath.Join(dir, name), old)
	}
	err = func() error {
		for _, name := range strings.FieldsFunc(string(stale), func(r rune) bool { return r == '\n' }) {
			if err := away(name); err != nil && !errors.Is(err, fs.ErrNotExist) {
				return notWritten(filepath.Join(dir, name), err)
			}
		}
		for _, name := range list {
			place := filepath.Join(dir, name)
			if in := filepath.Dir(place); in != filepath.Clean(dir) {
				if info, err := os.Lstat(in); err == nil && !info.IsDir() {
					return fmt.Errorf("%q is there already, and is no folder: move it away", in)
				}
				if err := os.MkdirAll(in, 0o755); err != nil {
					return notWritten(in, err)
				}
			}
			info, err := os.Lstat(place)
			switch {
			case errors.Is(err, fs.ErrNotExist):
				continue
			case err == nil && info.Mode()&fs.ModeType&^fs.ModeSymlink != 0:
				return fmt.Errorf("%q is there already, and is no plain file: move it away", place)
			case err == nil && len(list) > 1: // one alone is replaced as it is moved
				err = away(name)
			}
			if err != nil {
				return notWritten(place, err)
			}
		}
		for _, name := range list {
			place := filepath.Join(dir, name)
			if err := move(filepath.Join(ready, "new", name), place); err != nil {
				return notWritten(place, err)
			}
		}
		return nil
	}()
	if err != nil {
		for i := len(done) - 1; i >= 0; i-- {
			if back := os.Rename(done[i][1], done[i][0]); back != nil {
				return errors.Join(err, fmt.Errorf("and what was moved away is in %q", ready))
			}
		}
	}
	pressFolder(dir)
	os.RemoveAll(ready)
	return err
}

// lockFolder waits until no other build writes to a folder, or ctx ends.
func lockFolder(ctx context.Context, dir string) (unlock func(), err error) {
	name := filepath.Join(dir, lockName)
	for {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		f, err := os.OpenFile(name, os.O_RDWR|os.O_CREATE, 0o644)
		if err != nil {
			return nil, err
		}
		locked := make(chan error, 1)
		go func() { locked <- lockFile(f) }()
		select {
		case err = <-locked:
		case <-ctx.Done():
			go func() { // when the lock comes, nobody waits for it any more
				if <-locked == nil {
					os.Remove(name)
				}
				f.Close()
			}()
			return nil, ctx.Err()
		}
		if err != nil { // some disks of other machines cannot lock: one build at a time is then up to the cook
			return func() { f.Close(); os.Remove(name) }, nil
		}
		// Whoever held it may have taken the file away as it was done.
		here, err1 := f.Stat()
		there, err2 := os.Stat(name)
		if err1 == nil && err2 == nil && os.SameFile(here, there) {
			return func() { os.Remove(name); f.Close() }, nil
		}
		f.Close()
	}
}
