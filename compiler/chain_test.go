package compiler_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler"
	"tamis/compiler/sheets"
)

// The run sheet marks the critical chain before the time until which it is
// busy, and says what the mark means. The last of the chain is what the table
// waits for.
func TestRunSheetMarksTheChain(t *testing.T) {
	d := pages(t, supper, compiler.Options{Sheets: []sheets.Kind{sheets.RunSheet}})
	s := sheetOf(t, d, sheets.RunSheet, "")
	require.Contains(t, s.Facts, "• the critical chain: less than 5 min to spare from its first step to the table")
	var marked []string
	for _, r := range rows(s) {
		if strings.Contains(r, "• ") {
			marked = append(marked, r)
		}
	}
	require.NotEmpty(t, marked)
	for _, r := range marked {
		require.Regexp(t, `• \d\d:\d\d`, r)
	}
}
