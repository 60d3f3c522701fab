package desk

import (
	"context"
	"path/filepath"
	"slices"
	"strings"

	"tamis/compiler"
	"tamis/compiler/load"
	"tamis/lang/source"
)

// room is one book, or one folder that belongs to none, as the editor has it.
type room struct {
	dir  string                // its root on the disk; "" of a text that is no file of ours
	open map[string]*document  // the one opened or changed last, where a file is open under several addresses
	seen map[string]load.Stamp // files as they were read, by slash path below the root

	reads    int  // how often it was read whole
	large    bool // so much lies below that looking it through takes its time
	scanning bool // it is being looked through, beside the conversation
	again    bool // and is to be once more

	tree    *load.Tree
	plain   bool // the editor knows edits by address alone
	loose   bool // the tree is of texts alone
	narrow  bool // so much lies below the folder that only its own files are read
	session *compiler.Session
	looked  map[*source.File]bool
	serves  bool             // a menu has a serving time: planning it waits until nobody types
	now     *compiler.Result // of the tree; nil: to be made
	round   int              // how often it was made
	changed bool             // since the last telling
	index   *index           // of now; nil: to be made

	plan planning
	told map[string]told // what was published, by path
}

// document is a text that is open in the editor.
type document struct {
	uri     string
	version int
	text    *source.File
	path    string // below the root of its room
	room    *room
}

// roomOf is the room of an address, and its path in it.
func (s *server) roomOf(uri string) (*room, string) {
	name, ok := pathOf(uri)
	if !ok || !strings.HasSuffix(name, load.Ending) || load.Hidden(filepath.Base(name)) {
		return s.roomAt(uri, ""), "untitled" + load.Ending
	}
	root := load.Root(filepath.Dir(name))
	below, err := filepath.Rel(root, name)
	if err != nil {
		return s.roomAt(uri, ""), "untitled" + load.Ending
	}
	return s.roomAt(root, root), filepath.ToSlash(below)
}

func (s *server) roomAt(key, dir string) *room {
	r := s.rooms[key]
	if r == nil {
		r = &room{dir: dir, open: map[string]*document{}, told: map[string]told{}, plain: !s.caps.Capabilities.Workspace.Edit.Versions}
		s.rooms[key] = r
	}
	return r
}

// forget drops what was kept from one edit to the next.
func (r *room) forget() {
	r.stopPlan()
	r.tree, r.session, r.now, r.index, r.plan = nil, nil, nil, nil, planning{}
	r.changed = true
}

// change puts other texts into the room; nil takes one away.
func (r *room) change(ctx context.Context, texts map[string]*string) {
	if len(texts) == 0 {
		return
	}
	r.stopPlan()
	r.changed, r.now, r.index = true, nil, nil
	if r.tree == nil {
		return // it is read whole when it is wanted
	}
	tree, err := r.tree.Change(ctx, texts)
	if err != nil {
		r.tree, r.session = nil, nil
		return
	}
	r.tree = tree
	r.lead()
}

// lead has places in open texts counted as the editor counts them, which may keep a byte
// order mark that is none of the text.
func (r *room) lead() {
	if r.tree == nil {
		return
	}
	for path, d := range r.open {
		if f := r.file(path); f != nil && f.Source.Lead != d.text.Lead {
			f.Source.Lead = d.text.Lead
		}
	}
}

// read reads the room whole. It has no tree when nothing in it can be read.
func (r *room) read(ctx context.Context) {
	defer r.lead()
	over := map[string]*string{}
	for path, d := range r.open {
		over[path] = &d.text.Text
	}
	r.tree, r.session, r.loose = nil, nil, false
	if r.dir != "" {
		r.reads++
		r.lies(load.Scan(ctx, r.dir, r.narrow))
		if r.narrow {
			for path := range r.seen {
				if over[path] == nil {
					over[path] = r.onDisk(path)
				}
			}
		} else if tree, err := load.PathContext(ctx, r.dir); err == nil {
			if r.tree, err = tree.Change(ctx, over); err == nil {
				return
			}
		}
	}
	r.tree, r.loose = nil, true
	if tree, err := load.Texts(ctx, filepath.ToSlash(r.dir), over); err == nil {
		r.tree = tree
	}
}

// onDisk is a file's text; nil where it cannot be read.
func (r *room) onDisk(path string) *string {
	if r.dir == "" {
		return nil
	}
	text, err := load.ReadFile(filepath.Join(r.dir, filepath.FromSlash(path)))
	if err != nil {
		return nil
	}
	return &text
}

// result compiles the room as it is now; nil when nothing in it can be read.
func (r *room) result(ctx context.Context) *compiler.Result {
	if r.now != nil {
		return r.now
	}
	if r.tree == nil {
		r.read(ctx)
	}
	if r.tree == nil {
		return nil
	}
	serves := r.mayServe()
	if r.session == nil || serves != r.serves {
		r.session = compiler.NewSession(compiler.Options{NoPages: true, NoPlan: serves})
	}
	r.serves = serves
	r.now = r.session.Compile(ctx, r.tree)
	r.round++
	if r.plan.wanted = serves && !r.now.Diags.HasErrors(); !r.plan.wanted {
		r.plan.last = made{} // none is to come that would take its findings back
	}
	return r.now
}

// mayServe tells whether the room may hold a menu with a serving time. Each text is
// looked through once.
func (r *room) mayServe() (any bool) {
	looked := make(map[*source.File]bool, len(r.tree.Files))
	for _, f := range r.tree.Files {
		may, ok := r.looked[f.Source]
		if !ok {
			low := strings.ToLower(f.Source.Text)
			may = strings.Contains(low, "on the table") || strings.Contains(low, "ready ") || strings.Contains(low, "serve 2")
		}
		looked[f.Source] = may
		any = any || may
	}
	r.looked = looked
	return any
}

// file is the file at a path; nil when there is none.
func (r *room) file(path string) *load.File {
	if r.tree == nil {
		return nil
	}
	i, ok := slices.BinarySearchFunc(r.tree.Files, path, func(f *load.File, p string) int { return strings.Compare(f.Path, p) })
	if !ok {
		return nil
	}
	return r.tree.Files[i]
}

// uri is the address of a file, as the editor writes it where the file is open.
func (r *room) uri(path string) string {
	if d := r.open[path]; d != nil {
		return d.uri
	}
	return uriOf(filepath.Join(r.dir, filepath.FromSlash(path)))
}
