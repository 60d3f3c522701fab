package desk

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"runtime"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

func framed(list ...string) string {
	var b strings.Builder
	for _, m := range list {
		fmt.Fprintf(&b, "Content-Length: %d\r\n\r\n%s", len(m), m)
	}
	return b.String()
}

// Whatever comes in, the server ends when it ends, and all it said are messages.
func FuzzServe(f *testing.F) {
	open := `{"jsonrpc":"2.0","method":"textDocument/didOpen","params":{"textDocument":{"uri":"untitled:a","version":1,"text":"dish A\n  serves 4\n"}}}`
	hello := `{"jsonrpc":"2.0","id":1,"method":"initialize","params":{}}`
	f.Add([]byte(framed(hello, open, `{"jsonrpc":"2.0","id":2,"method":"textDocument/hover","params":{"textDocument":{"uri":"untitled:a"},"position":{"line":0,"character":6}}}`, `{"jsonrpc":"2.0","id":3,"method":"shutdown"}`, `{"method":"exit"}`)))
	f.Add([]byte(framed(hello, open, `{"method":"textDocument/didChange","params":{"textDocument":{"uri":"untitled:a","version":-3},"contentChanges":[{"range":{"start":{"line":9,"character":-1},"end":{"line":-9,"character":4}},"text":"\ud83c"}]}}`)))
	f.Add([]byte("Content-Length: 99999999999999999999\r\n\r\n{}"))
	f.Add([]byte("Content-Length: -1\r\n\r\n{}"))
	f.Add([]byte("content-length:2\n\n[]Content-Length: 4\r\nX: y\r\n\r\nnull"))
	f.Add([]byte(framed(`{"id":{"a":[1]},"method":"$/cancelRequest","params":7}`, `[{"id":1}]`, `{"id":"x","method":"initialize","params":{"workspaceFolders":[{"uri":"%zz"}]}}`)))
	f.Fuzz(func(t *testing.T, in []byte) {
		var out bytes.Buffer
		Serve(context.Background(), bytes.NewReader(in), &out, Options{Idle: time.Hour, wrong: func(what any) { t.Errorf("%v", what) }})
		r := newReader(out.String())
		for {
			m, err := r.next()
			if errors.Is(err, io.EOF) {
				return
			}
			require.NoError(t, err)
			require.Equal(t, "2.0", m.Version)
		}
	})
}

func TestTooLongAMessageIsPassedOver(t *testing.T) {
	r := newReader("Content-Length: " + itoa(maxMessage+1) + "\r\n\r\n" + strings.Repeat(" ", maxMessage+1) + framed(`{"id":1,"method":"shutdown"}`))
	_, err := r.next()
	var f *fault
	require.ErrorAs(t, err, &f)
	require.Contains(t, f.Message, "MB")
	m, err := r.next()
	require.NoError(t, err)
	require.Equal(t, "shutdown", m.Method)
}

func TestAddresses(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("paths of other systems")
	}
	for uri, want := range map[string]string{
		"file:///a/b.tamis": "/a/b.tamis", "file:///a/cr%C3%A8me%20br%C3%BBl%C3%A9e.tamis": "/a/crème brûlée.tamis", "file:///a/../b.tamis": "/b.tamis",
		"untitled:a": "", "https://example.org/a.tamis": "", "file:///a%00b": "", "%zz": "", "": "",
	} {
		got, _ := pathOf(uri)
		require.Equal(t, want, got, uri)
	}
	require.Equal(t, "file:///a/cr%C3%A8me%20%23%3F.tamis", uriOf("/a/crème #?.tamis"))
}

// Several changes of one message are each of the text the one before left; one without
// a range is the whole text.
func TestChangesInOneMessage(t *testing.T) {
	e := newEditor(t, nil)
	e.open("a.tamis", "dish Leeks\n  serves 4\n")
	send := func(changes ...any) []documentSymbol {
		e.version++
		e.tell("textDocument/didChange", map[string]any{"textDocument": map[string]any{"uri": e.uri("a.tamis"), "version": e.version}, "contentChanges": changes})
		var list []documentSymbol
		e.call("textDocument/documentSymbol", e.of("a.tamis"), &list)
		return list
	}
	at := func(line, from, to int) textRange { return textRange{position{line, from}, position{line, to}} }
	list := send(
		map[string]any{"range": at(0, 5, 10), "text": "Onions\n  serves 2\n\ndish Leeks"},
		map[string]any{"range": at(3, 5, 10), "text": "Peas"},
		map[string]any{"range": at(0, 5, 11), "text": "Beans"},
	)
	require.Equal(t, []string{"Beans", "Peas"}, []string{list[0].Name, list[1].Name})
	list = send(map[string]any{"text": "base Stock\n  makes 1 litre\n"})
	require.Len(t, list, 1)
	require.Equal(t, "Stock", list[0].Name)
	raw, err := json.Marshal(list)
	require.NoError(t, err)
	require.Contains(t, string(raw), `"selectionRange"`)
}
