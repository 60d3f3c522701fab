package desk

import (
	"maps"
	"slices"
	"strings"

	"tamis/lang/diag"
	"tamis/lang/source"
)

// tell compiles the room and publishes what was found.
func (r *room) tell(s *server) {
	r.result(s.ctx)
	r.publish(s)
}

// told is what the editor knows of a file.
type told struct {
	found   []diag.Diagnostic
	version int // of the text; 0 of a file that is not open
	uri     string
}

// publish tells the editor the findings of every file in which they are others than
// it knows: of open texts first.
func (r *room) publish(s *server) {
	found, paths := map[string][]diag.Diagnostic{}, map[*source.File]string{}
	for path := range r.open {
		found[path] = nil
	}
	if r.now != nil {
		for _, f := range r.tree.Files {
			paths[f.Source] = f.Path
		}
		for _, d := range r.findings(paths) {
			path, ok := paths[d.At.Span.File]
			if !ok {
				path = r.anywhere()
			}
			if path != "" {
				found[path] = append(found[path], d)
			}
		}
	}
	for path := range r.told {
		if _, ok := found[path]; !ok {
			found[path] = nil // mended, closed, or gone
		}
	}
	order := slices.Sorted(maps.Keys(found))
	slices.SortStableFunc(order, func(a, b string) int { return btoi(r.open[a] == nil) - btoi(r.open[b] == nil) })
	for _, path := range order {
		r.publishOne(s, path, found[path], paths)
	}
}

func (r *room) publishOne(s *server, path string, found []diag.Diagnostic, paths map[*source.File]string) {
	p, now := publishParams{URI: r.uri(path), Diagnostics: []diagnostic{}}, told{found: found}
	if d := r.open[path]; d != nil {
		p.Version, now.version, now.uri = &d.version, d.version, d.uri
	}
	was, ok := r.told[path]
	if ok && was.version == now.version && was.uri == now.uri && slices.EqualFunc(was.found, found, sameFinding) || !ok && len(found) == 0 && p.Version == nil {
		return
	}
	for _, d := range found {
		p.Diagnostics = append(p.Diagnostics, r.diagnostic(d, paths))
	}
	s.out.notify("textDocument/publishDiagnostics", p)
	if d := r.open[path]; d != nil {
		for _, o := range s.also(d) {
			also := p
			also.URI, also.Version = o.uri, &o.version
			s.out.notify("textDocument/publishDiagnostics", also)
		}
	}
	if r.told[path] = now; len(found) == 0 && p.Version == nil {
		delete(r.told, path)
	}
}

// sameFinding tells whether an editor would be told the same of two findings: their
// places are of the same text, for a text that has changed is another.
func sameFinding(a, b diag.Diagnostic) bool {
	return a.Code == b.Code && a.At == b.At && a.Message == b.Message && a.Why == b.Why && slices.Equal(a.Related, b.Related) && slices.Equal(a.Help, b.Help)
}

// findings are what the compiler found, and what the last plan found besides in files
// that are still as they were.
func (r *room) findings(paths map[*source.File]string) []diag.Diagnostic {
	all := r.now.Diags.Sorted()
	for _, d := range r.plan.last.found {
		if _, same := paths[d.At.Span.File]; same {
			all = append(all, d)
		}
	}
	return all
}

// anywhere is where a finding stands that has no place: the first open text.
func (r *room) anywhere() string {
	for _, path := range slices.Sorted(maps.Keys(r.open)) {
		return path
	}
	return ""
}

// severities are those of LSP: error, warning, information, hint. A question is for
// the writer to answer, and no fault yet.
var severities = map[diag.Severity]int{diag.Error: 1, diag.Warning: 2, diag.Question: 3, diag.Hint: 4}

func (r *room) diagnostic(d diag.Diagnostic, paths map[*source.File]string) diagnostic {
	out := diagnostic{Range: rangeOf(d.At.Span), Severity: severities[d.Severity], Code: d.Code, Source: "tamis", Message: words(d)}
	for _, l := range d.Related {
		if path, ok := paths[l.Span.File]; ok {
			out.Related = append(out.Related, relatedInfo{location{r.uri(path), rangeOf(l.Span)}, diag.Visible(l.Text)})
		}
	}
	return out
}

// words are what a finding says: what is wrong, why it matters, what to write instead.
func words(d diag.Diagnostic) string {
	parts := []string{d.Message}
	if d.At.Text != "" {
		parts[0] += " (" + d.At.Text + ")"
	}
	if d.Why != "" {
		parts = append(parts, d.Why)
	}
	for _, h := range d.Help {
		parts = append(parts, "Try: "+h)
	}
	return diag.Visible(strings.Join(parts, "\n"))
}

func btoi(b bool) int {
	if b {
		return 1
	}
	return 0
}
