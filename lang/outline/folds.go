package outline

import (
	"tamis/lang/ast"
	"tamis/lang/source"
)

// Fold is lines that can be folded into the first of them, numbered from 0.
type Fold struct {
	First, Last int
	Comment     bool
}

// folds are the statements that have lines below them, and comments of several lines.
func folds(f *ast.File) (out []Fold) {
	if f.Source == nil {
		return nil
	}
	add := func(from, to int, comment bool) {
		first, last := line(f.Source, from), line(f.Source, to)
		if n := len(out); last > first && (n == 0 || out[n-1] != Fold{first, last, comment}) {
			out = append(out, Fold{first, last, comment})
		}
	}
	comments := func(list []ast.Comment) {
		for i := 0; i < len(list); {
			j := i + 1
			for j < len(list) && line(f.Source, list[j].Span.Start) == line(f.Source, list[j-1].Span.Start)+1 {
				j++
			}
			add(list[i].Span.Start, list[j-1].Span.Start, true)
			i = j
		}
	}
	comments(f.Head)
	ast.Walk(f, func(n ast.Node) bool {
		comments(n.Base().Comments)
		add(n.Pos().Start, max(n.Pos().Start, n.Pos().End-1), false)
		return true
	})
	comments(f.Trailing)
	return out
}

func line(f *source.File, offset int) int { return f.Position(offset).Line - 1 }
