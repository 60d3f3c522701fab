package main

import (
	"path/filepath"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler"
	"tamis/compiler/load"
	"tamis/compiler/sheets"
	"tamis/lang/effort"
	"tamis/render/draw"
	"tamis/render/page"
)

// What a kitchen gets, in pages of A4: a lunch of five dishes and two bases on no more
// than thirteen, the first five examples together on eighty, a book on a page a recipe,
// with two for each chapter and ten for its front and its index. No page is under a third full but the last of a sheet, and
// what hangs can be read from where it hangs.
func TestAKitchenPrintsFewPages(t *testing.T) {
	dirs, err := filepath.Glob("examples/*/README.md")
	require.NoError(t, err)
	first := []string{"bakery-morning", "dumpling-supper", "evening-class", "harvest-lunch", "village-hall-curry"}
	total := 0
	for _, d := range dirs {
		dir := filepath.Dir(d)
		tree, err := load.Path(dir)
		require.NoError(t, err)
		r := compiled(tree, compiler.Options{})
		for _, doc := range r.Documents {
			if doc.Bound { // a book has room: a chapter has a page that opens it
				opens := 0
				for _, s := range doc.Sheets {
					if s.Kind == sheets.Chapter {
						opens++
					}
				}
				require.GreaterOrEqual(t, len(r.Model.Recipes), 40)
				require.LessOrEqual(t, len(page.Lay(doc, page.Options{}).Pages), len(r.Model.Recipes)+2*opens+10)
				continue
			}
			n := len(heldFull(t, doc))
			switch name := filepath.Base(dir); {
			case slices.Contains(first, name):
				total += n
				if name == "harvest-lunch" {
					require.LessOrEqual(t, n, 13)
				}
			}
		}
	}
	require.LessOrEqual(t, total, 80)
}

// A day of up to four cooks hangs on one leaf of A4, with the moments near one another in
// one row and fewer words where it would else take two, for three cooks what each begins in an
// hour below one another; on A3, in larger type where there is room, every day does.
// What does not hang stays on A4.
func TestADayHangsOnOneLeaf(t *testing.T) {
	days := func(dir string, paper page.Paper) (out map[string]int) {
		tree, err := load.Path("examples/" + dir)
		require.NoError(t, err)
		out = map[string]int{}
		for _, doc := range compiled(tree, compiler.Options{}).Documents {
			for _, p := range page.Lay(doc, page.Options{Paper: paper}).Pages {
				s := doc.Sheets[p.Sheet]
				if s.Kind != sheets.Wall && s.Kind != sheets.Timeline {
					require.InDelta(t, page.A4.W, min(p.W, p.H), 0.01, s.Title)
					continue
				}
				require.InDelta(t, paper.Hung().W, min(p.W, p.H), 0.01, s.Title)
				if s.Kind == sheets.Wall {
					out[s.Title]++
				}
			}
		}
		return out
	}
	for _, dir := range []string{"bakery-morning", "dumpling-supper", "evening-class", "harvest-lunch", "regatta-picnic", "village-hall-curry"} {
		leaves := days(dir, page.A4)
		require.NotEmpty(t, leaves)
		for title, n := range leaves {
			require.Equal(t, 1, n, "%s: %s", dir, title)
		}
	}
	for _, dir := range []string{"bakery-morning", "evening-class", "harvest-lunch", "village-hall-curry"} {
		leaves := days(dir, page.A3)
		require.NotEmpty(t, leaves)
		for title, n := range leaves {
			require.Equal(t, 1, n, "%s: %s", dir, title)
		}
	}
	require.InDelta(t, 297/25.4*72, page.A3.Hung().W, 0.01)
}

func TestPagesOfChanceAreFull(t *testing.T) {
	laid := 0
	rounds := effort.Rounds[uint64](10, 200)
	for seed := range rounds {
		tree, err := load.FS(menuByChance(seed), ".", "", "")
		require.NoError(t, err)
		for _, doc := range compiled(tree, compiler.Options{}).Documents {
			laid += len(heldFull(t, doc))
		}
	}
	require.Greater(t, laid, min(100, 3*int(rounds)))
}

// heldFull lays a document out and looks at each page.
func heldFull(t *testing.T, doc *sheets.Document) []*page.Page {
	t.Helper()
	pages := page.Lay(doc, page.Options{}).Pages
	for n, p := range pages {
		kind := doc.Sheets[p.Sheet].Kind
		lowest, smallest := 0.0, 99.0
		foot := p.Area.Y + p.Area.H - 24
		for _, o := range p.Ops {
			top, low := o.Span()
			if top < foot {
				lowest = max(lowest, min(low, foot))
			}
			if w, ok := o.(*draw.Text); ok && w.Field > 0 {
				smallest = min(smallest, w.Size)
			}
		}
		// with -v, a line for each page: how full, and the smallest letters
		t.Logf("%s | %d | %s | %.0f %% | %.1f pt", doc.Title, n+1, doc.Sheets[p.Sheet].Title, (lowest-p.Area.Y)/p.Area.H*100, smallest)
		goesOn := n+1 < len(pages) && pages[n+1].Sheet == p.Sheet
		// a chart is parted at its days, however little one holds
		if full := (lowest - p.Area.Y) / p.Area.H; goesOn && full < 1.0/3 && kind != sheets.Timeline {
			t.Errorf("%s, page %d (%s) is %.0f per cent full and goes on", doc.Title, n+1, doc.Sheets[p.Sheet].Title, full*100)
		}
		switch kind {
		case sheets.Wall:
			require.GreaterOrEqual(t, smallest, 13.0, "%s, page %d hangs", doc.Title, n+1)
		case sheets.Timeline:
			require.GreaterOrEqual(t, smallest, 10.5, "%s, page %d hangs", doc.Title, n+1)
		}
	}
	return pages
}
