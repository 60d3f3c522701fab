package desk

import (
	"bufio"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"
)

// The wire: JSON-RPC 2.0 messages, each behind a header that says how long it is
// (the base protocol of LSP 3.17). What is no message is answered, not obeyed, and
// only a stream in which the next message cannot be found ends the server.

// maxMessage is the longest message that is read, in bytes: some texts of the
// longest kind, with every character escaped.
const maxMessage = 64 << 20

// maxHeader is the longest header, in bytes.
const maxHeader = 4 << 10

// message is a request (id and method), a notification (method), or an answer to a
// request of ours (id alone).
type message struct {
	Version string          `json:"jsonrpc"`
	ID      json.RawMessage `json:"id,omitempty"`
	Method  string          `json:"method,omitempty"`
	Params  json.RawMessage `json:"params,omitempty"`
	Result  json.RawMessage `json:"result,omitempty"`
	Error   *fault          `json:"error,omitempty"`
}

// fault is an error that is told to the editor.
type fault struct {
	Code    int    `json:"code"`
	Message string `json:"message"`
}

func (f *fault) Error() string { return f.Message }

// The codes of faults: JSON-RPC 2.0 section 5.1, LSP 3.17 "ErrorCodes".
const (
	parseError      = -32700
	invalidRequest  = -32600
	methodNotFound  = -32601
	invalidParams   = -32602
	internalError   = -32603
	notInitialized  = -32002
	requestFailed   = -32803
	cancelled       = -32800
	contentModified = -32801
)

func failed(code int, format string, args ...any) *fault {
	return &fault{code, fmt.Sprintf(format, args...)}
}

// errStream is a stream in which no further message can be found.
var errStream = errors.New("what comes in is no stream of messages")

// reader reads messages.
type reader struct{ in *bufio.Reader }

// next is the next message. A *fault is a message that does not read; the stream
// goes on behind it.
func (r *reader) next() (*message, error) {
	length, head := -1, 0
	for {
		line, err := r.in.ReadSlice('\n')
		if head += len(line); errors.Is(err, bufio.ErrBufferFull) || head > maxHeader {
			return nil, errStream
		}
		if err != nil {
			if errors.Is(err, io.EOF) && head > 0 {
				return nil, io.ErrUnexpectedEOF
			}
			return nil, err
		}
		text := strings.TrimRight(string(line), "\r\n")
		if text == "" {
			break
		}
		name, value, ok := strings.Cut(text, ":")
		if !ok {
			return nil, errStream
		}
		if strings.EqualFold(strings.TrimSpace(name), "Content-Length") {
			if length, err = strconv.Atoi(strings.TrimSpace(value)); err != nil || length < 0 {
				return nil, errStream
			}
		}
	}
	switch {
	case length < 0:
		return nil, errStream
	case length > maxMessage:
		if _, err := io.CopyN(io.Discard, r.in, int64(length)); err != nil {
			return nil, err
		}
		return nil, failed(invalidRequest, "the message is %d MB long, and no more than %d MB is read", length>>20, maxMessage>>20)
	}
	body, err := io.ReadAll(io.LimitReader(r.in, int64(length)))
	switch {
	case err != nil:
		return nil, err
	case len(body) < length:
		return nil, io.ErrUnexpectedEOF
	}
	m := &message{}
	if err := json.Unmarshal(body, m); err != nil {
		return nil, failed(parseError, "the message is no JSON of a message")
	}
	if string(m.ID) == "null" {
		m.ID = nil
	}
	return m, nil
}

// writer writes messages.
type writer struct {
	out io.Writer
	err error // the first; nothing is written after it
	ids int   // of requests of ours
}

func (w *writer) send(m any) {
	body, err := json.Marshal(m)
	if w.err != nil || err != nil {
		return
	}
	_, w.err = w.out.Write(append(fmt.Appendf(nil, "Content-Length: %d\r\n\r\n", len(body)), body...))
}

// version is that of JSON-RPC.
const version = "2.0"

// call is a request of ours, or what wants no answer.
type call struct {
	Version string `json:"jsonrpc"`
	ID      string `json:"id,omitempty"`
	Method  string `json:"method"`
	Params  any    `json:"params,omitempty"` // an object or a list, or nothing at all (JSON-RPC 2.0, 4.2)
}

// notify sends what wants no answer.
func (w *writer) notify(method string, params any) { w.send(call{version, "", method, params}) }

// ask sends a request. Nothing waits for what is answered.
func (w *writer) ask(method string, params any) {
	w.ids++
	w.send(call{version, "tamis-" + strconv.Itoa(w.ids), method, params})
}

// answer sends the answer to a request.
func (w *writer) answer(id json.RawMessage, result any, err error) {
	type good struct {
		Version string          `json:"jsonrpc"`
		ID      json.RawMessage `json:"id"`
		Result  any             `json:"result"`
	}
	type bad struct {
		Version string          `json:"jsonrpc"`
		ID      json.RawMessage `json:"id"`
		Error   *fault          `json:"error"`
	}
	if err == nil {
		w.send(good{version, id, result})
		return
	}
	var f *fault
	if !errors.As(err, &f) {
		f = failed(requestFailed, "%v", err)
	}
	w.send(bad{version, id, f})
}
