package preview

import (
	"context"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"tamis/compiler/load"
)

// book is what lies on the disk below the folder that was asked for, as it was read last.
type book struct {
	path    string // as it was asked for
	root    string // of the book it belongs to
	seen    load.Listing
	tree    *load.Tree // nil: it cannot be read
	trouble error      // why
	last    *place     // where the text was changed last

	doubt map[string]time.Time // files that are gone or empty, since when
	idle  int                  // how often nothing had changed
}

// place is a line of a file, counted from 1.
type place struct {
	File string `json:"file"`
	Line int    `json:"line"`
}

const (
	// A file that is saved may be gone, or empty, for a moment: so long it is not believed.
	doubtful = 80 * time.Millisecond
	// A file may be written again without its stamp changing, on a disk that counts whole
	// seconds: so long after it was written it is read anew.
	recent = 3 * time.Second
)

// look reads what has changed since the last time. again is how soon to look once more;
// 0 where there is no hurry.
func (b *book) look(ctx context.Context) (changed bool, again time.Duration) {
	now := time.Now()
	dir := b.path
	if strings.HasSuffix(dir, load.Ending) {
		if info, err := os.Stat(dir); err != nil || !info.IsDir() {
			dir = filepath.Dir(dir)
		}
	}
	if b.idle%5 == 0 { // a book may have begun above
		if root := load.Root(dir); root != b.root {
			*b = book{path: b.path, root: root, last: b.last}
		}
	}
	was := b.seen
	found := load.Scan(ctx, b.root, was.Narrow)
	if ctx.Err() != nil {
		return false, 0
	}
	first := was.Files == nil
	b.seen = found
	if b.tree == nil {
		if !first && maps.Equal(was.Files, found.Files) && slices.Equal(was.Folders, found.Folders) {
			b.idle++
			return false, 0
		}
		b.idle = 0
		b.doubt = nil
		before := ""
		if b.trouble != nil {
			before = b.trouble.Error()
		}
		b.tree, b.trouble = load.PathContext(ctx, b.path)
		return first || b.tree != nil || b.trouble.Error() != before, 0
	}
	texts := b.texts(was, found, now)
	if len(b.doubt) > 0 {
		again = doubtful
	}
	if len(texts) == 0 {
		if maps.Equal(was.Pictures, found.Pictures) {
			b.idle++
			return false, again
		}
		b.idle = 0
		return true, again
	}
	b.idle = 0
	b.where(texts)
	b.tree, b.trouble = b.tree.Change(ctx, texts)
	return true, again
}

// texts are the files that hold another text than they did; nil for one that is gone.
func (b *book) texts(was, found load.Listing, now time.Time) map[string]*string {
	out, held := map[string]*string{}, map[string]string{}
	for _, f := range b.tree.Files {
		held[f.Path] = f.Source.Text
	}
	wait := func(path string) bool { // whether it is too early to believe
		since, ok := b.doubt[path]
		if !ok {
			if b.doubt == nil {
				b.doubt = map[string]time.Time{}
			}
			b.doubt[path], since = now, now
		}
		return now.Sub(since) < doubtful
	}
	for path, stamp := range found.Files {
		old, had := was.Files[path]
		_, doubted := b.doubt[path]
		if had && old == stamp && !doubted && now.Sub(stamp.At) > recent {
			continue
		}
		text, err := load.ReadFile(filepath.Join(b.root, filepath.FromSlash(path)))
		before, known := held[path]
		switch {
		case err == nil && known && strings.TrimSpace(text) == "" && before != "" && text != before && wait(path):
			continue
		case err == nil && (!known || text != before):
			out[path] = &text
		case err != nil && known:
			if wait(path) {
				continue
			}
			out[path] = nil
		}
		delete(b.doubt, path)
	}
	for path := range held {
		if _, there := found.Files[path]; !there && b.watched(path) {
			if !wait(path) {
				out[path] = nil
				delete(b.doubt, path)
			}
		}
	}
	return out
}

// watched tells whether a file of the tree lies where the disk is looked at.
func (b *book) watched(path string) bool { return !b.seen.Narrow || !strings.Contains(path, "/") }

// where finds the line that was written last, of the first file that has changed.
func (b *book) where(texts map[string]*string) {
	for _, f := range slices.Sorted(maps.Keys(texts)) {
		if texts[f] == nil {
			if b.last != nil && b.last.File == f {
				b.last = nil
			}
			continue
		}
		before := ""
		for _, old := range b.tree.Files {
			if old.Path == f {
				before = old.Source.Text
			}
		}
		b.last = &place{f, lastChange(before, *texts[f])}
		return
	}
}

// lastChange is the last line of a text, counted from 1, that stands otherwise than in
// the text before it.
func lastChange(before, text string) int {
	was, now := strings.Split(before, "\n"), strings.Split(text, "\n")
	foot := 0
	for foot < len(was)-1 && foot < len(now)-1 && was[len(was)-1-foot] == now[len(now)-1-foot] {
		foot++
	}
	line := len(now) - foot
	head := 0
	for head < len(was) && head < len(now) && was[head] == now[head] {
		head++
	}
	for line > head+1 && strings.TrimSpace(now[line-1]) == "" {
		line--
	}
	return max(1, line)
}
