package compiler_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler"
	"tamis/compiler/demand"
	"tamis/compiler/sheets"
	"tamis/compiler/sheets/build"
	"tamis/lang/diag"
)

const supper = `menu Supper
  covers 8
  on the table 2027-05-08 19:00
  at Kitchen
  rules UK
  hours day before, 15:00 to 20:00
  hours on the day, 14:00 to 21:00
  course Main
    Leek pie
    Greens
  course After, 1 h after Main
    Lemon sorbet, from the shop
kitchen Kitchen
  cooks Ana, Jo
  oven main, 2 shelves, preheat 15 min
  rings 4
larder
  units metric
base Green oil
  makes 300 ml
  keeps 2 days, fridge
  gather
    60 g     parsley leaves
    300 ml   rapeseed oil
  method
    - Blend the parsley with the rapeseed oil.
      | work 5 min
base Green dressing
  makes 200 ml
  keeps 5 days, fridge
  gather
    150 ml   green oil
    50 ml    white wine vinegar
  method
    - Whisk the green oil into the vinegar.
      | work 5 min
dish Leek pie
  serves 4
  about
    Butter *first*, leeks **last**. See [the page](https://example.org/leeks).
  gather
    800 g    leeks, sliced          | work 6 min
    60 g     butter
    1        lemon
    2        eggs
  method
    - Melt half the butter, add the leeks and cook until soft.
      | ring low | work 3 min | leave 15 min
    - Stir in 20 g of the butter and a lemon.
      | work 2 min
    - Beat in the eggs and the rest of the butter, and bake until gold.
      | oven 200 C | work 5 min | leave 30 min
  serve hot, within 15 min
dish Greens
  serves 4
  gather
    500 g    spring greens, shredded
    30 ml    green dressing
  method
    - Boil the greens in plenty of water.
      | ring high | work 2 min | leave 4 min
    - Drain and toss with the green dressing.
      | work 2 min
  serve hot, within 10 min
`

// pages compiles a text and gives its only document.
func pages(t *testing.T, text string, opt compiler.Options) *sheets.Document {
	t.Helper()
	r := compileText(t, text, opt)
	for _, d := range r.Diags.Sorted() {
		require.Less(t, d.Severity, diag.Error, "%s %s: %s", d.Code, d.At.Span.Text(), d.Message)
	}
	require.Len(t, r.Documents, 1)
	return r.Documents[0]
}

func sheetOf(t *testing.T, d *sheets.Document, kind sheets.Kind, title string) *sheets.Sheet {
	t.Helper()
	for i := range d.Sheets {
		if s := &d.Sheets[i]; s.Kind == kind && (title == "" || s.Title == title) {
			return s
		}
	}
	t.Fatalf("no %s sheet %s", kind, title)
	return nil
}

func runText(runs []sheets.Run) string {
	return strings.ReplaceAll(sheets.Words(runs), "\u00a0", " ") // where a line may break is the page's affair
}

// rows are the rows of a sheet's tables as text, cells divided by " | ".
func rows(s *sheets.Sheet) (out []string) {
	for _, blk := range s.Blocks {
		tb, ok := blk.(*sheets.Table)
		if !ok {
			continue
		}
		for _, g := range tb.Groups {
			for _, r := range g.Rows {
				var cells []string
				for _, c := range r.Cells {
					text := runText(c.Runs)
					if len(c.Sub) > 0 {
						text += " (" + runText(c.Sub) + ")"
					}
					if text != "" {
						cells = append(cells, text)
					}
				}
				out = append(out, strings.Join(cells, " | "))
			}
		}
	}
	return out
}

func steps(s *sheets.Sheet) (out []*sheets.Step) {
	for _, blk := range s.Blocks {
		if st, ok := blk.(*sheets.Steps); ok {
			for _, it := range st.Items {
				if x, ok := it.(*sheets.Step); ok {
					out = append(out, x)
				}
			}
		}
	}
	return out
}

func TestPrepSheetShowsScaledAmountsInProse(t *testing.T) {
	d := pages(t, supper, compiler.Options{Sheets: []sheets.Kind{sheets.Prep}})
	s := sheetOf(t, d, sheets.Prep, "Leek pie")
	require.Equal(t, []string{"1.6 kg | leeks, sliced", "120 g | butter", "2 | lemons", "4 | eggs"}, rows(s))
	st := steps(s)
	require.Len(t, st, 3)
	require.Equal(t, "Melt half the butter (60 g), add the leeks and cook until soft.", runText(st[0].Runs), "a share is followed by what it comes to")
	require.Equal(t, "Stir in 40 g of the butter and 2 lemons.", runText(st[1].Runs), "figures are scaled")
	require.Equal(t, "Beat in the eggs and the rest of the butter (20 g), and bake until gold.", runText(st[2].Runs))
	var takes []string
	for _, tk := range st[2].Takes {
		takes = append(takes, strings.TrimSpace(tk.Amount+" "+tk.Name+" "+tk.Note))
	}
	require.Equal(t, []string{"20 g butter the rest"}, takes, "what the list above says whole is not said again")
	require.Equal(t, []string{"oven 200 °C", "hands-on 5 min"}, st[2].Look[:2])
}

func TestAboutIsMarkdown(t *testing.T) {
	d := pages(t, supper, compiler.Options{})
	p := sheetOf(t, d, sheets.Prep, "Leek pie").Blocks[0].(*sheets.Prose)
	require.Equal(t, []sheets.Run{
		{Text: "Butter "},
		{Text: "first", Style: sheets.Emph},
		{Text: ", leeks "},
		{Text: "last", Style: sheets.Strong},
		{Text: ". See "},
		{Text: "the page", Link: "https://example.org/leeks"},
		{Text: "."},
	}, p.Paras[0].Runs)
	require.Empty(t, build.Markdown("<script>alert(1)</script>"))
	require.Empty(t, build.Markdown("[x](javascript:alert(1))")[0].Runs[0].Link, "what could run is no link")
}

func TestOverviewSharesBases(t *testing.T) {
	d := pages(t, supper, compiler.Options{Sheets: []sheets.Kind{sheets.Overview}})
	require.Equal(t, "8 covers", d.Covers)
	require.Equal(t, "Saturday 8 May 2027, 19:00", d.When)
	got := rows(sheetOf(t, d, sheets.Overview, ""))
	require.Contains(t, got, "A | Leek pie | 8 | hot, within 15 min")
	require.Contains(t, got, "Lemon sorbet | 8 | from the shop")
	require.Contains(t, got, "C | Green oil (keeps 2 days, fridge) | 45 ml | 45 ml D Green dressing | nothing")
	require.Contains(t, got, "D | Green dressing (keeps 5 days, fridge) | 60 ml | 60 ml B Greens | nothing")
}

func TestMiseAndShoppingAddUpOnce(t *testing.T) {
	d := pages(t, supper, compiler.Options{})
	mise := rows(sheetOf(t, d, sheets.Mise, ""))
	require.Contains(t, mise, "1.6 kg | leeks, sliced | A1 18:00")
	require.Contains(t, mise, "45 ml | green oil | D1 18:25", "what a base draws")
	shop := rows(sheetOf(t, d, sheets.Shopping, ""))
	require.Contains(t, shop, "45 ml | rapeseed oil | C", "for the base, through the dressing: 300 × 45/300")
	require.Contains(t, shop, "1 packet (of 30 g) | parsley leaves (9 g needed) | C")
	require.Contains(t, shop, "for 8 | Lemon sorbet | After", "bought ready")
	for _, r := range shop {
		require.NotContains(t, r, "green dressing", "what is made here is not bought")
	}
}

func TestRunSheetIsInOrderAndHotOnTime(t *testing.T) {
	d := pages(t, supper, compiler.Options{Sheets: []sheets.Kind{sheets.RunSheet}})
	got := rows(sheetOf(t, d, sheets.RunSheet, ""))
	last := ""
	for _, r := range got {
		at, _, _ := strings.Cut(r, " | ")
		require.LessOrEqual(t, last, at, "in order of time (one day)")
		last = at
	}
	require.Contains(t, got, "19:00 | A B | Serve: Leek pie, Greens (Main) | Ana", "a course is one row")
	require.Contains(t, got, "20:00 | Serve: Lemon sorbet (After) | Jo")
	heat := -1
	for i, r := range got {
		if strings.Contains(r, "Heat the oven to 200 °C") {
			heat = i
		}
		if strings.Contains(r, "Beat in the eggs") {
			require.GreaterOrEqual(t, heat, 0, "the oven is heated first")
		}
	}
}

// US Food Code 3-501.17(D), as adopted by states: a mixture goes by its
// earliest part.
func TestLabelsGoByTheEarliestPart(t *testing.T) {
	d := pages(t, supper, compiler.Options{Sheets: []sheets.Kind{sheets.DateLabels}})
	tb := d.Sheets[0].Blocks[0].(*sheets.Table)
	until := map[string]string{}
	for _, r := range tb.Groups[0].Rows {
		until[runText(r.Cells[1].Runs)] = runText(r.Cells[3].Runs)
		require.NotEmpty(t, runText(r.Cells[2].Runs), "when it was made")
	}
	require.NotEmpty(t, until["Green oil"])
	require.Equal(t, until["Green oil"], until["Green dressing"], "the dressing keeps five days, and the oil in it two")
}

func TestOtherUnitsInPrint(t *testing.T) {
	d := pages(t, supper, compiler.Options{Units: "US", Sheets: []sheets.Kind{sheets.Prep}})
	got := strings.Join(rows(sheetOf(t, d, sheets.Prep, "Leek pie")), "\n")
	require.Contains(t, got, "lb", "1.6 kg of leeks are 3½ lb")
	require.NotContains(t, got, "kg")
}

func TestSameTextSamePages(t *testing.T) {
	a, b := pages(t, supper, compiler.Options{Sheets: sheets.Kinds()}), pages(t, supper, compiler.Options{Sheets: sheets.Kinds()})
	require.Equal(t, a, b)
	require.Len(t, a.Revision, 6)
	c := pages(t, supper+"\n# a word more\n", compiler.Options{})
	require.NotEqual(t, a.Revision, c.Revision, "any change of the text changes the stamp")
}

// Two loads of 14 minutes are not one of 28: a cook would burn the first.
func TestLoadsKeepTheirOwnTime(t *testing.T) {
	d := pages(t, `menu Rolls
  covers 12
  on the table 2027-05-08 09:00
  at Kitchen
  course C
    Rolls
kitchen Kitchen
  cooks Ana
  oven main, 2 shelves
  vessel tray, holds 1 kg, 2
dish Rolls
  serves 12
  gather
    2 kg     dough xx
  method
    - Bake the dough xx.
      | oven 220 C, 2 shelves | in tray, holds 1 kg | work 2 min per load | leave 14 min per load
  serve warm, within 1 h
`, compiler.Options{})
	got := strings.Join(steps(sheetOf(t, d, sheets.Prep, "Rolls"))[0].Look, " · ")
	require.Contains(t, got, "2 equal loads, the next at 08:40 · hands-on 2 min a load · leave 14 min a load")
}

// A person can follow one number from plate to basket, and no printed figure
// is further from the exact one than the stated tolerance.
func TestFiguresFromPlateToBasket(t *testing.T) {
	d := pages(t, supper, compiler.Options{})
	find := func(of, recipe, thing string) sheets.Figure {
		for _, f := range d.Figures {
			if f.Of == of && f.Recipe == recipe && f.Thing == thing {
				return f
			}
		}
		t.Fatalf("no %s of %s %s", of, recipe, thing)
		return sheets.Figure{}
	}
	line := find("line", "Greens", "green dressing")
	require.Equal(t, "60", line.Exact)
	require.Equal(t, "Green dressing", line.Source)
	require.Equal(t, []string{"written 30 ml", "× 2", "written for 4, made for 8"}, line.How)
	drawn := find("drawn", "Green dressing", "Green dressing")
	require.Equal(t, []string{"60 ml for Greens"}, drawn.How)
	oil := find("line", "Green dressing", "green oil")
	require.Equal(t, "45", oil.Exact)
	require.Contains(t, oil.How, "× 3/10")
	buy := find("buy", "", "rapeseed oil")
	require.Equal(t, "45", buy.Exact)
	require.Equal(t, "45 ml", buy.Printed)
	require.Equal(t, []string{"45 ml for Green oil"}, buy.How)
}

// Parts are printed one by one, and what is bought covers their sum.
func TestPrintedPartsAddUp(t *testing.T) {
	text := "menu M\n  covers 2\n  course C\n    One\n    Two\n    Three\n"
	for _, n := range []string{"One", "Two", "Three"} {
		text += "dish " + n + "\n  serves 6\n  gather\n    100 g    flour xx, sifted\n  method\n    - Mix everything.\n"
	}
	d := pages(t, text, compiler.Options{})
	require.Equal(t, []string{"33 g | flour xx, sifted | A1", "33 g | flour xx, sifted | B1", "33 g | flour xx, sifted | C1"}, rows(sheetOf(t, d, sheets.Mise, "")))
	require.Equal(t, []string{"99 g | flour xx | A 33 g · B 33 g · C 33 g"}, rows(sheetOf(t, d, sheets.Shopping, "")))
}

// Children eat half a portion: common practice, no source.
func TestChildrenEatHalf(t *testing.T) {
	text := strings.Replace(supper, "covers 8", "covers 8, 4 children", 1)
	only := []sheets.Kind{sheets.Prep}
	d := pages(t, text, compiler.Options{Sheets: only})
	require.Equal(t, "8 covers and 4 children", d.Covers)
	require.Contains(t, rows(sheetOf(t, d, sheets.Prep, "Leek pie")), "2 kg | leeks, sliced", "800 g for four, for ten")
	require.Equal(t, "for 8 and 4 children", sheetOf(t, d, sheets.Prep, "Leek pie").Facts[0])

	d = pages(t, text, compiler.Options{Sheets: only, Demand: demand.Options{Covers: 6}})
	require.Equal(t, "6 covers", d.Covers, "the command line speaks of all who eat")
	require.Contains(t, rows(sheetOf(t, d, sheets.Prep, "Leek pie")), "1.2 kg | leeks, sliced")
}

// What is left over is named with where it keeps and until when.
func TestLeftoversSayUntilWhen(t *testing.T) {
	d := pages(t, strings.Replace(supper, "base Green oil\n", "base Green oil\n  whole batches\n", 1), compiler.Options{})
	var text string
	for _, blk := range sheetOf(t, d, sheets.Prep, "Green oil").Blocks {
		if l, ok := blk.(*sheets.List); ok {
			for _, it := range l.Items {
				text += runText(it) + "\n"
			}
		}
	}
	require.Regexp(t, `255 ml Green oil left over: keeps 2 days, fridge, use by Mon 10 May 1\d:\d\d`, text)
}

// A stock that chills overnight was made when it left the heat, not when its
// fat was lifted off next day: the earlier date is the one to print.
func TestMadeWhenItLeftTheHeat(t *testing.T) {
	r := example(t, "harvest-lunch", compiler.Options{Sheets: []sheets.Kind{sheets.DateLabels}})
	var stock, lamb string
	for _, row := range rows(&r.Documents[0].Sheets[0]) {
		switch {
		case strings.Contains(row, "Brown stock"):
			stock = row
		case strings.Contains(row, "Slow lamb"):
			lamb = row
		}
	}
	require.Contains(t, stock, "| made Sat 18 Sep ")
	require.Contains(t, stock, "| use by Tue 21 Sep ", "three days on")
	out := 0
	for _, j := range r.Timelines[0].Jobs {
		if j.Oven != "" && j.Making.Recipe.Name == "Slow lamb" && j.Start() < 0 {
			out = j.End() + 24*60
		}
	}
	clock := fmt.Sprintf("%02d:%02d", out/60, out%60)
	require.Contains(t, lamb, "| made Sat 18 Sep "+clock+" | use by Sun 19 Sep "+clock, "a paused dish too keeps from when it left the oven")
}

// What a step gives is printed in the unit it was written in.
func TestByProductsKeepTheirUnit(t *testing.T) {
	r := example(t, "evening-class", compiler.Options{})
	var margins string
	for _, st := range steps(sheetOf(t, r.Documents[0], sheets.Prep, "Labneh")) {
		margins += strings.Join(st.Margin, " · ") + "\n"
	}
	require.Contains(t, margins, "makes 2 cups whey")
}

// On a file card what is gathered stands once, in one run; beside a step stands only
// what is a part of it.
func TestACardSaysAThingOnce(t *testing.T) {
	s := sheetOf(t, pages(t, supper, compiler.Options{Sheets: []sheets.Kind{sheets.Prep}, Card: true}), sheets.Prep, "Leek pie")
	var words string
	for _, b := range s.Blocks {
		_, list := b.(*sheets.Table)
		require.False(t, list)
		if p, ok := b.(*sheets.Prose); ok {
			for _, para := range p.Paras {
				words += runText(para.Runs) + "\n"
			}
		}
	}
	require.Contains(t, words, "1.6 kg leeks, sliced · 120 g butter · 2 lemons · 4 eggs")
	var takes []string
	for _, st := range steps(s) {
		for _, tk := range st.Takes {
			takes = append(takes, strings.TrimSpace(tk.Amount+" "+tk.Name))
		}
	}
	require.Equal(t, []string{"60 g butter", "40 g butter", "20 g butter"}, takes)
}
