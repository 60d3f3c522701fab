package pdf_test

import (
	"bytes"
	"compress/zlib"
	"fmt"
	"io"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler/sheets"
	"tamis/render/pdf"
	"tamis/testdata/fixture"
)

// streams are the streams of a file, unpacked.
func streams(t *testing.T, file []byte) (out []string) {
	t.Helper()
	for _, m := range regexp.MustCompile(`(?s)/Filter /FlateDecode[^>]*>>\nstream\n`).FindAllIndex(file, -1) {
		z, err := zlib.NewReader(bytes.NewReader(file[m[1]:]))
		if err != nil {
			continue
		}
		b, err := io.ReadAll(z)
		if err == nil {
			out = append(out, string(b))
		}
	}
	return out
}

// ISO 32000-1, 14.7 and 14.8: a tagged document says so, every piece of a page
// is in the tree once, and what is in no part is furniture.
func TestPagesAreTagged(t *testing.T) {
	for _, opt := range []pdf.Options{{}, {Paper: pdf.Letter, Large: true}} {
		file := write(t, fixture.Supper(), opt)
		require.Contains(t, string(file), "/MarkInfo <</Marked true>>")
		require.Contains(t, string(file), "/DisplayDocTitle true")
		all := strings.Join(streams(t, file), "\n")
		for _, role := range []string{"Document", "Sect", "H1", "H2", "P", "L", "LI", "Lbl", "LBody", "Table", "TR", "TH", "TD", "Figure", "Link"} {
			require.Contains(t, all, "<</S/"+role+"/", role)
		}
		require.Contains(t, all, "/Scope/Column")
		begun := len(regexp.MustCompile(` BDC\n| BMC\n`).FindAllString(all, -1))
		require.Equal(t, begun, strings.Count(all, "EMC\n"), "all that is begun ends")
		pieces := len(regexp.MustCompile(`/MCID \d+>> BDC`).FindAllString(all, -1))
		back := 0
		for _, m := range regexp.MustCompile(`\d+\[((?:\d+ 0 R ?)*)\]`).FindAllStringSubmatch(all, -1) {
			back += strings.Count(m[1], " 0 R")
		}
		require.Positive(t, pieces)
		require.Equal(t, pieces, back, "the way back from every piece")
		annots := strings.Count(string(file), "/Subtype /Link")
		require.Equal(t, annots, strings.Count(all, "/Type/OBJR"), "every link is in the tree")
	}
}

// Words are kept apart where a line ends, or they are heard as one.
func TestASpaceStandsWhereALineEnds(t *testing.T) {
	doc := &sheets.Document{Title: "T", Sheets: []sheets.Sheet{{ID: "a", Title: "A", Blocks: []sheets.Block{
		&sheets.Prose{Paras: []sheets.Para{{Runs: []sheets.Run{{Text: strings.Repeat("wait ", 60)}}}}},
	}}}}
	all := strings.Join(streams(t, write(t, doc, pdf.Options{})), "\n")
	para := regexp.MustCompile(`(?s)/P <</MCID \d+>> BDC\n(.*?)EMC`).FindString(all)
	require.NotEmpty(t, para)
	said := ""
	for _, m := range regexp.MustCompile(`(?s)\(((?:\\.|[^\\)])*)\) Tj`).FindAllStringSubmatch(para, -1) {
		said += strings.ReplaceAll(m[1], "\x00", "")
	}
	require.Equal(t, strings.TrimSpace(strings.Repeat("wait ", 60)), said)
}

func TestTextThatRunsToTheLeftIsReadAsWritten(t *testing.T) {
	doc := &sheets.Document{Title: "T", Sheets: []sheets.Sheet{{ID: "a", Title: "שלום"}}}
	all := strings.Join(streams(t, write(t, doc, pdf.Options{Fonts: fixture.Fonts()})), "\n")
	require.Contains(t, all, "/ActualText <FEFF"+fmt.Sprintf("%04X%04X%04X%04X", 'ש', 'ל', 'ו', 'ם')+">")
}
