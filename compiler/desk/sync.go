package desk

import (
	"encoding/json"
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
	d := &document{uri: p.TextDocument.URI, version: p.TextDocument.Version, text: source.New("", p.TextDocument.Text)}
	if old := s.docs[d.uri]; old != nil {
		delete(old.room.open, old.path)
	}
	d.room, d.path = s.roomOf(d.uri)
	s.docs[d.uri] = d
	d.room.open[d.path] = d
	d.room.refresh(s.ctx)
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
		text := c.Text
		if c.Range != nil {
			at := spanOf(d.text, *c.Range)
			text = d.text.Text[:at.Start] + c.Text + d.text.Text[at.End:]
		}
		d.text = source.New("", text)
	}
	d.version = p.TextDocument.Version
	d.room.change(s.ctx, map[string]*string{d.path: &d.text.Text})
	return nil, nil
}

// didSave looks at the disk again: a book may begin, or a file may have come.
func (s *server) didSave(raw json.RawMessage) (any, error) {
	p, err := read[documentParams](raw)
	if err != nil {
		return nil, err
	}
	s.rehouse()
	if d := s.docs[p.TextDocument.URI]; d != nil {
		d.room.refresh(s.ctx)
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
	delete(r.open, d.path)
	r.refresh(s.ctx)
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
		r.refresh(s.ctx)
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
