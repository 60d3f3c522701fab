package desk

import (
	"encoding/json"
	"slices"
	"strings"

	"tamis/compiler/check"
	"tamis/lang/diag"
	"tamis/lang/source"
)

// The kinds of code actions.
const (
	quickFix      = "quickfix"
	fixAll        = "source.fixAll.tamis"
	fixAllOffered = "source.fixAll.tamisOffered"
)

// codeActions are what an editor may do about what was found at a place: carry out a
// cure, write down what was read from a sentence, allow the finding with a reason; and
// over the whole text, all cures that change no meaning.
func (s *server) codeActions(raw json.RawMessage) (any, error) {
	p, err := read[codeActionParams](raw)
	if err != nil {
		return nil, err
	}
	sh, err := s.sheet(p.TextDocument.URI)
	if err != nil {
		return nil, err
	}
	out := []codeAction{}
	asked := spanOf(sh.text, p.Range)
	if wanted(p.Context.Only, quickFix) {
		out = append(out, sh.quickFixes(asked, slices.Contains(s.caps.Capabilities.TextDocument.CodeAction.Resolve.Properties, "edit"))...)
	}
	for _, all := range []struct {
		kind, title string
		take        func(diag.Fix) bool
	}{
		{fixAll, "Mend what changes no meaning", func(f diag.Fix) bool { return f.Safe }},
		{fixAllOffered, "Write what was read from the sentences into the margins, each with a ?", func(f diag.Fix) bool { return f.Offered }},
	} {
		if len(p.Context.Only) == 0 && all.kind == fixAllOffered || !wanted(p.Context.Only, all.kind) {
			continue
		}
		if edits := sh.allFixes(all.take); len(edits) > 0 {
			out = append(out, codeAction{Title: all.title, Kind: all.kind, Edit: sh.room.edits(edits)})
		}
	}
	return out, nil
}

// wanted tells whether a kind is one of those asked for: itself, or one it is a part
// of. Without any all are.
func wanted(only []string, kind string) bool {
	return len(only) == 0 || slices.ContainsFunc(only, func(o string) bool { return o == kind || strings.HasPrefix(kind, o+".") })
}

// quickFixes are the cures of what was found in a span; later tells whether the editor
// asks again for those that have to be worked out.
func (sh *sheet) quickFixes(asked source.Span, later bool) (out []codeAction) {
	x := sh.room.names()
	for _, d := range sh.room.findings(x.paths) {
		at := d.At.Span
		if at.File != sh.text || at.End < asked.Start || at.Start > asked.End {
			continue
		}
		told := []diagnostic{sh.room.diagnostic(d, x.paths)}
		for _, f := range d.Fixes {
			if len(f.Edits) == 0 || !sh.room.holds(f.Edits) {
				continue
			}
			out = append(out, codeAction{
				Title: diag.Visible(firstUp(f.Title)), Kind: quickFix, Diagnostics: told, Preferred: f.Safe, Edit: sh.room.edits(slices.Clone(f.Edits)),
			})
		}
		if later {
			out = append(out, sh.advised(d, told)...)
		}
		if edit, ok := sh.allow(d); ok {
			out = append(out, codeAction{Title: "Allow " + d.Code + " here, with a reason", Kind: quickFix, Diagnostics: told, Edit: sh.room.edits([]diag.Edit{edit})})
		}
	}
	for _, r := range sh.result.Model.Recipes {
		for _, o := range r.Offers {
			if o.At.File == sh.text && o.At.Start <= asked.End && asked.Start <= o.At.End && len(o.Write) > 0 && sh.room.holds(o.Write) {
				out = append(out, codeAction{Title: diag.Visible("Write into the margin: " + o.Margin), Kind: quickFix, Edit: sh.room.edits(slices.Clone(o.Write))})
			}
		}
	}
	return out
}

// holds tells whether all edits are of texts as they are in the room.
func (r *room) holds(edits []diag.Edit) bool {
	x := r.names()
	return !slices.ContainsFunc(edits, func(e diag.Edit) bool { _, ok := x.paths[e.Span.File]; return !ok })
}

// allFixes are the cures of one text that are wanted and do not meet.
func (sh *sheet) allFixes(take func(diag.Fix) bool) (out []diag.Edit) {
	for _, d := range sh.result.Diags.Sorted() {
		for _, f := range d.Fixes {
			if !take(f) || len(f.Edits) == 0 || slices.ContainsFunc(f.Edits, func(e diag.Edit) bool {
				return e.Span.File != sh.text || slices.ContainsFunc(out, func(o diag.Edit) bool { return e.Span.Start <= o.Span.End && o.Span.Start <= e.Span.End })
			}) {
				continue
			}
			out = append(out, f.Edits...)
			break
		}
	}
	return out
}

// allow writes `allow CODE: reason` below the head of the block a finding stands in.
// An error cannot be allowed, and neither can a finding about an allow.
func (sh *sheet) allow(d diag.Diagnostic) (e diag.Edit, ok bool) {
	if d.Severity == diag.Error || strings.HasPrefix(d.Code, "E90") || check.Find(d.Code) == nil {
		return e, false
	}
	for _, b := range sh.file.Blocks() {
		if b.Span.Start > d.At.Span.Start || d.At.Span.End > b.Span.End {
			continue
		}
		line := sh.text.Position(b.Span.Start).Line
		if w, _, _ := strings.Cut(strings.ToLower(sh.text.LineSpan(line).Text()), " "); strings.TrimSuffix(w, ":") == "larder" || line == sh.text.Lines() {
			return e, false // a larder has no allow
		}
		next := sh.text.LineSpan(line + 1)
		indent := sh.text.Indent(line + 1)
		if indent == "" {
			indent = "  "
		}
		return diag.Edit{Span: sh.text.Span(next.Start, next.Start), Text: indent + "allow " + d.Code + ": say here why it is meant\n"}, true
	}
	return e, false
}

func firstUp(text string) string { return strings.TrimSuffix(diag.Sentence(text), ".") }
