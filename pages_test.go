package main

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler"
	"tamis/compiler/load"
	"tamis/compiler/plan"
	"tamis/compiler/sheets"
	"tamis/render/draw"
	"tamis/render/page"
)

// The words of the first page of each kind of sheet, where they stand and how
// large they are, so that a change of the layout is seen in review.
// `go test . -update` writes them anew.
func TestWhereWordsStand(t *testing.T) {
	seen := map[sheets.Kind]bool{}
	lunch := printed(t, "examples/harvest-lunch", sheets.Kinds()...)
	for _, s := range lunch.Sheets {
		if !seen[s.Kind] {
			seen[s.Kind] = true
			whereWordsStand(t, lunch, s.ID)
		}
	}
	whereWordsStand(t, printed(t, "examples/evening-class", sheets.Crew), "filming-2")
	seen[sheets.Crew] = true
	for _, d := range printedAll(t, "examples/evening-class", sheets.Series, sheets.Leaf)[:2] {
		seen[d.Sheets[0].Kind] = true
		whereWordsStand(t, d, d.Sheets[0].ID)
	}
	require.Len(t, seen, len(sheets.Kinds()))
}

// printed is the one document that a folder gives.
func printed(t *testing.T, folder string, kinds ...sheets.Kind) *sheets.Document {
	all := printedAll(t, folder, kinds...)
	require.Len(t, all, 1)
	return all[0]
}

func printedAll(t *testing.T, folder string, kinds ...sheets.Kind) []*sheets.Document {
	tree, err := load.Path(folder)
	require.NoError(t, err)
	return compiled(tree, compiler.Options{Sheets: kinds}).Documents
}

// whereWordsStand compares the first page of a sheet with the kept one.
func whereWordsStand(t *testing.T, doc *sheets.Document, id string) {
	book := page.Lay(doc, page.Options{})
	i := slices.IndexFunc(book.Sheets, func(s page.Start) bool { return s.ID == id })
	require.GreaterOrEqual(t, i, 0, id)
	p := book.Pages[book.Sheets[i].Page]
	got := strings.ReplaceAll(positions(p), doc.Revision, "······")
	got = strings.ReplaceAll(got, fmt.Sprintf("of %d", len(book.Pages)), "of all")
	name := filepath.Join("testdata", "pages", string(doc.Sheets[p.Sheet].Kind)+".txt")
	if *update {
		require.NoError(t, os.MkdirAll(filepath.Dir(name), 0o755))
		require.NoError(t, os.WriteFile(name, []byte(got), 0o644))
		return
	}
	want, err := os.ReadFile(name)
	require.NoError(t, err)
	require.Equal(t, string(want), got, "%s: look at the page, then run go test . -update", name)
}

// positions writes a line for every base line of a page: its distance from the
// top, then each run with the distance from the left and its size, in points.
func positions(p *page.Page) string {
	rows := map[int][]*draw.Text{}
	var order []int
	for _, o := range p.Ops {
		if w, ok := o.(*draw.Text); ok && w.Str != "" {
			y := int(math.Round(w.Y))
			if rows[y] == nil {
				order = append(order, y)
			}
			rows[y] = append(rows[y], w)
		}
	}
	slices.Sort(order)
	var b strings.Builder
	fmt.Fprintf(&b, "paper %.0f by %.0f\n", p.W, p.H)
	for _, y := range order {
		row := rows[y]
		slices.SortStableFunc(row, func(a, c *draw.Text) int { return cmp.Compare(a.X, c.X) })
		fmt.Fprintf(&b, "%d", y)
		for _, w := range row {
			fmt.Fprintf(&b, " | %.0f %.4g %s", w.X, w.Size, strings.ReplaceAll(w.Str, "\u00a0", " "))
		}
		b.WriteByte('\n')
	}
	return b.String()
}

// The gallery of the README: few, small, and there.
func TestGallery(t *testing.T) {
	pictures, err := filepath.Glob("examples/gallery/*.png")
	require.NoError(t, err)
	require.NotEmpty(t, pictures, ".ci/gallery makes them")
	require.LessOrEqual(t, len(pictures), 6)
	script, err := os.ReadFile(".ci/gallery")
	require.NoError(t, err)
	for _, name := range pictures {
		info, err := os.Stat(name)
		require.NoError(t, err)
		require.Less(t, info.Size(), int64(120<<10), name)
		require.Contains(t, string(script), strings.TrimSuffix(filepath.Base(name), ".png"), "the script makes every picture")
	}
}

// plans keeps what came of the meals of all tests here: many of them print the same
// examples in another way.
var plans plan.Memory

func compiled(tree *load.Tree, opt compiler.Options) *compiler.Result {
	opt.Plans = &plans
	return compiler.Compile(context.Background(), tree, opt)
}

// withPlans lets a command know them.
func withPlans() context.Context { return context.WithValue(context.Background(), plansKept{}, &plans) }
