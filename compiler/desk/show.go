package desk

import (
	"cmp"
	"encoding/json"
	"io/fs"
	"path/filepath"
	"slices"
	"strings"

	"tamis/compiler/load"
	"tamis/lang/diag"
	"tamis/lang/outline"
	"tamis/lang/source"
)

// symbolKinds are the kinds of LSP: a block is a class, a list a namespace, a step a
// function, what is gathered a field.
var symbolKinds = map[outline.Kind]int{
	outline.Menu: 2, outline.Dish: 5, outline.Base: 23, outline.Kitchen: 4, outline.Larder: 4, outline.Series: 2, outline.Book: 2,
	outline.Course: 3, outline.Serving: 13, outline.Part: 3, outline.Chapter: 3, outline.List: 3, outline.Method: 3,
	outline.Line: 8, outline.Step: 12, outline.Thing: 19,
}

func (s *server) documentSymbols(raw json.RawMessage) (any, error) {
	sh, err := s.text(raw)
	if err != nil {
		return nil, err
	}
	return symbols(sh.file.Outline().Items), nil
}

func symbols(items []outline.Item) []documentSymbol {
	out := []documentSymbol{}
	for _, it := range items {
		d := documentSymbol{
			Name: shortened(it.Name), Detail: diag.Visible(it.Detail), Kind: symbolKinds[it.Kind],
			Range: rangeOf(it.Span), Selection: rangeOf(within(it.NameAt, it.Span)),
		}
		if len(it.Kids) > 0 {
			d.Children = symbols(it.Kids)
		}
		out = append(out, d)
	}
	return out
}

// within is a span cut to another that it should lie in.
func within(s, in source.Span) source.Span {
	if s.File != in.File || s.Start < in.Start || s.End > in.End {
		return in.File.Span(in.Start, in.Start)
	}
	return s
}

// shortened is a name as it goes on one line of a list.
func shortened(name string) string {
	name = diag.Visible(strings.Join(strings.Fields(name), " "))
	if r := []rune(name); len(r) > 60 {
		return strings.TrimSpace(string(r[:59])) + "…"
	}
	return name
}

// What is answered to a question about everything, and looked through for it, is bounded.
const (
	mostSymbols = 500
	mostRooms   = 200
	mostEntries = 20000
)

// workspaceSymbols finds blocks by a part of their name in all that the editor has
// open: the rooms of open texts, and the folders of the workspace.
func (s *server) workspaceSymbols(raw json.RawMessage) (any, error) {
	p, err := read[struct {
		Query string `json:"query"`
	}](raw)
	if err != nil {
		return nil, err
	}
	query := strings.ToLower(strings.TrimSpace(p.Query))
	out := []workspaceSymbol{}
	for _, r := range s.everywhere() {
		if r.result(s.ctx) == nil {
			continue
		}
		for _, f := range r.tree.Files {
			for _, it := range f.Outline().Items {
				if !strings.Contains(strings.ToLower(it.Name), query) || it.NameAt.IsZero() {
					continue
				}
				out = append(out, workspaceSymbol{shortened(it.Name), symbolKinds[it.Kind], location{r.uri(f.Path), rangeOf(it.NameAt)}, diag.Visible(string(it.Kind) + ", " + f.Path)})
			}
		}
	}
	slices.SortStableFunc(out, func(a, b workspaceSymbol) int {
		begins := func(w workspaceSymbol) int { return btoi(!strings.HasPrefix(strings.ToLower(w.Name), query)) }
		return cmp.Or(cmp.Compare(begins(a), begins(b)), strings.Compare(a.Name, b.Name), strings.Compare(a.Location.URI, b.Location.URI))
	})
	return out[:min(len(out), mostSymbols)], nil
}

// everywhere are the rooms of open texts, and one for each further book or folder of
// recipes in the workspace, which are not kept.
func (s *server) everywhere() (out []*room) {
	met, entries := map[string]bool{}, 0
	for key, r := range s.rooms {
		met[key] = true
		out = append(out, r)
	}
	slices.SortFunc(out, func(a, b *room) int { return strings.Compare(a.dir, b.dir) })
	for _, root := range s.folders() {
		_ = filepath.WalkDir(root, func(name string, d fs.DirEntry, err error) error {
			entries++
			switch {
			case err != nil:
				return nil
			case entries > mostEntries:
				return fs.SkipAll
			case d.IsDir() && (name != root && load.Hidden(d.Name()) || d.Name() == "node_modules"):
				return fs.SkipDir
			case len(out) >= mostRooms:
				return fs.SkipAll
			case d.IsDir() || !strings.HasSuffix(name, load.Ending):
				return nil
			}
			if dir := load.Root(filepath.Dir(name)); !met[dir] {
				met[dir] = true
				out = append(out, &room{dir: dir, open: map[string]*document{}})
			}
			return nil
		})
	}
	return out
}

// folders are those of the workspace.
func (s *server) folders() (out []string) {
	for _, f := range append([]workspaceFolder{{s.caps.RootURI}}, s.caps.WorkspaceFolders...) {
		if name, ok := pathOf(f.URI); ok && !slices.Contains(out, name) {
			out = append(out, name)
		}
	}
	return out
}

func (s *server) foldingRanges(raw json.RawMessage) (any, error) {
	sh, err := s.text(raw)
	if err != nil {
		return nil, err
	}
	out := []foldingRange{}
	for _, f := range sh.file.Outline().Folds {
		fold := foldingRange{Start: f.First, End: f.Last}
		if f.Comment {
			fold.Kind = "comment"
		}
		out = append(out, fold)
	}
	return out, nil
}

// tokenTypes are the types of semantic tokens, in the order of the kinds of marks; what
// a sentence takes is a variable too.
var tokenTypes = []string{"keyword", "class", "number", "variable", "string", "comment"}

func (s *server) semanticTokens(raw json.RawMessage) (any, error) {
	p, err := read[struct {
		documentParams
		Range *textRange `json:"range"`
	}](raw)
	if err != nil {
		return nil, err
	}
	sh, err := s.sheet(p.TextDocument.URI)
	if err != nil {
		return nil, err
	}
	asked := sh.text.Span(0, len(sh.text.Text))
	if p.Range != nil {
		asked = spanOf(sh.text, *p.Range)
	}
	marks := sh.file.Outline().Marks
	for _, m := range sh.room.names().all {
		if m.at.File == sh.text && !m.def {
			marks = append(marks, outline.Mark{Span: m.at, Kind: outline.Name})
		}
	}
	slices.SortStableFunc(marks, func(a, b outline.Mark) int { return cmp.Compare(a.Span.Start, b.Span.Start) })
	data := []int{}
	end, last := 0, position{}
	for _, m := range marks {
		if m.Span.Start < end || m.Span.End < asked.Start || m.Span.Start > asked.End {
			continue
		}
		end = m.Span.End
		for _, part := range perLine(m.Span) { // no token goes over the end of a line
			r := rangeOf(part)
			step := r.Start.Character
			if r.Start.Line == last.Line {
				step -= last.Character
			}
			data = append(data, r.Start.Line-last.Line, step, r.End.Character-r.Start.Character, int(m.Kind), 0)
			last = r.Start
		}
	}
	return semanticTokens{data}, nil
}

// perLine cuts a span at the ends of lines.
func perLine(s source.Span) (out []source.Span) {
	start := s.Start
	for line := range strings.SplitAfterSeq(s.Text(), "\n") {
		if n := len(strings.TrimRight(line, "\r\n")); n > 0 {
			out = append(out, s.File.Span(start, start+n))
		}
		start += len(line)
	}
	return out
}
