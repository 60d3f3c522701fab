package pdf_test

import (
	"bytes"
	"compress/zlib"
	"fmt"
	"io"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler/sheets"
	"tamis/render/page"
	"tamis/render/pdf"
	"tamis/testdata/fixture"
)

// booklet is as many sheets as pages, each linked from a list on the first.
func booklet(pages int, opt pdf.Options) *sheets.Document {
	doc := &sheets.Document{Title: "Twelve jams"}
	for i := range pages {
		s := sheets.Sheet{ID: fmt.Sprintf("s%d", i+1), Title: fmt.Sprintf("Jam %d", i+1), Wide: i == 2}
		if i == 0 {
			l := &sheets.List{}
			for k := range pages {
				l.Items = append(l.Items, []sheets.Run{{Text: fmt.Sprintf("jam %d", k+1), Link: fmt.Sprintf("#s%d", k+1)}})
			}
			s.Blocks = []sheets.Block{l}
		}
		doc.Sheets = append(doc.Sheets, s)
	}
	return doc
}

// sides are the numbers of the objects that are pages of the file, in order.
func sides(t *testing.T, out string) []int {
	t.Helper()
	kids := regexp.MustCompile(`/Kids \[([^\]]*)\]`).FindStringSubmatch(out)
	require.NotNil(t, kids)
	var list []int
	for _, m := range regexp.MustCompile(`(\d+) 0 R`).FindAllStringSubmatch(kids[1], -1) {
		n, err := strconv.Atoi(m[1])
		require.NoError(t, err)
		list = append(list, n)
	}
	return list
}

// Links and bookmarks lead to the side of paper that has the page.
func TestABookletLeadsToTheRightSide(t *testing.T) {
	for n := 1; n <= 17; n++ {
		opt := pdf.Options{Booklet: true}
		out := string(write(t, booklet(n, opt), opt))
		book := page.Lay(booklet(n, opt), opt)
		require.Len(t, book.Pages, n)
		objects := sides(t, out)
		want := page.Sides(n)
		require.Len(t, objects, len(want))
		require.Contains(t, out, "/MediaBox [0 0 841.89 595.28]", "A4 on its side")
		require.NotContains(t, out, "/MediaBox [0 0 419", "no page by itself")
		on := func(k int) int { // the object of the side that page k is on
			for i, pair := range want {
				if pair[0] == k || pair[1] == k {
					return objects[i]
				}
			}
			return -1
		}
		var leads []string
		for k := 1; k <= n; k++ {
			leads = append(leads, fmt.Sprint(on(k)))
		}
		require.Equal(t, leads, targets(out, `/Subtype /Link [^>]*?/Dest \[(\d+) 0 R`), "links of %d pages", n)
		require.Equal(t, leads, targets(out, `\n/Dest \[(\d+) 0 R`), "bookmarks of %d pages", n)
	}
}

// targets are the objects that what is found by pattern leads to.
func targets(out, pattern string) (list []string) {
	for _, m := range regexp.MustCompile(pattern).FindAllStringSubmatch(out, -1) {
		list = append(list, m[1])
	}
	return list
}

var rect = regexp.MustCompile(`/Subtype /Link /Rect \[([-\d.]+) ([-\d.]+) ([-\d.]+) ([-\d.]+)\]`)

// The list of links is on page 1, the right half of the first side.
func TestLinksOfABookletMoveWithTheirPage(t *testing.T) {
	for _, paper := range []page.Paper{page.A4, page.Letter} {
		opt := pdf.Options{Booklet: true, Paper: paper}
		out := string(write(t, booklet(5, opt), opt))
		boxes := rect.FindAllStringSubmatch(out, -1)
		require.Len(t, boxes, 5)
		for _, b := range boxes {
			left, err := strconv.ParseFloat(b[1], 64)
			require.NoError(t, err)
			right, err := strconv.ParseFloat(b[3], 64)
			require.NoError(t, err)
			require.Greater(t, left, paper.H/2, "right of the fold")
			require.Less(t, right, paper.H)
		}
	}
}

// A link on a page that is turned is taller than wide, and within its half.
func TestLinksOnATurnedPageAreTurned(t *testing.T) {
	doc := booklet(4, pdf.Options{})
	doc.Sheets[0].Blocks = nil
	doc.Sheets[2].Blocks = []sheets.Block{&sheets.List{Items: [][]sheets.Run{{{Text: "a long name of jam to follow", Link: "#s1"}}}}}
	out := string(write(t, doc, pdf.Options{Booklet: true}))
	b := rect.FindStringSubmatch(out)
	require.NotNil(t, b)
	var v [4]float64
	for i := range v {
		var err error
		v[i], err = strconv.ParseFloat(b[i+1], 64)
		require.NoError(t, err)
	}
	w, h := max(v[0], v[2])-min(v[0], v[2]), max(v[1], v[3])-min(v[1], v[3])
	require.Greater(t, h, w*3)
	require.Greater(t, min(v[0], v[2]), page.A4.H/2, "page 3 is to the right of page 2")
}

func TestABookletIsTheSameTwice(t *testing.T) {
	opt := pdf.Options{Booklet: true, Paper: page.Letter, Large: true}
	a, b := write(t, fixture.Supper(), opt), write(t, fixture.Supper(), opt)
	require.Equal(t, a, b)
	require.True(t, strings.Contains(string(a), "/MediaBox [0 0 792.00 612.00]"))
}

// ISO 32000-1, 8.4.2: within a content stream q and Q are balanced. A state of
// the pen that was saved and not given back would turn the page after a turned one.
func TestStatesOfThePenAreGivenBack(t *testing.T) {
	for _, opt := range []pdf.Options{{}, {Light: true}, {Booklet: true}} {
		out := write(t, fixture.Supper(), opt)
		pages := 0
		for _, m := range regexp.MustCompile(`(?s)/FlateDecode[^>]*>>\s*stream\r?\n(.*?)endstream`).FindAllSubmatch(out, -1) {
			z, err := zlib.NewReader(bytes.NewReader(m[1]))
			if err != nil {
				continue
			}
			text, err := io.ReadAll(z)
			if err != nil || !bytes.Contains(text, []byte(" Td ")) {
				continue // a font
			}
			pages++
			deep := 0
			plain := regexp.MustCompile(`(?s)\((?:\\.|[^\\)])*\)`).ReplaceAll(text, nil)
			for _, w := range bytes.Fields(plain) {
				switch string(w) {
				case "q":
					deep++
				case "Q":
					deep--
				}
				require.GreaterOrEqual(t, deep, 0)
			}
			require.Zero(t, deep, "%+v, page %d", opt, pages)
		}
		require.Greater(t, pages, 5)
	}
}
