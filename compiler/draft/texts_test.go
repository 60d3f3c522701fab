package draft_test

import (
	"context"
	"encoding/csv"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tamis/compiler/draft"
	"tamis/compiler/larder"
	"tamis/compiler/load"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
	"tamis/lang/format"
	"tamis/lang/prose"
	"tamis/lang/quantity"
	"tamis/lang/source"
)

// got is what a draft comes to when it is read as any file is.
type got struct {
	text   string
	amount []string // of every gathered line: "2 pints", with its words behind a bar
	lines  []string
	times  []quantity.Span
	errors []diag.Diagnostic
}

// read resolves a draft: what its margins say and what its sentences offer are its times.
func read(t require.TestingT, text string) got {
	tree, err := load.Texts(context.Background(), ".", map[string]*string{"draft.tamis": &text})
	require.NoError(t, err)
	diags := &diag.List{}
	m := resolve.Build(tree, diags)
	out := got{text: text}
	for _, d := range tree.Diags.Sorted() {
		if d.Severity == diag.Error {
			out.errors = append(out.errors, d)
		}
	}
	for _, r := range m.Recipes {
		for _, l := range r.Lines {
			whole := l.Span.Text()
			out.lines = append(out.lines, whole)
			a, _, _ := quantity.ReadAmount(whole, quantity.Options{})
			out.amount = append(out.amount, a.String())
		}
		for _, s := range r.Steps {
			for i := range s.Phases {
				out.times = append(out.times, spans(s.Phases[i])...)
			}
			if s.StartBefore != nil {
				out.times = append(out.times, quantity.Span{Low: *s.StartBefore, High: *s.StartBefore})
			}
		}
	}
	for l := range strings.Lines(text) {
		if rest, ok := strings.CutPrefix(strings.TrimSpace(l), "takes "); ok {
			out.times = append(out.times, said(rest)...)
		}
	}
	return out
}

func spans(s resolve.Spell) (out []quantity.Span) {
	for _, sp := range []*quantity.Span{s.Fixed, s.Per, s.Every} {
		if sp != nil {
			out = append(out, *sp)
		}
	}
	for _, p := range s.Points {
		out = append(out, p.Time)
	}
	return out
}

// said are the lengths of time of a text.
func said(text string) (out []quantity.Span) {
	for _, x := range prose.Read(text).Times {
		out = append(out, x.Span)
	}
	return out
}

// same tells whether two lengths are one, whatever is said about them.
func same(a, b quantity.Span) bool {
	return a.Overnight && b.Overnight || a.Overnight == b.Overnight && a.Low == b.Low && max(a.High, a.UpTo) == max(b.High, b.UpTo)
}

// shares are words in common, by their singulars.
func shares(a, b string) bool {
	have := map[string]bool{}
	for w := range strings.FieldsFuncSeq(strings.ToLower(a), notLetter) {
		have[larder.Singular(w)] = true
	}
	for w := range strings.FieldsFuncSeq(strings.ToLower(b), notLetter) {
		if len(w) > 2 && have[larder.Singular(w)] {
			return true
		}
	}
	return false
}

func notLetter(c rune) bool { return !(c >= 'a' && c <= 'z' || c > 0x7f) }

// count is right of all.
type count struct{ right, all int }

func (c *count) add(ok bool) {
	c.all++
	if ok {
		c.right++
	}
}

func (c count) share() float64 { return 100 * float64(c.right) / float64(max(c.all, 1)) }

// table are the rows of a file of testdata.
func table(t *testing.T, name string) [][]string {
	f, err := os.Open(name)
	require.NoError(t, err)
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	return rows
}

// faithful reads a draft back: it has no errors and is laid out, no word of the text is lost
// and no figure made up.
func faithful(t *testing.T, text string, made *draft.Result) got {
	g := read(t, made.Text)
	assert.Empty(t, g.errors)
	assert.Equal(t, made.Text, formatted(t, made.Text))
	if made.Kind == draft.Prose || made.Kind == draft.Markdown { // the others have marks that are no words
		assert.Empty(t, missing(text, made.Text), "words lost")
	}
	assert.Empty(t, invented(text, made.Text), "figures made up")
	return g
}

// TestOldTexts reads pages of old books in the place they lie in, which TAMIS_TEXTS names,
// and holds the drafts to the facts that hands took from them (testdata/texts/facts.csv).
func TestOldTexts(t *testing.T) {
	dir := os.Getenv("TAMIS_TEXTS")
	if dir == "" {
		t.Skip("the old texts are not in the repository: TAMIS_TEXTS says in which folder they lie")
	}
	rows := table(t, "../../testdata/texts/facts.csv")
	files, err := filepath.Glob(filepath.Join(dir, "*.txt"))
	require.NoError(t, err)
	require.NotEmpty(t, files)
	var amounts, times, names count
	for _, name := range files {
		b, err := os.ReadFile(name)
		require.NoError(t, err)
		made, err := draft.Make(context.Background(), name, string(b), draft.Options{})
		require.NoError(t, err)
		g := faithful(t, string(b), made)
		number, _, _ := strings.Cut(filepath.Base(name), "-")
		var a, m, n count
		for _, row := range rows {
			if !strings.HasPrefix(row[0], number+"-") || row[3] != "given" {
				continue
			}
			head, value, _ := strings.Cut(row[6], " = ")
			switch row[2] {
			case "amount":
				_, thing, ok := strings.Cut(head, ": ")
				if !ok || row[5] != "" {
					continue
				}
				found := g.has("amount", value+" = "+thing)
				a.add(found)
				n.add(g.has("name", thing))
				if !found {
					t.Logf("%s: amount %s = %s", number, thing, value)
				}
			case "time":
				if len(said(value)) == 0 {
					continue
				}
				found := g.has("time", value)
				m.add(found)
				if !found {
					t.Logf("%s: time %s = %s", number, row[1], value)
				}
			}
		}
		t.Logf("%-60s amounts %3d of %3d, times %2d of %2d, names %3d of %3d", filepath.Base(name), a.right, a.all, m.right, m.all, n.right, n.all)
		for _, x := range []struct {
			to *count
			c  count
		}{{&amounts, a}, {&times, m}, {&names, n}} {
			x.to.right, x.to.all = x.to.right+x.c.right, x.to.all+x.c.all
		}
	}
	t.Logf("rightly read: %.1f %% of %d amounts, %.1f %% of %d times, %.1f %% of %d names", amounts.share(), amounts.all, times.share(), times.all, names.share(), names.all)
	require.Greater(t, amounts.share(), 90.0)
	require.Greater(t, times.share(), 80.0)
	require.Greater(t, names.share(), 97.0)
}

// unsized is an amount without the size of its measure: a small bunch is a bunch.
func unsized(s string) string {
	s, _, _ = strings.Cut(s, " (") // the second of a pair is for the reader
	return strings.TrimSpace(strings.NewReplacer("small ", "", "large ", "", "thin ", "", "heaped ", "", "fine ", "", "good ", "").Replace(s))
}

func formatted(t require.TestingT, text string) string {
	out, found := format.Source(source.New("draft", text))
	for _, d := range found {
		require.NotEqual(t, diag.Error, d.Severity, d.Message)
	}
	return out
}
