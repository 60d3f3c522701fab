package compiler_test

import (
	"bytes"
	"fmt"
	"image"
	"image/png"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler"
	"tamis/compiler/load"
	"tamis/compiler/sheets"
	"tamis/render/page"
)

// lessonsAtHome is a series with all that a leaf can say: a base that goes on, a copy, a
// correction, credits, a caution.
const lessonsAtHome = `series Two evenings
  by Nell Ferry
  link https://example.org/two evenings?a=1&b=2
  equipment stick blender
  part 1 Stock
    date 2027-03-04
    about
      Begin at six, with the largest pot you have.
    shows Stock
  part 2 Soup
    date 2027-03-06
    link https://example.org/soup
    props green bowls
    shows Soup
    copies 2 of Soup, as soft leeks
    corrected 2027-04-01: bring 900 ml of stock, not 800
larder
  units metric
base Stock
  makes 2 litres
  keeps 3 days, fridge
  source A card in a tin
  gather
    1 kg     carrots
    2.5 litres water
  method
    - Simmer the carrots in the water, and strain. | ring low | in stockpot | work 5 min | leave 5 h
    - Cool in iced water. | work 5 min | leave 45 min
dish Soup
  serves 4
  by Omar Lund
  corrected 2027-05-02, Nell: 600 g leeks, not 500
  gather
    for the pot
      600 g    leeks, sliced       | work 10 min
    40 g     butter
    900 ml   stock               | made in part 1
  method
    - Soften the leeks in 30 g of the butter. | ring low | in saucepan | work 5 min | leave 15 min | makes soft leeks
    - Pour in the stock, heat through and stir in the rest of the butter. | ring medium | tool stick blender | work 2 min | leave 10 min | caution hot soup spits
  serve hot, within 10 min
menu Supper for many
  covers 30
  on the table 2027-03-06 19:00
  course Main
    Soup
`

// inLines is everything a sheet says, block by block, in lines.
func inLines(s sheets.Sheet) (out []string) {
	out = append(out, s.Title+" | "+strings.Join(s.Facts, " · "))
	words := func(runs []sheets.Run) string { return strings.ReplaceAll(sheets.Words(runs), "\u00a0", " ") }
	for _, b := range s.Blocks {
		switch b := b.(type) {
		case *sheets.Masthead:
			out = append(out, "masthead "+b.Series+" | "+b.Part+" | "+b.Watch+" | "+b.Link)
		case *sheets.Heading:
			out = append(out, strings.TrimSpace("# "+b.Text+" "+b.Note))
		case *sheets.Prose:
			for _, p := range b.Paras {
				out = append(out, words(p.Runs))
			}
		case *sheets.List:
			for _, i := range b.Items {
				out = append(out, "- "+words(i))
			}
		case *sheets.Table:
			for _, g := range b.Groups {
				if g.Title != "" && s.Kind == sheets.Leaf {
					out = append(out, "## "+g.Title)
				}
				for _, r := range g.Rows {
					var cells []string
					for _, c := range r.Cells {
						cells = append(cells, strings.TrimSpace(words(c.Runs)+" "+words(c.Sub)))
					}
					out = append(out, strings.Join(cells, " | "))
				}
			}
		case *sheets.Steps:
			for _, i := range b.Items {
				switch i := i.(type) {
				case *sheets.Step:
					out = append(out, fmt.Sprintf("%d. %s | %s", i.Number, words(i.Runs), strings.Join(append(slices.Clone(i.Look), i.Margin...), " · ")))
				case *sheets.Break:
					out = append(out, "--- "+i.Text)
				}
			}
		case *sheets.Cautions:
			for _, c := range b.Items {
				out = append(out, "! "+c.Text)
			}
		}
	}
	return out
}

// A leaf has all that one needs at home, at the written size whatever the meal is for, and
// nothing of the crew's.
func TestLeaves(t *testing.T) {
	docs := handouts(t, lessonsAtHome, sheets.Leaf)
	require.Len(t, docs, 2)
	one, two := inLines(docs[0].Sheets[0]), inLines(docs[1].Sheets[0])
	require.Equal(t, []string{
		"Stock | with Nell Ferry · Thursday 4 March 2027",
		"masthead Two evenings | part 1 of 2 | example.org/two evenings?a=1&b=2 | https://example.org/two evenings?a=1&b=2",
		"Begin at six, with the largest pot you have.",
		"# What you make", "- Stock: makes 2 litres, hands-on 10 min, 5 h 55 min in all",
		"# What to buy", "- Greengrocer: 1 kg carrots",
		"# What you need", "- Stick blender, stockpot.",
		"# Ahead of time", "- Step 1 waits 5 h. It keeps 3 days, in the fridge.",
		"# Stock source: A card in a tin", "1 kg | carrots", "2.5 litres | water",
		"1. Simmer the carrots in the water, and strain. | ring low · hands-on 5 min · leave 5 h · in the stockpot",
		"2. Cool in iced water. | hands-on 5 min · leave 45 min",
		"# Keep for a later part", "- Stock: 900 ml for Soup in part 2, 1.1 litres left over; keeps 3 days, fridge",
	}, one[:len(one)-1])
	require.Regexp(t, `^! .*Local rules|local rules`, one[len(one)-1])

	text := strings.Join(two, "\n")
	for _, want := range []string{
		"part 2 of 2 | example.org/soup | https://example.org/soup", // its own address before that of the series
		"- Soup: serves 4, hands-on 17 min,",
		"# From an earlier part\n- 900 ml stock, from part 1, for Soup",
		"# What to buy\n- Greengrocer: 600 g leeks\n- Dairy: 1 block of 250 g butter (40 g)",
		"# Soup by Omar Lund · serve hot within 10 min",
		"## For the pot\n600 g | leeks, sliced\n## And besides\n40 g | butter", "900 ml | stock (made in part 1)",
		"1. Soften the leeks in 30 g of the butter. | ring low", "mind: hot soup spits",
		"# Corrections\n- Soup, 2 May 2027, Nell: 600 g leeks, not 500\n- This part, 1 April 2027: bring 900 ml of stock, not 800\n- All of them are in this leaf, revision " + docs[1].Revision,
	} {
		require.Contains(t, text, want)
	}
	for _, crews := range []string{"copy", "copies", "green bowls", "*", "30", "sheet A"} {
		require.NotContains(t, strings.ReplaceAll(text, "30 g of the butter", ""), crews)
	}
	require.Equal(t, 1, strings.Count(text, "!"), "cautions in one line")
	licensed := handouts(t, strings.Replace(lessonsAtHome, "    props green bowls\n", "    licence CC BY 4.0\n", 1), sheets.Leaf)
	require.Contains(t, inLines(licensed[1].Sheets[0])[0], "licence: CC BY 4.0")
}

// A leaf of which the larder knows no allergen says so, and still sends to the labels.
func TestALeafWithoutAKnownAllergenSaysSo(t *testing.T) {
	docs := handouts(t, lessonsAtHome, sheets.Leaf)
	require.Contains(t, strings.Join(inLines(docs[0].Sheets[0]), "\n"), "Of what is listed here the larder knows no allergen. Read every label for what makers add, and ask your guests.")
}

// Where a later part takes more than an earlier one makes as it is written, the leaf says so.
func TestALeafSaysWhereItIsNotEnough(t *testing.T) {
	docs := handouts(t, strings.Replace(lessonsAtHome, "makes 2 litres", "makes 500 ml", 1), sheets.Leaf)
	require.Contains(t, strings.Join(inLines(docs[0].Sheets[0]), "\n"), "- This makes less stock than the later parts take: make it 2 times for all of them.")
}

// The leaves of the examples are one sheet of paper: two pages, or four where it is folded.
// Every amount of what is gathered is the one that is written.
func TestLeavesOfTheExamples(t *testing.T) {
	folders, err := filepath.Glob("../examples/*")
	require.NoError(t, err)
	seen := 0
	for _, folder := range folders {
		if info, err := os.Stat(folder); err != nil || !info.IsDir() {
			continue
		}
		tree, err := load.Path(folder)
		if err != nil || !strings.Contains(allText(tree), "\nseries ") && !strings.HasPrefix(allText(tree), "series ") {
			continue
		}
		r := compiledTree(tree, compiler.Options{Sheets: []sheets.Kind{sheets.Leaf}})
		require.NotEmpty(t, r.Documents)
		for i, d := range r.Documents {
			seen++
			for _, paper := range []struct {
				opt  page.Options
				most int
			}{{page.Options{}, 2}, {page.Options{Paper: page.Letter}, 2}, {page.Options{Booklet: true}, 4}, {page.Options{Paper: page.A5}, 4}} {
				require.LessOrEqual(t, len(page.Lay(d, paper.opt).Pages), paper.most, "%s %v", d.File, paper.opt)
			}
			for _, m := range r.Series[0].Home.Parts[i].Meal.Makings {
				require.Equal(t, "1", m.Factor.String(), "%s in %s", m.Recipe.Name, d.File)
				require.Nil(t, m.StandIn)
				for _, a := range m.Lines {
					if a.Line.Quantity != nil && a.Quantity != nil {
						require.True(t, a.Quantity.Value.High.Equal(a.Line.Quantity.Value.High), "%s in %s", a.Line.Name, m.Recipe.Name)
					}
				}
			}
		}
	}
	require.GreaterOrEqual(t, seen, 4)
}

func allText(tree *load.Tree) string {
	var b strings.Builder
	for _, f := range tree.Files {
		b.WriteString("\n" + f.Source.Text)
	}
	return b.String()
}

// The code is the address, with four white modules on every side (ISO/IEC 18004, from
// memory): .ci/run has it read by a program that is not ours.
func TestTheCodeHasItsQuietZone(t *testing.T) {
	docs := handouts(t, lessonsAtHome, sheets.Leaf)
	m := docs[1].Sheets[0].Blocks[0].(*sheets.Masthead)
	require.NotNil(t, m.Code)
	require.Equal(t, "QR code of https://example.org/soup", m.Code.Alt)
	img := decoded(t, m.Code)
	side := img.Bounds().Dx()
	white := side
	for y := range side {
		for x := range side {
			if v, _, _, _ := img.At(x, y).RGBA(); v == 0 {
				white = min(white, x, y, side-1-x, side-1-y)
			}
		}
	}
	// the finder at the corner is seven modules wide
	wide := 0
	for x := white; ; x++ {
		if v, _, _, _ := img.At(x, white).RGBA(); v != 0 {
			break
		}
		wide++
	}
	require.Equal(t, wide*4/7, white)
	long := strings.Replace(lessonsAtHome, "https://example.org/soup", "https://example.org/"+strings.Repeat("soup/", 700), 1)
	require.Nil(t, handouts(t, long, sheets.Leaf)[1].Sheets[0].Blocks[0].(*sheets.Masthead).Code, "no code holds it: the address stands in letters")
}

// What keeps is bought for all parts on the first day of shopping, what does not near the
// day it is used; copies are not the viewers'.
func TestShoppingOfASeriesByDay(t *testing.T) {
	text := strings.Replace(lessonsAtHome, "    40 g     butter\n", "    40 g     butter\n    200 g    haddock\n    300 g    flour\n", 1)
	d := handouts(t, text, sheets.Series)[0]
	i := slices.IndexFunc(d.Sheets, func(s sheets.Sheet) bool { return s.ID == "shopping" })
	table := d.Sheets[i].Blocks[0].(*sheets.Table)
	on := map[string]string{}
	for _, g := range table.Groups {
		for _, r := range g.Rows {
			on[sheets.Words(r.Cells[2].Runs)] = g.Note + ": " + sheets.Words(r.Cells[3].Runs)
		}
	}
	require.Equal(t, "Wednesday 3 March 2027: part\u00a01", on["carrots"])
	require.Equal(t, "Wednesday 3 March 2027: part\u00a02", on["flour"], "it keeps")
	require.Equal(t, "Friday 5 March 2027: part\u00a02", on["haddock"], "it does not")
	flour := ""
	for _, g := range table.Groups {
		for _, r := range g.Rows {
			if sheets.Words(r.Cells[2].Runs) == "flour" {
				flour = sheets.Words(r.Cells[1].Runs) + sheets.Words(r.Cells[2].Sub)
			}
		}
	}
	require.Contains(t, flour, "2.25 kg", "300 g for four is so much for thirty, and the copies are not in it")
}

// The run-up counts the days; the chart is of the last day alone.
func TestTheRunUpOfASeries(t *testing.T) {
	d := handouts(t, lessonsAtHome, sheets.Series)[0]
	by := map[string]sheets.Sheet{}
	for _, s := range d.Sheets {
		by[s.ID] = s
	}
	run := inLines(by["run-up"])
	require.Contains(t, run, " | Part 1: Stock Stock | ")
	require.NotContains(t, strings.Join(run, "\n"), "Use by today", "all the stock goes into the soup")
	require.Contains(t, run, " | Shop: 3 things | for parts 1, 2")
	require.Contains(t, strings.Join(run, "\n"), "19:00 Soup Main")
	chart := by["timeline"].Blocks[0].(*sheets.Chart)
	require.Len(t, chart.Panels, 1)
	require.Equal(t, "Saturday 6 March", chart.Panels[0].Title)
}

// The running order: each step with what stands on the bench, the swap where a copy is
// caught, each copy by itself with when to begin; twice of everything for two copies more.
func TestTheFilmingDay(t *testing.T) {
	d := handouts(t, lessonsAtHome, sheets.Crew)[0]
	i := slices.IndexFunc(d.Sheets, func(s sheets.Sheet) bool { return s.Title == "Filming, Saturday 6 March 2027" })
	require.GreaterOrEqual(t, i, 0)
	text := strings.Join(inLines(d.Sheets[i]), "\n")
	for _, want := range []string{
		"# Copies that stand ready\n | A | Copy 1 of Soup, soft leeks | T−",
		" | after Soup, step 1\n | A | Copy 2 of Soup, soft leeks | T−", " | T | spare\n",
		"T | A | 1 | Soften the leeks in 225 g of the butter. | 4.5 kg leeks, sliced; 225 g butter | ring low · in the saucepan · 5 min | Swap: copy 1 of Soup, soft leeks, in place of 15 min",
		"T+0:05 | A | 2 | Pour in the stock, heat through and stir in the rest of the butter (75 g). | copy 1 of Soup, soft leeks; 6.75 litres stock, made in part 1; 75 g butter | ring medium · stick blender · mind: hot soup spits · 2 min | cut: 10 min, no copy",
		" | 3 × 4.5 kg | leeks, sliced | camera, copies 1, 2",
		" | 6.75 litres | stock made in part 1 | camera\n", " | 300 g | butter | camera\n | 2 × 225 g | butter | copies 1, 2",
		" | 3 | saucepans | A on camera, copy 1 of A, copy 2 of A",
		" |  | green bowls | \n", " |  | stick blender | A on camera\n",
	} {
		require.Contains(t, text, want)
	}
	// each copy is worked at by itself, and takes as much as the one before the camera
	require.Equal(t, 2, strings.Count(text, "Soften the leeks in 225 g of the butter copy "))
	for _, copy := range []string{"copy 1 of A Soup, step 1", "copy 2 of A Soup, step 1"} {
		require.Equal(t, 1, strings.Count(text, copy), copy)
	}
	buy := d.Sheets[slices.IndexFunc(d.Sheets, func(s sheets.Sheet) bool { return s.ID == "to-buy" })]
	require.Contains(t, strings.Join(inLines(buy), "\n"), "13.5 kg | leeks | A 4.5 kg · A*1–2 9 kg")

	// copies that are caught at two points are told apart in what is bought; one alone has no number
	for copies, want := range map[string]string{
		"copies 1 of Soup, as soft leeks\n    copies 1 of Soup": "A 4.5 kg · A*1 4.5 kg · A*2 4.5 kg",
		"copies 1 of Soup, as soft leeks":                       "A 4.5 kg · A* 4.5 kg",
	} {
		d := handouts(t, strings.Replace(lessonsAtHome, "copies 2 of Soup, as soft leeks", copies, 1), sheets.Crew)[0]
		buy := d.Sheets[slices.IndexFunc(d.Sheets, func(s sheets.Sheet) bool { return s.ID == "to-buy" })]
		require.Contains(t, strings.Join(inLines(buy), "\n"), "leeks | "+want)
	}
}

func decoded(t *testing.T, p *sheets.Picture) image.Image {
	img, err := png.Decode(bytes.NewReader(p.Data))
	require.NoError(t, err)
	require.Equal(t, p.Width, img.Bounds().Dx())
	return img
}
