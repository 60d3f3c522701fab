// Package diag holds the one kind of message Tamis gives about a text: what is
// wrong, where, why it matters and what to write instead.
//
// Read this file first. text.go, json.go and sarif.go print findings, apply.go carries
// their fixes out, and visible.go keeps from a terminal what it must not be told.
package diag

import (
	"cmp"
	"fmt"
	"iter"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"tamis/lang/source"
)

// Severity ranks a diagnostic.
type Severity int

const (
	// Hint is a remark a writer may pass over.
	Hint Severity = iota
	// Question is a question: the text has more than one reading, or is odd. It
	// does not stop a build.
	Question
	// Warning is a likely fault. It does not stop a build.
	Warning
	// Error stops a build.
	Error
)

// String is the word printed before the message.
func (s Severity) String() string {
	return [...]string{"hint", "question", "warning", "error"}[s]
}

// Diagnostic is one finding.
type Diagnostic struct {
	Code     string // such as "N104": printed, searchable, never reused
	Severity Severity
	Message  string   // what is wrong; no position, no final full stop
	At       Label    // the one place to underline
	Related  []Label  // other places that matter, perhaps in other files
	Why      string   // why it matters, one sentence; may be empty
	Help     []string // what to try next, most likely first
	Fixes    []Fix    // edits a machine may apply
}

// Label is a place with a few words written beside its underline.
type Label struct {
	Span source.Span
	Text string
}

// Fix is a set of edits that together mend a finding. Safe means that nothing
// the writer meant can change.
type Fix struct {
	Title   string
	Safe    bool
	Offered bool // it only writes down, marked as unconfirmed, what was read already
	Edits   []Edit
}

// Edit replaces the text of a span.
type Edit struct {
	Span source.Span
	Text string
}

// List gathers diagnostics. The zero List is ready for use; a nil *List throws
// everything away.
type List struct{ items []Diagnostic }

// Add appends a finding.
func (l *List) Add(d Diagnostic) {
	if l != nil {
		l.items = append(l.items, d)
	}
}

// Grow makes room for n more findings.
func (l *List) Grow(n int) {
	if l != nil {
		l.items = slices.Grow(l.items, n)
	}
}

// Errorf adds an error without further help and returns a pointer to it, so
// that the caller can add to it before the next Add.
func (l *List) Errorf(code string, at source.Span, format string, args ...any) *Diagnostic {
	return l.report(Error, code, at, format, args...)
}

// Askf is like Errorf for a question.
func (l *List) Askf(code string, at source.Span, format string, args ...any) *Diagnostic {
	return l.report(Question, code, at, format, args...)
}

// Warnf is like Errorf for a warning.
func (l *List) Warnf(code string, at source.Span, format string, args ...any) *Diagnostic {
	return l.report(Warning, code, at, format, args...)
}

// Hintf is like Errorf for a hint.
func (l *List) Hintf(code string, at source.Span, format string, args ...any) *Diagnostic {
	return l.report(Hint, code, at, format, args...)
}

func (l *List) report(s Severity, code string, at source.Span, format string, args ...any) *Diagnostic {
	d := Diagnostic{Code: code, Severity: s, Message: fmt.Sprintf(format, args...), At: Label{Span: at}}
	if l == nil {
		return &d
	}
	l.items = append(l.items, d)
	return &l.items[len(l.items)-1]
}

// WithHelp adds advice and returns d.
func (d *Diagnostic) WithHelp(format string, args ...any) *Diagnostic {
	d.Help = append(d.Help, fmt.Sprintf(format, args...))
	return d
}

// Because says why the finding matters, in a sentence, and returns d. A capital and a
// full stop need not be written.
func (d *Diagnostic) Because(format string, args ...any) *Diagnostic {
	d.Why = Sentence(fmt.Sprintf(format, args...))
	return d
}

// Sentence gives a text a capital and a full stop where it has none: a text that ends
// with a mark of its own, or begins with a name of the notation, keeps it.
func Sentence(text string) string {
	if text == "" {
		return ""
	}
	r, n := utf8.DecodeRuneInString(text)
	text = string(unicode.ToUpper(r)) + text[n:]
	if strings.HasSuffix(text, ".") || strings.HasSuffix(text, "?") || strings.HasSuffix(text, "!") {
		return text
	}
	return text + "."
}

// Labelled puts words beside the underline and returns d.
func (d *Diagnostic) Labelled(format string, args ...any) *Diagnostic {
	d.At.Text = fmt.Sprintf(format, args...)
	return d
}

// See adds a related place and returns d.
func (d *Diagnostic) See(at source.Span, format string, args ...any) *Diagnostic {
	d.Related = append(d.Related, Label{at, fmt.Sprintf(format, args...)})
	return d
}

// Replace adds a fix that puts text in place of a span and returns d.
func (d *Diagnostic) Replace(title string, safe bool, at source.Span, text string) *Diagnostic {
	d.Fixes = append(d.Fixes, Fix{Title: title, Safe: safe, Edits: []Edit{{at, text}}})
	return d
}

// All are the findings in the order they were added.
func (l *List) All() iter.Seq[Diagnostic] { return l.From(0) }

// From are the findings that were added after the first n.
func (l *List) From(n int) iter.Seq[Diagnostic] {
	if l == nil {
		return slices.Values([]Diagnostic(nil))
	}
	return slices.Values(l.items[n:])
}

// Len is the number of findings.
func (l *List) Len() int {
	if l == nil {
		return 0
	}
	return len(l.items)
}

// HasErrors tells whether any finding is an error.
func (l *List) HasErrors() bool {
	return l.Count(Error) > 0
}

// Remove takes the findings of one code out.
func (l *List) Remove(code string) {
	l.items = slices.DeleteFunc(l.items, func(d Diagnostic) bool { return d.Code == code })
}

// Has tells whether there is a finding of a code at a place.
func (l *List) Has(code string, at source.Span) bool {
	return slices.ContainsFunc(l.items, func(d Diagnostic) bool { return d.Code == code && d.At.Span == at })
}

// Count is the number of findings of one severity.
func (l *List) Count(s Severity) (n int) {
	if l == nil {
		return 0
	}
	for _, d := range l.items {
		if d.Severity == s {
			n++
		}
	}
	return n
}

// Sorted returns the findings by file, place and code, without exact repeats.
func (l *List) Sorted() []Diagnostic {
	if l == nil {
		return nil
	}
	order := make([]*Diagnostic, len(l.items)) // a finding is large to be moved about
	for i := range l.items {
		order[i] = &l.items[i]
	}
	slices.SortStableFunc(order, func(a, b *Diagnostic) int {
		if c := cmp.Compare(fileName(a), fileName(b)); c != 0 {
			return c
		}
		return cmp.Or(
			cmp.Compare(a.At.Span.Start, b.At.Span.Start),
			cmp.Compare(a.At.Span.End, b.At.Span.End),
			cmp.Compare(a.Code, b.Code),
			cmp.Compare(a.Message, b.Message),
		)
	})
	out := make([]Diagnostic, len(order))
	for i, d := range order {
		out[i] = *d
	}
	return slices.CompactFunc(out, func(a, b Diagnostic) bool {
		return a.Code == b.Code && a.At == b.At && a.Message == b.Message
	})
}

func fileName(d *Diagnostic) string {
	if d.At.Span.File == nil {
		return ""
	}
	return d.At.Span.File.Name
}

// Last is the finding added last, or nil.
func (l *List) Last() *Diagnostic {
	if l.Len() == 0 {
		return nil
	}
	return &l.items[len(l.items)-1]
}

// AddAll adds the findings of another list.
func (l *List) AddAll(other *List) {
	if l != nil && other != nil {
		l.items = append(l.items, other.items...)
	}
}
