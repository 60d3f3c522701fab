package page

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler/sheets"
	"tamis/render/draw"
)

// A spare row is set where there is room for it, and left out where it would cost a
// page; the rows about it stay.
func TestASpareRowCostsNoPage(t *testing.T) {
	lay := func(rows int, spare bool) (pages int, words string) {
		foot := &sheets.Table{Columns: []sheets.Column{{Kind: sheets.TextColumn, Weight: 1}}, Groups: []sheets.Group{{}}}
		add := func(text string, spare bool) {
			foot.Groups[0].Rows = append(foot.Groups[0].Rows, sheets.Row{Cells: []sheets.Cell{{Runs: []sheets.Run{{Text: text}}}}, Spare: spare})
		}
		for i := range rows {
			add(fmt.Sprintf("row %d", i), false)
		}
		add("slips", spare)
		doc := &sheets.Document{Title: "T", Sheets: []sheets.Sheet{{ID: "a", Title: "Wall", Kind: sheets.Wall, Blocks: []sheets.Block{foot}}}}
		book := Lay(doc, Options{})
		for _, p := range book.Pages {
			for _, o := range p.Ops {
				if x, ok := o.(*draw.Text); ok {
					words += x.Str + "\n"
				}
			}
		}
		require.Equal(t, rows, strings.Count(words, "row "))
		return len(book.Pages), words
	}
	full := 1
	for { // as many rows as one page holds
		if n, _ := lay(full, false); n > 1 {
			break
		}
		full++
	}
	pages, words := lay(full-1, true)
	require.Equal(t, 1, pages)
	require.Contains(t, words, "slips")
	pages, words = lay(full, true)
	require.Equal(t, 1, pages)
	require.NotContains(t, words, "slips")
	pages, words = lay(full+1, true)
	require.Equal(t, 2, pages, "a page that is begun anyhow has room")
	require.Contains(t, words, "slips")
}
