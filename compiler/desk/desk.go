// Package desk is the language server: what an editor that speaks LSP 3.17 asks of
// the text that is being written, answered from what the compiler finds in it.
//
// Read this file first: Serve takes messages one after another, and nothing else
// touches the rooms. A room (room.go) is a book, or a folder that belongs to none, as
// the editor has it: open texts above files of the disk (disk.go); its menus are planned by plan.go. What is found in it is told
// by findings.go. Each thing an editor can ask has a file of its own; names.go knows
// where each thing is spoken of, wire.go and protocol.go are the protocol, place.go the
// way from bytes to an editor's columns.
package desk

import (
	"bufio"
	"context"
	"encoding/json"
	"errors"
	"io"
	"maps"
	"slices"
	"sync"
	"time"
)

// Options are what a caller may change.
type Options struct {
	Version string        // of the program, as it is told to the editor
	Idle    time.Duration // how long nobody types before menus are planned; 0: 400 ms

	wrong func(any) // is told what went wrong in our own code
}

// Serve answers an editor until it says exit, or until its stream or ctx ends. clean
// tells whether the editor took its leave as the protocol wants it: shutdown, then exit.
func Serve(ctx context.Context, in io.Reader, out io.Writer, opt Options) (clean bool) {
	if opt.Idle == 0 {
		opt.Idle = 400 * time.Millisecond
	}
	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	s := &server{
		ctx: ctx, opt: opt, out: &writer{out: out}, docs: map[string]*document{}, rooms: map[string]*room{},
		inbox: inbox{called: make(chan struct{}, 1), off: map[string]bool{}}, plans: make(chan planned), lists: make(chan listed),
	}
	go s.inbox.fill(&reader{bufio.NewReader(in)})
	s.run()
	return s.state == shutDown
}

// server is the state of one conversation.
type server struct {
	ctx   context.Context
	opt   Options
	out   *writer
	inbox inbox
	docs  map[string]*document // open texts by address
	rooms map[string]*room
	plans chan planned
	lists chan listed // of rooms that were looked through beside the conversation
	caps  initializeParams
	state state
	done  bool // exit was said
}

type state int

const (
	fresh state = iota
	ready
	shutDown
)

// inbox holds messages that wait for their turn. It is filled beside the work, so that
// a request can be taken back before its turn comes.
type inbox struct {
	one    sync.Mutex
	list   []mail
	called chan struct{}
	off    map[string]bool // requests that were taken back
}

// mail is a message, or why there is none.
type mail struct {
	*message
	err error
}

func (b *inbox) fill(r *reader) {
	for {
		m, err := r.next()
		var bad *fault
		end := err != nil && !errors.As(err, &bad)
		b.one.Lock()
		if m != nil && m.Method == "$/cancelRequest" {
			p, _ := read[struct {
				ID json.RawMessage `json:"id"`
			}](m.Params)
			// Only what still waits can be taken back; others were answered.
			if slices.ContainsFunc(b.list, func(o mail) bool { return o.message != nil && o.Method != "" && string(o.ID) == string(p.ID) }) {
				b.off[string(p.ID)] = true
			}
		} else {
			b.list = append(b.list, mail{m, err})
		}
		b.one.Unlock()
		select {
		case b.called <- struct{}{}:
		default:
		}
		if end {
			return
		}
	}
}

// take is the next message; ok is false when none waits. taken tells whether it was
// taken back.
func (b *inbox) take() (m mail, taken, ok bool) {
	b.one.Lock()
	defer b.one.Unlock()
	if len(b.list) == 0 {
		return m, false, false
	}
	m = b.list[0]
	b.list = b.list[1:]
	if m.message != nil && m.ID != nil {
		taken = b.off[string(m.ID)]
		delete(b.off, string(m.ID))
	}
	return m, taken, true
}

// run is the conversation. Messages come first; when none waits, what was typed is
// compiled and told; when nobody has typed for a while, menus are planned.
func (s *server) run() {
	for !s.done && s.ctx.Err() == nil {
		if m, taken, ok := s.inbox.take(); ok {
			s.handle(m, taken)
			continue
		}
		if s.settle() {
			continue
		}
		var idle <-chan time.Time
		if s.wantsPlan() {
			idle = time.After(s.opt.Idle)
		}
		select {
		case <-s.inbox.called:
		case p := <-s.plans:
			s.guard(func() { p.room.planned(s, p) })
		case l := <-s.lists:
			s.guard(func() { s.listed(l) })
		case <-idle:
			s.startPlans()
		case <-s.ctx.Done():
		}
	}
	for _, r := range s.rooms {
		r.stopPlan()
	}
}

// guard carries something out; what goes wrong in our own code costs the memory of
// the rooms, never the conversation.
func (s *server) guard(do func()) (fine bool) {
	defer func() {
		if what := recover(); what != nil {
			if s.opt.wrong != nil {
				s.opt.wrong(what)
			}
			for _, r := range s.rooms {
				r.forget()
			}
			fine = false
		}
	}()
	do()
	return true
}

// handle answers one message.
func (s *server) handle(m mail, taken bool) {
	var bad *fault
	switch {
	case errors.As(m.err, &bad):
		s.out.answer(json.RawMessage("null"), nil, bad)
		return
	case m.err != nil:
		s.done = true // the stream has ended
		return
	case m.Method == "":
		return // an answer to a request of ours
	case taken:
		s.out.answer(m.ID, nil, failed(cancelled, "taken back"))
		return
	}
	var result any
	var err error
	if !s.guard(func() { result, err = s.call(m.message) }) {
		err = failed(internalError, "something went wrong in Tamis itself; the text is as it was")
	}
	if m.ID != nil {
		s.out.answer(m.ID, result, err)
	}
}

// methods are what an editor may call.
var methods = map[string]func(*server, json.RawMessage) (any, error){
	"initialized":                       (*server).initialized,
	"textDocument/didOpen":              (*server).didOpen,
	"textDocument/didChange":            (*server).didChange,
	"textDocument/didSave":              (*server).didSave,
	"textDocument/didClose":             (*server).didClose,
	"workspace/didChangeWatchedFiles":   (*server).didChangeFiles,
	"textDocument/hover":                (*server).hover,
	"textDocument/completion":           (*server).completion,
	"textDocument/definition":           (*server).definition,
	"textDocument/references":           (*server).references,
	"textDocument/documentHighlight":    (*server).highlights,
	"textDocument/prepareRename":        (*server).prepareRename,
	"textDocument/rename":               (*server).rename,
	"textDocument/documentSymbol":       (*server).documentSymbols,
	"workspace/symbol":                  (*server).workspaceSymbols,
	"textDocument/formatting":           (*server).formatting,
	"textDocument/codeAction":           (*server).codeActions,
	"codeAction/resolve":                (*server).resolveAction,
	"textDocument/inlayHint":            (*server).inlayHints,
	"textDocument/semanticTokens/full":  (*server).semanticTokens,
	"textDocument/semanticTokens/range": (*server).semanticTokens,
	"textDocument/foldingRange":         (*server).foldingRanges,
}

func (s *server) call(m *message) (any, error) {
	switch m.Method {
	case "initialize":
		return s.initialize(m.Params)
	case "exit":
		s.done = true
		return nil, nil
	}
	switch {
	case s.state == fresh:
		return nil, failed(notInitialized, "the editor has not said initialize")
	case s.state == shutDown:
		return nil, failed(invalidRequest, "the editor has said shutdown")
	case m.Method == "shutdown":
		s.state = shutDown
		return nil, nil
	}
	if f := methods[m.Method]; f != nil {
		return f(s, m.Params)
	}
	return nil, failed(methodNotFound, "there is no method of that name here")
}

func (s *server) initialize(raw json.RawMessage) (any, error) {
	if s.state != fresh {
		return nil, failed(invalidRequest, "initialize was said before")
	}
	p, err := read[initializeParams](raw)
	if err != nil {
		return nil, err
	}
	s.caps, s.state = p, ready
	type object map[string]any
	return object{
		"serverInfo": object{"name": "tamis", "version": s.opt.Version},
		"capabilities": object{
			"positionEncoding":           "utf-16",
			"textDocumentSync":           object{"openClose": true, "change": 2, "save": object{}},
			"hoverProvider":              true,
			"completionProvider":         object{"triggerCharacters": []string{"|", " ", "/"}},
			"definitionProvider":         true,
			"referencesProvider":         true,
			"documentHighlightProvider":  true,
			"renameProvider":             object{"prepareProvider": true},
			"documentSymbolProvider":     true,
			"workspaceSymbolProvider":    true,
			"documentFormattingProvider": true,
			"codeActionProvider":         object{"codeActionKinds": []string{quickFix, fixAll, fixAllOffered}, "resolveProvider": true},
			"inlayHintProvider":          true,
			"semanticTokensProvider": object{
				"legend": object{"tokenTypes": tokenTypes, "tokenModifiers": []string{}}, "full": true, "range": true,
			},
			"foldingRangeProvider": true,
			"workspace":            object{"workspaceFolders": object{"supported": true}},
		},
	}, nil
}

// initialized asks to be told of files that change behind the editor's back.
func (s *server) initialized(json.RawMessage) (any, error) {
	if s.caps.Capabilities.Workspace.Watched.Dynamic {
		type object map[string]any
		s.out.ask("client/registerCapability", object{"registrations": []object{{
			"id": "files", "method": "workspace/didChangeWatchedFiles",
			"registerOptions": object{"watchers": []object{{"globPattern": "**/*.tamis"}}},
		}}})
	}
	return nil, nil
}

// settle compiles what has changed, and tells what was found. did is false when
// there was nothing to do.
func (s *server) settle() (did bool) {
	for _, key := range slices.Sorted(maps.Keys(s.rooms)) {
		if r := s.rooms[key]; r.changed {
			r.changed = false
			did = true
			s.guard(func() { r.tell(s) })
		}
	}
	return did
}

func (s *server) wantsPlan() bool {
	for _, r := range s.rooms {
		if r.wantsPlan() {
			return true
		}
	}
	return false
}

func (s *server) startPlans() {
	for _, r := range s.rooms {
		if r.wantsPlan() {
			r.startPlan(s)
		}
	}
}
