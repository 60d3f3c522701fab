package page

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler/sheets"
	"tamis/render/draw"
	"tamis/render/fonts"
	"tamis/testdata/fixture"
)

func runTable() *sheets.Table {
	c := func(s string) sheets.Cell { return sheets.Cell{Runs: []sheets.Run{{Text: s}}} }
	return &sheets.Table{
		Columns: []sheets.Column{
			{Title: "Time", Kind: sheets.ClockColumn},
			{Kind: sheets.MarkColumn},
			{Title: "What", Weight: 6},
			{Title: "Who", Weight: 1},
			{Title: "Where", Weight: 3},
			{Title: "Until", Kind: sheets.ClockColumn},
			{Title: "Done", Kind: sheets.TickColumn},
		},
		Groups: []sheets.Group{{Rows: []sheets.Row{{Cells: []sheets.Cell{
			c("14:30"),
			c("B"),
			{Runs: []sheets.Run{{Text: "Cover tightly and cook in the oven until the meat slips from the bone"}}, Sub: []sheets.Run{{Text: "Slow lamb, step 3"}}},
			c("Ana"),
			c("oven 140 °C fan, roasting tin"),
			c("18:30"),
			{},
		}}}}},
	}
}

func layTable(tb *sheets.Table, opt Options) *Book {
	return Lay(&sheets.Document{
		Title: "T", Dishes: []sheets.Mark{{Letter: "B", Name: "Slow lamb"}},
		Sheets: []sheets.Sheet{{ID: "r", Kind: sheets.RunSheet, Title: "Run", Blocks: []sheets.Block{tb}}},
	}, opt)
}

// Where seven columns do not fit, the sentence gets the width and the rest
// stands below it, every clock time after the word that says what it is.
func TestNarrowTablesFoldTheirColumns(t *testing.T) {
	for _, c := range []struct {
		opt    Options
		folded bool
	}{{Options{Paper: Paper{W: A4.H, H: A4.W, binding: 57, edge: 37}}, false}, {Options{Large: true}, true}, {Options{Paper: A5}, true}, {Options{Paper: A5, Large: true}, true}, {Options{Paper: Card5x3}, true}} {
		b := layTable(runTable(), c.opt)
		var what, who, until *draw.Text
		lines := 0
		for _, p := range b.Pages {
			for _, w := range bodyWords(p) {
				switch {
				case strings.HasPrefix(w.Str, "Cover"):
					what, lines = w, 1
				case w.Str == "Ana" || strings.HasPrefix(w.Str, "Ana"):
					who = w
				case strings.HasPrefix(w.Str, "18:30"):
					until = w
				case what != nil && w.Field == what.Field:
					lines++
				}
			}
		}
		note := fmt.Sprintf("%+v", c.opt)
		require.NotNil(t, what, note)
		require.NotNil(t, who, note)
		require.NotNil(t, until, note)
		require.Equal(t, c.folded, who.Y > what.Y+1, "%s: the cook stands below the sentence", note)
		require.LessOrEqual(t, lines, 4, "%s: a sentence is no ladder of words", note)
		if c.folded && until.Y > what.Y+1 {
			find(t, b.Pages[0], "Until")
		}
		checkPages(t, b, note)
	}
}

// What is folded is read after the sentence it belongs to, in the order of the
// columns.
func TestFoldedColumnsKeepTheirOrder(t *testing.T) {
	for _, opt := range []Options{{Large: true}, {Paper: A5, Large: true}} {
		doc := &sheets.Document{Title: "T", Sheets: []sheets.Sheet{{ID: "r", Kind: sheets.RunSheet, Title: "Run", Blocks: []sheets.Block{runTable()}}}}
		_, err := fixture.Follow(spoken(Lay(doc, opt), 0), fixture.Fields(doc, 0))
		require.NoError(t, err)
	}
}

// A rule to write on keeps its title when its column is folded, and is long
// enough for a pen: 20 mm at least (common practice, no source).
func TestFoldedRulesCanBeWrittenOn(t *testing.T) {
	tb := &sheets.Table{Columns: []sheets.Column{
		{Kind: sheets.MarkColumn},
		{Title: "What", Weight: 4},
		{Title: "Limit", Weight: 3},
		{Title: "Time", Kind: sheets.PencilColumn, Weight: 2},
		{Title: "Put right by", Kind: sheets.PencilColumn, Weight: 3},
		{Title: "Initials", Kind: sheets.PencilColumn, Weight: 2},
	}}
	tb.Groups = []sheets.Group{{Rows: []sheets.Row{{Cells: []sheets.Cell{
		{Runs: []sheets.Run{{Text: "B"}}}, {Runs: []sheets.Run{{Text: "Pull the meat from the bones in large pieces into shallow trays"}}}, {Runs: []sheets.Run{{Text: "reaches 8 °C within 90 minutes"}}}, {}, {}, {},
	}}}}}
	b := layTable(tb, Options{Paper: A5, Large: true})
	rules := 0
	for _, o := range b.Pages[0].Ops {
		if l, ok := o.(*draw.Line); ok && len(l.Dash) == 2 && l.Dash[0] == 0.5 && l.Y1 == l.Y2 {
			rules++
			require.GreaterOrEqual(t, l.X2-l.X1, 20*mm-1)
		}
	}
	require.Equal(t, 3, rules)
	for _, s := range []string{"Time", "Put right by", "Initials"} {
		find(t, b.Pages[0], s)
	}
	checkPages(t, b, "log")
}

// The number of the page and the covers are whole on every paper.
func TestRunningLinesAreNeverCutShortWhereItMatters(t *testing.T) {
	doc := supper
	for _, opt := range allOptions {
		b := supperAs(opt)
		for n, p := range b.Pages {
			note := fmt.Sprintf("%+v, page %d", opt, n+1)
			if !opt.Paper.Card {
				find(t, p, fmt.Sprintf("page %d of %d", n+1, len(b.Pages)))
			}
			all := ""
			for _, o := range p.Ops {
				if w, ok := o.(*draw.Text); ok && w.Field == 0 {
					all += fixture.Squash(w.Str) + " "
				}
			}
			require.Contains(t, all, doc.Covers, note)
			require.Contains(t, all, doc.Revision, note)
		}
	}
}

// No page of a chart holds its keys or its heading alone, unless a long key
// leaves no room for a lane.
func TestChartPagesHoldBars(t *testing.T) {
	doc := supper
	for _, opt := range allOptions {
		if opt.Paper.Card {
			continue
		}
		b := supperAs(opt)
		for n, p := range b.Pages {
			if doc.Sheets[p.Sheet].Kind != sheets.Timeline {
				continue
			}
			lanes, low := 0, 0.0
			for _, o := range p.Ops {
				if w, ok := o.(*draw.Text); ok && w.Field > 0 {
					low = max(low, (w.Y-p.Area.Y)/p.Area.H)
				}
				if w, ok := o.(*draw.Text); ok && w.Face == fonts.SansBold && w.Field > 0 && math.Abs(w.Size/sizesAs(opt).chart-1) < 0.1 && w.X < p.Area.X+2*w.Size {
					lanes++
				}
			}
			if low > 0.4 && n == b.Sheets[p.Sheet].Page {
				continue
			}
			require.Positive(t, lanes, "%+v, page %d: a chart without lanes", opt, n+1)
		}
	}
}
