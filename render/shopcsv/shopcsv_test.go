package shopcsv_test

import (
	"bytes"
	"encoding/csv"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler/sheets"
	"tamis/render/shopcsv"
)

func cell(text, sub string) sheets.Cell {
	c := sheets.Cell{Runs: []sheets.Run{{Text: text}}}
	if sub != "" {
		c.Sub = []sheets.Run{{Text: sub}}
	}
	return c
}

// A line for each thing, whatever stands in its words; nothing is taken for a formula.
func TestList(t *testing.T) {
	list := &sheets.Table{
		Columns: []sheets.Column{{Kind: sheets.TickColumn}, {Title: "Buy", Kind: sheets.AmountColumn}, {Title: "What"}},
		Groups: []sheets.Group{
			{Title: "Greengrocer", Rows: []sheets.Row{{Cells: []sheets.Cell{{}, cell("2", ""), cell(`leeks, "long" ones`, "about 400 g")}}}},
			{Rows: []sheets.Row{{Cells: []sheets.Cell{{}, cell("", ""), cell("=SUM(A1)", "")}}}},
		},
	}
	doc := &sheets.Document{Sheets: []sheets.Sheet{{Kind: sheets.Mise, Blocks: []sheets.Block{list}}, {Kind: sheets.Shopping, Blocks: []sheets.Block{list}}}}
	var b bytes.Buffer
	require.NoError(t, shopcsv.Write(&b, doc))
	rows, err := csv.NewReader(&b).ReadAll()
	require.NoError(t, err)
	require.Equal(t, [][]string{{"Where", "Buy", "What", "Note"}, {"Greengrocer", "2", `leeks, "long" ones`, "about 400 g"}, {"", "", "'=SUM(A1)", ""}}, rows)

	// a series, by day and then by part: each thing once, with its day
	list.Groups[0].Note = "Friday 5 March"
	again := *list
	again.Columns = append(list.Columns[:3:3], sheets.Column{Title: "On"})
	doc.Sheets = append(doc.Sheets, sheets.Sheet{Kind: sheets.Shopping, Blocks: []sheets.Block{&again}})
	b.Reset()
	require.NoError(t, shopcsv.Write(&b, doc))
	rows, err = csv.NewReader(&b).ReadAll()
	require.NoError(t, err)
	require.Len(t, rows, 3)
	require.Equal(t, "Greengrocer, Friday 5 March", rows[1][0])

	doc.Sheets = doc.Sheets[:1]
	require.ErrorIs(t, shopcsv.Write(&b, doc), shopcsv.ErrNoList)
}
