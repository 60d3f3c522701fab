package desk

import (
	"encoding/json"
	"regexp"
	"slices"
	"strings"

	"tamis/compiler"
	"tamis/lang/diag"
)

// Advice that says word for word what to write is carried out too, once an editor asks
// for it: where it goes is tried, and it goes where the finding is gone and no other has
// come.

// offered are the forms of such advice. A test of compiler/check holds every rule to them.
var offered = regexp.MustCompile("^(?:write|did you mean) [\"`]([^\"`…]+)[\"`]\\??$")

// advice is a piece of advice about a finding, as an editor hands it back.
type advice struct {
	URI     string    `json:"uri"`
	Version int       `json:"version"`
	Code    string    `json:"code"`
	At      textRange `json:"at"`
	Write   string    `json:"write"`
}

// advised are the actions of a finding's advice, to be worked out when one is chosen.
func (sh *sheet) advised(d diag.Diagnostic, told []diagnostic) (out []codeAction) {
	for _, h := range d.Help {
		m := offered.FindStringSubmatch(h)
		if m == nil || slices.ContainsFunc(d.Fixes, func(f diag.Fix) bool {
			return slices.ContainsFunc(f.Edits, func(e diag.Edit) bool { return strings.Contains(e.Text, m[1]) })
		}) {
			continue
		}
		data := &advice{sh.doc.uri, sh.doc.version, d.Code, rangeOf(d.At.Span), m[1]}
		out = append(out, codeAction{Title: diag.Visible("Write `" + m[1] + "`"), Kind: quickFix, Diagnostics: told, Data: data})
	}
	return out
}

// resolveAction works out the edit of an action that was chosen.
func (s *server) resolveAction(raw json.RawMessage) (any, error) {
	action, err := read[codeAction](raw)
	if err != nil || action.Data == nil {
		return action, err
	}
	sh, err := s.sheet(action.Data.URI)
	if err != nil {
		return nil, err
	}
	if sh.doc.version != action.Data.Version {
		return nil, failed(contentModified, "the text has changed since")
	}
	for _, d := range sh.room.findings(sh.room.names().paths) {
		if d.At.Span.File != sh.text || d.Code != action.Data.Code || rangeOf(d.At.Span) != action.Data.At {
			continue
		}
		for _, e := range places(d, action.Data.Write) {
			if sh.mends(s, d, e) {
				action.Edit = sh.room.edits([]diag.Edit{e})
				return action, nil
			}
		}
	}
	return nil, failed(requestFailed, "where that goes is for you to say: write it in")
}

// places are where what is offered may go: in place of the finding, of its line, of the
// line without its margin; after the line when it is a margin.
func places(d diag.Diagnostic, offer string) (out []diag.Edit) {
	at := d.At.Span
	f := at.File
	line := f.LineSpan(f.Position(at.Start).Line)
	start := line.Start + len(line.Text()) - len(strings.TrimLeft(line.Text(), " \t-"))
	if strings.HasPrefix(offer, "|") {
		return []diag.Edit{{Span: f.Span(line.End, line.End), Text: " " + offer}}
	}
	out = []diag.Edit{{Span: at, Text: offer}, {Span: f.Span(start, line.End), Text: offer}}
	if bar := strings.Index(f.Text[start:line.End], " |"); bar >= 0 {
		out = append(out, diag.Edit{Span: f.Span(start, start+bar), Text: offer})
	}
	return out
}

// mends tells whether a finding is gone with an edit, and no error has come and no
// question of another kind.
func (sh *sheet) mends(s *server, d diag.Diagnostic, e diag.Edit) bool {
	text := sh.text.Text[:e.Span.Start] + e.Text + sh.text.Text[e.Span.End:]
	tree, err := sh.room.tree.Change(s.ctx, map[string]*string{sh.file.Path: &text})
	if err != nil {
		return false
	}
	had, has := map[string]int{}, map[string]int{}
	for o := range sh.result.Diags.All() {
		had[o.Code]++
	}
	for o := range compiler.Compile(s.ctx, tree, compiler.Options{NoPages: true, NoPlan: sh.room.serves}).Diags.All() {
		if has[o.Code]++; has[o.Code] > had[o.Code] && (o.Severity == diag.Error || had[o.Code] == 0 && o.Severity > diag.Hint) {
			return false
		}
	}
	return has[d.Code] < had[d.Code]
}
