package page

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler/sheets"
	"tamis/lang/effort"
	"tamis/render/draw"
	"tamis/render/fonts"
	"tamis/testdata/fixture"
)

func plainly(s string) []sheets.Run { return []sheets.Run{{Text: s}} }

// banquet is a document of n dishes: contents, a shopping list, a run sheet, a
// chart, labels and a prep sheet of as many steps for each of the first three.
func banquet(n, steps int, name func(i int) string) *sheets.Document {
	doc := &sheets.Document{
		Title: "Harvest supper", Covers: "120 covers", When: "Saturday 4 September 2027, 18:30",
		Place: "Tithe barn", Language: "en-GB", Revision: "4f2a9c",
	}
	letter := func(i int) string {
		if i < 26 {
			return string(rune('A' + i))
		}
		return string(rune('A'+i/26-1)) + string(rune('A'+i%26))
	}
	dishes := &sheets.Table{Columns: []sheets.Column{{Kind: sheets.MarkColumn}, {Title: "Dish", Weight: 4}, {Title: "For"}, {Title: "How", Weight: 4}}}
	buy := &sheets.Table{Columns: []sheets.Column{{Kind: sheets.TickColumn}, {Title: "Buy", Kind: sheets.AmountColumn}, {Title: "What", Weight: 3}, {Title: "For", Weight: 3}}}
	run := runTable()
	run.Groups = nil
	label := &sheets.Table{Columns: []sheets.Column{{Kind: sheets.MarkColumn}, {Title: "What", Weight: 4}, {Title: "Made", Weight: 2}, {Title: "Initials", Kind: sheets.PencilColumn, Weight: 2}}}
	var dr, br, rr, lr []sheets.Row
	panel := sheets.Panel{Title: "Saturday 4 September", Start: 8 * 60, End: 19 * 60, Flags: []sheets.Flag{{At: 18*60 + 30, Label: "Supper"}}}
	cooks := []sheets.Lane{{Name: "Ana", Rows: 1}, {Name: "Jo", Rows: 1}, {Name: "Oven", Rows: 1}}
	var prep []sheets.Sheet
	for i := range n {
		doc.Dishes = append(doc.Dishes, sheets.Mark{Letter: letter(i), Name: name(i), Base: i%5 == 4})
		c := func(s string) sheets.Cell { return sheets.Cell{Runs: plainly(s)} }
		dr = append(dr, sheets.Row{Cells: []sheets.Cell{c(letter(i)), c(name(i)), c("120"), c("hot, within 10 min")}})
		br = append(br, sheets.Row{Cells: []sheets.Cell{{}, c(fmt.Sprintf("%d g", 100+i*37)), c(name(i)), c(letter(i) + " 450 g")}})
		at := 8*60 + i*10
		clock := fmt.Sprintf("%02d:%02d", at/60, at%60)
		rr = append(rr, sheets.Row{Cells: []sheets.Cell{c(clock), c(letter(i)), {Runs: plainly(name(i)), Sub: plainly("step 1")}, c("Ana"), c("oven 200 °C fan"), c(clock), {}}})
		lr = append(lr, sheets.Row{Cells: []sheets.Cell{c(letter(i)), c(name(i)), c("made Sat 4 Sep"), {}}})
		cooks[i%3].Bars = append(cooks[i%3].Bars, sheets.Bar{Start: at, End: at + 9, Kind: sheets.WorkBar, Letter: letter(i), Number: 1, Label: name(i)})
		if i >= 3 {
			continue
		}
		m := &sheets.Steps{}
		for k := range steps {
			m.Items = append(m.Items, &sheets.Step{
				Number: k + 1, Clock: clock, Who: "Ana", Runs: plainly("Stir and look, then stir again until it is thick."),
				Takes: []sheets.Take{{Amount: fmt.Sprintf("%d g", 5+k), Name: name(i)}}, Margin: []string{"work 2 min"},
			})
		}
		prep = append(prep, sheets.Sheet{ID: fmt.Sprintf("prep-%d", i), Kind: sheets.Prep, Title: name(i), Letter: letter(i), Facts: []string{"for 120"}, Blocks: []sheets.Block{m}})
	}
	dishes.Groups, buy.Groups, run.Groups, label.Groups = []sheets.Group{{Rows: dr}}, []sheets.Group{{Title: "Greengrocer", Rows: br}}, []sheets.Group{{Rows: rr}}, []sheets.Group{{Rows: lr}}
	panel.Lanes = cooks
	doc.Sheets = append([]sheets.Sheet{
		{ID: "o", Kind: sheets.Overview, Title: "The meal at a glance", Contents: true, Blocks: []sheets.Block{dishes}},
		{ID: "t", Kind: sheets.Timeline, Title: "Timeline", Wide: true, Blocks: []sheets.Block{&sheets.Chart{Panels: []sheets.Panel{panel}}}},
		{ID: "r", Kind: sheets.RunSheet, Title: "Run sheet", Blocks: []sheets.Block{run}},
		{ID: "s", Kind: sheets.Shopping, Title: "Shopping list", Blocks: []sheets.Block{buy}},
		{ID: "l", Kind: sheets.DateLabels, Title: "Date labels", Wide: true, Blocks: []sheets.Block{label}},
	}, prep...)
	return doc
}

// Every paper holds the smallest and the largest of meals: nothing overlaps,
// nothing is outside the margins, and every amount is there, in order.
func TestExtremesOnEveryPaper(t *testing.T) {
	short := func(i int) string { return fmt.Sprintf("Dish %d", i+1) }
	for i, c := range []struct {
		name string
		doc  *sheets.Document
	}{
		{"forty dishes", banquet(40, 3, short)},
		{"no dishes", banquet(0, 0, short)},
		{"sixty steps", banquet(1, 60, short)},
		{"long names", banquet(4, 2, func(i int) string {
			return "Slow shoulder of lamb with anchovies, rosemary and a crust of stale bread, number " + fmt.Sprint(i) + " " + strings.Repeat("unbreakable", 9)
		})},
		{"emoji", banquet(4, 2, func(i int) string { return "Plum 🍑 crumble 👩‍🍳 " + strings.Repeat("🥧", i+1) })},
	} {
		for k, opt := range allOptions {
			if !effort.Long() && k%3 != i%3 {
				continue // each option meets some of the documents
			}
			note := fmt.Sprintf("%s, %+v", c.name, opt)
			b := Lay(c.doc, opt)
			checkPages(t, b, note)
			for s := range c.doc.Sheets {
				_, err := fixture.Follow(spoken(b, s), printable(c.doc, s, opt.Fonts))
				require.NoError(t, err, note)
			}
			checkLegible(t, b, opt, note)
		}
	}
}

// checkLegible looks at the sizes of letters and at the ground they stand on.
//
// RNIB, Clear Print: 12 points at least, 14 better; large print is 16 points and
// up (from memory). Here sentences have 13.5, on cards, held in the hand, 12;
// second lines of tables and running heads are smaller, in large type none.
//
// WCAG 2.2, 1.4.6: a contrast of 7 to 1. Ink is black, paper white, which is
// 21 to 1 by the formula given there; white letters need a black ground.
func checkLegible(t *testing.T, b *Book, opt Options, note string) {
	t.Helper()
	for n, p := range b.Pages {
		var black []*draw.Rect
		for _, o := range p.Ops {
			switch o := o.(type) {
			case *draw.Rect:
				if o.Fill {
					black = append(black, o)
				}
			case *draw.Text:
				if strings.TrimSpace(o.Str) == "" {
					continue
				}
				least := 9.0
				if o.Face == fonts.Serif {
					least = 12
				}
				if opt.Large {
					least = 16
				}
				require.GreaterOrEqual(t, o.Size, least, "%s, page %d: %q", note, n+1, o.Str)
				if o.White {
					on := false
					for _, r := range black {
						on = on || r.X <= o.X && o.X+o.W <= r.X+r.W+0.5 && r.Y <= o.Y-fonts.CapHeight*o.Size && o.Y <= r.Y+r.H
					}
					require.True(t, on, "%s, page %d: %q is white on white", note, n+1, o.Str)
				}
			}
		}
	}
}

// WCAG 2.2, relative luminance and contrast ratio: (L1 + 0.05) / (L2 + 0.05).
func TestContrastOfInkOnPaper(t *testing.T) {
	const white, black = 1.0, 0.0
	require.InDelta(t, 21, (white+0.05)/(black+0.05), 1e-9)
	require.GreaterOrEqual(t, (white+0.05)/(black+0.05), 7.0)
}

// A heading never stands alone on a page or card.
func TestNoHeadingHasAPageToItself(t *testing.T) {
	step := &sheets.Step{Number: 1, Runs: plainly(strings.Repeat("Stir it well and look. ", 16))}
	for _, opt := range []Options{{Paper: Card5x3}, {Paper: Card6x4}, {Paper: A5, Large: true}} {
		doc := &sheets.Document{Title: "T", Sheets: []sheets.Sheet{{ID: "p", Kind: sheets.Prep, Title: "Soup", Blocks: []sheets.Block{
			&sheets.Prose{Paras: []sheets.Para{{Runs: plainly("For a cold day.")}}},
			&sheets.Heading{Text: "Method"}, &sheets.Steps{Items: []sheets.StepItem{step}},
		}}}}
		b := Lay(doc, opt)
		for i, p := range b.Pages {
			n := len(bodyWords(p))
			require.Greater(t, n, 1, "%+v, page %d of %d", opt, i+1, len(b.Pages))
		}
	}
}
