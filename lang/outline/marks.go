package outline

import (
	"cmp"
	"regexp"
	"slices"
	"strings"

	"tamis/lang/ast"
	"tamis/lang/parse"
	"tamis/lang/source"
)

// MarkKind is what a marked piece of text is.
type MarkKind int

// The kinds of marks, in the order in which an editor numbers them.
const (
	Word    MarkKind = iota // a word of the notation
	Title                   // the name of a block
	Figure                  // an amount, a time, a heat
	Name                    // what is gathered
	Note                    // for the cook: what follows a comma, the writer's own words
	Comment                 // a comment
)

// Mark is a piece of text and what it is.
type Mark struct {
	Span source.Span
	Kind MarkKind
	Word *parse.Word // of a word, its row of the table
}

// rows are the words of the table by place.
var rows = func() map[parse.Place]map[string]*parse.Word {
	out := map[parse.Place]map[string]*parse.Word{}
	for _, w := range parse.Words() {
		for _, p := range w.In {
			if out[p] == nil {
				out[p] = map[string]*parse.Word{}
			}
			out[p][w.Text] = &w
		}
	}
	return out
}()

// figure is a number with the unit or the scale behind it.
var figure = regexp.MustCompile(`[0-9½⅓⅔¼¾⅕⅛][0-9½⅓⅔¼¾⅕⅛.,:/⁄-]*( ?(%|°?[CF]\b|min\b|h\b|s\b|days?\b|weeks?\b|months?\b|k?g\b|m?l\b|litres?\b|cm\b))?`)

type marker struct {
	f    *ast.File
	out  []Mark
	open []open
}

// open is a statement whose lines are being read: they stand in a place.
type open struct {
	end   int
	place parse.Place
}

func marks(f *ast.File) []Mark {
	if f.Source == nil {
		return nil
	}
	m := &marker{f: f}
	m.comments(f.Head)
	if f.Notation > 0 {
		from, to := 0, len(f.Source.Text)
		if len(f.Blocks) > 0 {
			to = f.Blocks[0].Pos().Start
		}
		if i := strings.Index(strings.ToLower(f.Source.Text[from:to]), "notation"); i >= 0 {
			m.words(f.Source.Span(from+i, to), parse.AtBlock)
		}
	}
	ast.Walk(f, func(n ast.Node) bool {
		m.node(n)
		return true
	})
	m.comments(f.Trailing)
	return m.sorted()
}

// sorted are the marks in order, without those that lie in another.
func (m *marker) sorted() (out []Mark) {
	slices.SortStableFunc(m.out, func(a, b Mark) int { return cmp.Compare(a.Span.Start, b.Span.Start) })
	end := 0
	for _, k := range m.out {
		if k.Span.Start >= end && k.Span.End > k.Span.Start {
			out = append(out, k)
			end = k.Span.End
		}
	}
	return out
}

func (m *marker) add(at source.Span, k MarkKind) {
	if at.File == m.f.Source && at.End > at.Start {
		m.out = append(m.out, Mark{Span: at, Kind: k})
	}
}

func (m *marker) comments(list []ast.Comment) {
	for _, c := range list {
		m.add(c.Span, Comment)
	}
}

// node marks what a statement itself says; those below it come by themselves.
func (m *marker) node(n ast.Node) {
	at := n.Pos()
	for len(m.open) > 0 && at.Start >= m.open[len(m.open)-1].end {
		m.open = m.open[:len(m.open)-1]
	}
	place := parse.AtBlock
	if len(m.open) > 0 {
		place = m.open[len(m.open)-1].place
	}
	m.comments(n.Base().Comments)
	switch n := n.(type) {
	case *ast.Line:
		m.add(n.AmountAt.Span, Figure)
		m.add(n.Name.Span, Name)
		m.add(n.Note.Span, Note)
		m.add(n.Said.Span, Note)
		m.clauses(n.Clauses, parse.OnLine)
		return
	case *ast.Step:
		m.clauses(n.Clauses, parse.OnStep)
		m.add(n.Said.Span, Note)
	case *ast.Moment:
		m.clauses(n.Clauses, parse.OnStep)
	case *ast.Entry:
		m.add(n.Name.Span, Name)
		for _, f := range n.Facts {
			m.lead(f.Base(), parse.OnFact)
		}
	case *ast.Serving:
		m.add(n.Ref.Span, Name)
		m.serving(n)
	case *ast.ChapterRef:
		m.add(n.Ref.Span, Name)
	case *ast.Bad:
	case *ast.About:
		m.words(firstLine(at), place)
	default:
		m.words(firstLine(at), place)
	}
	if in, ok := inside(n); ok {
		m.open = append(m.open, open{at.End, in})
	}
	if title, ok := titleOf(n); ok {
		m.add(title.Span, Title)
	}
}

// inside is the place of the lines below a statement.
func inside(n ast.Node) (parse.Place, bool) {
	switch n.(type) {
	case *ast.Menu:
		return parse.InMenu, true
	case *ast.Course:
		return parse.InCourse, true
	case *ast.Serving:
		return parse.OnPin, true
	case *ast.Recipe:
		return parse.InRecipe, true
	case *ast.Gather, *ast.SubList, *ast.Choice, *ast.Option:
		return parse.InGather, true
	case *ast.Method, *ast.Change:
		return parse.InMethod, true
	case *ast.Kitchen:
		return parse.InKitchen, true
	case *ast.Larder:
		return parse.InLarder, true
	case *ast.Series:
		return parse.InSeries, true
	case *ast.Part:
		return parse.InPart, true
	case *ast.Book:
		return parse.InBook, true
	case *ast.Chapter:
		return parse.InChapter, true
	}
	return 0, false
}

func titleOf(n ast.Node) (ast.Name, bool) {
	switch n := n.(type) {
	case *ast.Menu:
		return n.Title, true
	case *ast.Recipe:
		return n.Title, true
	case *ast.Kitchen:
		return n.Title, true
	case *ast.Series:
		return n.Title, true
	case *ast.Book:
		return n.Title, true
	case *ast.Course:
		return n.Title, true
	case *ast.Part:
		return n.Title, true
	case *ast.Chapter:
		return n.Title, true
	}
	return ast.Name{}, false
}

// words marks the word a line begins with, and the figures behind it.
func (m *marker) words(at source.Span, place parse.Place) {
	w, n := parse.LookUp(place, at.Text())
	if w == nil {
		return
	}
	n = len(strings.TrimRight(at.Text()[:n], ": "))
	m.out = append(m.out, Mark{at.File.Span(at.Start, at.Start+n), Word, rows[place][w.Text]})
	if !freeText[w.Text] {
		m.figures(at.File.Span(at.Start+n, at.End))
	}
}

// freeText are the words whose line is the writer's own from there on.
var freeText = map[string]bool{
	"menu": true, "dish": true, "base": true, "kitchen": true, "series": true, "book": true, "source": true, "link": true, "picture": true,
	"said": true, "about": true, "chapter": true, "caution": true, "course": true, "for": true, "either": true, "or": true, "style": true,
}

func (m *marker) figures(at source.Span) {
	for _, hit := range figure.FindAllStringIndex(at.Text(), -1) {
		m.add(at.File.Span(at.Start+hit[0], at.Start+hit[1]), Figure)
	}
}

func (m *marker) clauses(list []ast.Clause, place parse.Place) {
	for _, c := range list {
		m.lead(c.Base(), place)
	}
}

// lead marks the word of a clause or a fact; `2 rings` has its figure before it.
func (m *marker) lead(l *ast.Lead, place parse.Place) {
	text := l.Span.Text()
	skip := len(text) - len(strings.TrimLeft(text, "0123456789 "))
	at := l.Span
	if at.File != m.f.Source {
		return
	}
	if skip > 0 {
		m.figures(at.File.Span(at.Start, at.Start+skip))
		at = at.File.Span(at.Start+skip, at.End)
	}
	m.words(at, place)
}

// serving marks what follows the commas of a serving: `, ahead`, `, for 10`.
func (m *marker) serving(n *ast.Serving) {
	at := firstLine(n.Span)
	for i := n.Ref.Span.End; i < at.End && i >= at.Start; i++ {
		if at.File.Text[i] != ',' {
			continue
		}
		rest := at.File.Text[i+1 : at.End]
		from := i + 1 + len(rest) - len(strings.TrimLeft(rest, " \t"))
		to := at.End
		if j := strings.IndexByte(at.File.Text[from:at.End], ','); j >= 0 {
			to = from + j
		}
		m.words(at.File.Span(from, to), parse.OnServing)
	}
}

// firstLine is a span to the end of its first line.
func firstLine(at source.Span) source.Span {
	if i := strings.IndexByte(at.Text(), '\n'); i >= 0 {
		return at.File.Span(at.Start, at.Start+i)
	}
	return at
}
