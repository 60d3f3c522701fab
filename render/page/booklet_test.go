package page

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler/sheets"
	"tamis/render/draw"
	"tamis/testdata/fixture"
)

// Worked examples of the rule "last and first, second and last but one, …":
// common practice of saddle stitching, no source; worked by hand with folded paper.
func TestSidesOfABooklet(t *testing.T) {
	for n, want := range map[int][][2]int{
		1:  {{0, 1}, {0, 0}},
		4:  {{4, 1}, {2, 3}},
		6:  {{0, 1}, {2, 0}, {6, 3}, {4, 5}},
		8:  {{8, 1}, {2, 7}, {6, 3}, {4, 5}},
		16: {{16, 1}, {2, 15}, {14, 3}, {4, 13}, {12, 5}, {6, 11}, {10, 7}, {8, 9}},
	} {
		require.Equal(t, want, Sides(n), "%d pages", n)
	}
}

// Whoever folds the sheets and turns the leaves reads the pages in order, blank
// ones last.
func TestAFoldedBookletReadsInOrder(t *testing.T) {
	for n := 1; n <= 17; n++ {
		sides := Sides(n)
		require.Zero(t, len(sides)%2, "a sheet has two sides")
		sheets := len(sides) / 2
		require.Equal(t, (n+3)/4, sheets, "%d pages: no sheet too many", n)
		var front, back []int // the pages before and after the staples
		for s := range sheets {
			// with the sheet folded, its front is outside: the right half of the
			// front is a leaf whose other side is the left half of the back
			front = append(front, sides[2*s][1], sides[2*s+1][0])
			back = append([]int{sides[2*s+1][1], sides[2*s][0]}, back...)
		}
		read := append(front, back...)
		for i, p := range read {
			want := i + 1
			if want > n {
				want = 0
			}
			require.Equal(t, want, p, "%d pages, leaf side %d", n, i+1)
		}
	}
}

// ISO 216: A5 is half of A4. Half a US Letter sheet is 5.5 × 8.5 inches.
func TestPagesOfABookletAreHalfTheirPaper(t *testing.T) {
	half, ok := A4.Half()
	require.True(t, ok)
	require.Equal(t, []float64{A5.W, A5.H}, []float64{half.W, half.H})
	half, ok = Letter.Half()
	require.True(t, ok)
	require.InDeltaSlice(t, []float64{5.5 * 72, 8.5 * 72}, []float64{half.W, half.H}, 0.001)
	for _, p := range []Paper{A5, Card6x4, Card5x3} {
		_, ok := p.Half()
		require.False(t, ok, "%s is not folded", p.Name)
	}
}

// The wider margin is at the fold: left on the right-hand page and right on the
// left-hand one; above and below where a page is turned with its head to the left.
func TestTheGutterIsAtTheFold(t *testing.T) {
	for _, paper := range []Paper{A4, Letter} {
		b := Lay(fixture.Supper(), Options{Paper: paper, Booklet: true})
		require.Equal(t, paper.Name, b.Folded.Name)
		half, _ := paper.Half()
		wide := 0
		for i, p := range b.Pages {
			left, right := p.Area.X, p.W-p.Area.X-p.Area.W
			above, below := p.Area.Y, p.H-p.Area.Y-p.Area.H
			recto := i%2 == 0
			switch {
			case p.W > p.H && recto:
				wide++
				require.InDelta(t, half.binding, above, 0.01)
				require.InDelta(t, half.edge, below, 0.01)
			case p.W > p.H:
				wide++
				require.InDelta(t, half.edge, above, 0.01)
				require.InDelta(t, half.binding, below, 0.01)
			case recto:
				require.InDelta(t, half.binding, left, 0.01)
				require.InDelta(t, half.edge, right, 0.01)
			default:
				require.InDelta(t, half.edge, left, 0.01)
				require.InDelta(t, half.binding, right, 0.01)
			}
		}
		require.Positive(t, wide)
		checkPages(t, b, paper.Name)
	}
}

// On the left of two open pages nothing need be turned.
func TestALeftPageGoesOnOpposite(t *testing.T) {
	b := Lay(fixture.Supper(), Options{Booklet: true})
	seen := map[bool]int{}
	for i, p := range b.Pages {
		if !p.Turn {
			continue
		}
		var hint string
		for _, o := range p.Ops {
			if w, ok := o.(*draw.Text); ok && (strings.HasPrefix(w.Str, "Turn") || strings.HasPrefix(w.Str, "Goes")) {
				hint = w.Str
			}
		}
		opposite := strings.HasPrefix(fixture.Squash(hint), "Goes on opposite")
		require.Equal(t, i%2 == 1, opposite, "page %d: %q", i+1, hint)
		seen[opposite]++
	}
	require.Len(t, seen, 2)
}

// The numbers are those that the reader counts, without the blank pages.
func TestNumbersOfABookletAreTheReaders(t *testing.T) {
	doc := &sheets.Document{Title: "T", Sheets: []sheets.Sheet{{ID: "a", Title: "A"}, {ID: "b", Title: "B"}, {ID: "c", Title: "C"}}}
	b := Lay(doc, Options{Booklet: true})
	require.Len(t, b.Pages, 3)
	for i, p := range b.Pages {
		find(t, p, fmt.Sprintf("page %d of 3", i+1))
	}
}
