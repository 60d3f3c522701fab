package diag

import (
	"bytes"
	"encoding/json"
	"io"

	"tamis/lang/source"
)

// The JSON of a finding. Lines and columns count from 1, columns in
// characters; offsets are bytes from 0, a byte order mark not counted.
type jsonFinding struct {
	Code     string      `json:"code"`
	Severity string      `json:"severity"`
	Message  string      `json:"message"`
	Place    *jsonPlace  `json:"place,omitempty"`
	Label    string      `json:"label,omitempty"`
	Related  []jsonLabel `json:"related,omitempty"`
	Why      string      `json:"why,omitempty"`
	Help     []string    `json:"help,omitempty"`
	Fixes    []jsonFix   `json:"fixes,omitempty"`
}

type jsonPlace struct {
	File  string       `json:"file"`
	Start jsonPosition `json:"start"`
	End   jsonPosition `json:"end"`
}

type jsonPosition struct {
	Line   int `json:"line"`
	Column int `json:"column"`
	Offset int `json:"offset"`
}

type jsonLabel struct {
	Place *jsonPlace `json:"place,omitempty"`
	Text  string     `json:"text"`
}

type jsonFix struct {
	Title string     `json:"title"`
	Safe  bool       `json:"safe"`
	Edits []jsonEdit `json:"edits"`
}

type jsonEdit struct {
	Place *jsonPlace `json:"place"`
	Text  string     `json:"text"`
}

// WriteJSON prints findings as one JSON array.
func WriteJSON(w io.Writer, list []Diagnostic) error {
	out := make([]jsonFinding, 0, len(list))
	for _, d := range list {
		j := jsonFinding{
			Code: d.Code, Severity: d.Severity.String(), Message: d.Message, Place: jsonSpan(d.At.Span),
			Label: d.At.Text, Why: d.Why, Help: d.Help,
		}
		for _, r := range d.Related {
			j.Related = append(j.Related, jsonLabel{jsonSpan(r.Span), r.Text})
		}
		for _, f := range d.Fixes {
			fix := jsonFix{Title: f.Title, Safe: f.Safe, Edits: []jsonEdit{}}
			for _, e := range f.Edits {
				fix.Edits = append(fix.Edits, jsonEdit{jsonSpan(e.Span), e.Text})
			}
			j.Fixes = append(j.Fixes, fix)
		}
		out = append(out, j)
	}
	return writeJSON(w, out)
}

// writeJSON prints a value in JSON that shows whatever stands in it.
func writeJSON(w io.Writer, v any) error {
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	if err := enc.Encode(v); err != nil {
		return err
	}
	_, err := w.Write(escaped(b.Bytes()))
	return err
}

func jsonSpan(s source.Span) *jsonPlace {
	if s.IsZero() {
		return nil
	}
	return &jsonPlace{s.File.Name, jsonAt(s.File, s.Start), jsonAt(s.File, s.End)}
}

func jsonAt(f *source.File, offset int) jsonPosition {
	p := f.Position(offset)
	return jsonPosition{p.Line, p.Column, offset}
}
