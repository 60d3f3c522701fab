package compiler_test

import (
	"context"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler"
	"tamis/compiler/sheets"
	"tamis/compiler/timeline/planner"
)

// At the foot of the wall stand the likeliest slips with what to do then, as the plan
// worked them out: the same that `tamis plan` says at length.
func TestSlipsHangAtTheFoot(t *testing.T) {
	r := example(t, "harvest-lunch", compiler.Options{Sheets: []sheets.Kind{sheets.Wall}})
	var want []string
	for _, s := range planner.Slips(context.Background(), r.Timelines[0], true) {
		want = append(want, s.Brief)
		mark, _, _ := strings.Cut(s.Brief, " ")
		require.True(t, strings.HasPrefix(s.Words, mark+" ("), "%s: %s", s.Brief, s.Words)
		for _, at := range strings.Fields(strings.NewReplacer(",", "", ".", "").Replace(s.Brief)) {
			if strings.Contains(at, ":") && at[0] >= '0' && at[0] <= '9' {
				require.Contains(t, s.Words, at)
			}
		}
	}
	require.NotEmpty(t, want)
	var found []string
	for i := range r.Documents[0].Sheets {
		for _, row := range rows(&r.Documents[0].Sheets[i]) {
			if text, ok := strings.CutPrefix(row, "If it slips | "); ok {
				found = append(found, text)
			}
		}
	}
	require.Equal(t, []string{strings.Join(want, "; ")}, found, "once, on the day of serving")
}

// Loose fruit that is bought for the table has no label to read; cheese has.
func TestLooseFruitHasNoLabel(t *testing.T) {
	text := "menu Supper\n  covers 4\n  on the table 2027-05-02 19:00\n  course Main\n    Pot\n  course Fruit, 30 min after Main\n    Clementines, from the shop\n    Cheese, from the shop\n\ndish Pot\n  serves 4\n  gather\n    600 g leeks\n  method\n    - Stew the leeks. | ring low | leave 20 min\n"
	words := compiled(t, tried{text: text}).words(sheets.Wall)
	require.Contains(t, words, "Read the label Cheese")
	require.NotContains(t, words, "label Clementines")
}
