package page

import (
	"bytes"
	"fmt"
	"image"
	"image/png"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler/sheets"
	"tamis/lang/effort"
	"tamis/render/draw"
	"tamis/testdata/fixture"
)

func pictureOf(t *testing.T, name string, w, h int) *sheets.Picture {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, png.Encode(&b, image.NewGray(image.Rect(0, 0, w, h))))
	return &sheets.Picture{Name: name, Alt: name, Type: "png", Data: b.Bytes(), Width: w, Height: h}
}

// Pictures of any shape anywhere in any document: each stands on a page once,
// inside the margins, over no words, in its own shape and no finer than it is;
// and with a picture a sheet has at most one page more for each.
func TestRandomPictures(t *testing.T) {
	for seed := range effort.Rounds[uint64](12, 60) {
		r := rand.New(rand.NewPCG(seed, 5))
		opt := allOptions[seed%uint64(len(allOptions))]
		doc := fixture.Random(seed)
		plain := len(Lay(doc, opt).Pages)
		n := 0
		for i := range doc.Sheets {
			if s := &doc.Sheets[i]; s.Kind == sheets.Prep && r.IntN(2) == 0 || r.IntN(3) == 0 && s.Kind != sheets.DateLabels {
				p := pictureOf(t, fmt.Sprintf("p%d", n), 20+r.IntN(1500), 20+r.IntN(1500))
				if r.IntN(2) == 0 {
					p.Words = "How it looks when it is done"
				}
				s.Blocks = slices.Insert(slices.Clone(s.Blocks), r.IntN(len(s.Blocks)+1), sheets.Block(p))
				n++
			}
		}
		b := Lay(doc, opt)
		note := fmt.Sprintf("seed %d", seed)
		checkPages(t, b, note)
		require.LessOrEqual(t, len(b.Pages), plain+2*n, note)
		seen := map[string]int{}
		for k, p := range b.Pages {
			for _, o := range p.Ops {
				pic, ok := o.(*draw.Picture)
				if !ok {
					continue
				}
				seen[pic.Of.Name]++
				require.NotNil(t, pic.Tag, note)
				require.InDelta(t, float64(pic.Of.Width)/float64(pic.Of.Height), pic.W/pic.H, 0.02*pic.W/pic.H, "%s: out of shape", note)
				require.LessOrEqual(t, pic.W, float64(pic.Of.Width)*72/pictureDPI+0.01, "%s: made larger than it is", note)
				a := p.Area
				require.True(t, pic.X >= a.X-1 && pic.X+pic.W <= a.X+a.W+1, "%s, page %d: outside the margins", note, k+1)
				for _, q := range p.Ops {
					w, ok := q.(*draw.Text)
					if ok && w.X < pic.X+pic.W && w.X+w.W > pic.X && w.Y-0.6*w.Size < pic.Y+pic.H && w.Y > pic.Y+0.5 {
						t.Fatalf("%s, page %d: %q lies on a picture", note, k+1, w.Str)
					}
				}
			}
		}
		require.Len(t, seen, n, note)
		for name, times := range seen {
			require.Equal(t, 1, times, "%s: %s", note, name)
		}
	}
}

// A picture never costs the cook a page turn: where there is no room beside
// the words it goes to the foot, smaller.
func TestAPictureIsAGuest(t *testing.T) {
	doc := fixture.Supper()
	for _, opt := range []Options{{Paper: A4}, {Paper: Letter}} {
		usual := Lay(doc, opt)
		for i, s := range doc.Sheets {
			if s.Kind != sheets.Prep {
				continue
			}
			with := *doc
			with.Sheets = slices.Clone(doc.Sheets)
			with.Sheets[i].Blocks = slices.Insert(slices.Clone(s.Blocks), 1, sheets.Block(pictureOf(t, "p", 900, 240)))
			b := Lay(&with, opt)
			require.LessOrEqual(t, len(b.Pages), len(usual.Pages)+1)
		}
	}
}

// In light ink a picture has no colour.
func TestPicturesInLightInk(t *testing.T) {
	doc := fixture.Supper()
	doc.Sheets[0].Blocks = append([]sheets.Block{pictureOf(t, "p", 300, 200)}, doc.Sheets[0].Blocks...)
	for _, light := range []bool{false, true} {
		for _, p := range Lay(doc, Options{Paper: A4, Light: light}).Pages {
			for _, o := range p.Ops {
				if pic, ok := o.(*draw.Picture); ok {
					require.Equal(t, light, pic.Grey)
				}
			}
		}
	}
}
