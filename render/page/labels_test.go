package page

import (
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler/sheets"
	"tamis/render/draw"
	"tamis/testdata/fixture"
)

// labelPage is the page of date labels of the supper.
func labelPage(t *testing.T, opt Options) *Page {
	t.Helper()
	doc := fixture.Supper()
	for _, p := range Lay(doc, opt).Pages {
		if doc.Sheets[p.Sheet].Kind == sheets.DateLabels {
			return p
		}
	}
	t.Fatal("no page of labels")
	return nil
}

func TestLabelsStandInAGridByMillimetres(t *testing.T) {
	for _, paper := range []Paper{A4, Letter} {
		p := labelPage(t, Options{Paper: paper})
		const label = 80 * 72 / 25.4
		stock, butter, layers := find(t, p, "made Fri 5 Nov 19:31"), find(t, p, "made Fri 5 Nov 18:10"), find(t, p, "contains egg")
		require.InDelta(t, label, butter.X-stock.X, 0.01)
		require.InDelta(t, label, layers.X-butter.X, 0.01)
		require.Equal(t, stock.Y, butter.Y)
		upright := 0
		var flat []float64
		for _, o := range p.Ops {
			if l, ok := o.(*draw.Line); ok && len(l.Dash) == 2 && l.Dash[0] == 4 {
				if l.X1 == l.X2 {
					upright++
				} else {
					flat = append(flat, l.Y1)
				}
			}
		}
		require.Equal(t, 4+2, upright, "lines to cut along")
		require.Len(t, flat, 2+2)
		require.GreaterOrEqual(t, flat[1]-flat[0], 42*72/25.4-0.01)
		require.InDelta(t, flat[1]-flat[0], flat[3]-flat[2], 0.01, "all are of one height")
		require.InDelta(t, flat[1], flat[2], 0.01, "and touch")
	}
}

func TestAnEmptyFieldOfALabelIsARuleToWriteOn(t *testing.T) {
	p := labelPage(t, Options{})
	rules := map[string]int{}
	for i, o := range p.Ops {
		w, ok := o.(*draw.Text)
		if !ok || w.Field != 0 || i+1 == len(p.Ops) {
			continue
		}
		if l, ok := p.Ops[i+1].(*draw.Line); ok && len(l.Dash) == 2 && l.Dash[0] == 0.5 && l.X2-l.X1 > 100 {
			rules[fixture.Squash(w.Str)]++
		}
	}
	require.Equal(t, map[string]int{"Made": 2, "Use by": 2, "Contains": 1, "Initials": 4}, rules)
}

func TestATableThatIsNoListOfLabelsIsATable(t *testing.T) {
	doc := &sheets.Document{Sheets: []sheets.Sheet{{ID: "a", Kind: sheets.DateLabels, Title: "Labels", Blocks: []sheets.Block{
		&sheets.Table{Columns: []sheets.Column{{Title: "Amount", Kind: sheets.AmountColumn}, {Title: "What"}}, Groups: []sheets.Group{{Rows: []sheets.Row{
			{Cells: []sheets.Cell{{Runs: []sheets.Run{{Text: "450 g"}}}, {Runs: []sheets.Run{{Text: "beans"}}}}},
		}}}},
	}}}}
	b := Lay(doc, Options{})
	require.NotNil(t, find(t, b.Pages[0], "Amount"))
	checkPages(t, b, "table")
}

// A label names its dish: a key of letters would only push the labels to the
// next page.
func TestLabelsHaveNoKey(t *testing.T) {
	doc := fixture.Supper()
	for i := range doc.Sheets {
		s := &doc.Sheets[i]
		if s.Kind == sheets.DateLabels {
			require.Empty(t, Key(doc, s))
			return
		}
	}
	t.Fatal("the supper has no labels")
}

// Three labels have a sheet of three rows of three to themselves: each is there three
// times, and is read once.
func TestLabelsFillTheirSheet(t *testing.T) {
	tb := &sheets.Table{Columns: []sheets.Column{{Kind: sheets.MarkColumn}, {Title: "What", Weight: 4}, {Title: "Made", Weight: 2}, {Title: "Initials", Kind: sheets.PencilColumn}}, Groups: []sheets.Group{{}}}
	for _, name := range []string{"stock", "butter", "oil"} {
		tb.Groups[0].Rows = append(tb.Groups[0].Rows, sheets.Row{Cells: []sheets.Cell{{}, {Runs: []sheets.Run{{Text: name}}}, {Runs: []sheets.Run{{Text: "made Fri 5 Nov"}}}, {}}})
	}
	count := func(opt Options) (pages, printed, read int) {
		b := Lay(&sheets.Document{Title: "T", Sheets: []sheets.Sheet{{ID: "l", Kind: sheets.DateLabels, Title: "Labels", Wide: true, Blocks: []sheets.Block{tb}}}}, opt)
		checkPages(t, b, "labels")
		for _, p := range b.Pages {
			for _, o := range p.Ops {
				if w, ok := o.(*draw.Text); ok && w.Str == "stock" {
					printed++
					if w.Field > 0 {
						read++
					}
				}
			}
		}
		return len(b.Pages), printed, read
	}
	pages, printed, read := count(Options{})
	require.Equal(t, []int{1, 3, 1}, []int{pages, printed, read}, "A4 on its side has room for three rows")
	for range 3 {
		tb.Groups[0].Rows = append(tb.Groups[0].Rows, tb.Groups[0].Rows[:2]...)
	}
	pages, printed, read = count(Options{})
	require.Equal(t, []int{1, 4, 4}, []int{pages, printed, read}, "nine fill the sheet")
}
