// Package preview shows a book while it is being written: a page on this machine that
// holds its sheets, what was found in the text, and how the sentence is read that was
// written last. It is made anew as the text is saved.
//
// Read this file first: Run watches, compiles and shows, one thing after another on one
// goroutine. book.go is what lies on the disk, watch.go is told when it changes, view.go
// is what a page knows at one moment, serve.go lets a browser ask, and no one else.
package preview

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"sync"
	"time"

	"tamis/compiler"
	"tamis/compiler/desk"
	"tamis/compiler/load"
	"tamis/compiler/plan"
	"tamis/lang/source"
	"tamis/render/html"
	"tamis/render/runes"
)

// Options are what a caller may change.
type Options struct {
	Compile compiler.Options // which sheets, and how large; as for a build
	// Settle is how long it must be quiet after a save until the text is read: 15 ms if 0.
	Settle time.Duration
	// Poll is how often the disk is looked at though nobody told of a change: 2 s if 0.
	Poll time.Duration

	deaf  bool      // the system does not tell of changes
	wrong func(any) // is told what went wrong in our own code
}

// patience is how long pages may take before what was found is shown without them.
const patience = 120 * time.Millisecond

// Server shows one folder or file.
type Server struct {
	opt  Options
	book *book
	asks chan ask
	made chan made

	quick, full *compiler.Session // full is nil while it makes pages
	now         *compiler.Result  // of the text as it is, without pages
	plan        *compiler.Result  // of the same text with plans; nil: not yet
	reader      *desk.Reader
	round       int
	stop        context.CancelFunc // of the pages being made
	unshown     *view              // waits for its pages

	one     sync.Mutex // for what follows
	view    *view
	readers map[chan *view]bool
}

// New is a server of a folder or a file, which need not be there yet.
func New(path string, opt Options) *Server {
	if opt.Settle == 0 {
		opt.Settle = 15 * time.Millisecond
	}
	if opt.Poll == 0 {
		opt.Poll = 2 * time.Second
	}
	if opt.Compile.Plans == nil {
		opt.Compile.Plans = &plan.Memory{}
	}
	return &Server{opt: opt, book: &book{path: path}, asks: make(chan ask), made: make(chan made), readers: map[chan *view]bool{}}
}

// Run watches until ctx ends.
func (s *Server) Run(ctx context.Context) {
	w := newWatch(s.opt.deaf)
	defer w.close()
	defer s.halt()
	look, late := time.NewTimer(0), time.NewTimer(time.Hour)
	told := time.Time{} // when the first of a run of changes was told
	for {
		select {
		case <-ctx.Done():
			return
		case <-w.told:
			if told.IsZero() {
				told = time.Now()
			}
			if time.Since(told) < 10*s.opt.Settle { // who writes without end is not waited for
				look.Reset(s.opt.Settle)
			}
		case <-look.C:
			told = time.Time{}
			changed, again := s.book.look(ctx)
			w.watch(s.book.root, s.book.seen.Folders)
			if changed && ctx.Err() == nil {
				s.guard(func() { s.check(ctx) })
				late.Reset(patience)
			}
			if again == 0 || again > s.opt.Poll {
				again = s.opt.Poll
			}
			look.Reset(again)
		case <-late.C:
			if s.unshown != nil {
				s.show(s.unshown)
			}
		case m := <-s.made:
			s.finished(m)
		case a := <-s.asks:
			s.guard(func() { a.answer <- s.said(a) })
		}
	}
}

// guard carries something out; what goes wrong in our own code costs what was kept, and
// is told on the page.
func (s *Server) guard(do func()) {
	defer func() {
		if what := recover(); what != nil {
			s.failed(what)
		}
	}()
	do()
}

func (s *Server) failed(what any) {
	if s.opt.wrong != nil {
		s.opt.wrong(what)
	}
	s.halt()
	s.quick, s.full, s.now, s.plan, s.reader = nil, nil, nil, nil, nil
	v := s.latest().after()
	v.Trouble, v.Stale = "Something went wrong in Tamis itself; your text is as it was. Save it again.", true
	s.show(v)
}

// check says what is wrong with the text as it is, and has pages made of it when it has
// no errors.
func (s *Server) check(ctx context.Context) {
	s.halt()
	s.round++
	s.now, s.plan, s.reader = nil, nil, nil
	v := s.latest().after()
	v.Round, v.At = s.round, s.book.last
	if s.book.tree == nil {
		v.Trouble, v.Stale, v.Findings, v.Files, v.texts = sentence(s.book.trouble), true, nil, nil, nil
		s.show(v)
		return
	}
	if s.quick == nil {
		opt := s.opt.Compile
		opt.NoPages, opt.NoPlan = true, true
		s.quick = compiler.NewSession(opt)
	}
	s.now = s.quick.Compile(ctx, s.book.tree)
	if ctx.Err() != nil {
		return
	}
	v.read(s.book, s.now)
	if s.now.Diags.HasErrors() {
		v.Stale = true
		s.show(v)
		return
	}
	v.Working, s.unshown = true, v
	s.start(ctx, s.book.tree)
}

// made are the pages of one round.
type made struct {
	round  int
	by     *compiler.Session
	result *compiler.Result
	docs   []document
	wrong  any // what went wrong in our own code
}

// start makes pages beside the watching: the plan of a banquet may take seconds.
func (s *Server) start(above context.Context, tree *load.Tree) {
	ctx, cancel := context.WithCancel(above)
	m := made{round: s.round, by: s.full}
	s.stop, s.full = cancel, nil
	if m.by == nil {
		m.by = compiler.NewSession(s.opt.Compile)
	}
	go func() {
		defer cancel()
		func() {
			defer func() { m.wrong = recover() }()
			m.result = m.by.Compile(ctx, tree)
			for _, d := range m.result.Documents {
				var page bytes.Buffer
				if err := html.Write(&page, d); err == nil && ctx.Err() == nil {
					sum := sha256.Sum256(page.Bytes())
					m.docs = append(m.docs, document{Title: runes.Clean(d.Title), Sum: hex.EncodeToString(sum[:8]), Revision: runes.Clean(d.Revision), page: page.Bytes()})
				}
			}
		}()
		if ctx.Err() != nil {
			return // a session that was stopped is not used again
		}
		select {
		case s.made <- m:
		case <-above.Done():
		}
	}()
}

// halt gives up the pages that are being made.
func (s *Server) halt() {
	if s.stop != nil {
		s.stop()
		s.stop = nil
	}
	s.unshown = nil
}

// finished shows pages, if nothing was saved since.
func (s *Server) finished(m made) {
	if m.wrong != nil {
		s.failed(m.wrong)
		return
	}
	s.full = m.by
	if m.round != s.round {
		return
	}
	s.plan, s.reader = m.result, nil
	s.halt()
	v := s.latest().after()
	v.Round, v.At = s.round, s.book.last
	v.read(s.book, m.result)
	if v.Stale = m.result.Diags.HasErrors(); !v.Stale {
		v.Documents = m.docs
	}
	s.show(v)
}

// ask is a question about a line.
type ask struct {
	file   string
	line   int
	answer chan string
}

// said is how a line is read.
func (s *Server) said(a ask) string {
	if s.now == nil {
		return ""
	}
	if s.reader == nil {
		s.reader = desk.NewReader(s.now, s.plan)
	}
	return s.reader.Line(a.file, a.line)
}

// sentence is an error as it is told on the page.
func sentence(err error) string {
	var why error = errors.New("there is nothing to read")
	if err != nil {
		why = source.Reason(err)
	}
	return runes.Clean(why.Error())
}
