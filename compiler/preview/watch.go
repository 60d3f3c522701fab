package preview

import (
	"path/filepath"

	"github.com/fsnotify/fsnotify"
)

// watch is told by the system that something has changed in a folder, and not what: the
// disk is looked at then. Where the system tells nothing, as of a disk in the network,
// the disk is looked at all the same, only later.
type watch struct {
	told    chan struct{}
	from    *fsnotify.Watcher // nil: the system does not tell
	folders map[string]bool
}

func newWatch(deaf bool) *watch {
	w := &watch{told: make(chan struct{}, 1), folders: map[string]bool{}}
	if deaf {
		return w
	}
	from, err := fsnotify.NewWatcher()
	if err != nil {
		return w
	}
	w.from = from
	go func() {
		for {
			select {
			case _, ok := <-from.Events:
				if !ok {
					return
				}
			case _, ok := <-from.Errors: // some were lost
				if !ok {
					return
				}
			}
			select {
			case w.told <- struct{}{}:
			default:
			}
		}
	}()
	return w
}

// watch has the system tell of these folders below a root, and of no others. One that
// was taken away and made again is asked for again.
func (w *watch) watch(root string, folders []string) {
	if w.from == nil {
		return
	}
	want := map[string]bool{}
	for _, f := range folders {
		want[filepath.Join(root, filepath.FromSlash(f))] = true
	}
	if len(folders) == 0 { // the folder is gone: it may come again
		want[filepath.Dir(filepath.Clean(root))] = true
	}
	for f := range w.folders {
		if !want[f] {
			_ = w.from.Remove(f)
			delete(w.folders, f)
		}
	}
	for f := range want {
		if w.from.Add(f) == nil { // of one that is watched already it is no more than a look
			w.folders[f] = true
		}
	}
}

func (w *watch) close() {
	if w.from != nil {
		w.from.Close()
	}
}
