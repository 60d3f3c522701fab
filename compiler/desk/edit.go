package desk

import (
	"cmp"
	"encoding/json"
	"slices"
	"strings"

	"tamis/lang/diag"
	"tamis/lang/format"
	"tamis/lang/source"
)

// edits are changes to texts as an editor carries them out: by file, from the top, with
// the version of the texts that are open, so that an edit never meets another text; by
// address alone for an editor that does not say that it knows versions.
func (r *room) edits(list []diag.Edit) *workspaceEdit {
	x := r.names()
	slices.SortStableFunc(list, func(a, b diag.Edit) int {
		return cmp.Or(cmp.Compare(x.paths[a.Span.File], x.paths[b.Span.File]), cmp.Compare(a.Span.Start, b.Span.Start))
	})
	out := &workspaceEdit{DocumentChanges: []documentEdit{}}
	for _, e := range list {
		path := x.paths[e.Span.File]
		id := documentID{URI: r.uri(path)}
		if d := r.open[path]; d != nil {
			id.Version = &d.version
		}
		if n := len(out.DocumentChanges); n == 0 || out.DocumentChanges[n-1].TextDocument.URI != id.URI {
			out.DocumentChanges = append(out.DocumentChanges, documentEdit{TextDocument: id})
		}
		last := &out.DocumentChanges[len(out.DocumentChanges)-1]
		last.Edits = append(last.Edits, textEdit{rangeOf(e.Span), e.Text})
	}
	if !r.plain {
		return out
	}
	plain := &workspaceEdit{Changes: map[string][]textEdit{}}
	for _, d := range out.DocumentChanges {
		plain.Changes[d.TextDocument.URI] = d.Edits
	}
	return plain
}

// formatting lays the text out. One with errors stays as it is.
func (s *server) formatting(raw json.RawMessage) (any, error) {
	sh, err := s.text(raw)
	if err != nil {
		return nil, err
	}
	laid, found := format.SourceWith(sh.text, sh.file.Reading)
	if slices.ContainsFunc(found, func(d diag.Diagnostic) bool { return d.Severity == diag.Error }) {
		return []textEdit{}, nil
	}
	return lineEdits(sh.text, laid), nil
}

// lineEdits turn a text into another and leave alone the lines at the head and the
// foot that are the same; of as many lines as before, those in between too. So a
// cursor, and a mark that somebody set, stay where they are.
func lineEdits(f *source.File, to string) []textEdit {
	out := []textEdit{}
	for _, e := range lineChanges(f, to) {
		out = append(out, textEdit{rangeOf(e.Span), e.Text})
	}
	return out
}

func lineChanges(f *source.File, to string) (out []diag.Edit) {
	if f.Text == to {
		return nil
	}
	was, now := strings.SplitAfter(f.Text, "\n"), strings.SplitAfter(to, "\n")
	head := 0
	for head < len(was) && head < len(now) && was[head] == now[head] {
		head++
	}
	foot := 0
	for foot < len(was)-head && foot < len(now)-head && was[len(was)-1-foot] == now[len(now)-1-foot] {
		foot++
	}
	start := len(strings.Join(was[:head], ""))
	was, now = was[head:len(was)-foot], now[head:len(now)-foot]
	add := func(from, to int, text string) {
		out = append(out, diag.Edit{Span: f.Span(from, to), Text: text})
	}
	if len(was) != len(now) {
		add(start, start+len(strings.Join(was, "")), strings.Join(now, ""))
		return out
	}
	for i := range was {
		if was[i] != now[i] {
			add(start, start+len(was[i]), now[i])
		}
		start += len(was[i])
	}
	return out
}
