package pdf_test

import (
	"bytes"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"tamis/compiler/sheets"
	"tamis/lang/effort"
	"tamis/render/draw"
	"tamis/render/page"
	"tamis/render/pdf"
	"tamis/testdata/fixture"
)

func write(t *testing.T, doc *sheets.Document, opt pdf.Options) []byte {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, pdf.Write(&b, doc, opt))
	return b.Bytes()
}

func TestSameBytesTwice(t *testing.T) {
	for _, opt := range []pdf.Options{{}, {Paper: pdf.Letter, Large: true}} {
		require.True(t, bytes.Equal(write(t, fixture.Supper(), opt), write(t, fixture.Supper(), opt)))
	}
}

func TestFileHasPagesTitleLanguageAndLinks(t *testing.T) {
	out := string(write(t, fixture.Supper(), pdf.Options{}))
	require.True(t, strings.HasPrefix(out, "%PDF-"))
	require.Contains(t, out, "/Lang (en-GB)")
	require.Contains(t, out, "/Outlines")
	require.Contains(t, out, "https://example.org/hay")
	book := page.Lay(fixture.Supper(), pdf.Options{})
	count := regexp.MustCompile(`/Count (\d+)\n/MediaBox`).FindStringSubmatch(out)
	require.NotNil(t, count)
	n, err := strconv.Atoi(count[1])
	require.NoError(t, err)
	require.Equal(t, len(book.Pages), n)
	require.Contains(t, out, "/MediaBox [0 0 841.89 595.28]", "the chart lies on its side")
	require.Contains(t, out, "/FontFile2", "faces are embedded")
}

func TestLetterPaper(t *testing.T) {
	out := string(write(t, fixture.Supper(), pdf.Options{Paper: pdf.Letter}))
	require.Contains(t, out, "/MediaBox [0 0 612.00 792.00]")
}

func TestAddressesOfOtherKindsAreNotFollowed(t *testing.T) {
	doc := &sheets.Document{Title: "T", Sheets: []sheets.Sheet{{ID: "a", Title: "A", Blocks: []sheets.Block{
		&sheets.Prose{Paras: []sheets.Para{{Runs: []sheets.Run{
			{Text: "no", Link: "javascript:alert(1)"},
			{Text: "nor", Link: "file:///etc/passwd"},
			{Text: "lost", Link: "#nowhere"},
			{Text: "yes", Link: "https://example.org/a(b)\\c"},
		}}}},
	}}}}
	out := string(write(t, doc, pdf.Options{}))
	require.NotContains(t, out, "javascript:")
	require.NotContains(t, out, "/etc/passwd")
	require.Contains(t, out, "https://example.org/a")
}

func TestMissingCharactersAreReturned(t *testing.T) {
	doc := &sheets.Document{Title: "Pear 🍐 and 梨, pear again 🍐", Sheets: []sheets.Sheet{{ID: "a", Title: "Щи"}}}
	var b bytes.Buffer
	missing, err := pdf.Print(&b, doc, pdf.Options{})
	require.NoError(t, err)
	require.Equal(t, []rune("梨🍐"), missing)
}

// What a font of the writer's prints can be taken out of the PDF again, as it
// is read: the map of characters is the identity, and of the font only what is
// used goes in.
func TestAFontOfTheWritersIsEmbedded(t *testing.T) {
	doc := &sheets.Document{Title: "梨 pear, חומוס", Sheets: []sheets.Sheet{{ID: "a", Title: "שלום"}}}
	opt := pdf.Options{Fonts: fixture.Fonts()}
	var b bytes.Buffer
	missing, err := pdf.Print(&b, doc, opt)
	require.NoError(t, err)
	require.Empty(t, missing)
	require.Contains(t, b.String(), "/BaseFont /utf8own1")
	require.True(t, bytes.Equal(b.Bytes(), write(t, doc, pdf.Options{Fonts: fixture.Fonts()})), "the same bytes, from the font opened anew")
	without := write(t, doc, pdf.Options{})
	require.NotContains(t, string(without), "own1")
	require.Less(t, b.Len()-len(without), 6000)
	latin := write(t, &sheets.Document{Title: "Pear", Sheets: []sheets.Sheet{{ID: "a", Title: "A"}}}, opt)
	require.NotContains(t, string(latin), "own1", "a font that is not needed stays out")
}

func TestVeryLongTables(t *testing.T) {
	tb := &sheets.Table{Columns: []sheets.Column{{Kind: sheets.TickColumn}, {Title: "Buy", Kind: sheets.AmountColumn}, {Title: "What", Weight: 1}}}
	g := sheets.Group{Title: "Everything"}
	for range 5000 {
		g.Rows = append(g.Rows, sheets.Row{Cells: []sheets.Cell{{}, {Runs: []sheets.Run{{Text: "450 g"}}}, {Runs: []sheets.Run{{Text: "green beans"}}}}})
	}
	tb.Groups = []sheets.Group{g}
	doc := &sheets.Document{Title: "T", Sheets: []sheets.Sheet{{ID: "a", Kind: sheets.Shopping, Title: "Shopping", Blocks: []sheets.Block{tb}}}}
	effort.Within(t, 10*time.Second, "5,000 rows", func() { require.NotEmpty(t, write(t, doc, pdf.Options{})) })
}

func TestEmptyDocuments(t *testing.T) {
	for _, doc := range []*sheets.Document{
		{},
		{Sheets: []sheets.Sheet{{}}},
		{Sheets: []sheets.Sheet{{Blocks: []sheets.Block{
			&sheets.Heading{}, &sheets.Prose{}, &sheets.Table{}, &sheets.Steps{}, &sheets.Chart{}, &sheets.Cautions{}, &sheets.List{},
			&sheets.Steps{Items: []sheets.StepItem{&sheets.Step{}, &sheets.Break{}}}, &sheets.Table{Columns: []sheets.Column{{}}},
			&sheets.Chart{Panels: []sheets.Panel{{}}}, &sheets.List{Items: [][]sheets.Run{nil}}, &sheets.Prose{Paras: []sheets.Para{{}}},
		}}}},
	} {
		require.NotEmpty(t, write(t, doc, pdf.Options{}))
	}
}

// every text of a document, one after the other, is replaced by s.
func poisoned(s string) *sheets.Document {
	runs := []sheets.Run{{Text: s}, {Text: s, Style: sheets.Amount, Link: s}, {Text: s, Style: sheets.Thing, Link: "https://" + s}}
	cell := sheets.Cell{Runs: runs, Sub: runs}
	var cols []sheets.Column
	var row sheets.Row
	for k := range 6 {
		cols = append(cols, sheets.Column{Title: s, Kind: sheets.ColumnKind(k), Weight: k % 2})
		row.Cells = append(row.Cells, cell)
	}
	return &sheets.Document{
		Title: s, Covers: s, When: s, Place: s, By: s, Language: s, Revision: s, Dishes: []sheets.Mark{{Letter: s, Name: s}},
		Sheets: []sheets.Sheet{{ID: s, Kind: sheets.Overview, Title: s, Letter: s, Facts: []string{s, s}, Contents: true, Blocks: []sheets.Block{
			&sheets.Heading{Text: s, Note: s},
			&sheets.Prose{Paras: []sheets.Para{{Kind: sheets.Item, Runs: runs}, {Kind: sheets.Subhead, Runs: runs}}},
			&sheets.Table{Columns: cols, Groups: []sheets.Group{{Title: s, Note: s, Rows: []sheets.Row{row, row}}}},
			&sheets.Steps{Items: []sheets.StepItem{
				&sheets.Step{Number: 1, Clock: s, Who: s, When: s, Takes: []sheets.Take{{Amount: s, Name: s, Note: s, Link: s}}, Runs: runs, Margin: []string{s}, Moments: []sheets.Moment{{At: s, Runs: runs, Margin: []string{s}}}},
				&sheets.Break{Text: s},
			}},
			&sheets.Chart{Text: s, Panels: []sheets.Panel{{Title: s, End: 60, Flags: []sheets.Flag{{At: 30, Label: s}}, Lanes: []sheets.Lane{{Name: s, Bars: []sheets.Bar{{End: 20, Letter: s, Label: s, Kind: sheets.BarKind(s)}}}}}}},
			&sheets.Cautions{Items: []sheets.Caution{{Text: s, Source: s}}},
			&sheets.List{Tick: true, Items: [][]sheets.Run{runs}},
		}}},
	}
}

func FuzzText(f *testing.F) {
	for _, s := range []string{
		"", "450 g", "👩‍🍳", "\xff\xfe", "a\x00b", "\u202e", "\U0010FFFF", "\ufffe", "ﷺ", "עברית", "梨のタルト", "e\u0301", "(unbalanced\\", ") Tj ET",
		strings.Repeat("x", 500), strings.Repeat("word ", 100), "\u00a0\u00a0", "\n\n", "-", "–", "9–", "½½½",
	} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		if len(s) > 800 {
			return
		}
		require.NotPanics(t, func() { write(t, poisoned(s), pdf.Options{Large: len(s)%2 == 0}) })
	})
}

// Half a second of processor time, the collector's included; the least of five.
func TestFiftySheetsInHalfASecond(t *testing.T) {
	doc := fixture.Supper()
	for len(doc.Sheets) < 50 {
		doc.Sheets = append(doc.Sheets, fixture.Supper().Sheets...)
	}
	doc.Sheets = doc.Sheets[:50]
	write(t, fixture.Supper(), pdf.Options{}) // the faces are read once
	best := time.Hour
	for range 5 {
		took, known := effort.Of(func() { write(t, doc, pdf.Options{}) })
		if !known {
			t.Skip("this system does not say how long work took")
		}
		best = min(best, took)
	}
	require.Less(t, best, 500*time.Millisecond)
	t.Logf("fifty sheets in %v of processor time", best)
}

func BenchmarkFiftySheets(b *testing.B) {
	doc := fixture.Supper()
	for len(doc.Sheets) < 50 {
		doc.Sheets = append(doc.Sheets, fixture.Supper().Sheets...)
	}
	doc.Sheets = doc.Sheets[:50]
	for b.Loop() {
		var out bytes.Buffer
		if err := pdf.Write(&out, doc, pdf.Options{}); err != nil {
			b.Fatal(err)
		}
	}
}

func TestHostileTextStaysInsideTheMargins(t *testing.T) {
	for i, s := range []string{strings.Repeat("x", 900), strings.Repeat("word ", 200), "👩‍🍳\x00\xff", strings.Repeat("½ ", 90)} {
		options := []pdf.Options{{Large: true}, {Light: true}}
		for _, p := range page.Papers() {
			options = append(options, pdf.Options{Paper: p})
		}
		for k, opt := range options {
			if !effort.Long() && k%4 != i {
				continue // each option meets one of the texts, each text some options
			}
			for n, p := range page.Lay(poisoned(s), opt).Pages {
				for _, o := range p.Ops {
					w, ok := o.(*draw.Text)
					if !ok {
						continue
					}
					top, bottom := w.Span()
					inside := w.X >= p.Area.X-1 && w.X+w.W <= p.Area.X+p.Area.W+1 && top >= p.Area.Y-1 && bottom <= p.Area.Y+p.Area.H+1
					require.True(t, inside, "%.20q %+v page %d: %+v in %+v", s, opt, n+1, *w, p.Area)
				}
			}
		}
	}
}
