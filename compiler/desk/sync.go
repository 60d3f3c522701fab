package desk

import (
	"encoding/json"
	"maps"
	"slices"
	"strings"

	"tamis/compiler"
	"tamis/compiler/load"
	"tamis/lang/source"
)

// didOpen takes a text from the disk's hands into the editor's.
func (s *server) didOpen(raw json.RawMessage) (any, error) {
	p, err := read[didOpenParams](raw)
	if err != nil {
		return nil, err
	}
	d := &document{uri: p.TextDocument.URI, version: p.TextDocument.Version, text: textOf(p.TextDocument.Text)}
	if old := s.docs[d.uri]; old != nil {
		s.lay(old)
	}
	d.room, d.path = s.roomOf(d.uri)
	s.docs[d.uri] = d
	d.room.open[d.path] = d
	s.refresh(d.room)
	d.room.change(s.ctx, map[string]*string{d.path: &d.text.Text})
	return nil, nil
}

// didChange carries out edits, each in the text that the one before left.
func (s *server) didChange(raw json.RawMessage) (any, error) {
	p, err := read[didChangeParams](raw)
	if err != nil {
		return nil, err
	}
	d := s.docs[p.TextDocument.URI]
	if d == nil {
		return nil, failed(invalidParams, "that text is not open")
	}
	for _, c := range p.ContentChanges {
		if c.Range == nil {
			d.text = textOf(c.Text)
			continue
		}
		at := spanOf(d.text, *c.Range)
		text := d.text.Text[:at.Start] + c.Text + d.text.Text[at.End:]
		if d.text.Lead > 0 && c.Range.Start != (position{}) {
			text = mark + text // it was not in what is replaced
		}
		d.text = textOf(text)
	}
	d.version = p.TextDocument.Version
	d.room.open[d.path] = d
	d.room.change(s.ctx, map[string]*string{d.path: &d.text.Text})
	return nil, nil
}

// mark is the byte order mark that some editors keep at the head of a text.
const mark = "\ufeff"

// textOf is a text as an editor has it.
func textOf(text string) *source.File {
	f := source.New("", text)
	if strings.HasPrefix(text, mark) {
		f.Lead = 1
	}
	return f
}

// also are the other addresses under which an open text is open: two links to a folder, or
// one address spelt in two ways.
func (s *server) also(d *document) (out []*document) {
	for _, uri := range slices.Sorted(maps.Keys(s.docs)) {
		if o := s.docs[uri]; o != d && o.room == d.room && o.path == d.path {
			out = append(out, o)
		}
	}
	return out
}

// lay takes an address of a text away; the text stays open while it has another.
func (s *server) lay(d *document) {
	if d.room.open[d.path] != d {
		return
	}
	delete(d.room.open, d.path)
	if others := s.also(d); len(others) > 0 {
		d.room.open[d.path] = others[0]
	}
}

// didSave looks at the disk again: a book may begin, or a file may have come.
func (s *server) didSave(raw json.RawMessage) (any, error) {
	p, err := read[documentParams](raw)
	if err != nil {
		return nil, err
	}
	s.rehouse()
	if d := s.docs[p.TextDocument.URI]; d != nil {
		s.refresh(d.room)
	}
	return nil, nil
}

// didClose gives a text back to the disk, where it may no longer be.
func (s *server) didClose(raw json.RawMessage) (any, error) {
	p, err := read[documentParams](raw)
	if err != nil {
		return nil, err
	}
	d := s.docs[p.TextDocument.URI]
	if d == nil {
		return nil, nil
	}
	delete(s.docs, d.uri)
	s.leave(d)
	return nil, nil
}

// leave takes a text out of its room. A room without open texts is given up.
func (s *server) leave(d *document) {
	r := d.room
	s.lay(d)
	if o := r.open[d.path]; o != nil { // under another address it is open still
		s.out.notify("textDocument/publishDiagnostics", publishParams{URI: d.uri, Diagnostics: []diagnostic{}})
		r.change(s.ctx, map[string]*string{d.path: &o.text.Text})
		return
	}
	s.refresh(r)
	r.change(s.ctx, map[string]*string{d.path: r.onDisk(d.path)})
	if len(r.open) > 0 {
		return
	}
	r.stopPlan()
	for key, o := range s.rooms {
		if o == r {
			delete(s.rooms, key)
		}
	}
	r.open[d.path] = d // it is told by the address the editor knows it by
	for path := range r.told {
		s.out.notify("textDocument/publishDiagnostics", publishParams{URI: r.uri(path), Diagnostics: []diagnostic{}})
	}
	delete(r.open, d.path)
}

// rehouse moves open texts whose book has begun or ended above them.
func (s *server) rehouse() {
	for _, d := range s.docs {
		r, path := s.roomOf(d.uri)
		if r == d.room {
			continue
		}
		s.leave(d)
		d.room, d.path = r, path
		r.open[path] = d
		r.change(s.ctx, map[string]*string{path: &d.text.Text})
	}
}

// didChangeFiles is what the editor tells of files that others wrote.
func (s *server) didChangeFiles(json.RawMessage) (any, error) {
	s.rehouse()
	for _, r := range s.rooms {
		s.refresh(r)
	}
	return nil, nil
}

// sheet is an open text with what the compiler made of it.
type sheet struct {
	doc    *document
	room   *room
	result *compiler.Result
	file   *load.File
	text   *source.File
}

// sheet is the open text of an address. Without one there is nothing to ask.
func (s *server) sheet(uri string) (*sheet, error) {
	d := s.docs[uri]
	if d == nil {
		return nil, failed(invalidParams, "that text is not open")
	}
	r := d.room.result(s.ctx)
	f := d.room.file(d.path)
	if r == nil || f == nil {
		return nil, failed(requestFailed, "that text cannot be read: it is too long, or there is too much beside it")
	}
	return &sheet{d, d.room, r, f, f.Source}, nil
}

// before is the line of an offset up to it.
func (sh *sheet) before(offset int) string {
	return sh.text.Text[strings.LastIndexByte(sh.text.Text[:offset], '\n')+1 : offset]
}
