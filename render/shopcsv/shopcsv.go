// Package shopcsv writes the shopping list of a document as comma-separated values (RFC
// 4180): a header, then a line for each thing to buy, in the words of the sheet.
package shopcsv

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"strings"

	"tamis/compiler/sheets"
	"tamis/render/runes"
)

// ErrNoList says that a document has no shopping list among its sheets.
var ErrNoList = errors.New("there is no shopping list among its sheets: take it with `--sheets shopping`")

// Write writes every table of the shopping list under one header. A series has its list twice,
// by day and by part: the first is written, for whoever adds up the lines buys each thing once.
func Write(w io.Writer, doc *sheets.Document) error {
	var head []string
	var rows [][]string
	for i := range doc.Sheets {
		if doc.Sheets[i].Kind != sheets.Shopping {
			continue
		}
		for _, b := range doc.Sheets[i].Blocks {
			if t, ok := b.(*sheets.Table); ok {
				head, rows = table(t.OffPaper(), head, rows)
			}
		}
		if head != nil {
			break
		}
	}
	if head == nil {
		return ErrNoList
	}
	c := csv.NewWriter(w)
	if err := c.WriteAll(append([][]string{head}, rows...)); err != nil {
		return fmt.Errorf("csv: %w", err)
	}
	return nil
}

// table adds the rows of a table. The first column is the group, which is the shop or the
// counter with the day; what stands small below a thing is a column of its own, and one to tick is none.
func table(t *sheets.Table, head []string, rows [][]string) ([]string, [][]string) {
	if head == nil {
		head = []string{"Where"}
		for _, c := range t.Columns {
			if shown(c) {
				head = append(head, c.Title)
			}
		}
		head = append(head, "Note")
	}
	for _, g := range t.Groups {
		for _, r := range g.Rows {
			where := g.Title
			if g.Note != "" {
				where += ", " + g.Note
			}
			row := []string{cellText(where)}
			var notes []string
			for i, cell := range r.Cells {
				if i < len(t.Columns) && shown(t.Columns[i]) {
					row = append(row, cellText(sheets.Words(cell.Runs)))
				}
				if len(cell.Sub) > 0 {
					notes = append(notes, runes.Clean(sheets.Words(cell.Sub)))
				}
			}
			for len(row) < len(head)-1 {
				row = append(row, "")
			}
			rows = append(rows, append(row, cellText(strings.Join(notes, "; "))))
		}
	}
	return head, rows
}

// cellText is a text that no spreadsheet takes for a formula: one that begins like it has an
// apostrophe before it (the usual cure, from memory).
func cellText(s string) string {
	s = runes.Clean(s)
	if s != "" && strings.ContainsRune("=+-@", rune(s[0])) {
		return "'" + s
	}
	return s
}

func shown(c sheets.Column) bool { return c.Kind != sheets.TickColumn && c.Kind != sheets.PencilColumn }
