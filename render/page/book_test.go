package page

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler/sheets"
	"tamis/lang/effort"
	"tamis/render/draw"
	"tamis/testdata/fixture"
)

// bookOf makes a book of a document of chance: its sheets are the recipes of two chapters,
// with references to one another.
func bookOf(doc *sheets.Document) *sheets.Document {
	out := *doc
	out.Bound, out.Dishes = true, nil
	link := func(i int) string { return "#" + doc.Sheets[i%len(doc.Sheets)].ID }
	list := &sheets.Table{Plain: true, Columns: []sheets.Column{{Title: "Recipe", Kind: sheets.TextColumn, Weight: 4}, {Title: "Page", Kind: sheets.PageColumn}}}
	index := &sheets.Alphabet{Letters: []sheets.Letter{{Letter: "A"}, {Letter: "Ω"}}}
	var cares *sheets.Cautions
	for i, s := range doc.Sheets {
		list.Groups = append(list.Groups, sheets.Group{Rows: []sheets.Row{{Strong: i%3 == 0, Cells: []sheets.Cell{{Runs: []sheets.Run{{Text: s.Title, Link: "#" + s.ID}}}, {Runs: []sheets.Run{{Link: "#" + s.ID}}}}}}})
		e := sheets.Entry{Name: s.Title}
		for k := range i%9 + 1 {
			e.At = append(e.At, sheets.Run{Text: "x", Link: link(i + k), Page: "#"})
		}
		index.Letters[i%2].Entries = append(index.Letters[i%2].Entries, e)
		for _, b := range s.Blocks {
			if c, ok := b.(*sheets.Cautions); ok {
				cares = c
			}
		}
	}
	out.Sheets = []sheets.Sheet{
		{ID: "title-page", Kind: sheets.TitlePage, Title: doc.Title, Facts: []string{"by " + doc.By}},
		{ID: "imprint", Kind: sheets.Imprint, Title: "How to read this book", Blocks: []sheets.Block{&sheets.Prose{Paras: []sheets.Para{{Runs: []sheets.Run{{Text: "In short."}}}}}}},
		{ID: "list", Kind: sheets.Contents, Title: "Contents", Blocks: []sheets.Block{list}},
	}
	if cares != nil {
		out.Sheets = append(out.Sheets, sheets.Sheet{ID: "care", Kind: sheets.Care, Title: "Take care", Blocks: []sheets.Block{cares}})
	}
	for i, s := range doc.Sheets {
		if i == 0 || i == len(doc.Sheets)/2 {
			out.Sheets = append(out.Sheets, sheets.Sheet{ID: fmt.Sprint("chapter-", i), Kind: sheets.Chapter, Title: fmt.Sprint("Chapter ", i), Chapter: fmt.Sprint("Chapter ", i)})
		}
		s.Kind, s.Letter, s.Wide, s.Contents = sheets.Prep, "", false, false
		s.Chapter = "Chapter 0"
		if i >= len(doc.Sheets)/2 {
			s.Chapter = fmt.Sprint("Chapter ", len(doc.Sheets)/2)
		}
		s.Filed = fmt.Sprint(s.Chapter, " ", i)
		s.Blocks = slices.DeleteFunc(slices.Clone(s.Blocks), func(b sheets.Block) bool {
			switch b.(type) {
			case *sheets.Chart, *sheets.Board:
				return true
			}
			return false
		})
		s.Blocks = append(s.Blocks, &sheets.Prose{Small: true, Paras: []sheets.Para{{Runs: []sheets.Run{
			{Text: "Uses "}, {Text: doc.Sheets[(i+1)%len(doc.Sheets)].Title, Link: link(i + 1)}, {Link: link(i + 1), Page: ", p. #"}, {Text: "."},
		}}}})
		out.Sheets = append(out.Sheets, s)
	}
	out.Sheets = append(out.Sheets, sheets.Sheet{ID: "things", Kind: sheets.Index, Title: "Index", Blocks: []sheets.Block{index}})
	return &out
}

var toPage = regexp.MustCompile(`p\.\x{a0}\x{2007}*(\d+)$`)

// Whatever a book holds, no words touch or lie outside the margins, every recipe begins
// somewhere, those of several pages on the left, and what it says of its pages is true.
func TestBooksOfChance(t *testing.T) {
	papers := []Options{{Paper: A5}, {Paper: A4}, {Paper: Letter, Light: true}, {Paper: A4, Booklet: true}, {Paper: A4, Large: true}, {Paper: Card6x4}, {Paper: Card5x3}}
	for seed := range effort.Rounds[uint64](28, 140) {
		doc := bookOf(fixture.Random(seed))
		opt := papers[seed%uint64(len(papers))]
		note := fmt.Sprintf("seed %d on %s", seed, opt.Paper.Name)
		b := Lay(doc, opt)
		checkPages(t, b, note)
		require.Len(t, b.Sheets, len(doc.Sheets), note)
		at := map[string]int{}
		for i, s := range b.Sheets {
			at["#"+s.ID] = s.Page + 1
			require.Equal(t, doc.Sheets[i].ID, s.ID, "%s: in the order of the book", note)
			next := len(b.Pages)
			if i+1 < len(b.Sheets) {
				next = b.Sheets[i+1].Page
			}
			for next > s.Page+1 && b.Pages[next-1].ruled {
				next--
			}
			if doc.Sheets[i].Kind == sheets.Prep && next-s.Page > 1 && !opt.Paper.Card {
				require.Equal(t, 1, s.Page%2, "%s: %s of %d pages", note, s.ID, next-s.Page)
			}
		}
		if opt.Paper.Card {
			continue
		}
		said := 0
		for _, p := range b.Pages {
			for _, o := range p.Ops {
				x, ok := o.(*draw.Text)
				if !ok || !strings.HasPrefix(x.Link, "#") {
					continue
				}
				if m := toPage.FindStringSubmatch(x.Str); m != nil {
					require.Equal(t, fmt.Sprint(at[x.Link]), m[1], "%s: %q to %s", note, x.Str, x.Link)
					said++
				}
			}
		}
		require.NotZero(t, said, note)
	}
}
