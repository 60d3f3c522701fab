package page

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler/sheets"
	"tamis/render/draw"
)

// leafDoc is a leaf of n dishes; long is how often its words are repeated.
func leafDoc(t *testing.T, n, long int, pictured bool) *sheets.Document {
	t.Helper()
	words := func(s string) string { return strings.TrimSpace(strings.Repeat(s+" ", long)) }
	m := &sheets.Masthead{Series: words("Six weeks to the river"), Part: "part 2 of 6", Watch: "example.org/" + strings.Repeat("river/", long), Link: "https://example.org/river"}
	m.Code = pictureOf(t, "code", 296, 296)
	s := sheets.Sheet{ID: "leaf", Kind: sheets.Leaf, Title: words("Butter for the fire"), Facts: []string{words("with Orla"), "Saturday 26 June 2027"}}
	s.Blocks = append(s.Blocks, m, &sheets.Prose{Paras: []sheets.Para{{Runs: plainly(words("Light the fire an hour before you need it."))}}})
	if pictured {
		m.Picture = pictureOf(t, "series", 900, 600)
		m.Picture.Words = words("The boathouse, drawn by Finn")
		s.Blocks = append(s.Blocks, pictureOf(t, "part", 1200, 900))
	}
	s.Blocks = append(s.Blocks, &sheets.Heading{Text: "What to buy"}, &sheets.List{Items: [][]sheets.Run{plainly(words("Greengrocer: 2 lemons; 1 head garlic"))}})
	for i := range n {
		g := sheets.Group{Title: "For the filling"}
		for k := range 6 {
			g.Rows = append(g.Rows, sheets.Row{Cells: []sheets.Cell{{Runs: plainly(fmt.Sprintf("%d g", 75*(k+1)))}, {Runs: plainly(words("capers, rinsed"))}}})
		}
		g.Rows = append(g.Rows, sheets.Row{Cells: []sheets.Cell{{Runs: plainly("1⅓ cups + 2 tablespoons")}, {Runs: plainly("oil")}}}, sheets.Row{Cells: []sheets.Cell{{}, {Runs: plainly("salt, to taste")}}})
		st := &sheets.Steps{}
		for k := range 4 {
			st.Items = append(st.Items, &sheets.Step{Number: k + 1, Look: []string{"oven 200 °C", "leave 35 to 40 min"}, Runs: plainly(words("Stir and look, then stir again."))})
		}
		st.Items = append(st.Items, &sheets.Break{Text: "May wait here up to 3 weeks, freezer"})
		s.Blocks = append(s.Blocks, &sheets.Heading{Text: words(fmt.Sprintf("Dish %d", i+1)), Note: "serve hot"}, &sheets.Table{Columns: []sheets.Column{{Kind: sheets.AmountColumn}, {Kind: sheets.TextColumn, Weight: 3}}, Groups: []sheets.Group{g}}, st)
	}
	s.Blocks = append(s.Blocks, &sheets.Cautions{Items: []sheets.Caution{{Text: words("Cool cooked food fast. Local rules come first.")}}})
	return &sheets.Document{Title: "Six weeks to the river, part 2", When: "Saturday 26 June 2027", Language: "en-GB", Revision: "4f2a9c", Sheets: []sheets.Sheet{s}}
}

// On any paper, however long its words and with pictures or without: nothing touches,
// nothing lies outside, the code stands on the first page as a square, and every figure is
// there.
func TestLeavesOnAnyPaper(t *testing.T) {
	papers := []Options{{}, {Paper: Letter}, {Paper: A5}, {Booklet: true}, {Large: true}, {Light: true}, {Paper: Card6x4}, {Paper: Card5x3}, {Paper: A5, Large: true}}
	for _, n := range []int{1, 3, 7} {
		for _, long := range []int{1, 4, 12} {
			for k, opt := range papers {
				doc := leafDoc(t, n, long, k%2 == 0)
				note := fmt.Sprintf("%d dishes, words times %d, %+v", n, long, opt)
				b := Lay(doc, opt)
				checkPages(t, b, note)
				all := spoken(b, 0)
				for i := range 6 {
					require.Equal(t, n, strings.Count(" "+all, fmt.Sprintf(" %d g ", 75*(i+1))), "%s: %s", note, all)
				}
				if opt.Paper.Card {
					continue
				}
				codes, head := 0, false
				for p, pg := range b.Pages {
					for _, o := range pg.Ops {
						if pic, ok := o.(*draw.Picture); ok {
							a := pg.Area
							require.True(t, pic.X >= a.X-1 && pic.X+pic.W <= a.X+a.W+1, note)
							head = head || pic.Of.Name == "series"
							if pic.Of.Name == "code" {
								codes++
								require.Zero(t, p, note)
								require.InDelta(t, pic.W, pic.H, 0.01)
								require.GreaterOrEqual(t, pic.W, 22*mm, note)
							}
						}
					}
				}
				require.Equal(t, 1, codes, note)
				require.Equal(t, head, strings.Contains(all, "drawn by Finn"), "%s: a picture at the head has its words", note)
				require.True(t, head || k%2 != 0 || long > 1, "%s: the picture of the series is missing", note)
			}
		}
	}
}

// A short leaf is one side in large letters; of a longer one the letters become smaller
// before there is a third; the picture goes before they are small.
func TestALeafIsAsLargeAsItsSheet(t *testing.T) {
	size := func(b *Book) (step float64, pictures int) {
		for _, p := range b.Pages {
			for _, o := range p.Ops {
				switch o := o.(type) {
				case *draw.Text:
					if strings.HasPrefix(o.Str, "Stir") {
						step = o.Size
					}
				case *draw.Picture:
					pictures++
				}
			}
		}
		return step, pictures
	}
	for _, n := range []int{1, 2, 3, 4, 5, 6, 7} {
		b := Lay(leafDoc(t, n, 1, true), Options{})
		step, pictures := size(b)
		require.LessOrEqual(t, len(b.Pages), 2, "%d dishes at %g", n, step)
		if step < 11 {
			require.NotEqual(t, 1, len(b.Pages), "%d dishes: small letters on one side, where there are two", n)
		}
		if step < 9.9 {
			require.Equal(t, 2, pictures, "%d dishes at %g: the code, and that of the series", n, step)
		}
	}
	last := 100.0
	for _, n := range []int{5, 6, 7} { // they need both sides
		step, _ := size(Lay(leafDoc(t, n, 1, false), Options{}))
		require.LessOrEqual(t, step, last)
		last = step
	}
	one, pictures := size(Lay(leafDoc(t, 1, 1, true), Options{}))
	require.InDelta(t, 11.5*leafScales[0], one, 0.01)
	require.Equal(t, 3, pictures, "the code, the series', the part's")
}

// What a dish gathers stands in one column, where there is room for that on its sheet.
func TestAListOfALeafIsInOneColumn(t *testing.T) {
	for _, opt := range []Options{{}, {Paper: Letter}} {
		for n := 1; n <= 4; n++ {
			for long := 1; long <= 3; long++ {
				b, cut, lists := Lay(leafDoc(t, n, long, false), opt), 0, 0
				var last *draw.Text
				for _, p := range b.Pages {
					for _, o := range p.Ops {
						x, ok := o.(*draw.Text)
						if !ok || !strings.Contains(" 75 150 225 300 375 450 ", " "+x.Str+" ") {
							continue
						}
						switch {
						case x.Str == "75":
							lists++
						case x.Y < last.Y: // in the next column, or on the next page
							cut++
						}
						last = x
					}
				}
				require.LessOrEqual(t, len(b.Pages), 2)
				require.Equal(t, n, lists)
				require.Zero(t, cut, "%d dishes, words times %d, %s", n, long, opt.Paper.Name)
			}
		}
	}
}
