package diag_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/lang/diag"
	"tamis/lang/source"
)

// print writes one finding about [from,to) of a text as a person sees it.
func show(t *testing.T, text, marked string, opt diag.TextOptions, more func(*diag.Diagnostic, *source.File)) string {
	t.Helper()
	f := source.New("soup.tamis", text)
	at := strings.Index(text, marked)
	require.GreaterOrEqual(t, at, 0)
	d := diag.Diagnostic{Code: "N999", Severity: diag.Error, Message: "this is wrong", At: diag.Label{Span: f.Span(at, at+len(marked)), Text: "here"}}
	if more != nil {
		more(&d, f)
	}
	var b bytes.Buffer
	require.NoError(t, diag.WriteText(&b, []diag.Diagnostic{d}, opt))
	return b.String()
}

func TestTextOfOneFinding(t *testing.T) {
	got := show(t, "dish A\n  gather\n    2 onions | wrok 5 min\n", "wrok", diag.TextOptions{}, func(d *diag.Diagnostic, f *source.File) {
		d.Related = []diag.Label{{Span: f.Span(0, 6), Text: "in this dish"}}
		d.Why = "because it is"
		d.Help = []string{"write `work`"}
	})
	require.Equal(t, `error[N999] soup.tamis:3:16
  this is wrong
    3 |     2 onions | wrok 5 min
      |                ^^^^ here
  see  soup.tamis:1:1 in this dish
    1 | dish A
      | ------
  why  because it is
  try  write `+"`work`\n", got)
}

func TestTextKeepsColumns(t *testing.T) {
	lines := func(s string) []string { return strings.Split(s, "\n") }

	got := lines(show(t, "\t\t2 eggs\tbeaten\n", "beaten", diag.TextOptions{}, nil))
	require.Equal(t, "    1 |         2 eggs  beaten", got[2], "tabs are printed every four columns")
	require.Equal(t, strings.Index(got[2], "beaten"), strings.Index(got[3], "^^^^^^"))

	got = lines(show(t, "200 g 味噌, red\n", "red", diag.TextOptions{}, nil))
	require.Equal(t, "      |             ^^^ here", got[3], "wide letters take two columns")

	got = lines(show(t, "200 g cre\u0300me\n", "me", diag.TextOptions{}, nil))
	require.Equal(t, "      |          ^^ here", got[3], "an accent takes none")

	got = lines(show(t, "by Ana\x1b[31m Roe\u202e\n", "Roe", diag.TextOptions{}, nil))
	require.Equal(t, "    1 | by Ana<U+001B>[31m Roe<U+202E>", got[2], "nothing that a terminal obeys gets through")

	got = lines(show(t, "ab\n", "b", diag.TextOptions{}, func(d *diag.Diagnostic, f *source.File) { d.At.Span = f.Span(2, 2) }))
	require.Equal(t, "      |   ^ here", got[3], "an empty span is one mark")
}

func TestTextCutsLongLines(t *testing.T) {
	text := strings.Repeat("left ", 100) + "MIDDLE" + strings.Repeat(" right", 100)
	got := strings.Split(show(t, text, "MIDDLE", diag.TextOptions{Width: 60}, nil), "\n")
	require.LessOrEqual(t, len([]rune(got[2])), 62)
	require.Contains(t, got[2], "MIDDLE")
	require.True(t, strings.HasSuffix(got[2], "…"))
	col := func(s, part string) int { return len([]rune(s[:strings.Index(s, part)])) }
	require.Equal(t, col(got[2], "MIDDLE"), col(got[3], "^^^^^^"))
	for _, l := range strings.Split(show(t, "x", "x", diag.TextOptions{Width: 50}, func(d *diag.Diagnostic, _ *source.File) {
		d.Help = []string{strings.Repeat("many words ", 30)}
	}), "\n") {
		require.LessOrEqual(t, len(l), 50)
	}
}

func TestTextOfSeveralLines(t *testing.T) {
	got := show(t, "dish A\n  serves 6\n  tested 4\n  makes 2 pies\n", "A\n  serves 6\n  tested 4\n  makes", diag.TextOptions{}, nil)
	require.Equal(t, `error[N999] soup.tamis:1:6
  this is wrong
    1 | dish A
      |      ^
      …
    4 |   makes 2 pies
      |   ^^^^^ here
`, got)
}

func TestColourAndPlace(t *testing.T) {
	require.Contains(t, show(t, "x", "x", diag.TextOptions{Colour: true}, nil), "\x1b[1;31merror[N999]\x1b[0m")
	require.NotContains(t, show(t, "x", "x", diag.TextOptions{}, nil), "\x1b")
	got := show(t, "x", "x", diag.TextOptions{}, func(d *diag.Diagnostic, _ *source.File) { d.At.Span = source.Span{} })
	require.Equal(t, "error[N999]\n  this is wrong\n", got)
}

func TestJSON(t *testing.T) {
	f := source.New("soup.tamis", "dish A\n  sérves <6>\n")
	var list diag.List
	list.Errorf("N121", f.Span(9, 16), "`%s` is wrong", "sérves").WithHelp("write it").Because("so").
		See(f.Span(0, 4), "there").Replace("mend", true, f.Span(9, 16), "serves")
	var b bytes.Buffer
	require.NoError(t, diag.WriteJSON(&b, list.Sorted()))
	require.Contains(t, b.String(), "`sérves` is wrong", "letters stay letters")
	var got []map[string]any
	require.NoError(t, json.Unmarshal(b.Bytes(), &got))
	require.Len(t, got, 1)
	require.Equal(t, "error", got[0]["severity"])
	place := got[0]["place"].(map[string]any)
	require.Equal(t, "soup.tamis", place["file"])
	require.Equal(t, map[string]any{"line": 2.0, "column": 3.0, "offset": 9.0}, place["start"])
	require.Equal(t, map[string]any{"line": 2.0, "column": 9.0, "offset": 16.0}, place["end"])
	fix := got[0]["fixes"].([]any)[0].(map[string]any)
	require.Equal(t, true, fix["safe"])

	b.Reset()
	require.NoError(t, diag.WriteJSON(&b, nil))
	require.Equal(t, "[]\n", b.String())
}

func TestDistance(t *testing.T) {
	for _, c := range []struct {
		a, b string
		n    int
	}{{"", "", 0}, {"", "abc", 3}, {"work", "work", 0}, {"wrok", "work", 1}, {"kitten", "sitting", 3}, {"ca", "abc", 3}, {"crème", "creme", 1}} {
		require.Equal(t, c.n, diag.Distance(c.a, c.b), "%s %s", c.a, c.b)
		require.Equal(t, c.n, diag.Distance(c.b, c.a), "%s %s", c.b, c.a)
	}
}

func TestNearest(t *testing.T) {
	words := []string{"work", "watch", "leave", "rest", "meanwhile", "never above"}
	for word, want := range map[string]string{
		"wrok": "work", "WROK": "work", "meanwile": "meanwhile", "laeve": "leave", "never abov": "never above",
		"gently": "", "w": "", "": "", "bake": "", strings.Repeat("work", 50): "",
	} {
		require.Equal(t, want, diag.Nearest(word, words), word)
	}
}

func TestSortedDropsRepeats(t *testing.T) {
	f := source.New("a", "abc")
	var list diag.List
	list.Errorf("N2", f.Span(2, 3), "later")
	list.Errorf("N1", f.Span(0, 1), "first")
	list.Errorf("N1", f.Span(0, 1), "first")
	got := list.Sorted()
	require.Len(t, got, 2)
	require.Equal(t, "first", got[0].Message)
	var none *diag.List
	none.Errorf("N1", f.Span(0, 1), "thrown away").WithHelp("quietly")
	require.Zero(t, none.Len())
}

// However many findings there are, they stand one after another, parted by an empty line.
func TestTextOfManyFindings(t *testing.T) {
	f := source.New("soup.tamis", strings.Repeat("a line\n", 300))
	for _, n := range []int{0, 1, 127, 128, 129, 300, 128*64 + 1} {
		var list []diag.Diagnostic
		var want []string
		for i := range n {
			one := diag.Diagnostic{Code: "N999", Severity: diag.Severity(i % 4), Message: fmt.Sprintf("number %d", i), At: diag.Label{Span: f.Span(i%2000, i%2000+1)}}
			list = append(list, one)
			if n < 400 || i%1000 < 3 {
				var b bytes.Buffer
				require.NoError(t, diag.WriteText(&b, []diag.Diagnostic{one}, diag.TextOptions{}))
				want = append(want, b.String())
			}
		}
		var all bytes.Buffer
		require.NoError(t, diag.WriteText(&all, list, diag.TextOptions{}))
		if n < 400 {
			require.Equal(t, strings.Join(want, "\n"), all.String(), n)
			continue
		}
		rest := all.String()
		for _, w := range want {
			_, after, found := strings.Cut(rest, w)
			require.True(t, found, "in order")
			rest = after
		}
	}
}
