package parse_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"tamis/lang/ast"
	"tamis/lang/diag"
	"tamis/lang/parse"
	"tamis/lang/source"
)

// seeds are the texts of the package's test data.
func seeds(tb testing.TB) []string {
	var out []string
	for _, pattern := range []string{"testdata/*.tamis", "testdata/*.txtar"} {
		names, err := filepath.Glob(pattern)
		if err != nil {
			tb.Fatal(err)
		}
		for _, name := range names {
			b, err := os.ReadFile(name)
			if err != nil {
				tb.Fatal(err)
			}
			out = append(out, strings.Split(string(b), "\n\n")...)
		}
	}
	return out
}

// FuzzParse: no text makes the parser panic or hang, and every span it gives
// lies inside the file.
func FuzzParse(f *testing.F) {
	for _, s := range seeds(f) {
		f.Add(s)
		f.Add(strings.ReplaceAll(s, "  ", "\t"))
		f.Add(strings.ReplaceAll(s, "\n", "\r\n"))
	}
	f.Fuzz(func(t *testing.T, text string) {
		src := source.New("fuzz.tamis", text)
		var list diag.List
		tree := parse.File(src, &list)
		checkSpans(t, src, tree, &list)
	})
}

func checkSpans(t *testing.T, src *source.File, tree *ast.File, list *diag.List) {
	t.Helper()
	inside := func(what string, s source.Span) {
		if s.File != nil && (s.File != src || s.Start < 0 || s.End < s.Start || s.End > len(src.Text)) {
			t.Fatalf("%s: span [%d,%d) of %d bytes", what, s.Start, s.End, len(src.Text))
		}
	}
	for _, d := range list.Sorted() {
		inside(d.Code, d.At.Span)
		if d.At.Span.IsZero() || d.Message == "" || d.Code == "" {
			t.Fatalf("a finding without code, words or place: %+v", d)
		}
		if d.Code[0] == 'N' && d.Severity == diag.Error && len(d.Help) == 0 && len(d.Fixes) == 0 && d.Why == "" {
			t.Fatalf("%s says only what is wrong: %s", d.Code, d.Message)
		}
		for _, r := range d.Related {
			inside(d.Code, r.Span)
		}
		for _, fix := range d.Fixes {
			for _, e := range fix.Edits {
				inside(d.Code, e.Span)
			}
		}
	}
	exact := func(what string, x ast.Text) {
		inside(what, x.Span)
		if x.Span.Text() != x.Text {
			t.Fatalf("%s: the text is %q, its span covers %q", what, x.Text, x.Span.Text())
		}
	}
	ast.Walk(tree, func(n ast.Node) bool {
		inside("statement", n.Pos())
		for _, c := range n.Base().Comments {
			inside("comment", c.Span)
		}
		switch n := n.(type) {
		case *ast.Step:
			for _, l := range n.Lines {
				exact("prose", l)
			}
			for _, c := range n.Clauses {
				inside("clause", c.Base().Span)
				switch c := c.(type) {
				case *ast.Named:
					inside("clause name", c.Name.Span)
				case *ast.InVessel:
					inside("vessel", c.Name.Span)
				case *ast.Taking:
					inside("what is taken", c.Name.Span)
				case *ast.Note:
					inside("clause text", c.Text.Span)
				case *ast.Unread:
					exact("what could not be read", ast.Text{Text: c.Base().Span.Text(), Span: c.Text.Span})
				}
			}
		case *ast.Moment:
			for _, l := range n.Lines {
				exact("prose", l)
			}
		case *ast.Line:
			inside("name", n.Name.Span)
			inside("note", n.Note.Span)
			exact("amount", n.AmountAt)
			for _, c := range n.Clauses {
				inside("clause", c.Base().Span)
			}
		}
		return true
	})
}
