package desk

import (
	"bufio"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime/debug"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"tamis/lang/source"
)

// editor is the other end of a conversation: a client over pipes in memory.
type editor struct {
	testing.TB
	dir     string
	to      io.WriteCloser
	from    chan message
	ids     int
	found   map[string]publishParams // the last findings of each file, by its path below dir
	texts   map[string]string
	version int
	asked   []message // requests of the server's
	clean   chan bool
	idle    time.Duration
	little  bool // it says nothing of what it knows
}

// newEditor starts a server above files of a new folder.
func newEditor(t testing.TB, files map[string]string) *editor {
	t.Helper()
	e := &editor{TB: t, dir: t.TempDir(), found: map[string]publishParams{}, texts: map[string]string{}, from: make(chan message, 4096), clean: make(chan bool, 1), idle: time.Millisecond}
	if len(files) > 100 {
		e.idle = time.Hour // no plan is made of a big book
	}
	for name, text := range files {
		e.write(name, text)
	}
	return e.start()
}

func (e *editor) start() *editor {
	t := e.TB
	inR, inW := io.Pipe()
	outR, outW := io.Pipe()
	e.to = inW
	go func() {
		e.clean <- Serve(context.Background(), inR, outW, Options{Idle: e.idle, wrong: func(what any) { t.Errorf("%v\n%s", what, debug.Stack()) }})
		outW.Close()
	}()
	go func() {
		r := &reader{bufio.NewReader(outR)}
		for {
			m, err := r.next()
			if err != nil {
				close(e.from)
				return
			}
			e.from <- *m
		}
	}()
	e.Cleanup(func() { inW.Close() })
	if e.little {
		e.call("initialize", map[string]any{"capabilities": map[string]any{}}, nil)
		e.tell("initialized", struct{}{})
		return e
	}
	e.call("initialize", map[string]any{
		"rootUri": e.uri(""),
		"capabilities": map[string]any{
			"workspace":    map[string]any{"workspaceEdit": map[string]any{"documentChanges": true}, "inlayHint": map[string]any{"refreshSupport": true}, "didChangeWatchedFiles": map[string]any{"dynamicRegistration": true}},
			"textDocument": map[string]any{"codeAction": map[string]any{"resolveSupport": map[string]any{"properties": []string{"edit"}}}, "completion": map[string]any{"completionItem": map[string]any{"snippetSupport": true}}},
		},
	}, nil)
	e.tell("initialized", struct{}{})
	return e
}

func (e *editor) write(name, text string) {
	p := filepath.Join(e.dir, filepath.FromSlash(name))
	require.NoError(e, os.MkdirAll(filepath.Dir(p), 0o755))
	require.NoError(e, os.WriteFile(p, []byte(text), 0o644))
}

func (e *editor) uri(name string) string {
	return uriOf(filepath.Join(e.dir, filepath.FromSlash(name)))
}

func (e *editor) raw(text string) {
	_, err := fmt.Fprintf(e.to, "Content-Length: %d\r\n\r\n%s", len(text), text)
	require.NoError(e, err)
}

func (e *editor) tell(method string, params any) {
	raw, err := json.Marshal(map[string]any{"jsonrpc": "2.0", "method": method, "params": params})
	require.NoError(e, err)
	e.raw(string(raw))
}

// ask sends a request and gives its number.
func (e *editor) ask(method string, params any) int {
	e.ids++
	raw, err := json.Marshal(map[string]any{"jsonrpc": "2.0", "id": e.ids, "method": method, "params": params})
	require.NoError(e, err)
	e.raw(string(raw))
	return e.ids
}

// call asks, and reads the answer into result.
func (e *editor) call(method string, params, result any) {
	e.Helper()
	m := e.answer(e.ask(method, params))
	require.Nil(e, m.Error, "%s", method)
	if result != nil {
		require.NoError(e, json.Unmarshal(m.Result, result))
	}
}

// refused asks for what the server must refuse, and gives its words.
func (e *editor) refused(method string, params any) *fault {
	e.Helper()
	m := e.answer(e.ask(method, params))
	require.NotNil(e, m.Error, "%s", method)
	return m.Error
}

func (e *editor) answer(id int) message {
	e.Helper()
	for {
		if m := e.next(); string(m.ID) == fmt.Sprint(id) && m.Method == "" {
			return m
		}
	}
}

// next is the next message; findings are put down.
func (e *editor) next() message {
	e.Helper()
	select {
	case m, ok := <-e.from:
		require.True(e, ok, "the server has gone")
		switch {
		case m.Method == "textDocument/publishDiagnostics":
			p, err := read[publishParams](m.Params)
			require.NoError(e, err)
			below := p.URI // of no file
			if name, ok := pathOf(p.URI); ok {
				below, err = filepath.Rel(e.dir, name)
				require.NoError(e, err)
			}
			e.found[filepath.ToSlash(below)] = p
		case m.Method != "" && m.ID != nil:
			e.asked = append(e.asked, m)
			e.raw(`{"jsonrpc":"2.0","id":` + string(m.ID) + `,"result":null}`)
		}
		return m
	case <-time.After(time.Minute):
		require.Fail(e, "the server does not answer")
		return message{}
	}
}

// open opens a text and waits for its findings.
func (e *editor) open(name, text string) []diagnostic {
	e.Helper()
	e.version++
	e.texts[name] = text
	e.tell("textDocument/didOpen", map[string]any{"textDocument": map[string]any{"uri": e.uri(name), "languageId": "tamis", "version": e.version, "text": text}})
	return e.findings(name)
}

// findings waits for those of the version that the editor has.
func (e *editor) findings(name string) []diagnostic {
	e.Helper()
	for {
		if p := e.found[name]; p.Version != nil && *p.Version == e.version {
			return p.Diagnostics
		}
		e.next()
	}
}

// edit puts another text in place of the one words that are like it.
func (e *editor) edit(name, old, text string) []diagnostic {
	e.Helper()
	e.version++
	f := source.New(name, e.texts[name])
	require.Equal(e, 1, strings.Count(f.Text, old), "%q in %s", old, name)
	i := strings.Index(f.Text, old)
	e.texts[name] = f.Text[:i] + text + f.Text[i+len(old):]
	e.tell("textDocument/didChange", map[string]any{
		"textDocument":   map[string]any{"uri": e.uri(name), "version": e.version},
		"contentChanges": []any{map[string]any{"range": rangeOf(f.Span(i, i+len(old))), "text": text}},
	})
	return e.findings(name)
}

// at is the place of the end of the first words of a text that are like these; a "^" in
// them says where in them.
func (e *editor) at(name, words string) map[string]any {
	e.Helper()
	before, _, marked := strings.Cut(words, "^")
	whole := strings.Replace(words, "^", "", 1)
	i := strings.Index(e.texts[name], whole)
	require.GreaterOrEqual(e, i, 0, "%q in %s", whole, name)
	if !marked {
		before = whole
	}
	return map[string]any{"textDocument": map[string]any{"uri": e.uri(name)}, "position": at(source.New("", e.texts[name]), i+len(before))}
}

func (e *editor) of(name string) map[string]any {
	return map[string]any{"textDocument": map[string]any{"uri": e.uri(name)}}
}

func (e *editor) with(m map[string]any, key string, value any) map[string]any {
	m[key] = value
	return m
}

// span is the text of a range of a file.
func (e *editor) span(name string, r textRange) string {
	text, ok := e.texts[name]
	if !ok {
		raw, err := os.ReadFile(filepath.Join(e.dir, filepath.FromSlash(name)))
		require.NoError(e, err)
		text = string(raw)
	}
	return spanOf(source.New("", text), r).Text()
}

// said are places as "file: words of their line".
func (e *editor) said(list []location) (out []string) {
	for _, l := range list {
		name, _ := pathOf(l.URI)
		below, err := filepath.Rel(e.dir, name)
		require.NoError(e, err)
		out = append(out, filepath.ToSlash(below)+": "+e.span(filepath.ToSlash(below), l.Range))
	}
	return out
}

// carriedOut is the text of a file after an edit of the server's.
func (e *editor) carriedOut(name string, w *workspaceEdit) string {
	e.Helper()
	text := e.texts[name]
	if text == "" {
		raw, err := os.ReadFile(filepath.Join(e.dir, filepath.FromSlash(name)))
		require.NoError(e, err)
		text = string(raw)
	}
	for _, d := range w.DocumentChanges {
		if d.TextDocument.URI != e.uri(name) {
			continue
		}
		text = applied(text, d.Edits)
	}
	return text
}

// applied carries out edits as an editor does: all of them on the same text.
func applied(text string, edits []textEdit) string {
	f := source.New("", text)
	for i := len(edits) - 1; i >= 0; i-- {
		s := spanOf(f, edits[i].Range)
		text = text[:s.Start] + edits[i].NewText + text[s.End:]
	}
	return text
}

func codes(list []diagnostic) (out []string) {
	for _, d := range list {
		out = append(out, d.Code)
	}
	return out
}

func (e *editor) source(name string) *source.File { return source.New("", e.texts[name]) }

func newReader(text string) *reader { return &reader{bufio.NewReader(strings.NewReader(text))} }

func itoa(n int) string { return fmt.Sprint(n) }
