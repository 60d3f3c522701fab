package preview

import (
	"slices"

	"tamis/compiler"
	"tamis/lang/diag"
	"tamis/lang/source"
)

// view is what a page knows at one moment. It is not changed once it is shown.
type view struct {
	Round     int        `json:"round"`
	Trouble   string     `json:"trouble"` // why nothing can be read; empty: it can
	Working   bool       `json:"working"` // pages are being made
	Stale     bool       `json:"stale"`   // the pages are of an earlier text
	Documents []document `json:"documents"`
	Findings  []finding  `json:"findings"`
	Files     []string   `json:"files"`
	At        *place     `json:"at"` // where the text was changed last

	texts map[string]*source.File
}

// document is a page that is shown.
type document struct {
	Title    string `json:"title"`
	Sum      string `json:"sum"` // of the page: another page has another
	Revision string `json:"revision"`
	page     []byte
}

// finding is what was found, in the words that check prints.
type finding struct {
	Severity string   `json:"severity"`
	Code     string   `json:"code"`
	Message  string   `json:"message"`
	Why      string   `json:"why"`
	Help     []string `json:"help"`
	File     string   `json:"file"`
	Line     int      `json:"line"` // 0: of no place
	Last     int      `json:"last"`
}

// after is a view to be filled, which still has the pages of the one before.
func (v *view) after() *view {
	n := &view{}
	if v != nil {
		n.Documents, n.Stale = v.Documents, v.Stale
		n.Findings, n.Files, n.texts, n.At = v.Findings, v.Files, v.texts, v.At
	}
	return n
}

// read takes in what was found in the files.
func (v *view) read(b *book, r *compiler.Result) {
	v.Files, v.texts, v.Findings = nil, map[string]*source.File{}, nil
	paths := map[*source.File]string{}
	for _, f := range r.Tree.Files {
		v.texts[f.Path], paths[f.Source] = f.Source, f.Path
		if r.Tree.Asked(f) {
			v.Files = append(v.Files, f.Path)
		}
	}
	for _, d := range r.Diags.Sorted() {
		f := finding{Severity: d.Severity.String(), Code: d.Code, Message: diag.Visible(d.Message), Why: diag.Visible(d.Why)}
		if d.At.Text != "" {
			f.Message += " (" + diag.Visible(d.At.Text) + ")"
		}
		for _, h := range d.Help {
			f.Help = append(f.Help, diag.Visible(h))
		}
		if path, ok := paths[d.At.Span.File]; ok {
			f.File, f.Line = path, d.At.Span.Position().Line
			f.Last = max(f.Line, d.At.Span.File.Position(max(d.At.Span.Start, d.At.Span.End-1)).Line)
			if !slices.Contains(v.Files, path) {
				v.Files = append(v.Files, path)
			}
		}
		v.Findings = append(v.Findings, f)
	}
	slices.Sort(v.Files)
	if v.At != nil && v.texts[v.At.File] == nil {
		v.At = nil
	}
	if v.At != nil && !slices.Contains(v.Files, v.At.File) {
		v.Files = append(v.Files, v.At.File)
	}
}

// latest is what is shown; never nil once Run has looked.
func (s *Server) latest() *view {
	s.one.Lock()
	defer s.one.Unlock()
	return s.view
}

// show tells all pages of a view.
func (s *Server) show(v *view) {
	s.unshown = nil
	s.one.Lock()
	defer s.one.Unlock()
	s.view = v
	for to := range s.readers {
		select {
		case <-to: // it has not seen the one before
		default:
		}
		to <- v
	}
}

// join is a page that wants to be told; leave says that it is gone. ok is false when
// there are too many.
func (s *Server) join() (views <-chan *view, leave func(), ok bool) {
	const most = 32
	to := make(chan *view, 1)
	s.one.Lock()
	defer s.one.Unlock()
	if len(s.readers) >= most {
		return nil, nil, false
	}
	s.readers[to] = true
	if s.view != nil {
		to <- s.view
	}
	return to, func() {
		s.one.Lock()
		defer s.one.Unlock()
		delete(s.readers, to)
	}, true
}
