package html_test

import (
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
