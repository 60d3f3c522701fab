package changes

import (
	"strings"

	"tamis/compiler"
	"tamis/compiler/load"
)

// AsRead is the text of a file with what each sentence takes below it, so that who
// compares two such texts line by line sees what has changed for the cook, too.
func AsRead(r *compiler.Result, f *load.File) string {
	below := map[int][]string{} // by the last line of a step
	for _, rec := range r.Model.Recipes {
		if rec.Span.File != f.Source || rec.Reading == nil {
			continue
		}
		for _, s := range rec.Steps {
			sr := rec.Reading.Of(s)
			if sr == nil || s.Span.File != f.Source || len(s.Lines) == 0 {
				continue
			}
			first, last := s.Lines[0].Span.Position().Line, 0
			for _, l := range s.Lines {
				last = max(last, l.Span.File.Position(l.Span.End).Line)
			}
			for _, fact := range sr.Lines() {
				below[last] = append(below[last], f.Source.Indent(first)+"    = "+fact)
			}
		}
	}
	var b strings.Builder
	for n := 1; n <= f.Source.Lines(); n++ {
		line := f.Source.LineSpan(n).Text()
		if n == f.Source.Lines() && line == "" {
			break
		}
		b.WriteString(line + "\n")
		for _, fact := range below[n] {
			b.WriteString(fact + "\n")
		}
	}
	return b.String()
}
