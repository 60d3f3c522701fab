package check

import (
	"strings"

	"tamis/compiler/load"
	"tamis/lang/ast"
	"tamis/lang/diag"
	"tamis/lang/source"
)

// staleAllow is what Silence reports.
var staleAllow = &Rule{
	Code: "E900", Title: "an allow that silences nothing", Family: Style, Severity: diag.Hint,
	What:    "A block says `allow CODE: reason`, and no finding of that code is made in it.",
	Why:     "A permission that is left behind hides the next fault of its kind.",
	Fix:     "Take the line out.",
	Bad:     "dish Buttered leeks\n  allow U201: the butter is for the table\n  serves 4\n" + leekMethod,
	At:      "2:3",
	Good:    "dish Buttered leeks\n  serves 4\n" + leekMethod,
	Sources: []string{"the Tamis notation, 2.6"},
}

const leekMethod = `  gather
    800 g    leeks
    40 g     butter
  method
    - Soften the leeks in the butter. | work 10 min
`

// permit is one `allow CODE: reason`.
type permit struct {
	code string
	at   *ast.Common
	in   source.Span // the block it stands in
	used bool
}

// Silence takes out the findings that the text allows, and reports an `allow`
// that silences nothing. Errors cannot be silenced: a build would not stop
// being wrong.
func Silence(tree *load.Tree, diags *diag.List) *diag.List {
	permits := permitsOf(tree)
	out := &diag.List{}
	for _, d := range diags.Sorted() {
		if d.Severity < diag.Error {
			if p := find(permits, d); p != nil {
				p.used = true
				continue
			}
		}
		out.Add(d)
	}
	for _, p := range permits {
		if !p.used && asked(tree, p.at.Pos().File) {
			out.Hintf(staleAllow.Code, p.at.Pos(), "this allows %s, which is not found here", p.code).
				WithHelp("take the line out")
		}
	}
	return out
}

func asked(tree *load.Tree, src *source.File) bool {
	for _, f := range tree.Files {
		if f.AST.Source == src {
			return tree.Asked(f)
		}
	}
	return false
}

func find(permits []*permit, d diag.Diagnostic) *permit {
	for _, p := range permits {
		s := d.At.Span
		if strings.EqualFold(p.code, d.Code) && s.File == p.in.File && s.Start >= p.in.Start && s.End <= p.in.End {
			return p
		}
	}
	return nil
}

func permitsOf(tree *load.Tree) (out []*permit) {
	for _, f := range tree.Files {
		for _, b := range f.AST.Blocks {
			for _, c := range commons(b) {
				if c.Key == "allow" && c.Code != "" {
					out = append(out, &permit{code: c.Code, at: c, in: b.Pos()})
				}
			}
		}
	}
	return out
}

// commons are the shared fields of a block.
func commons(b ast.Block) (out []*ast.Common) {
	add := func(n any) {
		if c, ok := n.(*ast.Common); ok {
			out = append(out, c)
		}
	}
	switch x := b.(type) {
	case *ast.Recipe:
		for _, it := range x.Items {
			add(it)
		}
	case *ast.Menu:
		for _, it := range x.Items {
			add(it)
		}
	case *ast.Kitchen:
		for _, it := range x.Items {
			add(it)
		}
	case *ast.Series:
		for _, it := range x.Items {
			add(it)
		}
	case *ast.Book:
		for _, it := range x.Items {
			add(it)
		}
	}
	return out
}
