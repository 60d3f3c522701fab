package html_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler/sheets"
	"tamis/testdata/fixture"
)

func TestChartAndRunSheetSayWhenTheyAre(t *testing.T) {
	doc := fixture.Supper()
	root := read(t, write(t, doc))
	chart := 0
	for _, s := range root.all("svg") {
		if d := s.attr["data-day"]; d != "" {
			chart++
			require.Contains(t, []string{"2027-11-05", "2027-11-06"}, d)
			require.Regexp(t, `^\d+,[\d.]+( \d+,[\d.]+)+$`, s.attr["data-knots"])
		}
	}
	require.Positive(t, chart)
	table := &sheets.Table{Columns: []sheets.Column{{Title: "Time", Kind: sheets.ClockColumn}, {Title: "What", Weight: 1}}, Groups: []sheets.Group{{
		Title: "Saturday 6 November", Rows: []sheets.Row{{Cells: []sheets.Cell{{Runs: []sheets.Run{{Text: "17:40"}}}, {Runs: []sheets.Run{{Text: "Slice"}}}}}},
	}}}
	doc.Sheets = append(doc.Sheets, sheets.Sheet{ID: "when", Title: "When", Blocks: []sheets.Block{table, &sheets.Steps{Items: []sheets.StepItem{
		&sheets.Step{Number: 1, Margin: []string{"leave 35 to 40 min"}},
	}}}})
	root = read(t, write(t, doc))
	var rows []string
	for _, r := range root.all("tr") {
		if r.attr["data-at"] != "" {
			rows = append(rows, r.attr["data-at"])
		}
	}
	require.Contains(t, rows, "1060")
	found := false
	for _, l := range root.all("li") {
		found = found || l.attr["data-min"] == "35" && fixture.Squash(l.visible()) == "leave 35 to 40 min"
	}
	require.True(t, found)
}

// The script shows a cook what is theirs by what the cells say: of the column that is
// nobody's they say nothing. The clock is the kitchen's.
func TestBoardCellsSayWhoseTheyAre(t *testing.T) {
	doc := &sheets.Document{Title: "T", Zone: "Europe/London", Sheets: []sheets.Sheet{{ID: "w", Kind: sheets.Wall, Title: "Sunday 19 September", Blocks: []sheets.Block{
		&sheets.Board{Columns: []string{"Ana", "Jo", "By itself"}, Cooks: 2, Rows: []sheets.BoardRow{{At: "10:00", Cells: [][]sheets.Post{{{Words: "Stir"}}, {}, {{Words: "oven"}}}}}},
	}}}}
	page := write(t, doc)
	require.Contains(t, page, `data-zone="Europe/London"`)
	require.Equal(t, 2, strings.Count(page, ` data-cook="Ana"`), "its head and its cell")
	require.Equal(t, 2, strings.Count(page, ` data-cook="Jo"`))
	require.NotContains(t, page, `data-cook="By itself"`)
}

// Two runs of one link are one link: who hears the page hears it once.
func TestRunsOfOneLinkAreOneLink(t *testing.T) {
	doc := &sheets.Document{Title: "T", Sheets: []sheets.Sheet{{ID: "a", Title: "A", Blocks: []sheets.Block{&sheets.List{Items: [][]sheets.Run{
		{{Text: "G", Style: sheets.Strong, Link: "#a"}, {Text: "1", Style: sheets.Strong, Link: "#a"}, {Text: " 12:25"}},
	}}}}}}
	require.Contains(t, write(t, doc), `<a href="#a"><strong>G1</strong></a> 12:25`)
}
