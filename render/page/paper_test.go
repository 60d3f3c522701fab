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

// ISO 216: A5 is half of A4. A card is measured in inches of 72 points.
func TestPapers(t *testing.T) {
	require.InDelta(t, A4.H/2, A5.W, 1.5)
	require.InDelta(t, A4.W, A5.H, 0.01)
	require.InDelta(t, 432, Card6x4.W, 0.01)
	require.InDelta(t, 216, Card5x3.H, 0.01)
	for _, p := range Papers() {
		got, ok := PaperNamed(strings.ToUpper(p.Name))
		require.True(t, ok)
		require.Equal(t, p, got)
	}
	_, ok := PaperNamed("foolscap")
	require.False(t, ok)
}

// words are the runs of a page that a document has put there.
func bodyWords(p *Page) (out []*draw.Text) {
	for _, o := range p.Ops {
		if w, ok := o.(*draw.Text); ok && w.Field > 0 {
			out = append(out, w)
		}
	}
	return out
}

func TestCardsCountByThemselvesAndNeverShrink(t *testing.T) {
	doc := fixture.Supper()
	for _, paper := range []Paper{Card6x4, Card5x3} {
		b := Lay(doc, Options{Paper: paper})
		in := map[int]int{}
		for _, p := range b.Pages {
			in[p.Sheet]++
			require.Equal(t, []float64{paper.W, paper.H}, []float64{p.W, p.H}, "a card is not turned")
		}
		at := map[int]int{}
		for _, p := range b.Pages {
			at[p.Sheet]++
			find(t, p, fmt.Sprintf("card %d of %d", at[p.Sheet], in[p.Sheet]))
			if doc.Sheets[p.Sheet].Kind == sheets.Timeline {
				continue
			}
			for _, w := range bodyWords(p) {
				if len([]rune(w.Str)) > 3 { // marks are letters of another size
					require.GreaterOrEqual(t, w.Size, card.small, "%q", w.Str)
				}
			}
		}
		require.Greater(t, in[3], 1, "what does not fit goes on a second card")
	}
}

func TestLightInkHasNoFilledBarsAndNoThickRules(t *testing.T) {
	ink := func(opt Options) (area float64, white int) {
		for _, p := range Lay(fixture.Supper(), opt).Pages {
			for _, o := range p.Ops {
				switch o := o.(type) {
				case *draw.Text:
					if o.White {
						white++
					}
				case *draw.Line:
					area += o.Width * (max(o.X2-o.X1, o.X1-o.X2) + max(o.Y2-o.Y1, o.Y1-o.Y2))
					if opt.Light {
						require.LessOrEqual(t, o.Width, 1.2)
						require.GreaterOrEqual(t, o.Width, 0.3)
					}
				case *draw.Rect:
					if o.Fill {
						area += o.W * o.H
					}
					area += 2 * o.Width * (o.W + o.H)
				}
			}
		}
		return area, white
	}
	full, _ := ink(Options{})
	light, white := ink(Options{Light: true})
	require.Less(t, light, full*0.75)
	require.Zero(t, white, "white letters need a black ground")
}

// Bars of work and of waiting are still told apart.
func TestLightBarsDiffer(t *testing.T) {
	p := &Page{Ops: []draw.Op{
		&draw.Rect{X: 10, Y: 10, W: 50, H: 14, Fill: true},
		&draw.Rect{X: 80, Y: 10, W: 50, H: 14, Width: 1, White: true},
		&draw.Rect{X: 10, Y: 40, W: 60, H: 16, Fill: true}, &draw.Text{X: 12, Y: 52, W: 30, Size: 11, Str: "First", White: true},
	}}
	lighten(p)
	require.Len(t, p.Ops, 5)
	line, ok := p.Ops[1].(*draw.Rect)
	require.True(t, ok)
	require.True(t, line.Fill && line.H < 5 && line.W == 50, "work keeps a line along its middle")
	require.False(t, p.Ops[2].(*draw.Rect).Fill)
	require.False(t, p.Ops[3].(*draw.Rect).Fill, "the ground of a flag is open")
	require.False(t, p.Ops[4].(*draw.Text).White)
}

// Where a chart needs a page for itself, its title and both keys share the one
// before it.
func TestTheKeyOfBarsStaysWithTheTitle(t *testing.T) {
	for _, opt := range allOptions {
		if opt.Paper.Card {
			continue
		}
		b := supperAs(opt)
		first := b.Pages[b.Sheets[1].Page]
		find(t, first, "hands-on")
	}
}
