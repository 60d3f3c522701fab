package preview

import (
	"bytes"
	"context"
	_ "embed"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net"
	"net/http"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/yuin/goldmark"

	"tamis/compiler/load"
	"tamis/lang/diag"
	"tamis/render/html"
)

//go:embed page.html
var page string

//go:embed page.css
var style string

//go:embed page.js
var script string

// Serve shows the book at a listener of this machine until ctx ends.
func (s *Server) Serve(ctx context.Context, at net.Listener) error {
	addr, ok := at.Addr().(*net.TCPAddr)
	if !ok || !addr.IP.IsLoopback() {
		at.Close()
		return errors.New("a preview is for this machine alone")
	}
	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	watched := make(chan struct{})
	go func() {
		s.Run(ctx)
		close(watched)
	}()
	srv := &http.Server{
		Handler:           s.Handler(addr.Port),
		ReadHeaderTimeout: 5 * time.Second, IdleTimeout: time.Minute, MaxHeaderBytes: 16 << 10,
		BaseContext: func(net.Listener) context.Context { return ctx },
	}
	context.AfterFunc(ctx, func() { srv.Close() })
	err := srv.Serve(at)
	cancel()
	<-watched
	if errors.Is(err, http.ErrServerClosed) {
		return nil
	}
	return err
}

// Handler answers a browser of this machine that was told the address, at a port.
func (s *Server) Handler(port int) http.Handler {
	mux := http.NewServeMux()
	mux.HandleFunc("GET /{$}", s.front)
	mux.HandleFunc("GET /events", s.events)
	mux.HandleFunc("GET /sheets/{n}", s.sheets)
	mux.HandleFunc("GET /text", s.text)
	mux.HandleFunc("GET /line", s.line)
	return onlyHere(port, mux)
}

// onlyHere lets through what a page of our own asks, or a person who types the address.
// A page from elsewhere reaches this machine too, under a name of its own that leads here
// (so the Host is looked at) or from its own address (so the Origin is).
func onlyHere(port int, next http.Handler) http.Handler {
	hosts := []string{fmt.Sprintf("127.0.0.1:%d", port), fmt.Sprintf("localhost:%d", port), fmt.Sprintf("[::1]:%d", port)}
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h := w.Header()
		h.Set("Content-Security-Policy", "default-src 'none'; frame-ancestors 'none'; base-uri 'none'; form-action 'none'")
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Referrer-Policy", "no-referrer")
		h.Set("Cross-Origin-Resource-Policy", "same-origin")
		h.Set("Cross-Origin-Opener-Policy", "same-origin")
		h.Set("Cache-Control", "no-store")
		origin, site := r.Header.Get("Origin"), r.Header.Get("Sec-Fetch-Site")
		switch {
		case !slices.Contains(hosts, r.Host):
			http.Error(w, "this page has another address", http.StatusMisdirectedRequest)
		case origin != "" && origin != "http://"+r.Host, site != "" && site != "same-origin" && site != "none":
			http.Error(w, "another page asks for this one", http.StatusForbidden)
		case r.Method != http.MethodGet && r.Method != http.MethodHead:
			http.Error(w, "nothing is written here", http.StatusMethodNotAllowed)
		default:
			next.ServeHTTP(w, r)
		}
	})
}

// front is the page round the sheets.
func (s *Server) front(w http.ResponseWriter, r *http.Request) {
	w.Header().Set("Content-Security-Policy", "default-src 'none'; script-src "+html.Allowed(script)+"; style-src "+html.Allowed(style)+
		"; connect-src 'self'; frame-src 'self'; img-src data:; base-uri 'none'; form-action 'none'; frame-ancestors 'none'")
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	_, _ = strings.NewReplacer("{{style}}", style, "{{script}}", script).WriteString(w, page)
}

// sheets is a document, as it would be built.
func (s *Server) sheets(w http.ResponseWriter, r *http.Request) {
	n, err := strconv.Atoi(r.PathValue("n"))
	v := s.latest()
	if err != nil || v == nil || n < 0 || n >= len(v.Documents) {
		http.NotFound(w, r)
		return
	}
	w.Header().Set("Content-Security-Policy", html.Policy()+"; base-uri 'none'; form-action 'none'; frame-ancestors 'self'")
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	_, _ = w.Write(v.Documents[n].page)
}

// events tell a page what is shown, at once and whenever it changes (HTML, "Server-sent
// events").
func (s *Server) events(w http.ResponseWriter, r *http.Request) {
	views, leave, ok := s.join()
	if !ok {
		http.Error(w, "too many pages are open", http.StatusServiceUnavailable)
		return
	}
	defer leave()
	out := http.NewResponseController(w)
	w.Header().Set("Content-Type", "text/event-stream")
	alive := time.NewTicker(15 * time.Second)
	defer alive.Stop()
	say := func(text string) bool {
		_ = out.SetWriteDeadline(time.Now().Add(10 * time.Second))
		_, err := io.WriteString(w, text)
		return err == nil && out.Flush() == nil
	}
	for ok := say("retry: 500\n\n"); ok; {
		select {
		case <-r.Context().Done():
			return
		case v := <-views:
			data, err := json.Marshal(v)
			ok = err == nil && say("event: view\ndata: "+string(data)+"\n\n")
		case <-alive.C:
			ok = say(": \n\n")
		}
	}
}

// asked is the place a request asks about.
func asked(r *http.Request) (file string, line int) {
	line, _ = strconv.Atoi(r.URL.Query().Get("line"))
	return r.URL.Query().Get("file"), min(max(1, line), load.MaxSize) // no text has more lines than bytes
}

// mostLines bounds how much of a text goes to a page, on either side of the line asked for.
const mostLines = 1000

// text is the lines of a file that was read; no other can be asked for.
func (s *Server) text(w http.ResponseWriter, r *http.Request) {
	file, line := asked(r)
	v := s.latest()
	if v == nil || v.texts[file] == nil {
		http.NotFound(w, r)
		return
	}
	f := v.texts[file]
	out := struct {
		First int      `json:"first"`
		Lines []string `json:"lines"`
	}{First: max(1, min(line, f.Lines())-mostLines)}
	for n := out.First; n <= min(f.Lines(), line+mostLines); n++ {
		out.Lines = append(out.Lines, diag.Visible(f.LineSpan(n).Text()))
	}
	writeJSON(w, out)
}

// line is how a line is read.
func (s *Server) line(w http.ResponseWriter, r *http.Request) {
	a := ask{answer: make(chan string, 1)}
	a.file, a.line = asked(r)
	var said string
	select {
	case s.asks <- a:
	case <-r.Context().Done():
		return
	}
	select {
	case said = <-a.answer:
	case <-r.Context().Done():
		return
	case <-time.After(10 * time.Second):
		http.Error(w, "it cannot be said", http.StatusInternalServerError)
		return
	}
	var b bytes.Buffer
	if err := goldmark.Convert([]byte(said), &b); err != nil { // markup in the text is left out
		http.Error(w, "it cannot be said", http.StatusInternalServerError)
		return
	}
	writeJSON(w, map[string]string{"html": b.String()})
}

func writeJSON(w http.ResponseWriter, what any) {
	data, err := json.Marshal(what)
	if err != nil {
		http.Error(w, "it cannot be said", http.StatusInternalServerError)
		return
	}
	w.Header().Set("Content-Type", "application/json")
	_, _ = w.Write(data)
}
