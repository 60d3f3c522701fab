package text

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler/sheets"
	"tamis/testdata/fixture"
)

func write(t *testing.T, doc *sheets.Document, columns int) string {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, Write(&b, doc, Options{Width: columns}))
	return b.String()
}

// parts is the text of each sheet.
func parts(s string, columns int) []string {
	rule := strings.Repeat("=", columns) + "\n"
	var out []string
	for _, p := range strings.Split(s, "\n\n\n"+rule)[1:] {
		out = append(out, strings.ReplaceAll(p, rule, ""))
	}
	return out
}

func TestEveryFieldIsInTheTextAndNoneIsSplitOutOfOrder(t *testing.T) {
	doc := fixture.Supper()
	for _, columns := range []int{80, 60, 120} {
		sheetTexts := parts(write(t, doc, columns), columns)
		require.Len(t, sheetTexts, len(doc.Sheets))
		for i, s := range sheetTexts {
			s = strings.ReplaceAll(s, " <https://example.org/hay>", "")
			flat := strings.Join(strings.Fields(s), "")
			for _, f := range fixture.Fields(doc, i) {
				if !f.Split {
					require.Contains(t, flat, strings.ReplaceAll(f.Text, " ", ""), "%s at %d columns", doc.Sheets[i].ID, columns)
					continue
				}
				for _, w := range strings.Fields(f.Text) {
					require.Contains(t, flat, w, "%s at %d columns", doc.Sheets[i].ID, columns)
				}
			}
		}
	}
}

func TestLinesKeepTheirWidth(t *testing.T) {
	for seed := range uint64(60) {
		for _, columns := range []int{40, 80} {
			for _, l := range strings.Split(write(t, fixture.Random(seed), columns), "\n") {
				require.LessOrEqual(t, width(l), columns, "seed %d: %q", seed, l)
				require.Equal(t, strings.TrimRight(l, " "), l, "no blanks at the end")
			}
		}
	}
}

func TestFiguresLineUp(t *testing.T) {
	out := write(t, fixture.Supper(), 80)
	at := func(s string, word string) int {
		for _, l := range strings.Split(out, "\n") {
			if strings.Contains(l, s) {
				return width(l[:strings.Index(l, word)])
			}
		}
		return -1
	}
	require.Equal(t, at("double cream", "ml  "), at("grated horseradish", "tbsp"), "units begin in one column")
	require.Equal(t, at("double cream", "double"), at("flaky salt", "flaky"), "names begin in one column")
}

func TestWidth(t *testing.T) {
	require.Equal(t, 4, width("crè\u0300me")-1)
	require.Equal(t, 4, width("梨タ"))
	require.Equal(t, []string{"one two", "three"}, wrap("one two three", 7))
	require.Equal(t, []string{"abcd", "efgh", "i"}, wrap("abcdefghi", 4))
	require.Empty(t, wrap("  ", 10))
}

func TestMarksOfDishesAndBases(t *testing.T) {
	out := write(t, fixture.Supper(), 80)
	require.Contains(t, out, "[A] Smoked trout on rye crisps")
	require.Contains(t, out, "(D) Cider stock")
	require.Contains(t, out, "the notes on hay <https://example.org/hay>")
}

func TestEmptyDocument(t *testing.T) {
	require.Contains(t, write(t, &sheets.Document{}, 0), "Nothing to print.")
}

func TestHostileTextStaysOnItsLine(t *testing.T) {
	doc := &sheets.Document{Title: "a\x1b[31m\nb", Sheets: []sheets.Sheet{{Title: "\x07\xff", Blocks: []sheets.Block{&sheets.Heading{Text: "x\r\ny"}}}}}
	out := write(t, doc, 80)
	require.NotContains(t, out, "\x1b", "no escape reaches the terminal")
	require.NotContains(t, out, "\x07")
	require.NotContains(t, out, "\r")
}

// A table of more columns than the line has room for breaks no word: each row is a line,
// what names it and then what else it says.
func TestAWideTableIsWrittenRowByRow(t *testing.T) {
	tb := &sheets.Table{Columns: []sheets.Column{{Kind: sheets.MarkColumn}, {Title: "Dish", Kind: sheets.TextColumn, Weight: 5}}, Groups: []sheets.Group{{Title: "Main"}}}
	row := sheets.Row{Cells: []sheets.Cell{{Runs: []sheets.Run{{Text: "A"}}}, {Runs: []sheets.Run{{Text: "Chicken satay"}}}}}
	for i, name := range []string{"Celery", "Crustaceans", "Egg", "Fish (salmon)", "Milk", "Mustard", "Peanut", "Sesame", "Sulphites", "Wheat"} {
		tb.Columns = append(tb.Columns, sheets.Column{Title: name, Kind: sheets.TextColumn})
		c := sheets.Cell{}
		if i%3 == 0 {
			c.Runs = []sheets.Run{{Text: strings.ToLower(name)}}
		}
		if i == 1 {
			c.Runs = []sheets.Run{{Text: "label"}}
		}
		row.Cells = append(row.Cells, c)
	}
	tb.Columns = append(tb.Columns, sheets.Column{Title: "Checked by", Kind: sheets.PencilColumn, Weight: 2})
	tb.Groups[0].Rows = []sheets.Row{row}
	var b bytes.Buffer
	require.NoError(t, Write(&b, &sheets.Document{Title: "T", Sheets: []sheets.Sheet{{ID: "a", Title: "Allergens", Blocks: []sheets.Block{tb}}}}, Options{}))
	require.Contains(t, b.String(), "A Chicken satay\n  celery; Crustaceans: label; fish (salmon); peanut; wheat; Checked by ________\n")
}
