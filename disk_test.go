package main

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"syscall"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/lang/source"
	"tamis/render/html"
)

// names lists a folder, hidden files too.
func names(t *testing.T, dir string) (out []string) {
	t.Helper()
	list, err := os.ReadDir(dir)
	require.NoError(t, err)
	for _, f := range list {
		out = append(out, f.Name())
	}
	return out
}

func put(t *testing.T, name, text string, mode os.FileMode) {
	t.Helper()
	require.NoError(t, os.MkdirAll(filepath.Dir(name), 0o755))
	require.NoError(t, os.WriteFile(name, []byte(text), 0o600))
	require.NoError(t, os.Chmod(name, mode))
}

func holds(t *testing.T, name, text string) {
	t.Helper()
	got, err := os.ReadFile(name)
	require.NoError(t, err)
	require.Equal(t, text, string(got), name)
}

func TestOverwriteKeepsModeAndLink(t *testing.T) {
	dir := t.TempDir()
	name := filepath.Join(dir, "real.tamis")
	put(t, name, "old", 0o640)
	link := filepath.Join(dir, "link.tamis")
	if err := os.Symlink("real.tamis", link); err != nil {
		t.Skip("no links here")
	}
	require.NoError(t, overwrite(link, []byte("old"), []byte("new")))
	holds(t, name, "new")
	info, err := os.Lstat(link)
	require.NoError(t, err)
	require.NotZero(t, info.Mode()&os.ModeSymlink, "the link stays a link")
	info, err = os.Stat(name)
	require.NoError(t, err)
	require.Equal(t, os.FileMode(0o640), info.Mode().Perm())
	require.Equal(t, []string{"link.tamis", "real.tamis"}, names(t, dir), "nothing is left over")
}

// A book is never left half renamed: one file that cannot be written leaves all alone.
func TestOverwriteAllOrNone(t *testing.T) {
	dir := t.TempDir()
	a, b := filepath.Join(dir, "a.tamis"), filepath.Join(dir, "b.tamis")
	put(t, a, "old a", 0o644)
	put(t, b, "old b", 0o444)
	both := []rewritten{{a, "old a", "new a"}, {b, "old b", "new b"}}
	require.ErrorContains(t, overwriteAll(both), "nothing was written")
	holds(t, a, "old a")
	require.NoError(t, os.Chmod(b, 0o644))
	// Under two names, the second text comes too late: it is no longer as it was read.
	require.ErrorContains(t, overwriteAll(append(both, rewritten{a, "old a", "newer"})), "saved by another program")
	holds(t, a, "old a")
	holds(t, b, "old b")
	require.NoError(t, overwriteAll(both))
	holds(t, a, "new a")
	holds(t, b, "new b")
	require.Equal(t, []string{"a.tamis", "b.tamis"}, names(t, dir), "nothing is left over")
}

func TestOverwriteLeavesAlone(t *testing.T) {
	dir := t.TempDir()
	name := filepath.Join(dir, "a.tamis")
	put(t, name, "saved since", 0o644)
	require.ErrorContains(t, overwrite(name, []byte("as read"), []byte("new")), "saved by another program in the meantime")
	holds(t, name, "saved since")
	put(t, name, "guarded", 0o444)
	require.ErrorContains(t, overwrite(name, []byte("guarded"), []byte("new")), "not to be written")
	holds(t, name, "guarded")
	require.ErrorContains(t, overwrite(dir, nil, []byte("new")), "no plain file")
	require.ErrorContains(t, overwrite(filepath.Join(dir, "none"), nil, []byte("new")), "it is not there")
	require.Equal(t, []string{"a.tamis"}, names(t, dir), "nothing is left over")
}

func two(revision string) []output {
	return []output{{"meal.html", []byte(revision)}, {"meal.pdf", []byte(revision)}}
}

func TestWriteTogether(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "deep", "sheets")
	require.NoError(t, writeTogether(t.Context(), dir, two("1")))
	require.NoError(t, writeTogether(t.Context(), dir, two("2")))
	holds(t, filepath.Join(dir, "meal.pdf"), "2")
	require.Equal(t, []string{"meal.html", "meal.pdf"}, names(t, dir), "nothing is left over")

	// The second cannot be put in place: the first is not either.
	put(t, filepath.Join(dir, "zest.pdf", "inside"), "x", 0o644)
	err := writeTogether(t.Context(), dir, []output{{"meal.pdf", []byte("3")}, {"zest.pdf", []byte("3")}})
	require.ErrorContains(t, err, "no plain file")
	holds(t, filepath.Join(dir, "meal.pdf"), "2")
	holds(t, filepath.Join(dir, "zest.pdf", "inside"), "x")
	require.Equal(t, []string{"meal.html", "meal.pdf", "zest.pdf"}, names(t, dir))

	// One that cannot even be written, as on a full disk.
	err = writeTogether(t.Context(), dir, []output{{"meal.pdf", []byte("3")}, {strings.Repeat("x", 300), []byte("3")}})
	require.ErrorContains(t, err, "its name is too long")
	holds(t, filepath.Join(dir, "meal.pdf"), "2")
	require.Equal(t, []string{"meal.html", "meal.pdf", "zest.pdf"}, names(t, dir))
}

// A run that was killed while it moved files is finished by the next; one that
// was killed while it wrote is forgotten.
func TestWhatAKillLeaves(t *testing.T) {
	for moved := range 5 { // of two old files taken away and two new ones put in place
		dir := t.TempDir()
		require.NoError(t, writeTogether(t.Context(), dir, two("1")))
		require.NoError(t, stageAll(t.Context(), filepath.Join(dir, readyName), two("2"), nil))
		ready := filepath.Join(dir, readyName)
		for i, m := range [][2]string{
			{filepath.Join(dir, "meal.html"), filepath.Join(ready, "old", "meal.html")},
			{filepath.Join(dir, "meal.pdf"), filepath.Join(ready, "old", "meal.pdf")},
			{filepath.Join(ready, "new", "meal.html"), filepath.Join(dir, "meal.html")},
			{filepath.Join(ready, "new", "meal.pdf"), filepath.Join(dir, "meal.pdf")},
		} {
			if i < moved {
				require.NoError(t, os.Rename(m[0], m[1]))
			}
		}
		put(t, filepath.Join(dir, lockName), "", 0o644)
		require.NoError(t, recoverFolder(t.Context(), dir))
		require.Equal(t, []string{"meal.html", "meal.pdf"}, names(t, dir))
		for _, n := range names(t, dir) {
			holds(t, filepath.Join(dir, n), "2")
		}
	}
	dir := t.TempDir()
	require.NoError(t, writeTogether(t.Context(), dir, two("1")))
	require.NoError(t, stageAll(t.Context(), filepath.Join(dir, stageName), two("2")[:1], nil))
	require.NoError(t, recoverFolder(t.Context(), dir))
	require.Equal(t, []string{"meal.html", "meal.pdf"}, names(t, dir))
	holds(t, filepath.Join(dir, "meal.html"), "1")
}

// Builds at the same time into one folder: whenever one is done, the folder
// holds files of one of them.
func TestBuildsAtOnceDoNotMix(t *testing.T) {
	dir := t.TempDir()
	if f, err := os.Create(filepath.Join(dir, "probe")); err != nil || lockFile(f) != nil {
		t.Skip("nothing to lock with here")
	} else {
		f.Close()
		os.Remove(f.Name())
	}
	var wg sync.WaitGroup
	errs := make([]error, 4)
	for who := range errs {
		wg.Go(func() {
			for n := range 15 {
				if err := writeTogether(t.Context(), dir, two(fmt.Sprintf("%d of %d", n, who))); err != nil {
					errs[who] = err
					return
				}
			}
		})
	}
	mixed := make(chan string, 1)
	stop := make(chan struct{})
	var watcher sync.WaitGroup
	watcher.Go(func() {
		for {
			select {
			case <-stop:
				return
			default:
			}
			unlock, err := lockFolder(t.Context(), dir)
			if err != nil {
				continue
			}
			a, err1 := os.ReadFile(filepath.Join(dir, "meal.html"))
			b, err2 := os.ReadFile(filepath.Join(dir, "meal.pdf"))
			unlock()
			if errors.Is(err1, err2) && string(a) != string(b) || (err1 == nil) != (err2 == nil) {
				mixed <- string(a) + " beside " + string(b)
				return
			}
		}
	})
	wg.Wait()
	close(stop)
	watcher.Wait()
	select {
	case m := <-mixed:
		t.Fatal(m)
	default:
	}
	require.NoError(t, errors.Join(errs...))
	require.Equal(t, []string{"meal.html", "meal.pdf"}, names(t, dir), "nothing is left over")
}

func TestReasonsArePlain(t *testing.T) {
	err := notWritten("a.pdf", &os.PathError{Op: "write", Path: "a.pdf", Err: syscall.ENOSPC})
	require.EqualError(t, err, `"a.pdf" cannot be written: the disk is full`)
	require.ErrorIs(t, err, syscall.ENOSPC, "it stays what it was")
	require.EqualError(t, source.Reason(&os.PathError{Op: "open", Path: "x", Err: os.ErrPermission}), "you may not")
}

// A book is written as a folder: whole or not at all, without the pages of a time before,
// and without touching what else lies there.
func TestAFolderOfPages(t *testing.T) {
	page := func(s string) []byte {
		return []byte(`<head><meta name="generator" content="` + html.Generator + `"></head>` + s)
	}
	dir := t.TempDir()
	first := []output{{"book.pdf", []byte("1")}, {"book/index.html", page("1")}, {"book/leek.html", page("1")}, {"book/book.css", []byte("1")}}
	require.NoError(t, writeTogether(t.Context(), dir, first))
	own := filepath.Join(dir, "book", "mine.html")
	require.NoError(t, os.WriteFile(own, []byte("mine"), 0o644))
	second := []output{{"book.pdf", []byte("2")}, {"book/index.html", page("2")}, {"book/pea.html", page("2")}, {"book/book.css", []byte("2")}}
	require.NoError(t, writeTogether(t.Context(), dir, second))
	require.NoFileExists(t, filepath.Join(dir, "book", "leek.html"), "it is in the book no more")
	require.FileExists(t, own)
	for _, f := range second {
		data, err := os.ReadFile(filepath.Join(dir, f.name))
		require.NoError(t, err)
		require.Equal(t, f.data, data, f.name)
	}

	// killed while it moved: the next run finishes it, and takes nothing away that is new
	ready := filepath.Join(dir, readyName)
	require.NoError(t, stageAll(t.Context(), ready, first, []string{"book/pea.html"}))
	require.NoError(t, os.Rename(filepath.Join(dir, "book.pdf"), filepath.Join(ready, "old", "book.pdf")))
	require.NoError(t, os.Rename(filepath.Join(ready, "new", "book.pdf"), filepath.Join(dir, "book.pdf")))
	require.NoError(t, recoverFolder(t.Context(), dir))
	for _, f := range first {
		data, err := os.ReadFile(filepath.Join(dir, f.name))
		require.NoError(t, err)
		require.Equal(t, f.data, data, f.name)
	}
	require.NoFileExists(t, filepath.Join(dir, "book", "pea.html"))

	// where the folder should be lies something else: nothing is written
	other := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(other, "book"), []byte("mine"), 0o644))
	require.ErrorContains(t, writeTogether(t.Context(), other, first), "no folder")
	require.NoFileExists(t, filepath.Join(other, "book.pdf"))
	data, err := os.ReadFile(filepath.Join(other, "book"))
	require.NoError(t, err)
	require.Equal(t, "mine", string(data))
}
