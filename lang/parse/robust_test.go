package parse_test

import (
	"fmt"
	"math/rand"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"tamis/lang/ast"
	"tamis/lang/diag"
	"tamis/lang/effort"
	"tamis/lang/parse"
	"tamis/lang/source"
)

func codes(list []diag.Diagnostic) (out []string) {
	for _, d := range list {
		out = append(out, d.Code)
	}
	return out
}

func TestFilesThatAreNoText(t *testing.T) {
	require.Equal(t, []string{"N101"}, codes(read("\x00\x01dish A\n")))
	require.Equal(t, []string{"N101"}, codes(read("\xff\xfed\x00i\x00")))
	require.Equal(t, []string{"N101"}, codes(read(strings.Repeat("\x80\x81\xfe", 100))))
	require.Equal(t, []string{"N102"}, codes(read("dish Cr\xe8me\n  serves 6\n")))
	require.Empty(t, read(""))
	require.Empty(t, read("\ufeffdish A\r\n  serves 6\r\n"))
	require.Empty(t, read("\n\n# only a comment\n"))
}

// within fails when reading takes far too long.
func within(t *testing.T, limit time.Duration, what string, text string) (list []diag.Diagnostic) {
	t.Helper()
	effort.Within(t, limit, what, func() { list = read(text) })
	return list
}

func TestHugeFiles(t *testing.T) {
	effort.SkipUnlessLong(t)
	const limit = 30 * time.Second
	require.Equal(t, []string{"N107"}, codes(within(t, limit, "50 MB in a line", "dish A\n  by "+strings.Repeat("x ", 25<<20)+"\n")))
	require.Len(t, within(t, limit, "50 MB of bars", "dish A\n  method\n    - "+strings.Repeat("|", 50<<20)+"\n"), 1)
	require.Empty(t, within(t, limit, "100,000 steps", "dish A\n  method\n"+strings.Repeat("    - Stir. | work 1 min\n", 100_000)))
	require.Len(t, within(t, limit, "100,000 slips", "dish A\n  method\n"+strings.Repeat("    - Stir. | wrok 1 min\n", 100_000)), 100_000)
	require.Len(t, within(t, limit, "100,000 strays", strings.Repeat("nothing\n", 100_000)), 1)
	var deep strings.Builder
	deep.WriteString("dish A\n  method\n    - Stir\n")
	for i := range 4000 {
		deep.WriteString(strings.Repeat(" ", 5+i) + "on\n")
	}
	require.Empty(t, within(t, limit, "4,000 levels", deep.String()))
	bars := "dish A\n  method\n    - Stir\n" + strings.Repeat("      | ring low\n", 50_000) + strings.Repeat("      | oven 180 C\n", 50_000)
	require.Len(t, within(t, limit, "100,000 clauses", bars), 49_999)
	within(t, limit, "quotes", "dish A\n  gather\n"+strings.Repeat("    \""+strings.Repeat("a ", 1000)+"\n", 1000))
}

// A pasted text without its indentation is put right by its fix, and then
// means what it meant.
func TestLostIndentationIsRestored(t *testing.T) {
	text := harvest(t)
	text = strings.Replace(text, "      indented | bar", "    bar", 1) // depth within prose cannot come back
	var flat strings.Builder
	for _, l := range strings.Split(text, "\n") {
		flat.WriteString(strings.TrimLeft(l, " ") + "\n")
	}
	list := read(flat.String())
	require.Equal(t, []string{"N110"}, codes(list))
	require.Len(t, list[0].Fixes, 1)
	mended := apply(flat.String(), list[0].Fixes[0])
	want, got := tree(t, text), tree(t, mended)
	require.Empty(t, ast.Difference(want, got))

	var again diag.List
	lost := parse.File(source.New("x.tamis", flat.String()), &again)
	require.Empty(t, ast.Difference(want, lost), "the tree is whole even before the fix")
}

// A newer notation is said once; what is unknown is kept to the letter.
func TestNewerNotation(t *testing.T) {
	text := fmt.Sprintf("notation %d\ndish A\n  shimmers 6\n    # inside\n    much\n  serves 6\n  gather\n    2 onions | frozen in March\n", parse.Notation+1)
	var list diag.List
	f := parse.File(source.New("x.tamis", text), &list)
	require.Equal(t, []string{"N113"}, codes(list.Sorted()))
	require.False(t, list.HasErrors())
	require.Equal(t, parse.Notation+1, f.Notation)
	require.Equal(t, "shimmers 6\n    # inside\n    much", first[*ast.Bad](t, f).Text)
	require.IsType(t, &ast.Unread{}, first[*ast.Line](t, f).Clauses[0])
}

// A bad clause costs itself, a bad line itself, a bad field itself.
func TestRecovery(t *testing.T) {
	var list diag.List
	f := parse.File(source.New("x.tamis", "dish A\n  srves 6\n    deeper\n  gather\n    2 onions | wrk 5 min | optional\n    300 g\n    1 leek\n  method\n    - Chop. | wrk 5 min | ring high\n"), &list)
	require.Equal(t, []string{"N121", "N161", "Q110", "N161"}, codes(list.Sorted()))
	r := first[*ast.Recipe](t, f)
	require.Len(t, r.Items, 3)
	require.Equal(t, "srves 6\n    deeper", r.Items[0].(*ast.Bad).Text)
	g := first[*ast.Gather](t, f)
	require.Equal(t, "optional", g.Items[0].(*ast.Line).Clauses[1].Base().Word)
	require.Equal(t, "leek", g.Items[2].(*ast.Line).Name.Text)
	s := first[*ast.Step](t, f)
	require.Equal(t, "wrk 5 min", s.Clauses[0].(*ast.Unread).Text.Text)
	require.Equal(t, "high", s.Clauses[1].(*ast.Ring).Level)
}

// One slip gives one message, or nearly: a letter more or less, a line lost, a
// line moved by a blank, at random places of a text.
func TestOneSlipOneMessage(t *testing.T) {
	base := harvest(t)
	const rounds = 1500
	count := map[int]int{}
	for seed := range int64(rounds) {
		r := rand.New(rand.NewSource(seed))
		text := base
		i := r.Intn(len(text))
		lines := strings.SplitAfter(text, "\n")
		k := r.Intn(len(lines))
		switch r.Intn(4) {
		case 0:
			text = text[:i] + text[i+1:]
		case 1:
			text = text[:i] + string("abc ,|\"(:+-.\t1"[r.Intn(14)]) + text[i:]
		case 2:
			lines[k] = ""
			text = strings.Join(lines, "")
		case 3:
			lines[k] = " " + lines[k]
			text = strings.Join(lines, "")
		}
		n := 0
		for _, d := range read(text) {
			if d.Severity == diag.Error {
				n++
			}
		}
		count[n]++
	}
	require.GreaterOrEqual(t, count[0]+count[1], rounds*94/100, "%v", count)
	require.GreaterOrEqual(t, count[0]+count[1]+count[2], rounds*98/100, "%v", count)
	for n := range count {
		require.LessOrEqual(t, n, 6)
	}
}
