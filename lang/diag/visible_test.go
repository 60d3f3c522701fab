package diag_test

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/lang/diag"
	"tamis/lang/source"
)

// What a terminal obeys: C0 and C1 controls (ECMA-48), the marks of direction
// (Unicode Standard Annex 9) and tag characters, which no one sees; from memory.
func TestVisible(t *testing.T) {
	for text, want := range map[string]string{
		"plain\n\tcrème":        "plain\n\tcrème",
		"a\x1b[2Jb":             "a<U+001B>[2Jb",
		"a\u009b31mb":           "a<U+009B>31mb",
		"a\x9b31mb":             "a<9B>31mb",
		"over\rwrite\b\x7f":     "over<U+000D>write<U+0008><U+007F>",
		"\u202eevil\u2066":      "<U+202E>evil<U+2066>",
		"a\U000e0041\U000e007f": "a<U+E0041><U+E007F>",
		"a\U000e0100":           "a<U+E0100>",
		"می\u200cخواهم":         "می\u200cخواهم",
	} {
		require.Equal(t, want, diag.Visible(text))
		var b bytes.Buffer
		w := diag.NewPlain(&b)
		for i := range len(text) { // a byte at a time
			_, err := w.Write([]byte{text[i]})
			require.NoError(t, err)
		}
		require.Equal(t, want, b.String())
	}
}

// Nothing hidden reaches a reader of findings, in any format, from any part.
func TestFindingsHideNothing(t *testing.T) {
	const evil = "x\x1b]0;t\x07\u202e\U000e0041\u009b\x9b"
	f := source.New("soup"+evil+".tamis", "dish "+evil+" A\n")
	d := diag.Diagnostic{
		Code: "N1", Message: evil, At: diag.Label{Span: f.Span(0, len(f.Text)-1), Text: evil}, Why: evil, Help: []string{evil},
		Related: []diag.Label{{Span: f.Span(0, 4), Text: evil}, {Text: evil}}, Fixes: []diag.Fix{{Title: evil, Edits: []diag.Edit{{Span: f.Span(0, 2), Text: evil}}}},
	}
	var text, j, sarif bytes.Buffer
	require.NoError(t, diag.WriteText(&text, []diag.Diagnostic{d}, diag.TextOptions{}))
	require.NoError(t, diag.WriteJSON(&j, []diag.Diagnostic{d}))
	require.NoError(t, diag.WriteSARIF(&sarif, []diag.Diagnostic{d}, nil))
	for _, got := range []string{text.String(), j.String(), sarif.String()} {
		require.False(t, strings.ContainsAny(got, "\x1b\x07\u202e\U000e0041\u009b"), "%q", got)
		require.Equal(t, got, strings.ToValidUTF8(got, "?"))
	}
	var back []map[string]any
	require.NoError(t, json.Unmarshal(j.Bytes(), &back))
	require.Contains(t, back[0]["message"], "\u202e\U000e0041", "it is the same text to a program")
}
