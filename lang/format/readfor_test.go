package format_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/lang/diag"
	"tamis/lang/format"
	"tamis/lang/parse"
	"tamis/lang/source"
)

// tidied is a clean text in the common layout.
func tidied(t *testing.T, text string) string {
	t.Helper()
	out, found := format.Source(source.New("x.tamis", text))
	require.Empty(t, found, text)
	return string(out)
}

// What cooks write and the table has not is read where it has one meaning, and
// laid out in the words of the table.
func TestWhatIsReadIsTidied(t *testing.T) {
	step := "dish A\n  method\n    - Do it.\n      | %\n"
	line := "dish A\n  gather\n    2        leeks                             | %\n"
	menu := "menu A\n  %\n"
	dish := "dish A\n  %\n"
	for _, c := range []struct{ in, written, want string }{
		{step, "burner high", "ring high"},
		{step, "2 burners low", "2 rings low"},
		{step, "hob medium", "ring medium"},
		{step, "stove low", "ring low"},
		{step, "gas low", "ring low"},
		{step, "gas 4 | leave 20 min", "oven gas 4 | leave 20 min"},
		{step, "ring medium-high", "ring medium to high"},
		{step, "gas medium-low", "ring low to medium"},
		{step, "refrigerate 2 h", "stand 2 h, fridge"},
		{step, "chill overnight", "stand overnight, fridge"},
		{step, "chill 2 h, freezer", "stand 2 h, freezer"},
		{step, "hands-on 5 min", "work 5 min"},
		{step, "hands-off 40 min", "leave 40 min"},
		{step, "watch 6 min per batch", "watch 6 min per load"},
		{step, "stand 3 days, larder", "stand 3 days, cool place"},
		{step, "stand 3 days, cellar", "stand 3 days, cool place"},
		{step, "larder | leave 2 h", "cool place | leave 2 h"},
		{step, "after a pause", "only after a pause"},
		{step, "before a pause", "only before a pause"},
		{line, "from the store", "from the shop"},
		{line, "store-bought", "from the shop"},
		{line, "hands-on 5 min", "work 5 min"},
		{line, "keeps 2 days, cellar", "keeps 2 days, cool place"},
		{menu, "ready 2027-09-19 13:00", "on the table 2027-09-19 13:00"},
		{menu, "serve 2027-09-19 13:00", "on the table 2027-09-19 13:00"},
		{menu, "course Main\n    Soup, store-bought", "course Main\n    Soup, from the shop"},
		{menu, "course Main\n    Soup, from the store", "course Main\n    Soup, from the shop"},
		{dish, "serve 4 to 6", "serves 4 to 6"},
		{dish, "serves hot, within 5 min", "serve hot, within 5 min"},
		{dish, "takes 1 h, hands-on 20 min", "takes 1 h, work 20 min"},
		{dish, "keeps 3 days, larder", "keeps 3 days, cool place"},
	} {
		want := strings.ReplaceAll(c.in, "%", c.want)
		require.Equal(t, want, tidied(t, strings.ReplaceAll(c.in, "%", c.written)), c.written)
		require.Equal(t, want, tidied(t, want), c.want)
	}
}

// The same words are not guessed at where they could mean something else.
func TestWhatIsNotReadForAnother(t *testing.T) {
	for _, clause := range []string{"gas", "hob 2 h", "stove", "burner", "chill", "refrigerate well", "per batch"} {
		var list diag.List
		parse.File(source.New("x.tamis", "dish A\n  method\n    - Do it.\n      | "+clause+"\n"), &list)
		require.Len(t, list.Sorted(), 1, clause)
		require.Equal(t, diag.Error, list.Sorted()[0].Severity, clause)
	}
}

// A word of the first edition is answered with the word that says the same now, and
// the answer is a cure.
func TestFirstEdition(t *testing.T) {
	for was, now := range map[string]string{
		"menu A\n  course Main\n    Soup, bought\n":              "from the shop",
		"dish A\n  gather\n    2 leeks | bought\n":               "from the shop",
		"dish A\n  gather\n    200 g leeks | bought as 300 g\n":  "buy",
		"dish A\n  gather\n    200 g leeks | as bought\n":        "as sold",
		"dish A\n  gather\n    200 g leeks | net\n":              "trimmed",
		"dish A\n  gather\n    2 g salt | seasoning\n":           "scales less",
		"dish A\n  method\n    - Do it. | draws 200 ml stock\n":  "sets aside",
		"kitchen A\n  waits hot 10 min\n":                        "hold",
		"larder\n  leek | buy greengrocer\n":                     "from the",
		"series A\n  part 1 Soup\n    stand-ins 2 of Leek pot\n": "copies",
	} {
		var list diag.List
		f := source.New("x.tamis", was)
		parse.File(f, &list)
		found := list.Sorted()
		require.Len(t, found, 1, was)
		require.Contains(t, strings.Join(found[0].Help, " "), "`"+now+"`", was)
		require.Len(t, found[0].Fixes, 1, was)
		edit := found[0].Fixes[0].Edits[0]
		require.Equal(t, now, edit.Text)
		tidied(t, was[:edit.Span.Start]+edit.Text+was[edit.Span.End:])
	}
}
