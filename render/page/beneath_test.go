package page

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler/sheets"
	"tamis/render/draw"
	"tamis/render/fonts"
)

// ofSteps is the sheet of a recipe of n steps.
func ofSteps(letter string, n int) sheets.Sheet {
	st := &sheets.Steps{}
	for i := range n {
		st.Items = append(st.Items, &sheets.Step{
			Number: i + 1, Look: []string{"ring high", "leave 10 min"},
			Takes: []sheets.Take{{Amount: "450 g", Name: "onions"}, {Amount: "30 ml", Name: "oil"}},
			Runs:  []sheets.Run{{Text: "Fry the onions in the oil until they are brown at the edges."}},
		})
	}
	return sheets.Sheet{ID: "prep-" + letter, Kind: sheets.Prep, Title: "Recipe " + letter, Letter: letter, Blocks: []sheets.Block{st}}
}

func pagesOf(doc *sheets.Document, opt Options) (on map[string]int, b *Book) {
	for _, s := range doc.Sheets {
		if s.Letter != "" {
			doc.Dishes = append(doc.Dishes, sheets.Mark{Letter: s.Letter, Name: s.Title})
		}
	}
	b = Lay(doc, opt)
	on = map[string]int{}
	for _, s := range b.Sheets {
		on[s.ID] = s.Page + 1
	}
	return on, b
}

func TestShortRecipesShareAPage(t *testing.T) {
	doc := &sheets.Document{Title: "T", Sheets: []sheets.Sheet{ofSteps("A", 4), ofSteps("B", 9), ofSteps("C", 3)}}
	on, b := pagesOf(doc, Options{})
	require.Equal(t, map[string]int{"prep-A": 1, "prep-B": 2, "prep-C": 1}, on, "the next that fits is taken, and B is not parted for it")
	checkPages(t, b, "shared")
	require.Len(t, b.Pages, 2)
	c := b.Sheets[1]
	require.Equal(t, "prep-C", c.ID)
	lowest := 0.0
	for _, o := range b.Pages[0].opsOf(0) {
		if _, low := o.Span(); low > lowest {
			lowest = low
		}
	}
	require.Greater(t, c.Y, lowest+20, "nobody takes C for more of A")
	var head []string
	for _, o := range b.Pages[0].Ops {
		if w, ok := o.(*draw.Text); ok && w.Field == 0 {
			head = append(head, w.Str)
		}
	}
	require.Contains(t, fmt.Sprint(head), "A · Recipe C", "the head of the page names both")

	doc.Sheets = append([]sheets.Sheet{{ID: "contents", Kind: sheets.Overview, Title: "All", Contents: true}}, doc.Sheets...)
	on, _ = pagesOf(doc, Options{})
	require.Equal(t, map[string]int{"contents": 1, "prep-A": 2, "prep-B": 3, "prep-C": 4}, on, "where there are contents the order stays")

	doc.Sheets = doc.Sheets[1:]
	_, b = pagesOf(doc, Options{Paper: Card6x4})
	for _, p := range b.Pages {
		require.Empty(t, p.Below, "cards are filed one by one")
	}
}

// shop is a shopping list of n things with the cautions of the meal, and a recipe.
func shop(n int) *sheets.Document {
	tb := &sheets.Table{Columns: []sheets.Column{{Kind: sheets.TickColumn}, {Title: "Buy", Kind: sheets.AmountColumn}, {Title: "What", Kind: sheets.TextColumn, Weight: 3}, {Title: "For", Kind: sheets.TextColumn, Weight: 3}}}
	g := sheets.Group{Title: "Greengrocer"}
	for i := range n {
		g.Rows = append(g.Rows, sheets.Row{Cells: []sheets.Cell{{}, {Runs: []sheets.Run{{Text: "120 g", Style: sheets.Amount}}}, {Runs: []sheets.Run{{Text: fmt.Sprintf("thing %d", i)}}}, {Runs: []sheets.Run{{Text: "A"}}}}})
	}
	tb.Groups = append(tb.Groups, g)
	cares := &sheets.Cautions{Items: []sheets.Caution{{Text: "Cool cooked food fast.", Source: "A source"}, {Text: "Contains, by what is listed here: milk."}}}
	return &sheets.Document{Title: "T", Sheets: []sheets.Sheet{
		{ID: "shopping", Kind: sheets.Shopping, Title: "Shopping list", Blocks: []sheets.Block{tb, cares}}, ofSteps("A", 3),
	}}
}

func sizeOf(t *testing.T, b *Book, words string) float64 {
	t.Helper()
	for _, p := range b.Pages {
		for _, o := range p.Ops {
			if w, ok := o.(*draw.Text); ok && w.Str == words {
				return w.Size
			}
		}
	}
	t.Fatalf("%q is not printed", words)
	return 0
}

func TestCautionsOfTheMealStandWhereTheySaveAPage(t *testing.T) {
	of := func(n int) (page int, b *Book) {
		_, b = pagesOf(shop(n), Options{})
		for i, p := range b.Pages {
			for _, o := range p.Ops {
				if w, ok := o.(*draw.Text); ok && strings.HasPrefix(w.Str, "Cool") {
					page = i + 1
				}
			}
		}
		return page, b
	}
	page, b := of(20)
	require.Equal(t, 1, page, "a short list has them below")
	require.InDelta(t, 13, sizeOf(t, b, "120"), 0.01)
	moved := 0
	for n := 40; n < 80; n++ {
		page, b := of(n)
		checkPages(t, b, fmt.Sprint(n))
		require.NotZero(t, page, "they are never left out: %d things", n)
		if len(b.Pages) == 2 && page == 2 {
			moved++
			require.Contains(t, spoken(b, 0), "Cautions of the whole meal", "they belong to the list still")
			require.Less(t, sizeOf(t, b, "120"), 13.0, "what is carried is set smaller first")
		}
	}
	require.NotZero(t, moved)

	// what was tried and undone leaves no bookmark behind
	for n := 40; n < 80; n++ {
		for _, opt := range []Options{{}, {Booklet: true}, {Large: true}} {
			_, b := pagesOf(shop(n), opt)
			for _, s := range b.Sheets {
				for _, p := range s.Parts {
					require.Less(t, p.Page, len(b.Pages), "%d things, %+v: %s", n, opt, p.Title)
					require.NotContains(t, p.Title, "Cautions", "they are no part of a recipe")
				}
			}
		}
	}

	// where no recipe has room for them they stay with the list: no page of it follows the recipes
	stayed := 0
	for steps := 6; steps < 12; steps++ {
		doc := shop(60)
		doc.Sheets[1] = ofSteps("A", steps)
		_, b = pagesOf(doc, Options{})
		recipes := false
		for n, p := range b.Pages {
			recipes = recipes || p.Sheet == 1
			require.False(t, recipes && p.Sheet == 0, "%d steps, page %d", steps, n+1)
			if strings.Contains(spokenOn(p), "Cool cooked food fast.") && p.Sheet == 0 {
				stayed++
			}
		}
	}
	require.NotZero(t, stayed)
}

// spokenOn is what a page says.
func spokenOn(p *Page) string {
	var s strings.Builder
	for _, o := range p.Ops {
		if w, ok := o.(*draw.Text); ok {
			s.WriteString(w.Str + " ")
		}
	}
	return s.String()
}

// A list of the sheets says on which page each begins, and leads there; the screen and
// plain text, which have no pages, leave the column out.
func TestPageColumnTellsWhereASheetBegins(t *testing.T) {
	list := &sheets.Table{
		Columns: []sheets.Column{{Kind: sheets.MarkColumn}, {Title: "Recipe", Kind: sheets.TextColumn, Weight: 4}, {Title: "Page", Kind: sheets.PageColumn}},
		Groups:  []sheets.Group{{}},
	}
	doc := &sheets.Document{Title: "T"}
	for _, s := range []sheets.Sheet{ofSteps("A", 9), ofSteps("B", 3), ofSteps("C", 3)} {
		link := sheets.Cell{Runs: []sheets.Run{{Link: "#" + s.ID}}}
		list.Groups[0].Rows = append(list.Groups[0].Rows, sheets.Row{Cells: []sheets.Cell{{Runs: []sheets.Run{{Text: s.Letter}}}, {Runs: []sheets.Run{{Text: s.Title}}}, link}})
		doc.Sheets = append(doc.Sheets, s)
	}
	doc.Sheets = append([]sheets.Sheet{{ID: "list", Kind: sheets.Overview, Title: "The recipes", Blocks: []sheets.Block{list}}}, doc.Sheets...)
	on, b := pagesOf(doc, Options{})
	require.Equal(t, map[string]int{"list": 1, "prep-A": 2, "prep-B": 3, "prep-C": 3}, on)
	require.Equal(t, "The recipes Recipe Page A Recipe A 2 B Recipe B 3 C Recipe C 3", spoken(b, 0))
	checkPages(t, b, "list")
	off := list.OffPaper()
	require.Len(t, off.Columns, 2)
	require.Len(t, off.Groups[0].Rows[0].Cells, 2)
}

// What is said of a thing taken stands in lines that begin with words.
func TestNotesOfWhatIsTakenBeginWithWords(t *testing.T) {
	s := ofSteps("A", 1)
	s.Blocks[0].(*sheets.Steps).Items[0].(*sheets.Step).Takes[0].Note = "120 ml in all · made here, sheet F · or instead 1.5 litres chicken stock"
	_, b := pagesOf(&sheets.Document{Title: "T", Sheets: []sheets.Sheet{s}}, Options{})
	lines := map[float64]string{}
	for _, o := range b.Pages[0].Ops {
		if w, ok := o.(*draw.Text); ok && w.Face == fonts.SansItalic {
			lines[w.Y] += w.Str
		}
	}
	require.Greater(t, len(lines), 2)
	for _, l := range lines {
		require.NotRegexp(t, `^\s*·`, l)
	}
}
