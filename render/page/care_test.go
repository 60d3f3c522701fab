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

// find is the first run on page p that begins with s.
func find(t *testing.T, p *Page, s string) *draw.Text {
	t.Helper()
	for _, o := range p.Ops {
		if w, ok := o.(*draw.Text); ok && strings.HasPrefix(fixture.Squash(w.Str), s) {
			return w
		}
	}
	t.Fatalf("%q is not on the page", s)
	return nil
}

func TestCautionsStandSideBySideInReadingOrder(t *testing.T) {
	doc := &sheets.Document{Sheets: []sheets.Sheet{{ID: "a", Title: "Pie", Blocks: []sheets.Block{&sheets.Cautions{Items: []sheets.Caution{
		{Text: "First: keep it at 8 °C or below, in the fridge, and no longer than it says here.", Source: "A handbook"},
		{Text: "Second: ask your guests what they cannot eat, and read the label of what you buy."},
		{Text: "Third: local rules come first."},
	}}}}}}
	b := Lay(doc, Options{})
	checkPages(t, b, "cautions")
	title, first, second := find(t, b.Pages[0], "Take care"), find(t, b.Pages[0], "First:"), find(t, b.Pages[0], "Second:")
	require.InDelta(t, title.Y, first.Y, 1, "the title stands beside")
	require.InDelta(t, first.Y, second.Y, 1)
	require.Greater(t, second.X, first.X+150)
	require.Equal(t, normal.small, first.Size)
	_, err := fixture.Follow(spoken(b, 0), fixture.Fields(doc, 0))
	require.NoError(t, err)

	large := Lay(doc, Options{Large: true})
	checkPages(t, large, "cautions, large")
	first, second = find(t, large.Pages[0], "First:"), find(t, large.Pages[0], "Second:")
	require.InDelta(t, first.X, second.X, 0.1, "in large type one below the other: columns would be narrow")
	require.GreaterOrEqual(t, first.Size, 16.0)
}

func TestManyCautionsGoOverThePageInTheirFrame(t *testing.T) {
	c := &sheets.Cautions{}
	for i := range 60 {
		c.Items = append(c.Items, sheets.Caution{Text: fmt.Sprintf("Caution %d: %s", i, strings.Repeat("mind how it goes ", 8)), Source: "A handbook"})
	}
	doc := &sheets.Document{Sheets: []sheets.Sheet{{ID: "a", Title: "Pie", Blocks: []sheets.Block{c}}}}
	b := Lay(doc, Options{})
	require.Greater(t, len(b.Pages), 1)
	checkPages(t, b, "many cautions")
	_, err := fixture.Follow(spoken(b, 0), fixture.Fields(doc, 0))
	require.NoError(t, err)
}

// A step of one line is not made tall by the clock and the cook beside it.
func TestAShortStepIsShort(t *testing.T) {
	st := &sheets.Steps{}
	for i := range 3 {
		st.Items = append(st.Items, &sheets.Step{
			Number: i + 1, Clock: "13:55", Who: "Ana", Runs: []sheets.Run{{Text: "Leave to settle."}}, Look: []string{"rest 15 min"},
		})
	}
	doc := &sheets.Document{Sheets: []sheets.Sheet{{ID: "a", Kind: sheets.Prep, Title: "Pie", Blocks: []sheets.Block{st}}}}
	b := Lay(doc, Options{})
	two, three := find(t, b.Pages[0], "2"), find(t, b.Pages[0], "3")
	require.Less(t, three.Y-two.Y, 4*normal.step)
	clock, look := find(t, b.Pages[0], "13:55"), find(t, b.Pages[0], "rest 15 min")
	require.InDelta(t, look.Y, clock.Y, 1.5, "clock and what is looked up share a base line")
	require.GreaterOrEqual(t, look.Size, 14.0, "it is read from an arm's length")
	require.Greater(t, clock.X, two.X+two.W)
}
